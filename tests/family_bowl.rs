//! A family-size bowl served as one person's salad, and the plate of it that fits a meal.

use serde_json::Value;
use std::process::Command;

const BOWL: &str = "greens, spinach, broccoli, tomatoes, grilled chicken, pasta, cheese, avocado, \
                    croutons, ranch dressing";

fn json(command: &str) -> Value {
    let home = tempfile::tempdir().expect("a folder");
    let output = Command::new(env!("CARGO_BIN_EXE_trencher"))
        .args([
            command,
            BOWL,
            "--served",
            "3 quart bowl, full",
            "--format",
            "json",
        ])
        .env("HOME", home.path())
        .env("TRENCHER_HOME", home.path())
        .output()
        .expect("the program runs");
    serde_json::from_slice(&output.stdout).expect("JSON")
}

fn component<'v>(page: &'v Value, text: &str) -> &'v Value {
    let list = page["components"].as_array().expect("components");
    let named = |c: &&Value| c["text"] == text || c["name"] == text;
    list.iter().find(named).expect("the component")
}

fn likely(amount: &Value) -> f64 {
    amount["likely"]
        .as_f64()
        .or(amount.as_f64())
        .expect("a figure")
}

#[test]
fn leaves_beside_a_dressing_are_raw() {
    let page = json("audit");
    for leaf in ["greens", "spinach"] {
        let food = component(&page, leaf)["food"].as_str().expect("a food");
        assert!(food.contains("raw"), "{leaf}: {food}");
    }
}

/// USDA SR28 05064 against 05062: what a chicken breast gains in a pan without coating stays
/// below 5 g of fat to 100 g; brushing for the grill adds less.
#[test]
fn fat_for_the_grill_grows_with_what_is_grilled() {
    let page = json("audit");
    let chicken = likely(&component(&page, "grilled chicken")["grams"]);
    let list = page["components"].as_array().expect("components");
    let implied = list.iter().find(|c| {
        let text = c["text"].as_str().unwrap_or_default();
        text.starts_with("vegetable oil, implied")
    });
    let oil = likely(&implied.expect("oil for the grill")["grams"]);
    assert!(
        oil > 0.007 * chicken && oil < 0.05 * chicken,
        "{oil} g on {chicken} g"
    );
}

/// Three US quarts are 2,839 ml; a cup of raw leaves, vegetables, chicken and pasta mixed weighs
/// 55 (SR28 11457) to 140 g (SR28 20121), so that the bowl holds from 0.65 to 1.7 kg.
#[test]
fn the_bowl_holds_what_three_quarts_hold() {
    let grams = likely(&json("audit")["served_grams"]);
    assert!((650.0..1700.0).contains(&grams), "{grams} g");
}

#[test]
fn the_plate_that_fits_is_a_plate_of_the_same_salad() {
    let page = json("fit");
    let kept = |name: &str| {
        let c = component(&page, name);
        likely(&c["eat_grams"]) / likely(&c["served_grams"])
    };
    for vegetable in ["greens", "spinach", "broccoli", "tomatoes"] {
        assert!(kept(vegetable) > 0.8, "{vegetable}: {}", kept(vegetable));
    }
    assert!(kept("grilled chicken") > 0.5);
    assert!(kept("pasta") > 0.0, "some of the starch stays");
    let eaten = likely(&page["eat"]["energy_kcal"]);
    let most = likely(&page["against"]["energy_kcal"]);
    assert!(
        eaten <= most * 1.005 && eaten > 0.9 * most,
        "{eaten} of {most}"
    );
}
