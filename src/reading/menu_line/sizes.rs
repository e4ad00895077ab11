//! Sizes, counts, parts of a whole and stated amounts within a menu line.

use super::super::phrase::PhraseRole;
use super::super::tokens::Kind;
use super::lexer::Lexed;
use super::prices::is_fraction;
use super::serving::{ServingWords, SizeWord};

/// Words that may name a size.
pub(super) const SIZES: [&str; 45] = [
    "mini",
    "small",
    "sm",
    "medium",
    "med",
    "regular",
    "reg",
    "large",
    "lg",
    "lrg",
    "xl",
    "kids",
    "kid's",
    "child's",
    "children's",
    "junior",
    "jr",
    "personal",
    "individual",
    "single",
    "double",
    "triple",
    "half",
    "full",
    "cup",
    "bowl",
    "pint",
    "quart",
    "glass",
    "bottle",
    "pitcher",
    "carafe",
    "can",
    "mug",
    "shot",
    "tall",
    "grande",
    "petite",
    "giant",
    "jumbo",
    "family",
    "footlong",
    "king",
    "queen",
    "sharing",
];
/// Sizes that come before the name of a dish.
const BEFORE: [&str; 33] = [
    "extra large",
    "x large",
    "xl",
    "mini",
    "small",
    "sm",
    "medium",
    "med",
    "regular",
    "reg",
    "large",
    "lg",
    "lrg",
    "kids",
    "kid's",
    "child's",
    "children's",
    "junior",
    "jr",
    "personal",
    "individual",
    "single",
    "double",
    "triple",
    "tall",
    "short stack",
    "full stack",
    "foot long",
    "footlong",
    "petite",
    "giant",
    "jumbo",
    "family size",
];
/// Vessels that come before `of`.
const VESSELS: [&str; 13] = [
    "cup",
    "bowl",
    "pint",
    "quart",
    "glass",
    "bottle",
    "can",
    "mug",
    "pitcher",
    "carafe",
    "shot",
    "half pint",
    "large bowl",
];
/// Words that a size word describes instead of the dish.
const NO_SIZE_OF: [&str; 37] = [
    "rare",
    "well",
    "plates",
    "plate",
    "bites",
    "chocolate",
    "berry",
    "fudge",
    "decker",
    "dipped",
    "stuffed",
    "crust",
    "cream",
    "caramel",
    "meat",
    "cheese",
    "protein",
    "patty",
    "shot",
    "menu",
    "meal",
    "cheddar",
    "citrus",
    "ginger",
    "glazed",
    "heat",
    "spicy",
    "hot",
    "curd",
    "grain",
    "baked",
    "smoked",
    "cooked",
    "batch",
    "gloucester",
    "layer",
    "bacon",
];

/// Claims sizes, counts, parts and amounts; says what they mean for the serving.
pub(super) fn claim_sizes(line: &mut Lexed<'_>, serving: &mut ServingWords) {
    let mut at = 0;
    while at < line.len() {
        if line.claimed(at) {
            at += 1;
            continue;
        }
        let next = inches(line, at, serving)
            .or_else(|| count(line, at, serving))
            .or_else(|| part(line, at, serving))
            .or_else(|| amount(line, at))
            .or_else(|| size(line, at, serving));
        at = next.unwrap_or(at + 1);
    }
}

/// `12"`, `12-inch`, `30 cm`.
fn inches(line: &mut Lexed<'_>, at: usize, serving: &mut ServingWords) -> Option<usize> {
    let value = line.number(at)?;
    let unit = at + 1 + usize::from(line.is_mark(at + 1, &['-']) && line.glued(at + 1));
    let each = if line.is_mark(unit, &['"', '\u{2033}', '\u{201d}'])
        || line.any(unit, &["inch", "inches"])
    {
        1.0
    } else if line.is(unit, "in") && line.mark(unit + 1) == Some('.') {
        1.0
    } else if line.is(unit, "cm") {
        1.0 / 2.54
    } else {
        return None;
    };
    if !(1.0..=40.0).contains(&(value * each)) {
        return None;
    }
    serving.inches.get_or_insert(value * each);
    line.claim(PhraseRole::Size, at, unit + 1);
    Some(unit + 1)
}

const NUMBERS: [(&str, f64); 14] = [
    ("one", 1.0),
    ("two", 2.0),
    ("three", 3.0),
    ("four", 4.0),
    ("five", 5.0),
    ("six", 6.0),
    ("seven", 7.0),
    ("eight", 8.0),
    ("nine", 9.0),
    ("ten", 10.0),
    ("eleven", 11.0),
    ("twelve", 12.0),
    ("dozen", 12.0),
    ("pair", 2.0),
];
/// Largest number that counts pieces of one order.
const MOST_PIECES: f64 = 100.0;

