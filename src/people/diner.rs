//! A diner: one person whose day is counted, as stated by them or their coach.

use std::collections::BTreeMap;
use std::str::FromStr;

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::body::{Activity, AgeYears, Body, HeightCm, Sex, WeightKg, bmi};
use super::condition::Condition;
use super::energy::Equation;
use super::meals::MealShares;
use super::measure::{AGE, ENERGY, MeasureError, PORTIONS};
use super::protein::ProteinAim;
use crate::ledger::PulsesAs;

/// What the diner wants their weight to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Aim {
    /// Stay as it is.
    #[default]
    Keep,
    /// Go down.
    Lose,
    /// Go up.
    Gain,
}

impl FromStr for Aim {
    type Err = MeasureError;

    fn from_str(text: &str) -> Result<Self, MeasureError> {
        match text.trim().to_lowercase().as_str() {
            "keep" => Ok(Self::Keep),
            "lose" => Ok(Self::Lose),
            "gain" => Ok(Self::Gain),
            _ => Err(MeasureError::UnknownWord {
                what: "aim",
                text: text.to_owned(),
                known: "keep, lose, gain",
            }),
        }
    }
}

impl FromStr for PulsesAs {
    type Err = MeasureError;

    fn from_str(text: &str) -> Result<Self, MeasureError> {
        let word = text.trim().to_lowercase().replace([' ', '-'], "_");
        match word.as_str() {
            "vegetables" | "vegetable" => Ok(Self::Vegetables),
            "protein_foods" | "protein" => Ok(Self::ProteinFoods),
            _ => Err(MeasureError::UnknownWord {
                what: "way to count pulses",
                text: text.to_owned(),
                known: "vegetables, protein foods",
            }),
        }
    }
}

/// Age, as a birth date or as said on a date.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Age {
    /// Date of birth.
    Born(Date),
    /// Completed years, and the date this was noted.
    Stated {
        /// Completed years on that date.
        years: AgeYears,
        /// When it was noted.
        noted_on: Date,
    },
}

impl Age {
    /// Completed years on a date.
    ///
    /// From a stated age this is the youngest the person can be, at most one year short, so
    /// that the rails for the young never open too soon. Nothing before birth, and nothing
    /// beyond [`AGE`].
    #[must_use]
    pub(crate) fn on(self, date: Date) -> Option<AgeYears> {
        let years = match self {
            Self::Born(birth) if birth > date => return None,
            Self::Born(birth) => completed_years(birth, date),
            Self::Stated { years, noted_on } => {
                f64::from(years) + completed_years(noted_on, date).max(0.0)
            }
        };
        AgeYears::new(years).ok()
    }
}

fn completed_years(from: Date, to: Date) -> f64 {
    let years = f64::from(to.year()) - f64::from(from.year());
    // A birthday on 29 February is kept on 1 March in other years.
    let before_birthday = (to.month(), to.day()) < (from.month(), from.day());
    years - f64::from(u8::from(before_birthday))
}

/// One person whose day is counted.
///
/// Either all of sex, age, height, weight and activity are given, or an energy is stated, or
/// both; a stated energy then is the day's target.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Diner {
    /// How the diner is called on the command line and on pages.
    pub name: String,
    /// Which half of the equations applies.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sex: Option<Sex>,
    /// Birth date or stated age.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub age: Option<Age>,
    /// Height.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub height_cm: Option<HeightCm>,
    /// Weight.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weight_kg: Option<WeightKg>,
    /// An ordinary day's activity.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub activity: Option<Activity>,
    /// What the weight should do; not applied to a stated energy.
    #[serde(default)]
    pub aim: Aim,
    /// The equation for the need.
    #[serde(default)]
    pub equation: Equation,
    /// kcal a day set by the diner or a clinician; within [`ENERGY`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stated_energy_kcal: Option<f64>,
    /// Pregnant or nursing.
    #[serde(default)]
    pub pregnant_or_nursing: bool,
    /// Conditions that set what the diner eats, as far as they were said.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub conditions: Vec<Condition>,
    /// Name or file of the standard; nothing for the usual one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub standard: Option<String>,
    /// Where pulses count.
    #[serde(default)]
    pub pulses_as: PulsesAs,
    /// Portions a day set by the coach, by the group's key; instead of the standard's.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub group_portions: BTreeMap<String, f64>,
    /// Protein to reach; nothing for the recommended allowance.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub protein: Option<ProteinAim>,
    /// Planned shares of the day.
    #[serde(default)]
    pub meals: MealShares,
    /// IANA name of the time zone the diner lives in; nothing for the machine's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub zone: Option<String>,
}

