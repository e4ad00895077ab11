//! Which kinds of servings and which amounts of components menus use most, and what each rests on.

use crate::{Places, Row};
use serde::Deserialize;
use std::collections::{BTreeMap, HashMap};
use std::path::Path;
use trencher::matching::Catalogue;
use trencher::reading::{MenuLine, UnitSystem, parse_menu_line};
use trencher::weighing::servings::{Said, ServingText};
use trencher::weighing::{Finds, MenuContext, Request, estimate_in_section};

#[derive(Debug, Deserialize)]
struct Printed {
    item: String,
    #[serde(default)]
    section: String,
    #[serde(default)]
    description: String,
}

#[derive(Debug, Deserialize)]
struct Effect {
    served: String,
    what: String,
    of: String,
    items: u32,
    restaurants: u32,
}

/// How many of the most used are looked at.
const MOST_USED: usize = 60;

/// Prints the most used, with where each comes from, and how many rest on memory or on what is
/// merely common.
pub fn print(
    printed: &Path,
    rows: &[Row],
    places: &Places,
    catalogue: &Catalogue,
) -> Result<(), Box<dyn std::error::Error>> {
    let known = |_: &str| None;
    let context = MenuContext {
        finds: &Finds::new(catalogue),
        known: &known,
        units: UnitSystem::Us,
        british: false,
    };
    let request = Request {
        parts_only: true,
        ..Request::default()
    };
    let kinds = kinds()?;
    let mut used: HashMap<(&str, String), (usize, String)> = HashMap::new();
    for row in csv::Reader::from_path(printed)?.deserialize::<Printed>() {
        let row = row?;
        let line = if row.description.is_empty() {
            parse_menu_line(&row.item)
        } else {
            MenuLine::described(&row.item, &row.description)
        };
        let said = Said::read(ServingText::of(&line, &row.section));
        let kind = said.kind.name.clone();
        let source = kinds.get(&kind).cloned().unwrap_or_default();
        used.entry(("kind", kind)).or_insert((0, source)).0 += 1;
        let dish = estimate_in_section(&line, &row.section, None, &request, context).dish;
        for c in &dish.components {
            let food = c.matched.food.map(|id| catalogue.food(id));
            let usual = c.rests_on().contains("usual");
            let at = food.and_then(|food| places.place(&c.matched.line.food, food));
            if let Some(row) = at.filter(|_| usual).map(|at| &rows[at]) {
                let entry = used.entry(("component", row.words.clone()));
                entry.or_insert((0, row.source.clone())).0 += 1;
            }
        }
    }
    let mut list: Vec<_> = used.into_iter().collect();
    list.sort_by(|a, b| b.1.0.cmp(&a.1.0).then_with(|| a.0.cmp(&b.0)));
    list.truncate(MOST_USED);
    let weak = |source: &str| {
        source.is_empty() || source.contains("common practice") || source.contains("from memory")
    };
    for ((what, of), (count, source)) in &list {
        let mark = if weak(source) { "!" } else { " " };
        let of: String = of.chars().take(40).collect();
        println!("{mark} {count:5} {what}: {of}: {source}");
    }
    let count = list.iter().filter(|(_, (_, source))| weak(source)).count();
    println!("{count} of the {MOST_USED} most used rest on memory or on what is merely common");
    Ok(())
}

/// From how many items of how many restaurants each kind's energy comes.
fn kinds() -> Result<BTreeMap<String, String>, csv::Error> {
    let text = include_str!("../../src/weighing/tables/serving_effects.csv");
    let mut kinds = BTreeMap::new();
    for row in csv::Reader::from_reader(text.as_bytes()).deserialize::<Effect>() {
        let row = row?;
        if row.what == "kind" {
            let told = format!(
                "{} printed items of {} restaurants ({})",
                row.items, row.restaurants, row.served
            );
            kinds.entry(row.of).or_insert(told);
        }
    }
    Ok(kinds)
}
