//! The real binary: what it prints, what it refuses, how it ends.

use assert_cmd::Command;
use predicates::prelude::*;
use predicates::str::contains;

fn trencher() -> Command {
    let mut command = Command::cargo_bin("trencher").expect("the binary is built");
    command
        .env("NO_COLOR", "1")
        .env("TRENCHER_HOME", std::env::temp_dir().join("trencher-none"));
    command
}

const PLATE: &str = "2 cups romaine\nchicken breast, grilled 6 oz\nranch dressing, 2 fl oz\n";

#[test]
fn the_first_three_lines_answer() {
    let output = trencher()
        .args(["audit", "beef and broccoli"])
        .output()
        .expect("runs");
    let text = String::from_utf8(output.stdout).expect("UTF-8");
    let head: Vec<&str> = text
        .split("\n\n")
        .next()
        .unwrap_or_default()
        .lines()
        .collect();
    assert_eq!(head.len(), 4, "{head:?}");
    assert!(head[0].starts_with("Beef and broccoli: 2"), "{head:?}");
    assert!(head[0].ends_with(" % of the day's energy"), "{head:?}");
    // Limits first, then the groups.
    assert!(
        head[1].starts_with("Within a day's limits (most: sodium "),
        "{head:?}"
    );
    assert!(head[1].contains("; no group reached"), "{head:?}");
    assert!(head[2].starts_with("About 5"), "{head:?}");
    assert!(head[3].starts_with("How sure: wide; foods"), "{head:?}");
    assert!(
        text.lines().all(|l| l.chars().count() <= 80),
        "wider than 80 columns"
    );
    // In full once a day on a terminal, and always on paper; one line otherwise.
    let last = text.lines().next_back().expect("a line");
    assert_eq!(
        last,
        "Estimates for learning, not for insulin doses or allergies: trencher cautions"
    );
    assert_eq!(output.status.code(), Some(0));
}

#[test]
fn the_cautions_are_said_in_full_when_asked() {
    let output = trencher().arg("cautions").output().expect("runs");
    let text = String::from_utf8(output.stdout).expect("UTF-8");
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for said in [
        "Allergens cannot be ruled out",
        "registered dietitian",
        "no basis for a dose",
        "keep leafy greens about the same",
        "up to 2 drinks a day for men and 1 for women",
        "Raw or undercooked fish",
        "a clinic sets how much to drink",
    ] {
        assert!(words.contains(said), "{said}: {text}");
    }
    assert!(text.lines().all(|l| l.chars().count() <= 80), "{text}");
}

