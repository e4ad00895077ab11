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
    /// A word of the section.
    SectionWord,
    /// That a weight, volume, length or count is stated.
    States,
    /// The logarithm of what is stated over the usual figure.
    LogStated,
    /// The logarithm of a count, for one kind.
    LogCountOfKind,
    /// What the parts come to: the logarithm of their energy over 400 kcal, that of their
    /// energy density over 2 kcal a gram, that there are several, or that they come to nothing.
    Parts,
}

impl What {
    /// All of them.
    pub(crate) const ALL: [Self; 13] = [
        Self::Serving,
        Self::Kind,
        Self::Word,
        Self::WordBeside,
        Self::Pair,
        Self::Size,
        Self::SizeOfKind,
        Self::SectionKind,
        Self::SectionWord,
        Self::States,
        Self::LogStated,
        Self::LogCountOfKind,
        Self::Parts,
    ];

    /// The name in tables.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Serving => "serving",
            Self::Kind => "kind",
            Self::Word => "word",
            Self::WordBeside => "word beside",
            Self::Pair => "pair",
            Self::Size => "size",
            Self::SizeOfKind => "size of kind",
            Self::SectionKind => "section kind",
            Self::SectionWord => "section word",
            Self::States => "states",
            Self::LogStated => "log stated",
            Self::LogCountOfKind => "log count of kind",
            Self::Parts => "parts",
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
    for kind in said.section_kind.iter().flat_map(|kind| kind.within()) {
        take(What::SectionKind, &kind.name, 1.0);
    }
    words(said, &mut take);
    sizes(said, &mut take);
    measures(said, &mut take);
    of_parts(parts, &mut take);
}

fn words(said: &Said, take: &mut impl FnMut(What, &str, f64)) {
    for (at, word) in said.name.iter().enumerate() {
        if !said.name[..at].contains(word) {
            take(What::Word, word, 1.0);
        }
    }
    let mut pair = String::new();
    for two in said.name.windows(2) {
        pair.clear();
        pair.extend([two[0].as_str(), " ", two[1].as_str()]);
        take(What::Pair, &pair, 1.0);
    }
    for (at, word) in said.beside.iter().enumerate() {
        if !said.beside[..at].contains(word) {
            take(What::WordBeside, word, 1.0);
        }
    }
    for word in &said.section {
        take(What::SectionWord, word, 1.0);
    }
}

fn sizes(said: &Said, take: &mut impl FnMut(What, &str, f64)) {
    let mut key = String::new();
    for size in &said.sizes {
        take(What::Size, size, 1.0);
        key.clear();
        key.extend([size, "|", said.kind.sized_as().name.as_str()]);
        take(What::SizeOfKind, &key, 1.0);
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
    let figures = [
        ("oz", ounces, USUAL_OZ),
        ("fl oz", fluid, USUAL_FL_OZ),
        ("in", stated.inches, USUAL_IN),
        ("count", stated.count, USUAL_COUNT),
    ];
    for (unit, figure, usual) in figures {
        if let Some(figure) = figure {
            take(What::States, unit, 1.0);
            take(What::LogStated, unit, (figure / usual).ln());
        }
    }
    if let Some(count) = stated.count {
        take(
            What::LogCountOfKind,
            &said.kind.name,
            (count / USUAL_COUNT).ln(),
        );
    }
}

fn of_parts(parts: Option<Parts>, take: &mut impl FnMut(What, &str, f64)) {
    match parts.filter(|p| p.kcal > LEAST_KCAL && p.grams > 1.0) {
        Some(parts) => {
            take(What::Parts, "log energy", (parts.kcal / USUAL_KCAL).ln());
            let density = parts.kcal / parts.grams;
            if parts.count >= SEVERAL {
                take(What::Parts, "several", 1.0);
                take(
                    What::Parts,
                    "log energy of several",
                    (parts.kcal / USUAL_KCAL).ln(),
                );
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
    }
}
