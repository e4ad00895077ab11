//! Dishes that USDA bought in restaurants and weighed, told by their name alone.

use crate::report::{Line, percent};
use serde::Deserialize;
use std::path::Path;
use trencher::catalogue::Catalogue;
use trencher::estimate::{MenuContext, Request, estimate_line};
use trencher::library::{Hit, Library};
use trencher::quantity::Range;
use trencher::reading::{UnitSystem, parse_dish_file, parse_menu_line};

#[derive(Debug, Deserialize)]
struct Row {
    item: String,
    measure: String,
    mean_g: f64,
    kcal_per_100g: f64,
}

/// Measures that are a whole serving.
fn is_serving(measure: &str) -> bool {
    measure.starts_with("1 order") || measure.starts_with("1 serving")
}

/// `Restaurant, Chinese, kung pao chicken` is asked as `kung pao chicken`.
fn asked(item: &str) -> String {
    let list: Vec<&str> = item.split(", ").collect();
    list.get(2..)
        .map_or_else(|| item.to_owned(), |rest| rest.join(", "))
}

/// Estimates the energy of a menu line.
fn energy(name: &str, library: &Library, catalogue: &Catalogue) -> Range {
    let known = |name: &str| match library.find(name) {
        Hit::Exact(entry) => parse_dish_file(&entry.slug, &entry.text, UnitSystem::Us).ok(),
        Hit::Near(_) | Hit::None => None,
    };
    let context = MenuContext {
        catalogue,
        known: &known,
        units: UnitSystem::Us,
        british: false,
    };
    let line = parse_menu_line(name);
    let estimated = estimate_line(&line, None, &Request::default(), context);
    trencher::estimate::energy(&estimated.dish.components, catalogue)
}

pub fn run(folder: &Path, catalogue: &Catalogue) -> Result<Vec<Line>, Box<dyn std::error::Error>> {
    let library = Library::built_in();
    let mut reader =
        csv::Reader::from_path(folder.join("estimation/restaurant_portions_usda.csv"))?;
    let mut errors = Vec::new();
    let mut inside = 0_u32;
    for row in reader.deserialize::<Row>() {
        let row = row?;
        if !is_serving(&row.measure) {
            continue;
        }
        let truth = row.mean_g * row.kcal_per_100g / 100.0;
        let name = asked(&row.item);
        let range = energy(&name, &library, catalogue);
        if std::env::var_os("SHOW").is_some() {
            println!(
                "{truth:.0}\t{:.0}\t{:.0}\t{:.0}\t{name}",
                range.likely, range.low, range.high
            );
        }
        errors.push((range.likely - truth).abs() / truth);
        inside += u32::from((range.low..=range.high).contains(&truth));
    }
    errors.sort_by(f64::total_cmp);
    let n = errors.len();
    let median = f64::midpoint(errors[(n - 1) / 2], errors[n / 2]);
    Ok(vec![
        Line::new(
            format!("restaurant dishes by name alone: median energy error, {n} dishes"),
            percent(median),
            "at most 20 %",
        ),
        Line::new(
            "restaurant dishes by name alone: truth inside the 80 % range",
            percent(f64::from(inside) / n as f64),
            "at least 70 %",
        ),
    ])
}
