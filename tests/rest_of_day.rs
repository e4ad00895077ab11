//! Choosing for what is left of a day: a menu ranked, a dish audited, a plate right-sized; and
//! parts of dishes and recipes.

mod common_run;

use common_run::{done_at, run_at};
use std::path::Path;

/// Half past an hour.
fn half_past(hour: u8) -> String {
    format!("2026-11-25T{hour:02}:30:00-05:00[America/New_York]")
}

fn done(home: &Path, hour: u8, args: &[&str]) -> String {
    done_at(home, &half_past(hour), args)
}

fn json(home: &Path, hour: u8, args: &[&str]) -> serde_json::Value {
    let args = [args, &["--format", "json"]].concat();
    serde_json::from_str(&done(home, hour, &args)).unwrap()
}

fn with_ana() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let add = ["diner", "add", "Ana", "--energy", "2000"];
    done(folder.path(), 8, &add);
    folder
}

/// Dishes of listed components, so that what they hold follows from weights alone.
const MENU: &str = "\
item,components
Three doughnuts,3 glazed doughnuts
Salad with beans,3 cups romaine; 1 cup tomatoes; 1 cup black beans; 1 cup brown rice
Instant noodles and jerky,2 cups instant noodle soup; 6 oz beef jerky
Apple,1 apple
Bottle of wine,750 ml red wine
";

fn menu(home: &Path) -> String {
    let path = home.join("menu.csv");
    std::fs::write(&path, MENU).unwrap();
    path.to_str().unwrap().to_owned()
}

fn items(text: &str) -> Vec<String> {
    let rows = text.lines().map(|line| {
        let row: serde_json::Value = serde_json::from_str(line).unwrap();
        row["item"].as_str().unwrap().to_owned()
    });
    rows.collect()
}

#[test]
fn a_menu_is_ranked_for_what_is_left() {
    let folder = with_ana();
    let home = folder.path();
    let menu = menu(home);
    let left = ["menu", &menu, "--left", "--diner", "Ana"];
    let rows = |hour| done(home, hour, &[&left[..], &["--format", "ndjson"]].concat());
    let early = items(&rows(12));
    assert_eq!(early[0], "Salad with beans", "{early:?}");
    assert!(
        early[3..].contains(&"Bottle of wine".to_owned()),
        "{early:?}"
    );
    // Once vegetables and grains are reached, they bring nothing.
    let eat = ["day", "eat", "--at", "12:00", "--item"];
    for item in [
        "6 cups romaine",
        "4 cups tomatoes",
        "3 cups brown rice",
        "2 cups black beans",
    ] {
        done(home, 12, &[&eat[..], &[item]].concat());
    }
    let late = rows(19);
    let first: serde_json::Value = serde_json::from_str(late.lines().next().unwrap()).unwrap();
    assert_eq!(first["item"], "Apple", "{late}");
    assert!(first["brings_of_short"]["fruits"].as_f64().unwrap() > 0.3);
    assert!(first["brings_of_short"].get("vegetables").is_none());
    let wine = late
        .lines()
        .find(|line| line.contains("Bottle of wine"))
        .unwrap();
    let wine: serde_json::Value = serde_json::from_str(wine).unwrap();
    assert_eq!(wine["beyond_left"]["alcohol"]["left"], 0);
    // For people, with what counts for and against; as a table, with a column for each.
    let text = done(home, 19, &left);
    assert!(text.contains("Fit the rest of Ana's day best"), "{text}");
    assert!(text.contains("brings of what is short"), "{text}");
    let one_line = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let held = "held against what is left for dinner";
    assert!(one_line.contains(held), "{text}");
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
    let best = text.split("Furthest").next().unwrap();
    assert!(!best.contains("wine"), "{text}");
    let table = done(home, 19, &[&left[..], &["--format", "csv"]].concat());
    assert!(
        table
            .lines()
            .next()
            .unwrap()
            .ends_with(",brings_of_short,beyond_left")
    );
    assert!(
        table.lines().nth(1).unwrap().starts_with("Apple,"),
        "{table}"
    );
    // It is a diner's day, and one order.
    for wrong in [
        &["menu", &menu, "--left"][..],
        &[&left[..], &["--sort", "sodium"]].concat(),
    ] {
        assert_eq!(
            run_at(home, &half_past(19), wrong).status.code(),
            Some(2),
            "{wrong:?}"
        );
    }
}

#[test]
fn a_dish_is_audited_for_what_is_left() {
    let folder = with_ana();
    let home = folder.path();
    done(home, 12, &["day", "eat", "--item", "5 cups brown rice"]);
    let audit = [
        "audit",
        "--item",
        "2 cups romaine",
        "--item",
        "1 cup brown rice",
    ];
    let left = [&audit[..], &["--diner", "Ana", "--left"]].concat();
    let text = done(home, 18, &left);
    assert!(
        text.contains("For the rest of Ana's day: brings of what is short"),
        "{text}"
    );
    assert!(text.contains("left for dinner"), "{text}");
    let page = json(home, 18, &left);
    let choice = &page["today"]["choice"];
    let brings: Vec<&str> = choice["brings"]
        .as_array()
        .unwrap()
        .iter()
        .map(|row| row["key"].as_str().unwrap())
        .collect();
    // 10 ounces of grains are eaten: more of them is no help.
    assert!(
        brings.contains(&"vegetables") && !brings.contains(&"grains"),
        "{brings:?}"
    );
    let plain = json(home, 18, &[&audit[..], &["--diner", "Ana"]].concat());
    assert!(plain["today"].get("choice").is_none());
    assert_eq!(
        run_at(home, &half_past(18), &[&audit[..], &["--left"]].concat())
            .status
            .code(),
        Some(2)
    );
}

