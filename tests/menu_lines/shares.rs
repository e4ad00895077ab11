//! Halves, sizes and choices of menu lines: what is a part of something is that part of it.

use super::{energy, grams, told};

fn weight(text: &str, food: &str) -> f64 {
    let found = grams(&told(text), food);
    found.unwrap_or_else(|| panic!("no {food} in {text}"))
}

#[test]
fn half_of_an_order_or_a_rack_is_half_of_it() {
    for (half, whole) in [
        ("Half order fish and chips", "Fish and chips"),
        ("half order of pasta 9", "pasta"),
        ("Ravioli (half order) 9", "Ravioli"),
        ("Half portion lasagna", "lasagna"),
        ("half rack of ribs", "full rack of ribs"),
        ("Baby back ribs half rack", "Baby back ribs full rack"),
        ("BBQ chicken salad - half", "BBQ chicken salad"),
        ("Club sandwich, half", "Club sandwich"),
    ] {
        let ratio = energy(half) / energy(whole);
        assert!((ratio - 0.5).abs() < 0.02, "{half}: {ratio}");
    }
    // What lies beside the dish is no half of it, nor is what is half beside a dish all of it.
    let fries = |rack: &str| weight(&format!("{rack} rack baby back ribs, fries 24"), "fries");
    assert!((fries("Half") / fries("Full") - 1.0).abs() < 0.01);
    let steak = |ribs: &str| weight(&format!("Sirloin 6 oz and {ribs}"), "Sirloin");
    assert!((steak("1/2 rack of ribs") / steak("fries") - 1.0).abs() < 0.01);
}

/// USDA FNDDS 24102000: half a chicken, roasted, without bone 300 g.
#[test]
fn a_share_of_a_chicken_is_one_of_a_bird() {
    for (text, bird) in [
        ("half chicken", 0.5),
        ("1/2 chicken, fries", 0.5),
        ("quarter chicken 12", 0.25),
        ("half roast chicken", 0.5),
    ] {
        assert!(
            (weight(text, "chicken") - 600.0 * bird).abs() < 1.0,
            "{text}"
        );
    }
}

#[test]
fn a_dish_and_a_size_of_it_with_prices_of_their_own_are_two_sizes() {
    for text in [
        "Caesar salad 14 half 9",
        "Caesar salad 14 / half 9",
        "Caesar salad 14 (half 9)",
        "Ravioli 18 half 12",
        "Cheeseburger 12 double 15",
    ] {
        let notes = told(text).notes.join("; ");
        assert!(notes.contains("several sizes"), "{text}: {notes}");
    }
    let (both, one) = (energy("Caesar salad 14 half 9"), energy("Caesar salad 14"));
    assert!((both / one - 0.75).abs() < 0.01, "{both} {one}");
    // A price alone is no size, nor is a size behind the only price.
    for text in ["Caesar salad 14", "Burger 12 double bacon 15", "Wine 9"] {
        let notes = told(text).notes.join("; ");
        assert!(!notes.contains("several sizes"), "{text}: {notes}");
    }
    // Half is half of what is offered whole beside it.
    let notes = told("Caesar salad half 9 full 14").notes.join("; ");
    let offered = |size: &str| -> f64 {
        let behind = notes.split_once(&format!("{size} ")).expect("the size").1;
        let told = behind.split_once(" g, ").expect("its weight").1;
        let figure = told.split_once(" kcal").expect("its energy").0;
        figure.parse().expect("a figure")
    };
    assert!(
        (offered("half") / offered("full") - 0.5).abs() < 0.01,
        "{notes}"
    );
}

#[test]
fn what_is_chosen_beside_a_filled_bread_is_on_top_of_it() {
    for (choice, one, other) in [
        (
            "Turkey club, fries or salad",
            "Turkey club, fries",
            "Turkey club, side salad",
        ),
        (
            "BLT with chips or fruit",
            "BLT with chips",
            "BLT with fruit",
        ),
        (
            "Burger, fries or onion rings",
            "Burger, fries",
            "Burger, onion rings",
        ),
    ] {
        let (both, one, other) = (energy(choice), energy(one), energy(other));
        let middle = f64::midpoint(one, other);
        assert!(
            (both / middle - 1.0).abs() < 0.15,
            "{choice}: {both}, {one} and {other}"
        );
    }
    // Of bread there is one, of whatever sort.
    let breads = told("BLT on white or rye");
    let named = |name: &str| {
        let mut all = breads.dish.components.iter();
        all.any(|c| c.matched.line.food == name)
    };
    assert!(named("white bread") && named("rye bread"));
}

#[test]
fn wine_is_not_salted() {
    for text in ["House red 9", "House white", "Glass of house red"] {
        let all = told(text).dish.components;
        assert!(
            all.iter().all(|c| c.matched.line.food != "table salt"),
            "{text}"
        );
    }
}
