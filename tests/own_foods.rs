//! A person's own table of foods end to end: used by every command, before the catalogue's own,
//! and refused with line and column.

use assert_cmd::Command;
use predicates::prelude::*;
use predicates::str::contains;
use serde_json::Value;
use std::path::{Path, PathBuf};

/// Invented figures.
const FOODS: &str = "\
name,aliases,like,family,energy_kcal,sodium_mg,vegetables_cup,measures,source
house sourdough,harbour loaf,sourdough bread,,262,520,,1 slice = 48,our bakery 2026
zorblax,,,vegetable,31,10,0.9,1 cup = 110,
brown rice,,brown rice,,140,4,,,our kitchen 2026
";

struct Kitchen(tempfile::TempDir);

impl Kitchen {
    fn new() -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        std::fs::write(folder.path().join("foods.csv"), FOODS).expect("written");
        Self(folder)
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    fn run(&self, args: &[&str]) -> assert_cmd::assert::Assert {
        trencher(self.0.path())
            .args(args)
            .arg("--catalogue")
            .arg(self.path("foods.csv"))
            .assert()
    }

    fn json(&self, args: &[&str]) -> Value {
        let all = [args, &["--format", "json"]].concat();
        let done = self.run(&all).success();
        serde_json::from_slice(&done.get_output().stdout).expect("JSON")
    }
}

fn trencher(home: &Path) -> Command {
    let mut command = Command::cargo_bin("trencher").expect("built");
    command.env("NO_COLOR", "1").env("TRENCHER_HOME", home);
    command
}

fn energy(page: &Value) -> f64 {
    page["nutrients"]["energy_kcal"].as_f64().expect("kcal")
}

#[test]
fn own_foods_are_found_and_counted() {
    let kitchen = Kitchen::new();
    let page = kitchen.json(&["audit", "--item", "2 slices harbour loaf"]);
    // 2 x 48 g of 262 kcal the 100 g, 520 mg of sodium.
    assert!((energy(&page) - 251.52).abs() < 0.6, "{page}");
    let sodium = page["nutrients"]["sodium_mg"].as_f64().expect("mg");
    assert!((sodium - 499.2).abs() < 1.0, "{sodium}");
    assert_eq!(page["components"][0]["certainty"], "sure");
    assert_eq!(page["components"][0]["source"], "our bakery 2026");
    // What the table leaves blank is not known, and groups are those of the like food.
    assert!(page["nutrients"]["fibre_g"].is_null());
    assert!(page["components"][0]["groups"]["grains"].as_f64() > Some(3.0));
    let page = kitchen.json(&["audit", "--item", "1 cup zorblax"]);
    let vegetables = page["components"][0]["groups"]["vegetables"]
        .as_f64()
        .expect("cups");
    assert!((vegetables - 0.99).abs() < 0.01, "{vegetables}");
}

#[test]
fn a_name_of_the_catalogues_is_the_persons_own() {
    let kitchen = Kitchen::new();
    let item = ["audit", "--item", "100 g brown rice"];
    assert!((energy(&kitchen.json(&item)) - 140.0).abs() < 0.5);
    // And without the table all is as it was.
    let plain = trencher(kitchen.0.path())
        .args(item)
        .args(["--format", "json"])
        .assert()
        .success();
    let page: Value = serde_json::from_slice(&plain.get_output().stdout).expect("JSON");
    assert!(energy(&page) < 135.0, "{page}");
    // What is not in the table is found as ever.
    let with = kitchen.json(&["audit", "--item", "1 cup romaine", "--item", "3 oz salmon"]);
    let without = trencher(kitchen.0.path())
        .args(["audit", "--item", "1 cup romaine", "--item", "3 oz salmon"])
        .args(["--format", "json"])
        .assert()
        .success();
    let without: Value = serde_json::from_slice(&without.get_output().stdout).expect("JSON");
    assert_eq!(with["components"], without["components"]);
    assert_eq!(with["nutrients"], without["nutrients"]);
}

#[test]
fn every_command_that_matches_uses_the_table() {
    let kitchen = Kitchen::new();
    let item = "1 cup zorblax";
    let _ = kitchen.run(&["fit", "--item", item]).success();
    let _ = kitchen
        .run(&["audit", "zorblax salad with harbour loaf"])
        .success()
        .stdout(contains("house sourdough").and(contains("no such food").not()));
    let _ = kitchen
        .run(&["food", "show", "zorblax"])
        .success()
        .stdout(contains("own:zorblax").and(contains("your table, line 3")));
    let _ = kitchen.run(&["food", "equal", item]).success();
    let _ = kitchen
        .run(&["food", "find", "zorblaxes", "--format", "csv"])
        .success()
        .stdout(contains("own:zorblax"));
    let menu = kitchen.path("menu.csv");
    std::fs::write(
        &menu,
        "item,components\nBowl,1 cup zorblax; 1 cup brown rice\n",
    )
    .expect("written");
    let menu = menu.display().to_string();
    let _ = kitchen
        .run(&["menu", &menu, "--format", "csv"])
        .success()
        .stdout(contains("110 g zorblax"));
    // A correction to an own food holds as long as the table is used.
    let _ = kitchen
        .run(&["food", "find", "green stuff", "--correct", "zorblax"])
        .success();
    let _ = kitchen
        .run(&["audit", "--item", "1 cup green stuff"])
        .success()
        .stdout(contains("zorblax"));
    let _ = trencher(kitchen.0.path())
        .args(["food", "find", "banana"])
        .assert()
        .success()
        .stderr(contains("own:zorblax").and(contains("not used")));
}

#[test]
fn what_cannot_be_used_is_told_by_line_and_column() {
    let kitchen = Kitchen::new();
    for (text, told) in [
        (
            "name,energy_kcal,colour\nx,1,2\n",
            "line 1, column 3 (`colour`): there is no column",
        ),
        (
            "name,energy_kcal,like\nx,1O,rice\n",
            "line 2, column 2 (`energy_kcal`): `1O` cannot be",
        ),
        (
            "name,energy_kcal,like\nx,1,qqxy zzkw\n",
            "line 2, column 3 (`like`): no food of the catalogue",
        ),
        (
            "name,energy_kcal,family,grains_oz\nx,1,moon,1\n",
            "line 2, column 3 (`family`): no food of the catalogue is of the family `moon`",
        ),
    ] {
        std::fs::write(kitchen.path("foods.csv"), text).expect("written");
        let _ = kitchen
            .run(&["audit", "--item", "1 cup rice"])
            .code(2)
            .stdout("")
            .stderr(contains(told).and(contains("foods.csv: ")));
    }
    std::fs::remove_file(kitchen.path("foods.csv")).expect("removed");
    let _ = kitchen
        .run(&["food", "find", "rice"])
        .code(3)
        .stderr(contains("foods.csv"));
}
