//! What is on a plate has one answer: every command and every format tells the same of a dish
//! of the library, and what its file serves.

use assert_cmd::Command;
use serde_json::Value;
use std::collections::HashMap;
use std::path::{Path, PathBuf};

/// How far the components may weigh off what the file serves.
const SERVED_TOLERANCE: f64 = 0.05;

fn trencher(args: &[&str], input: &str) -> String {
    let output = Command::cargo_bin("trencher")
        .expect("the binary is built")
        .env("NO_COLOR", "1")
        .env("TRENCHER_HOME", std::env::temp_dir().join("trencher-none"))
        .args(args)
        .write_stdin(input)
        .output()
        .expect("runs");
    assert!(
        output.status.success(),
        "{args:?}: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    String::from_utf8(output.stdout).expect("UTF-8")
}

fn dish_files() -> Vec<PathBuf> {
    fn below(folder: &Path, list: &mut Vec<PathBuf>) {
        for item in std::fs::read_dir(folder).expect("a folder").flatten() {
            let path = item.path();
            if path.is_dir() {
                below(&path, list);
            } else if path.extension().is_some_and(|e| e == "toml") {
                list.push(path);
            }
        }
    }
    let mut list = Vec::new();
    below(
        &Path::new(env!("CARGO_MANIFEST_DIR")).join("dishes"),
        &mut list,
    );
    list.sort();
    list
}

/// Name and served grams of every dish of the library.
fn library() -> Vec<(String, Option<f64>)> {
    let read = |path: &PathBuf| {
        let text = std::fs::read_to_string(path).expect("reads");
        let file: toml::Table = toml::from_str(&text).expect("TOML");
        let served = file
            .get("served")
            .and_then(|s| s.as_str()?.strip_suffix(" g"));
        let grams = served.map(|s| s.trim().parse().expect("a number"));
        (file["name"].as_str().expect("a name").to_owned(), grams)
    };
    dish_files().iter().map(read).collect()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value}"))
}

/// What an output says of a dish: energy, and each group's amount, likely.
#[derive(Debug)]
struct Said {
    kcal: f64,
    groups: HashMap<String, f64>,
}

impl Said {
    fn of_audit(audit: &Value) -> Self {
        let rows = |key: &str| audit[key].as_array().expect("a list").iter();
        let energy = rows("limits").find(|l| l["name"] == "energy");
        Self {
            kcal: number(&energy.expect("energy")["amount"]["likely"]),
            groups: rows("groups")
                .map(|g| {
                    let key = g["group"].as_str().expect("a key").to_owned();
                    (key, number(&g["amount"]["likely"]))
                })
                .collect(),
        }
    }

    fn of_row(row: &Value) -> Self {
        let groups = row["groups"].as_object().expect("groups");
        Self {
            kcal: number(&row["energy_kcal"]["likely"]),
            groups: groups
                .iter()
                .map(|(key, g)| (key.clone(), number(&g["amount"]["likely"])))
                .collect(),
        }
    }

    /// Whether two outputs say the same, as far as both are rounded.
    fn same(&self, other: &Self) -> bool {
        let near = |a: f64, b: f64| (a - b).abs() <= 0.006 + 0.001 * a.abs().max(b.abs());
        (self.kcal - other.kcal).abs() < 0.6
            && self.groups.iter().all(|(key, amount)| {
                let there = other.groups.get(key).copied().unwrap_or(0.0);
                near(*amount, there)
            })
    }
}

fn audits(names: &[&str]) -> Vec<Value> {
    let mut args = vec!["audit", "--format", "json"];
    args.extend(names);
    let text = trencher(&args, "");
    serde_json::Deserializer::from_str(&text)
        .into_iter()
        .collect::<Result<_, _>>()
        .expect("JSON")
}

