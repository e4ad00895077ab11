//! What a menu tells of its kitchens: figures of some dishes, for the rest of them.

use super::auditor::{Auditor, Setting};
use super::item::Item;
use super::kitchens::{Kitchens, Unlevelled, text_of};
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

/// Fewest items that another thread is worth.
const FEWEST: usize = 64;

/// Gathers what rows tell of their kitchens.
pub struct Learner<'s> {
    setting: Setting<'s>,
    known: BTreeMap<String, Vec<KnownDish>>,
    count: usize,
    worked_out: Unlevelled,
}

impl<'s> Learner<'s> {
    /// A learner that knows nothing yet, estimating in this setting.
    #[must_use]
    pub fn new(setting: Setting<'s>) -> Self {
        Self {
            setting,
            known: BTreeMap::new(),
            count: 0,
            worked_out: Unlevelled::default(),
        }
    }

    /// Whether more rows would be looked at.
    #[must_use]
    pub fn wants_more(&self) -> bool {
        self.count < MOST_KNOWN
    }

    /// Takes what rows tell, in their order: printed energy, else a weight that is served. Says the
    /// same whatever the number of threads (one without the feature `cli`).
    pub fn take(&mut self, mut items: &[Item], threads: usize) {
        while self.wants_more() && !items.is_empty() {
            // Each tells of one dish at most: as many as are wanted are looked at in any case.
            let (now, later) = items.split_at(items.len().min(MOST_KNOWN - self.count));
            let mut at = now.iter();
            for (told, worked_out) in all_told(now, self.setting, threads) {
                for (dish, item) in told.into_iter().zip(at.by_ref()) {
                    if let Some(dish) = dish {
                        self.count += 1;
                        let name = item.restaurant.clone();
                        self.known.entry(name).or_default().push(dish);
                    }
                }
                if self.worked_out.len() < MOST_KNOWN {
                    self.worked_out.extend(worked_out);
                }
            }
            items = later;
        }
    }

    /// The kitchens of which something was told.
    #[must_use]
    pub fn kitchens(self) -> Kitchens {
        let learned = self
            .known
            .into_iter()
            .filter_map(|(name, dishes)| Some((name, Kitchen::learn(dishes)?)));
        Kitchens::new(learned.collect(), self.worked_out)
    }
}

/// Whether a row could tell something of its kitchen.
pub(super) fn can_tell(item: &Item) -> bool {
    item.components.is_empty() && (item.printed.is_some() || !item.served.is_empty())
}

/// What each of some items in a row tells, and the dishes that were worked out for it.
type Told = (Vec<Option<KnownDish>>, Unlevelled);

/// What each of some items tells, in their order.
fn all_told(items: &[Item], setting: Setting<'_>, threads: usize) -> Vec<Told> {
    let one_thread = move |items: &[Item]| {
        let mut auditor = Auditor::keeping(setting);
        let told = |item| told(&mut auditor, setting.units, item);
        let all = items.iter().map(told).collect();
        (all, auditor.kept())
    };
    let each = items.len().div_ceil(threads.max(1)).max(FEWEST);
    if cfg!(not(feature = "cli")) || items.len() <= each {
        return vec![one_thread(items)];
    }
    std::thread::scope(|scope| {
        let begun = items
            .chunks(each)
            .map(|items| scope.spawn(move || one_thread(items)));
        let all: Vec<_> = begun.collect();
        let done = all.into_iter().map(|thread| {
            let told = thread.join();
            told.unwrap_or_else(|panic| std::panic::resume_unwind(panic))
        });
        done.collect()
    })
}

fn told(auditor: &mut Auditor<'_>, units: UnitSystem, item: &Item) -> Option<KnownDish> {
    if !can_tell(item) {
        return None;
    }
    match item.printed {
        Some(printed) => from_printed(auditor, item, printed),
        None => from_weight(auditor, units, item),
    }
}

fn from_printed(
    auditor: &mut Auditor<'_>,
    item: &Item,
    (low, high): (f64, f64),
) -> Option<KnownDish> {
    if low <= 0.0 || high > SIZES_APART * low {
        return None;
    }
    let row = auditor.row(item).ok()?;
    let told = Estimate::from_range(row.energy().filter(|_| row.is_whole())?);
    let open = told.log_sd > SAID;
    KnownDish::printed(text_of(item), told, f64::midpoint(low, high)).filter(|_| open)
}

fn from_weight(auditor: &mut Auditor<'_>, units: UnitSystem, item: &Item) -> Option<KnownDish> {
    let Ok(Served::Weight(amount)) = parse_served(&item.served, units) else {
        return None;
    };
    let grams = amount.number.likely;
    let bare = Item {
        served: String::new(),
        ..item.clone()
    };
    let row = auditor.row(&bare).ok().filter(Row::is_whole)?;
    let told = Estimate::from_range(row.ledger.grams());
    let open = told.log_sd > SAID && grams >= LEAST_G;
    KnownDish::weighed(text_of(item), told, grams).filter(|_| open)
}
