//! The catalogue against what USDA publishes and against itself.

use trencher::foods::{Equivalent, Nutrient};
use trencher::matching::{Catalogue, Certainty, Context};

fn catalogue() -> Catalogue {
    Catalogue::embedded().expect("the embedded catalogue opens")
}

#[test]
fn it_is_as_large_as_promised() {
    let catalogue = catalogue();
    let staples = catalogue.foods().filter(|f| f.code().len() == 5).count();
    let aliases: usize = catalogue.foods().map(|f| f.aliases().count()).sum();
    assert!(catalogue.len() >= 3000, "{} foods", catalogue.len());
    assert!(staples >= 250, "{staples} staples");
    assert!(aliases >= 1500, "{aliases} aliases");
}

#[test]
fn every_selected_food_has_figures() {
    let selected = include_str!("../src/foods/tables/selection.csv")
        .lines()
        .count()
        - 1;
    assert_eq!(catalogue().len(), selected);
}

#[test]
fn every_food_is_whole() {
    for food in catalogue().foods() {
        let name = food.name();
        assert!(
            !name.is_empty() && !food.source().is_empty() && !food.family().is_empty(),
            "{name}"
        );
        assert!(
            food.source().contains(food.code()),
            "{name}: {} without {}",
            food.source(),
            food.code()
        );
        for required in [
            Nutrient::EnergyKcal,
            Nutrient::ProteinG,
            Nutrient::FatG,
            Nutrient::CarbohydrateG,
        ] {
            let value = food
                .per_100g(required)
                .unwrap_or_else(|| panic!("{name}: no {required:?}"));
            assert!(
                (0.0..=905.0).contains(&value),
                "{name}: {required:?} {value}"
            );
        }
        for measure in food.measures() {
            assert!(
                measure.grams > 0.0 && measure.grams < 20_000.0,
                "{name}: {measure:?}"
            );
        }
        for equivalent in Equivalent::ALL {
            let value = food.equivalent_per_100g(equivalent);
            assert!(
                (0.0..=101.0).contains(&value),
                "{name}: {equivalent:?} {value}"
            );
        }
    }
}

#[test]
fn names_are_one_of_a_kind() {
    let mut seen = std::collections::HashMap::new();
    for food in catalogue().foods() {
        if let Some(other) = seen.insert(food.name().to_lowercase(), food.code().to_owned()) {
            panic!(
                "{} and {} are both called {}",
                other,
                food.code(),
                food.name()
            );
        }
    }
}

/// USDA FPED 2017-2020, per 100 g, drawn from the published table by script: code,
/// column, value. It is the table the catalogue is built from, so this holds the way from
/// table to program, not the table itself.
const FPED: &[(&str, Equivalent, f64)] = &include!("data/fped_spot.in");

#[test]
fn equivalents_agree_with_fped() {
    let catalogue = catalogue();
    let codes: std::collections::BTreeSet<&str> = FPED.iter().map(|(code, ..)| *code).collect();
    assert!(codes.len() >= 40, "{} foods", codes.len());
    for (code, equivalent, value) in FPED {
        let food = catalogue
            .by_code(code)
            .unwrap_or_else(|| panic!("{code} is not in the catalogue"));
        let ours = food.equivalent_per_100g(*equivalent);
        assert!(
            (ours - value).abs() < 0.0051,
            "{code} {} {equivalent:?}: {ours} for {value}",
            food.name()
        );
    }
}

/// Energy follows from protein, fat, carbohydrate and alcohol by the general Atwater
/// factors (Merrill and Watt, USDA Handbook 74), within 15 % and 15 kcal. Exceptions carry
/// their reason.
#[test]
fn energy_follows_from_what_is_in_it() {
    let exceptions: std::collections::HashMap<&str, &str> =
        include_str!("data/atwater_exceptions.csv")
            .lines()
            .skip(1)
            .filter_map(|l| l.split_once(','))
            .collect();
    let mut faults = Vec::new();
    let mut used = 0;
    for food in catalogue().foods() {
        let of = |n| food.per_100g(n).unwrap_or(0.0);
        let parts = 4.0 * of(Nutrient::ProteinG)
            + 9.0 * of(Nutrient::FatG)
            + 4.0 * of(Nutrient::CarbohydrateG)
            + 7.0 * of(Nutrient::AlcoholG);
        let energy = of(Nutrient::EnergyKcal);
        if (parts - energy).abs() > 15.0_f64.max(0.15 * parts.max(energy)) {
            if exceptions.contains_key(food.code()) {
                used += 1;
            } else {
                faults.push(format!(
                    "{} {}: {energy} kcal, parts {parts:.0}",
                    food.code(),
                    food.name()
                ));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert_eq!(
        used,
        exceptions.len(),
        "an exception is listed that is none"
    );
}

/// Parts never add up to more than the whole.
#[test]
fn parts_fit_into_the_whole() {
    for food in catalogue().foods() {
        let of = |n| food.per_100g(n).unwrap_or(0.0);
        let sum = of(Nutrient::ProteinG)
            + of(Nutrient::FatG)
            + of(Nutrient::CarbohydrateG)
            + of(Nutrient::AlcoholG)
            + of(Nutrient::WaterG);
        assert!(
            sum < 104.0,
            "{} {}: parts make {sum}",
            food.code(),
            food.name()
        );
        assert!(
            of(Nutrient::SaturatedFatG) <= of(Nutrient::FatG) + 0.6,
            "{}",
            food.name()
        );
        let e = |x| food.equivalent_per_100g(x);
        let vegetables = e(Equivalent::DarkGreen)
            + e(Equivalent::RedOrange)
            + e(Equivalent::Starchy)
            + e(Equivalent::VegetablesOther);
        assert!(
            (vegetables - e(Equivalent::Vegetables)).abs() < 0.06,
            "{}",
            food.name()
        );
        let grains = e(Equivalent::WholeGrains) + e(Equivalent::RefinedGrains);
        assert!(
            (grains - e(Equivalent::Grains)).abs() < 0.06,
            "{}",
            food.name()
        );
    }
}

#[test]
fn everyday_words_find_everyday_foods() {
    let catalogue = catalogue();
    let pairs = [
        ("grilled chicken breast", "24123301"),
        ("romaine", "72116000"),
        ("olive oil", "82104000"),
        ("brown rice", "56205018"),
        ("rocket", "75113080"),
    ];
    for (words, code) in pairs {
        let found = catalogue.find(words, &Context::default(), 3);
        let food = catalogue.food(found.food.unwrap_or_else(|| panic!("{words}: nothing")));
        assert_eq!(food.code(), code, "{words} is {}", food.name());
        assert!(
            found.certainty >= Certainty::Likely,
            "{words}: {:?}",
            found.certainty
        );
    }
}
