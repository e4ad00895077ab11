//! What the words of a menu say of a serving: its kind, its size, its count, its measures.

use super::super::phrases::PhraseTable;
use super::kinds::{ServingKind, is_plural};
use super::measures::{Stated, stated};
use crate::reading::{MenuLine, PartKind, SizeWord};
use crate::words::{base_form, prepared, prepared_rows, split, words};
use serde::Deserialize;
use std::sync::LazyLock;

/// A line of a menu as it is printed; empty texts where nothing is said.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ServingText<'t> {
    /// What is ordered.
    pub name: &'t str,
    /// The heading that it stands under.
    pub section: &'t str,
    /// The line beneath it.
    pub description: &'t str,
    /// Pieces, where the line counts them.
    pub count: Option<f64>,
    /// Sizes that the line names besides those of the name.
    pub sizes: &'t [SizeWord],
}

impl<'t> ServingText<'t> {
    /// What a line of a menu says under a heading.
    #[must_use]
    pub fn of(line: &'t MenuLine, section: &'t str) -> Self {
        // What comes beside a dish is a serving of its own.
        let sides = line.parts.iter().any(|part| part.what == PartKind::Side);
        let alone = sides && line.name.is_empty() && !line.main.is_empty();
        Self {
            name: if alone { &line.main } else { line.title() },
            section,
            description: &line.description,
            count: line.serving.count,
            sizes: &line.serving.sizes,
        }
    }
}

/// How closely the words say how much is served, closest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Known {
    /// A weight or a volume is printed.
    Measured,
    /// Pieces are counted.
    Counted,
    /// A size word is printed.
    Sized,
    /// The kind of dish alone.
    Kind,
    /// Not even that.
    Nothing,
}

impl Known {
    /// All of them, closest first.
    pub const ALL: [Self; 5] = [
        Self::Measured,
        Self::Counted,
        Self::Sized,
        Self::Kind,
        Self::Nothing,
    ];

    /// The word for tables.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Measured => "measured",
            Self::Counted => "counted",
            Self::Sized => "size word",
            Self::Kind => "kind",
            Self::Nothing => "nothing",
        }
    }
}

/// What the words say.
#[derive(Debug, PartialEq)]
pub struct Said {
    /// The kind of serving that the name names; else the section, else the description.
    pub kind: &'static ServingKind,
    /// What the name says in the plural: words in base form, and the kinds that it names so.
    pub plurals: Vec<String>,
    /// Whether a comma parts the name.
    pub comma: bool,
    /// How often the name of the thing itself is joined by `and`, at most [`MOST_JOINTS`].
    pub joints: usize,
    /// Whether the name goes on to what comes with the thing.
    pub goes_on: bool,
    /// The kind that the section names.
    pub section_kind: Option<&'static ServingKind>,
    /// Words of the thing itself in base form, in order; numbers and joining words left out.
    pub name: Vec<String>,
    /// Words of what comes with it: behind `with`, `on`, `over`, and in the description.
    pub beside: Vec<String>,
    /// Words of the section.
    pub section: Vec<String>,
    /// Sizes that the name says.
    pub sizes: Vec<&'static str>,
    /// Weights, volumes, lengths and counts that the name states.
    pub stated: Stated,
    /// Servings in a whole pie or cake, where that is what is sold.
    pub slices: Option<f64>,
    /// Whether a drink is served.
    pub drink: bool,
}

#[derive(Debug, Deserialize)]
struct SizeRow {
    size: String,
    words_base: String,
}

static SIZES: LazyLock<PhraseTable<String>> = LazyLock::new(|| {
    let list = prepared_rows::<SizeRow>(prepared!("size_words.csv")).into_iter();
    PhraseTable::new(list.map(|row| (row.words_base, row.size)))
});

/// Sizes that a section says of all that stands under it.
const OF_A_SECTION: [&str; 3] = ["kids", "side", "lunch"];
/// Sizes that say nothing of how much there is.
const NO_SIZE: [&str; 8] = [
    "add", "original", "deluxe", "ultimate", "loaded", "extra", "only", "entree",
];

