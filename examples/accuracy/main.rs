//! Prints every accuracy figure of the project.
//!
//! `cargo run --release --example accuracy -- DATA_FOLDER`, where `DATA_FOLDER` holds
//! `data/benchmarks/` and `estimation/restaurant_portions_usda.csv`. `SHOW=1` in the
//! environment prints every plate and dish as well: truth, likely, low, high.

mod composed;
mod names;
mod plates;
mod report;
mod restaurant;
mod rewordings;

use std::path::PathBuf;
use trencher::matching::Catalogue;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let Some(folder) = std::env::args_os().nth(1).map(PathBuf::from) else {
        return Err("which folder? accuracy DATA_FOLDER".into());
    };
    let catalogue = Catalogue::embedded()?;
    for run in [composed::run, plates::run, names::run, restaurant::run] {
        for line in run(&folder, &catalogue)? {
            line.print();
        }
    }
    Ok(())
}
