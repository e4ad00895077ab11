//! Dishes of the library and of files that offer a choice or something on top: every command honours
//! `--choose` and `--with` as it does for lines of a menu.

mod common_run;

use common_run::{NOON, run_at};
use std::process::Output;
use tempfile::TempDir;

const BREAKFAST: &str = "Two-egg breakfast with a choice of meat";
const BOWL: &str = "Chicken burrito bowl";
const SIDES: &str = "Grilled chicken breast with a choice of two sides";

fn run(home: &TempDir, args: &[&str]) -> Output {
    run_at(home.path(), NOON, args)
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

fn json(home: &TempDir, args: &[&str]) -> serde_json::Value {
    let output = run(home, &[args, &["--format", "json"]].concat());
    serde_json::from_slice(&output.stdout).unwrap_or_else(|e| {
        panic!("{args:?}: {e}: {}", text(&output.stderr));
    })
}

/// Likely grams of each component whose food holds a word.
fn grams(audit: &serde_json::Value, word: &str) -> Vec<f64> {
    let list = audit["components"].as_array().expect("components");
    let named = list
        .iter()
        .filter(|c| c["food"].as_str().is_some_and(|food| food.contains(word)));
    named
        .map(|c| c["grams"]["likely"].as_f64().expect("a weight"))
        .collect()
}

fn kcal(audit: &serde_json::Value) -> f64 {
    let limits = audit["limits"].as_array().expect("limits");
    let energy = limits.iter().find(|l| l["name"] == "energy");
    energy.expect("energy")["amount"]["likely"]
        .as_f64()
        .expect("a figure")
}

#[test]
fn an_open_choice_counts_each_option_at_its_part_and_is_decided() {
    let home = tempfile::tempdir().expect("a folder");
    let open = json(&home, &["audit", BREAKFAST]);
    assert_eq!(open["choices"][0]["options"].as_array().unwrap().len(), 3);
    assert!((grams(&open, "bacon")[0] - 32.0 / 3.0).abs() < 0.01);
    assert!((grams(&open, "sausage")[0] - 54.0 / 3.0).abs() < 0.01);
    let page = text(&run(&home, &["audit", BREAKFAST]).stdout);
    assert!(page.contains("one of bacon"), "{page}");
    let mut decided = Vec::new();
    for meat in ["bacon", "sausage", "ham"] {
        let audit = json(&home, &["audit", BREAKFAST, "--choose", meat]);
        assert_eq!(grams(&audit, meat).len(), 1, "{meat}");
        assert!(audit["choices"].as_array().unwrap().is_empty());
        decided.push(kcal(&audit));
    }
    let middle = decided.iter().sum::<f64>() / 3.0;
    assert!((kcal(&open) - middle).abs() < 1.0, "{middle}");
    // The range of the open one holds every option.
    let energy = open["limits"].as_array().unwrap().iter();
    let energy = energy.clone().find(|l| l["name"] == "energy").unwrap();
    for kcal in decided {
        assert!(energy["amount"]["low"].as_f64().unwrap() < kcal);
        assert!(energy["amount"]["high"].as_f64().unwrap() > kcal);
    }
}

#[test]
fn two_of_four_are_taken_one_after_the_other() {
    let home = tempfile::tempdir().expect("a folder");
    let open = json(&home, &["audit", SIDES]);
    assert!((grams(&open, "french fries")[0] - 85.0).abs() < 0.01);
    let one = json(&home, &["audit", SIDES, "--choose", "broccoli"]);
    assert!((grams(&one, "broccoli")[0] - 110.0).abs() < 0.01);
    assert!((grams(&one, "french fries")[0] - 170.0 / 3.0).abs() < 0.01);
    let both = ["audit", SIDES, "--choose", "broccoli", "--choose", "mashed"];
    let both = json(&home, &both);
    assert!(grams(&both, "french fries").is_empty());
    assert!((grams(&both, "mashed")[0] - 150.0).abs() < 0.01);
}

#[test]
fn an_add_on_is_off_until_it_is_asked_for() {
    let home = tempfile::tempdir().expect("a folder");
    let plain = json(&home, &["audit", BOWL]);
    assert!(grams(&plain, "guacamole").is_empty());
    assert_eq!(plain["add_ons"][0]["text"], "guacamole");
    let with = json(&home, &["audit", BOWL, "--with", "guacamole"]);
    assert_eq!(grams(&with, "guacamole"), [115.0]);
    assert!(kcal(&with) > kcal(&plain) + 100.0);
}

#[test]
fn every_command_takes_the_same_options() {
    let home = tempfile::tempdir().expect("a folder");
    let audited = kcal(&json(&home, &["audit", BREAKFAST, "--choose", "ham"]));
    let fit = json(&home, &["fit", BREAKFAST, "--choose", "ham"]);
    assert!(fit.to_string().contains("ham"));
    assert!(!fit.to_string().contains("sausage, cooked"));
    let compare = text(
        &run(
            &home,
            &[
                "compare",
                BREAKFAST,
                BOWL,
                "--choose",
                "ham",
                "--with",
                "guacamole",
            ],
        )
        .stdout,
    );
    assert!(compare.contains("guacamole") && !compare.contains("pork sausage"));
    let sheet = home.path().join("sheet.html");
    let path = sheet.to_str().expect("a path");
    let made = run(
        &home,
        &["handout", BREAKFAST, "--choose", "ham", "-o", path],
    );
    assert_eq!(made.status.code(), Some(0), "{}", text(&made.stderr));
    let page = std::fs::read_to_string(&sheet).expect("the page");
    assert!(page.contains("ham") && !page.contains("bacon, cooked"));
    assert_eq!(
        run(&home, &["diner", "add", "Ana", "--energy", "2000"])
            .status
            .code(),
        Some(0)
    );
    let eat = ["day", "eat", BREAKFAST, "--diner", "Ana", "--choose", "ham"];
    let eaten = run(&home, &eat);
    assert_eq!(eaten.status.code(), Some(0), "{}", text(&eaten.stderr));
    let day = text(&run(&home, &["day", "show", "--diner", "Ana"]).stdout);
    let shown = format!("all     {:.0}", (audited / 10.0).round() * 10.0);
    assert!(day.contains(&shown), "{shown}: {day}");
}

#[test]
fn a_menu_takes_a_dish_with_its_choices_open() {
    let home = tempfile::tempdir().expect("a folder");
    let menu = home.path().join("menu.csv");
    std::fs::write(&menu, format!("item\n{BREAKFAST}\n")).expect("written");
    let path = menu.to_str().expect("a path");
    let rows = text(&run(&home, &["menu", path, "--format", "ndjson"]).stdout);
    let row: serde_json::Value = serde_json::from_str(rows.trim()).expect("a row");
    let list = row["components"].as_array().expect("components");
    let foods: Vec<&str> = list.iter().filter_map(|c| c["food"].as_str()).collect();
    for meat in ["bacon", "sausage", "ham"] {
        assert!(foods.iter().any(|food| food.contains(meat)), "{foods:?}");
    }
}

#[test]
fn what_is_not_offered_is_refused_with_what_is() {
    let home = tempfile::tempdir().expect("a folder");
    let refused = run(&home, &["audit", BREAKFAST, "--choose", "tofu"]);
    assert_eq!(refused.status.code(), Some(2));
    let told = text(&refused.stderr);
    assert!(
        told.contains("offered are: bacon, cooked, pork sausage"),
        "{told}"
    );
    let refused = run(&home, &["audit", BOWL, "--with", "caviar"]);
    assert_eq!(refused.status.code(), Some(2));
    assert!(text(&refused.stderr).contains("guacamole"));
}

#[test]
fn a_file_is_checked_and_its_slips_are_told_with_their_place() {
    let home = tempfile::tempdir().expect("a folder");
    let file = home.path().join("bowl.toml");
    let path = file.to_str().expect("a path");
    let dish = |choice: &str| {
        format!(
            "name = \"My harbour plate\"\nserved = \"250 g\"\n\n[[component]]\nfood = \"salmon, grilled\"\namount = \"150 g\"\n\n{choice}"
        )
    };
    let option =
        |food: &str, amount: &str| format!("[[choice.option]]\nfood = \"{food}\"\n{amount}\n\n");
    let two = option("white rice", "amount = \"120 g\"")
        + &option("boiled potatoes", "amount = \"80 g\"");
    // 150 g and the middle of the sides come to what is served.
    let good = dish(&format!(
        "[[choice]]\nname = \"side\"\n\n{two}[[add_on]]\nfood = \"lemon juice\"\namount = \"5 g\"\n"
    ));
    std::fs::write(&file, &good).expect("written");
    let checked = run(&home, &["dish", "check", path]);
    assert_eq!(checked.status.code(), Some(0), "{}", text(&checked.stderr));
    let shown = text(&run(&home, &["dish", "show", path]).stdout);
    assert!(shown.contains("[[choice.option]]") && shown.contains("[[add_on]]"));
    for (wrong, line, said) in [
        (
            format!(
                "[[choice]]\n\n{}",
                option("white rice", "amount = \"120 g\"")
            ),
            10,
            "nothing to choose from",
        ),
        (format!("[[choice]]\ntake = 2\n\n{two}"), 9, "wrong type"),
        (
            format!("[[choice]]\nfrom = \"x\"\n\n{two}"),
            9,
            "unknown key `from`",
        ),
        (
            "[[choice]]\n\n".to_owned()
                + &option("white rice", "amount = \"120 g\"")
                + &option("boiled potatoes", ""),
            14,
            "`amount` is missing",
        ),
        (
            "[[add_on]]\namount = \"5 g\"\n".to_owned(),
            8,
            "`food` is missing",
        ),
        (
            format!(
                "[[choice]]\n\n{}",
                option("white rice", "amount = \"a lot of\"") + &two
            ),
            12,
            "a lot of",
        ),
    ] {
        std::fs::write(&file, dish(&wrong)).expect("written");
        let refused = run(&home, &["dish", "check", path]);
        assert_eq!(refused.status.code(), Some(1), "{wrong}");
        let told = text(&refused.stderr);
        assert!(told.contains(said), "{wrong}\n{told}");
        assert!(
            told.contains(&format!("bowl.toml:{line}:")),
            "{wrong}\n{told}"
        );
    }
}