/// Drinks that are served as they were brewed.
const BREWED: [&str; 2] = ["beer", "wine"];
/// The kind of which the pieces are counted.
const BY_THE_PIECE: &str = "egg";
/// The kind of drinks without sugar.
const UNSWEETENED: &str = "diet drink";
/// Words that say so of any drink.
const WITHOUT_SUGAR: [&str; 4] = ["unsweetened", "unsweet", "diet", "sugarless"];
/// Words of tea and coffee that tell no flavour. What is iced is mostly sweetened where it is sold (printed
/// menus: iced coffee 150 to 210 kcal).
const PLAIN_WORDS: [&str; 16] = [
    "tea",
    "coffee",
    "hot",
    "brewed",
    "fresh",
    "freshly",
    "black",
    "green",
    "herbal",
    "decaf",
    "espresso",
    "ristretto",
    "americano",
    "drip",
    "house",
    "organic",
];

impl Said {
    /// Reads the words of a menu.
    #[must_use]
    pub fn read(text: ServingText<'_>) -> Self {
        let spelt = split(text.name);
        let whole: Vec<String> = spelt.iter().map(|word| base_form(word)).collect();
        let section = words(text.section);
        let (own, mut beside) = parted(whole.clone());
        let goes_on = !beside.is_empty();
        let joints = own.iter().filter(|word| *word == "and").count();
        beside.extend(words(text.description).into_iter().take(MOST_DESCRIBED));
        let section_kind = ServingKind::named_last(&section);
        let first = before_what_comes_with_it(text.name);
        let before = if first.len() < text.name.len() {
            split(first).len().min(whole.len())
        } else {
            whole.len()
        };
        let named = ServingKind::named_in(&spelt[..before], &whole[..before])
            .or_else(|| ServingKind::named_in(&spelt, &whole));
        let of_description =
            || ServingKind::named_last(&words(before_what_comes_with_it(text.description)));
        let kind = named
            .map(|(kind, _)| with_chips(kind, &whole[..before]))
            .or(section_kind)
            .or_else(of_description)
            .unwrap_or(ServingKind::any());
        let mut sizes: Vec<&'static str> = SIZES.all(&whole).map(String::as_str).collect();
        let of_section = SIZES.all(&section).map(String::as_str);
        sizes.extend(of_section.filter(|size| OF_A_SECTION.contains(size)));
        sizes.extend(text.sizes.iter().filter_map(|size| size_name(*size)));
        sizes.sort_unstable();
        sizes.dedup();
        let mut stated = stated(text.name);
        stated.count = stated.count.or(text.count);
        Self {
            drink: kind.is_drink() || section_kind.is_some_and(ServingKind::is_drink),
            stated,
            name: telling(own),
            beside: telling(beside),
            section: telling(section),
            slices: slices_of_whole(&whole, kind),
            plurals: in_plural(&spelt, &whole, named),
            comma: text.name.contains(','),
            joints: joints.min(MOST_JOINTS),
            goes_on,
            kind,
            section_kind,
            sizes,
        }
    }

    /// Takes the kind that the name of a food names where a menu's own words name none:
    /// `Hamburguesa clásica` is found as a hamburger. Where a food is surely found, words that only
    /// name what lies on top of it name nothing either: `Hot Ham N Cheese`.
    pub(crate) fn or_kind_of(&mut self, food: &str, sure: bool) {
        let none = std::ptr::eq(self.kind, ServingKind::any());
        if none || sure && self.kind.is_added() {
            let kind = thing_itself(food).filter(|kind| !kind.is_added() && !kind.is_drink());
            self.kind = kind.unwrap_or(self.kind);
        }
    }

    /// Whether it is a drink that is drunk without sugar.
    #[must_use]
    pub(crate) fn is_unsweetened(&self) -> bool {
        let said = |word: &String| WITHOUT_SUGAR.contains(&word.as_str());
        self.kind.lies_within(&[UNSWEETENED]) || self.name.iter().any(said)
    }

