//! Menus: one worker on items that it knows and on new amounts, then a whole menu through the
//! program, and beside it a peer that does the matching alone: pandas and `RapidFuzz` over the
//! same components and all names of the catalogue.
//!
//! ```text
//! cargo bench --bench menu
//! ```
//!
//! The peer runs where `python3` (or what `PEER_PYTHON` names) can import `pandas` and
//! `rapidfuzz`; elsewhere it is left out, and the run says so.

#[path = "../../examples/make_menu/maker.rs"]
mod maker;
mod peer;
mod whole;

use criterion::{Criterion, Throughput};
use std::hint::black_box;
use trencher::fit::{Hold, Room};
use trencher::ledger::{Day, PulsesAs, Standard};
use trencher::matching::Catalogue;
use trencher::menu::{Auditor, Item, Setting};
use trencher::reading::UnitSystem;
use trencher::store::{KnownDishes, Library};

fn menus(c: &mut Criterion) {
    let (Ok(catalogue), Some(standard)) = (Catalogue::embedded(), Standard::embedded("us-style"))
    else {
        return;
    };
    let dishes = KnownDishes::of(&Library::built_in());
    let day = Day {
        standard: &standard,
        energy_kcal: 2_000.0,
        pulses: PulsesAs::Vegetables,
        protein_g: None,
    };
    let room = Room::of_day(day, 0.3, "this meal", Hold::Usual);
    let setting = Setting {
        catalogue: &catalogue,
        dishes: &dishes,
        day,
        room: &room,
        units: UnitSystem::Us,
        as_written: false,
        service: None,
        kitchens: None,
    };
    let item = |name: &str, components: String| Item {
        name: name.to_owned(),
        components,
        ..Item::default()
    };
    let mut group = c.benchmark_group("menu");
    group.throughput(Throughput::Elements(1));
    let known = item(
        "Bowl",
        "1 cup white rice; salmon 6 oz; 1 cup broccoli; soy sauce 1 tbsp".to_owned(),
    );
    let mut auditor = Auditor::new(setting);
    group.bench_function("known components", |b| {
        b.iter(|| auditor.row(black_box(&known)).is_ok());
    });
    let mut at = 0_u32;
    group.bench_function("new amounts", |b| {
        b.iter(|| {
            at += 1;
            let new = item(
                "Bowl",
                format!(
                    "{at}.1 g white rice; salmon {at}.2 g; {at}.3 g broccoli; soy sauce {at}.4 g"
                ),
            );
            auditor.row(black_box(&new)).is_ok()
        });
    });
    group.finish();
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut criterion = Criterion::default().configure_from_args();
    menus(&mut criterion);
    criterion.final_summary();
    whole::compare()
}
