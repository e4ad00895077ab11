//! What speaks for a serving's energy: one figure for each thing that its words say.

use super::said::Said;

/// A sort of thing that the words of a menu say.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum What {
    /// Every serving.
    Serving,
    /// The kind that is named, and each that it lies within.
    Kind,
    /// A word of the thing itself.
    Word,
    /// The last of them, which mostly says what it is.
    LastWord,
    /// The first of a drink's.
    FirstWord,
    /// A word of one sort of serving: `bacon` of a `sandwich`.
    WordOfKind,
    /// That the kind is named in the plural, for it and each that it lies within, or that a word is: `wings`
    /// are an order, a `wing` is mostly one.
    Plural,
    /// How often the name is joined by `and`, and that it goes on behind `with`.
    Joint,
    /// How much is said of a drink: the logarithm of its words, of those of what comes with it, and that
    /// a comma parts its name.
    Length,
    /// A word of what comes with it.
    WordBeside,
    /// Two words of the name that follow one another.
    Pair,
    /// A size word.
    Size,
    /// A size word of one sort of serving: `large|fries`.
    SizeOfKind,
    /// The kind that the section names, and each that it lies within.
    SectionKind,
    /// The same of one kind.
    SectionOfKind,
    /// A word of the section.
    SectionWord,
    /// That a weight, volume, length or count is stated.
    States,
    /// The logarithm of what is stated over the usual figure.
    LogStated,
    /// The same for the kind and each that it lies within.
    LogStatedOfKind,
    /// What the parts come to: the logarithm of their energy over 400 kcal, that of their
    /// energy density over 2 kcal a gram, that there are several, or that they come to nothing.
    Parts,
    /// The logarithm of their energy for one sort of serving.
    PartsOfKind,
}

impl What {
    /// All of them.
    pub(crate) const ALL: [Self; 21] = [
        Self::Serving,
        Self::Kind,
        Self::Word,
        Self::LastWord,
        Self::FirstWord,
        Self::WordOfKind,
        Self::Plural,
        Self::Joint,
        Self::Length,
        Self::WordBeside,
        Self::Pair,
        Self::Size,
        Self::SizeOfKind,
        Self::SectionKind,
        Self::SectionOfKind,
        Self::SectionWord,
        Self::States,
        Self::LogStated,
        Self::LogStatedOfKind,
        Self::Parts,
        Self::PartsOfKind,
    ];

    /// Whether its keys hold words of a menu, which may be a restaurant's own.
    #[must_use]
    pub fn is_of_words(self) -> bool {
        matches!(
            self,
            Self::Word
                | Self::LastWord
                | Self::FirstWord
                | Self::WordOfKind
                | Self::WordBeside
                | Self::Pair
                | Self::Plural
                | Self::SectionWord
        )
    }

    /// The name in tables.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Serving => "serving",
            Self::Kind => "kind",
            Self::Word => "word",
            Self::LastWord => "last word",
            Self::FirstWord => "first word",
            Self::WordOfKind => "word of kind",
            Self::Plural => "plural",
            Self::Joint => "joint",
            Self::Length => "length",
            Self::WordBeside => "word beside",
            Self::Pair => "pair",
            Self::Size => "size",
            Self::SizeOfKind => "size of kind",
            Self::SectionKind => "section kind",
            Self::SectionOfKind => "section of kind",
            Self::SectionWord => "section word",
            Self::States => "states",
            Self::LogStated => "log stated",
            Self::LogStatedOfKind => "log stated of kind",
            Self::Parts => "parts",
            Self::PartsOfKind => "parts of kind",
        }
    }
}

/// What the parts of a serving come to, as they are weighed one by one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parts {
    /// How many there are.
    pub count: usize,
    /// Energy, kcal.
    pub kcal: f64,
    /// Weight, g.
    pub grams: f64,
}

