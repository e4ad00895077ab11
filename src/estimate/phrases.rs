//! Finding a table's phrases in what is written.

use crate::catalogue::words::words;

/// A phrase of a table, in base forms.
pub(super) type Phrase = Vec<String>;

/// The phrases of a table cell, parted by semicolons.
pub(super) fn phrases(cell: &str) -> Vec<Phrase> {
    cell.split(';')
        .map(words)
        .filter(|p| !p.is_empty())
        .collect()
}

/// Where `phrase` stands in `text`, word for word.
pub(super) fn place_of(phrase: &[String], text: &[String]) -> Option<usize> {
    if phrase.is_empty() || phrase.len() > text.len() {
        return None;
    }
    text.windows(phrase.len()).rposition(|w| w == phrase)
}

/// The row whose longest phrase stands in `text`; of equally long ones the one that stands
/// last. With it come the place and the length of the phrase.
pub(super) fn best<'r, R>(
    rows: &'r [R],
    of: impl Fn(&R) -> &[Phrase],
    text: &[String],
) -> Option<(&'r R, usize, usize)> {
    found(rows, of, text).max_by_key(|(_, at, length)| (*length, at + length))
}

/// The row whose phrase ends last in `text`, for the last words name the thing (`grilled
/// chicken salad` is a salad); of those the longest.
pub(super) fn last<'r, R>(
    rows: &'r [R],
    of: impl Fn(&R) -> &[Phrase],
    text: &[String],
) -> Option<(&'r R, usize, usize)> {
    found(rows, of, text).max_by_key(|(_, at, length)| (at + length, *length))
}

fn found<'r, R>(
    rows: &'r [R],
    of: impl Fn(&R) -> &[Phrase],
    text: &[String],
) -> impl Iterator<Item = (&'r R, usize, usize)> {
    rows.iter().flat_map(move |row| {
        let places: Vec<(usize, usize)> = of(row)
            .iter()
            .filter_map(|phrase| Some((place_of(phrase, text)?, phrase.len())))
            .collect();
        places
            .into_iter()
            .map(move |(at, length)| (row, at, length))
    })
}
