//! What is said with every estimate, and what one dish adds to it.

use super::{Group, Ledger, Limit};
use crate::foods::Food;
use crate::memo::Quick;
use crate::words;
use std::collections::HashMap;
use std::sync::LazyLock;

/// The usual cautions: said in full once a day on a terminal and on everything that may be
/// printed or read by a program.
#[must_use]
pub(crate) fn cautions() -> &'static [&'static str] {
    &[
        "Estimates for learning, from published tables: kitchens differ, and so do plates.",
        "Allergens cannot be ruled out from a menu: ask the kitchen. No basis for dosing insulin.",
        "Under 19, pregnant or nursing, past or present eating disorder, diabetes medication, \
         kidney disease, heart failure, warfarin: see a clinician or registered dietitian first.",
        "Advice from your own care team and your country comes first.",
    ]
}

/// The same as a page carries them.
pub(crate) fn usual_cautions() -> Vec<String> {
    cautions().iter().map(ToString::to_string).collect()
}

/// The same in one line, for whoever has had them in full.
pub(crate) const CAUTIONS_LINE: &str =
    "Estimates for learning, not for insulin doses or allergies: trencher cautions";

/// Whom raw and undercooked food can harm (FDA Food Code 2022, 3-603.11 and 3-801.11; from
/// memory).
pub(crate) const RAW: &str = "pregnant, over 65, under 5 or with a weak immune system: ask for it cooked through, or leave it";

/// Drinks a day (Dietary Guidelines for Americans 2020-2025, chapter 1).
pub(crate) const ALCOHOL: &str = "Alcohol: up to 2 drinks a day for men and 1 for women who drink; none in pregnancy or under \
     the legal age; nobody is advised to start.";

/// Alcohol of less than this is a dash in a sauce, drinks.
const DRINKS_FROM: f64 = 0.25;

/// Leafy greens from this are said with warfarin, cup-equivalents: half a cup cooked is one
/// high serving of vitamin K (patient guidance on warfarin).
const GREENS_FROM_CUPS: f64 = 0.5;

/// Part of a day's sodium from which heart failure and kidney disease are named (own choice).
const SODIUM_FROM: f64 = 0.5;

/// Carbohydrate from which insulin is named, grams (own choice: more than a usual meal's).
const CARBOHYDRATE_FROM_G: f64 = 60.0;

/// Protein foods from which kidney disease is named, ounce-equivalents (own choice).
const PROTEIN_FROM_OZ: f64 = 5.0;

/// A dish, as far as cautions look at it.
pub(super) struct Dish<'a> {
    /// Its name.
    pub name: Option<&'a str>,
    /// Each component's food and words.
    pub parts: Vec<(Food<'a>, &'a str)>,
    /// What is in it.
    pub ledger: &'a Ledger,
    /// Dark green vegetables, cup-equivalents.
    pub greens_cups: f64,
    /// Carbohydrate, grams, where it is known.
    pub carbohydrate_g: Option<f64>,
}

/// What this dish adds to the usual cautions, a sentence each.
pub(super) fn of_dish(dish: &Dish<'_>) -> Vec<String> {
    let drinks = dish.ledger.line(Limit::Alcohol).likely().unwrap_or(0.0);
    let alcohol = (drinks >= DRINKS_FROM).then(|| ALCOHOL.to_owned());
    [raw(dish), alcohol, matters_with(dish)]
        .into_iter()
        .flatten()
        .collect()
}

/// Conditions with which something of this dish matters.
fn matters_with(dish: &Dish<'_>) -> Option<String> {
    let of = |limit: Limit| dish.ledger.line(limit);
    let mut all = Vec::new();
    if let Some(grams) = dish.carbohydrate_g.filter(|g| *g >= CARBOHYDRATE_FROM_G) {
        all.push(format!(
            "insulin (about {:.0} g carbohydrate)",
            (grams / 5.0).round() * 5.0
        ));
    }
    if dish.greens_cups >= GREENS_FROM_CUPS {
        all.push(format!(
            "warfarin ({:.1} cup-eq leafy greens)",
            dish.greens_cups
        ));
    }
    let salty = of(Limit::Sodium).share().is_some_and(|s| s >= SODIUM_FROM);
    let protein = dish.ledger.line(Group::ProteinFoods).likely();
    if salty {
        all.push("heart failure and kidney disease (sodium)".to_owned());
    } else if protein.is_some_and(|oz| oz >= PROTEIN_FROM_OZ) {
        all.push("kidney disease (protein)".to_owned());
    }
    (!all.is_empty()).then(|| format!("Matters with {}: ask your clinician.", all.join(", with ")))
}

#[derive(serde::Deserialize)]
struct Row {
    families: String,
    words: String,
    r#where: Where,
    called: String,
}

/// Where a word has to stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
enum Where {
    /// In the food's name: `raw` in a component may be how it was weighed.
    Food,
    /// In the component or the name of the dish.
    Said,
    /// In any of them.
    Any,
}

/// Foods that are often served raw or undercooked (common practice).
const TEXT: &str = words::prepared!("raw.csv");

static ROWS: LazyLock<HashMap<String, Vec<usize>, Quick>> = LazyLock::new(|| {
    let mut by_family: HashMap<String, Vec<usize>, Quick> = HashMap::default();
    for (at, row) in LIST.iter().enumerate() {
        for family in row.families.split('|') {
            by_family.entry(family.to_owned()).or_default().push(at);
        }
    }
    by_family
});

static LIST: LazyLock<Vec<Row>> = LazyLock::new(|| words::prepared_rows(TEXT));

/// What of the dish is often served raw or undercooked, and whom that can harm.
fn raw(dish: &Dish<'_>) -> Option<String> {
    let of_dish = words::words(dish.name.unwrap_or(""));
    let mut found: Vec<&str> = Vec::new();
    for (food, text) in &dish.parts {
        let Some(rows) = ROWS.get(food.family()) else {
            continue;
        };
        let of_food = words::words(food.name());
        let of_text = words::words(text);
        for row in rows.iter().map(|at| &LIST[*at]) {
            let in_any = |word: &str| {
                let all = of_food.iter().chain(&of_text).chain(&of_dish);
                all.into_iter().any(|w| w == word)
            };
            let said = |word: &str| match row.r#where {
                Where::Food => of_food.iter().any(|w| w == word),
                Where::Said => of_text.iter().chain(&of_dish).any(|w| w == word),
                Where::Any => in_any(word),
            };
            if row.words.split('|').any(said) && !found.contains(&row.called.as_str()) {
                found.push(&row.called);
            }
        }
    }
    (!found.is_empty()).then(|| format!("May hold {}; {RAW}.", found.join(", ")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_reads_and_names_families_there_are() {
        let mut reader = csv::Reader::from_reader(include_str!("tables/raw.csv").as_bytes());
        let rows: Vec<Row> = reader
            .deserialize()
            .collect::<Result<_, _>>()
            .expect("reads");
        assert!(rows.len() > 8);
        let figures = include_str!("../foods/tables/families.csv");
        for family in rows.iter().flat_map(|row| row.families.split('|')) {
            let known = figures
                .lines()
                .any(|l| l.starts_with(&format!("{family},")));
            assert!(known, "{family}");
        }
    }

    #[test]
    fn the_line_is_one_line() {
        assert!(CAUTIONS_LINE.chars().count() <= 80);
    }
}
