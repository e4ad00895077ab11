//! Words that can begin something other than food in the middle of a line. Most words of a
//! line are none of them, and nothing else need be looked for where they stand.

use super::number::Reader;
use super::tokens::{Key, Kind};

/// In alphabetical order: asides, shares of a vessel, fixed expressions, hedges, numbers and
/// parts in letters. Every word that one of them asks for at its first place is here; tests
/// and debug builds hold it against them at every word that they read.
const OPENERS: [&str; 92] = [
    "a",
    "about",
    "all",
    "almost",
    "an",
    "approx",
    "approximately",
    "around",
    "as",
    "at",
    "ate",
    "between",
    "c",
    "ca",
    "chicken",
    "circa",
    "couple",
    "dozen",
    "eaten",
    "eight",
    "eighteen",
    "eighth",
    "eighths",
    "eleven",
    "entire",
    "few",
    "fifteen",
    "fifth",
    "fifths",
    "fifty",
    "finished",
    "five",
    "for",
    "forty",
    "four",
    "fourteen",
    "fourth",
    "fourths",
    "had",
    "half",
    "if",
    "inf",
    "infinity",
    "just",
    "left",
    "less",
    "maybe",
    "more",
    "most",
    "nan",
    "nearly",
    "nine",
    "nineteen",
    "no",
    "on",
    "one",
    "only",
    "pair",
    "perhaps",
    "quarter",
    "quarters",
    "remainder",
    "rest",
    "roughly",
    "see",
    "seven",
    "seventeen",
    "several",
    "shared",
    "six",
    "sixteen",
    "sixth",
    "sixths",
    "size",
    "split",
    "ten",
    "tenth",
    "tenths",
    "the",
    "third",
    "thirds",
    "thirteen",
    "thirty",
    "thousand",
    "three",
    "to",
    "twelve",
    "twenty",
    "two",
    "up",
    "whole",
    "x",
];

/// Lengths of the openers by their first letter, one bit a length.
const LENGTHS: [u32; 26] = {
    let mut all = [0; 26];
    let mut at = 0;
    while at < OPENERS.len() {
        let word = OPENERS[at].as_bytes();
        all[(word[0] - b'a') as usize] |= 1 << word.len();
        at += 1;
    }
    all
};

impl Reader<'_> {
    /// Whether the token at `at` is a word that begins nothing but food in the middle of a
    /// line.
    pub(super) fn is_only_food(&self, at: usize) -> bool {
        if self.kind(at) != Some(Kind::Word) {
            return false;
        }
        self.word(at).is_some_and(|word| !may_open(word))
    }
}

fn may_open(word: &str) -> bool {
    let Some(key) = Key::of(word) else {
        // A long word is none of them; one with other letters may be one.
        return !word.is_ascii();
    };
    let key = key.as_str();
    let first = key.bytes().next().unwrap_or(0).wrapping_sub(b'a');
    let lengths = LENGTHS.get(usize::from(first)).copied().unwrap_or(u32::MAX);
    lengths >> key.len() & 1 == 1 && OPENERS.binary_search(&key).is_ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_sorted() {
        assert!(OPENERS.is_sorted());
    }

    #[test]
    fn openers_are_known_in_any_case() {
        for word in ["About", "TO", "x", "approximately", "à"] {
            assert!(may_open(word), "{word}");
        }
        for word in ["rice", "About2", "unapproximatedly", "cheddar"] {
            assert!(!may_open(word), "{word}");
        }
    }
}
