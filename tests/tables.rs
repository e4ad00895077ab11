//! The tables of foods against what can be: bounds from FPED's own rows, and no maker's names.

#[path = "../examples/rebuild_catalogue/bounds.rs"]
mod bounds;
#[path = "../examples/rebuild_catalogue/trademarks.rs"]
mod trademarks;

use bounds::{Bound, Bounds, Held, faults};
use std::collections::{BTreeMap, HashMap};
use std::path::{Path, PathBuf};

const ROOT: &str = env!("CARGO_MANIFEST_DIR");

fn table(path: &str) -> Vec<HashMap<String, String>> {
    let mut reader = csv::Reader::from_path(Path::new(ROOT).join(path)).unwrap();
    reader.deserialize().map(Result::unwrap).collect()
}

fn committed_bounds() -> Bounds {
    let mut bounds = Bounds::new();
    for row in table("tests/data/equivalents_bounds.csv") {
        let figure = |column: &str| row[column].parse().unwrap();
        let bound = Bound {
            moist: figure("moist"),
            moist_code: row["moist_code"].clone(),
            per_solids_g: figure("per_solids_g"),
            solids_code: row["solids_code"].clone(),
        };
        bounds.insert((row["family"].clone(), row["column"].clone()), bound);
    }
    bounds
}

#[test]
fn every_derived_row_keeps_the_bounds_of_its_family() {
    let bounds = committed_bounds();
    let exceptions = table("tests/data/equivalents_exceptions.csv");
    assert!(exceptions.len() <= 10 && exceptions.iter().all(|e| e["reason"].len() > 8));
    let (mut held, mut wrong) = (0, Vec::new());
    for row in table("src/foods/tables/figures.csv") {
        let code = &row["code"];
        if row["basis"] == "fndds+fped" || exceptions.iter().any(|e| e["code"] == *code) {
            continue;
        }
        held += 1;
        let figure = |column: &str| row.get(column)?.parse().ok();
        let found = faults(
            &Held {
                family: &row["family"],
                figure: &figure,
            },
            &bounds,
        );
        if !found.is_empty() {
            wrong.push(format!("{code}: {}", found.join("; ")));
        }
    }
    assert!(held > 900, "{held} rows");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    // A committed bound is a figure of FPED itself.
    let figures = table("src/foods/tables/figures.csv");
    let by_code: BTreeMap<_, _> = figures
        .iter()
        .map(|row| (row["code"].as_str(), row))
        .collect();
    let mut checked = 0;
    for ((_, column), bound) in &bounds {
        if let Some(row) = by_code.get(bound.moist_code.as_str()) {
            let value: f64 = row[column].parse().unwrap();
            assert!(
                (value - bound.moist).abs() < 0.006,
                "{column} of {}",
                bound.moist_code
            );
            checked += 1;
        }
    }
    assert!(checked > 30, "{checked} bounds");
}

#[test]
fn rows_that_cannot_be_are_seen() {
    let bounds = committed_bounds();
    let seen = |family: &str, figures: &[(&str, f64)]| {
        let figure = |column: &str| figures.iter().find(|f| f.0 == column).map(|f| f.1);
        !faults(
            &Held {
                family,
                figure: &figure,
            },
            &bounds,
        )
        .is_empty()
    };
    // As the table once had them: of 100 g.
    assert!(seen(
        "fat",
        &[("fat_g", 100.0), ("oils_g", 100.0), ("solid_fats_g", 100.0)]
    ));
    assert!(seen(
        "fruit",
        &[
            ("water_g", 82.0),
            ("sugars_g", 14.7),
            ("added_sugars_tsp", 7.8)
        ]
    ));
    assert!(seen("fruit", &[("water_g", 73.4), ("fruits_cup", 1.85)]));
    assert!(seen("red meat", &[("water_g", 45.6), ("protein_oz", 7.05)]));
    assert!(seen("cereal", &[("water_g", 3.6), ("grains_oz", 22.7)]));
    assert!(seen("fish", &[("water_g", 79.6), ("protein_oz", 6.05)]));
    assert!(seen(
        "vegetable",
        &[("water_g", 75.0), ("vegetables_cup", 3.34)]
    ));
    assert!(!seen("red meat", &[("water_g", 60.0), ("protein_oz", 3.5)]));
}

fn texts(folder: &Path, list: &mut Vec<PathBuf>) {
    for item in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let path = item.path();
        let ending = path
            .extension()
            .and_then(|e| e.to_str())
            .unwrap_or_default();
        if path.is_dir() {
            texts(&path, list);
        } else if ["rs", "csv", "toml", "md", "txt", "html", "py", "snap", "in"].contains(&ending)
            && !path.ends_with("trademarks.txt")
        {
            list.push(path);
        }
    }
}

#[test]
fn no_table_dish_test_or_text_names_a_makers_product() {
    let list = std::fs::read_to_string(Path::new(ROOT).join("tests/data/trademarks.txt")).unwrap();
    let names = trademarks::read(&list);
    assert!(names.len() > 300, "{}", names.len());
    let mut files = Vec::new();
    for folder in ["src", "dishes", "tests", "demo-data", "examples", "benches"] {
        texts(&Path::new(ROOT).join(folder), &mut files);
    }
    files.extend(
        ["README.md", "CHANGELOG.md", "DEVELOPERS.md"].map(|name| Path::new(ROOT).join(name)),
    );
    assert!(files.len() > 200);
    let mut found = Vec::new();
    for file in files {
        let text = std::fs::read_to_string(&file).unwrap();
        for (at, line) in text.lines().enumerate() {
            if let Some(name) = trademarks::named(line, &names) {
                found.push(format!("{}:{}: {name}", file.display(), at + 1));
            }
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}
