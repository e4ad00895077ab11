//! Energy need: kcal a day that keep a person's weight, with the arithmetic on show.

use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::body::Body;
use super::equations::{self, ADULT_FROM, MIFFLIN_TO, Row};
use super::measure::MeasureError;
use super::source::{Source, Standing};
use super::whole;

/// Which published equation estimates the need.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Equation {
    /// Estimated energy requirement, National Academies 2023; ages 3 and over.
    #[default]
    Eer2023,
    /// Estimated energy requirement, Institute of Medicine 2002/2005; ages 3 and over. Adults
    /// with a body mass index over 25 get the report's own equation for them.
    Eer2005,
    /// Resting energy by Mifflin-St Jeor 1990 times a customary activity factor; adults.
    MifflinStJeor,
}

impl FromStr for Equation {
    type Err = MeasureError;

    fn from_str(text: &str) -> Result<Self, MeasureError> {
        let word = text.trim().to_lowercase().replace([' ', '_'], "-");
        match word.as_str() {
            "eer-2023" | "eer2023" | "2023" => Ok(Self::Eer2023),
            "eer-2005" | "eer2005" | "2005" => Ok(Self::Eer2005),
            "mifflin" | "mifflin-st-jeor" => Ok(Self::MifflinStJeor),
            _ => Err(MeasureError::UnknownWord {
                what: "equation",
                text: text.to_owned(),
                known: "eer-2023, eer-2005, mifflin",
            }),
        }
    }
}

/// An estimated energy need.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct EnergyNeed {
    /// kcal a day, not rounded.
    pub kcal_per_day: f64,
    /// Name of the equation used, for people.
    pub equation: &'static str,
    /// The arithmetic, a line a step, with this person's numbers filled in.
    pub working: Vec<String>,
    /// Publication, and the standing of the weakest figure used.
    pub source: Source,
}

/// Why no equation applies.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub(crate) enum EnergyError {
    /// Under the ages the equation was made for.
    #[error("{equation} starts at {from} years, and the age given is {age}")]
    TooYoung {
        /// Name of the equation.
        equation: &'static str,
        /// Its youngest age.
        from: u8,
        /// The age given.
        age: u8,
    },
    /// The equation leaves the ground it was fitted on.
    #[error(
        "{equation} gives {kcal:.0} kcal a day for {body}, which no body uses; check age, height and weight"
    )]
    Implausible {
        /// Name of the equation.
        equation: &'static str,
        /// What it gives.
        kcal: f64,
        /// The body as entered.
        body: String,
    },
}

/// The youngest age of the EER equations taken up here.
pub(crate) const EER_FROM: u8 = 3;

/// Needs outside this range (kcal a day; own choice) mean that the numbers entered do not
/// belong together.
const PLAUSIBLE: std::ops::RangeInclusive<f64> = 400.0..=10_000.0;

/// The bare published equation, without any guard rail.
///
/// For a person's day use [`super::allowance::day_target`]. Fails under the equation's
/// youngest age, and when the sum is no plausible day.
pub(crate) fn need(body: &Body, equation: Equation) -> Result<EnergyNeed, EnergyError> {
    match equation {
        Equation::Eer2023 => whole_day(body, &equations::eer_2023(body)),
        Equation::Eer2005 => whole_day(body, &equations::eer_2005(body)),
        Equation::MifflinStJeor => mifflin(body, equations::customary_factor(body.activity)),
    }
}

/// Resting energy by Mifflin-St Jeor, kcal a day. Adults; fails under 19.
pub(crate) fn resting(body: &Body) -> Result<f64, EnergyError> {
    let row = equations::mifflin_resting(body);
    old_enough(body, row.name, ADULT_FROM)?;
    plausible(body, row.name, row.kcal(body))
}

fn whole_day(body: &Body, row: &Row) -> Result<EnergyNeed, EnergyError> {
    old_enough(body, row.name, EER_FROM)?;
    let kcal = plausible(body, row.name, row.kcal(body))?;
    let mut working = vec![format!("{} for {body}:", row.name)];
    working.extend(row.working(body));
    working.push(format!("= {} kcal a day", whole(kcal)));
    working.push(format!("source: {}", row.source));
    Ok(EnergyNeed {
        kcal_per_day: kcal,
        equation: row.name,
        working,
        source: row.source,
    })
}

fn mifflin(body: &Body, factor: f64) -> Result<EnergyNeed, EnergyError> {
    let row = equations::mifflin_resting(body);
    let resting = resting(body)?;
    let kcal = plausible(body, row.name, resting * factor)?;
    let mut working = vec![format!("{} for {body}:", row.name)];
    working.extend(row.working(body));
    working.push(format!("= {resting:.2} kcal a day at rest"));
    working.push(format!(
        "x {factor}, the custom factor for `{}` (common practice, not part of the equation)",
        body.activity.word()
    ));
    working.push(format!("= {} kcal a day", whole(kcal)));
    if body.age.get() > MIFFLIN_TO {
        working.push(format!(
            "the equation was fitted on ages {ADULT_FROM} to {MIFFLIN_TO}; beyond, it is a guess"
        ));
    }
    working.push(format!("source of the resting energy: {}", row.source));
    Ok(EnergyNeed {
        kcal_per_day: kcal,
        equation: "Mifflin-St Jeor 1990 times an activity factor",
        working,
        source: Source {
            citation: row.source.citation,
            standing: Standing::CommonPractice,
        },
    })
}

fn old_enough(body: &Body, equation: &'static str, from: u8) -> Result<(), EnergyError> {
    let age = body.age.get();
    if age >= from {
        return Ok(());
    }
    Err(EnergyError::TooYoung {
        equation,
        from,
        age,
    })
}

fn plausible(body: &Body, equation: &'static str, kcal: f64) -> Result<f64, EnergyError> {
    if PLAUSIBLE.contains(&kcal) {
        return Ok(kcal);
    }
    Err(EnergyError::Implausible {
        equation,
        kcal,
        body: body.to_string(),
    })
}

#[cfg(test)]
mod tests;
