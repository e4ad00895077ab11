//! Reading the catalogue's tables from their text.

use crate::foods::columns::{Equivalent, Nutrient};
use crate::foods::rows::{FoodRow, MeasureRow};
use std::collections::HashMap;

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
