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

/// One of 64 bits for a word, by its length and its ends.
fn bit(word: &str) -> u64 {
    let bytes = word.as_bytes();
    let ends = |at: Option<&u8>| at.copied().map_or(0, usize::from);
    1 << ((bytes.len() * 7 + ends(bytes.first()) * 31 + ends(bytes.last()) * 11) % 64)
}

fn found<'r, R>(
    rows: &'r [R],
    of: impl Fn(&R) -> &[Phrase],
    text: &[String],
) -> impl Iterator<Item = (&'r R, usize, usize)> {
    // Most phrases begin with a word that the text does not have: told apart by a bit each.
    let there = text.iter().fold(0, |bits, word| bits | bit(word));
    rows.iter().flat_map(move |row| {
        let places: Vec<(usize, usize)> = of(row)
            .iter()
            .filter(|phrase| phrase.first().is_some_and(|word| there & bit(word) != 0))
            .filter_map(|phrase| Some((place_of(phrase, text)?, phrase.len())))
            .collect();
        places
            .into_iter()
            .map(move |(at, length)| (row, at, length))
    })
}
