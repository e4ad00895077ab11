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

/// A food in English, where a menu names it in another tongue.
pub(super) fn in_english(text: &str) -> Option<&'static str> {
    TONGUES.get(&words_of(text).join(" ")).map(String::as_str)
}

/// All meanings, for tests.
#[cfg(test)]
pub(super) fn meanings() -> impl Iterator<Item = &'static String> {
    TONGUES.values()
}
