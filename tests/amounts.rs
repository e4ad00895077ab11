//! What must hold of amounts whatever the food: thousands of cases, none of them by name.

use std::collections::BTreeSet;
use trencher::matching::Catalogue;
use trencher::quantity::Estimate;
use trencher::reading::{Dish, Place, UnitSystem, parse_component, parse_dish_file};
use trencher::store::Library;
use trencher::weighing::{Request, estimate, match_dish};

fn catalogue() -> Catalogue {
    Catalogue::embedded().expect("the catalogue opens")
}

/// Weights of component lines, one after the other; `None` where one could not be read or
/// weighed.
fn weights(lines: &[String], catalogue: &Catalogue) -> Vec<Option<Estimate>> {
    let read = |line: &String| parse_component(line, Place::new("test", 1, 1), UnitSystem::Us).ok();
    let Some(components) = lines.iter().map(read).collect::<Option<Vec<_>>>() else {
        return vec![None; lines.len()];
    };
    let dish = Dish {
        components,
        ..Dish::default()
    };
    let request = Request {
        as_written: true,
        ..Request::default()
    };
    let weighed = estimate(match_dish(dish, catalogue, false), &request, catalogue);
    let list = weighed.dish.components.iter();
    list.map(trencher::weighing::WeighedComponent::grams)
        .collect()
}

fn weight(line: &str, catalogue: &Catalogue) -> Option<Estimate> {
    weights(&[line.to_owned()], catalogue)[0]
}

/// Foods named in the dishes that come with the program.
fn library_foods() -> BTreeSet<String> {
    let library = Library::built_in();
    let mut foods = BTreeSet::new();
    for entry in library.entries() {
        let dish = parse_dish_file(&entry.slug, &entry.text, UnitSystem::Us).expect("reads");
        foods.extend(dish.components.into_iter().map(|c| c.food));
    }
    foods
}

/// Of all foods of the library, how many weigh `k` times as much when there are `k` of them.
#[test]
fn so_many_times_the_count_is_so_many_times_the_grams() {
    let catalogue = catalogue();
    let foods = library_foods();
    assert!(foods.len() > 300, "{}", foods.len());
    let plural = |unit: &str| match unit {
        "glass" => "glasses".to_owned(),
        unit => format!("{unit}s"),
    };
    for unit in ["glass", "scoop", "bowl", "serving", "slice", "piece", "cup"] {
        let mut wrong = Vec::new();
        for food in &foods {
            let Some(one) = weight(&format!("1 {unit} of {food}"), &catalogue) else {
                wrong.push(format!("1 {unit} of {food}: no weight"));
                continue;
            };
            for k in [2.0, 4.0] {
                let line = format!("{k} {} of {food}", plural(unit));
                let many = weight(&line, &catalogue).map_or(0.0, |w| w.mean);
                if (many / one.mean / k - 1.0).abs() > 0.01 {
                    wrong.push(format!("{line}: {many:.1} g, one {:.1} g", one.mean));
                    break;
                }
            }
        }
        let most = foods.len() / 100;
        assert!(
            wrong.len() <= most,
            "{unit}: {} wrong:\n{}",
            wrong.len(),
            wrong.join("\n")
        );
    }
}

/// One, two and four of what people count differ.
#[test]
fn a_stated_count_is_never_lost() {
    let catalogue = catalogue();
    for (one, two, four) in [
        ("1 steak", "2 steaks", "4 steaks"),
        ("1 glass of wine", "2 glasses of wine", "4 glasses of wine"),
        ("1 glass of milk", "2 glasses of milk", "4 glasses of milk"),
        (
            "1 rasher of bacon",
            "2 rashers of bacon",
            "4 rashers of bacon",
        ),
        ("1 bottle of beer", "2 bottles of beer", "4 bottles of beer"),
    ] {
        let grams = |line: &str| weight(line, &catalogue).expect(line).mean;
        let (one, two, four) = (grams(one), grams(two), grams(four));
        assert!((two / one - 2.0).abs() < 0.01, "{one} {two}");
        assert!((four / one - 4.0).abs() < 0.01, "{one} {four}");
    }
}

/// NIAAA, standard drinks: 5 fl oz of table wine, 12 fl oz of beer, 1.5 fl oz of spirits; an
/// 8 fl oz cup of milk weighs 244 g (USDA FNDDS 2021-2023, 11100000).
#[test]
fn drinks_are_poured_as_published() {
    let catalogue = catalogue();
    for (line, grams, within) in [
        ("1 glass of wine", 147.0, 5.0),
        ("1 glass of red wine", 147.0, 6.0),
        ("1 can of beer", 355.0, 10.0),
        ("1 bottle of beer", 355.0, 10.0),
        ("1 glass of milk", 244.0, 2.0),
        ("200 g cake doughnut", 200.0, 0.01),
        ("150 g cake", 150.0, 0.01),
    ] {
        let got = weight(line, &catalogue).expect(line).mean;
        assert!((got - grams).abs() <= within, "{line}: {got}");
    }
}

/// Names are no amounts: `137 g NAME` weighs 137 g, whatever the name holds.
#[test]
fn a_stated_weight_is_the_weight() {
    let catalogue = catalogue();
    let mut many = 0;
    let mut wrong = Vec::new();
    for food in catalogue.foods() {
        for name in std::iter::once(food.name()).chain(food.aliases()) {
            many += 1;
            let line = format!("137 g {name}");
            let got = weight(&line, &catalogue).map_or(0.0, |w| w.mean);
            if (got - 137.0).abs() > 0.5 {
                wrong.push(format!("{line}: {got:.1}"));
            }
        }
    }
    assert!(many > 10_000, "{many}");
    assert!(
        wrong.len() * 1_000 <= many * 2,
        "{} of {many}:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
}

/// Low, likely and high in this order; order and splitting change no weight.
#[test]
fn order_and_splitting_change_nothing() {
    let catalogue = catalogue();
    let foods: Vec<String> = library_foods().into_iter().collect();
    let units = [
        "2 cups",
        "1 slice",
        "3 pieces",
        "1 bowl",
        "a handful of",
        "85 g",
        "about 4 oz",
        "half a",
    ];
    for (at, pair) in foods.windows(2).enumerate() {
        let unit = units[at % units.len()];
        let other = units[(at + 3) % units.len()];
        let (one, two) = (
            format!("{unit} {}", pair[0]),
            format!("{other} {}", pair[1]),
        );
        let forth = weights(&[one.clone(), two.clone()], &catalogue);
        let back = weights(&[two.clone(), one.clone()], &catalogue);
        assert_eq!(
            forth[0].map(|w| w.mean),
            back[1].map(|w| w.mean),
            "{one}; {two}"
        );
        assert_eq!(
            forth[1].map(|w| w.mean),
            back[0].map(|w| w.mean),
            "{one}; {two}"
        );
        for weight in forth.iter().flatten() {
            let range = weight.range();
            assert!(
                range.low <= range.likely && range.likely <= range.high,
                "{one}; {two}"
            );
        }
        let whole = weight(&format!("120 g {}", pair[0]), &catalogue).map(|w| w.mean);
        let half = weight(&format!("60 g {}", pair[0]), &catalogue).map(|w| 2.0 * w.mean);
        if let (Some(whole), Some(half)) = (whole, half) {
            assert!((whole - half).abs() < 1e-6, "{}: {whole} {half}", pair[0]);
        }
    }
}
