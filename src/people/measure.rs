//! Units of measures of people, by definition, plausible bounds, and why a measure could not
//! be taken.

use serde::Serialize;

/// By definition (international yard and pound agreement, 1959).
pub(crate) const KG_PER_POUND: f64 = crate::quantity::units::POUND_G / 1000.0;
/// Thermochemical calorie.
pub(crate) const KJ_PER_KCAL: f64 = 4.184;

/// Why a measure could not be taken.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum MeasureError {
    /// No number where one is due.
    #[error("no number for the {what} in `{text}`; write for example `{example}`")]
    NoNumber {
        /// `height`, `weight`, ...
        what: &'static str,
        /// As written.
        text: String,
        /// A form that would be taken.
        example: &'static str,
    },
    /// A number without its unit.
    #[error("the {what} `{text}` has no unit; write for example `{example}`")]
    NoUnit {
        /// `height` or `weight`.
        what: &'static str,
        /// As written.
        text: String,
        /// A form that would be taken.
        example: &'static str,
    },
    /// A unit that does not measure this.
    #[error("`{unit}` is no unit of {what} known here; write for example `{example}`")]
    UnknownUnit {
        /// `height`, `weight`, ...
        what: &'static str,
        /// As written.
        unit: String,
        /// A form that would be taken.
        example: &'static str,
    },
    /// Two parts that do not belong together, such as `5 kg 3 lb`, or `5 ft 14 in`.
    #[error("the parts of the {what} `{text}` do not fit together; write for example `{example}`")]
    Parts {
        /// `height` or `weight`.
        what: &'static str,
        /// As written.
        text: String,
        /// A form that would be taken.
        example: &'static str,
    },
    /// A word outside the list.
    #[error("`{text}` is no {what} known here; choose one of: {known}")]
    UnknownWord {
        /// What was asked.
        what: &'static str,
        /// As written.
        text: String,
        /// The words that are taken.
        known: &'static str,
    },
    /// Outside the plausible bounds: a slip or a wrong unit.
    #[error(
        "a value of {value:.1} {unit} for the {what} is outside {low} to {high} {unit}; check the number and its unit",
        what = bounds.what, unit = bounds.unit, low = bounds.low, high = bounds.high
    )]
    OutOfBounds {
        /// The bounds passed.
        bounds: Bounds,
        /// The value, in the unit of the bounds.
        value: f64,
    },
}

/// The lowest and highest value taken at face value; beyond them a slip of the pen is likelier.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Bounds {
    /// What is measured: `age`, `height`, `weight`, `energy`, `activity factor`, `portions`, `protein`.
    pub what: &'static str,
    /// Lowest value, itself allowed.
    pub low: f64,
    /// Highest value, itself allowed.
    pub high: f64,
    /// The unit of both.
    pub unit: &'static str,
}

// The one table of plausibility bounds. All are this program's own choice: wide enough for
// the extremes of real people, narrow enough that a wrong unit is noticed. They are not
// health limits; those are in `guard`.

/// Completed years.
pub(crate) const AGE: Bounds = bounds("age", 0.0, 120.0, "years");
/// Centimetres: from a small toddler to the tallest people recorded.
pub(crate) const HEIGHT: Bounds = bounds("height", 60.0, 260.0, "cm");
/// Kilograms.
pub(crate) const WEIGHT: Bounds = bounds("weight", 6.0, 400.0, "kg");
/// A stated day's energy, before any guard rail.
pub(crate) const ENERGY: Bounds = bounds("energy", 100.0, 15_000.0, "kcal");
/// A day's portions of one food group, set by a coach.
pub(crate) const PORTIONS: Bounds = bounds("portions", 0.0, 60.0, "a day");

/// A day's protein, before any caution.
pub(crate) const PROTEIN: Bounds = bounds("protein", 20.0, 400.0, "g");
/// A day's protein by body weight, before any caution.
pub(crate) const PROTEIN_PER_KG: Bounds = bounds("protein", 0.4, 3.5, "g per kg");

const fn bounds(what: &'static str, low: f64, high: f64, unit: &'static str) -> Bounds {
    Bounds {
        what,
        low,
        high,
        unit,
    }
}

impl Bounds {
    /// `value` itself when it lies inside; an error naming the bounds otherwise (also for
    /// not-a-number).
    pub(crate) fn check(&self, value: f64) -> Result<f64, MeasureError> {
        if value >= self.low && value <= self.high {
            return Ok(value);
        }
        Err(MeasureError::OutOfBounds {
            bounds: *self,
            value,
        })
    }
}
