//! Auditing items one after the other, as one worker does: what a menu repeats, and items of
//! which every component is new. Whole runs are timed with `examples/make_menu.rs`, see
//! DEVELOPERS.md.

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use std::hint::black_box;
use trencher::catalogue::Catalogue;
use trencher::fit::{Hold, Room};
use trencher::groups::{Day, PulsesAs, Standard};
use trencher::library::Library;
use trencher::menu::{Auditor, Item, KnownDishes, Setting};
use trencher::reading::UnitSystem;

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
    };
    let room = Room::of_day(day, 0.3, "this meal", Hold::Usual);
    let setting = Setting {
        catalogue: &catalogue,
        dishes: &dishes,
        day,
        room: &room,
        units: UnitSystem::Us,
        as_written: false,
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

criterion_group!(benches, menus);
criterion_main!(benches);
