//! Menu lines as they are printed, with the role of every phrase and what must be on the plate.
//!
//! The table was written before the grammar, from how menus are printed (common practice of the trade; no line
//! is from a real restaurant). A third of it, `aside`, was not looked at while the grammar was built.

use trencher::reading::{PhraseRole, Reading, parse_menu_line};

#[derive(Debug, serde::Deserialize)]
struct Row {
    part: String,
    topic: String,
    kitchen: String,
    line: String,
    roles: String,
    holds: String,
}

fn rows() -> Vec<Row> {
    let text = include_str!("data/menu_lines.csv");
    csv::Reader::from_reader(text.as_bytes())
        .into_deserialize()
        .map(|row| row.expect("a row of the table"))
        .collect()
}

/// Roles of a line as the table writes them: all but filler.
fn roles(reading: &Reading) -> String {
    let said = reading
        .phrases
        .iter()
        .filter(|p| p.role != PhraseRole::Filler);
    said.map(|p| format!("{}={}", p.role.word(), reading.words_of(p)))
        .collect::<Vec<_>>()
        .join(" ~ ")
}

/// What each phrase of a line says, once it is known whether the dish is.
fn read(text: &str) -> Reading {
    weighed(text).dish.read.expect("a line of a menu is read")
}

/// Shares of the lines that are right, of the part built with and of the part kept aside.
fn shares(right: impl Fn(&Row) -> bool) -> [f64; 2] {
    let rows = rows();
    ["built", "aside"].map(|part| {
        let own: Vec<&Row> = rows.iter().filter(|row| row.part == part).collect();
        let good = own.iter().filter(|row| {
            let fine = right(row);
            if !fine && (part == "built" || std::env::var_os("SHOW_ASIDE").is_some()) {
                println!(
                    "{part}, {}: {}\n    wanted {}\n    read   {}",
                    row.topic,
                    row.line,
                    row.roles,
                    roles(&read(&row.line))
                );
            }
            fine
        });
        good.count() as f64 / own.len() as f64
    })
}

#[test]
fn the_table_covers_kitchens_and_topics() {
    let rows = rows();
    assert!(rows.len() >= 300);
    let kitchens: std::collections::HashSet<_> = rows.iter().map(|row| &row.kitchen).collect();
    assert!(kitchens.len() >= 25);
    assert!(rows.iter().filter(|row| row.part == "aside").count() * 4 > rows.len());
    assert!(rows.iter().filter(|row| !row.holds.is_empty()).count() * 4 > rows.len() * 3);
}

#[test]
fn every_phrase_has_its_role() {
    let [built, aside] = shares(|row| roles(&read(&row.line)) == row.roles);
    println!(
        "roles right: {:.1} % of the lines built with, {:.1} % of those kept aside",
        100.0 * built,
        100.0 * aside
    );
    assert!(built >= 0.95, "{built}");
    assert!(aside >= 0.80, "{aside}");
}

/// The weighed dish of a line.
fn weighed(text: &str) -> trencher::weighing::Estimated {
    use trencher::matching::Catalogue;
    use trencher::reading::UnitSystem;
    use trencher::weighing::{Finds, MenuContext, Request, estimate_line};
    static CATALOGUE: std::sync::LazyLock<Catalogue> =
        std::sync::LazyLock::new(|| Catalogue::embedded().expect("the catalogue opens"));
    static KNOWN: std::sync::LazyLock<trencher::store::KnownDishes> =
        std::sync::LazyLock::new(|| {
            trencher::store::KnownDishes::of(&trencher::store::Library::built_in())
        });
    let context = MenuContext {
        finds: &Finds::new(&CATALOGUE),
        known: &KNOWN.finder(UnitSystem::Us),
        units: UnitSystem::Us,
        british: false,
    };
    estimate_line(&parse_menu_line(text), None, &Request::default(), context)
}

/// Whether the plate holds what the table says (`!` for what it must not hold, `?` for a main dish that is
/// not known): among the words of its components and the names of their foods.
fn holds(row: &Row) -> bool {
    use trencher::matching::Catalogue;
    let catalogue = Catalogue::embedded().expect("the catalogue opens");
    let estimated = weighed(&row.line);
    let plate: Vec<String> = estimated
        .dish
        .components
        .iter()
        .filter(|c| !c.matched.line.text.starts_with("table salt"))
        .map(|c| {
            let food = c.matched.food.map_or("", |id| catalogue.food(id).name());
            let text = &c.matched.line.text;
            format!("{text} {food}").to_lowercase()
        })
        .collect();
    let unknown = estimated
        .dish
        .components
        .iter()
        .any(trencher::weighing::WeighedComponent::is_unknown_main);
    let fine = row
        .holds
        .split(',')
        .filter(|word| !word.is_empty())
        .all(|word| {
            let there = |word: &str| plate.iter().any(|text| text.contains(word));
            match word.strip_prefix('!') {
                Some(absent) => !there(absent),
                None if word == "?" => unknown,
                None => there(word),
            }
        });
    if !fine && (row.part == "built" || std::env::var_os("SHOW_ASIDE").is_some()) {
        println!(
            "{}: wanted {} on {plate:?}, unknown {unknown}",
            row.line, row.holds
        );
    }
    fine
}

#[test]
fn the_plate_holds_what_the_line_says() {
    let rows = rows();
    let share = |part: &str| {
        let own: Vec<&Row> = rows
            .iter()
            .filter(|row| row.part == part && !row.holds.is_empty())
            .collect();
        own.iter().filter(|row| holds(row)).count() as f64 / own.len() as f64
    };
    let (built, aside) = (share("built"), share("aside"));
    println!(
        "plates right: {:.1} % of the lines built with, {:.1} % of those kept aside",
        100.0 * built,
        100.0 * aside
    );
    assert!(built >= 0.9, "{built}");
    assert!(aside >= 0.8, "{aside}");
}
