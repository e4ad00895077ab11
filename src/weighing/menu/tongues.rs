//! Food words of other tongues.

use crate::words::{prepared, prepared_rows, words_of};
use serde::Deserialize;
use std::collections::HashMap;
use std::sync::LazyLock;

#[derive(Debug, Deserialize)]
struct Word {
    words_base: String,
    means: String,
}

static TONGUES: LazyLock<HashMap<String, String>> = LazyLock::new(|| {
    let mut all = HashMap::new();
    for row in prepared_rows::<Word>(prepared!("menu_words.csv")) {
        for words in row.words_base.split(';') {
            all.insert(words.to_owned(), row.means.clone());
        }
    }
    all
});

#[derive(Debug, Deserialize)]
struct End {
    ends: String,
    means: String,
}

static ENDS: LazyLock<Vec<End>> = LazyLock::new(|| prepared_rows(prepared!("compound_ends.csv")));

/// Letters before an end that make a compound of it.
const BEFORE_AN_END: usize = 3;

/// A food in English, where a menu names it in another tongue.
pub(super) fn in_english(text: &str) -> Option<&'static str> {
    let words = words_of(text);
    let whole = match &*words {
        [word] => TONGUES
            .get(word.as_str())
            .map(String::as_str)
            .or_else(|| by_its_end(word)),
        words => TONGUES.get(&words.join(" ")).map(String::as_str),
    };
    // `geröstete Petersilienkartoffeln`.
    whole.or_else(|| by_its_end(words.last().filter(|_| words.len() == 2)?))
}

/// `Petersilienkartoffeln`: the end of a compound says what it is.
fn by_its_end(word: &str) -> Option<&'static str> {
    let ends = |row: &&End| {
        let is = |end: &str| {
            word.strip_suffix(end)
                .is_some_and(|before| before.len() >= BEFORE_AN_END)
        };
        row.ends.split(';').any(is)
    };
    ENDS.iter().find(ends).map(|row| row.means.as_str())
}

/// All meanings, for tests.
#[cfg(test)]
pub(super) fn meanings() -> impl Iterator<Item = &'static String> {
    TONGUES.values()
}