/// Parts lighter than this say nothing (own choice).
const LEAST_KCAL: f64 = 5.0;
/// From this many parts on, a serving is put together (own choice).
const SEVERAL: usize = 3;
/// What logarithms are taken over, so that effects are near those of a usual serving: energy,
/// energy density, weight, drink, length, count.
const USUAL_KCAL: f64 = 400.0;
const USUAL_KCAL_PER_G: f64 = 2.0;
const USUAL_OZ: f64 = 8.0;
const USUAL_FL_OZ: f64 = 16.0;
const USUAL_IN: f64 = 10.0;
const USUAL_COUNT: f64 = 4.0;
/// Hands each thing that speaks for a serving's energy to `take`: what it is, its words, its
/// figure.
pub fn features(said: &Said, parts: Option<Parts>, mut take: impl FnMut(What, &str, f64)) {
    take(What::Serving, "", 1.0);
    for kind in said.kind.within() {
        take(What::Kind, &kind.name, 1.0);
    }
    let mut key = String::new();
    for kind in said.section_kind.iter().flat_map(|kind| kind.within()) {
        take(What::SectionKind, &kind.name, 1.0);
        if !said.drink {
            take(
                What::SectionOfKind,
                both(&mut key, &kind.name, &said.kind.name),
                1.0,
            );
        }
    }
    words(said, &mut take);
    joints(said, &mut take);
    sizes(said, &mut take);
    measures(said, &mut take);
    of_parts(said, parts, &mut take);
}

/// Two words as one key of the table.
fn both<'k>(key: &'k mut String, one: &str, other: &str) -> &'k str {
    key.clear();
    key.extend([one, "|", other]);
    key
}

fn words(said: &Said, take: &mut impl FnMut(What, &str, f64)) {
    let mut key = String::new();
    let sort = &said.kind.sized_as().name;
    for (at, word) in said.name.iter().enumerate() {
        if !said.name[..at].contains(word) {
            take(What::Word, word, 1.0);
            if !said.drink {
                take(What::WordOfKind, both(&mut key, sort, word), 1.0);
            }
        }
    }
    match said.name.as_slice() {
        [first, ..] if said.drink => take(What::FirstWord, first, 1.0),
        [.., last] => take(What::LastWord, last, 1.0),
        [] => {}
    }
    for two in said.name.windows(2) {
        key.clear();
        key.extend([two[0].as_str(), " ", two[1].as_str()]);
        take(What::Pair, &key, 1.0);
    }
    for (at, word) in said.beside.iter().enumerate() {
        if !said.beside[..at].contains(word) {
            take(What::WordBeside, word, 1.0);
        }
    }
    for word in &said.section {
        take(What::SectionWord, word, 1.0);
    }
    for word in &said.plurals {
        take(What::Plural, word, 1.0);
    }
}

/// How the name goes on, and how much it says.
fn joints(said: &Said, take: &mut impl FnMut(What, &str, f64)) {
    if said.joints > 0 {
        take(What::Joint, "and", said.joints as f64);
    }
    if said.goes_on {
        take(What::Joint, "with", 1.0);
    }
    if said.drink {
        take(What::Length, "words", (said.name.len().max(1) as f64).ln());
        take(
            What::Length,
            "words beside",
            (said.beside.len() as f64).ln_1p(),
        );
        if said.comma {
            take(What::Length, "comma", 1.0);
        }
    }
}

fn sizes(said: &Said, take: &mut impl FnMut(What, &str, f64)) {
    let mut key = String::new();
    for size in &said.sizes {
        take(What::Size, size, 1.0);
        let sort = &said.kind.sized_as().name;
        take(What::SizeOfKind, both(&mut key, size, sort), 1.0);
    }
    if said.sizes.is_empty() {
        take(What::Size, "none", 1.0);
    }
}

fn measures(said: &Said, take: &mut impl FnMut(What, &str, f64)) {
    let stated = &said.stated;
    // A drink's ounces are fluid ounces, whether or not the menu says so.
    let (ounces, fluid) = match (stated.ounces, stated.fluid_ounces) {
        (Some(oz), None) if said.drink => (None, Some(oz)),
        other => other,
    };
    let mut key = String::new();
    let figures = [
        ("oz", ounces, USUAL_OZ),
        ("fl oz", fluid, USUAL_FL_OZ),
        ("in", stated.inches, USUAL_IN),
        ("count", stated.count, USUAL_COUNT),
    ];
    for (unit, figure, usual) in figures {
        if let Some(figure) = figure {
            let log = (figure / usual).ln();
            take(What::States, unit, 1.0);
            take(What::LogStated, unit, log);
            for kind in said.kind.within() {
                take(What::LogStatedOfKind, both(&mut key, unit, &kind.name), log);
            }
        }
    }
}

