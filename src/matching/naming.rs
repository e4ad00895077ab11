//! The index over the catalogue's own names.
//!
//! This file is also compiled into the build script.

use super::analysis::AsWritten;
use super::index::{self, Around, NameRow};
use super::knowledge::Knowledge;
use crate::foods::rows::FoodRow;

/// Writes the index over the foods' names and aliases; names come first, so that a name
/// wins over somebody else's equal alias.
#[must_use]
pub(crate) fn build_index(foods: &[FoodRow], knowledge: &Knowledge<'_>) -> Vec<u8> {
    let mut names = Vec::new();
    for (number, food) in foods.iter().enumerate() {
        names.push(NameRow {
            item: number as u32,
            text: food.name.clone(),
            prior: prior(food),
            main: None,
        });
    }
    for (number, food) in foods.iter().enumerate() {
        names.extend(food.aliases.iter().map(|alias| NameRow {
            item: number as u32,
            text: alias.clone(),
            prior: prior(food),
            main: Some(number as u32),
        }));
    }
    index::build(
        &names,
        knowledge,
        Around {
            speller: &AsWritten,
            larger: None,
        },
    )
}

/// Families whose foods are eaten cooked: a raw row is taken only when asked for.
const EATEN_COOKED: [&str; 7] = [
    "red meat",
    "poultry",
    "fish",
    "shellfish",
    "pulses",
    "grain",
    "pasta",
];

/// How readily a row is taken when the words fit others as well.
fn prior(food: &FoodRow) -> f32 {
    let name = food.name.as_str();
    let says = |word: &str| name.split([' ', ',']).any(|w| w == word);
    let mut prior: f32 = 1.0;
    let unready = says("raw") || says("uncooked") || says("dry");
    if unready && EATEN_COOKED.contains(&food.family.as_str()) {
        prior *= 0.9;
    }
    if food.family == "restaurant dish" || food.family == "dish part" {
        prior *= 0.97;
    }
    prior
}
