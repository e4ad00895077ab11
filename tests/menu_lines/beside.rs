//! What lies beside a dish, and what a dish of another kitchen is.

use super::{energy, grams, told};
use trencher::weighing::Estimated;

fn taken_for(estimated: &Estimated, word: &str) -> bool {
    let mut lines = estimated.dish.components.iter().map(|c| &c.matched.line);
    lines.any(|line| line.food.contains(word))
}

/// What comes beside a dish that does not hold it is a serving on top of it.
#[test]
fn what_is_served_beside_a_dish_comes_on_top_of_it() {
    for (with, alone, least) in [
        (
            "Beef lasagne, garlic bread, side salad",
            "Beef lasagne",
            250.0,
        ),
        (
            "Chicken tikka masala with naan",
            "Chicken tikka masala",
            150.0,
        ),
        ("French toast with bacon", "French toast", 60.0),
        ("Chicken and leek pie, mash", "Chicken and leek pie", 120.0),
        ("Steak and ale pie, chips, peas", "Steak and ale pie", 350.0),
        ("Roast duck, potatoes, red cabbage", "Roast duck", 120.0),
        ("Lamb rump, peas, new potatoes", "Lamb rump", 200.0),
        ("Pollo con arroz", "Pollo", 120.0),
    ] {
        let more = energy(with) - energy(alone);
        assert!(more >= least, "{with}: {more:.0} kcal more than {alone}");
    }
    // A filling lies in what it fills.
    let burrito = energy("Burrito, rice, beans") - energy("Burrito");
    assert!(burrito.abs() < 150.0, "{burrito:.0}");
}

/// USDA SR28 36014: an order of fries of a restaurant 170 g; 21 CFR 101.12: chips 30 g.
#[test]
fn chips_are_fries_beside_steak_and_fish_and_crisps_beside_a_sandwich() {
    for text in [
        "Ribeye with chips",
        "Gammon steak, egg and chips",
        "Cod, chips and mushy peas",
    ] {
        let chips = grams(&told(text), "french fries").unwrap_or_default();
        assert!((120.0..=220.0).contains(&chips), "{text}: {chips:.0} g");
    }
    let crisps = grams(&told("Club sandwich with chips"), "chips").unwrap_or_default();
    assert!((20.0..=80.0).contains(&crisps), "{crisps:.0} g");
}

/// The same dish in two tongues is one dish.
#[test]
fn a_dish_weighs_the_same_in_its_own_tongue() {
    for (own, english) in [
        ("Tagliatelle al rag\u{f9}", "Spaghetti bolognese"),
        ("Hamburguesa", "Hamburger"),
        ("Lasagne", "Lasagna"),
    ] {
        let ratio = energy(own) / energy(english);
        assert!(
            (0.75..=1.33).contains(&ratio),
            "{own}: {ratio:.2} of {english}"
        );
    }
}

/// Printed menus of two restaurants: a full rack 1,440 to 1,630 kcal, with sauce up to 3,260.
#[test]
fn a_rack_is_a_full_one() {
    let (rack, half) = (energy("Rack of ribs"), energy("Half rack of ribs"));
    assert!((1_200.0..=2_200.0).contains(&rack), "{rack:.0}");
    assert!(half < 0.8 * rack, "{half:.0} of {rack:.0}");
}

/// A cooking word in a dish's name is told of the part that it is true of.
#[test]
fn rice_beside_a_cutlet_is_not_breaded() {
    let curry = told("Katsu curry");
    assert!(taken_for(&curry, "breaded fried chicken"));
    assert!(
        !taken_for(&curry, "bread crumbs"),
        "the rice is not breaded"
    );
    assert!(!taken_for(&told("Scampi and chips"), "butter"));
    // What is found without its coat still gets one.
    assert!(taken_for(&told("Wiener Schnitzel"), "bread crumbs"));
}
