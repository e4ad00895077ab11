//! Writing the tables.

use crate::fit::{Fit, Rows};
use crate::judged::{KindSpread, Spread};
use crate::likeness::Likeness;
use crate::salt::Salt;
use std::path::Path;
use trencher::weighing::servings::{What, served_as};

/// An effect smaller than this changes no figure that is shown.
const LEAST_EFFECT: f64 = 0.004;

pub fn effects(path: &Path, fits: &[(bool, Fit, Rows)]) -> Result<(), Box<dyn std::error::Error>> {
    let mut writer = csv::Writer::from_path(path)?;
    writer.write_record(["served", "what", "of", "log_energy", "items", "restaurants"])?;
    for (drink, fit, rows) in fits {
        for (column, effect) in rows.columns.iter().zip(&fit.effects) {
            if effect.abs() < LEAST_EFFECT && column.what != What::Serving {
                continue;
            }
            writer.write_record([
                served_as(*drink),
                column.what.word(),
                &column.of,
                &format!("{effect:.3}"),
                &column.items.to_string(),
                &column.restaurants.to_string(),
            ])?;
        }
    }
    writer.flush()?;
    Ok(())
}

pub fn spreads(path: &Path, spreads: &[Spread]) -> Result<(), Box<dyn std::error::Error>> {
    let mut writer = csv::Writer::from_path(path)?;
    writer.write_record([
        "served",
        "known",
        "log_sd",
        "items",
        "restaurants",
        "inside",
    ])?;
    for s in spreads {
        writer.write_record([
            s.served,
            s.known.word(),
            &format!("{:.2}", s.log_sd),
            &s.items.to_string(),
            &s.restaurants.to_string(),
            &format!("{:.2}", s.inside),
        ])?;
    }
    writer.flush()?;
    Ok(())
}

pub fn cups(path: &Path, rows: &Rows, fit: &Fit) -> Result<(), Box<dyn std::error::Error>> {
    let mut writer = csv::Writer::from_path(path)?;
    writer.write_record(["what", "of", "log_grams", "items", "restaurants"])?;
    for (column, effect) in rows.columns.iter().zip(&fit.effects) {
        if effect.abs() < LEAST_EFFECT {
            continue;
        }
        writer.write_record([
            column.what.word(),
            &column.of,
            &format!("{effect:.3}"),
            &column.items.to_string(),
            &column.restaurants.to_string(),
        ])?;
    }
    writer.flush()?;
    Ok(())
}

pub fn salt(path: &Path, list: &[Salt]) -> Result<(), Box<dyn std::error::Error>> {
    let mut writer = csv::Writer::from_path(path)?;
    writer.write_record(["kind", "mg_per_kcal", "items", "restaurants"])?;
    for salt in list {
        writer.write_record([
            salt.kind,
            &format!("{:.2}", salt.mg_per_kcal),
            &salt.items.to_string(),
            &salt.restaurants.to_string(),
        ])?;
    }
    writer.flush()?;
    Ok(())
}

pub fn kind_spreads(path: &Path, list: &[KindSpread]) -> Result<(), Box<dyn std::error::Error>> {
    let mut writer = csv::Writer::from_path(path)?;
    writer.write_record(["served", "kind", "factor", "items", "restaurants"])?;
    for s in list {
        writer.write_record([
            s.served,
            s.kind,
            &format!("{:.2}", s.factor),
            &s.items.to_string(),
            &s.restaurants.to_string(),
        ])?;
    }
    writer.flush()?;
    Ok(())
}

pub fn likeness(path: &Path, found: &Likeness) -> Result<(), Box<dyn std::error::Error>> {
    let mut writer = csv::Writer::from_path(path)?;
    writer.write_record(["alike", "variance", "items", "restaurants"])?;
    for row in &found.variances {
        writer.write_record([
            row.alike,
            &format!("{:.3}", row.variance),
            &found.items.to_string(),
            &found.restaurants.to_string(),
        ])?;
    }
    writer.flush()?;
    Ok(())
}
