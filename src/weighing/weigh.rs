//! Grams of a component from what was said, with a range.

use super::counts::counted;
use super::measure::by_volume;
use super::phrases::rows;
use crate::foods::Food;
use crate::quantity::{Estimate, Shared};
use crate::reading::{Amount, Measure, VolumeUnit};
use crate::words;
use serde::Serialize;
use std::collections::HashMap;
use std::sync::LazyLock;

/// How an amount is known, narrowest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Basis {
    /// A weight was stated.
    Weighed,
    /// Cups, spoons or fluid ounces were stated.
    Measured,
    /// Pieces or sizes were stated.
    Counted,
    /// A share of a vessel was stated.
    Vessel,
    /// Nobody said; the usual amount.
    Typical,
    /// Nobody said it is there; cooking words imply it.
    Hidden,
}

impl Basis {
    /// The word for tables and files.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Basis::Weighed => "weighed",
            Basis::Measured => "measured",
            Basis::Counted => "counted",
            Basis::Vessel => "vessel",
            Basis::Typical => "typical",
            Basis::Hidden => "hidden",
        }
    }

    /// Whether nobody said the amount, in whatever way.
    #[must_use]
    pub fn is_unsaid(self) -> bool {
        matches!(self, Basis::Typical | Basis::Hidden)
    }

    /// One standard deviation of the log of the amount. Own reading of measured spreads:
    /// scales and rounding for stated weights; spooning and packing for volumes (17 %);
    /// piece sizes for counts (12 %); 0.4 for an ingredient named without an amount
    /// (own calculation on the Nutrition5k metadata, Thames et al. 2021: 0.4 to 0.65).
    #[must_use]
    pub fn log_sd(self) -> f64 {
        match self {
            Basis::Weighed => 0.05,
            Basis::Measured => 0.17,
            Basis::Counted => 0.12,
            Basis::Vessel => 0.22,
            Basis::Typical => 0.45,
            Basis::Hidden => 0.6,
        }
    }
}

/// Grams per millilitre of food in pieces, of a family that has no figure of its own.
const ANY_FOOD_DENSITY: f64 = 0.65;
const ANY_FOOD_SOURCE: &str = "common practice: a cup of food in pieces weighs 130 to 180 g";

/// A weight found for a component.
#[derive(Debug, Clone, PartialEq)]
pub struct Weight {
    /// Edible grams as served.
    pub grams: Estimate,
    /// How it is known.
    pub basis: Basis,
    /// What it rests on, a step after the other, for `--why`.
    pub steps: Vec<String>,
}

impl Weight {
    /// A weight known from what was said, as surely as its basis allows.
    pub(super) fn said(said: Estimate, log_sd: f64, basis: Basis, rests_on: String) -> Self {
        Self {
            grams: said.doubted(log_sd),
            basis,
            steps: vec![rests_on],
        }
    }

    /// A weight that nobody said: a generous or a thrifty kitchen has it in common with the
    /// others.
    pub(super) fn unsaid(mean: f64, log_sd: f64, basis: Basis, rests_on: String) -> Self {
        Self {
            grams: Estimate::new(mean, log_sd).sharing(Shared::Kitchen),
            basis,
            steps: vec![rests_on],
        }
    }
}

/// The weight of `amount` of `food`; `food_words` are the words written beside it. `None`
/// when neither the food's measures nor its family say what the amount weighs.
#[must_use]
pub fn weigh(food: &Food<'_>, amount: &Amount, food_words: &str) -> Option<Weight> {
    let said = words::words(food_words);
    let number = Estimate::from_range(amount.number);
    match &amount.measure {
        Measure::Grams => {
            let told = "weight as stated".to_owned();
            let basis = Basis::Weighed;
            Some(Weight::said(number, basis.log_sd(), basis, told))
        }
        Measure::Millilitres { spoken } => {
            let (each, rests_on) = grams_per_ml(food, *spoken, &said);
            let basis = Basis::Measured;
            Some(Weight::said(
                number.times(each),
                basis.log_sd(),
                basis,
                rests_on,
            ))
        }
        Measure::Count { unit, .. } => counted(food, amount, unit.as_deref(), &said),
    }
}

/// Grams of a millilitre of a food as it lies, from its own volume measures or its family,
/// with what that rests on.
#[must_use]
pub fn grams_per_ml(food: &Food<'_>, spoken: VolumeUnit, said: &[String]) -> (f64, String) {
    if let Some(hit) = by_volume(food, spoken, said) {
        return (hit.grams_each, hit.rests_on);
    }
    let any = || {
        let told = format!("{ANY_FOOD_DENSITY} g/ml ({ANY_FOOD_SOURCE})");
        (ANY_FOOD_DENSITY, told)
    };
    family_density(food.family()).unwrap_or_else(any)
}

/// Grams per millilitre by family, for foods without a volume measure of their own.
static FAMILY_DENSITIES: LazyLock<HashMap<String, (f64, String)>> = LazyLock::new(|| {
    rows::<(String, f64, String)>(include_str!("tables/family_densities.csv"))
        .into_iter()
        .map(|(family, density, source)| {
            let told = format!("{density} g/ml for {family} ({source})");
            (family, (density, told))
        })
        .collect()
});

fn family_density(family: &str) -> Option<(f64, String)> {
    FAMILY_DENSITIES.get(family).cloned()
}
