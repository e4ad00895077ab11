//! A booklet of 60 dishes, from weighed plates to the page's text.

use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use trencher::fit::{Hold, Room, right_size};
use trencher::ledger::{Day, PulsesAs, Standard, audit};
use trencher::matching::Catalogue;
use trencher::pages::handout::{Handout, Options, booklet};
use trencher::pages::plating::{Fitted, Plated, handout};
use trencher::reading::{UnitSystem, parse_dish_file};
use trencher::store::Library;
use trencher::weighing::{match_dish, weigh_dish};

fn page(text: &str, catalogue: &Catalogue, day: Day<'_>) -> Option<Handout> {
    let dish = parse_dish_file("dish", text, UnitSystem::Us).ok()?;
    let dish = weigh_dish(match_dish(dish, catalogue, false), catalogue);
    let audit = audit(&dish, catalogue, day);
    let room = Room::of_day(day, 1.0 / 3.0, "this meal", Hold::Usual);
    let sized = right_size(&dish, catalogue, &room).ok();
    let fitted = sized.map(|s| Fitted::of(&s, &dish, "a third of the day", &[], UnitSystem::Us));
    let plated = Plated {
        dish: &dish,
        audit: &audit,
        fitted: fitted.as_ref(),
        day: "a day of 2,000 kcal",
        standard_source: &day.standard.source,
        notes: &[],
        units: UnitSystem::Us,
    };
    Some(handout(plated, catalogue))
}

fn booklets(criterion: &mut Criterion) {
    let (Ok(catalogue), Some(standard)) = (Catalogue::embedded(), Standard::embedded("us-style"))
    else {
        return;
    };
    let day = Day {
        standard: &standard,
        energy_kcal: 2000.0,
        pulses: PulsesAs::Vegetables,
        protein_g: None,
    };
    let library = Library::built_in();
    let texts: Vec<&str> = library
        .entries()
        .iter()
        .take(60)
        .map(|e| &*e.text)
        .collect();
    criterion.bench_function("booklet of 60 dishes", |bencher| {
        bencher.iter(|| {
            let pages: Vec<Handout> = texts
                .iter()
                .filter_map(|text| page(text, &catalogue, day))
                .collect();
            black_box(booklet("Dishes", &pages, &Options::default()))
        });
    });
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(10);
    targets = booklets
}
criterion_main!(benches);
