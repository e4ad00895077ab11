//! From the dishes a request names to weighed plates: the one way that every command takes.

use super::Failure;
use super::arguments::{DishArgs, Units};
use super::input::{self, Read_};
use crate::catalogue::Catalogue;
use crate::estimate::{WeighedComponent, match_dish, weigh_dish};
use crate::reading::Dish;

/// A dish whose components have a food and a weight as far as could be told.
pub(super) struct Plate {
    /// The weighed dish.
    pub dish: Dish<WeighedComponent>,
    /// Whether every line of the dish could be read.
    pub complete: bool,
    /// What was assumed on the way, a sentence each.
    pub notes: Vec<String>,
}

/// All dishes of a request, in its order.
///
/// Fails when there is none, or when one can not be read at all.
pub(super) fn plates(
    args: &DishArgs,
    units: Units,
    catalogue: &Catalogue,
) -> Result<Vec<Plate>, Failure> {
    let mut read = Vec::new();
    if !args.items.is_empty() {
        read.push(input::items(&args.items, units.into())?);
    }
    for argument in &args.dishes {
        read.push(input::dish(
            argument,
            args.library.as_deref(),
            units.into(),
        )?);
    }
    if read.is_empty() {
        return Err(Failure::Request(
            "no dish was named\n  = name a dish, a file, `-` for standard input, or give --item"
                .to_owned(),
        ));
    }
    Ok(read
        .into_iter()
        .map(|read| weighed(read, units, catalogue))
        .collect())
}

fn weighed(read: Read_, units: Units, catalogue: &Catalogue) -> Plate {
    let matched = match_dish(read.dish, catalogue, units == Units::Metric);
    Plate {
        dish: weigh_dish(matched, catalogue),
        complete: read.complete,
        notes: Vec::new(),
    }
}
