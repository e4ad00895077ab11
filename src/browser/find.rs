//! Dishes and foods by some words.

use super::Engine;
use crate::foods::{Food, Nutrient};
use crate::matching::Context;
use crate::words::words;
use serde::{Deserialize, Serialize};

/// Dishes offered.
const DISHES: usize = 8;
/// Foods offered.
const FOODS: usize = 8;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct DishesAsk {
    words: String,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FoodsAsk {
    words: String,
    /// British senses of words.
    #[serde(default)]
    british: bool,
}

#[derive(Debug, Serialize)]
pub(super) struct Dishes<'e> {
    dishes: Vec<NamedDish<'e>>,
}

#[derive(Debug, Serialize)]
struct NamedDish<'e> {
    name: &'e str,
    kind: &'e str,
}

#[derive(Debug, Serialize)]
pub(super) struct Foods<'e> {
    foods: Vec<NamedFood<'e>>,
}

/// A food to choose.
#[derive(Debug, Serialize)]
pub(super) struct NamedFood<'e> {
    code: &'e str,
    name: &'e str,
    /// kcal in 100 g, where published.
    energy_kcal: Option<f64>,
}

impl<'e> NamedFood<'e> {
    pub fn of(food: Food<'e>) -> Self {
        Self {
            code: food.code(),
            name: food.name(),
            energy_kcal: food.per_100g(Nutrient::EnergyKcal),
        }
    }
}

impl Engine {
    /// Dishes whose names begin with the words, then those that hold them all.
    pub(super) fn dishes_named(&self, ask: &DishesAsk) -> Dishes<'_> {
        let said = ask.words.trim().to_lowercase();
        let asked = words(&said);
        let rank = |name: &str| {
            let plain = name.to_lowercase();
            if said.is_empty() || plain.starts_with(&said) {
                return Some(0);
            }
            let own = words(&plain);
            // The last word may still be in the making.
            let holds = |word: &String| own.iter().any(|o| o.starts_with(word.as_str()));
            (!asked.is_empty() && asked.iter().all(holds)).then_some(1)
        };
        let entries = self.library.entries().iter();
        let mut found: Vec<(i32, NamedDish<'_>)> = entries
            .filter_map(|entry| {
                let dish = NamedDish {
                    name: &entry.name,
                    kind: &entry.kind,
                };
                Some((rank(&entry.name)?, dish))
            })
            .collect();
        found.sort_by_key(|(rank, dish)| (*rank, dish.name));
        found.truncate(DISHES);
        Dishes {
            dishes: found.into_iter().map(|(_, dish)| dish).collect(),
        }
    }

    pub(super) fn foods(&self, ask: &FoodsAsk) -> Foods<'_> {
        let context = Context {
            british: ask.british,
            ..Context::default()
        };
        let found = self.catalogue.find(ask.words.trim(), &context, FOODS);
        let others = found.alternatives.iter().map(|(id, _)| *id);
        let mut ids: Vec<_> = found.food.into_iter().chain(others).collect();
        ids.truncate(FOODS);
        Foods {
            foods: ids
                .into_iter()
                .map(|id| NamedFood::of(self.catalogue.food(id)))
                .collect(),
        }
    }
}
