//! From a weighed plate to what pages are made of: its audit and its right-sized plate.

use super::Failure;
use super::fit::{USUAL_SHARE, meal_share, share};
use super::plate::Plate;
use super::whose::Whose;
use crate::fit::{Hold, Room, requests, right_size};
use crate::ledger::{Audit, audit};
use crate::matching::Catalogue;
use crate::pages::number;
use crate::pages::plating::{Fitted, Plated};
use clap::Args;

/// The meal that a plate is right-sized for.
#[derive(Debug, Clone, Args)]
pub struct MealArgs {
    /// Right-size for this meal's planned share of the day [without any: a third of the day]
    #[arg(long, value_name = "NAME", conflicts_with = "share")]
    meal: Option<String>,
    /// Right-size for this share of the day, such as 1/3 or 30%
    #[arg(long, value_name = "SHARE", value_parser = share)]
    share: Option<f64>,
}

/// A meal as a share of the day.
pub(super) struct Meal {
    share: f64,
    words: String,
}

impl MealArgs {
    /// The share, and the words for it: `a third of the day`, `lunch, 35 % of the day`.
    pub(super) fn meal(&self, whose: &Whose) -> Result<Meal, Failure> {
        let share = match &self.meal {
            Some(name) => meal_share(name, whose)?,
            None => self.share.unwrap_or(USUAL_SHARE),
        };
        let part = if (share - USUAL_SHARE).abs() < 1e-6 {
            "a third of the day".to_owned()
        } else {
            format!("{} of the day", number::share(share))
        };
        let named = self.meal.as_ref().map(|name| name.trim().to_lowercase());
        Ok(Meal {
            share,
            words: named.map_or(part.clone(), |name| format!("{name}, {part}")),
        })
    }
}

/// A plate with its figures.
pub(super) struct Prepared {
    plate: Plate,
    audit: Audit,
    fitted: Option<Fitted>,
    notes: Vec<String>,
}

impl Prepared {
    /// Audits a plate and right-sizes it; `personal` are notes on the diner.
    pub(super) fn new(
        plate: Plate,
        whose: &Whose,
        personal: &[String],
        meal: &Meal,
        catalogue: &Catalogue,
    ) -> Self {
        let audit = audit(&plate.dish, catalogue, whose.day());
        let room = Room::of_day(whose.day(), meal.share, "this meal", Hold::Usual);
        let sized = right_size(&plate.dish, catalogue, &room);
        let unfit = sized.as_ref().err();
        let unfit = unfit.map(|e| format!("No right-sized plate: {e}."));
        // What to ask about the estimate is for whoever reads the terminal.
        let assumed = plate.notes.iter().filter(|n| !n.starts_with("ask "));
        Self {
            notes: assumed.chain(personal).cloned().chain(unfit).collect(),
            fitted: sized.ok().map(|sized| {
                let parts = sized.parts(&plate.dish);
                let asks = requests(&plate.dish, catalogue, &room, &parts);
                let asks = asks.map(|r| r.asks).unwrap_or_default();
                Fitted::of(&sized, &plate.dish, &meal.words, &asks)
            }),
            audit,
            plate,
        }
    }

    /// Whether all of it could be read and matched.
    pub(super) fn is_complete(&self) -> bool {
        self.plate.complete && self.audit.unmatched.is_empty()
    }

    /// The same for pages; `day` as [`day_words`] has it.
    pub(super) fn plated<'a>(&'a self, day: &'a str, whose: &'a Whose) -> Plated<'a> {
        Plated {
            dish: &self.plate.dish,
            audit: &self.audit,
            fitted: self.fitted.as_ref(),
            day,
            standard_source: &whose.standard.source,
            notes: &self.notes,
        }
    }
}

/// `a day of 2,000 kcal`, or whose.
pub(super) fn day_words(whose: &Whose) -> String {
    let kcal = number::kcal(whose.energy_kcal);
    match &whose.diner {
        Some(diner) => format!("{}’s day of {kcal} kcal", diner.name),
        None => format!("a day of {kcal} kcal"),
    }
}

/// Notes on the day for a page: those on a person. What is said of a day for general advice
/// is for whoever gives the command.
pub(super) fn personal(whose: &Whose, energy_given: bool) -> &[String] {
    if whose.diner.is_some() || energy_given {
        &whose.notes
    } else {
        &[]
    }
}
