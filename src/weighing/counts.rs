//! What was counted: pieces, ware and servings. A stated count is never lost.

use super::density::grams_per_ml;
use super::measure::{Hit, by_count, has_size, unstated};
use super::usual::usual;
use super::wares::{Ware, ware};
use super::weight::{Basis, Weight};
use crate::foods::{Food, Trait};
use crate::quantity::{Estimate, Shared};
use crate::reading::{Amount, Measure, Size, VolumeUnit};
use crate::words;

/// Spread of the log of a piece's weight taken from another sort of piece.
const UNLIKE_PIECE_LOG_SD: f64 = 0.25;
/// Most of a food without a piece weight that are surely servings; more than that are likely
/// smaller (common practice).
const MOST_SERVINGS: f64 = 3.0;
/// What each of more than those weighs at least, in servings (own reading).
const LEAST_PIECE: f64 = 0.25;
/// Pieces of which many make a serving.
const BITS: [&str; 9] = [
    "chip", "cracker", "fry", "leaf", "nugget", "ring", "kernel", "drop", "bite",
];
/// How many of them make one (common practice: labels count 6 to 15 in a serving).
const BITS_IN_A_SERVING: f64 = 10.0;

/// The weight of a count of `food`. `None` where only a whole serving could tell, and what
/// stands around the food may still say more.
pub(super) fn counted(
    food: &Food<'_>,
    amount: &Amount,
    unit: Option<&str>,
    said: &[String],
) -> Option<Weight> {
    // Words of the food and of its amount: `individual` in `an individual container`.
    let mut told = said.to_vec();
    told.extend(words::words(&amount.text));
    // `2 whiskies` are two glasses of what is known by the glass.
    let glass = || ware("glass", food, &told).filter(|glass| glass.is_exact());
    let held = match unit {
        Some(unit) => ware(unit, food, &told),
        None => glass(),
    };
    if let Some(ware) = held
        && ware.is_exact()
    {
        // A glass of wine is what is known of wine, whatever a food's own table has.
        return Some(in_ware(food, amount, ware, &told));
    }
    if let Some(drink) = drink_of_size(food, amount, unit, &told) {
        return Some(drink);
    }
    if let Some(weight) = pieces(food, amount, held, &told) {
        return Some(weight);
    }
    if let Some(ware) = held {
        return Some(in_ware(food, amount, ware, &told));
    }
    let vague = matches!(
        unit,
        None | Some("piece" | "serving" | "portion" | "order" | "plate")
    );
    unstated(food).filter(|_| vague)?;
    servings(food, amount, &said.join(" "))
}

/// Pieces of a weight that is published for the food.
fn pieces(
    food: &Food<'_>,
    amount: &Amount,
    held: Option<&Ware>,
    said: &[String],
) -> Option<Weight> {
    let usual = held.map(|ware| {
        ware.content
            .grams(grams_per_ml(food, VolumeUnit::FluidOunce, said).0)
    });
    let hit = by_count(food, amount, said, usual).or_else(|| of_the_cut(food, amount, said))?;
    let basis = Basis::Counted;
    let log_sd = if hit.close {
        basis.log_sd()
    } else {
        UNLIKE_PIECE_LOG_SD
    };
    let grams = Estimate::from_range(amount.number).times(hit.grams_each);
    Some(Weight::said(grams, log_sd, basis, hit.rests_on))
}

/// `8 California roll`: more than are served whole are the pieces that it is cut into. And
/// `6 pieces of chicken wing` are six wings, where pieces have no weight of their own.
fn of_the_cut(food: &Food<'_>, amount: &Amount, said: &[String]) -> Option<Hit> {
    let Measure::Count { unit, size, inches } = &amount.measure else {
        return None;
    };
    // `roll` of `8 California roll` is the food's own word, no unit of it.
    let unit = unit.as_deref().filter(|unit| {
        let name = words::words(food.name());
        *unit == "piece" || !name.iter().any(|word| word == unit)
    });
    let unit = match unit {
        None if amount.number.likely > MOST_SERVINGS => Some("piece".to_owned()),
        Some("piece") => None,
        _ => return None,
    };
    let pieces = Amount {
        measure: Measure::Count {
            unit,
            size: *size,
            inches: *inches,
        },
        ..amount.clone()
    };
    by_count(food, &pieces, said, None)
}

