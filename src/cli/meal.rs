//! The meal that a plate is held to: a share of the day.

use super::Failure;
use super::whose::Whose;
use crate::people::MealShares;
use crate::quantity::{number, parse_share};
use clap::Args;

/// The meal when none is said: one of three.
const USUAL_SHARE: f64 = 1.0 / 3.0;

// The meal that a plate is right-sized for.
#[derive(Debug, Clone, Args)]
pub(crate) struct MealArgs {
    /// Right-size for this meal's planned share of the day [without any: a third of the day,
    /// or the main meal of a diner's plan]
    #[arg(long, value_name = "NAME", conflicts_with = "share")]
    meal: Option<String>,
    /// Right-size for this share of the day, such as 1/3 or 30%
    #[arg(long, value_name = "SHARE", value_parser = share_of_day)]
    share: Option<f64>,
}

/// A meal as a share of the day.
pub(super) struct Meal {
    /// Above 0, at most 1.
    pub share: f64,
    /// `a third of the day`, `lunch, 35 % of the day`.
    pub words: String,
}

impl MealArgs {
    pub(super) fn meal(&self, whose: &Whose) -> Result<Meal, Failure> {
        let share = match &self.meal {
            Some(name) => planned(name, whose)?,
            None => self.share.unwrap_or_else(|| usual(whose)),
        };
        let named = self.meal.as_ref().map(|name| name.trim().to_lowercase());
        let part = words(share);
        Ok(Meal {
            share,
            words: named.map_or(part.clone(), |name| format!("{name}, {part}")),
        })
    }
}

/// `a third of the day`, `30 % of the day`.
pub(super) fn words(share: f64) -> String {
    if (share - USUAL_SHARE).abs() < 1e-6 {
        "a third of the day".to_owned()
    } else {
        format!("{} of the day", number::share(share))
    }
}

/// A share of one day, above 0 and at most 1.
pub(super) fn share_of_day(text: &str) -> Result<f64, String> {
    parse_share(text).filter(|share| *share <= 1.0).ok_or_else(|| {
        "write a part of the day such as `1/3`, `0.3` or `30%`, above 0 and at most the whole day"
            .to_owned()
    })
}

/// The share when no meal is said: a third, or that of the largest meal that a diner plans.
pub(super) fn usual(whose: &Whose) -> f64 {
    let planned = whose.diner.iter().flat_map(|diner| diner.meals.meals());
    let largest = planned.map(|meal| meal.share).reduce(f64::max);
    largest.unwrap_or(USUAL_SHARE)
}

/// The planned share of a meal: the diner's plan, or three meals and a snack.
pub(super) fn planned(name: &str, whose: &Whose) -> Result<f64, Failure> {
    let usual = MealShares::default();
    let plan = whose.diner.as_ref().map_or(&usual, |diner| &diner.meals);
    plan.share_of(name).ok_or_else(|| {
        let known = plan.meals().iter().map(|meal| meal.name.as_str());
        Failure::Request(format!(
            "no meal `{}` is planned\n  = planned are: {}; or give a share of the day such as `1/3` or `30%`",
            name.trim(),
            known.collect::<Vec<_>>().join(", ")
        ))
    })
}
