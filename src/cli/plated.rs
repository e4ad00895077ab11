//! From a weighed plate to what pages are made of: its audit and its right-sized plate.

use super::meal::Meal;
use super::plate::Plate;
use super::whose::Whose;
use crate::fit::{Hold, Room, requests, right_size};
use crate::ledger::{Audit, audit};
use crate::matching::Catalogue;
use crate::pages::plating::{Fitted, Plated};
use crate::reading::UnitSystem;

/// A plate with its figures.
pub(super) struct Prepared {
    plate: Plate,
    audit: Audit,
    fitted: Option<Fitted>,
    notes: Vec<String>,
    units: UnitSystem,
}

impl Prepared {
    /// Audits a plate and right-sizes it; `personal` are notes on the diner, `units` those that
    /// pages tell amounts in.
    pub(super) fn new(
        plate: Plate,
        whose: &Whose,
        personal: &[String],
        meal: &Meal,
        catalogue: &Catalogue,
        units: UnitSystem,
    ) -> Self {
        let audit = audit(&plate.dish, catalogue, whose.day());
        let room = Room::of_day(whose.day(), meal.share, "this meal", Hold::Usual);
        let sized = right_size(&plate.dish, catalogue, &room);
        let unfit = sized.as_ref().err();
        let unfit = unfit.map(|e| format!("No right-sized plate: {e}."));
        Self {
            notes: plate
                .notes
                .iter()
                .chain(personal)
                .cloned()
                .chain(unfit)
                .collect(),
            fitted: sized.ok().map(|sized| {
                let parts = sized.parts(&plate.dish);
                let asks = requests(&plate.dish, catalogue, &room, &parts);
                let asks = asks.map(|r| r.asks).unwrap_or_default();
                Fitted::of(&sized, &plate.dish, &meal.words, &asks, units)
            }),
            audit,
            plate,
            units,
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
            units: self.units,
        }
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
