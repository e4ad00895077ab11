//! Whose day it is: energy need, a safe day's target, meal shares, fluid.
//!
//! Everything here is computed from what a person states; nothing is read, stored or
//! printed. A figure meant for a person's day comes from [`allowance::day_target`], which
//! holds the guard rails; [`energy::need`] is the bare published equation.

pub mod allowance;
pub mod body;
pub mod diner;
pub mod energy;
pub mod equations;
pub mod fluid;
pub mod guard;
pub mod meals;
pub mod source;
pub mod units;

pub use crate::ledger::PulsesAs;
pub use allowance::{DayTarget, NoTarget, day_target};
pub use body::{Activity, AgeYears, Body, HeightCm, Sex, WeightKg};
pub use diner::{Age, Aim, Diner, DinerError};
pub use energy::{EnergyError, EnergyNeed, Equation};
pub use guard::{Caution, Refusal};
pub use meals::MealShares;
pub use units::MeasureError;

/// `2520.17` as `2,520`: whole kilocalories with thousands marked.
pub(crate) fn whole(kcal: f64) -> String {
    let digits = format!("{:.0}", kcal.abs());
    let mut text = String::new();
    if kcal.round() < 0.0 {
        text.push('-');
    }
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::whole;

    #[test]
    fn thousands_are_marked() {
        assert_eq!(whole(2520.17), "2,520");
        assert_eq!(whole(999.6), "1,000");
        assert_eq!(whole(0.0), "0");
        assert_eq!(whole(-0.2), "0");
        assert_eq!(whole(-1_234_567.0), "-1,234,567");
    }
}