#[test]
fn every_library_dish_is_audited_whole() {
    let list = trencher()
        .args(["dish", "list", "--format", "json"])
        .output()
        .expect("runs");
    let dishes: serde_json::Value = serde_json::from_slice(&list.stdout).expect("JSON");
    let names: Vec<&str> = dishes
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(|d| d["name"].as_str())
        .collect();
    assert!(names.len() >= 60, "{}", names.len());
    let mut command = trencher();
    command.arg("audit").args(&names).args(["--format", "csv"]);
    let output = command.output().expect("runs");
    assert_eq!(
        output.status.code(),
        Some(0),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    let text = String::from_utf8(output.stdout).expect("UTF-8");
    for line in text.lines().filter(|l| l.starts_with("component,")) {
        assert!(!line.contains(",none,"), "{line}");
    }
}

#[test]
fn json_has_the_keys_of_version_1() {
    let output = trencher()
        .args(["audit", "-", "--format", "json"])
        .write_stdin(PLATE)
        .output()
        .expect("runs");
    let page: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let keys: Vec<&str> = page
        .as_object()
        .expect("an object")
        .keys()
        .map(String::as_str)
        .collect();
    let mut wanted = vec![
        "version",
        "dish",
        "served_grams",
        "components",
        "groups",
        "limits",
        "over",
        "answer",
        "not_plausible",
        "main_unknown",
        "read",
        "choices",
        "add_ons",
        "allergens",
        "nutrients",
        "energy_nutrients",
        "unmatched",
        "notes",
        "cautions",
    ];
    wanted.sort_unstable();
    let mut sorted = keys.clone();
    sorted.sort_unstable();
    assert_eq!(sorted, wanted);
    assert_eq!(page["version"], 1);
    assert!(page["dish"].is_null());
    let component = &page["components"][1];
    for key in [
        "text",
        "food",
        "food_id",
        "source",
        "certainty",
        "alternatives",
        "grams",
        "basis",
        "free",
        "groups",
        "energy_kcal",
    ] {
        assert!(component.get(key).is_some(), "{key}");
    }
    assert_eq!(component["basis"], "weighed");
    assert!((component["grams"]["likely"].as_f64().unwrap_or(0.0) - 170.097).abs() < 0.01);
    let groups: Vec<&str> = page["groups"]
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(|g| g["group"].as_str())
        .collect();
    assert_eq!(
        groups,
        [
            "fruits",
            "vegetables",
            "pulses",
            "grains",
            "protein_foods",
            "dairy",
            "oils"
        ]
    );
    assert!(
        page["limits"][4]["allowance"].is_null(),
        "no figure is null, never 0"
    );
}

#[test]
fn what_cannot_be_used_is_said_with_its_place() {
    trencher()
        .args(["audit", "-"])
        .write_stdin("2 cups romaine\n-3 g ham\n3 bushels spinach\n5 g xqzzy\n")
        .assert()
        .code(1)
        .stderr(
            contains("standard input:2:1")
                .and(contains("unknown unit `bushels`"))
                .and(contains("standard input:3:3")),
        )
        .stdout(contains("not counted, no such food: 5 g xqzzy"));
}

#[test]
fn bad_input_ends_with_its_code_and_a_reason() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = |name: &str| folder.path().join(name);
    std::fs::write(path("wrong.toml"), "name = \"x\"\nkindd = \"soup\"\n").expect("written");
    std::fs::write(path("bytes.txt"), b"120 g rice\n\xff\xfe\n").expect("written");
    std::fs::write(path("empty.txt"), "").expect("written");
    let arg = |name: &str| path(name).display().to_string();
    let cases = [
        (vec!["audit".to_owned()], 2, "no dish was named"),
        (
            vec!["audit".to_owned(), arg("missing.txt")],
            3,
            "cannot read",
        ),
        (
            vec!["audit".to_owned(), folder.path().display().to_string()],
            3,
            "is a folder",
        ),
        (vec!["audit".to_owned(), arg("bytes.txt")], 3, "not UTF-8"),
        (
            vec!["audit".to_owned(), arg("empty.txt")],
            2,
            "no component",
        ),
        (vec!["audit".to_owned(), arg("wrong.toml")], 2, "kindd"),
        (
            vec![
                "audit".to_owned(),
                "--item".to_owned(),
                "30 tonnes lettuce".to_owned(),
            ],
            1,
            "no weight",
        ),
        (
            vec![
                "audit".to_owned(),
                "--item".to_owned(),
                "1 egg".to_owned(),
                "--energy".to_owned(),
                "400".to_owned(),
            ],
            2,
            "clinician",
        ),
        (
            vec![
                "audit".to_owned(),
                "--item".to_owned(),
                "1 egg".to_owned(),
                "--standard".to_owned(),
                "none".to_owned(),
            ],
            2,
            "no standard",
        ),
        (
            vec!["food".to_owned(), "rank".to_owned(), "sweets".to_owned()],
            2,
            "no food group",
        ),
        (vec!["frobnicate".to_owned()], 2, "unrecognized subcommand"),
    ];
    for (args, code, reason) in cases {
        trencher()
            .args(&args)
            .assert()
            .code(code)
            .stderr(contains(reason).and(contains("panicked").not()));
    }
    trencher()
        .args(["audit", "zzqq zzxx"])
        .assert()
        .code(1)
        .stdout(contains("main dish unknown: `zzqq zzxx`"));
}

