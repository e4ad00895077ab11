//! A kitchen is learned from the figures that its menu prints, or from what was weighed there.
//! The dishes and figures are invented for the test.

use serde_json::Value;
use std::fmt::Write as _;
use std::fs;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Output, Stdio};

const BIN: &str = env!("CARGO_BIN_EXE_trencher");

/// Dishes of one place, each with 1.6 times the energy that is told of it without the place.
const GENEROUS: [&str; 8] = [
    "Cheeseburger",
    "Bacon burger",
    "Turkey club sandwich",
    "Chicken quesadilla",
    "Beef burrito",
    "Spaghetti and meatballs",
    "Chicken tenders",
    "Caesar salad with grilled chicken",
];
/// Dishes of it that nobody says anything of.
const OTHERS: [&str; 4] = [
    "Mushroom burger",
    "Steak burrito",
    "Fettuccine alfredo",
    "Grilled chicken sandwich",
];

fn run(args: &[&str], input: &str, folder: &Path) -> Output {
    let mut child = Command::new(BIN)
        .args(args)
        .current_dir(folder)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program runs");
    child
        .stdin
        .take()
        .expect("a pipe")
        .write_all(input.as_bytes())
        .expect("it reads");
    child.wait_with_output().expect("it ends")
}

fn rows(args: &[&str], input: &str, folder: &Path) -> Vec<Value> {
    let out = run(args, input, folder);
    let text = String::from_utf8(out.stdout).expect("text");
    text.lines()
        .map(|line| serde_json::from_str(line).expect("JSON"))
        .collect()
}

const NDJSON: [&str; 4] = ["menu", "-", "--format", "ndjson"];

fn energy(row: &Value) -> (f64, f64) {
    let figure = |key: &str| row["energy_kcal"][key].as_f64().expect("a figure");
    (figure("likely"), figure("high") - figure("low"))
}

/// A menu as CSV, with `times` the energy told for the first dishes, nothing for the others.
fn menu(folder: &Path, times: f64) -> String {
    let plain: String = GENEROUS.map(|name| format!("{name}\n")).concat();
    let told = rows(&NDJSON, &format!("item\n{plain}"), folder);
    let mut text = "item,energy_kcal\n".to_owned();
    for (name, row) in GENEROUS.iter().zip(&told) {
        let _ = writeln!(text, "{name},{:.0}", times * energy(row).0);
    }
    for name in OTHERS {
        let _ = writeln!(text, "{name},");
    }
    text
}

#[test]
fn the_rest_of_a_menu_is_estimated_as_its_kitchen_serves() {
    let folder = tempfile::tempdir().expect("a folder");
    let folder = folder.path();
    let plain: String = OTHERS.map(|name| format!("{name}\n")).concat();
    let before = rows(&NDJSON, &format!("item\n{plain}"), folder);
    for (times, least, most) in [(1.6, 1.15, 2.0), (1.0, 0.95, 1.05), (0.6, 0.5, 0.87)] {
        let after = rows(&NDJSON, &menu(folder, times), folder);
        assert_eq!(after.len(), GENEROUS.len() + OTHERS.len());
        for (a, b) in before.iter().zip(&after[GENEROUS.len()..]) {
            let ((a, wide), (b, narrow)) = (energy(a), energy(b));
            let factor = b / a;
            assert!((least..=most).contains(&factor), "{times}: {factor}");
            assert!(
                narrow / b < wide / a,
                "the range is narrower beside what is likely"
            );
        }
    }
}

#[test]
fn nothing_is_learned_where_nothing_is_known() {
    let folder = tempfile::tempdir().expect("a folder");
    let plain: String = OTHERS.map(|name| format!("{name},\n")).concat();
    let out = run(
        &NDJSON,
        &format!("item,energy_kcal\n{plain}"),
        folder.path(),
    );
    let told = String::from_utf8(out.stderr).expect("text");
    assert!(!told.contains("kitchen"), "{told}");
    let bare = run(
        &NDJSON,
        &format!("item\n{}", plain.replace(',', "")),
        folder.path(),
    );
    assert_eq!(out.stdout, bare.stdout);
}

/// The same bytes from a file and from a pipe, whatever the number of workers, and from where an
/// earlier run stopped.
#[test]
fn every_row_is_answered_alike_whoever_answers() {
    let folder = tempfile::tempdir().expect("a folder");
    let folder = folder.path();
    let mut text = menu(folder, 1.5);
    for turn in 0..400 {
        for name in OTHERS {
            let _ = writeln!(text, "{name} {turn} oz,");
        }
    }
    fs::write(folder.join("m.csv"), &text).expect("writes");
    let pipe = run(&NDJSON, &text, folder).stdout;
    assert!(!pipe.is_empty());
    for threads in ["1", "2", "5"] {
        let args = ["menu", "m.csv", "--format", "ndjson", "--threads", threads];
        assert!(run(&args, "", folder).stdout == pipe, "{threads} workers");
    }
    let args = ["menu", "m.csv", "--format", "ndjson", "--resume", "9"];
    let rest = run(&args, "", folder).stdout;
    assert!(pipe.ends_with(&rest) && rest.len() < pipe.len());
}

