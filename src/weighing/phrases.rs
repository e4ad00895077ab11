//! Finding a table's phrases in what is written.

use crate::memo::Quick;
use crate::words::words;
use std::collections::HashMap;

/// A phrase of a table, in base forms.
type Phrase = Vec<String>;

/// Rows that are found by their phrases. Built once; a look-up touches only the phrases that
/// begin with a word of the text.
#[derive(Debug)]
pub(super) struct PhraseTable<R> {
    rows: Vec<R>,
    by_first: HashMap<String, Vec<(usize, Phrase)>, Quick>,
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

impl<R> PhraseTable<R> {
    /// Rows with the table cell that holds their phrases, parted by semicolons.
    pub(super) fn new(rows: impl IntoIterator<Item = (String, R)>) -> Self {
        let mut table = Self {
            rows: Vec::new(),
            by_first: HashMap::default(),
        };
        for (cell, row) in rows {
            for phrase in cell.split(';').map(words) {
                if let Some(first) = phrase.first().cloned() {
                    let entry = (table.rows.len(), phrase);
                    table.by_first.entry(first).or_default().push(entry);
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
            let begun = self.by_first.get(&text[at]).into_iter().flatten();
            begun
                .filter(move |(_, phrase)| text[at..].starts_with(phrase))
                .map(move |(row, phrase)| Hit {
                    row: &self.rows[*row],
                    at,
                    length: phrase.len(),
                })
        })
    }
}

/// Phrases without rows, parted by semicolons.
pub(super) fn only_phrases(cell: &str) -> PhraseTable<()> {
    PhraseTable::new([(cell.to_owned(), ())])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_longest_or_the_last_phrase_decides() {
        let table = PhraseTable::new([
            ("chicken;chicken salad".to_owned(), 1),
            ("salads".to_owned(), 2),
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