/// A number at `at`, in figures or a word, small enough to count.
pub(super) fn counting(line: &Lexed<'_>, at: usize) -> Option<f64> {
    if line.claimed(at) {
        return None;
    }
    let spelt = || {
        NUMBERS
            .iter()
            .find(|(word, _)| line.is(at, word))
            .map(|(_, n)| *n)
    };
    let value = line.number(at).or_else(spelt)?;
    (value > 0.0 && value <= MOST_PIECES).then_some(value)
}

const PIECES: [&str; 26] = [
    "pc", "pcs", "pce", "piece", "pieces", "ct", "count", "stick", "sticks", "skewer", "skewers",
    "rolls", "roll", "ea", "each", "wings", "slices", "slice", "links", "strips", "scoop",
    "scoops", "balls", "pk", "pack", "piezas",
];

/// `6 pc`, `(4)`, `x3`, `half a dozen`, `two scoops`, `3` before a food.
fn count(line: &mut Lexed<'_>, at: usize, serving: &mut ServingWords) -> Option<usize> {
    let (value, next, sets) = counted(line, at)?;
    if sets {
        if serving.count.is_none() {
            serving.count = Some(value);
        }
        serving.counts.push(value);
    }
    line.claim(PhraseRole::Count, at, next);
    Some(next)
}

/// A count at `at`: the number, the token behind, and whether it counts the dish itself.
fn counted(line: &Lexed<'_>, at: usize) -> Option<(f64, usize, bool)> {
    if let Some(next) = line.longest(at, &["half a dozen", "half dozen", "a half dozen"]) {
        return Some((6.0, next, true));
    }
    if let Some(next) = line.longest(at, &["a dozen", "one dozen"]) {
        return Some((12.0, next, true));
    }
    if line.is(at, "dozen") && at > 0 && (line.claimed(at - 1) || line.ends(at + 1)) {
        return Some((12.0, at + 1, false));
    }
    // `single scoop`.
    if line.any(at, &["single", "double", "triple"])
        && line.any(at + 1, &["scoop", "scoops", "dip"])
    {
        let value = match line.word(at) {
            "single" => 1.0,
            "double" => 2.0,
            _ => 3.0,
        };
        return Some((value, at + 2, true));
    }
    if line.any(at, &["x"]) || line.is_mark(at, &['\u{d7}']) {
        let value = counting(line, at + 1).filter(|_| line.number(at + 1).is_some())?;
        return line.ends(at + 2).then_some((value, at + 2, true));
    }
    let value = counting(line, at)?;
    if is_fraction(line, at) || line.number(at).is_some_and(|n| n.fract() != 0.0) {
        return None;
    }
    let next = at + 1;
    if line.is_mark(at.wrapping_sub(1), &['(', '[']) && at > 0 && line.is_mark(next, &[')', ']']) {
        return Some((value, next, true));
    }
    if line.any(next, &["dozen"]) {
        return Some((value * 12.0, next + 1, true));
    }
    let hyphen =
        usize::from(line.is_mark(next, &['-']) && line.glued(next) && line.glued(next + 1));
    if line.any(next + hyphen, &PIECES)
        && !(hyphen == 1 && line.is_word(next + 2) && line.number(at).is_none())
    {
        let end = next + hyphen + 1;
        // `4 slices white toast` counts what follows, `pizza, 2 slices` the dish before.
        let whole = at > 0
            || line.any(
                next + hyphen,
                &[
                    "pc", "pcs", "piece", "pieces", "ct", "count", "scoop", "scoops",
                ],
            );
        return Some((value, end, whole));
    }
    if line.is(next, "x") && line.is_word(next + 1) {
        return Some((value, next + 1, at == 0));
    }
    if is_listed_count(line, at) {
        return Some((value, next, true));
    }
    // A number before a food: `three beef tacos`.
    let food = line.is_word(next)
        && !line.claimed(next)
        && unit_at(line, next).is_none()
        && hyphen == 0
        && !line.any(
            next,
            &[
                "sides", "side", "toppings", "fillings", "in", "way", "ways", "course", "layer",
                "cheese", "bean", "spice", "alarm", "star", "grain", "times", "and", "or",
            ],
        );
    let starts = line.begins(at)
        || line.any(
            at - 1,
            &[
                "with", "and", "of", "con", "mit", "avec", "over", "on", "of", "the", "plus", "add",
            ],
        );
    (food && starts).then_some((value, next, at == 0))
}