    /// Whether it is a beer or a wine, into which nobody puts sugar.
    #[must_use]
    pub(crate) fn is_brewed(&self) -> bool {
        self.kind.lies_within(&BREWED)
    }

    /// Whether it is ordered by the piece: one fried egg is one egg, whatever plates of eggs
    /// hold.
    #[must_use]
    pub(crate) fn is_counted_by_piece(&self) -> bool {
        self.kind.name == BY_THE_PIECE
    }

    /// Whether its words tell a flavour or a sweetness besides what it is: `peach iced tea`.
    #[must_use]
    pub(crate) fn is_flavoured(&self) -> bool {
        let plain = |word: &String| {
            PLAIN_WORDS.contains(&word.as_str()) || SIZES.any(std::slice::from_ref(word))
        };
        !self.name.iter().chain(&self.beside).all(plain)
    }

    /// How closely the words say how much is served.
    #[must_use]
    pub fn known(&self) -> Known {
        let stated = &self.stated;
        if stated.ounces.or(stated.fluid_ounces).is_some() {
            Known::Measured
        } else if stated.count.is_some() {
            Known::Counted
        } else if stated.inches.is_some() || self.sizes.iter().any(|size| !NO_SIZE.contains(size)) {
            Known::Sized
        } else if std::ptr::eq(self.kind, ServingKind::any()) {
            Known::Nothing
        } else {
            Known::Kind
        }
    }
}

/// The kind of what is dipped into beside chips, whatever is said of it: `chips & house-made
/// guacamole`.
fn with_chips(kind: &'static ServingKind, words: &[String]) -> &'static ServingKind {
    let dip = kind.lies_within(&["sauce"]);
    let mut pairs = words.windows(2);
    if dip && pairs.any(|pair| pair[0] == "chip" && pair[1] == "and") {
        return ServingKind::of_name("chips and dip").unwrap_or(kind);
    }
    kind
}

/// A size of a line as the tables of servings name it.
fn size_name(size: SizeWord) -> Option<&'static str> {
    Some(match size {
        SizeWord::Mini => "mini",
        SizeWord::Kids | SizeWord::Junior => "kids",
        SizeWord::Petite | SizeWord::Small => "small",
        SizeWord::Half => "half",
        SizeWord::Cup => "cup",
        SizeWord::Personal => "personal",
        SizeWord::Regular => "regular",
        SizeWord::Medium => "medium",
        SizeWord::Full => "full",
        SizeWord::Bowl => "bowl",
        SizeWord::Large => "large",
        SizeWord::ExtraLarge => "extra large",
        SizeWord::Family => "family",
        SizeWord::Pint => "pint",
        SizeWord::Bottle => "bottle",
        SizeWord::Quart => "quart",
        SizeWord::Pitcher => "pitcher",
        _ => return None,
    })
}

/// What a text says in the plural, each once: words in base form, and the kinds that its kind lies within.
fn in_plural(
    said: &[String],
    base: &[String],
    named: Option<(&'static ServingKind, bool)>,
) -> Vec<String> {
    let both = said.iter().zip(base);
    let list = both.filter(|(said, base)| is_plural(said, base));
    let mut list = telling(list.map(|(_, base)| base.clone()).collect());
    if let Some((kind, true)) = named {
        list.extend(kind.within().map(|kind| kind.name.clone()));
    }
    list.sort_unstable();
    list.dedup();
    list
}

/// What is sold whole and eaten by the slice, and in how many it is cut (common practice: a pie of
/// 9 inches in eight, a cake of several layers in twelve).
const SLICED: [(&str, f64); 3] = [("pie", 8.0), ("cheesecake", 12.0), ("cake", 12.0)];

/// `Pecan pie, whole`: how many servings that is.
fn slices_of_whole(said: &[String], kind: &ServingKind) -> Option<f64> {
    let at = said.iter().position(|word| word == "whole")?;
    // `whole wheat`, `whole milk` are something else.
    let of = |word: &String| matches!(word.as_str(), "wheat" | "grain" | "milk" | "meal");
    let (_, slices) = SLICED.iter().find(|(name, _)| kind.name == *name)?;
    (!said.get(at + 1).is_some_and(of)).then_some(*slices)
}

/// Joints beyond these say nothing more.
const MOST_JOINTS: usize = 3;

/// Most words of a description that are looked at.
const MOST_DESCRIBED: usize = 40;

/// The kind of the thing itself, before what comes with it.
pub(crate) fn thing_itself(text: &str) -> Option<&'static ServingKind> {
    ServingKind::named_last(&words(before_what_comes_with_it(text)))
}

