//! Amounts as people say them.

use super::error::{ErrorKind, Place, Problem, ReadingError};
use super::parts::read;
use super::units::{Size, UnitSystem, VolumeUnit, WeightUnit};
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

/// Reads `text` as one amount and nothing else: `120 g`, `1-2 cups`, `2 large slices`.
///
/// Fails when there is no amount, or words beside it, or a figure out of bounds.
pub(crate) fn parse_amount(text: &str, units: UnitSystem) -> Result<Amount, ReadingError> {
    parse_amount_at(text, &Place::new("amount", 1, 1), units)
}

/// As [`parse_amount`], for text that stands at `place`.
pub(crate) fn parse_amount_at(
    text: &str,
    place: &Place,
    units: UnitSystem,
) -> Result<Amount, ReadingError> {
    whole_amount(text, units).map_err(|problem| problem.at(text, place))
}

fn whole_amount(text: &str, units: UnitSystem) -> Result<Amount, Problem> {
    let read = read(text, 0, units, true)?;
    let words = |kind| Problem::new(kind, 0, text.len());
    let Some(amount) = read.amount else {
        return Err(words(if text.trim().is_empty() {
            ErrorKind::Empty
        } else {
            ErrorKind::NotAnAmount
        }));
    };
    match read.first_word {
        Some((start, end)) => Err(Problem::new(ErrorKind::WordsBesideAmount, start, end)),
        None => Ok(amount),
    }
}