#[test]
fn restaurants_of_one_menu_are_kept_apart() {
    let folder = tempfile::tempdir().expect("a folder");
    let folder = folder.path();
    let mut text = "restaurant,item,energy_kcal\n".to_owned();
    for (restaurant, times) in [("a", 1.6), ("b", 0.6)] {
        for line in menu(folder, times).lines().skip(1) {
            let _ = writeln!(text, "{restaurant},{line}");
        }
    }
    let all = rows(&NDJSON, &text, folder);
    let (a, b) = all.split_at(all.len() / 2);
    for (a, b) in a.iter().zip(b).skip(GENEROUS.len()) {
        assert!(energy(a).0 > 1.3 * energy(b).0, "{a} {b}");
    }
}

#[test]
fn a_single_audit_takes_the_kitchen_from_a_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let folder = folder.path();
    fs::write(folder.join("place.csv"), menu(folder, 1.6)).expect("writes");
    let audit = |more: &[&str]| {
        let mut args = vec!["audit", "Mushroom burger", "--format", "json"];
        args.extend(more);
        let out = run(&args, "", folder);
        let read: Value = serde_json::from_slice(&out.stdout).expect("JSON");
        read["nutrients"]["energy_kcal"].as_f64().expect("energy")
    };
    let (plain, there) = (audit(&[]), audit(&["--kitchen", "place.csv"]));
    assert!(there > 1.15 * plain, "{plain} {there}");
    // The same as the menu's own row, which rounds to whole kcal.
    let text = menu(folder, 1.6);
    let row = &rows(&NDJSON, &text, folder)[GENEROUS.len()];
    assert!((energy(row).0 - there).abs() < 2.0);

    // What a coach weighed there tells as well.
    let weighed = "item,served\nCheeseburger,420 g\nBacon burger,450 g\nBeef burrito,700 g\n";
    fs::write(folder.join("weighed.csv"), weighed).expect("writes");
    assert!(audit(&["--kitchen", "weighed.csv"]) > 1.05 * plain);
}

#[test]
fn a_file_that_tells_nothing_of_a_kitchen_is_refused() {
    let folder = tempfile::tempdir().expect("a folder");
    let folder = folder.path();
    let files = [
        ("bare.csv", "item\nCheeseburger\n", 2, "no row tells"),
        (
            "odd.csv",
            "dish,kcal\nCheeseburger,700\n",
            2,
            "no column is called `item`",
        ),
        (
            "two.csv",
            "restaurant,item,energy_kcal\na,Cheeseburger,900\nb,Cheeseburger,700\n",
            2,
            "several restaurants",
        ),
    ];
    for (name, text, code, told) in files {
        fs::write(folder.join(name), text).expect("writes");
        let out = run(&["audit", "Cheeseburger", "--kitchen", name], "", folder);
        let error = String::from_utf8(out.stderr).expect("text");
        assert_eq!(out.status.code(), Some(code), "{name}: {error}");
        assert!(error.contains(told), "{name}: {error}");
    }
    let out = run(
        &["audit", "Cheeseburger", "--kitchen", "gone.csv"],
        "",
        folder,
    );
    assert_eq!(out.status.code(), Some(3));
}

/// What is not known of the kitchen itself is known of its sort: full service serves more. `audit`
/// and `menu` say the same.
#[test]
fn how_a_restaurant_serves_tells_how_much() {
    let folder = tempfile::tempdir().expect("a folder");
    let folder = folder.path();
    let by_menu = |service: &[&str]| {
        let plain: String = OTHERS.map(|name| format!("{name}\n")).concat();
        let told = rows(
            &[&NDJSON[..], service].concat(),
            &format!("item\n{plain}"),
            folder,
        );
        told.iter().map(|row| energy(row).0).collect::<Vec<f64>>()
    };
    let nothing = by_menu(&[]);
    let table = by_menu(&["--service", "table"]);
    let counter = by_menu(&["--service", "counter"]);
    for ((plain, table), counter) in nothing.iter().zip(&table).zip(&counter) {
        assert!(table > &(1.1 * plain) && counter < plain);
    }
    let args = ["audit", OTHERS[0], "--service", "table", "--format", "json"];
    let out = run(&args, "", folder);
    let page: Value = serde_json::from_slice(&out.stdout).expect("JSON");
    let energy = &page["nutrients"]["energy_kcal"];
    let audited = energy["likely"].as_f64().or(energy.as_f64());
    let audited = audited.expect("energy");
    assert!(
        (audited / table[0] - 1.0).abs() < 0.02,
        "{audited} {table:?}"
    );
}

/// A menu with wine on it asks how the place serves, and assumes nothing.
#[test]
fn a_menu_with_wine_asks_how_the_place_serves() {
    let folder = tempfile::tempdir().expect("a folder");
    let folder = folder.path();
    let told = |wine: &str, more: &[&str]| {
        let menu = format!("item,section\n{wine}Mushroom risotto,Mains\nFish tacos,Mains\n");
        let args = [&["menu", "-", "--format", "ndjson"], more].concat();
        let out = run(&args, &menu, folder);
        let asked = String::from_utf8(out.stderr).expect("text");
        let rows = String::from_utf8(out.stdout).expect("text");
        let tacos = rows.lines().find(|row| row.contains("tacos"));
        (asked, tacos.expect("a row").to_owned())
    };
    let (asked, with_wine) = told("House red,Wine\n", &[]);
    assert!(asked.contains("--service table"), "{asked}");
    let (asked, without) = told("", &[]);
    assert!(!asked.contains("--service"), "{asked}");
    assert_eq!(with_wine, without);
    let (asked, at_tables) = told("House red,Wine\n", &["--service", "table"]);
    assert!(!asked.contains("--service"), "{asked}");
    assert_ne!(with_wine, at_tables);
}