/// What is wrong with, or missing from, a diner.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum DinerError {
    /// Empty, too long, or with signs that do not belong in a name.
    #[error(
        "the name `{name}` cannot be used: 1 to {NAME_SIGNS} signs, starting with a letter or digit, and no control signs or slashes"
    )]
    Name {
        /// As given.
        name: String,
    },
    /// Neither an energy nor all that an equation asks.
    #[error("to estimate the energy need, {missing} must be given; or state an energy instead")]
    Missing {
        /// What is missing, in words.
        missing: String,
    },
    /// Born, or noted, later than today, or beyond the bounds of age.
    #[error(
        "the age of `{name}` on {today} is not between {low} and {high} years; check the date",
        low = AGE.low, high = AGE.high
    )]
    Age {
        /// The diner.
        name: String,
        /// The date asked about.
        today: Date,
    },
    /// The energy out of bounds.
    #[error(transparent)]
    Energy(#[from] MeasureError),
    /// A group's portions out of bounds, or a group without a name.
    #[error(
        "`{portions}` portions of `{group}` cannot be used; name the group and give {low} to {high} a day",
        low = PORTIONS.low, high = PORTIONS.high
    )]
    Portions {
        /// The group's key.
        group: String,
        /// The portions given.
        portions: f64,
    },
    /// Protein by weight, and no weight.
    #[error("protein in grams per kg needs the weight; give it, or grams a day")]
    ProteinWithoutWeight,
    /// An empty name of a standard.
    #[error("the standard has no name; leave it out for the usual one")]
    Standard,
}

/// The longest name taken.
pub(crate) const NAME_SIGNS: usize = 60;

impl Diner {
    /// A diner of whom only the name is known yet.
    #[must_use]
    pub fn named(name: &str) -> Self {
        Self {
            name: name.to_owned(),
            sex: None,
            age: None,
            height_cm: None,
            weight_kg: None,
            activity: None,
            aim: Aim::default(),
            equation: Equation::default(),
            stated_energy_kcal: None,
            pregnant_or_nursing: false,
            conditions: Vec::new(),
            standard: None,
            pulses_as: PulsesAs::default(),
            group_portions: BTreeMap::new(),
            protein: None,
            meals: MealShares::default(),
            zone: None,
        }
    }

    /// Every fault at once; an empty list means the diner can be used on that date.
    #[must_use]
    pub(crate) fn faults(&self, today: Date) -> Vec<DinerError> {
        let mut faults = Vec::new();
        if !name_is_usable(&self.name) {
            let name = self.name.clone();
            faults.push(DinerError::Name { name });
        }
        if self.age.is_some() && !self.age_is_usable(today) {
            let name = self.name.clone();
            faults.push(DinerError::Age { name, today });
        }
        let missing = self.missing();
        match self.stated_energy_kcal.map(|kcal| ENERGY.check(kcal)) {
            Some(Err(fault)) => faults.push(fault.into()),
            None if !missing.is_empty() => faults.push(DinerError::Missing {
                missing: missing.join(", "),
            }),
            _ => {}
        }
        for (group, &portions) in &self.group_portions {
            if group.trim().is_empty() || PORTIONS.check(portions).is_err() {
                let group = group.clone();
                faults.push(DinerError::Portions { group, portions });
            }
        }
        let per_kg = matches!(self.protein, Some(ProteinAim::GramsPerKg(_)));
        if per_kg && self.weight_kg.is_none() {
            faults.push(DinerError::ProteinWithoutWeight);
        }
        let nameless = |standard: &String| standard.trim().is_empty();
        if self.standard.as_ref().is_some_and(nameless) {
            faults.push(DinerError::Standard);
        }
        faults
    }

    /// What an equation would still ask for, in words.
    #[must_use]
    pub(crate) fn missing(&self) -> Vec<&'static str> {
        [
            ("sex", self.sex.is_none()),
            ("age", self.age.is_none()),
            ("height", self.height_cm.is_none()),
            ("weight", self.weight_kg.is_none()),
            ("activity", self.activity.is_none()),
        ]
        .into_iter()
        .filter_map(|(what, missing)| missing.then_some(what))
        .collect()
    }

    /// What an equation asks, when all of it is known on that date.
    #[must_use]
    pub(crate) fn body_on(&self, date: Date) -> Option<Body> {
        Some(Body {
            sex: self.sex?,
            age: self.age_on(date)?,
            height: self.height_cm?,
            weight: self.weight_kg?,
            activity: self.activity?,
        })
    }

    /// Completed years on a date, where known.
    #[must_use]
    pub(crate) fn age_on(&self, date: Date) -> Option<AgeYears> {
        self.age.and_then(|age| age.on(date))
    }

    /// Body mass index, where height and weight are known.
    #[must_use]
    pub(crate) fn bmi(&self) -> Option<f64> {
        Some(bmi(self.height_cm?, self.weight_kg?))
    }

    fn age_is_usable(&self, today: Date) -> bool {
        let noted_later =
            matches!(self.age, Some(Age::Stated { noted_on, .. }) if noted_on > today);
        !noted_later && self.age_on(today).is_some()
    }
}

/// Names become words on a command line and keys in a store.
fn name_is_usable(name: &str) -> bool {
    let starts_well = name.chars().next().is_some_and(char::is_alphanumeric);
    let bad = |sign: char| sign.is_control() || matches!(sign, '/' | '\\');
    starts_well && !name.ends_with(' ') && name.chars().count() <= NAME_SIGNS && !name.contains(bad)
}

#[cfg(test)]
mod tests;
