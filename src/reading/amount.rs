//! Amounts as people say them.

use super::units::{Size, VolumeUnit, WeightUnit};
use crate::quantity::Range;

/// A quantity as said, before anything is known of the food.
///
/// The range is that of the words only: a figure stated exactly is exact here, `about` is
/// 15 % either way, `1-2` is 1 to 2. How well people weigh and pour is for a later stage.
#[derive(Debug, Clone, PartialEq)]
pub struct Amount {
    /// How many of the measure: grams, millilitres or pieces.
    pub number: Range,
    /// What is counted.
    pub measure: Measure,
    /// Said with `about`, `~`, `or so`, or in a loose measure such as `a handful`.
    pub approximate: bool,
    /// The unit a weight was said in. A plain `Ounce` may be meant as a fluid ounce when the
    /// food turns out to be a drink.
    pub weight_unit: Option<WeightUnit>,
    /// The words it was read from.
    pub text: String,
}

/// What an amount counts.
#[derive(Debug, Clone, PartialEq)]
pub enum Measure {
    /// Grams.
    Grams,
    /// Millilitres, and the unit they were said in.
    Millilitres {
        /// The unit in the text.
        spoken: VolumeUnit,
    },
    /// Pieces.
    Count {
        /// The piece in the singular: `slice`, `clove`, `can`; `None` for the food itself.
        unit: Option<String>,
        /// How big a piece is.
        size: Option<Size>,
        /// Diameter or length of a piece in inches.
        inches: Option<f64>,
    },
}
