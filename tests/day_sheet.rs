//! A day to tick off: its boxes are the person's allowances, whatever the standard, the paper
//! and the columns. (One printed page each, nothing cut off: `tests/browser`.)
#![cfg(unix)]

use assert_cmd::Command;
use serde_json::Value;
use std::path::Path;

/// Oils stand on the sheet by the teaspoon, g.
const TEASPOON_G: f64 = 4.5;

/// Name, how they are added: the three energies and standards that sheets are judged by.
const DINERS: [(&str, &[&str]); 3] = [
    (
        "Ida",
        &[
            "--sex",
            "female",
            "--age",
            "70",
            "--height",
            "160 cm",
            "--weight",
            "58 kg",
            "--activity",
            "inactive",
            "--energy",
            "1600",
        ],
    ),
    (
        "Vera",
        &[
            "--sex",
            "female",
            "--age",
            "40",
            "--height",
            "170 cm",
            "--weight",
            "66 kg",
            "--activity",
            "low active",
            "--energy",
            "2200",
            "--standard",
            "vegetarian",
            "--protein",
            "1.2 g/kg",
        ],
    ),
    (
        "Dan",
        &[
            "--sex",
            "male",
            "--age",
            "28",
            "--height",
            "185 cm",
            "--weight",
            "80 kg",
            "--activity",
            "active",
            "--energy",
            "3000",
            "--standard",
            "dash",
        ],
    ),
];

fn run(home: &Path, args: &[&str]) -> String {
    let output = Command::cargo_bin("trencher")
        .expect("the program")
        .args(args)
        .env("TRENCHER_HOME", home)
        .env("TRENCHER_NOW", "2026-03-02T12:30:00+00:00[UTC]")
        .env("NO_COLOR", "1")
        .output()
        .expect("runs");
    let error = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(output.status.success(), "{args:?}: {error}");
    String::from_utf8(output.stdout).expect("UTF-8")
}

fn with_diners() -> tempfile::TempDir {
    let home = tempfile::tempdir().expect("a folder");
    for (name, details) in DINERS {
        let args: Vec<&str> = ["diner", "add", name]
            .into_iter()
            .chain(details.iter().copied())
            .collect();
        run(home.path(), &args);
    }
    home
}

/// Portions a day of the groups on the sheet, by their label.
fn allowances(home: &Path, name: &str) -> Vec<(String, f64)> {
    let shown = run(home, &["diner", "show", name, "--format", "json"]);
    let page: Value = serde_json::from_str(&shown).expect("JSON");
    let rows = page["allowances"].as_array().expect("allowances").iter();
    let groups = rows.filter(|row| row["is_group"] == true && row["key"] != "pulses");
    groups
        .map(|row| {
            let key = row["key"].as_str().expect("a key");
            let portion = match key {
                "oils" => TEASPOON_G,
                _ => row["portion"].as_f64().expect("a portion"),
            };
            let amount = row["amount"].as_f64().expect("an amount");
            (key.replace('_', " "), amount / portion)
        })
        .collect()
}

/// Rows of the page's boxes: the group, and what the boxes of each column come to.
fn boxes(page: &str) -> Vec<(String, Vec<f64>)> {
    let table = page
        .split("<tbody>")
        .nth(1)
        .and_then(|t| t.split("</tbody>").next());
    let rows = table.expect("a table").split("<tr>").skip(1);
    let quarters = |cell: &str| -> f64 {
        let marks = cell.split("data-quarters=\"").skip(1);
        marks
            .map(|mark| f64::from(u32::from(mark.as_bytes()[0] - b'0')))
            .sum::<f64>()
            / 4.0
    };
    rows.map(|row| {
        let name = row
            .split("<th scope=\"row\">")
            .nth(1)
            .and_then(|t| t.split('<').next());
        let cells = row.split("<td>").skip(1).map(quarters).collect();
        (name.expect("a name").to_lowercase(), cells)
    })
    .collect()
}

#[test]
fn boxes_are_the_allowances_of_three_diners() {
    let home = with_diners();
    for (name, _) in DINERS {
        let allowed = allowances(home.path(), name);
        assert_eq!(allowed.len(), 6);
        for (columns, options) in [(1, &[][..]), (4, &["--by-meal"]), (7, &["--week"])] {
            let mut args = vec![
                "handout", "--day", "--for", name, "--format", "html", "-o", "-",
            ];
            args.extend(options);
            let rows = boxes(&run(home.path(), &args));
            assert_eq!(rows.len(), 7, "six groups and water");
            for (group, portions) in &allowed {
                let (_, cells) = rows.iter().find(|(row, _)| row == group).expect(group);
                assert_eq!(cells.len(), columns, "{name}, {group}");
                let days = if columns == 7 { 7.0 } else { 1.0 };
                let sum: f64 = cells.iter().sum::<f64>() / days;
                assert!(
                    (sum - portions).abs() <= 0.1251,
                    "{name}, {group}: {sum} of {portions}"
                );
            }
        }
    }
}

#[test]
fn no_food_stands_on_a_sheet_that_the_standard_leaves_out() {
    let home = with_diners();
    let sheet = |name: &str| {
        run(
            home.path(),
            &[
                "handout", "--day", "--for", name, "--format", "text", "-o", "-",
            ],
        )
    };
    let (vegetarian, all) = (sheet("Vera"), sheet("Ida"));
    for food in [
        "salmon",
        "tuna",
        "shrimp",
        "chicken",
        "turkey",
        "pork",
        "slice ham",
        "bacon",
    ] {
        let foods = vegetarian.split("Free foods").next().unwrap_or_default();
        assert!(!foods.contains(food), "{food}: {vegetarian}");
    }
    assert!(all.contains("tuna") && all.contains("slice ham"), "{all}");
    assert!(vegetarian.contains("Protein: 79 g or more"), "{vegetarian}");
    for text in [&vegetarian, &all] {
        assert!(text.lines().all(|line| line.chars().count() < 80), "{text}");
        for words in ["see a clinician", "insulin", "Free foods", "Flavour it"] {
            assert!(text.contains(words), "{words}");
        }
    }
}

#[test]
fn a_sheet_is_a_page_or_text_and_takes_no_dish() {
    let home = tempfile::tempdir().expect("a folder");
    let page = run(
        home.path(),
        &[
            "handout", "--day", "--energy", "2000", "--paper", "letter", "--format", "html", "-o",
            "-",
        ],
    );
    assert!(page.contains("A day of 2,000 kcal") && page.contains("size: letter"));
    for args in [
        &["handout", "--day", "-o", "x.svg"][..],
        &["handout", "--day", "cobb salad", "-o", "-"],
        &["handout", "--week", "cobb salad", "-o", "-"],
        &["handout", "cobb salad", "-o", "x.txt"],
        &["handout", "--day", "--energy", "900", "-o", "-"],
    ] {
        let mut command = Command::cargo_bin("trencher").expect("the program");
        let status = command
            .args(args)
            .env("TRENCHER_HOME", home.path())
            .output()
            .expect("runs")
            .status;
        assert_eq!(status.code(), Some(2), "{args:?}");
    }
}
