//! Made-up entries for the day log's tests.

use std::collections::BTreeMap;

use jiff::civil::{Date, date, time};
use trencher::daylog::{EatenComponent, Entry, GroupAmount, LimitAmount, Moment};
use trencher::people::Diner;
use trencher::quantity::Range;

/// The day everything happens on.
pub fn today() -> Date {
    date(2026, 5, 20)
}

/// A diner of whom an energy is stated.
pub fn diner(name: &str) -> Diner {
    Diner {
        stated_energy_kcal: Some(2000.0),
        ..Diner::named(name)
    }
}

/// An entry whose every figure follows from `number`, with so many components.
pub fn entry(day: Date, number: u32, components: usize) -> Entry {
    let at = Moment {
        date: day,
        time: time(
            (number / 3600 % 24) as i8,
            (number / 60 % 60) as i8,
            (number % 60) as i8,
            0,
        ),
        utc_offset_seconds: 7200,
        zone: "Europe/Berlin".to_owned(),
    };
    let kcal = f64::from(number) * 1.1 + 1.0;
    let mut entry = Entry::water(
        at,
        &format!("dish {number}"),
        0.0,
        "demo 1",
        "demo standard",
    );
    entry.grams = Range::new(kcal / 3.0, kcal / 2.0, kcal);
    let range = Range::new(kcal * 0.8, kcal, kcal * 1.3);
    let limit = |unit: &str, amount| LimitAmount {
        unit: unit.to_owned(),
        amount,
    };
    entry
        .limits
        .insert("energy".to_owned(), limit("kcal", Some(range)));
    entry.limits.insert("sodium".to_owned(), limit("mg", None));
    let grains = GroupAmount {
        unit: "oz-eq".to_owned(),
        amount: Range::exact(kcal / 100.0),
        portions: Range::exact(kcal / 100.0),
    };
    entry.groups.insert("grains".to_owned(), grains);
    entry
        .nutrients
        .insert("protein_g".to_owned(), Some(kcal / 7.0));
    entry.nutrients.insert("alcohol_g".to_owned(), None);
    entry.components = (0..components).map(|at| component(number, at)).collect();
    entry
}

fn component(number: u32, at: usize) -> EatenComponent {
    EatenComponent {
        text: format!("component {at} of {number}, \"as written\""),
        food: Some("A food with quite a long name, cooked, as in a table of foods".to_owned()),
        source: Some(format!("demo {number}")),
        certainty: "likely".to_owned(),
        grams: Some(Range::new(0.25, 0.1 + 0.2, 1.0 / 3.0 + f64::from(number))),
        basis: Some("measured".to_owned()),
        free: at == 0,
        groups: BTreeMap::from([("grains".to_owned(), 1.0 / 7.0)]),
        energy_kcal: None,
        note: None,
    }
}
