//! Credits and penalties of the score, in one place. Our judgement, checked against known
//! matches.

/// How much an unasked word of the name counts against it.
pub(crate) const EXTRA: f32 = 0.45;
/// How much an unasked word counts that only narrows an asked one (`cheddar` for `cheese`).
pub(crate) const NARROWER_EXTRA: f32 = 0.4;
/// Credit when the name has the broader word (`sirloin` met by `beef`).
pub(crate) const BROADER: f32 = 0.75;
/// The same where the broader word is among the broadest (`sturgeon` met by `fish`).
pub(crate) const BROADEST: f32 = 0.45;
/// Credit when the name has the broader word beside another kind of it (`colby cheese`
/// met by `cheddar cheese`).
pub(crate) const SIBLING: f32 = 0.15;
/// A food word missing on either side: a different food of the same make (`apple juice`
/// for `carrot juice`).
pub(crate) const SWAPPED: f32 = 0.65;
/// The same where the two are flavours of something sweet.
pub(crate) const OTHER_FLAVOUR: f32 = 0.85;
/// Credit below which a food word counts as missing.
pub(crate) const HALF_MET: f32 = 0.5;
/// Credit for a product where the name only has what it is made of.
pub(crate) const MADE_OF: f32 = 0.35;
/// Credit when the name has a narrower word (`cheese` met by `cheddar`).
pub(crate) const NARROWER: f32 = 0.8;
/// Credit for a state said in another word (`grilled` met by `charred`).
pub(crate) const SAME_STATE: f32 = 0.95;
/// What is left of a missed state's weight: names leave most states unstated.
pub(crate) const UNSTATED: f32 = 0.5;
/// Fruit, vegetable or herb that is dried on one side only.
pub(crate) const DRIED: f32 = 0.5;
/// Credit for the query's head where the name has it as what comes along.
pub(crate) const HEAD_ALONG: f32 = 0.45;
/// The same where the name has it as what it is made of (`cheese` in a burrito).
pub(crate) const WITHIN: f32 = 0.7;
/// The query's head is missing in the name.
pub(crate) const HEAD_MISSED: f32 = 0.65;
/// The name's head is not asked for.
pub(crate) const HEAD_EXTRA: f32 = 0.82;
/// The name's head is a product that is not asked for: what the query asks for is in it.
pub(crate) const DISH_EXTRA: f32 = 0.65;
/// Credit for a state that is nearly the same (`reduced-fat` met by `light`).
pub(crate) const ALIKE_STATE: f32 = 0.6;
/// The query asks for a product (oil, juice) that the name is not.
pub(crate) const PRODUCT_MISSED: f32 = 0.6;
/// The name is a product that the query does not ask for.
pub(crate) const PRODUCT_EXTRA: f32 = 0.7;
/// A part (liver, skin) on one side only.
pub(crate) const PART: f32 = 0.5;
/// How much of such a penalty is left for what only comes along.
pub(crate) const ALONG: f32 = 0.35;
/// A special version that nobody asked for.
pub(crate) const UNASKED: f32 = 0.9;
/// Another food by its make (imitation, baby food) that nobody asked for.
pub(crate) const OTHER_MAKE: f32 = 0.4;
/// What a word weighs that the query excludes and the name does not speak of: it may
/// hold it or not.
pub(crate) const NOT_EXCLUDED: f32 = 0.6;
/// The name excludes something else than the query does.
pub(crate) const OTHER_EXCLUDED: f32 = 0.93;
/// Head and modifier change places (`chocolate milk`, `milk chocolate`).
pub(crate) const TURNED: f32 = 0.85;
/// A number asked for (`90%`) that the name does not have.
pub(crate) const OTHER_NUMBER: f32 = 0.93;
/// A cut asked for and another one given.
pub(crate) const OTHER_CUT: f32 = 0.85;
/// A word that says which food it is, missing in the name.
pub(crate) const KIND_MISSED: f32 = 0.85;
/// A word excluded on one side and present on the other.
pub(crate) const EXCLUDED: f32 = 0.3;
/// What a name loses that says the same in other words.
pub(crate) const OTHER_WORDS: f32 = 0.04;
/// Words that the query means, against those that it is written in.
pub(crate) const MEANT: f32 = 0.9;
/// Score of a distant name that is another kind of the same sort.
pub(crate) const DISTANT_KIND: f32 = 0.08;
/// What is left of that where their sorts are one step apart.
pub(crate) const FARTHER: f32 = 0.9;
/// Score of a distant name in the very same words.
pub(crate) const DISTANT_WORDS: f32 = 0.12;
/// Most that a distant name scores.
pub(crate) const DISTANT_MOST: f32 = DISTANT_KIND + DISTANT_WORDS;
/// Most that a name scores that is not the query word for word.
pub(crate) const INEXACT: f32 = 0.995;
/// A name that means the same, word for word.
pub(crate) const SAME_MEANING: f32 = 0.985;
