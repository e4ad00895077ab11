//! Finding a table's phrases in what is written.

use crate::memo::Quick;
use crate::words::words;
use std::collections::HashMap;

/// A phrase of a table behind its first word.
#[derive(Debug)]
struct Phrase {
    /// The row that it finds.
    row: usize,
    /// How many words it has.
    words: usize,
    /// Its words but the first in base forms, parted by spaces.
    rest: Box<str>,
}

/// Rows that are found by their phrases. Built once; a look-up touches only the phrases that
/// begin with a word of the text.
#[derive(Debug)]
pub(super) struct PhraseTable<R> {
    rows: Vec<R>,
    by_first: HashMap<Box<str>, Vec<Phrase>, Quick>,
}

/// A row found in a text.
#[derive(Debug)]
pub(super) struct Hit<'t, R> {
    /// The row.
    pub row: &'t R,
    /// Place of the phrase's first word.
    pub at: usize,
    /// Words of the phrase.
    pub length: usize,
}

impl Phrase {
    /// Whether the words behind the first stand at the start of `text`.
    fn stands_behind(&self, text: &[String]) -> bool {
        self.words == 1
            || self.words <= text.len() + 1
                && self
                    .rest
                    .split(' ')
                    .zip(text)
                    .all(|(own, said)| own == said)
    }
}

impl<R> PhraseTable<R> {
    /// Rows with the table cell that holds their phrases in base forms, parted by semicolons.
    pub(super) fn new(rows: impl IntoIterator<Item = (String, R)>) -> Self {
        let rows = rows.into_iter();
        let room = rows.size_hint().0;
        let mut table = Self {
            rows: Vec::with_capacity(room),
            by_first: HashMap::with_capacity_and_hasher(room, Quick::default()),
        };
        for (cell, row) in rows {
            for phrase in cell.split(';').filter(|phrase| !phrase.is_empty()) {
                let (first, rest) = phrase.split_once(' ').unwrap_or((phrase, ""));
                let phrase = Phrase {
                    row: table.rows.len(),
                    words: phrase.split(' ').count(),
                    rest: rest.into(),
                };
                match table.by_first.get_mut(first) {
                    Some(begun) => begun.push(phrase),
                    None => drop(table.by_first.insert(first.into(), vec![phrase])),
                }
            }
            table.rows.push(row);
        }
        table
    }

    /// All rows in their order.
    pub(super) fn rows(&self) -> &[R] {
        &self.rows
    }

    /// The row whose longest phrase stands in `text`; of equally long ones the one that
    /// stands last.
    pub(super) fn longest(&self, text: &[String]) -> Option<Hit<'_, R>> {
        self.found(text).max_by_key(|hit| (hit.length, hit.at))
    }

    /// The row whose phrase ends last in `text`, for the last words name the thing (`grilled
    /// chicken salad` is a salad); of those the longest.
    pub(super) fn last(&self, text: &[String]) -> Option<Hit<'_, R>> {
        self.found(text)
            .max_by_key(|hit| (hit.at + hit.length, hit.length))
    }

    /// Whether any phrase stands in `text`.
    pub(super) fn any(&self, text: &[String]) -> bool {
        self.found(text).next().is_some()
    }

    /// The rows of all phrases that stand in `text`.
    pub(super) fn all<'t, 'w>(
        &'t self,
        text: &'w [String],
    ) -> impl Iterator<Item = &'t R> + use<'t, 'w, R> {
        self.found(text).map(|hit| hit.row)
    }

    fn found<'t, 'w>(
        &'t self,
        text: &'w [String],
    ) -> impl Iterator<Item = Hit<'t, R>> + use<'t, 'w, R> {
        (0..text.len()).flat_map(move |at| {
            let begun = self.by_first.get(text[at].as_str()).into_iter().flatten();
            begun
                .filter(move |phrase| phrase.stands_behind(&text[at + 1..]))
                .map(move |phrase| Hit {
                    row: &self.rows[phrase.row],
                    at,
                    length: phrase.words,
                })
        })
    }
}

/// Phrases as they are written, without rows, parted by semicolons.
pub(super) fn only_phrases(cell: &str) -> PhraseTable<()> {
    let phrases = cell.split(';').map(|phrase| (words(phrase).join(" "), ()));
    PhraseTable::new(phrases)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_longest_or_the_last_phrase_decides() {
        let table = PhraseTable::new([
            ("chicken;chicken salad".to_owned(), 1),
            ("salad".to_owned(), 2),
            ("soup".to_owned(), 3),
        ]);
        let longest = |text: &str| table.longest(&words(text)).map(|hit| *hit.row);
        let last = |text: &str| table.last(&words(text)).map(|hit| *hit.row);
        assert_eq!(longest("chicken salad with soup"), Some(1));
        assert_eq!(last("chicken salad with soup"), Some(3));
        assert_eq!(last("grilled chicken salad"), Some(1));
        assert_eq!(longest("salad"), Some(2));
        assert_eq!(longest("stew"), None);
        assert!(only_phrases("in shell;bone-in").any(&words("1 lb bone-in ribs")));
    }
}
