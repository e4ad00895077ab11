//! Fits what kitchens serve on what restaurants print, and writes the tables that the program
//! reads.
//!
//! `cargo run --release --example fit_servings -- PRINTED.csv SERVINGS.csv
//! [--survey EATEN.csv NUTRIENTS.csv WEIGHED.csv] [--without NAME,NAME...] [--out FOLDER]`
//!
//! - `PRINTED.csv` holds items that restaurants print: `restaurant`, `section`, `item`,
//!   `description`, `energy_kcal`, `sodium_mg`.
//! - `SERVINGS.csv` holds servings with their weight: `restaurant`, `item`, `served_g`,
//!   `served_ml`, `energy_kcal`.
//! - `--survey` takes along what was eaten and weighed in restaurants (see `survey.rs`).
//! - `--without` leaves restaurants out of everything, for a final check on them.
//! - `FOLDER` takes `serving_effects.csv`, `serving_spreads.csv`, `serving_kind_spreads.csv`,
//!   `serving_likeness.csv`, `drink_weights.csv` and `serving_salt.csv`; without it nothing is
//!   written.
//!
//! How far the fit errs is told on restaurants that it has not seen: each is left out once.

mod data;
mod fit;
mod judged;
mod known;
mod likeness;
mod salt;
mod survey;
mod tables;

use data::Item;
use fit::Rows;
use std::path::{Path, PathBuf};

/// What was asked for.
#[derive(Default)]
struct Asked {
    files: Vec<PathBuf>,
    survey: Vec<PathBuf>,
    without: Vec<String>,
    out: Option<PathBuf>,
}

fn asked() -> Result<Asked, String> {
    let mut asked = Asked::default();
    let mut arguments = std::env::args().skip(1);
    while let Some(argument) = arguments.next() {
        let mut next = || arguments.next().ok_or(format!("{argument} says nothing"));
        match argument.as_str() {
            "--survey" => {
                for _ in 0..3 {
                    asked.survey.push(next()?.into());
                }
            }
            "--without" => asked.without = next()?.split(',').map(str::to_owned).collect(),
            "--out" => asked.out = Some(next()?.into()),
            _ => asked.files.push(argument.into()),
        }
    }
    if asked.files.len() == 2 {
        Ok(asked)
    } else {
        Err("give PRINTED.csv SERVINGS.csv; see the head of this program".to_owned())
    }
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let asked = asked()?;
    let surveyed = match asked.survey.as_slice() {
        [eaten, nutrients, weighed] => survey::rows([eaten, nutrients, weighed])?,
        _ => Vec::new(),
    };
    let mut items = data::read(&asked.files[0], &asked.files[1], surveyed)?;
    items.retain(|item| !asked.without.contains(&item.restaurant));
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
    let kinds = judged::kind_spreads(&mut left_out);
    let spreads = judged::spreads(&left_out);
    judged::print(&left_out, &spreads);
    known::print(&left_out, &spreads);
    let alike = likeness::learn(&left_out, &|item| judged::spread_of(item, &spreads));
    if let Some(folder) = &asked.out {
        write(folder, &items, &fits)?;
        tables::spreads(&folder.join("serving_spreads.csv"), &spreads)?;
        tables::kind_spreads(&folder.join("serving_kind_spreads.csv"), &kinds)?;
        tables::likeness(&folder.join("serving_likeness.csv"), &alike)?;
    }
    Ok(())
}

/// Writes what was fitted of energy, cups and salt.
fn write(
    folder: &Path,
    items: &[Item],
    fits: &[(bool, fit::Fit, Rows)],
) -> Result<(), Box<dyn std::error::Error>> {
    let drinks: Vec<&Item> = items.iter().filter(|i| i.said.drink).collect();
    let cups = Rows::of_cups(&drinks);
    let cup_fit = cups.fit(true, &|_| true);
    let salt = salt::by_kind(items);
    tables::effects(&folder.join("serving_effects.csv"), fits)?;
    tables::cups(&folder.join("drink_weights.csv"), &cups, &cup_fit)?;
    tables::salt(&folder.join("serving_salt.csv"), &salt)
}
