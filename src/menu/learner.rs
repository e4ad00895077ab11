//! What a menu tells of its kitchens: figures of some dishes, for the rest of them.

use super::auditor::Auditor;
use super::item::Item;
use super::kitchens::{Kitchens, text_of};
use super::row::Row;
use crate::quantity::Estimate;
use crate::reading::{Served, UnitSystem, parse_served};
use crate::weighing::servings::{Kitchen, KnownDish};
use std::collections::BTreeMap;

/// Dishes with a figure that are looked at in one menu.
const MOST_KNOWN: usize = 2_000;
/// Of a dish that is told this closely (standard deviation of the logarithm) the parts were
/// weighed or measured: what is printed of it says nothing of how generous a kitchen is.
const SAID: f64 = 0.2;
/// A printed low and high further apart than this are sizes of a dish, not one of them.
const SIZES_APART: f64 = 1.5;
/// Millilitres and grams of the amounts that are read as weights.
const LEAST_G: f64 = 5.0;

/// Gathers what rows tell of their kitchens.
pub struct Learner<'s> {
    auditor: Auditor<'s>,
    units: UnitSystem,
    known: BTreeMap<String, Vec<KnownDish>>,
    count: usize,
}

impl<'s> Learner<'s> {
    /// A learner that knows nothing yet, estimating as `auditor` does.
    #[must_use]
    pub fn new(auditor: Auditor<'s>, units: UnitSystem) -> Self {
        Self {
            auditor,
            units,
            known: BTreeMap::new(),
            count: 0,
        }
    }

    /// Whether more rows would be looked at.
    #[must_use]
    pub fn wants_more(&self) -> bool {
        self.count < MOST_KNOWN
    }

    /// Takes what a row tells: printed energy, else a weight that is served.
    pub fn take(&mut self, item: &Item) {
        if !self.wants_more() || !item.components.is_empty() {
            return;
        }
        let dish = match item.printed {
            Some(printed) => self.printed(item, printed),
            None => self.weighed(item),
        };
        if let Some(dish) = dish {
            self.count += 1;
            let name = item.restaurant.clone();
            self.known.entry(name).or_default().push(dish);
        }
    }

    fn printed(&mut self, item: &Item, (low, high): (f64, f64)) -> Option<KnownDish> {
        if low <= 0.0 || high > SIZES_APART * low {
            return None;
        }
        let row = self.auditor.row(item).ok()?;
        let told = Estimate::from_range(row.energy().filter(|_| row.is_whole())?);
        let open = told.log_sd > SAID;
        KnownDish::printed(text_of(item), told, f64::midpoint(low, high)).filter(|_| open)
    }

    fn weighed(&mut self, item: &Item) -> Option<KnownDish> {
        let Ok(Served::Weight(amount)) = parse_served(&item.served, self.units) else {
            return None;
        };
        let grams = amount.number.likely;
        let bare = Item {
            served: String::new(),
            ..item.clone()
        };
        let row = self.auditor.row(&bare).ok().filter(Row::is_whole)?;
        let told = Estimate::from_range(row.ledger.grams());
        let open = told.log_sd > SAID && grams >= LEAST_G;
        KnownDish::weighed(text_of(item), told, grams).filter(|_| open)
    }

    /// The kitchens of which something was told.
    #[must_use]
    pub fn kitchens(self) -> Kitchens {
        let learned = self
            .known
            .into_iter()
            .filter_map(|(name, dishes)| Some((name, Kitchen::learn(dishes)?)));
        Kitchens::new(learned.collect())
    }
}
