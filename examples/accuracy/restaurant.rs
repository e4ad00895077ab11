//! Dishes that USDA bought in restaurants and weighed, told by their name alone.

use crate::report::{Line, percent};
use crate::rewordings::REWORDINGS;
use serde::Deserialize;
use std::path::Path;
use trencher::matching::Catalogue;
use trencher::quantity::Range;
use trencher::reading::{UnitSystem, parse_dish_file, parse_menu_line};
use trencher::store::{Hit, Library};
use trencher::weighing::{Finds, MenuContext, Request, estimate_line};

#[derive(Debug, Deserialize)]
struct Row {
    item: String,
    measure: String,
    mean_g: f64,
    kcal_per_100g: f64,
    source: String,
}

impl Row {
    /// USDA's number of the food.
    fn number(&self) -> &str {
        self.source.rsplit(' ').next().unwrap_or_default()
    }
}

/// Errors and hits of one way of asking.
#[derive(Default)]
struct Score {
    errors: Vec<f64>,
    inside: usize,
}

impl Score {
    fn add(&mut self, range: Range, truth: f64) {
        self.errors.push((range.likely - truth).abs() / truth);
        self.inside += usize::from((range.low..=range.high).contains(&truth));
    }

    fn lines(mut self, what: &str) -> [Line; 2] {
        self.errors.sort_by(f64::total_cmp);
        let n = self.errors.len();
        let median = match n {
            0 => f64::NAN,
            _ => f64::midpoint(self.errors[(n - 1) / 2], self.errors[n / 2]),
        };
        [
            Line::new(
                format!("restaurant dishes, {what}: median energy error, {n} dishes"),
                percent(median),
                "at most 20 %",
            ),
            Line::new(
                format!("restaurant dishes, {what}: truth inside the 80 % range"),
                percent(self.inside as f64 / n as f64),
                "at least 70 %",
            ),
        ]
    }
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
        finds: &Finds::new(catalogue),
        known: &known,
        units: UnitSystem::Us,
        british: false,
    };
    let line = parse_menu_line(name);
    let estimated = estimate_line(&line, None, &Request::default(), context);
    trencher::weighing::energy(&estimated.dish.components, catalogue).range()
}

pub fn run(folder: &Path, catalogue: &Catalogue) -> Result<Vec<Line>, Box<dyn std::error::Error>> {
    let library = Library::built_in();
    let mut reader =
        csv::Reader::from_path(folder.join("estimation/restaurant_portions_usda.csv"))?;
    let show = std::env::var_os("SHOW").is_some();
    let (mut by_name, mut reworded, mut apart) =
        (Score::default(), Score::default(), Score::default());
    for row in reader.deserialize::<Row>() {
        let row = row?;
        if !is_serving(&row.measure) {
            continue;
        }
        let truth = row.mean_g * row.kcal_per_100g / 100.0;
        by_name.add(energy(&asked(&row.item), &library, catalogue), truth);
        let number = row.number();
        let Some((_, words)) = REWORDINGS.iter().find(|(n, _)| *n == number) else {
            continue;
        };
        let range = energy(words, &library, catalogue);
        if show {
            println!(
                "{truth:.0}\t{:.0}\t{:.0}\t{:.0}\t{words}",
                range.likely, range.low, range.high
            );
        }
        reworded.add(range, truth);
        if !library.entries().iter().any(|e| e.text.contains(number)) {
            apart.add(range, truth);
        }
    }
    let mut lines = Vec::new();
    lines.extend(by_name.lines("by USDA's name"));
    lines.extend(reworded.lines("in other words"));
    lines.extend(apart.lines("in other words, no library dish"));
    Ok(lines)
}