/// Served weights are those of the files: published, or our estimates with a reason.
#[test]
fn every_library_dish_weighs_what_its_file_serves() {
    let library = library();
    let names: Vec<&str> = library.iter().map(|(name, _)| name.as_str()).collect();
    let audits = audits(&names);
    assert_eq!(audits.len(), library.len());
    let mut checked = 0;
    for ((name, served), audit) in library.iter().zip(&audits) {
        let Some(served) = served else { continue };
        let components = audit["components"].as_array().expect("components");
        let grams: f64 = components
            .iter()
            .map(|c| number(&c["grams"]["likely"]))
            .sum();
        assert!(
            (grams / served - 1.0).abs() <= SERVED_TOLERANCE,
            "{name}: {grams} g, served {served} g"
        );
        checked += 1;
    }
    assert!(checked > 150, "{checked} dishes state a weight");
    let told = trencher(&["dish", "check", "dishes"], "");
    assert!(told.contains(" 0 faults"), "{told}");
}

#[test]
fn audit_menu_csv_and_text_say_the_same() {
    let library = library();
    let names: Vec<&str> = library.iter().map(|(name, _)| name.as_str()).collect();
    let rows: String = names
        .iter()
        .map(|name| serde_json::json!({ "item": name }).to_string() + "\n")
        .collect();
    let menu = trencher(
        &["menu", "-", "--input", "ndjson", "--format", "ndjson"],
        &rows,
    );
    let menu: Vec<Value> = menu
        .lines()
        .map(|line| serde_json::from_str(line).expect("JSON"))
        .collect();
    assert_eq!(menu.len(), names.len());
    let mut csv = vec!["audit", "--format", "csv"];
    csv.extend(&names);
    let csv = trencher(&csv, "");
    let energies: Vec<f64> = csv
        .lines()
        .filter(|line| line.starts_with("limit,energy,"))
        .map(|line| {
            line.split(',')
                .nth(8)
                .expect("likely")
                .parse()
                .expect("kcal")
        })
        .collect();
    for (((name, audit), row), kcal) in names.iter().zip(audits(&names)).zip(&menu).zip(&energies) {
        let (audit, row) = (Said::of_audit(&audit), Said::of_row(row));
        assert!(audit.same(&row), "{name}: {audit:?}\nmenu: {row:?}");
        assert!((audit.kcal - kcal).abs() < 0.6, "{name}: CSV {kcal}");
    }
    let mut text = vec!["audit"];
    text.extend(&names[..20]);
    let text = trencher(&text, "");
    let lines: Vec<&str> = text
        .lines()
        .filter(|line| line.contains(" kcal (80 % range "))
        .collect();
    assert_eq!(lines.len(), 20);
    for (line, audit) in lines.iter().zip(audits(&names[..20])) {
        let kcal = Said::of_audit(&audit).kcal;
        let before = line.split(" kcal").next().unwrap_or_default();
        let told = before
            .rsplit(' ')
            .next()
            .unwrap_or_default()
            .replace(',', "");
        let told: f64 = told.parse().unwrap_or_else(|_| panic!("{line}"));
        assert!((told - kcal).abs() <= 5.0, "{line}: {kcal}");
    }
}

/// Comparing lays the same plates side by side.
#[test]
fn compare_weighs_as_audit_does() {
    let library = library();
    let names: Vec<&str> = library
        .iter()
        .step_by(14)
        .map(|(n, _)| n.as_str())
        .collect();
    for pair in names.chunks_exact(2) {
        let told = trencher(&["compare", pair[0], pair[1], "--format", "json"], "");
        let told: Value = serde_json::from_str(&told).expect("JSON");
        for (audit, side) in audits(pair)
            .iter()
            .zip(told["sides"].as_array().expect("two"))
        {
            let (a, b) = (&audit["served_grams"], &side["grams"]);
            for end in ["low", "likely", "high"] {
                assert!(
                    (number(&a[end]) - number(&b[end])).abs() < 0.1,
                    "{pair:?}: {a} {b}"
                );
            }
        }
    }
}
