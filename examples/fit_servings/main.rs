//! Fits what kitchens serve on what restaurants print, and writes the tables that the program
//! reads.
//!
//! `cargo run --release --example fit_servings -- PRINTED.csv SERVINGS.csv
//! [--survey EATEN.csv NUTRIENTS.csv WEIGHED.csv] [--without NAME,NAME...] [--program] [--out FOLDER]`
//!
//! - `PRINTED.csv` holds items that restaurants print: `restaurant`, `section`, `item`,
//!   `description`, `energy_kcal`, `sodium_mg`.
//! - `SERVINGS.csv` holds servings with their weight: `restaurant`, `item`, `served_g`,
//!   `served_ml`, `energy_kcal`.
//! - `--survey` takes along what was eaten and weighed in restaurants (see `survey.rs`).
//! - `--without` leaves restaurants out of everything, for a final check on them.
//! - `--program` judges the whole program, with tables that have not seen the restaurant, in place of
//!   the fit alone; nothing is written.
//! - `FOLDER` takes `serving_effects.csv`, `serving_spreads.csv`, `serving_kind_spreads.csv`,
//!   `serving_likeness.csv`, `drink_weights.csv` and `serving_salt.csv`; without it nothing is
//!   written.
//!
//! How far the fit errs is told on restaurants that it has not seen: each is left out once.

mod data;
mod fit;
mod judged;
mod known;
mod learned;
mod likeness;
mod program;
mod salt;
mod survey;
mod tables;

use data::Item;
use learned::Learned;
use std::path::PathBuf;
use trencher::matching::Catalogue;
use trencher::reading::UnitSystem;
use trencher::store::{KnownDishes, Library};
use trencher::weighing::{Finds, MenuContext};

/// What was asked for.
#[derive(Default)]
struct Asked {
    files: Vec<PathBuf>,
    survey: Vec<PathBuf>,
    without: Vec<String>,
    out: Option<PathBuf>,
    program: bool,
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
            "--program" => asked.program = true,
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
    let catalogue = Catalogue::embedded()?;
    let dishes = KnownDishes::of(&Library::built_in());
    let known = dishes.finder(UnitSystem::Us);
    let context = MenuContext {
        finds: &Finds::new(&catalogue),
        known: &known,
        units: UnitSystem::Us,
        british: false,
    };
    let mut items = data::read(&asked.files[0], &asked.files[1], surveyed, context)?;
    items.retain(|item| !asked.without.contains(&item.restaurant));
    let items: Vec<&Item> = items.iter().collect();
    if asked.program {
        return program::print(&items, context);
    }
    let learned = Learned::of(&items);
    judged::print(&learned.left_out, &learned.spreads);
    known::print(&learned.left_out, &learned.spreads);
    let alike = likeness::learn(&learned.left_out, &|item| {
        judged::spread_of(item, &learned.spreads)
    });
    if let Some(folder) = &asked.out {
        learned.tables(&items)?.write(folder)?;
        std::fs::write(
            folder.join("serving_likeness.csv"),
            tables::likeness(&alike)?,
        )?;
    }
    Ok(())
}
