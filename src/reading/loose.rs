//! Sizes of the measures nobody measures: a handful, a drizzle, a knob.
//!
//! Ranges are 80 % ranges. The food may change them (a handful of leaves is looser than one
//! of nuts); a later stage can tell by the spoken unit.

use super::units::VolumeUnit;
use crate::quantity::Range;

/// A loose measure: its words, its size, where the size comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Loose {
    /// Singular.
    pub name: &'static str,
    /// Other spellings and the plurals.
    pub spellings: &'static [&'static str],
    /// What one holds.
    pub size: LooseSize,
    /// Source of the size.
    pub source: &'static str,
}

/// What a loose measure holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum LooseSize {
    /// Millilitres, and the unit they are reported under.
    Millilitres(Range, VolumeUnit),
    /// Grams.
    Grams(Range),
}

const fn ml(
    name: &'static str,
    spellings: &'static [&'static str],
    unit: VolumeUnit,
    figures: [f64; 3],
    source: &'static str,
) -> Loose {
    let range = Range::new(figures[0], figures[1], figures[2]);
    Loose {
        name,
        spellings,
        size: LooseSize::Millilitres(range, unit),
        source,
    }
}

const fn grams(
    name: &'static str,
    spellings: &'static [&'static str],
    figures: [f64; 3],
    source: &'static str,
) -> Loose {
    Loose {
        name,
        spellings,
        size: LooseSize::Grams(Range::new(figures[0], figures[1], figures[2])),
        source,
    }
}

const MEASURING_SPOONS: &str =
    "common practice: small measuring spoons are sold as dash 1/8, pinch 1/16, smidgen 1/32 tsp";
const PRACTICE: &str = "common practice";

/// All loose measures.
pub(crate) const LOOSE: [Loose; 17] = [
    ml(
        "handful",
        &["handfuls", "handsful", "fistful", "fistfuls"],
        VolumeUnit::Handful,
        [45.0, 80.0, 125.0],
        "level adult handful 1/3 cup, visual size table credited to USDA; the spread is common practice",
    ),
    ml(
        "pinch",
        &["pinches"],
        VolumeUnit::Pinch,
        [0.15, 0.35, 0.6],
        MEASURING_SPOONS,
    ),
    ml(
        "smidgen",
        &["smidgens", "smidge"],
        VolumeUnit::Smidgen,
        [0.08, 0.17, 0.3],
        MEASURING_SPOONS,
    ),
    ml(
        "dash",
        &["dashes", "shake", "shakes"],
        VolumeUnit::Dash,
        [0.3, 0.7, 1.2],
        MEASURING_SPOONS,
    ),
    ml(
        "drizzle",
        &["drizzles"],
        VolumeUnit::Drizzle,
        [3.0, 6.5, 12.0],
        "common practice: 1 to 2 teaspoons as a finish",
    ),
    ml(
        "splash",
        &["splashes"],
        VolumeUnit::Splash,
        [4.0, 9.0, 16.0],
        PRACTICE,
    ),
    ml(
        "glug",
        &["glugs"],
        VolumeUnit::Glug,
        [8.0, 15.0, 24.0],
        PRACTICE,
    ),
    ml(
        "dollop",
        &["dollops"],
        VolumeUnit::Dollop,
        [12.0, 22.0, 36.0],
        PRACTICE,
    ),
    ml(
        "spoonful",
        &["spoonfuls", "spoon", "spoons"],
        VolumeUnit::Spoonful,
        [8.0, 16.0, 26.0],
        PRACTICE,
    ),
    ml("dab", &["dabs"], VolumeUnit::Dab, [2.0, 5.0, 9.0], PRACTICE),
    ml(
        "sprinkle",
        &["sprinkling", "sprinklings", "scattering"],
        VolumeUnit::Sprinkle,
        [0.6, 3.0, 7.0],
        PRACTICE,
    ),
    ml(
        "dusting",
        &["dustings"],
        VolumeUnit::Dusting,
        [1.5, 4.0, 8.0],
        PRACTICE,
    ),
    ml(
        "squeeze",
        &["squeezes", "squirt", "squirts"],
        VolumeUnit::Squeeze,
        [2.5, 6.0, 11.0],
        "common practice: a citrus wedge gives 1 to 2 teaspoons",
    ),
    ml(
        "smear",
        &["smears", "scrape"],
        VolumeUnit::Smear,
        [5.0, 11.0, 20.0],
        PRACTICE,
    ),
    ml(
        "schmear",
        &["schmears", "shmear", "shmears"],
        VolumeUnit::Schmear,
        [15.0, 26.0, 42.0],
        "common practice: about 2 tablespoons on a bagel",
    ),
    grams(
        "knob",
        &["knobs"],
        [7.0, 13.0, 22.0],
        "common practice: about a tablespoon of butter",
    ),
    grams(
        "pat",
        &["pats"],
        [3.5, 5.2, 8.0],
        "USDA SR 28, 01001: a pat of butter is 5 g; the spread is common practice",
    ),
];

/// Loose measures that are nothing else, so that they need no `of`: `handful lettuce`, but a
/// `sprinkle donut` is a donut.
pub(super) const PLAIN_LOOSE: [&str; 7] = [
    "handful", "pinch", "dollop", "dash", "splash", "schmear", "smidgen",
];

/// The loose measure that `word` names.
pub(super) fn loose_word(word: &str) -> Option<&'static Loose> {
    let key = super::tokens::Key::of(word)?;
    let key = key.as_str();
    LOOSE
        .iter()
        .find(|loose| loose.name == key || loose.spellings.contains(&key))
}

/// How much more or less than plain a measure holds by the word before it.
pub(super) fn manner(word: &str) -> Option<Range> {
    let key = super::tokens::Key::of(word)?;
    Some(match key.as_str() {
        "level" | "flat" | "full" | "packed" | "loosely" | "firmly" | "lightly" => {
            Range::exact(1.0)
        }
        // Kitchen practice: a heaped scoop holds 1.2 to 1.5 times the level one.
        "heaping" | "heaped" => Range::new(1.2, 1.4, 1.6),
        "rounded" => Range::new(1.1, 1.25, 1.4),
        "scant" | "skimpy" => Range::new(0.82, 0.9, 0.97),
        "generous" | "good" | "hearty" => Range::new(1.0, 1.25, 1.5),
        "light" | "little" => Range::new(0.5, 0.7, 0.9),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_size_is_a_range_with_a_source() {
        for loose in &LOOSE {
            let (LooseSize::Millilitres(range, _) | LooseSize::Grams(range)) = loose.size;
            assert!(
                0.0 < range.low && range.low < range.likely && range.likely < range.high,
                "{}",
                loose.name
            );
            assert!(!loose.source.is_empty());
        }
    }

    #[test]
    fn no_word_names_two_measures() {
        let mut words: Vec<&str> = LOOSE
            .iter()
            .flat_map(|loose| loose.spellings.iter().copied().chain([loose.name]))
            .collect();
        let count = words.len();
        words.sort_unstable();
        words.dedup();
        assert_eq!(words.len(), count);
    }
}
