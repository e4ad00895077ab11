//! How much of a food is usual when nobody says: by what it is and where it stands.

use super::phrases::PhraseTable;
use crate::foods::{Food, Trait};
use crate::memo::Quick;
use crate::words::{prepared, prepared_rows, words_of};
use serde::Deserialize;
use std::collections::HashMap;
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
    words_base: String,
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
}

const TEXT: &str = prepared!("usual_amounts.csv");
/// How a row says that it holds for a whole family.
const FAMILY: &str = "family:";

/// The rows by their words, and those that hold for a whole family.
struct Table {
    by_words: PhraseTable<Usual>,
    by_family: HashMap<String, Usual, Quick>,
}

static TABLE: LazyLock<Table> = LazyLock::new(|| {
    let mut by_family = HashMap::default();
    let mut by_words = Vec::new();
    for row in prepared_rows::<Row>(TEXT) {
        let usual = Usual {
            role: row.role,
            plate_g: row.plate_g,
            accent_g: row.accent_g,
            log_sd: row.log_sd,
            source: row.source,
        };
        match row.words.strip_prefix(FAMILY) {
            Some(family) => {
                by_family.insert(family.to_owned(), usual);
            }
            None => by_words.push((row.words_base, usual)),
        }
    }
    Table {
        by_words: PhraseTable::new(by_words),
        by_family,
    }
});

impl Usual {
    /// The most of it that one restaurant plate plausibly holds, g: a bound for its role,
    /// or some usual amounts where that is more (common practice: 12 oz of raw steak, 3 fl
    /// oz of dressing, a pound and a quarter of pasta).
    #[must_use]
    pub(crate) fn most_g(&self) -> f64 {
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
static UNKNOWN: LazyLock<Usual> = LazyLock::new(|| Usual {
    role: Role::Base,
    plate_g: 85.0,
    accent_g: 40.0,
    log_sd: 0.6,
    source: "common practice (3 oz)".to_owned(),
});

/// The usual amount of `food`, written as `text`: by the written words, else by the food's
/// name, else by its family.
#[must_use]
pub fn usual(text: &str, food: Option<Food<'_>>) -> &'static Usual {
    let by_words = |text: &str| TABLE.by_words.longest(&words_of(text)).map(|hit| hit.row);
    let found = match food {
        // A whole dish is not sized by an ingredient in its name.
        Some(food) if food.has(Trait::WholeDish) => dish_usual(text, food),
        Some(food) => by_words(text)
            .or_else(|| by_words(food.name()))
            .filter(|found| !is_of_another_food(found, food)),
        None => by_words(text),
    };
    found
        .or_else(|| TABLE.by_family.get(food?.family()))
        .unwrap_or(&UNKNOWN)
}

/// Whether a phrase sizes what its food never is: `chili flakes` season, a bowl of `chili` is
/// eaten.
fn is_of_another_food(found: &Usual, food: Food<'_>) -> bool {
    let family = TABLE.by_family.get(food.family());
    family.is_some_and(|own| own.role == Role::Seasoning) && found.role == Role::Base
}

/// A whole dish: only a phrase that ends its words sizes it (`garlic bread`, not `bread
/// pudding`).
fn dish_usual(text: &str, food: Food<'_>) -> Option<&'static Usual> {
    let ends = |text: &str| {
        let list = words_of(text);
        TABLE
            .by_words
            .longest(&list)
            .filter(|hit| hit.at + hit.length == list.len())
            .map(|hit| hit.row)
    };
    ends(text).or_else(|| ends(food.name())).filter(|u| {
        matches!(
            u.role,
            Role::Base | Role::Vegetables | Role::Leaves | Role::Bread
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::matching::{Catalogue, Context};

    #[test]
    fn every_row_reads_and_has_a_source() {
        let lines = TEXT.lines().skip(1).filter(|l| !l.is_empty());
        assert_eq!(
            TABLE.by_words.rows().len() + TABLE.by_family.len(),
            lines.count()
        );
        for u in TABLE.by_words.rows().iter().chain(TABLE.by_family.values()) {
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

    #[test]
    fn a_seasoning_is_not_sized_by_a_dish_of_its_name() {
        let catalogue = Catalogue::embedded().unwrap();
        let of = |text: &str| {
            let found = catalogue.find(text, &Context::default(), 1);
            usual(text, found.food.map(|id| catalogue.food(id)))
        };
        assert_eq!(of("chilli flakes").role, Role::Seasoning);
        assert_eq!(of("beef chili").role, Role::Base);
    }
}
