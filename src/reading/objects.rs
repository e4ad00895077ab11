//! Hands and everyday objects that amounts are likened to: a fist, a deck of cards.

use super::loose::{Loose, LooseSize};
use super::number::Reader;
use super::units::VolumeUnit;
use crate::quantity::Range;
use crate::quantity::units::{CUP_ML, OUNCE_G};

/// What one holds in millilitres, or weighs in grams of the food it is said of.
const fn cups(
    name: &'static str,
    spellings: &'static [&'static str],
    cups: f64,
    source: &'static str,
) -> Loose {
    let ml = cups * CUP_ML;
    Loose {
        name,
        spellings,
        size: LooseSize::Millilitres(Range::new(ml * 0.7, ml, ml * 1.35), VolumeUnit::Cup),
        source,
    }
}

const fn ounces(
    name: &'static str,
    spellings: &'static [&'static str],
    ounces: f64,
    source: &'static str,
) -> Loose {
    let grams = ounces * OUNCE_G;
    Loose {
        name,
        spellings,
        size: LooseSize::Grams(Range::new(grams * 0.75, grams, grams * 1.35)),
        source,
    }
}

const NHLBI: &str = "NHLBI serving size card";
const USDA: &str = "visual size table credited to USDA";
const AHA: &str = "American Heart Association page 2014";
const PRACTICE: &str = "common practice";

/// Objects by the words for them, longest first where one begins another. The spreads are
/// common practice: hands differ by a third.
const OBJECTS: [Loose; 24] = [
    cups("baseball", &["baseballs", "base ball"], 1.0, NHLBI),
    cups("softball", &["softballs"], 1.5, PRACTICE),
    cups("tennis ball", &["tennis balls"], 0.6, PRACTICE),
    cups(
        "ping pong ball",
        &["ping pong balls", "table tennis ball"],
        0.125,
        NHLBI,
    ),
    cups("golf ball", &["golf balls"], 0.25, USDA),
    cups("large egg", &["hen's egg"], 0.25, NHLBI),
    cups("light bulb", &["light bulbs"], 0.5, PRACTICE),
    cups("hockey puck", &["hockey pucks"], 0.5, PRACTICE),
    cups("cupped hand", &["cupped hands"], 0.5, PRACTICE),
    cups("small fist", &["small fists"], 1.0, AHA),
    cups("fist", &["fists"], 1.0, NHLBI),
    cups(
        "thumb tip",
        &["thumb tips", "fingertip", "fingertips", "tip of thumb"],
        1.0 / 48.0,
        PRACTICE,
    ),
    cups("thumb", &["thumbs"], 1.0 / 16.0, PRACTICE),
    cups("poker chip", &["poker chips"], 1.0 / 16.0, PRACTICE),
    cups("postage stamp", &["postage stamps"], 1.0 / 48.0, PRACTICE),
    cups("shot glass", &["shot glasses"], 0.1875, PRACTICE),
    cups("walnut", &[], 1.0 / 12.0, PRACTICE),
    ounces(
        "deck of cards",
        &[
            "decks of cards",
            "card deck",
            "pack of cards",
            "deck of playing cards",
        ],
        3.0,
        NHLBI,
    ),
    ounces("computer mouse", &["computer mice"], 3.0, AHA),
    ounces(
        "checkbook",
        &["checkbooks", "cheque book", "chequebook"],
        3.0,
        NHLBI,
    ),
    ounces("palm", &["palms"], 3.0, PRACTICE),
    ounces("matchbox", &["matchboxes"], 1.0, PRACTICE),
    ounces("bar of soap", &["bars of soap"], 3.0, NHLBI),
    ounces("smartphone", &["smartphones", "phone"], 3.5, PRACTICE),
];

impl Reader<'_> {
    /// The object named at `at` and the position after it, with `-sized piece` behind it:
    /// `palm-sized piece`, `deck of cards`. Alone `walnut` or `thumb` may be food or finger: what
    /// it measures must follow.
    pub(super) fn object(&self, at: usize) -> Option<(&'static Loose, usize)> {
        let (loose, after) = self.object_name(at)?;
        let joint = after + usize::from(self.is_hyphen(after));
        let sized = self.is_any(joint, &["size", "sized"]);
        if !sized {
            return self.is(after, "of").then_some((loose, after)).or_else(|| {
                let clear = !matches!(
                    loose.name,
                    "walnut" | "large egg" | "smartphone" | "palm" | "shot glass"
                );
                let food = self.word(after).is_some();
                (clear && (food || self.ends_segment(after))).then_some((loose, after))
            });
        }
        let piece = joint + 1;
        let named = self.is_any(
            piece,
            &[
                "piece", "portion", "serving", "chunk", "lump", "slice", "scoop", "mound", "amount",
            ],
        );
        Some((loose, piece + usize::from(named)))
    }

    /// `the size of my palm`, `as big as a deck of cards`: the object and the position after it.
    pub(super) fn likened(&self, at: usize) -> Option<(&'static Loose, usize)> {
        let start = at + usize::from(self.is_any(at, &["the", "about", "roughly"]));
        let start = start + usize::from(start > at && self.is(start, "the"));
        let next = if self.is(start, "size") && self.is(start + 1, "of") {
            start + 2
        } else if self.is(start, "as")
            && self.is_any(start + 1, &["big", "large", "much"])
            && self.is(start + 2, "as")
        {
            start + 3
        } else {
            return None;
        };
        let own = self.is_any(next, &["a", "an", "my", "your", "the", "his", "her", "one"]);
        self.object_name(next + usize::from(own))
    }

    fn object_name(&self, at: usize) -> Option<(&'static Loose, usize)> {
        let first = self.word(at)?;
        let mut longest: Option<(&'static Loose, usize)> = None;
        for loose in &OBJECTS {
            for phrase in std::iter::once(&loose.name).chain(loose.spellings) {
                let begins = phrase
                    .split(' ')
                    .next()
                    .is_some_and(|word| word.eq_ignore_ascii_case(first));
                if begins
                    && let Some(next) = self.phrase_end(at, phrase)
                    && longest.is_none_or(|(_, end)| next > end)
                {
                    longest = Some((loose, next));
                }
            }
        }
        longest
    }

    /// The position after the words of `phrase`, hyphens between them left out.
    fn phrase_end(&self, at: usize, phrase: &str) -> Option<usize> {
        let mut next = at;
        for (index, word) in phrase.split(' ').enumerate() {
            next += usize::from(index > 0 && self.is_hyphen(next));
            if !self.is(next, word) {
                return None;
            }
            next += 1;
        }
        Some(next)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_object_has_a_source_and_no_words_name_two() {
        let mut words: Vec<&str> = OBJECTS
            .iter()
            .flat_map(|o| o.spellings.iter().copied().chain([o.name]))
            .collect();
        let many = words.len();
        words.sort_unstable();
        words.dedup();
        assert_eq!(words.len(), many);
        assert!(OBJECTS.iter().all(|o| !o.source.is_empty()));
    }
}
