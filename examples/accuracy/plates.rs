//! Weighed cafeteria plates: Nutrition5k dish metadata.

use crate::report::{Line, percent};
use serde::Deserialize;
use std::path::Path;
use trencher::matching::Catalogue;
use trencher::quantity::Range;
use trencher::reading::{Dish, Place, Served, UnitSystem, parse_component, parse_served};
use trencher::weighing::{Request, estimate, match_dish};

#[derive(Debug, Deserialize)]
struct Plate {
    energy_kcal: f64,
    mass_g: f64,
    components: Vec<Component>,
}

#[derive(Debug, Deserialize)]
struct Component {
    name: String,
    grams: f64,
}

/// What the program is told of a plate.
#[derive(Clone, Copy, PartialEq)]
enum Told {
    Grams,
    Mass,
    Names,
}

/// Error and coverage of one task.
#[derive(Default)]
struct Score {
    error: f64,
    truth: f64,
    guessed: f64,
    inside: usize,
    plates: usize,
}

pub fn run(folder: &Path, catalogue: &Catalogue) -> Result<Vec<Line>, Box<dyn std::error::Error>> {
    let text = std::fs::read_to_string(folder.join("data/benchmarks/weighed_plates_dev.json"))?;
    let plates: Vec<Plate> = serde_json::from_str(&text)?;
    let mut lines = Vec::new();
    for (told, name, bar) in [
        (Told::Grams, "names and grams", "at most 8 %"),
        (Told::Mass, "names and the plate's mass", "at most 18 %"),
        (Told::Names, "names alone", "at most 45 %"),
    ] {
        let score = score(&plates, told, catalogue)?;
        lines.push(Line::new(
            format!(
                "weighed plates, {name}: energy error (MAE over mean), {} plates",
                score.plates
            ),
            percent(score.error / score.truth),
            bar,
        ));
        lines.push(Line::new(
            format!("weighed plates, {name}: sum of energy over truth"),
            percent(score.guessed / score.truth),
            "",
        ));
        lines.push(Line::new(
            format!("weighed plates, {name}: truth inside the 80 % range"),
            percent(score.inside as f64 / score.plates as f64),
            if told == Told::Mass { "75 to 88 %" } else { "" },
        ));
    }
    Ok(lines)
}

fn score(
    plates: &[Plate],
    told: Told,
    catalogue: &Catalogue,
) -> Result<Score, Box<dyn std::error::Error>> {
    let mut score = Score::default();
    for plate in plates {
        let range = energy(plate, told, catalogue)?;
        if std::env::var_os("SHOW").is_some() && told == Told::Mass {
            let names: Vec<String> = plate
                .components
                .iter()
                .map(|c| format!("{} {:.0}", c.name, c.grams))
                .collect();
            println!(
                "{:.0}\t{:.0}\t{:.0}\t{:.0}\t{}",
                plate.energy_kcal,
                range.likely,
                range.low,
                range.high,
                names.join("; ")
            );
        }
        score.error += (range.likely - plate.energy_kcal).abs();
        score.truth += plate.energy_kcal;
        score.guessed += range.likely;
        score.inside += usize::from((range.low..=range.high).contains(&plate.energy_kcal));
        score.plates += 1;
    }
    Ok(score)
}

fn energy(
    plate: &Plate,
    told: Told,
    catalogue: &Catalogue,
) -> Result<Range, Box<dyn std::error::Error>> {
    let components = plate
        .components
        .iter()
        .map(|c| {
            let text = match told {
                Told::Grams => format!("{} g {}", c.grams, c.name),
                _ => c.name.clone(),
            };
            parse_component(&text, Place::new("plate", 1, 1), UnitSystem::Us)
        })
        .collect::<Result<Vec<_>, _>>()?;
    let served: Option<Served> = match told {
        Told::Mass => Some(parse_served(
            &format!("{} g", plate.mass_g),
            UnitSystem::Us,
        )?),
        _ => None,
    };
    let dish = match_dish(
        Dish {
            components,
            served,
            ..Dish::default()
        },
        catalogue,
        false,
    );
    let dish = estimate(dish, &Request::default(), catalogue).dish;
    Ok(trencher::weighing::energy(&dish.components, catalogue).range())
}
