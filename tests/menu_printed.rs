//! Lines as menus print them, with prices, tags, sizes, choices and words of other tongues: the role of
//! every phrase, and what is counted. The lines are our own.

use assert_cmd::Command;
use serde_json::Value;
use std::fmt::Write as _;

const LINES: [&str; 20] = [
    "Cheeseburger, fries, slaw 14.50",
    "Margherita 12\" (V) .... 13",
    "Caesar salad sm 9 / lg 13, add grilled chicken 5 or shrimp 7",
    "Buttermilk pancakes (3), maple syrup, whipped butter | 11",
    "Fish & chips, mushy peas, tartare sauce (1,120 kcal) £15.95",
    "Two eggs any style, choice of bacon, sausage or ham, toast 10",
    "Harbour Bowl: brown rice, salmon, edamame, avocado, spicy mayo (GF, DF) 17",
    "Ribeye 12 oz, baked potato, creamed spinach MP",
    "Wiener Schnitzel mit Pommes und Gurkensalat 18,90",
    "Moules marinières, frites €19",
    "Tacos al pastor (3), arroz, frijoles 13",
    "Butter chicken, basmati rice, garlic naan (contains dairy, nuts) 17",
    "Kimchi jjigae with rice 13*",
    "Half turkey sandwich with cup of soup or side salad 11",
    "Burger, no bun, side salad instead of fries 13",
    "Chicken wings 6 pc 9 / 12 pc 16",
    "KIDS MENU: grilled cheese, apple slices 6",
    "Steak frites for two 58",
    "Latte 12 oz 4 / 16 oz 5, oat milk +0.70",
    "Feijoada completa, farofa, couve 21 - new!",
];

fn audit(line: &str, more: &[&str]) -> Value {
    let out = Command::cargo_bin("trencher")
        .expect("the program is built")
        .args(["audit", line, "--format", "json"])
        .args(more)
        .output()
        .expect("the program runs");
    assert!(matches!(out.status.code(), Some(0 | 1)), "{line}: {out:?}");
    serde_json::from_slice(&out.stdout).expect("JSON")
}

fn kcal(page: &Value) -> f64 {
    page["nutrients"]["energy_kcal"].as_f64().unwrap_or(0.0)
}

#[test]
fn roles_of_twenty_lines() {
    let mut told = String::new();
    for line in LINES {
        let page = audit(line, &[]);
        let _ = writeln!(told, "{line}");
        for phrase in page["read"].as_array().expect("phrases") {
            let (from, to) = (phrase["from"].as_u64(), phrase["to"].as_u64());
            let place = from.expect("a place") as usize..to.expect("a place") as usize;
            assert_eq!(
                &line[place],
                phrase["text"].as_str().expect("words"),
                "{line}"
            );
            if phrase["role"] != "filler" {
                let role = phrase["role"].as_str().expect("a role");
                let _ = writeln!(
                    told,
                    "    {role}: {}",
                    phrase["text"].as_str().expect("words")
                );
            }
        }
        // Nothing written is left out: what stands between phrases is space.
        let phrases = page["read"].as_array().expect("phrases").iter();
        let written: usize = phrases
            .map(|p| {
                p["text"]
                    .as_str()
                    .map_or(0, |t| t.chars().filter(|c| !c.is_whitespace()).count())
            })
            .sum();
        assert_eq!(
            written,
            line.chars().filter(|c| !c.is_whitespace()).count(),
            "{line}"
        );
    }
    insta::assert_snapshot!(told);
}

#[test]
fn a_choice_is_counted_in_the_middle_and_decided_by_the_person() {
    let line = "Burger with fries or side salad 14";
    let [open, fries, salad] =
        [&[][..], &["--choose", "fries"], &["--choose", "salad"]].map(|more| audit(line, more));
    assert_eq!(
        open["choices"][0]["options"],
        serde_json::json!(["fries", "side salad"])
    );
    // The words of both options tell a little of what such servings hold.
    let (low, high) = (kcal(&salad), kcal(&fries));
    assert!(
        low < kcal(&open) && kcal(&open) < 1.05 * high,
        "{low} {} {high}",
        kcal(&open)
    );
    let range = &open["limits"][0]["amount"];
    assert!(
        range["low"].as_f64() <= Some(low) && range["high"].as_f64() >= Some(high),
        "{range} {low} {high}"
    );
    assert_eq!(fries["choices"], serde_json::json!([]));
}

#[test]
fn an_add_on_is_off_until_it_is_asked_for() {
    let line = "Classic burger 12 + egg 2";
    let (off, on) = (audit(line, &[]), audit(line, &["--with", "egg"]));
    assert_eq!(
        off["add_ons"],
        serde_json::json!([{"text": "egg", "price": "2"}])
    );
    assert_eq!(on["add_ons"], serde_json::json!([]));
    assert!(
        kcal(&on) > kcal(&off) + 40.0,
        "{} {}",
        kcal(&on),
        kcal(&off)
    );
    let wrong = Command::cargo_bin("trencher")
        .expect("built")
        .args(["audit", line, "--with", "bacon"])
        .output()
        .expect("runs");
    assert_eq!(wrong.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&wrong.stderr).contains("egg"));
}

#[test]
fn of_an_unknown_main_dish_there_is_no_total() {
    let page = audit("Zorbeltan with rice and beans 14", &[]);
    assert!(page["main_unknown"].as_str().is_some());
    assert!(
        page["nutrients"]["energy_kcal"].is_null()
            && page["limits"][0]["amount"].is_null()
            && page["served_grams"].is_null()
    );
    assert!(page["components"].as_array().expect("a list").len() > 1);
    let nothing = Command::cargo_bin("trencher")
        .expect("built")
        .args(["audit", "Zorbeltan"])
        .output()
        .expect("runs");
    assert_eq!(nothing.status.code(), Some(1));
    assert!(String::from_utf8_lossy(&nothing.stdout).starts_with("main dish unknown"));
}

#[test]
fn allergen_notes_stand_beside_the_caution_and_printed_energy_is_met() {
    let page = audit("Brownie (contains nuts) 6", &[]);
    assert_eq!(page["allergens"], serde_json::json!(["contains nuts"]));
    let printed = audit("Turkey burger 650 cal", &[]);
    assert!((kcal(&printed) - 650.0).abs() < 70.0, "{}", kcal(&printed));
}