/// Of 2,000 kcal, breakfast, lunch and dinner have 30 % each and a snack 10 %.
#[test]
fn a_plate_is_fitted_to_what_is_left_when_others_keep_their_share() {
    let folder = with_ana();
    let home = folder.path();
    let energy = |hour, args: &[&str]| {
        let fit = ["fit", "pad thai with shrimp", "--diner", "Ana"];
        let page = json(home, hour, &[&fit[..], args].concat());
        page["against"]["energy_kcal"]
            .as_f64()
            .unwrap_or_else(|| panic!("{page}"))
    };
    let close = |a: f64, b: f64| assert!((a - b).abs() < 1.0, "{a} is not {b}");
    close(energy(18, &["--left"]), 2000.0);
    close(energy(18, &["--meal", "dinner"]), 600.0);
    // Nothing was eaten all day: the snack keeps its 200.
    close(energy(18, &["--left", "--meal", "dinner"]), 1800.0);
    // At lunch dinner and snack keep theirs; what is planned takes its own energy instead.
    close(energy(12, &["--left", "--meal", "lunch"]), 1200.0);
    let plan = [
        "day",
        "plan",
        "--at",
        "19:00",
        "--item",
        "500 g white rice, cooked",
    ];
    done(home, 12, &plan);
    let planned = json(home, 12, &["day", "show"])["planned"][0]["entry"]["limits"]["energy"]
        ["amount"]["likely"]
        .as_f64()
        .unwrap();
    close(energy(12, &["--left", "--meal", "lunch"]), 1800.0 - planned);
    // What is planned for the meal itself is what is being chosen.
    close(energy(18, &["--left", "--meal", "dinner"]), 1800.0);
    // A plan that leaves less than the meal's share is told, though nothing was eaten.
    let large = [
        "day",
        "plan",
        "--at",
        "20:00",
        "--meal",
        "snack",
        "--item",
        "900 g white rice, cooked",
    ];
    done(home, 12, &large);
    let fit = [
        "fit",
        "pad thai with shrimp",
        "--diner",
        "Ana",
        "--meal",
        "lunch",
    ];
    let text = done(home, 12, &fit);
    let one_line = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(one_line.contains("2 entries of"), "{text}");
    assert!(
        one_line.contains("for today, with what is planned: less is left"),
        "{text}"
    );
    done(home, 12, &["day", "undo"]);
    let text = done(
        home,
        12,
        &[
            "fit",
            "pad thai with shrimp",
            "--diner",
            "Ana",
            "--left",
            "--meal",
            "lunch",
        ],
    );
    let one_line = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(one_line.contains("200 kcal for those to come"), "{text}");
}

#[test]
fn a_share_of_a_dish_is_its_part() {
    let folder = tempfile::tempdir().unwrap();
    let home = folder.path();
    let whole = json(home, 12, &["audit", "cobb salad"]);
    let half = json(home, 12, &["audit", "cobb salad", "--share", "1/2"]);
    assert_eq!(half["dish"], "half of Cobb salad");
    let kcal = |page: &serde_json::Value| page["nutrients"]["energy_kcal"].as_f64().unwrap();
    assert!((kcal(&half) * 2.0 - kcal(&whole)).abs() < 0.5);
    let grams = |page: &serde_json::Value| page["served_grams"]["high"].as_f64().unwrap();
    assert!((grams(&half) * 2.0 - grams(&whole)).abs() < 0.5);
    let listed = done(home, 12, &["audit", "--item", "1 cup rice", "--share", "2"]);
    assert!(
        listed.contains("of 2 of what is listed") || listed.contains("2 times"),
        "{listed}"
    );
    for wrong in ["0", "-1", "lots", "51"] {
        let share = format!("--share={wrong}");
        let output = run_at(home, &half_past(12), &["audit", "cobb salad", &share]);
        assert_eq!(output.status.code(), Some(2), "{wrong}");
    }
}

#[test]
fn a_recipe_for_six_is_audited_by_the_serving() {
    let folder = tempfile::tempdir().unwrap();
    let home = folder.path();
    let file = |name: &str, makes: &str, grams: u32| {
        let path = home.join(name);
        let text = format!(
            "name = \"Rice for many\"\n{makes}\n[[component]]\nfood = \"white rice, cooked\"\namount = \"{grams} g\"\n"
        );
        std::fs::write(&path, text).unwrap();
        path.to_str().unwrap().to_owned()
    };
    let six = json(home, 12, &["audit", &file("six.toml", "makes = 6", 900)]);
    let one = json(home, 12, &["audit", &file("one.toml", "", 150)]);
    let likely = |page: &serde_json::Value| page["served_grams"]["likely"].as_f64().unwrap();
    assert!((likely(&six) - 150.0).abs() < 0.5 && (likely(&one) - 150.0).abs() < 0.5);
    assert_eq!(six["nutrients"], one["nutrients"]);
    assert!(six["notes"].to_string().contains("6 servings"), "{six}");
    let wrong = file("wrong.toml", "makes = \"six\"", 900);
    let output = run_at(home, &half_past(12), &["audit", &wrong]);
    assert_eq!(output.status.code(), Some(2));
    let told = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(
        told.contains("wrong.toml:2:9") && told.contains("makes = 6"),
        "{told}"
    );
}
