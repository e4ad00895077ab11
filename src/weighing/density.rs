//! Grams of a millilitre.

use super::measure::by_volume;
use crate::foods::{Food, family_of};
use crate::reading::VolumeUnit;

/// Grams per millilitre of food in pieces, of a family that has no figure of its own.
const ANY_FOOD_DENSITY: f64 = 0.65;
const ANY_FOOD_SOURCE: &str = "common practice: a cup of food in pieces weighs 130 to 180 g";

/// Grams of a millilitre of a food as it lies, from its own volume measures or its family,
/// with what that rests on.
#[must_use]
pub(crate) fn grams_per_ml(food: &Food<'_>, spoken: VolumeUnit, said: &[String]) -> (f64, String) {
    if let Some(hit) = by_volume(food, spoken, said) {
        return (hit.grams_each, hit.rests_on);
    }
    let any = || {
        let told = format!("{ANY_FOOD_DENSITY} g/ml ({ANY_FOOD_SOURCE})");
        (ANY_FOOD_DENSITY, told)
    };
    family_density(food.family()).unwrap_or_else(any)
}

fn family_density(family: &str) -> Option<(f64, String)> {
    let (density, source) = family_of(family)?.density.as_ref()?;
    Some((*density, format!("{density} g/ml for {family} ({source})")))
}