/// `8 or 12`, at the end of a part: two counts to choose from.
fn is_listed_count(line: &Lexed<'_>, at: usize) -> bool {
    line.number(at).is_some()
        && ((line.is(at + 1, "or") && line.number(at + 2).is_some() && line.ends(at + 3))
            || (at >= 2
                && line.is(at - 1, "or")
                && line.number(at - 2).is_some()
                && line.ends(at + 1)))
}

/// `half rack`, `quarter chicken`, `1/4`, `by the slice`.
fn part(line: &mut Lexed<'_>, at: usize, serving: &mut ServingWords) -> Option<usize> {
    if let Some(next) = line
        .longest(at, &["by the slice", "per slice", "a slice"])
        .filter(|_| at > 0)
    {
        serving.slice = true;
        line.claim(PhraseRole::Part, at, next);
        return Some(next);
    }
    let (share, next) = share(line, at)?;
    const OF: [&str; 14] = [
        "rack",
        "racks",
        "slab",
        "order",
        "portion",
        "size",
        "sized",
        "serving",
        "tray",
        "pan",
        "chicken rack",
        "bottle",
        "carafe",
        "dozen",
    ];
    let hyphen = usize::from(line.is_mark(next, &['-']) && line.glued(next));
    let end = if line.any(next + hyphen, &OF) {
        next + hyphen + 1
    } else {
        next
    };
    let alone = line.ends(end) || line.number(end).is_some();
    let front = line.begins(at) && (line.is_word(end) || alone);
    // `full English` names a dish, `half and half` a milk, `half the sugar` a change.
    let named = line.any(
        next,
        &[
            "and",
            "english",
            "the",
            "moon",
            "scottish",
            "irish",
            "sour",
            "welsh",
            "fat",
            "baked",
            "monty",
            "breakfast",
        ],
    );
    let described = front || alone || end > next;
    if named || !described || (share >= 1.0 && end == next && !alone) {
        return None;
    }
    serving.share.get_or_insert(share);
    serving.shares.push(share);
    line.claim(PhraseRole::Part, at, end);
    Some(end)
}

fn share(line: &Lexed<'_>, at: usize) -> Option<(f64, usize)> {
    if line.any(at, &["half", "1/2"]) {
        return Some((0.5, at + 1));
    }
    if line.is(at, "quarter") {
        return Some((0.25, at + 1));
    }
    if line.any(at, &["full", "whole"]) {
        return Some((1.0, at + 1));
    }
    match line.tokens.get(at)?.kind {
        Kind::Vulgar(value) if unit_at(line, at + 1).is_none() => return Some((value, at + 1)),
        _ => {}
    }
    let fraction = line.number(at).is_some()
        && is_fraction(line, at)
        && line.number(at + 2).is_some()
        && line.is_mark(at + 1, &['/', '\u{2044}']);
    if fraction && unit_at(line, at + 3).is_none() {
        let value = line.number(at)? / line.number(at + 2)?;
        return Some((value, at + 3));
    }
    None
}

/// The token behind the unit at `at`.
pub(super) fn unit_at(line: &Lexed<'_>, at: usize) -> Option<usize> {
    const UNITS: [&str; 26] = [
        "oz", "ounce", "ounces", "lb", "lbs", "pound", "pounds", "g", "gr", "gram", "grams", "kg",
        "ml", "cl", "dl", "l", "liter", "litre", "liters", "litres", "gal", "gallon", "tbsp",
        "tsp", "cups", "onz",
    ];
    if line.any(at, &["fl", "fluid"]) {
        let next = at + 1 + usize::from(line.mark(at + 1) == Some('.'));
        return line
            .any(next, &["oz", "ounce", "ounces"])
            .then_some(after_point(line, next + 1));
    }
    line.any(at, &UNITS).then(|| after_point(line, at + 1))
}

/// The point of `oz.` belongs to it, unless it ends the line's sentence.
fn after_point(line: &Lexed<'_>, at: usize) -> usize {
    at + usize::from(line.mark(at) == Some('.') && line.glued(at))
}

/// `6 oz`, `1/2 lb`, `16 fl oz`, `by the pound`.
fn amount(line: &mut Lexed<'_>, at: usize) -> Option<usize> {
    if let Some(next) = line
        .longest(at, &["by the pound", "per pound", "by the ounce"])
        .filter(|_| at > 0)
    {
        line.claim(PhraseRole::Amount, at, next);
        return Some(next);
    }
    line.number(at)?;
    let mut next = at + 1;
    if is_fraction(line, at) {
        next = at + 3;
    } else if matches!(line.tokens.get(next).map(|t| t.kind), Some(Kind::Vulgar(_))) {
        next += 1;
    } else if line.is_mark(next, &['-', '\u{2013}']) && line.number(next + 1).is_some() {
        next += 2;
    }
    let hyphen = usize::from(line.is_mark(next, &['-']) && line.glued(next));
    let end = unit_at(line, next + hyphen)?;
    line.claim(PhraseRole::Amount, at, end);
    Some(end)
}

