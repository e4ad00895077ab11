//! What eating part of a dish changes: the plate as served, half of it, and the plate that fits
//! a meal.
//!
//! ```text
//! cargo run --example half_a_plate -- "fettuccine with cream sauce and grilled chicken" 1800
//! ```

use anyhow::{Context as _, Result};
use trencher::ledger::Limit;
use trencher::{Plate, Plates};

/// Part of the day that a meal may take.
const MEAL: f64 = 1.0 / 3.0;

fn main() -> Result<()> {
    let mut arguments = std::env::args().skip(1);
    let dish = arguments.next().context("name a dish")?;
    let energy = arguments.next().map_or(Ok(2000.0), |kcal| kcal.parse())?;
    let plates = Plates::new()?.for_energy(energy);
    let plate = plates.plate(&dish)?;
    println!("as served     {}", line(&plate, 1.0));
    println!("half of it    {}", line(&plate, 0.5));
    match plates.right_size(&plate, MEAL) {
        Ok(fitted) => {
            println!(
                "fits a meal   {:>5.0} g {:>6.0} kcal",
                fitted.plate.eat_grams, fitted.plate.eat_kcal
            );
            for portion in fitted.plate.portions {
                println!(
                    "              {:>5.0} g {}",
                    portion.eat_grams, portion.name
                );
            }
        }
        Err(why) => println!("fits a meal   not at all: {why}"),
    }
    Ok(())
}

/// Weight, energy and sodium of part of a plate; the energy with its 80 % range.
fn line(plate: &Plate, part: f64) -> String {
    let grams = plate.grams().times(part).likely;
    let energy = plate.energy().unwrap_or_default().times(part);
    let sodium = plate.audit.ledger.line(Limit::Sodium);
    let share = sodium.share().unwrap_or_default() * part;
    format!(
        "{grams:>5.0} g {:>6.0} kcal ({:.0} to {:.0}), {:.0} % of a day's sodium",
        energy.likely,
        energy.low,
        energy.high,
        100.0 * share
    )
}
