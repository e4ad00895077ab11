//! `trencher fit` from outside.

use assert_cmd::Command;
use predicates::prelude::*;
use serde_json::Value;

fn fit(args: &[&str]) -> assert_cmd::assert::Assert {
    let mut command = Command::cargo_bin("trencher").expect("the binary is built");
    command.env("NO_COLOR", "1").arg("fit").args(args).assert()
}

fn out(args: &[&str]) -> String {
    let output = fit(args).success().get_output().stdout.clone();
    String::from_utf8(output).expect("UTF-8")
}

fn json(args: &[&str]) -> Value {
    let mut all = args.to_vec();
    all.extend(["--format", "json"]);
    serde_json::from_str(&out(&all)).expect("one JSON object")
}

#[test]
fn the_first_three_lines_are_the_answer() {
    let text = out(&[
        "chicken-burrito-bowl",
        "--meal",
        "lunch",
        "--energy",
        "2000",
    ]);
    let lines: Vec<&str> = text.lines().take(3).collect();
    assert!(
        lines[0].starts_with("Chicken burrito bowl: eat about "),
        "{text}"
    );
    assert!(
        lines[0].contains(" g (") && lines[0].contains(" %, by energy "),
        "{text}"
    );
    assert!(
        lines[1].contains("of 600 kcal for lunch (30 % of 2,000)"),
        "{text}"
    );
    assert!(lines[2].starts_with("How sure: as served ") && lines[2].contains("80 % range"));
    assert!(text.lines().all(|line| line.chars().count() < 80), "{text}");
    for part in [
        "component",
        "box",
        "allowed",
        "Ask the kitchen",
        "romaine lettuce",
    ] {
        assert!(text.contains(part), "no {part} in {text}");
    }
}

#[test]
fn twelve_components_stay_within_eighty_columns_and_the_same_every_time() {
    let items = [
        "2 cups romaine",
        "5 oz grilled chicken breast",
        "3 slices bacon",
        "1 hard boiled egg",
        "1/2 avocado",
        "1 tomato",
        "1 oz blue cheese",
        "2 fl oz ranch dressing",
        "1 cup black beans",
        "1 cup corn",
        "1 oz tortilla chips",
        "1 dinner roll",
    ];
    let mut args = Vec::new();
    for item in &items {
        args.extend(["--item", item]);
    }
    args.push("--why");
    let text = out(&args);
    assert!(text.lines().all(|line| line.chars().count() < 80), "{text}");
    assert_eq!(text, out(&args));
    for word in [
        "romaine",
        "bacon",
        "avocado",
        "tortilla chips",
        "dinner roll",
        "Held: energy",
    ] {
        assert!(text.contains(word), "no {word} in {text}");
    }
    let page = json(&args);
    assert_eq!(page["components"].as_array().map(Vec::len), Some(12));
    // Vegetables are kept first.
    let kept = |at: usize| {
        let of = |key: &str| page["components"][at][key].as_f64().expect("grams");
        of("eat_grams") / of("served_grams")
    };
    let (lettuce, dressing) = (kept(0), kept(7));
    assert!(lettuce > 0.8 && dressing < 0.5, "{lettuce} {dressing}");
}

#[test]
fn nothing_held_is_passed_and_the_sums_agree() {
    for dish in [
        "ribeye-steak-with-fries",
        "nachos-with-beef-and-beans",
        "brownie-sundae",
    ] {
        let page = json(&[dish, "--share", "1/3"]);
        assert_eq!(page["outcome"], "reduced", "{dish}");
        for row in page["amounts"].as_array().expect("rows") {
            let (Some(eaten), Some(most)) = (row["eaten"].as_f64(), row["most"].as_f64()) else {
                continue;
            };
            assert!(
                row["beyond"] == true || eaten <= most * 1.0001 + 0.001,
                "{dish}: {row}"
            );
        }
        let sum = |key: &str| -> f64 {
            let all = page["components"].as_array().expect("components").iter();
            all.map(|c| c[key].as_f64().expect(key)).sum()
        };
        let eaten = page["eat"]["grams"]["likely"].as_f64().expect("grams");
        assert!((sum("eat_grams") - eaten).abs() < 0.1, "{dish}");
        assert!((sum("eat_grams") + sum("box_grams") - sum("served_grams")).abs() < 0.1);
        let kcal = page["eat"]["energy_kcal"]["likely"].as_f64().expect("kcal");
        assert!((sum("energy_kcal") - kcal).abs() < 0.5 && kcal <= 666.7);
    }
}

