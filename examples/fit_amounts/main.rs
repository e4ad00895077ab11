//! Fits how much of a food is usual on what people ate in restaurants and what a cafeteria
//! weighed out, and writes it into the table that the program reads.
//!
//! `cargo run --release --example fit_amounts -- EATEN.csv CAFETERIA.csv AMOUNTS.csv [write | used PRINTED.csv]`
//!
//! - `EATEN.csv`: grams eaten at one sitting by food code and where the food came from:
//!   `food_code`, `description`, `source` (`restaurant`, `store` ...), `n`, `mean_g`
//!   (own aggregation of NHANES interviews);
//! - `CAFETERIA.csv`: grams of an ingredient on weighed plates: `ingredient`, `n_dishes`,
//!   `mean_g` (own aggregation of Nutrition5k's metadata);
//! - `AMOUNTS.csv`: the table, `src/weighing/tables/usual_amounts.csv`; with `write` it is
//!   written anew.
//!
//! `used` counts instead which amounts and kinds the lines of a menu (`item`, `section`,
//! `description`) use most, and what they rest on.
//!
//! What it writes is not in use yet: the amounts move what plates hold, and were not held against
//! weighed plates.
//!
//! A row whose amount was weighed by USDA in restaurants (`USDA SR28 360..`) stays as it is.

mod used;

use serde::{Deserialize, Serialize};
use std::collections::HashMap;
use std::path::Path;
use trencher::foods::Food;
use trencher::matching::{Catalogue, Certainty, Context};
use trencher::weighing::{Usual, usual};

#[derive(Debug, Deserialize)]
struct Eaten {
    food_code: String,
    description: String,
    source: String,
    n: f64,
    mean_g: f64,
}

#[derive(Debug, Deserialize)]
struct Weighed {
    ingredient: String,
    n_dishes: f64,
    mean_g: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct Row {
    words: String,
    role: String,
    plate_g: f64,
    accent_g: f64,
    log_sd: f64,
    source: String,
}

/// What people ate, or what was weighed, summed up.
#[derive(Debug, Default, Clone)]
struct Sum {
    servings: f64,
    grams: f64,
}

impl Sum {
    fn add(&mut self, n: f64, grams: f64) {
        self.servings += n;
        self.grams += n * grams;
    }

    fn mean(&self) -> f64 {
        self.grams / self.servings.max(1e-9)
    }
}

/// Fewest servings that speak for an amount, and servings from which more add nothing.
const LEAST: f64 = 10.0;
const MOST: f64 = 100.0;
/// Fewest plates that speak for it where no survey does.
const LEAST_PLATES: f64 = 30.0;
/// Families of what is drunk: a juice is no fruit, a ginger ale no ginger.
const DRUNK: [&str; 8] = [
    "soft drink",
    "juice",
    "coffee and tea",
    "milk drink",
    "alcoholic drink",
    "water",
    "drink",
    "milk",
];

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [eaten, cafeteria, amounts, rest @ ..] = arguments.as_slice() else {
        return Err("give EATEN.csv CAFETERIA.csv AMOUNTS.csv [write | used PRINTED.csv]".into());
    };
    let catalogue = Catalogue::embedded()?;
    let rows: Vec<Row> = read(Path::new(amounts))?;
    let places = Places::of(&rows);
    let mut out = vec![Sum::default(); rows.len()];
    let mut home = vec![Sum::default(); rows.len()];
    let codes: HashMap<&str, Food<'_>> = catalogue.foods().map(|f| (f.code(), f)).collect();
    for row in read::<Eaten>(Path::new(eaten))? {
        let food = codes
            .get(row.food_code.as_str())
            .copied()
            .or_else(|| found(&row.description, &catalogue));
        let food = food.filter(|food| !DRUNK.contains(&food.family()));
        let Some(at) = food.and_then(|food| places.place(food.name(), food)) else {
            continue;
        };
        match row.source.as_str() {
            "restaurant" => out[at].add(row.n, row.mean_g),
            "store" => home[at].add(row.n, row.mean_g),
            _ => {}
        }
    }
    let mut plates = vec![Sum::default(); rows.len()];
    for row in read::<Weighed>(Path::new(cafeteria))? {
        let Some(food) = found(&row.ingredient, &catalogue) else {
            continue;
        };
        if let Some(at) = places.place(&row.ingredient, food) {
            plates[at].add(row.n_dishes, row.mean_g);
        }
    }
    let fitted: Vec<Row> = rows
        .iter()
        .enumerate()
        .map(|(at, row)| fitted(row, &out[at], &home[at], &plates[at]))
        .collect();
    for (was, now) in rows.iter().zip(&fitted) {
        let mark = if now == was { ' ' } else { '*' };
        println!(
            "{mark} {:5} {:5} -> {:5} {:5}  {}: {}",
            was.plate_g, was.accent_g, now.plate_g, now.accent_g, now.words, now.source
        );
    }
    if let [word, printed] = rest
        && word == "used"
    {
        return used::print(Path::new(printed), &rows, &places, &catalogue);
    }
    if rest.first().is_some_and(|word| word == "write") {
        let mut writer = csv::Writer::from_path(amounts)?;
        for row in &fitted {
            writer.serialize(row)?;
        }
        writer.flush()?;
    }
    Ok(())
}