fn of_parts(said: &Said, parts: Option<Parts>, take: &mut impl FnMut(What, &str, f64)) {
    match parts.filter(|p| p.kcal > LEAST_KCAL && p.grams > 1.0) {
        Some(parts) => {
            let log = (parts.kcal / USUAL_KCAL).ln();
            take(What::Parts, "log energy", log);
            take(What::PartsOfKind, &said.kind.sized_as().name, log);
            let density = parts.kcal / parts.grams;
            if parts.count >= SEVERAL {
                take(What::Parts, "several", 1.0);
                take(What::Parts, "log energy of several", log);
            }
            take(
                What::Parts,
                "log density",
                (density / USUAL_KCAL_PER_G).ln(),
            );
        }
        None => take(What::Parts, "none", 1.0),
    }
}

#[cfg(test)]
mod tests {
    use super::super::said::ServingText;
    use super::*;

    #[test]
    fn each_thing_said_speaks_once() {
        let said = Said::read(ServingText {
            name: "Large Cola, 20 oz, large",
            section: "Drinks",
            description: "cola and ice",
            ..ServingText::default()
        });
        let mut list = Vec::new();
        features(&said, None, |what, of, figure| {
            list.push((what, of.to_owned(), figure));
        });
        let figure = |what: What, of: &str| {
            let hits: Vec<f64> = list
                .iter()
                .filter(|(w, o, _)| *w == what && o == of)
                .map(|(_, _, figure)| *figure)
                .collect();
            assert!(hits.len() <= 1, "{of}: {hits:?}");
            hits.first().copied()
        };
        assert_eq!(figure(What::Word, "cola"), Some(1.0));
        assert_eq!(figure(What::WordBeside, "ice"), Some(1.0));
        assert_eq!(
            figure(What::SizeOfKind, "large|cold sweet drink"),
            Some(1.0)
        );
        assert_eq!(
            figure(What::LogStated, "fl oz"),
            Some((20.0_f64 / 16.0).ln())
        );
        assert_eq!(figure(What::Parts, "none"), Some(1.0));
        assert_eq!(figure(What::SectionKind, "drink"), Some(1.0));
        assert_eq!(figure(What::FirstWord, "large"), Some(1.0));
        assert_eq!(figure(What::Length, "comma"), Some(1.0));
        assert_eq!(
            figure(What::LogStatedOfKind, "fl oz|soft drink"),
            figure(What::LogStated, "fl oz")
        );
    }

    fn said_of(name: &str) -> Vec<(What, String)> {
        let said = Said::read(ServingText {
            name,
            ..ServingText::default()
        });
        let mut list = Vec::new();
        features(&said, None, |what, of, _| list.push((what, of.to_owned())));
        list
    }

    #[test]
    fn wings_and_a_wing_are_told_apart() {
        let plural = |name: &str, of: &str| said_of(name).contains(&(What::Plural, of.to_owned()));
        assert!(plural("Smoked Wings", "wings") && plural("Smoked Wings", "poultry"));
        assert!(!plural("Smoked Wing", "wings"));
        assert!(plural("Meatballs in Sauce", "meatball"));
    }

    #[test]
    fn what_is_joined_and_how_a_name_ends_speak() {
        let has = |name: &str, what: What, of: &str| said_of(name).contains(&(what, of.to_owned()));
        assert!(has("Bacon Egg & Cheese", What::Joint, "and"));
        assert!(has("Turkey Club with Fries", What::Joint, "with"));
        assert!(!has("Turkey Club", What::Joint, "with"));
        assert!(has("Turkey Club", What::LastWord, "club"));
        assert!(has("Turkey Club", What::WordOfKind, "sandwich|turkey"));
    }
}