#[test]
fn hostile_text_neither_panics_nor_reaches_the_terminal() {
    let long = format!("120 g {}\n", "a".repeat(1 << 20));
    let hostile = [
        "\u{1b}[31m2 cups rice\n",
        "2 cups \u{202e}ecir\n",
        "\0\0\0\n",
        "((((((\n",
        "1/0 cup rice\n",
        &long,
    ];
    for text in hostile {
        let output = trencher()
            .args(["audit", "-"])
            .write_stdin(text.to_owned())
            .output()
            .expect("runs");
        let shown = String::from_utf8_lossy(&output.stdout).into_owned()
            + &String::from_utf8_lossy(&output.stderr);
        assert!(!shown.contains("panicked"), "{shown}");
        assert!(
            !shown.contains('\u{1b}') && !shown.contains('\u{202e}'),
            "{shown:?}"
        );
        assert!(
            matches!(output.status.code(), Some(0..=2)),
            "{:?}",
            output.status
        );
    }
}

#[test]
fn a_new_dish_is_written_whole_and_never_over_another() {
    let folder = tempfile::tempdir().expect("a folder");
    let into = folder.path().display().to_string();
    let args = [
        "dish",
        "new",
        "Harbour bowl",
        "--kind",
        "grain bowl",
        "--into",
        &into,
    ];
    trencher().args(args).write_stdin(PLATE).assert().code(0);
    let file = folder.path().join("harbour-bowl.toml");
    let before = std::fs::read_to_string(&file).expect("written");
    trencher()
        .args(args)
        .write_stdin("120 g rice\n")
        .assert()
        .code(3)
        .stderr(contains("exists already"));
    assert_eq!(std::fs::read_to_string(&file).expect("still there"), before);
    trencher()
        .args(["dish", "check", &file.display().to_string()])
        .assert()
        .code(0);
    trencher()
        .args(["audit", &file.display().to_string()])
        .assert()
        .code(0)
        .stdout(contains("Harbour bowl"));
}

#[test]
fn an_energy_between_levels_takes_the_nearer_one() {
    trencher()
        .args([
            "audit",
            "--item",
            "1 cup rice",
            "--energy",
            "2350",
            "--format",
            "json",
        ])
        .assert()
        .code(0)
        .stdout(contains(
            "the 2,400 kcal level, which is the nearest; limits against 2,350 kcal",
        ));
}

#[test]
fn pulses_count_once_where_they_are_asked_to() {
    let share = |as_what: &str| -> (f64, f64) {
        let output = trencher()
            .args([
                "audit",
                "--item",
                "170 g black beans",
                "--format",
                "json",
                "--pulses",
                as_what,
            ])
            .output()
            .expect("runs");
        let page: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
        let of = |at: usize| page["groups"][at]["portions"].as_f64().unwrap_or(f64::NAN);
        (of(1), of(4))
    };
    let (vegetables, protein) = share("vegetables");
    assert!(vegetables > 0.5 && protein < 0.01, "{vegetables} {protein}");
    let (vegetables, protein) = share("protein");
    assert!(vegetables < 0.01 && protein > 2.0, "{vegetables} {protein}");
}

#[test]
fn food_commands_answer() {
    trencher()
        .args(["food", "find", "rocket"])
        .assert()
        .code(0)
        .stdout(contains("arugula, raw"));
    trencher()
        .args(["food", "show", "72116000"])
        .assert()
        .code(0)
        .stdout(contains("romaine"));
    trencher()
        .args(["food", "rank", "vegetables", "--top", "5"])
        .assert()
        .code(0)
        .stdout(contains("nrf9.3"));
    trencher()
        .args(["food", "equal", "2 corn tortillas"])
        .assert()
        .code(0)
        .stdout(contains("oz-eq of grains"));
    trencher()
        .args(["standard", "show", "dash"])
        .assert()
        .code(0)
        .stdout(contains("DASH"));
    trencher()
        .args(["completions", "bash"])
        .assert()
        .code(0)
        .stdout(contains("trencher"));
    trencher()
        .arg("man")
        .assert()
        .code(0)
        .stdout(contains(".TH"));
}

