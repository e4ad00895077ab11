//! Grams of a component from what was said, with a range.

use super::counts::counted;
pub(crate) use super::density::grams_per_ml;
pub use super::weight::Basis;
pub(crate) use super::weight::Weight;
use crate::foods::Food;
use crate::quantity::Estimate;
use crate::reading::{Amount, Measure};
use crate::words;

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
