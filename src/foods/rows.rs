//! Reading the catalogue's tables from their text.
//!
//! This file is also compiled into the build script.

use super::columns::{Equivalent, Nutrient};
use std::collections::HashMap;

/// A household measure of a food: what people say, and what it weighs.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct MeasureRow {
    /// The measure's words, such as `1 cup, sliced`.
    pub text: String,
    /// Edible grams of that measure.
    pub grams: f32,
}

/// A food as the tables give it. `NaN` stands for a figure that nobody published.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct FoodRow {
    /// USDA food code: eight digits FNDDS, five digits SR.
    pub code: String,
    /// Our plain name.
    pub name: String,
    /// Our other names.
    pub aliases: Vec<String>,
    /// Our family.
    pub family: String,
    /// Publication and code behind the figures.
    pub source: String,
    /// How the food-group equivalents were found.
    pub basis: String,
    /// Percent of the weight as bought that is not eaten.
    pub refuse_pct: f32,
    /// Per 100 g, in the order of [`Nutrient::ALL`].
    pub nutrients: Vec<f32>,
    /// Per 100 g, in the order of [`Equivalent::ALL`].
    pub equivalents: Vec<f32>,
    /// Household measures.
    pub measures: Vec<MeasureRow>,
}

fn number(text: &str) -> f32 {
    text.trim().parse().unwrap_or(f32::NAN)
}

fn records(text: &str) -> Result<Vec<csv::StringRecord>, String> {
    csv::Reader::from_reader(text.as_bytes())
        .records()
        .collect::<Result<_, _>>()
        .map_err(|e| e.to_string())
}

/// Joins names, figures and measures into foods, in the order of the selection. A food
/// that has no figures yet is left out: the rebuild command, which writes them, is part of
/// the same package and must still compile. A test holds that none is missing.
pub fn foods(selection: &str, figures: &str, measures: &str) -> Result<Vec<FoodRow>, String> {
    let mut measured: HashMap<String, Vec<MeasureRow>> = HashMap::new();
    for record in records(measures)? {
        measured
            .entry(record[0].to_owned())
            .or_default()
            .push(MeasureRow {
                text: record[1].to_owned(),
                grams: number(&record[2]),
            });
    }
    let mut by_code: HashMap<String, csv::StringRecord> = HashMap::new();
    for record in records(figures)? {
        by_code.insert(record[0].to_owned(), record);
    }
    let mut list = Vec::new();
    for record in records(selection)? {
        let code = record[0].to_owned();
        let Some(row) = by_code.get(&code) else {
            continue;
        };
        let (first, split) = (5, 5 + Nutrient::ALL.len());
        let last = split + Equivalent::ALL.len();
        if row.len() < last {
            return Err(format!(
                "food {code}: {} columns instead of {last}",
                row.len()
            ));
        }
        list.push(FoodRow {
            name: record[1].to_owned(),
            aliases: aliases(&record[2]),
            family: row[1].to_owned(),
            source: row[2].to_owned(),
            basis: row[3].to_owned(),
            refuse_pct: number(&row[4]),
            nutrients: (first..split).map(|i| number(&row[i])).collect(),
            equivalents: (split..last).map(|i| number(&row[i])).collect(),
            measures: measured.remove(&code).unwrap_or_default(),
            code,
        });
    }
    Ok(list)
}

fn aliases(text: &str) -> Vec<String> {
    text.split(';')
        .map(str::trim)
        .filter(|a| !a.is_empty())
        .map(str::to_owned)
        .collect()
}
