//! `food equal` for everyday foods, judged row by row as a person at a kitchen table would:
//! `tests/data/food_equal.csv` holds what is offered and the judgement of it.
#![cfg(unix)]

use assert_cmd::Command;
use serde_json::Value;

#[test]
fn what_is_offered_is_what_was_judged() {
    let home = tempfile::tempdir().expect("a folder");
    let mut reader = csv::Reader::from_path("tests/data/food_equal.csv").expect("the table");
    let mut rows = 0;
    for row in reader.records() {
        let row = row.expect("a row");
        let output = Command::cargo_bin("trencher")
            .expect("the program")
            .args(["food", "equal", &row[0], "--format", "json"])
            .env("TRENCHER_HOME", home.path())
            .output()
            .expect("runs");
        let offered: Vec<Value> = serde_json::from_slice(&output.stdout).expect("JSON");
        let words = |food: &Value| {
            let cell = |key: &str| food[key].as_str().unwrap_or_default().to_owned();
            format!("{} {}", cell("food"), cell("about"))
        };
        let words: Vec<String> = offered.iter().map(words).collect();
        assert!((1..=10).contains(&words.len()), "{}", &row[0]);
        assert_eq!(words.join("; "), &row[1], "{}", &row[0]);
        assert!(row[2].starts_with("sensible"), "{}: {}", &row[0], &row[2]);
        rows += 1;
    }
    assert!(rows >= 30, "{rows} foods");
}

#[test]
fn what_has_no_like_says_so() {
    let home = tempfile::tempdir().expect("a folder");
    for (component, words) in [
        ("1 cheeseburger", "dish of several food groups"),
        ("1 cup black coffee", "nothing is like it"),
        ("salmon", "no amount that can be weighed"),
    ] {
        let mut command = Command::cargo_bin("trencher").expect("the program");
        let output = command
            .args(["food", "equal", component])
            .env("TRENCHER_HOME", home.path())
            .output()
            .expect("runs");
        let told = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(2), "{component}: {told}");
        assert!(told.contains(words), "{component}: {told}");
    }
}
