//! `--kitchen`: what is known of the place that serves a dish.

use super::Failure;
use crate::fit::{Hold, Room};
use crate::ledger::{Day, PulsesAs, Standard};
use crate::matching::Catalogue;
use crate::menu::{Rows, Setting, learn as learn_of, open};
use crate::reading::UnitSystem;
use crate::store::KnownDishes;
use crate::weighing::servings::Kitchen;
use std::path::Path;

/// The day that dishes are held against while only their amounts are asked for, kcal.
const ANY_DAY_KCAL: f64 = 2000.0;

/// Learns a kitchen from a file: a menu with figures for some of its items.
///
/// Fails when the file can not be read, tells of several restaurants, or of no dish.
pub(super) fn learn(
    path: &Path,
    catalogue: &Catalogue,
    dishes: &KnownDishes,
    units: UnitSystem,
) -> Result<Kitchen, Failure> {
    let name = path.display().to_string();
    let unread = |e: &dyn std::fmt::Display| Failure::File(format!("cannot read {name}: {e}"));
    let mut source = open(path, None).map_err(|e| unread(&e))?;
    let standard = Standard::embedded("us-style")
        .ok_or_else(|| Failure::File("the US-style pattern is missing".to_owned()))?;
    let day = Day {
        standard: &standard,
        energy_kcal: ANY_DAY_KCAL,
        pulses: PulsesAs::Vegetables,
        protein_g: None,
    };
    let room = Room::of_day(day, 1.0, "this meal", Hold::Usual);
    let setting = Setting {
        catalogue,
        dishes,
        day,
        room: &room,
        units,
        as_written: false,
        service: None,
        kitchens: None,
    };
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    let kitchens = learn_of(&mut source, setting, threads);
    // What can not be used at all is told as `menu` tells it.
    Rows::begin(source).map_err(|e| Failure::Request(format!("{name}: {e}")))?;
    let several = kitchens.all().count() > 1;
    kitchens.into_only().ok_or_else(|| {
        Failure::Request(if several {
            format!("{name} tells of several restaurants\n  = give the rows of the one that serves the dish")
        } else {
            format!("{name}: no row tells what a dish of the kitchen holds\n  = fill energy_kcal where it is printed, or served with a weight, for some items")
        })
    })
}
