//! Writes the table of menu lines, or says whether it is stale.
//!
//! `cargo run --release --example menu_lines > src/weighing/MENU_LINES.md`
//! `cargo run --release --example menu_lines -- check src/weighing/MENU_LINES.md`

use std::fmt::Write as _;
use trencher::matching::Catalogue;
use trencher::reading::{UnitSystem, parse_menu_line};
use trencher::store::{KnownDishes, Library};
use trencher::weighing::{
    Estimated, Finds, MenuContext, Request, WeighedComponent, energy, estimate_line,
    narrowest_question,
};

const HEAD: &str = "\
# Thirty menu lines

Our own lines, estimated by name alone. The lines are invented; no truth is known for them.

- Write anew: `cargo run --release --example menu_lines > src/weighing/MENU_LINES.md`
- Is it stale: `cargo run --release --example menu_lines -- check src/weighing/MENU_LINES.md`

| menu line | served, g | energy, kcal | 80 % range, kcal | what decided it |
|---|---:|---:|---:|---|
";

/// The lines are our own.
const LINES: [&str; 30] = [
    "grilled chicken cobb with avocado, bacon, blue cheese and ranch; garlic bread on the side",
    "Caesar salad, add shrimp, no croutons",
    "house salad with balsamic vinaigrette",
    "Greek salad with grilled salmon",
    "chicken burrito bowl with black beans, cheese and guacamole, no rice",
    "tuna poke bowl with edamame, cucumber and spicy mayo",
    "turkey and swiss on rye with chips",
    "BLT with avocado",
    "bacon cheeseburger with fries, double meat",
    "burger, sub side salad for fries",
    "spaghetti with meatballs",
    "fettuccine with cream sauce and grilled chicken",
    "lasagna",
    "general tso's chicken with white rice",
    "beef with broccoli",
    "vegetable lo mein",
    "chicken tikka masala with basmati rice and naan",
    "pad thai with shrimp",
    "pepperoni pizza",
    "crispy fish tacos with slaw and chipotle mayo",
    "cheese quesadilla with sour cream",
    "8 oz ribeye with mashed potatoes and sauteed spinach",
    "pan-seared salmon served with rice pilaf, green beans",
    "10 wings with ranch and celery",
    "omelette with ham and cheddar; toast and hash browns",
    "pancakes with bacon",
    "New England clam chowder",
    "mozzarella sticks with marinara",
    "whole lobster with drawn butter",
    "cheesecake with strawberries",
];

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let table = table()?;
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    match arguments.as_slice() {
        [] => print!("{table}"),
        [check, file] if check == "check" => {
            let committed = std::fs::read_to_string(file)?;
            let stale = stale(&table, &committed);
            if !stale.is_empty() {
                let lines = stale.join("\n");
                return Err(
                    format!("{file} is stale, write it anew; what differs:\n{lines}").into(),
                );
            }
            println!("{file} is up to date");
        }
        _ => return Err("give nothing, or `check FILE`".into()),
    }
    Ok(())
}

/// Lines that one of the two tables has and the other has not.
#[must_use]
pub fn stale<'t>(now: &'t str, committed: &'t str) -> Vec<&'t str> {
    let lacks = |text: &str, line: &str| !text.lines().any(|other| other == line);
    let more = now.lines().filter(|line| lacks(committed, line));
    let less = committed.lines().filter(|line| lacks(now, line));
    more.chain(less).collect()
}

/// The table as it is now. Fails when the built-in catalogue does not open.
pub fn table() -> Result<String, Box<dyn std::error::Error>> {
    let catalogue = Catalogue::embedded()?;
    let dishes = KnownDishes::of(&Library::built_in());
    let known = dishes.finder(UnitSystem::Us);
    let context = MenuContext {
        finds: &Finds::new(&catalogue),
        known: &known,
        units: UnitSystem::Us,
        british: false,
    };
    let mut text = String::from(HEAD);
    for words in LINES {
        let line = parse_menu_line(words);
        let estimated = estimate_line(&line, None, &Request::default(), context);
        let grams: f64 = estimated
            .dish
            .components
            .iter()
            .filter_map(WeighedComponent::grams)
            .map(|g| g.mean)
            .sum();
        let energy = energy(&estimated.dish.components, &catalogue).range();
        writeln!(
            text,
            "| {words} | {:.0} | {:.0} | {:.0} to {:.0} | {} |",
            tens(grams),
            tens(energy.likely),
            tens(energy.low),
            tens(energy.high),
            decided(&estimated, &catalogue)
        )?;
    }
    Ok(text)
}

fn tens(value: f64) -> f64 {
    (value / 10.0).round() * 10.0
}

/// The kind, the library's dish, and the component with most of the doubt.
fn decided(estimated: &Estimated, catalogue: &Catalogue) -> String {
    let mut told = Vec::new();
    told.extend(
        estimated
            .notes
            .iter()
            .find(|n| n.starts_with("amounts start"))
            .cloned(),
    );
    if told.is_empty() {
        told.extend(
            estimated
                .dish
                .kind
                .as_ref()
                .map(|kind| format!("kind: {kind}")),
        );
    }
    let question = narrowest_question(&estimated.dish.components, catalogue);
    told.extend(question.map(|q| q.to_string()));
    told.join("; ")
}
