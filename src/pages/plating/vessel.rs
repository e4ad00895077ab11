//! Which plate, bowl or glass a dish is drawn on.

use super::food::{Place, Seen, grams_per_ml, is_drink};
use crate::matching::Catalogue;
use crate::pages::drawing::{Vessel, VesselBasis};
use crate::reading::{Dish, Served};
use crate::weighing::WeighedComponent;
use std::f64::consts::PI;

const CM_PER_INCH: f64 = 2.54;

/// Rim of a plate as a part of its diameter (common practice: the flat is some 0.76 of it).
const RIM_PART: f64 = 0.12;

/// Usual plate in cm, and the smaller one for sides, starters and desserts (common practice:
/// 10½ and 7¾ inches). A plate that is too small grows.
const PLATE_CM: f64 = 26.5;
const SMALL_PLATE_CM: f64 = 19.5;

/// Part of the brim volume that a bowl or glass is usually filled to (common practice).
const USUAL_FILL: f64 = 0.8;

/// Bowls and glasses: inner diameter and depth in cm, brim capacity in ml (common practice:
/// soup cups of 8 fl oz to noodle bowls of 60, glasses of 8 to 24).
const BOWLS: [(f64, f64, f64); 6] = [
    (10.5, 5.0, 300.0),
    (13.5, 5.5, 480.0),
    (16.0, 6.5, 710.0),
    (18.0, 7.0, 950.0),
    (20.5, 8.0, 1420.0),
    (23.0, 8.5, 1900.0),
];
const GLASSES: [(f64, f64, f64); 4] = [
    (7.0, 10.0, 300.0),
    (7.8, 13.0, 480.0),
    (8.5, 14.5, 640.0),
    (9.5, 16.5, 950.0),
];

/// What the drawn vessel holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Holds {
    /// Food on a plate.
    Food,
    /// Soup, noodles in broth, food in a bowl.
    Soup,
    /// Something to drink.
    Drink,
}

/// Words in a dish's kind or name that mean a bowl.
const BOWL_WORDS: [&str; 9] = [
    "soup", "bowl", "pho", "ramen", "chowder", "chili", "oatmeal", "stew", "porridge",
];

/// From the words for the dish, and from how much of it is liquid.
pub(super) fn holds(dish: &Dish<WeighedComponent>, catalogue: &Catalogue) -> Holds {
    let kind = dish.kind.as_deref().unwrap_or_default().to_lowercase();
    if let Some(Served::Vessel { vessel, .. }) = &dish.served
        && let Some(vessel) = vessel
    {
        use crate::reading::Vessel as V;
        return match vessel {
            V::Glass | V::Mug => Holds::Drink,
            V::Bowl | V::Cup | V::Tub | V::Ramekin | V::Pail => Holds::Soup,
            _ => Holds::Food,
        };
    }
    if kind == "drink" {
        return Holds::Drink;
    }
    let name = dish.name.as_deref().unwrap_or_default().to_lowercase();
    // `with a cup of tomato soup` names what stands beside the dish.
    let (name, _) = name.split_once(" with ").unwrap_or((&name, ""));
    let says_bowl = |text: &str| {
        text.split(|c: char| !c.is_alphanumeric())
            .any(|w| BOWL_WORDS.contains(&w))
    };
    let on_plate = name.contains("tortilla bowl") || name.contains("salad");
    let (liquid, all, drinks) = liquids(dish, catalogue);
    match () {
        () if !on_plate && (says_bowl(&kind) || says_bowl(name)) => Holds::Soup,
        () if all > 0.0 && drinks / all > 0.9 => Holds::Drink,
        () if all > 0.0 && liquid / all > 0.5 => Holds::Soup,
        () => Holds::Food,
    }
}

/// Millilitres of soups and drinks, of everything, and of drinks alone.
fn liquids(dish: &Dish<WeighedComponent>, catalogue: &Catalogue) -> (f64, f64, f64) {
    let mut sums = (0.0, 0.0, 0.0);
    for component in &dish.components {
        let (Some(food), Some(grams)) = (component.matched.food, component.grams()) else {
            continue;
        };
        let food = catalogue.food(food);
        let ml = grams.mean / grams_per_ml(&food);
        sums.1 += ml;
        if is_drink(food.family()) {
            sums.2 += ml;
        }
        if is_drink(food.family()) || food.family() == "soup" {
            sums.0 += ml;
        }
    }
    sums
}

/// The vessel as drawn: the stated one, or the usual one for this much food.
pub(super) fn sized(
    dish: &Dish<WeighedComponent>,
    seen: &[Seen],
    holds: Holds,
) -> (Vessel, VesselBasis) {
    if let Some(stated) = stated(dish, holds) {
        return (stated, VesselBasis::Stated);
    }
    let drawn = seen.iter().filter(|s| s.place == Place::Drawn);
    let likely_ml: f64 = drawn.map(|s| s.volume_ml.likely).sum();
    let hollow = |sizes: &[(f64, f64, f64)]| {
        let holding = |size: &&(f64, f64, f64)| size.2 * USUAL_FILL >= likely_ml;
        let size = sizes.iter().find(holding).or(sizes.last());
        size.map(|(diameter_cm, depth_cm, capacity_ml)| Vessel::Bowl {
            diameter_cm: *diameter_cm,
            depth_cm: *depth_cm,
            capacity_ml: *capacity_ml,
        })
    };
    let kind = dish.kind.as_deref().unwrap_or_default();
    let small = ["side", "side salad", "appetiser", "dessert"].contains(&kind);
    let vessel = match holds {
        Holds::Soup => hollow(&BOWLS),
        Holds::Drink => hollow(&GLASSES),
        Holds::Food => None,
    };
    let flat = plate(if small { SMALL_PLATE_CM } else { PLATE_CM });
    (vessel.unwrap_or(flat), VesselBasis::Typical)
}

fn plate(diameter_cm: f64) -> Vessel {
    Vessel::Plate {
        diameter_cm,
        rim_cm: diameter_cm * RIM_PART,
    }
}

fn stated(dish: &Dish<WeighedComponent>, holds: Holds) -> Option<Vessel> {
    let Some(Served::Vessel {
        inches,
        millilitres,
        ..
    }) = &dish.served
    else {
        return None;
    };
    let usual = if holds == Holds::Drink {
        &GLASSES[1]
    } else {
        &BOWLS[3]
    };
    match (holds, inches, millilitres) {
        (Holds::Food, Some(inches), _) => Some(plate(inches * CM_PER_INCH)),
        (Holds::Food, None, _) | (_, None, None) => None,
        (_, _, Some(ml)) => Some(scaled(usual, (ml / usual.2).cbrt())),
        (_, Some(inches), None) => Some(scaled(usual, inches * CM_PER_INCH / usual.0)),
    }
}

/// A usual vessel, larger or smaller in all directions.
fn scaled((diameter, depth, capacity): &(f64, f64, f64), factor: f64) -> Vessel {
    debug_assert!(*capacity < PI * (diameter / 2.0).powi(2) * depth);
    Vessel::Bowl {
        diameter_cm: diameter * factor,
        depth_cm: depth * factor,
        capacity_ml: capacity * factor.powi(3),
    }
}
