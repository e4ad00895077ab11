//! `trencher swap` with the real binary: before and after are what `audit` says, a proposal saves
//! what it says, what cannot be changed is told.

mod common_run;

use common_run::{NOON, run_at};
use std::process::Output;

fn run(args: &[&str]) -> Output {
    run_at(tempfile::tempdir().expect("a folder").path(), NOON, args)
}

fn json(args: &[&str]) -> serde_json::Value {
    let output = run(&[args, &["--format", "json"]].concat());
    let error = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(0), "{args:?}: {error}");
    serde_json::from_slice(&output.stdout).expect("JSON")
}

/// Likely energy of an audit, kcal.
fn energy(audit: &serde_json::Value) -> f64 {
    let limits = audit["limits"].as_array().expect("limits");
    let energy = limits.iter().find(|l| l["name"] == "energy");
    energy.expect("energy")["amount"]["likely"]
        .as_f64()
        .expect("a figure")
}

fn row<'p>(page: &'p serde_json::Value, name: &str) -> &'p serde_json::Value {
    let rows = page["rows"].as_array().expect("rows");
    rows.iter().find(|row| row["name"] == name).expect(name)
}

const BURGER: &str = "bacon cheeseburger with fries";

#[test]
fn before_and_after_are_what_audit_says() {
    let audit = json(&["audit", BURGER]);
    let components = audit["components"].as_array().expect("components");
    let fries = components
        .iter()
        .find(|c| c["text"].as_str().is_some_and(|t| t.contains("fries")));
    let fries = fries.expect("fries")["energy_kcal"]
        .as_f64()
        .expect("a figure");
    let salad = energy(&json(&["audit", "--item", "side salad"]));
    for (change, expected) in [
        ("no fries", -fries),
        ("fries=half", -fries / 2.0),
        ("fries=side salad", salad - fries),
    ] {
        let page = json(&["swap", BURGER, change]);
        let row = row(&page, "energy");
        let figure = |key: &str| row[key].as_f64().expect(key);
        let likely = row["change"]["likely"].as_f64().expect("likely");
        assert!((figure("before") - energy(&audit)).abs() < 0.01, "{change}");
        assert!(
            (likely - expected).abs() < 0.01,
            "{change}: {likely} for {expected}"
        );
        assert!(
            (figure("after") - figure("before") - likely).abs() < 0.01,
            "{change}"
        );
        let end = |key: &str| row["change"][key].as_f64().expect(key);
        assert!(end("low") < likely && likely < end("high"), "{change}");
        assert!(page["cautions"].as_array().is_some_and(|c| c.len() >= 4));
    }
}

#[test]
fn a_proposal_saves_what_it_says() {
    let mut tried = 0;
    for dish in [
        BURGER,
        "pad thai with shrimp",
        "fish and chips",
        "cobb salad",
        "nachos",
    ] {
        let page = json(&["swap", dish]);
        let proposals = page["proposals"].as_array().expect("proposals").clone();
        assert!(proposals.len() <= 3, "{dish}");
        for proposal in proposals {
            let change = proposal["change"].as_str().expect("a change");
            let said = proposal["say"].as_str().expect("words");
            assert!(
                said.starts_with("Could I have ") && said.ends_with('?'),
                "{said}"
            );
            let swapped = json(&["swap", dish, change]);
            let likely = row(&swapped, "energy")["change"]["likely"]
                .as_f64()
                .expect("likely");
            let saved = proposal["kcal_saved"].as_f64().expect("a figure");
            // A kitchen's usual amount of what comes instead may differ from the table's.
            assert!(
                (saved + likely).abs() < 60.0,
                "{dish}, {change}: {saved} and {likely}"
            );
            tried += 1;
        }
    }
    assert!(tried >= 9, "only {tried} proposals");
}

#[test]
fn what_cannot_be_changed_is_told() {
    for (args, words) in [
        (
            vec!["swap", "cobb salad", "fries=salad"],
            "nothing in the dish is called `fries`",
        ),
        (
            vec!["swap", "cobb salad", "bacon=xyzzy"],
            "no food is called `xyzzy`",
        ),
        (vec!["swap", "cobb salad", "bacon"], "is no change"),
        (vec!["swap", "zzqx"], "is called `zzqx`"),
    ] {
        let output = run(&args);
        let error = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(matches!(output.status.code(), Some(1 | 2)), "{args:?}");
        assert!(error.contains(words), "{args:?}: {error}");
        assert!(output.stdout.is_empty(), "{args:?}");
    }
}

/// What a dish holds that matters with a condition, and what is often raw (FDA Food Code 2022,
/// 3-603.11; from memory).
#[test]
fn raw_food_alcohol_and_conditions_are_named_where_they_apply() {
    let said = |item: &str| {
        let audit = json(&["audit", "--item", item]);
        let all = audit["cautions"].as_array().expect("cautions").clone();
        all.iter()
            .filter_map(|c| c.as_str())
            .collect::<Vec<_>>()
            .join(" ")
    };
    assert!(said("4 oz raw tuna").contains("May hold raw fish"));
    assert!(said("6 oz medium rare steak").contains("not cooked through"));
    assert!(said("1 sunny side up egg").contains("egg that is not set"));
    assert!(said("5 fl oz red wine").contains("nobody is advised to start"));
    assert!(said("2 cups cooked spinach").contains("warfarin"));
    assert!(said("3 cups cooked rice").contains("insulin"));
    for plain in [
        "1 hard-boiled egg",
        "1 apple",
        "3 oz grilled chicken breast",
    ] {
        let said = said(plain);
        assert!(
            !said.contains("May hold") && !said.contains("Matters with"),
            "{plain}: {said}"
        );
    }
}