/// Words of a name in base form, parted where it goes on to what comes with the thing.
fn parted(mut whole: Vec<String>) -> (Vec<String>, Vec<String>) {
    let joint = |word: &String| {
        matches!(
            word.as_str(),
            "with"
                | "without"
                | "include"
                | "includes"
                | "on"
                | "in"
                | "over"
                | "served"
                | "topped"
                | "al"
                | "alla"
                | "au"
        )
    };
    let at = whole.iter().position(joint).filter(|at| *at > 0);
    let beside = at.map_or_else(Vec::new, |at| whole.split_off(at));
    (whole, beside)
}

/// The words that name the thing itself: before `with`, a comma, a bracket.
fn before_what_comes_with_it(text: &str) -> &str {
    const JOINTS: [&str; 12] = [
        "w/", "w/o", "with", "without", "includes", "on", "in", "over", "served", "al", "alla",
        "au",
    ];
    let mut at = 0;
    for piece in text.split_inclusive(char::is_whitespace) {
        let word = piece.trim();
        let dash = matches!(word, "-" | "\u{2013}" | "\u{2014}");
        let joint = JOINTS.iter().any(|j| word.eq_ignore_ascii_case(j));
        let bracket = piece.find(['(', ';', ':', ',']);
        let end = if dash || joint {
            Some(at)
        } else {
            bracket.map(|b| at + b)
        };
        if let Some(end) = end
            && text[..end].chars().any(char::is_alphabetic)
        {
            return &text[..end];
        }
        at += piece.len();
    }
    text
}

/// Words that tell foods or amounts apart.
fn telling(mut list: Vec<String>) -> Vec<String> {
    list.retain(|word| {
        word.len() > 1
            && word.starts_with(|c: char| c.is_ascii_alphabetic())
            && !matches!(
                word.as_str(),
                "the"
                    | "and"
                    | "of"
                    | "with"
                    | "in"
                    | "on"
                    | "or"
                    | "an"
                    | "our"
                    | "your"
                    | "to"
                    | "for"
                    | "by"
                    | "from"
                    | "is"
                    | "it"
                    | "at"
                    | "served"
                    | "as"
                    | "no"
                    | "without"
                    | "oz"
                    | "fl"
                    | "pc"
            )
    });
    list
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(name: &str) -> Said {
        Said::read(ServingText {
            name,
            ..ServingText::default()
        })
    }

    #[test]
    fn the_thing_itself_stands_before_what_comes_with_it() {
        assert_eq!(read("Turkey Club w/ Fries").kind.name, "sandwich");
        assert_eq!(read("Chicken Wings (10 pc)").kind.name, "wings");
        assert_eq!(read("Vanilla Latte, Large").kind.name, "milk coffee");
        assert_eq!(read("(v) Garden Salad").kind.name, "salad");
        assert_eq!(read("Penne alla vodka").kind.name, "pasta");
        let section = ServingText {
            name: "The Big One",
            section: "Burgers",
            ..ServingText::default()
        };
        assert_eq!(Said::read(section).kind.name, "burger");
    }

    #[test]
    fn what_is_known_of_an_amount() {
        assert_eq!(read("Cola, 20 fl oz").known(), Known::Measured);
        assert_eq!(read("6 wings").known(), Known::Counted);
        assert_eq!(read("Large fries").known(), Known::Sized);
        assert_eq!(read("Fries").known(), Known::Kind);
        assert_eq!(read("Zzz").known(), Known::Nothing);
        assert_eq!(read("Kids' Chicken Fingers").sizes, ["kids"]);
        assert!(read("Cola, 20 fl oz").drink && !read("Fries").drink);
    }
}
