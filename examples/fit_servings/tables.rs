//! Writing the tables.

use crate::fit::{Fit, Rows};
use crate::judged::{KindSpread, Spread};
use crate::likeness::Likeness;
use crate::salt::Salt;
use trencher::weighing::servings::{What, served_as};

/// A table as text.
type Written = Result<String, Box<dyn std::error::Error>>;

fn text(writer: csv::Writer<Vec<u8>>) -> Written {
    let bytes = writer.into_inner().map_err(|failure| failure.to_string())?;
    Ok(String::from_utf8(bytes)?)
}

/// An effect smaller than this changes no figure that is shown.
const LEAST_EFFECT: f64 = 0.004;

pub fn effects(fits: &[(bool, Fit, Rows)]) -> Written {
    let mut writer = csv::Writer::from_writer(Vec::new());
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
    text(writer)
}

pub fn spreads(spreads: &[Spread]) -> Written {
    let mut writer = csv::Writer::from_writer(Vec::new());
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
    text(writer)
}

pub fn cups(rows: &Rows, fit: &Fit) -> Written {
    let mut writer = csv::Writer::from_writer(Vec::new());
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
    text(writer)
}

pub fn salt(list: &[Salt]) -> Written {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(["kind", "mg_per_kcal", "items", "restaurants"])?;
    for salt in list {
        writer.write_record([
            salt.kind,
            &format!("{:.2}", salt.mg_per_kcal),
            &salt.items.to_string(),
            &salt.restaurants.to_string(),
        ])?;
    }
    text(writer)
}

pub fn kind_spreads(list: &[KindSpread]) -> Written {
    let mut writer = csv::Writer::from_writer(Vec::new());
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
    text(writer)
}

pub fn likeness(found: &Likeness) -> Written {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(["alike", "variance", "items", "restaurants"])?;
    for row in &found.variances {
        writer.write_record([
            row.alike,
            &format!("{:.3}", row.variance),
            &found.items.to_string(),
            &found.restaurants.to_string(),
        ])?;
    }
    text(writer)
}
