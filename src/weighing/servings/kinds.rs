//! What sort of serving a name names: a tree of kinds, from `double burger` over `burger` and
//! `sandwich` to `food`.

use super::super::phrases::PhraseTable;
use crate::words::{prepared, prepared_rows, words_of};
use serde::Deserialize;
use std::collections::HashMap;
use std::sync::LazyLock;

#[derive(Debug, Deserialize)]
struct Row {
    kind: String,
    within: String,
    words_base: String,
}

/// A kind of serving.
#[derive(Debug, PartialEq, Eq)]
pub struct ServingKind {
    /// Its name.
    pub name: String,
    /// Itself and what it lies within, nearest first: `double burger`, `burger`, ...
    line: Vec<usize>,
}

const TEXT: &str = prepared!("serving_kinds.csv");
/// The kind of all drinks.
const DRINK: &str = "drink";
/// Kinds of this depth below the root tell sizes apart: what is large of fries is not what is
/// large of a salad.
const SIZED_DEPTH: usize = 3;

static TABLE: LazyLock<PhraseTable<ServingKind>> = LazyLock::new(|| {
    let mut places: HashMap<String, usize> = HashMap::new();
    let mut lines: Vec<Vec<usize>> = Vec::new();
    let mut list = Vec::new();
    for (at, row) in prepared_rows::<Row>(TEXT).into_iter().enumerate() {
        let mut line = vec![at];
        if let Some(within) = places.get(&row.within) {
            line.extend_from_slice(&lines[*within]);
        }
        places.insert(row.kind.clone(), at);
        lines.push(line.clone());
        let kind = ServingKind {
            name: row.kind,
            line,
        };
        list.push((row.words_base, kind));
    }
    PhraseTable::new(list)
});

impl ServingKind {
    /// The kind that is named last in words in base form, for the last words name the thing;
    /// of those that end there the longest phrase's.
    #[must_use]
    pub(crate) fn named_last(words: &[String]) -> Option<&'static Self> {
        TABLE.last(words).map(|hit| hit.row)
    }

    /// The kind that the very last words name, and where they begin.
    #[must_use]
    pub(crate) fn named_at_end(words: &[String]) -> Option<(&'static Self, usize)> {
        let hit = TABLE.last(words)?;
        (hit.at + hit.length == words.len()).then_some((hit.row, hit.at))
    }

    /// The kind that words name last, and whether in the plural: as they are spelt, and in base form.
    #[must_use]
    pub(crate) fn named_in(spelt: &[String], base: &[String]) -> Option<(&'static Self, bool)> {
        let hit = TABLE.last(base)?;
        let last = hit.at + hit.length - 1;
        let both = spelt.get(last).zip(base.get(last));
        let plural = both.is_some_and(|(said, base)| is_plural(said, base));
        Some((hit.row, plural))
    }

    /// The kind of this very name.
    #[must_use]
    pub(crate) fn of_name(name: &str) -> Option<&'static Self> {
        TABLE.rows().iter().find(|kind| kind.name == name)
    }

    /// The kind that all are within.
    #[must_use]
    pub(crate) fn any() -> &'static Self {
        &TABLE.rows()[0]
    }

    /// Itself and all kinds that it lies within, nearest first.
    pub fn within(&self) -> impl Iterator<Item = &'static Self> {
        self.line.iter().map(|at| &TABLE.rows()[*at])
    }

    /// Whether it is one of these, or lies within one.
    #[must_use]
    pub(crate) fn lies_within(&self, names: &[impl AsRef<str>]) -> bool {
        self.within()
            .any(|kind| names.iter().any(|name| name.as_ref() == kind.name))
    }

    /// Whether it is what is added to dishes, no dish.
    #[must_use]
    pub(crate) fn is_added(&self) -> bool {
        self.lies_within(&["add on"])
    }

    /// The kind that decides what a size word means for it.
    #[must_use]
    pub(crate) fn sized_as(&self) -> &'static Self {
        let at = self.line.len().saturating_sub(SIZED_DEPTH);
        &TABLE.rows()[self.line[at]]
    }

    /// Whether it says no more than that it is drunk.
    #[must_use]
    pub(crate) fn is_any_drink(&self) -> bool {
        self.name == DRINK
    }

    /// Whether it is drunk.
    #[must_use]
    pub(crate) fn is_drink(&self) -> bool {
        self.lies_within(&[DRINK])
    }
}

/// Whether a word stands in the plural beside its base form.
#[must_use]
pub(crate) fn is_plural(said: &str, base: &str) -> bool {
    said.ends_with('s') && said.len() > base.len()
}

/// Whether words name a drink: what they name last.
#[must_use]
pub(crate) fn is_drink(text: &str) -> bool {
    ServingKind::named_last(&words_of(text)).is_some_and(ServingKind::is_drink)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::words;

    #[test]
    fn every_kind_lies_within_one_before_it() {
        let all = prepared_rows::<Row>(TEXT);
        let lines = TEXT.lines().skip(1).filter(|l| !l.is_empty());
        assert_eq!(all.len(), lines.count());
        for (at, row) in all.iter().enumerate().skip(1) {
            let before = all[..at].iter().any(|r| r.kind == row.within);
            assert!(before, "{} lies within {}", row.kind, row.within);
        }
    }

    #[test]
    fn the_last_words_name_the_kind() {
        let name = |text: &str| {
            ServingKind::named_last(&words(text)).map_or("", |kind| kind.name.as_str())
        };
        assert_eq!(name("Double Cheeseburger"), "double burger");
        assert_eq!(name("grilled chicken salad"), "salad");
        assert_eq!(name("chocolate milkshake"), "shake");
        assert_eq!(name("french onion soup"), "soup");
        assert_eq!(name("zzz"), "");
        let burger = ServingKind::named_last(&words("double cheeseburger")).expect("a kind");
        let line: Vec<&str> = burger.within().map(|k| k.name.as_str()).collect();
        assert_eq!(
            line,
            ["double burger", "burger", "sandwich", "food", "dish"]
        );
        assert_eq!(burger.sized_as().name, "sandwich");
        assert!(!burger.is_drink());
    }
}
