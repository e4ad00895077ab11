//! What to ask the kitchen of a dish, from a table of what kitchens serve instead.

use super::asks::{Ask, Asked, Candidate, Swap, asks, swaps};
use super::dish::{Ready, cooked_in, loose};
use super::kitchen_units::{KitchenUnit, Said, choose};
use super::plate::{Item, Unfit};
use super::room::Room;
use std::sync::LazyLock;

use crate::foods::{Food, Nutrient};
use crate::matching::Catalogue;
use crate::reading::Dish;
use crate::weighing::WeighedComponent;

/// What kitchens commonly serve in place of what (own selection, common practice): family and
/// words of the food, then USDA code, our words and grams of what comes instead; without
/// grams the swap is like for like.
const SWAPS: &str = include_str!("tables/swaps.csv");

#[derive(serde::Deserialize)]
struct Row {
    /// Families of what it may stand in for, between bars.
    families: String,
    /// Words one of which the name holds, between bars; empty for any name.
    words: String,
    code: String,
    label: String,
    /// What a kitchen serves of it; the amount given up without.
    grams: Option<f64>,
}

static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| crate::words::rows(SWAPS));

/// A topping weighs at most this, grams. Own choice.
const TOPPING_UP_TO_G: f64 = 60.0;

/// Swaps shown for a dish.
const MOST_SWAPS: usize = 3;

/// What to ask for, and what could be had instead.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Requests {
    /// Largest effect first.
    pub asks: Vec<Ask>,
    /// Like for like, largest saving first, one for each component.
    pub swaps: Vec<Swap>,
}

/// The requests for a dish of which each component is kept in this part (see
/// [`RightSized::parts`](super::RightSized::parts); all 0 when nothing fits).
///
/// Fails on figures that cannot be used and when no energy is left.
pub(crate) fn requests(
    dish: &Dish<WeighedComponent>,
    catalogue: &Catalogue,
    room: &Room,
    parts: &[Option<f64>],
) -> Result<Requests, Unfit> {
    let budget = room.budget();
    let ready: Vec<Ready<'_>> = Ready::all(dish, catalogue);
    let mut items: Vec<Item> = ready.iter().map(|r| loose(r, &ready, room)).collect();
    // What a dish is cooked in is no sauce that could come on the side.
    for (item, cooked_in) in items.iter_mut().zip(cooked_in(dish, &ready)) {
        item.sauce &= !cooked_in;
    }
    let asked: Vec<Asked> = ready
        .iter()
        .map(|r| Asked {
            kept: parts.get(r.at).copied().flatten().unwrap_or(0.0),
            topping: topping(r),
            candidates: candidates(r, catalogue, room),
        })
        .collect();
    let mut like = Vec::new();
    for (at, asked) in asked.iter().enumerate() {
        if asked.kept < 1.0 - 1e-9 {
            like.extend(
                swaps(&items, at, &asked.candidates, &budget)?
                    .into_iter()
                    .next(),
            );
        }
    }
    like.sort_by(|a: &Swap, b| b.kcal_saved.total_cmp(&a.kcal_saved));
    like.truncate(MOST_SWAPS);
    Ok(Requests {
        asks: asks(&items, &budget, &asked)?,
        swaps: like,
    })
}

fn topping(ready: &Ready<'_>) -> bool {
    let name = ready.food.name();
    let on_top = matches!(
        ready.food.family(),
        "cheese" | "cured meat" | "cream" | "fat" | "sweet" | "nuts" | "crackers"
    );
    ready.grams <= TOPPING_UP_TO_G && (on_top || name.contains("bacon"))
}

fn candidates(ready: &Ready<'_>, catalogue: &Catalogue, room: &Room) -> Vec<Candidate> {
    let named = |w: &str| ready.food.name().contains(w);
    let fits = |row: &&Row| {
        let family = row.families.split('|').any(|f| f == ready.food.family());
        family && (row.words.is_empty() || row.words.split('|').any(named))
    };
    let candidate = |row: &Row| {
        let food = catalogue.by_code(&row.code)?;
        let other = food.id() != ready.food.id();
        candidate(&food, &row.label, row.grams, room).filter(|_| other)
    };
    ROWS.iter().filter(fits).filter_map(candidate).collect()
}

fn candidate(food: &Food<'_>, label: &str, grams: Option<f64>, room: &Room) -> Option<Candidate> {
    let measures: Vec<(&str, f64)> = food.measures().map(|m| (m.text, m.grams)).collect();
    let usual = grams.unwrap_or(120.0);
    Some(Candidate {
        name: label.to_owned(),
        energy_kcal_per_g: food.per_100g(Nutrient::EnergyKcal)? / 100.0,
        per_gram: room
            .most
            .iter()
            .map(|m| m.what.per_gram(food, room.pulses).unwrap_or(0.0))
            .collect(),
        unit: match food.family() {
            "poultry" | "fish" | "red meat" | "shellfish" => KitchenUnit::ounces(),
            // What a kitchen serves its own amount of comes by the cup.
            _ => choose(&measures, usual, grams.map(|_| Said::Volume).as_ref()),
        },
        grams,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_swap_is_in_the_catalogue_and_its_families_too() {
        let catalogue = Catalogue::embedded().unwrap();
        let families: Vec<&str> = catalogue.foods().map(|f| f.family()).collect();
        for row in ROWS.iter() {
            assert!(catalogue.by_code(&row.code).is_some(), "{}", row.code);
            for family in row.families.split('|') {
                assert!(families.contains(&family), "{family}");
            }
            assert!(row.grams.is_none_or(|grams| grams > 0.0));
        }
        assert!(ROWS.len() > 20);
        assert_eq!(ROWS.len(), SWAPS.lines().count() - 1);
    }
}
