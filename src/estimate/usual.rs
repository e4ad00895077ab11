//! How much of a food is usual when nobody says: by what it is and where it stands.

use super::phrases::{Phrase, best, phrases};
use crate::catalogue::{Food, words::words};
use serde::Deserialize;
use std::sync::LazyLock;

/// What a component does in a dish.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Role {
    /// Grain, pasta, rice, potato: what the dish stands on.
    Base,
    /// Meat, fish, eggs, pulses, tofu.
    Protein,
    /// Vegetables.
    Vegetables,
    /// Loose salad leaves.
    Leaves,
    /// Fruit.
    Fruit,
    /// Cheese.
    Cheese,
    /// Sauces and spreads.
    Sauce,
    /// Salad dressings.
    Dressing,
    /// Oil and butter.
    Fat,
    /// Bread and wrappers.
    Bread,
    /// Nuts, croutons, olives.
    Topping,
    /// Herbs, spices, salt, vinegar.
    Seasoning,
    /// Drinks.
    Drink,
}

#[derive(Debug, Deserialize)]
struct Row {
    words: String,
    role: Role,
    plate_g: f64,
    accent_g: f64,
    log_sd: f64,
    source: String,
}

/// The usual amount of a food.
#[derive(Debug, Clone, PartialEq)]
pub struct Usual {
    /// What it does in a dish.
    pub role: Role,
    /// Grams as a thing of its own on a plate.
    pub plate_g: f64,
    /// Grams as one of many things, or as a filling or topping.
    pub accent_g: f64,
    /// Standard deviation of the log of the amount.
    pub log_sd: f64,
    /// Where the figures come from.
    pub source: String,
    phrases: Vec<Phrase>,
    family: Option<String>,
}

static TABLE: LazyLock<Vec<Usual>> =
    LazyLock::new(|| read(include_str!("tables/usual_amounts.csv")));

fn read(text: &str) -> Vec<Usual> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let rows = reader.deserialize::<Row>().flatten();
    rows.map(|row| {
        let family = row.words.strip_prefix("family:").map(str::to_owned);
        Usual {
            role: row.role,
            plate_g: row.plate_g,
            accent_g: row.accent_g,
            log_sd: row.log_sd,
            source: row.source,
            phrases: if family.is_some() {
                Vec::new()
            } else {
                phrases(&row.words)
            },
            family,
        }
    })
    .collect()
}

impl Usual {
    /// The most of it that one restaurant plate plausibly holds, g: a bound for its role,
    /// or some usual amounts where that is more (common practice: 12 oz of raw steak, 3 fl
    /// oz of dressing, a pound and a quarter of pasta).
    #[must_use]
    pub fn most_g(&self) -> f64 {
        let (role, times): (f64, f64) = match self.role {
            Role::Base => (600.0, 2.5),
            Role::Protein => (250.0, 2.0),
            Role::Vegetables | Role::Fruit => (350.0, 2.5),
            Role::Leaves => (200.0, 2.5),
            Role::Bread => (180.0, 2.0),
            Role::Drink => (900.0, 2.0),
            Role::Cheese | Role::Dressing => (90.0, 1.5),
            Role::Sauce => (60.0, 1.75),
            Role::Topping => (60.0, 2.0),
            Role::Fat | Role::Seasoning => (30.0, 2.0),
        };
        role.max(times * self.plate_g)
    }
}

/// For food that nothing is known of.
fn unknown() -> Usual {
    Usual {
        role: Role::Base,
        plate_g: 85.0,
        accent_g: 40.0,
        log_sd: 0.6,
        source: "common practice (3 oz)".to_owned(),
        phrases: Vec::new(),
        family: None,
    }
}

/// The usual amount of `food`, written as `text`: by the written words, else by the food's
/// name, else by its family.
#[must_use]
pub fn usual(text: &str, food: Option<Food<'_>>) -> Usual {
    let by_words =
        |text: &str| best(&TABLE, |u| &u.phrases, &words(text)).map(|(u, _, _)| u.clone());
    let by_family = |food: Food<'_>| {
        TABLE
            .iter()
            .find(|u| u.family.as_deref() == Some(food.family()))
            .cloned()
    };
    let whole = food.is_some_and(|f| is_dish(f.family()));
    // A whole dish is not sized by an ingredient in its name.
    let found = if whole {
        food.and_then(|f| dish_usual(text, f))
    } else {
        by_words(text)
    };
    found
        .or_else(|| food.filter(|_| !whole).and_then(|f| by_words(f.name())))
        .or_else(|| food.and_then(by_family))
        .unwrap_or_else(unknown)
}

/// A whole dish: only a phrase that ends its words sizes it (`garlic bread`, not `bread
/// pudding`).
fn dish_usual(text: &str, food: Food<'_>) -> Option<Usual> {
    let ends = |text: &str| {
        let list = words(text);
        best(&TABLE, |u| &u.phrases, &list)
            .filter(|(_, at, length)| at + length == list.len())
            .map(|(u, _, _)| u.clone())
    };
    ends(text).or_else(|| ends(food.name())).filter(|u| {
        matches!(
            u.role,
            Role::Base | Role::Vegetables | Role::Leaves | Role::Bread
        )
    })
}

/// Families of whole dishes.
#[must_use]
pub fn is_dish(family: &str) -> bool {
    matches!(
        family,
        "mixed dish"
            | "pasta dish"
            | "rice dish"
            | "tortilla dish"
            | "sandwich"
            | "burger"
            | "pizza"
            | "soup"
            | "restaurant dish"
            | "dumplings"
            | "dessert"
            | "salad"
            | "pancakes"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_reads_and_has_a_source() {
        let rows = include_str!("tables/usual_amounts.csv")
            .lines()
            .skip(1)
            .filter(|l| !l.is_empty());
        assert_eq!(TABLE.len(), rows.count());
        for u in TABLE.iter() {
            assert!(u.plate_g >= u.accent_g && u.accent_g > 0.0, "{u:?}");
            assert!((0.1..1.3).contains(&u.log_sd), "{u:?}");
            assert!(u.source.len() > 5, "{u:?}");
        }
    }

    #[test]
    fn the_longest_phrase_decides() {
        assert_eq!(usual("garlic bread", None).role, Role::Bread);
        assert_eq!(usual("fresh garlic", None).role, Role::Seasoning);
        assert_eq!(usual("ranch", None).role, Role::Dressing);
        assert_eq!(usual("blue cheese dressing", None).role, Role::Dressing);
        assert_eq!(usual("crumbled blue cheese", None).role, Role::Cheese);
        assert_eq!(usual("something odd", None).plate_g, 85.0);
    }
}
