//! Asides: words that say nothing about the food or how much of it there is.

use super::number::Reader;

/// Asides that may end any part of a line.
const TRAILING: [&[&str]; 16] = [
    &["no", "idea", "how", "much"],
    &["not", "sure", "how", "much"],
    &["unsure", "how", "much"],
    &["don't", "know", "how", "much"],
    &["on", "the", "side"],
    &["on", "side"],
    &["to", "taste"],
    &["if", "desired"],
    &["for", "garnish"],
    &["as", "garnish"],
    &["to", "garnish"],
    &["for", "serving"],
    &["to", "serve"],
    &["as", "needed"],
    &["see", "photo"],
    &["see", "note"],
];

/// Asides that stand alone between commas or in brackets.
const ALONE: [&[&str]; 8] = [
    &["optional"],
    &["garnish"],
    &["as", "pictured"],
    &["see", "picture"],
    &["from", "the", "label"],
    &["from", "label"],
    &["weighed"],
    &["measured"],
];

/// Standing alone, these say that the amount is a guess.
const GUESSED: [&[&str]; 14] = [
    &["maybe"],
    &["i", "think"],
    &["i", "guess"],
    &["or", "thereabouts"],
    &["give", "or", "take"],
    &["roughly"],
    &["more", "or", "less"],
    &["ish"],
    &["estimated"],
    &["estimate"],
    &["est"],
    &["eyeballed"],
    &["guess"],
    &["approx"],
];

/// Before the food, where an amount would be: no amount at all.
const VAGUE: [&[&str]; 14] = [
    &["no", "idea", "how", "much"],
    &["not", "sure", "how", "much"],
    &["unsure", "how", "much"],
    &["don't", "know", "how", "much"],
    &["a", "little", "bit", "of"],
    &["a", "little"],
    &["a", "bit", "of"],
    &["a", "touch", "of"],
    &["a", "hint", "of"],
    &["a", "lot", "of"],
    &["lots", "of"],
    &["plenty", "of"],
    &["loads", "of"],
    &["some"],
];

/// Foods that are told by what they lack.
const LACKING: [&str; 12] = [
    "fat",
    "salt",
    "sugar",
    "added",
    "carb",
    "bake",
    "bean",
    "knead",
    "name",
    "cholesterol",
    "sodium",
    "meat",
];

/// An aside found in a line.
pub(super) struct Aside {
    /// First position after it.
    pub next: usize,
    /// It makes the amount a guess.
    pub guessed: bool,
}

impl Reader<'_> {
    /// The aside that begins at `at`; `opens` says whether a part of the line begins there.
    pub(super) fn aside(&self, at: usize, opens: bool) -> Option<Aside> {
        self.word(at)?;
        let ends = |next: usize| self.ends_segment(next).then_some(next);
        let aside = |next, guessed| Aside { next, guessed };
        if let Some(next) = self.phrase(at, &TRAILING).and_then(ends) {
            return Some(aside(next, false));
        }
        if !opens || at == 0 {
            return None;
        }
        if self.is(at, "note") && self.is_mark(at + 1, &[':']) {
            return Some(aside(self.tokens.len(), false));
        }
        if let Some(next) = self.phrase(at, &ALONE).and_then(ends) {
            return Some(aside(next, false));
        }
        let next = self.phrase(at, &GUESSED)?;
        ends(self.after_unit(next)).map(|next| aside(next, true))
    }

    /// `some`, `a little`, `lots of` at the start of a line, before a food.
    pub(super) fn vague_start(&self) -> Option<usize> {
        let next = self.phrase(0, &VAGUE)?;
        let measured = self
            .word(next)
            .is_some_and(|word| super::loose::loose_word(word).is_some());
        (self.word(next).is_some() && !measured).then_some(next)
    }

    /// Whether the line says that something is not there: `no onions`, `hold the mayo`.
    pub(super) fn says_absent(&self) -> bool {
        let no = self.is_any(0, &["no", "without"])
            && !self.is(1, "idea")
            && self.word(1).is_some()
            && !self.is_any(1, &LACKING);
        no || self.is(0, "hold") && self.is(1, "the")
    }

    fn phrase(&self, at: usize, phrases: &[&[&str]]) -> Option<usize> {
        phrases
            .iter()
            .find(|phrase| {
                phrase
                    .iter()
                    .enumerate()
                    .all(|(offset, word)| self.is(at + offset, word))
            })
            .map(|phrase| at + phrase.len())
    }
}