/// Size words: before a dish, behind it as a part of their own, or before a price.
fn size(line: &mut Lexed<'_>, at: usize, serving: &mut ServingWords) -> Option<usize> {
    let next = size_at(line, at)?;
    let last = next - 1;
    let word = SizeWord::of(line.word(at)).or_else(|| SizeWord::of(line.word(last)));
    let word = if line.is(at, "extra") || line.is(at, "x") {
        Some(SizeWord::ExtraLarge)
    } else {
        word
    };
    if let Some(word) = word {
        serving.add(word);
    }
    line.claim(PhraseRole::Size, at, next);
    Some(next)
}

fn size_at(line: &Lexed<'_>, at: usize) -> Option<usize> {
    if !line.is_word(at) {
        return None;
    }
    let priced = |next: usize| {
        matches!(
            line.role(next),
            Some(PhraseRole::Price | PhraseRole::PrintedEnergy)
        )
    };
    let listed = SIZES.contains(&line.word(at))
        || line
            .longest(at, &["extra large", "x large", "family size"])
            .is_some();
    // `Cup of soup`.
    if let Some(next) = line
        .longest(at, &VESSELS)
        .filter(|next| line.is(*next, "of"))
    {
        let starts = line.begins(at)
            || line.any(at - 1, &["a", "and", "with", "large", "small"])
            || priced(at - 1);
        return starts.then_some(next);
    }
    let cup_of = line.any(at, &["cup", "bowl"])
        && at > 0
        && line.any(at - 1, &["and", "with"])
        && line.is_word(at + 1);
    if cup_of {
        return None;
    }
    if let Some(mut next) = line
        .longest(at, &BEFORE)
        .filter(|_| line.begins(at) || line.any(at - 1, &["a", "the"]))
    {
        // The apostrophe of `Kids'`.
        if line.is_mark(next, &['\'', '\u{2019}']) && line.glued(next) {
            next += 1;
        }
        if line.any(next, &["size", "sized", "order", "portion", "serving"]) {
            next += 1;
        }
        let double_bad =
            line.any(at, &["double", "triple", "single", "medium"]) && line.any(next, &NO_SIZE_OF);
        let plates = line.any(
            next,
            &["plates", "plate", "bites", "menu", "rare", "well", "heat"],
        );
        let foods = line.is_word(next) || line.number(next).is_some();
        if !double_bad && !plates && (foods || line.ends(next) || priced(next)) {
            return Some(next);
        }
    }
    if !listed {
        return None;
    }
    let next = line
        .longest(at, &["extra large", "x large", "family size"])
        .unwrap_or(at + 1);
    let stands_alone = line.ends(next)
        || line.number(next).is_some()
        || line.is(next, "and")
        || line.is(next, "or");
    let behind = at > 0
        && (line.begins(at)
            || line.is_mark(at - 1, &['/'])
            || line.any(at - 1, &["or", "and"])
                && line.role(at.wrapping_sub(2)) == Some(PhraseRole::Size));
    if behind && (stands_alone || line.is_mark(next, &['/'])) {
        return Some(next);
    }
    // `House red glass 9 bottle 34`, `Tomato soup cup 5 bowl 8`.
    if at > 0 && priced(next) && (priced(at - 1) || has_other_vessel(line, at)) {
        return Some(next);
    }
    // `Dr. Pepper Large`: a size behind a name.
    let trailing = [
        "small", "medium", "large", "regular", "mini", "sm", "med", "lg", "grande", "kids",
    ];
    let after_name =
        at > 0 && line.is_word(at - 1) && !line.claimed(at - 1) && line.any(at, &trailing);
    (after_name && line.ends(next)).then_some(next)
}

/// Whether a line gives two vessels each a price.
fn has_other_vessel(line: &Lexed<'_>, at: usize) -> bool {
    let vessels = [
        "cup", "bowl", "glass", "bottle", "small", "large", "pint", "half", "full", "sm", "lg",
        "pitcher", "carafe",
    ];
    line.any(at, &vessels)
        && (0..line.len()).any(|other| {
            other != at
                && line.any(other, &vessels)
                && !line.is(other, line.word(at))
                && line.role(other + 1) == Some(PhraseRole::Price)
        })
}
