//! Household measures asked as text, held against USDA's own grams.

use trencher::foods::Food;
use trencher::matching::{Catalogue, Context};
use trencher::reading::{Place, UnitSystem, parse_component};
use trencher::weighing::weigh;

/// A small generator of reproducible numbers (Knuth's MMIX constants).
struct Draw(u64);

impl Draw {
    fn below(&mut self, bound: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % bound
    }
}

const SEED: u64 = 20_261_125;
const ROWS: usize = 200;

/// How often each amount is said, and how.
const TIMES: [(f64, &str); 5] = [
    (1.0, "1"),
    (2.0, "2"),
    (0.5, "1/2"),
    (1.5, "1 1/2"),
    (3.0, "3"),
];

/// A portion row as a person would say it: without brackets, unless it is no amount at all.
fn said(food: &Food<'_>, measure: &str, times: &str) -> Option<String> {
    let rest = measure.strip_prefix("1 ")?;
    if measure.starts_with("1 oz") || measure.starts_with("1 lb") || rest.contains("yield") {
        return None;
    }
    let plain: String = rest
        .split('(')
        .next()?
        .trim()
        .trim_end_matches(',')
        .to_owned();
    let (unit, manner) = plain.split_once(", ").unwrap_or((&plain, ""));
    let manner = if manner.is_empty() {
        String::new()
    } else {
        format!(", {manner}")
    };
    Some(format!("{times} {unit} {}{manner}", food.name()))
}

/// USDA FNDDS 2021-2023 portions and SR28 weights, 200 rows drawn at random: at least 85 %
/// within 10 % of USDA's grams.
#[test]
fn household_measures_weigh_what_usda_says() {
    let catalogue = Catalogue::embedded().expect("the embedded catalogue opens");
    let foods: Vec<Food<'_>> = catalogue.foods().collect();
    let mut draw = Draw(SEED);
    let (mut asked, mut right, mut wrong) = (0, 0, Vec::new());
    while asked < ROWS {
        let food = foods[draw.below(foods.len())];
        let measures: Vec<_> = food.measures().collect();
        if measures.is_empty() {
            continue;
        }
        let measure = measures[draw.below(measures.len())];
        let (times, words) = TIMES[draw.below(TIMES.len())];
        let Some(text) = said(&food, measure.text, words) else {
            continue;
        };
        asked += 1;
        let expected = measure.grams * times;
        let grams = weighed(&catalogue, &text);
        if grams.is_some_and(|g| (g / expected - 1.0).abs() <= 0.10) {
            right += 1;
        } else {
            wrong.push(format!("{text}: {grams:?} for {expected}"));
        }
    }
    println!("{right} of {asked} within 10 %\n{}", wrong.join("\n"));
    assert!(
        right * 100 >= asked * 85,
        "{right} of {asked}:\n{}",
        wrong.join("\n")
    );
}

/// The whole way: words, food, measure, grams.
fn weighed(catalogue: &Catalogue, text: &str) -> Option<f64> {
    let line = parse_component(text, Place::new("test", 1, 1), UnitSystem::Us).ok()?;
    let food = catalogue.food(catalogue.find(&line.food, &Context::default(), 2).food?);
    Some(weigh(&food, line.amount.as_ref()?, &line.food)?.grams.mean)
}
