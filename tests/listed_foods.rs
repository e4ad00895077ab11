//! Dishes that USDA bought in restaurants and weighed, as lists of what they are made of without names or
//! amounts (`data/usda_by_parts.csv`) and as menus describe them (`data/usda_described.csv`); the words
//! are our own.

use serde::Deserialize;
use serde_json::Value;
use std::process::Command;

#[derive(Debug, Deserialize)]
struct Weighed {
    part: String,
    parts: String,
    grams: f64,
    kcal: f64,
}

fn weighed() -> Vec<Weighed> {
    let mut reader = csv::Reader::from_path("tests/data/usda_by_parts.csv").expect("the table");
    let rows = reader.deserialize();
    rows.collect::<Result<_, _>>().expect("rows")
}

fn audit(parts: &str) -> Value {
    let output = Command::new(env!("CARGO_BIN_EXE_trencher"))
        .args(["audit", parts, "--format", "json"])
        .env(
            "TRENCHER_HOME",
            tempfile::tempdir().expect("a folder").path(),
        )
        .output()
        .expect("the program runs");
    serde_json::from_slice(&output.stdout).expect("JSON")
}

fn energy(page: &Value) -> [f64; 3] {
    let limits = page["limits"].as_array().expect("limits");
    let of = |limit: &&Value| limit["name"] == "energy";
    let amount = &limits.iter().find(of).expect("energy")["amount"];
    ["low", "likely", "high"].map(|key| amount[key].as_f64().expect("a figure"))
}

fn grams(page: &Value) -> f64 {
    let list = page["components"].as_array().expect("components");
    let each = |c: &Value| c["grams"]["likely"].as_f64().or(c["grams"].as_f64());
    list.iter().filter_map(each).sum()
}

/// In all, they weigh and hold about what was weighed, and most truths lie in the range: of the lists in
/// view of which the rules were made, and of others that were written after them.
#[test]
fn what_parts_make_weighs_what_restaurants_serve() {
    for part in ["built", "aside"] {
        let rows = weighed().into_iter().filter(|row| row.part == part);
        judge(part, &rows.collect::<Vec<_>>());
    }
}

fn judge(part: &str, rows: &[Weighed]) {
    let (mut weight, mut kcal, mut inside) = ((0.0, 0.0), (0.0, 0.0), 0);
    for row in rows {
        let page = audit(&row.parts);
        let [low, likely, high] = energy(&page);
        weight = (weight.0 + grams(&page), weight.1 + row.grams);
        kcal = (kcal.0 + likely, kcal.1 + row.kcal);
        inside += usize::from((low..=high).contains(&row.kcal));
    }
    let (by_weight, by_energy) = (weight.0 / weight.1, kcal.0 / kcal.1);
    let held = inside as f64 / rows.len() as f64;
    println!("{part}: weight {by_weight:.2}, energy {by_energy:.2}, inside {held:.2}");
    assert!((0.8..1.2).contains(&by_weight), "weight {by_weight:.2}");
    assert!((0.85..1.15).contains(&by_energy), "energy {by_energy:.2}");
    assert!(held >= 0.75, "{held:.2} of the truths lie in the range");
}

#[derive(Debug, Deserialize)]
struct Described {
    line: String,
    kcal: f64,
}

/// Named and described as on a menu, half of them are told within a quarter of their energy. The weights
/// of many such orders are known to the program; the lines were written before they were first told.
#[test]
fn described_dishes_hold_what_was_weighed() {
    let mut reader = csv::Reader::from_path("tests/data/usda_described.csv").expect("the table");
    let rows: Vec<Described> = reader
        .deserialize()
        .collect::<Result<_, _>>()
        .expect("rows");
    let mut errors = Vec::new();
    let mut inside = 0;
    for row in &rows {
        let [low, likely, high] = energy(&audit(&row.line));
        errors.push((likely / row.kcal - 1.0).abs());
        inside += usize::from((low..=high).contains(&row.kcal));
    }
    errors.sort_by(f64::total_cmp);
    let median = f64::midpoint(errors[(rows.len() - 1) / 2], errors[rows.len() / 2]);
    let held = inside as f64 / rows.len() as f64;
    println!("described: median error {median:.3}, inside {held:.2}");
    assert!(median <= 0.25, "{median:.3}");
    assert!(held >= 0.75, "{held:.2} of the truths lie in the range");
}

/// A list is the dish that its foods make together, in whatever order they stand.
#[test]
fn the_order_of_a_list_says_nothing() {
    let [_, one, _] = energy(&audit("rice, black beans, chicken, salsa, cheese"));
    let [_, other, _] = energy(&audit("chicken, cheese, black beans, salsa, rice"));
    assert!((one / other - 1.0).abs() < 0.1, "{one} and {other}");
}