#[test]
fn strict_holds_everything_to_the_meal() {
    let page = json(&["chicken-caesar-salad", "--strict"]);
    let rows = page["amounts"].as_array().expect("rows");
    let sodium = rows.iter().find(|r| r["name"] == "sodium").expect("sodium");
    assert_eq!(sodium["of"], "this meal");
    assert!(sodium["eaten"].as_f64() <= sodium["most"].as_f64());
    let usual = json(&["chicken-caesar-salad"]);
    assert!(page["kept"]["by_energy"].as_f64() < usual["kept"]["by_energy"].as_f64());
}

#[test]
fn what_fits_is_eaten_as_served() {
    let page = json(&["caesar-side-salad"]);
    assert_eq!(page["outcome"], "whole");
    assert_eq!(page["kept"]["by_weight"], 1.0);
    assert_eq!(page["asks"], serde_json::json!([]));
    let text = out(&["caesar-side-salad"]);
    assert!(text.contains("eat all of it") && text.contains("This is not the whole of this meal"));
}

#[test]
fn what_cannot_fit_is_explained_in_words() {
    let args = ["--item", "1 bagel", "--energy", "60"];
    let text = out(&args);
    assert!(text.contains("nothing of it fits this plate"), "{text}");
    assert!(
        text.contains("No bagel: ") && text.contains("of grains, this plate allows"),
        "{text}"
    );
    let page = json(&args);
    assert_eq!(page["outcome"], "nothing");
    assert!(page["eat"].is_null() && page["kept"].is_null());
    assert_eq!(page["remarks"].as_array().map(Vec::len), Some(1));
    let text = out(&["two-slices-of-pepperoni-pizza"]);
    assert!(
        text.contains("alone holds more grains than this meal allows"),
        "{text}"
    );
}

#[test]
fn energy_is_the_plates_below_a_thousand_and_a_days_from_the_floor() {
    let page = json(&["french-fries", "--energy", "300"]);
    assert_eq!(page["against"]["energy_kcal"], 300.0);
    assert_eq!(page["against"]["of"], "this plate");
    assert_eq!(page["against"]["day_energy_kcal"], 2000.0);
    let page = json(&["french-fries", "--energy", "1800", "--share", "30%"]);
    assert_eq!(page["against"]["energy_kcal"], 540.0);
    for (args, words) in [
        (&["--energy", "1100"][..], "1,200"),
        (&["--energy", "600", "--meal", "lunch"], "no day's energy"),
        (&["--energy", "20"], "too little for a plate"),
        (&["--energy", "-5"], ""),
        (&["--energy", "9000"], "6000"),
    ] {
        let mut all = vec!["french-fries"];
        all.extend(args);
        fit(&all).code(2).stderr(predicate::str::contains(words));
    }
}

#[test]
fn wrong_shares_and_meals_are_refused() {
    for share in ["3/2", "x", "0", "-1/3", "1/0", "101%", "", "nan", "1/"] {
        fit(&["french-fries", "--share", share]).code(2);
    }
    fit(&["french-fries", "--meal", "brunch"])
        .code(2)
        .stderr(predicate::str::contains("breakfast, lunch, dinner, snack"));
    fit(&["french-fries", "--meal", "lunch", "--share", "1/3"]).code(2);
    fit(&["french-fries", "--left"])
        .code(2)
        .stderr(predicate::str::contains("--diner"));
    fit(&["--share", "1/3"])
        .code(2)
        .stderr(predicate::str::contains("no dish was named"));
}

