//! Fits what kitchens serve on what restaurants print, and writes the tables that the program
//! reads.
//!
//! `cargo run --release --example fit_servings -- PRINTED.csv SERVINGS.csv [OUT_FOLDER]`
//!
//! - `PRINTED.csv` holds items that restaurants print: `restaurant`, `section`, `item`,
//!   `description`, `energy_kcal`, `sodium_mg`.
//! - `SERVINGS.csv` holds servings with their weight: `restaurant`, `item`, `served_g`,
//!   `served_ml`, `energy_kcal`.
//! - `OUT_FOLDER` takes `serving_effects.csv`, `serving_spreads.csv`, `drink_weights.csv` and
//!   `serving_salt.csv`; without it nothing is written.
//!
//! How far the fit errs is told on restaurants that it has not seen: each is left out once.

mod data;
mod fit;
mod judged;
mod salt;
mod tables;

use data::Item;
use fit::Rows;
use std::path::PathBuf;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let arguments: Vec<PathBuf> = std::env::args_os().skip(1).map(PathBuf::from).collect();
    let (files, out) = match arguments.as_slice() {
        [printed, servings] => ([printed, servings], None),
        [printed, servings, out] => ([printed, servings], Some(out.as_path())),
        _ => return Err("give PRINTED.csv SERVINGS.csv [OUT_FOLDER]".into()),
    };
    let items = data::read(files[0], files[1])?;
    let mut fits = Vec::new();
    let mut left_out = Vec::new();
    for drink in [false, true] {
        let own: Vec<&Item> = items.iter().filter(|i| i.said.drink == drink).collect();
        let rows = Rows::of(&own);
        let mut judged = judged::leave_each_out(&own, &rows, drink);
        let level = judged::level(&judged);
        for item in &mut judged {
            item.told *= level;
        }
        let fit = rows.fit(drink, &|_| true).raised(&rows, level);
        left_out.extend(judged);
        fits.push((drink, fit, rows));
    }
    let drinks: Vec<&Item> = items.iter().filter(|i| i.said.drink).collect();
    let cups = Rows::of_cups(&drinks);
    let cup_fit = cups.fit(true, &|_| true);
    let salt = salt::by_kind(&items);
    let spreads = judged::spreads(&left_out);
    judged::print(&left_out, &spreads);
    if let Some(folder) = out {
        tables::effects(&folder.join("serving_effects.csv"), &fits)?;
        tables::cups(&folder.join("drink_weights.csv"), &cups, &cup_fit)?;
        tables::spreads(&folder.join("serving_spreads.csv"), &spreads)?;
        tables::salt(&folder.join("serving_salt.csv"), &salt)?;
    }
    Ok(())
}