/// A small, medium or large drink, where the food's own table knows no such one.
fn drink_of_size(
    food: &Food<'_>,
    amount: &Amount,
    unit: Option<&str>,
    said: &[String],
) -> Option<Weight> {
    let Measure::Count {
        size: Some(size), ..
    } = &amount.measure
    else {
        return None;
    };
    if !matches!(unit, None | Some("cup" | "drink" | "glass")) || has_size(food, *size) {
        return None;
    }
    let name = match size {
        Size::Small => "small drink",
        Size::Medium => "medium drink",
        Size::Large => "large drink",
        Size::ExtraLarge => "extra large drink",
        Size::Mini | Size::Thin | Size::Thick => return None,
    };
    let ware = ware(name, food, said)?;
    let (density, _) = grams_per_ml(food, VolumeUnit::FluidOunce, said);
    let each = ware.content.grams(density);
    let rests_on = format!("{} ({}): {each:.0} g", name, ware.source);
    let grams = Estimate::from_range(amount.number).times(each);
    Some(Weight::said(grams, ware.log_sd, Basis::Counted, rests_on))
}

/// What the ware that was named holds of the food.
fn in_ware(food: &Food<'_>, amount: &Amount, ware: &Ware, said: &[String]) -> Weight {
    let (density, _) = grams_per_ml(food, VolumeUnit::FluidOunce, said);
    let size = match &amount.measure {
        Measure::Count { size, .. } => *size,
        _ => None,
    };
    let each = ware.content.grams(density) * size.map_or(1.0, size_of_serving);
    let rests_on = format!("{} each ({}); {each:.0} g", ware.content, ware.source);
    let grams = Estimate::from_range(amount.number).times(each);
    Weight::said(grams, ware.log_sd, Basis::Counted, rests_on)
}

/// Servings of a food of which nothing says what a piece weighs: as many as were counted.
/// `None` for what is not counted.
pub(super) fn servings(food: &Food<'_>, amount: &Amount, food_words: &str) -> Option<Weight> {
    let Measure::Count { unit, size, .. } = &amount.measure else {
        return None;
    };
    let (serving, rests_on) = serving(food, food_words);
    let count = amount.number.likely;
    let of_many = unit.as_deref().is_some_and(|unit| BITS.contains(&unit));
    let open = unit.is_none() && count > MOST_SERVINGS && !food.has(Trait::WholeDish);
    let (factor, log_sd) = if of_many {
        (1.0 / BITS_IN_A_SERVING, Basis::Hidden.log_sd())
    } else if open {
        let more = (count - MOST_SERVINGS) * LEAST_PIECE;
        ((MOST_SERVINGS + more) / count, Basis::Hidden.log_sd())
    } else {
        (1.0, Basis::Typical.log_sd())
    };
    let size = size.map_or(1.0, size_of_serving);
    let grams = Estimate::from_range(amount.number).times(factor * serving * size);
    Some(Weight {
        grams: grams.doubted(log_sd).sharing(Shared::Kitchen),
        basis: Basis::Typical,
        steps: vec![rests_on],
    })
}

/// Grams of one serving, and what that rests on.
fn serving(food: &Food<'_>, food_words: &str) -> (f64, String) {
    if let Some(each) = unstated(food) {
        let told = format!("USDA's weight where no amount is named: {each} g");
        return (each, told);
    }
    let usual = usual(food_words, Some(*food));
    (usual.plate_g, format!("usual amount ({})", usual.source))
}

/// A serving of a size against the usual one (common practice: cups and orders of 12, 16, 22
/// and 32 fl oz).
fn size_of_serving(size: Size) -> f64 {
    match size {
        Size::Mini => 0.5,
        Size::Small | Size::Thin => 0.75,
        Size::Medium => 1.0,
        Size::Large | Size::Thick => 1.35,
        Size::ExtraLarge => 1.8,
    }
}