#[test]
fn the_demo_data_is_read() {
    let plate = concat!(env!("CARGO_MANIFEST_DIR"), "/demo-data/plate.txt");
    trencher()
        .args(["audit", plate, "--why"])
        .assert()
        .code(predicate::in_iter([0, 1]))
        .stdout(contains("Where the figures come from"));
}

/// 170 g of raw broccoli is 1.1 cup-eq; DASH at 2,000 kcal allows 5 vegetable servings of half
/// a cup and 5 weekly ones of pulses: plate and day must be in one unit.
#[test]
fn plate_and_day_are_shown_in_one_unit() {
    trencher()
        .args(["audit", "--item", "170 g broccoli", "--standard", "dash"])
        .assert()
        .code(0)
        .stdout(
            predicate::str::is_match(r"(?m)^vegetables +1\.1 cup-eq .* 2\.9 +39 %")
                .expect("a pattern"),
        );
}

#[test]
fn pulses_are_never_marked_beyond_and_say_where_they_count() {
    let output = trencher()
        .args(["audit", "--item", "170 g black beans"])
        .output()
        .expect("runs");
    let text = String::from_utf8(output.stdout).expect("UTF-8");
    let row = text
        .lines()
        .find(|l| l.starts_with("beans, peas, lentils"))
        .expect("a row");
    assert!(!row.contains("beyond"), "{row}");
    assert!(
        text.contains("beans, peas and lentils count with vegetables"),
        "{text}"
    );
}

#[test]
fn counts_and_slashes_in_a_line_are_heeded() {
    let grams = |line: &str| -> f64 {
        let out = trencher()
            .args(["audit", line, "--format", "json"])
            .output()
            .unwrap();
        assert!(out.status.success(), "{line}: {out:?}");
        let value: serde_json::Value = serde_json::from_slice(&out.stdout).unwrap();
        value["served_grams"]["likely"].as_f64().unwrap()
    };
    // FNDDS 71401031: one fry is 5 g, and ten are no serving of the library.
    assert!((grams("10 french fries") - 50.0).abs() < 1.0);
    assert!((grams("1/2 club sandwich") / grams("club sandwich") - 0.5).abs() < 0.02);
    // Restaurants print little more for a burger with a side than for one alone, and the
    // estimate follows them.
    assert!(grams("burger w/ fries") > grams("burger") + 25.0);
}

#[test]
fn bars_stand_beside_shares_only_where_asked_or_on_a_wide_terminal() {
    let ran = |args: &[&str]| {
        let output = trencher().args(args).output().expect("runs");
        String::from_utf8(output.stdout).expect("UTF-8")
    };
    let plain = ran(&["audit", "fish-and-chips"]);
    assert!(!plain.contains('#'), "{plain}");
    assert_eq!(plain, ran(&["audit", "fish-and-chips", "--bars", "never"]));
    let barred = ran(&["audit", "fish-and-chips", "--bars", "always"]);
    let day = barred.lines().find(|line| line.ends_with("a day|"));
    let day = day.expect("a heading").chars().count();
    // Everything else stands as it did, and what is beyond a day goes past its mark.
    for (with, without) in barred.lines().zip(plain.lines()) {
        assert!(with.starts_with(without), "{with}\n{without}");
        if without.contains(" reached") && without.starts_with("oils") {
            assert!(with.chars().count() > day, "{with}");
        }
    }
    assert!(barred.lines().all(|l| l.chars().count() <= 100), "{barred}");
}