#[test]
fn what_is_left_of_a_diners_day_is_held_against() {
    let home = tempfile::tempdir().expect("a folder");
    let run = |args: &[&str]| {
        let mut command = Command::cargo_bin("trencher").expect("the binary is built");
        let command = command
            .env("NO_COLOR", "1")
            .env(
                "TRENCHER_NOW",
                "2026-05-20T12:30:00-04:00[America/New_York]",
            )
            .env("TRENCHER_HOME", home.path());
        command
            .args(args)
            .assert()
            .success()
            .get_output()
            .stdout
            .clone()
    };
    run(&["diner", "add", "Lee", "--energy", "2000"]);
    let args = [
        "fit",
        "chicken-fajitas",
        "--diner",
        "Lee",
        "--format",
        "json",
    ];
    let page = |more: &[&str]| -> Value {
        let mut all = args.to_vec();
        all.extend(more);
        serde_json::from_slice(&run(&all)).expect("JSON")
    };
    let left = page(&["--left"]);
    assert_eq!(left["against"]["of"], "what is left of today");
    assert_eq!(left["against"]["energy_kcal"], 2000.0);
    assert!(left["against"]["share"].is_null());
    // The diner's own plan: three meals of 30 % and a snack.
    let lunch = page(&["--meal", "lunch"]);
    assert_eq!(lunch["against"]["energy_kcal"], 600.0);
    assert!(lunch["kept"]["by_energy"].as_f64() < left["kept"]["by_energy"].as_f64());
    assert_eq!(lunch["against"]["share"], 0.3);
    // What is logged for a meal leaves less of it, and of no other.
    let soup = ["day", "eat", "--item", "200 g tofu", "--meal", "lunch"];
    run(&soup);
    let eaten = 600.0
        - page(&["--meal", "lunch"])["against"]["energy_kcal"]
            .as_f64()
            .expect("kcal");
    let after = page(&["--left"])["against"]["energy_kcal"]
        .as_f64()
        .expect("kcal");
    assert!(
        eaten > 100.0 && (2000.0 - after - eaten).abs() < 1.0,
        "{eaten} {after}"
    );
    let lunch = page(&["--meal", "lunch"]);
    assert_eq!(lunch["against"]["of"], "what is left of lunch");
    assert!(lunch["against"]["share"].is_null());
    assert!(
        lunch["notes"].to_string().contains("1 entry of "),
        "{}",
        lunch["notes"]
    );
    let dinner = page(&["--meal", "dinner"]);
    assert_eq!(dinner["against"]["energy_kcal"], 600.0);
    assert_eq!(dinner["against"]["share"], 0.3);
    // A meal that is used up, and a day.
    run(&[
        "day",
        "eat",
        "--item",
        "600 g french fries",
        "--meal",
        "lunch",
    ]);
    let text = String::from_utf8(run(&[
        "fit",
        "cobb-salad",
        "--diner",
        "Lee",
        "--meal",
        "lunch",
    ]));
    assert!(text.expect("UTF-8").contains("no energy is left of lunch"));
    let dinner = page(&["--meal", "dinner"]);
    assert_eq!(dinner["against"]["of"], "what is left of today");
    assert!(dinner["against"]["energy_kcal"].as_f64() < Some(600.0));
}

#[test]
fn what_cannot_be_used_is_listed() {
    let output = fit(&["--item", "1 cup rice", "--item", "2 cups zzqxv"]).code(1);
    let text = String::from_utf8_lossy(&output.get_output().stdout).into_owned();
    assert!(
        text.contains("not on the plate that was fitted") && text.contains("zzqxv"),
        "{text}"
    );
}

#[test]
fn the_keys_of_json_are_stable() {
    let page = json(&["bacon-cheeseburger-with-fries"]);
    let keys = |value: &Value| -> Vec<String> {
        value
            .as_object()
            .map_or(Vec::new(), |o| o.keys().cloned().collect())
    };
    let sorted = |mut keys: Vec<String>| {
        keys.sort();
        keys.join(" ")
    };
    assert_eq!(
        sorted(keys(&page)),
        "against amounts asks cautions components decided_by dish distance eat gap kept left_out \
         notes outcome remarks served swaps version"
    );
    assert_eq!(page["version"], 1);
    assert_eq!(
        sorted(keys(&page["components"][0])),
        "box box_grams boxable eat eat_grams energy_kcal held_by made_of name served_grams"
    );
    assert_eq!(
        sorted(keys(&page["amounts"][0])),
        "beyond decides eaten most name of served unit"
    );
    assert_eq!(
        sorted(keys(&page["asks"][0])),
        "amount component helps kcal_saved text what with"
    );
    assert_eq!(
        sorted(keys(&page["against"])),
        "day_energy_kcal energy_kcal of share standard"
    );
}

#[test]
fn csv_has_a_row_for_everything() {
    let text = out(&["bacon-cheeseburger-with-fries", "--format", "csv"]);
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let rows: Vec<csv::StringRecord> = reader.records().map(|r| r.expect("a row")).collect();
    for kind in ["component", "amount", "ask"] {
        assert!(rows.iter().any(|r| &r[0] == kind), "no {kind} in {text}");
    }
}
