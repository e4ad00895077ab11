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
        protein_g: None,
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
            let caps = sized.fitting.budget.caps.iter().enumerate();
            for (at, cap) in caps.filter(|(_, cap)| cap.firm) {
                let Some(subject) = room.most[at].what.subject() else {
                    continue;
                };
                let amount = eaten.line(subject).likely().unwrap_or(0.0);
                // What hardly carries it is not held to it.
                let items = sized.fitting.items.iter().zip(&sized.plate.portions);
                let hardly = items.filter(|(i, _)| i.per_gram[at] * i.served_grams <= cap.trace);
                let hardly: f64 = hardly.map(|(i, p)| i.per_gram[at] * p.eat_grams).sum();
                let most = cap.most + hardly;
                assert!(
                    within(amount, most),
                    "{name}: {} {amount} of {most}",
                    cap.name
                );
            }
        }
    }
    assert!(
        reduced > 500,
        "only {reduced} plates had anything to reduce"
    );
}

/// Protein foods (ounce-equivalents), and vegetables but starchy ones (cup-equivalents, beans,
/// peas and lentils among them), of a weighed dish.
fn kept(dish: &Dish<WeighedComponent>, catalogue: &Catalogue, day: Day<'_>) -> [f64; 2] {
    let audit = audit(dish, catalogue, day);
    let of = |group: Group| audit.ledger.line(group).likely().unwrap_or(0.0);
    let starchy = audit
        .subgroups
        .iter()
        .filter(|(s, _)| format!("{s:?}") == "Starchy");
    let starchy: f64 = starchy.map(|(_, amount)| amount).sum();
    [of(Group::ProteinFoods), of(Group::Vegetables) - starchy]
}

/// What is kept of all that was served, and in how many dishes four fifths of it are.
#[derive(Debug, Default)]
struct Kept {
    served: f64,
    eaten: f64,
    dishes: usize,
    four_fifths: usize,
    below: Vec<String>,
}

impl Kept {
    fn add(&mut self, name: &str, served: f64, eaten: f64) {
        self.served += served;
        self.eaten += eaten;
        self.dishes += 1;
        if eaten >= 0.8 * served - 1e-9 {
            self.four_fifths += 1;
        } else {
            self.below.push(format!("{name} {eaten:.1} of {served:.1}"));
        }
    }

    fn part(&self) -> f64 {
        self.eaten / self.served
    }
}

/// Of a meal of a third of 2,000 kcal: protein foods and vegetables of all dishes of the library
/// that hold a tenth or more of them, and by themselves no more than the day.
#[test]
fn protein_foods_and_vegetables_are_kept_first() {
    let catalogue = Catalogue::embedded().unwrap();
    let standard = Standard::embedded("us-style").unwrap();
    let day = Day {
        standard: &standard,
        energy_kcal: 2000.0,
        pulses: PulsesAs::Vegetables,
        protein_g: None,
    };
    let room = Room::of_day(day, 1.0 / 3.0, "this meal", Hold::Usual);
    let mut sums = [Kept::default(), Kept::default()];
    for dish in dishes(&catalogue) {
        let name = dish.name.clone().unwrap_or_default();
        let sized = right_size(&dish, &catalogue, &room);
        let served = kept(&dish, &catalogue, day);
        let eaten = sized
            .as_ref()
            .map(|s| kept(&s.eaten(&dish), &catalogue, day));
        let eaten = eaten.unwrap_or_default();
        // The day's 5.5 ounce-equivalents of protein foods and 2.5 cup-equivalents.
        for (at, most) in [5.5, 2.5].into_iter().enumerate() {
            if (0.1..=most).contains(&served[at]) {
                sums[at].add(&name, served[at], eaten[at]);
            }
        }
    }
    for (what, kept) in ["protein foods", "vegetables"].iter().zip(&sums) {
        println!(
            "{what}: {:.3} kept; four fifths or more in {} of {} dishes; below: {}",
            kept.part(),
            kept.four_fifths,
            kept.dishes,
            kept.below.join("; ")
        );
    }
    assert!(sums.iter().all(|kept| kept.part() >= 0.9), "{sums:#?}");
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
        protein_g: None,
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
                portion.limited_by.join(", "),
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
