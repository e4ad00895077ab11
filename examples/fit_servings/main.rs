//! Fits what kitchens serve on what restaurants print, and writes the tables that the program
//! reads.
//!
//! `cargo run --release --example fit_servings -- PRINTED.csv SERVINGS.csv [OUT_FOLDER]`
//!
//! - `PRINTED.csv` holds items that restaurants print: `restaurant`, `section`, `item`,
//!   `description`, `energy_kcal`.
//! - `SERVINGS.csv` holds servings with their weight: `restaurant`, `item`, `served_g`,
//!   `energy_kcal`.
//! - `OUT_FOLDER` takes `serving_effects.csv` and `serving_spreads.csv`; without it nothing is
//!   written.
//!
//! How far the fit errs is told on restaurants that it has not seen: each is left out once.

mod data;
mod fit;
mod judged;
mod tables;

use data::Item;
use fit::{Fit, Rows};
use std::path::{Path, PathBuf};

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
    let spreads = judged::spreads(&left_out);
    judged::print(&left_out, &spreads);
    if let Some(folder) = out {
        write(folder, &fits, &spreads)?;
    }
    Ok(())
}

fn write(
    folder: &Path,
    fits: &[(bool, Fit, Rows)],
    spreads: &[judged::Spread],
) -> Result<(), Box<dyn std::error::Error>> {
    tables::effects(&folder.join("serving_effects.csv"), fits)?;
    tables::spreads(&folder.join("serving_spreads.csv"), spreads)?;
    Ok(())
}
