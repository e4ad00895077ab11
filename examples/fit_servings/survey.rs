//! What people ate in restaurants and what USDA weighed there, as servings beside those that are
//! printed.
//!
//! - eaten: `food_code`, `description`, `source`, `n`, `mean_g` (own aggregation of NHANES
//!   interviews); energy of a gram from FNDDS: `food_code`, `Energy (kcal)`, `Sodium (mg)`;
//! - weighed: `item`, `measure`, `mean_g`, `kcal_per_portion` (USDA SR28, group 3600).

use crate::data::Row;
use serde::Deserialize;
use std::collections::HashMap;
use std::path::Path;

#[derive(Debug, Deserialize)]
struct Eaten {
    food_code: String,
    description: String,
    source: String,
    n: u32,
    mean_g: f64,
}

#[derive(Debug, Deserialize)]
struct Nutrients {
    food_code: String,
    #[serde(rename = "Energy (kcal)")]
    kcal: Option<f64>,
}

#[derive(Debug, Deserialize)]
struct Weighed {
    item: String,
    measure: String,
    mean_g: f64,
    kcal_per_portion: f64,
}

/// Fewest servings from which a mean is taken.
const LEAST: u32 = 2;
/// What a survey's description says of the place, not of the food.
const PLACES: [&str; 6] = [
    ", from fast food _ restaurant",
    ", from restaurant or fast food",
    ", from fast food",
    ", from restaurant",
    ", fast food",
    ", restaurant",
];

/// Servings of the three files, each source as a restaurant of its own.
pub fn rows(files: [&Path; 3]) -> Result<Vec<Row>, Box<dyn std::error::Error>> {
    let [eaten, nutrients, weighed] = files;
    let energy: HashMap<String, f64> = read::<Nutrients>(nutrients)?
        .into_iter()
        .filter_map(|food| Some((food.food_code, food.kcal?)))
        .collect();
    let mut rows = Vec::new();
    for food in read::<Eaten>(eaten)? {
        let place = matches!(food.source.as_str(), "waiter" | "fast_food");
        let Some(kcal) = energy.get(&food.food_code).filter(|_| place) else {
            continue;
        };
        if food.n >= LEAST {
            let grams = food.mean_g;
            let name = plainly(&food.description);
            let source = format!("eaten, {}", food.source);
            rows.push(Row::surveyed(source, name, grams, grams * kcal / 100.0));
        }
    }
    for dish in read::<Weighed>(weighed)? {
        let whole = dish.measure.starts_with("1 order") || dish.measure.starts_with("1 serving");
        let mut parts = dish.item.splitn(3, ", ");
        if let (true, Some(kitchen), Some(name)) = (whole, parts.nth(1), parts.next()) {
            let source = format!("weighed, {kitchen}");
            let (grams, kcal) = (dish.mean_g, dish.kcal_per_portion);
            rows.push(Row::surveyed(source, name.to_owned(), grams, kcal));
        }
    }
    Ok(rows)
}

/// A description without what it says of the survey.
fn plainly(description: &str) -> String {
    let mut name = description.replace(", NFS", "");
    if let Some(at) = name.find(", NS as to") {
        name.truncate(at);
    }
    for place in PLACES {
        name = name.replace(place, "");
    }
    name
}

fn read<T: serde::de::DeserializeOwned>(path: &Path) -> Result<Vec<T>, csv::Error> {
    csv::Reader::from_path(path)?.deserialize().collect()
}
