//! Dishes to choose from, by name.

use crate::words::words;
use std::path::PathBuf;

include!(concat!(env!("OUT_DIR"), "/library.rs"));

/// A dish file in the library, unread.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// File name without ending.
    pub slug: String,
    /// Name of the dish.
    pub name: String,
    /// Kind of dish.
    pub kind: String,
    /// The file's text.
    pub text: String,
    /// The file, for a dish that does not come with the program.
    pub path: Option<PathBuf>,
}

/// What a name found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Hit {
    /// The dish of that name.
    Exact(Entry),
    /// A dish whose name is nearly that.
    Near(Entry),
    /// Nothing near.
    None,
}

/// Dishes to choose from: a folder's first, then those that come with the program.
#[derive(Debug, Clone)]
pub struct Library {
    entries: Vec<Entry>,
}

impl Library {
    /// The dishes that come with the program.
    #[must_use]
    pub fn built_in() -> Self {
        let entries = DISHES
            .iter()
            .map(|(slug, name, kind, text)| Entry {
                slug: (*slug).to_owned(),
                name: (*name).to_owned(),
                kind: (*kind).to_owned(),
                text: (*text).to_owned(),
                path: None,
            })
            .collect();
        Self { entries }
    }

    /// These dishes after some others.
    #[cfg(feature = "cli")]
    pub(super) fn after(mut self, mut others: Vec<Entry>) -> Self {
        others.append(&mut self.entries);
        Self { entries: others }
    }

    /// All dishes in order.
    #[must_use]
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// Finds a dish by slug, by name, or by nearly its name (every word of the shorter
    /// name in the longer one but for spelling).
    #[must_use]
    pub fn find(&self, name: &str) -> Hit {
        let asked = words(name);
        let exact = self
            .entries
            .iter()
            .find(|e| e.slug == name || e.name == name)
            // A name in letters of another script has none of our words, as many others.
            .or_else(|| {
                let mut all = self.entries.iter().filter(|_| !asked.is_empty());
                all.find(|e| words(&e.name) == asked)
            });
        if let Some(entry) = exact {
            return Hit::Exact(entry.clone());
        }
        let count = counts(name);
        let best = self
            .entries
            .iter()
            .filter(|e| count.is_empty() || counts(&e.name) == count)
            .map(|e| (likeness(&asked, &words(&e.name)), e))
            .max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.name.cmp(&a.1.name)));
        match best {
            Some((score, entry)) if score >= NEAR => Hit::Near(entry.clone()),
            _ => Hit::None,
        }
    }

    /// Dishes whose name is nearly that of `entry`.
    #[must_use]
    pub fn near_duplicates(&self, entry: &Entry) -> Vec<&Entry> {
        let own = words(&entry.name);
        self.entries
            .iter()
            .filter(|e| e.slug != entry.slug && likeness(&own, &words(&e.name)) >= 0.95)
            .collect()
    }
}

/// Likeness from which a name is taken for another.
const NEAR: f64 = 0.8;

/// Numbers and shares in a name, numbers in figures: `10 french fries` is not one serving of
/// French fries.
fn counts(name: &str) -> Vec<String> {
    const WORDS: [&str; 12] = [
        "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
        "twelve",
    ];
    let figures = |word: &str| {
        let said = WORDS.iter().position(|w| *w == word);
        said.map_or_else(|| word.to_owned(), |at| (at + 1).to_string())
    };
    name.to_lowercase()
        .split_whitespace()
        .map(figures)
        .filter(|word| {
            word.starts_with(|c: char| c.is_ascii_digit())
                || matches!(word.as_str(), "half" | "quarter" | "third")
        })
        .collect()
}

/// Share of words in common, each by its spelling, from 0 to 1.
fn likeness(a: &[String], b: &[String]) -> f64 {
    let plain = |list: &[String]| -> Vec<String> {
        list.iter()
            .filter(|w| !matches!(w.as_str(), "with" | "and" | "a" | "the"))
            .cloned()
            .collect()
    };
    let (a, b) = (plain(a), plain(b));
    if a.is_empty() || b.is_empty() {
        return 0.0;
    }
    let best = |word: &String, others: &[String]| {
        others
            .iter()
            .map(|o| strsim::jaro_winkler(word, o))
            .fold(0.0, f64::max)
    };
    let met = |from: &[String], to: &[String]| {
        from.iter()
            .map(|w| best(w, to))
            .map(|s| if s > 0.84 { s } else { 0.0 })
            .sum::<f64>()
    };
    (met(&a, &b) + met(&b, &a)) / (a.len() + b.len()) as f64
}

/// Longest file name of a dish, signs.
const LONGEST_SLUG: usize = 80;

/// File name for a dish's name: lower-case words joined by hyphens, in its own letters where
/// it has none of ours; empty when it has no letter of any script.
#[must_use]
pub fn slug(name: &str) -> String {
    let ours = crate::words::split(name).join("-").replace('%', "");
    let slug = if ours.is_empty() {
        in_own_letters(name)
    } else {
        ours
    };
    slug.chars().take(LONGEST_SLUG).collect()
}

fn in_own_letters(name: &str) -> String {
    let words = name.split(|c: char| !c.is_alphanumeric() && !is_mark(c));
    let words = words.filter(|word| word.contains(char::is_alphanumeric));
    words.collect::<Vec<_>>().join("-").to_lowercase()
}

/// Whether a sign belongs to the letter before it, as vowels do in many scripts.
fn is_mark(c: char) -> bool {
    unicode_normalization::char::is_combining_mark(c) || matches!(c, '\u{200c}' | '\u{200d}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dishes_are_found_by_name_slug_and_nearly() {
        let library = Library::built_in();
        assert!(library.entries().len() >= 60);
        assert!(matches!(
            library.find("chicken Caesar salad"),
            Hit::Exact(_)
        ));
        assert!(matches!(
            library.find("chicken-caesar-salad"),
            Hit::Exact(_)
        ));
        assert!(matches!(library.find("chiken cesar salad"), Hit::Near(_)));
        assert_eq!(library.find("xylophone soufflé"), Hit::None);
    }

    #[test]
    fn slugs_are_plain() {
        assert_eq!(slug("Crème brûlée & co."), "creme-brulee-and-co");
        assert_eq!(slug("親子丼 (大)"), "親子丼-大");
        assert_eq!(slug("Борщ с мясом"), "борщ-с-мясом");
        assert_eq!(slug("समोसा चाट"), "समोसा-चाट");
        assert_eq!(slug("../.. /"), "");
        assert!(slug(&"ж".repeat(5_000)).len() < 200);
    }
}
