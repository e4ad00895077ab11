//! Jots and sentences as people write them, against a table of our own: what was eaten and how
//! much of it. Weights were worked out by hand from published household measures (USDA FNDDS
//! and SR28) and public-health cards of everyday sizes. A third of the lines, told by a hash,
//! was not looked at while the readers were built.

use trencher::matching::Catalogue;
use trencher::reading::{Dish, Place, UnitSystem, is_told, parse_component, parse_told};
use trencher::weighing::{Request, estimate, match_dish};

/// How far a weight may be from the expected one, as a share of it: hands and pieces differ.
const WITHIN: f64 = 0.25;

/// FNV-1a; the lines with a hash divisible by three are the third set aside.
fn is_aside(text: &str) -> bool {
    let hash = text.bytes().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    });
    hash.is_multiple_of(3)
}

/// What is wrong with what the program makes of `text`; nothing when all is as expected.
fn wrong(text: &str, expected: &str, catalogue: &Catalogue) -> Option<String> {
    let place = Place::new("test", 1, 1);
    let components = if is_told(text) {
        parse_told(text, &place, UnitSystem::Us).components
    } else {
        match parse_component(text, place, UnitSystem::Us) {
            Ok(line) => vec![line],
            Err(error) => return Some(error.to_string()),
        }
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
    let got: Vec<(String, f64)> = weighed
        .dish
        .components
        .iter()
        .map(|c| {
            let food = c
                .matched
                .food
                .map(|id| catalogue.food(id).name().to_lowercase());
            let told = format!("{} {}", food.unwrap_or_default(), c.matched.line.food);
            (told, c.grams().map_or(0.0, |grams| grams.mean))
        })
        .collect();
    let all = expected.split(';').all(|part| {
        let (food, grams) = part.split_once('=').expect("food=grams");
        let grams: f64 = grams.parse().expect("grams");
        got.iter()
            .any(|(name, have)| name.contains(food) && (have / grams - 1.0).abs() <= WITHIN)
    });
    (!all).then(|| format!("{text}: expected {expected}, got {got:?}"))
}

#[test]
fn jots_and_sentences_are_understood() {
    let catalogue = Catalogue::embedded().expect("the catalogue opens");
    let mut reader = csv::Reader::from_reader(&include_bytes!("data/jots.csv")[..]);
    let (mut seen, mut aside) = ((0, Vec::new()), (0, Vec::new()));
    for row in reader.records() {
        let row = row.expect("two cells");
        let part = if is_aside(&row[0]) {
            &mut aside
        } else {
            &mut seen
        };
        part.0 += 1;
        part.1.extend(wrong(&row[0], &row[1], &catalogue));
    }
    for (name, (many, wrong)) in [("seen", &seen), ("set aside", &aside)] {
        println!("{name}: {} of {many} right", many - wrong.len());
    }
    assert!(seen.0 + aside.0 >= 150, "{} lines", seen.0 + aside.0);
    // Nine in ten; only lines that were looked at are shown.
    assert!(
        aside.1.len() * 10 <= aside.0,
        "{} of {} set aside are wrong",
        aside.1.len(),
        aside.0
    );
    assert!(
        seen.1.len() * 10 <= seen.0,
        "{} wrong:\n{}",
        seen.1.len(),
        seen.1.join("\n")
    );
}