/// A row as the data have it: as much as people eat of it at one sitting where it is a thing of
/// its own; where it is one of many, between the least and the most that they eat of it here,
/// there and on a cafeteria's plate.
fn fitted(row: &Row, out: &Sum, home: &Sum, plates: &Sum) -> Row {
    let spice = matches!(row.role.as_str(), "seasoning" | "fat" | "drink");
    if row.source.contains("SR28 36") || row.role == "drink" {
        return row.clone();
    }
    let eaten = out.servings.min(MOST) * out.mean() + home.servings.min(MOST) * home.mean();
    let servings = out.servings.min(MOST) + home.servings.min(MOST);
    let ratio = row.accent_g / row.plate_g;
    let (plate, accent) = if !spice && servings >= LEAST {
        let plate = eaten / servings;
        let all = [out, home, plates].into_iter();
        let means: Vec<f64> = all.filter(|s| s.servings >= LEAST).map(Sum::mean).collect();
        let least = means.iter().copied().fold(f64::MAX, f64::min);
        let most = means.iter().copied().fold(0.0, f64::max);
        let accent = match means.len() {
            0 | 1 => plate * ratio,
            _ => (least * most).sqrt(),
        };
        (plate, accent)
    } else if plates.servings >= LEAST_PLATES {
        let mean = plates.mean();
        if spice {
            (mean / ratio, mean)
        } else {
            (mean, mean * ratio)
        }
    } else {
        return row.clone();
    };
    let round = |grams: f64| {
        let step = if grams < 10.0 { 0.5 } else { 1.0 };
        ((grams / step).round() * step).max(0.5)
    };
    Row {
        plate_g: round(plate.max(accent)),
        accent_g: round(accent),
        source: told(out, home, plates),
        ..row.clone()
    }
}

/// Where the figures come from.
fn told(out: &Sum, home: &Sum, plates: &Sum) -> String {
    let mut parts = Vec::new();
    for (sum, place) in [(out, "in restaurants"), (home, "elsewhere")] {
        if sum.servings >= 1.0 {
            parts.push(format!(
                "{:.0} g of {} servings {place}",
                sum.mean(),
                sum.servings
            ));
        }
    }
    let mut told = Vec::new();
    if !parts.is_empty() {
        told.push(format!("NHANES 2015-2016: mean eaten {}", parts.join(", ")));
    }
    if plates.servings >= 1.0 {
        let (grams, count) = (plates.mean(), plates.servings);
        told.push(format!(
            "Nutrition5k metadata: mean {grams:.1} g on {count} plates"
        ));
    }
    told.join("; ")
}

fn read<T: serde::de::DeserializeOwned>(path: &Path) -> Result<Vec<T>, Box<dyn std::error::Error>> {
    let mut reader = csv::Reader::from_path(path)?;
    Ok(reader.deserialize().collect::<Result<Vec<T>, _>>()?)
}

fn found<'c>(words: &str, catalogue: &'c Catalogue) -> Option<Food<'c>> {
    let found = catalogue.find(words, &Context::default(), 1);
    let sure = found.certainty > Certainty::Guess;
    found.food.filter(|_| sure).map(|id| catalogue.food(id))
}

/// Which row of the table holds for a food.
struct Places {
    by_words: HashMap<*const Usual, usize>,
    by_family: HashMap<String, usize>,
}

impl Places {
    fn of(rows: &[Row]) -> Self {
        let mut places = Self {
            by_words: HashMap::new(),
            by_family: HashMap::new(),
        };
        for (at, row) in rows.iter().enumerate() {
            if let Some(family) = row.words.strip_prefix("family:") {
                places.by_family.insert(family.to_owned(), at);
            } else {
                let first = row.words.split(';').next().unwrap_or_default();
                let own = std::ptr::from_ref(usual(first, None));
                places.by_words.insert(own, at);
            }
        }
        places
    }

    fn place(&self, words: &str, food: Food<'_>) -> Option<usize> {
        let own = usual(words, Some(food));
        let by_words = self.by_words.get(&std::ptr::from_ref(own));
        by_words
            .or_else(|| self.by_family.get(food.family()))
            .copied()
    }
}
