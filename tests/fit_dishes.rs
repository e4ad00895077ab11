//! The right-sized plate of every dish in the library: no cap is passed, every component is
//! accounted for, what is eaten is what was audited.

use trencher::fit::{Hold, Room, Unfit, right_size};
use trencher::ledger::{Amounts, Day, Group, Limit, PulsesAs, Standard, audit};
use trencher::matching::Catalogue;
use trencher::reading::{Dish, UnitSystem, parse_dish_file};
use trencher::store::Library;
use trencher::weighing::{WeighedComponent, match_dish, weigh_dish};

fn dishes(catalogue: &Catalogue) -> Vec<Dish<WeighedComponent>> {
    let library = Library::built_in();
    let read = library.entries().iter().map(|entry| {
        let dish = parse_dish_file(&entry.slug, &entry.text, UnitSystem::Us).expect(&entry.slug);
        weigh_dish(match_dish(dish, catalogue, false), catalogue)
    });
    read.collect()
}

fn rooms(day: Day<'_>) -> Vec<Room> {
    let mut rooms: Vec<Room> = [0.1, 0.3, 1.0 / 3.0, 1.0]
        .into_iter()
        .flat_map(|share| {
            [Hold::Usual, Hold::Strict].map(|hold| Room::of_day(day, share, "this meal", hold))
        })
        .collect();
    let eaten = Amounts::from_iter([
        (Limit::Energy.into(), 1300.0),
        (Group::Grains.into(), 6.5),
        (Group::ProteinFoods.into(), 3.0),
        (Limit::SaturatedFat.into(), 30.0),
        (Limit::Sodium.into(), 1500.0),
    ]);
    rooms.push(Room::left(
        day,
        &eaten,
        "what is left of today",
        Hold::Usual,
    ));
    rooms
}

#[test]
fn no_dish_of_the_library_passes_what_it_may_take() {
    let catalogue = Catalogue::embedded().unwrap();
    let standard = Standard::embedded("us-style").unwrap();
    let day = Day {
        standard: &standard,
        energy_kcal: 2000.0,
        pulses: PulsesAs::Vegetables,
    };
    let mut reduced = 0;
    for dish in dishes(&catalogue) {
        let name = dish.name.clone().unwrap_or_default();
        for room in rooms(day) {
            let sized = match right_size(&dish, &catalogue, &room) {
                Ok(sized) => sized,
                Err(Unfit::Nothing { .. }) => continue,
                Err(other) => panic!("{name}: {other}"),
            };
            let parts = sized.parts(&dish);
            assert!(
                parts
                    .iter()
                    .all(|p| p.is_some_and(|p| p > -1e-9 && p < 1.0 + 1e-9))
            );
            reduced += usize::from(!sized.plate.is_whole());
            // The audit of what is eaten, by another way through the figures.
            let eaten = audit(&sized.eaten(&dish), &catalogue, day).ledger;
            let within = |amount: f64, most: f64| amount <= most * (1.0 + 1e-5) + 1e-6;
            let energy = eaten.line(Limit::Energy).likely().unwrap_or(0.0);
            assert!(within(energy, room.energy_kcal), "{name}: energy");
            for most in room.most.iter().filter(|m| m.firm) {
                let Some(subject) = most.what.subject() else {
                    continue;
                };
                let amount = eaten.line(subject).likely().unwrap_or(0.0);
                let what = most.what.label();
                assert!(
                    within(amount, most.most),
                    "{name}: {what} {amount} of {}",
                    most.most
                );
            }
        }
    }
    assert!(
        reduced > 500,
        "only {reduced} plates had anything to reduce"
    );
}

/// `cargo test --test fit_dishes -- --ignored --nocapture` shows every plate.
#[test]
#[ignore = "for reading, not for checking"]
fn every_plate_to_read() {
    let catalogue = Catalogue::embedded().unwrap();
    let standard = Standard::embedded("us-style").unwrap();
    let day = Day {
        standard: &standard,
        energy_kcal: 2000.0,
        pulses: PulsesAs::Vegetables,
    };
    let room = Room::of_day(day, 1.0 / 3.0, "this meal", Hold::Usual);
    let mut kept = Vec::new();
    for dish in dishes(&catalogue) {
        let name = dish.name.clone().unwrap_or_default();
        let sized = match right_size(&dish, &catalogue, &room) {
            Ok(sized) => sized,
            Err(unfit) => {
                println!("\n{name}: {unfit}");
                continue;
            }
        };
        let plate = &sized.plate;
        kept.push(plate.kept_by_energy());
        println!(
            "\n{name}: {:.0} % by weight, {:.0} % by energy ({:.0} of {:.0} kcal), gap {:.3}",
            plate.kept_by_weight() * 100.0,
            plate.kept_by_energy() * 100.0,
            plate.eat_kcal,
            plate.served_kcal,
            plate.gap
        );
        for (portion, members) in plate.portions.iter().zip(&sized.fitting.members) {
            let with: Vec<&str> = members[1..]
                .iter()
                .map(|m| dish.components[m.component].matched.line.food.as_str())
                .collect();
            println!(
                "  {:36} {:4.0} g  {:14} {:4.0} g  box {:18} {} {}",
                portion.name,
                portion.served_grams,
                portion.eat,
                portion.eat_grams,
                portion.boxed,
                portion.held_by.join(", "),
                if with.is_empty() {
                    String::new()
                } else {
                    format!("(with {})", with.join(", "))
                },
            );
        }
        for remark in &plate.remarks {
            println!("  - {remark}");
        }
    }
    kept.sort_by(f64::total_cmp);
    let at = |part: f64| kept[((kept.len() - 1) as f64 * part) as usize] * 100.0;
    println!(
        "\nkept by energy, %: least {:.0}, tenth {:.0}, quarter {:.0}, half {:.0}, three quarters {:.0}, most {:.0}",
        at(0.0),
        at(0.1),
        at(0.25),
        at(0.5),
        at(0.75),
        at(1.0)
    );
}
