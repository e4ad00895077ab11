//! Mixed dishes written out with weights: food groups against FPED, energy against FNDDS.

use crate::report::{Line, percent};
use serde::Deserialize;
use std::path::Path;
use trencher::foods::Equivalent;
use trencher::matching::Catalogue;
use trencher::reading::{Dish, Place, UnitSystem, parse_component};
use trencher::weighing::{Request, WeighedComponent, estimate, match_dish};

#[derive(Debug, Deserialize)]
struct Truth {
    name: String,
    components: Vec<String>,
    expect: Expect,
    energy_kcal: f64,
}

#[derive(Debug, Deserialize)]
struct Expect {
    fruit_cup: f64,
    vegetable_cup: f64,
    grain_oz: f64,
    protein_oz: f64,
    dairy_cup: f64,
}

/// A group is right within this share of the truth, or this many units.
const SHARE: f64 = 0.1;
const UNITS: f64 = 0.1;

pub fn run(folder: &Path, catalogue: &Catalogue) -> Result<Vec<Line>, Box<dyn std::error::Error>> {
    let text = std::fs::read_to_string(folder.join("data/benchmarks/composed_dishes_dev.json"))?;
    let dishes: Vec<Truth> = serde_json::from_str(&text)?;
    let (mut right, mut off, mut all, mut energy_off, mut energy) = (0_u32, 0.0, 0.0, 0.0, 0.0);
    for truth in &dishes {
        let components = truth
            .components
            .iter()
            .map(|c| parse_component(c, Place::new("dish", 1, 1), UnitSystem::Us))
            .collect::<Result<Vec<_>, _>>()?;
        let dish = Dish {
            name: Some(truth.name.clone()),
            components,
            ..Dish::default()
        };
        let matched = match_dish(dish, catalogue, false);
        let dish = estimate(matched, &Request::default(), catalogue).dish;
        let mut fine = true;
        for (found, expected) in groups(&dish, catalogue, &truth.expect) {
            let error = (found - expected).abs();
            off += error;
            all += expected;
            fine &= error <= UNITS.max(SHARE * expected);
        }
        right += u32::from(fine);
        energy_off += (trencher::weighing::energy(&dish.components, catalogue).mean
            - truth.energy_kcal)
            .abs();
        energy += truth.energy_kcal;
    }
    let n = dishes.len();
    Ok(vec![
        Line::new(
            format!("composed dishes: all five groups within 10 % or 0.1 unit, {n} dishes"),
            percent(f64::from(right) / n as f64),
            "at least 90 %",
        ),
        Line::new(
            "composed dishes: summed group error",
            percent(off / all),
            "at most 5 %",
        ),
        Line::new(
            "composed dishes: energy error (MAE over mean)",
            percent(energy_off / energy),
            "at most 6 %",
        ),
    ])
}

/// Found and expected amounts; beans, peas and lentils stand in neither.
fn groups(
    dish: &Dish<WeighedComponent>,
    catalogue: &Catalogue,
    expect: &Expect,
) -> [(f64, f64); 5] {
    let of = |equivalent: Equivalent| -> f64 {
        dish.components
            .iter()
            .filter_map(|c| {
                let per_100g = catalogue
                    .food(c.matched.food?)
                    .equivalent_per_100g(equivalent);
                Some(per_100g * c.grams()?.mean / 100.0)
            })
            .sum()
    };
    [
        (of(Equivalent::Fruits), expect.fruit_cup),
        (of(Equivalent::Vegetables), expect.vegetable_cup),
        (of(Equivalent::Grains), expect.grain_oz),
        (of(Equivalent::Protein), expect.protein_oz),
        (of(Equivalent::Dairy), expect.dairy_cup),
    ]
}
