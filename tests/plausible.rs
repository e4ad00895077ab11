//! What can hardly be so is said before anything else, and asked about before it is logged.

mod common_run;

use common_run::{NOON, run_at};
use std::process::Output;
use tempfile::TempDir;

fn run(home: &TempDir, args: &[&str]) -> Output {
    run_at(home.path(), NOON, args)
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

/// A plate of eight kilograms, and one whose main dish nobody knows.
const DOUBTED: [(&str, &str); 2] = [
    ("8 kg lasagna", "Not plausible:"),
    ("Zorblatt supreme with fries", "main dish unknown"),
];

#[test]
fn audit_says_it_first_and_ends_with_one() {
    let home = tempfile::tempdir().expect("a folder");
    for (dish, said) in DOUBTED {
        let output = run(&home, &["audit", dish]);
        assert_eq!(output.status.code(), Some(1), "{dish}");
        let page = text(&output.stdout);
        assert!(page.starts_with(said), "{dish}: {page}");
        let json = run(&home, &["audit", dish, "--format", "json"]);
        let value: serde_json::Value = serde_json::from_slice(&json.stdout).expect("JSON");
        let list = value["not_plausible"].as_array().expect("a list");
        assert!(!list.is_empty(), "{dish}");
    }
    let plain = run(&home, &["audit", "lasagna"]);
    assert_eq!(plain.status.code(), Some(0));
    assert!(!text(&plain.stdout).contains("ot plausible"));
}

#[test]
fn a_log_wants_a_yes_where_nobody_can_be_asked() {
    let home = tempfile::tempdir().expect("a folder");
    let added = run(&home, &["diner", "add", "Ana", "--energy", "2000"]);
    assert_eq!(added.status.code(), Some(0), "{}", text(&added.stderr));
    for (dish, _) in DOUBTED {
        let refused = run(&home, &["day", "eat", dish, "--diner", "Ana"]);
        assert_eq!(refused.status.code(), Some(1), "{dish}");
        let told = text(&refused.stderr);
        assert!(
            told.contains("not plausible") && told.contains("--yes"),
            "{told}"
        );
    }
    let kept = run(
        &home,
        &["day", "eat", DOUBTED[0].0, "--diner", "Ana", "--yes"],
    );
    assert_eq!(kept.status.code(), Some(0), "{}", text(&kept.stderr));
}

#[test]
fn a_menu_says_it_in_the_row() {
    let home = tempfile::tempdir().expect("a folder");
    let menu = home.path().join("menu.csv");
    std::fs::write(
        &menu,
        "item\n8 kg lasagna\nlasagna\nZorblatt supreme with fries\n",
    )
    .expect("written");
    let path = menu.to_str().expect("a path");
    let output = run(&home, &["menu", path, "--format", "ndjson"]);
    // The dish that nobody knows can not be used; its place and reason are told.
    assert_eq!(output.status.code(), Some(1));
    assert!(text(&output.stderr).contains("main dish unknown"));
    let rows: Vec<serde_json::Value> = text(&output.stdout)
        .lines()
        .map(|line| serde_json::from_str(line).expect("a row"))
        .collect();
    let doubts = |at: usize| rows[at]["not_plausible"].as_array().map_or(0, Vec::len);
    assert!(doubts(0) > 0);
    assert_eq!(doubts(1), 0);
}
