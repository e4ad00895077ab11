//! Dishes to choose from, by name.

use crate::words::{spelt_number, words_of};
use std::borrow::Cow;
use std::path::PathBuf;

include!(concat!(env!("OUT_DIR"), "/library.rs"));

/// A dish file in the library, unread.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// File name without ending.
    pub slug: Cow<'static, str>,
    /// Name of the dish.
    pub name: Cow<'static, str>,
    /// Kind of dish.
    pub kind: Cow<'static, str>,
    /// The file's text.
    pub text: Cow<'static, str>,
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
                slug: Cow::Borrowed(slug),
                name: Cow::Borrowed(name),
                kind: Cow::Borrowed(kind),
                text: Cow::Borrowed(text),
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

    /// Finds a dish by slug, by name, or by nearly its name: the same words but for their
    /// spelling and order.
    #[must_use]
    pub fn find(&self, name: &str) -> Hit {
        let asked = NameWords::of(name);
        let exact = self
            .entries
            .iter()
            .find(|e| e.slug == name || e.name == name)
            .or_else(|| {
                let same = |e: &&Entry| asked.is_same(&NameWords::of(&e.name));
                self.entries.iter().find(same)
            });
        if let Some(entry) = exact {
            return Hit::Exact(entry.clone());
        }
        let scored = self
            .entries
            .iter()
            .map(|e| (asked.likeness(&NameWords::of(&e.name)), e));
        match scored.max_by(|a, b| a.0.total_cmp(&b.0)) {
            Some((score, entry)) if score > 0.0 => Hit::Near(entry.clone()),
            _ => Hit::None,
        }
    }

    /// Other dishes of nearly this name, which are likely the same one written twice.
    #[cfg(feature = "cli")]
    pub(crate) fn near_duplicates(&self, name: &str) -> impl Iterator<Item = &Entry> {
        let asked = NameWords::of(name);
        self.entries.iter().filter(move |entry| {
            let other = NameWords::of(&entry.name);
            entry.name != name && asked.likeness(&other) > ALMOST_THE_SAME
        })
    }
}

/// Likeness from which two names are one name written in two ways.
#[cfg(feature = "cli")]
const ALMOST_THE_SAME: f64 = 0.92;

/// The words of a dish's name.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct NameWords {
    /// In base form.
    all: Vec<String>,
    /// Those of them that mean something.
    telling: Vec<String>,
    /// Numbers and shares, numbers in figures: `10 french fries` is not one serving of them.
    counts: Vec<String>,
}

impl NameWords {
    pub(super) fn of(name: &str) -> Self {
        let all = words_of(name).to_vec();
        let joins = |w: &&String| matches!(w.as_str(), "with" | "and" | "a" | "the");
        Self {
            telling: all.iter().filter(|w| !joins(w)).cloned().collect(),
            counts: counts(name),
            all,
        }
    }

    /// The name as it is looked up. A name in letters of another script has none of our
    /// words, as many others.
    pub(super) fn key(&self) -> Option<String> {
        (!self.all.is_empty()).then(|| self.all.join(" "))
    }

    fn is_same(&self, other: &Self) -> bool {
        !self.all.is_empty() && self.all == other.all
    }

    /// How like two names are that say the same but for the spelling and the order of their
    /// words, up to 1; 0 for others.
    pub(super) fn likeness(&self, other: &Self) -> f64 {
        let (a, b) = (&self.telling, &other.telling);
        if a.is_empty() || a.len() != b.len() || self.counts != other.counts {
            return 0.0;
        }
        // The word that is met least well; nothing as soon as one is hardly met at all.
        let met = |from: &[String], to: &[String]| {
            from.iter().try_fold(1.0, |worst: f64, word| {
                let all = to.iter().map(|o| same_word(word, o));
                let best = all.fold(0.0, f64::max);
                (best > SAME_WORD).then_some(worst.min(best))
            })
        };
        let both = met(a, b).and_then(|worst| Some(worst.min(met(b, a)?)));
        both.unwrap_or(0.0)
    }
}

/// Likeness (Jaro-Winkler) from which a word is another one misspelt.
const SAME_WORD: f64 = 0.84;

/// How like two words are, 0 where more letters differ than a slip of the hand explains: a
/// `cola` is no `coleslaw`, though both begin alike.
fn same_word(one: &str, other: &str) -> f64 {
    if one == other {
        return 1.0;
    }
    // Words in base form are ASCII: a byte is a letter.
    let (a, b) = (one.len(), other.len());
    let slips = match a.max(b) {
        0..=3 => 0,
        4..=7 => 1,
        _ => 2,
    };
    // Each letter too many or of its own is a slip: most words need no closer look.
    let (has, needs) = (letters(one), letters(other));
    let own = |a: u32, b: u32| (a & !b).count_ones() as usize;
    let least = a.abs_diff(b).max(own(has, needs)).max(own(needs, has));
    if least > slips || strsim::osa_distance(one, other) > slips {
        return 0.0;
    }
    strsim::jaro_winkler(one, other)
}

/// The letters of a word, a bit each.
fn letters(word: &str) -> u32 {
    let bit = |letter: u8| 1 << (letter & 31);
    word.bytes().fold(0, |all, letter| all | bit(letter))
}

fn counts(name: &str) -> Vec<String> {
    let figures = |word: &str| {
        let said = spelt_number(word);
        said.map_or_else(|| word.to_owned(), |number| number.to_string())
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

/// Longest file name of a dish, signs.
const LONGEST_SLUG: usize = 80;

/// File name for a dish's name: lower-case words joined by hyphens, in its own letters where
/// it has none of ours; empty when it has no letter of any script.
#[must_use]
pub(crate) fn slug(name: &str) -> String {
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
        // They begin alike; nobody who writes one means the other.
        assert_eq!(library.find("cola"), Hit::None);
    }

    #[cfg(feature = "cli")]
    #[test]
    fn one_dish_written_twice_is_noticed() {
        let library = Library::built_in();
        let like = |name: &str| library.near_duplicates(name).count();
        assert!(like("Salad, chicken Caesar") == 1 && like("Chiken Caesar salads") == 1);
        for entry in library.entries() {
            assert_eq!(like(&entry.name), 0, "{}", entry.name);
        }
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
