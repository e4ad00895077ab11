//! What the energy equations ask about a person, each with its unit and plausible bounds.

use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::measure::{AGE, HEIGHT, KG_PER_POUND, MeasureError, WEIGHT};
use crate::quantity::units::INCH_CM;

/// Sex, as the equations are split by it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sex {
    /// Girls and women.
    Female,
    /// Boys and men.
    Male,
}

impl Sex {
    /// `female` or `male`.
    #[must_use]
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Self::Female => "female",
            Self::Male => "male",
        }
    }
}

impl FromStr for Sex {
    type Err = MeasureError;

    fn from_str(text: &str) -> Result<Self, MeasureError> {
        match text.trim().to_lowercase().as_str() {
            "female" | "f" | "woman" | "girl" => Ok(Self::Female),
            "male" | "m" | "man" | "boy" => Ok(Self::Male),
            _ => Err(MeasureError::UnknownWord {
                what: "sex",
                text: text.to_owned(),
                known: "female, male",
            }),
        }
    }
}

/// How active an ordinary day is: the four categories of the National Academies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Activity {
    /// Daily living only (called sedentary in 2005).
    Inactive,
    /// Daily living and a good hour's walk.
    LowActive,
    /// Daily living and about two hours of walking, riding and play.
    Active,
    /// Daily living and about two hours that include hard effort.
    VeryActive,
}

impl Activity {
    /// All four, from least to most active.
    #[cfg(test)]
    pub(crate) const ALL: [Self; 4] = [
        Self::Inactive,
        Self::LowActive,
        Self::Active,
        Self::VeryActive,
    ];

    /// `inactive`, `low active`, `active`, `very active`.
    #[must_use]
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Self::Inactive => "inactive",
            Self::LowActive => "low active",
            Self::Active => "active",
            Self::VeryActive => "very active",
        }
    }
}

impl FromStr for Activity {
    type Err = MeasureError;

    fn from_str(text: &str) -> Result<Self, MeasureError> {
        let word = text.trim().to_lowercase().replace(['-', '_'], " ");
        match word.as_str() {
            "inactive" | "sedentary" => Ok(Self::Inactive),
            "low active" | "low" => Ok(Self::LowActive),
            "active" => Ok(Self::Active),
            "very active" | "very" => Ok(Self::VeryActive),
            _ => Err(MeasureError::UnknownWord {
                what: "activity",
                text: text.to_owned(),
                known: "inactive, low active, active, very active",
            }),
        }
    }
}

/// Completed years of age, within [`AGE`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct AgeYears(u8);

impl AgeYears {
    /// Fails outside [`AGE`]; a part of a year is dropped.
    pub(crate) fn new(years: f64) -> Result<Self, MeasureError> {
        AGE.check(years).map(|years| Self(years as u8))
    }

    /// Completed years.
    #[must_use]
    pub(crate) const fn get(self) -> u8 {
        self.0
    }
}

impl TryFrom<f64> for AgeYears {
    type Error = MeasureError;

    fn try_from(years: f64) -> Result<Self, MeasureError> {
        Self::new(years)
    }
}

impl From<AgeYears> for f64 {
    fn from(age: AgeYears) -> Self {
        Self::from(age.0)
    }
}

/// Height in centimetres, within [`HEIGHT`].
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct HeightCm(f64);

impl HeightCm {
    /// Fails outside [`HEIGHT`].
    pub(crate) fn new(centimetres: f64) -> Result<Self, MeasureError> {
        HEIGHT.check(centimetres).map(Self)
    }

    /// Centimetres.
    #[must_use]
    pub(crate) const fn get(self) -> f64 {
        self.0
    }

    /// In US units to the nearest inch: `5 ft 10 in`.
    #[must_use]
    pub(crate) fn us(self) -> String {
        let inches = (self.0 / INCH_CM).round() as u32;
        format!("{} ft {} in", inches / 12, inches % 12)
    }
}

impl TryFrom<f64> for HeightCm {
    type Error = MeasureError;

    fn try_from(centimetres: f64) -> Result<Self, MeasureError> {
        Self::new(centimetres)
    }
}

impl From<HeightCm> for f64 {
    fn from(height: HeightCm) -> Self {
        height.0
    }
}

/// Weight in kilograms, within [`WEIGHT`].
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct WeightKg(f64);

impl WeightKg {
    /// Fails outside [`WEIGHT`].
    pub(crate) fn new(kilograms: f64) -> Result<Self, MeasureError> {
        WEIGHT.check(kilograms).map(Self)
    }

    /// Kilograms.
    #[must_use]
    pub(crate) const fn get(self) -> f64 {
        self.0
    }

    /// In US units to the nearest pound: `154 lb`.
    #[must_use]
    pub(crate) fn us(self) -> String {
        format!("{:.0} lb", self.0 / KG_PER_POUND)
    }
}

impl TryFrom<f64> for WeightKg {
    type Error = MeasureError;

    fn try_from(kilograms: f64) -> Result<Self, MeasureError> {
        Self::new(kilograms)
    }
}

impl From<WeightKg> for f64 {
    fn from(weight: WeightKg) -> Self {
        weight.0
    }
}

/// Everything an energy equation asks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Body {
    /// Which half of the tables applies.
    pub sex: Sex,
    /// Completed years.
    pub age: AgeYears,
    /// Height.
    pub height: HeightCm,
    /// Weight.
    pub weight: WeightKg,
    /// An ordinary day's activity.
    pub activity: Activity,
}

impl Body {
    /// Body mass index, kg per square metre.
    #[must_use]
    pub(crate) fn bmi(&self) -> f64 {
        bmi(self.height, self.weight)
    }
}

/// Body mass index, kg per square metre.
#[must_use]
pub(crate) fn bmi(height: HeightCm, weight: WeightKg) -> f64 {
    let metres = height.0 / 100.0;
    weight.0 / (metres * metres)
}

impl std::fmt::Display for Body {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            out,
            "{}, {} years, {} cm, {} kg, {}",
            self.sex.word(),
            self.age.get(),
            self.height.get(),
            self.weight.get(),
            self.activity.word()
        )
    }
}
