//! Menu lines as they are printed, with the role of every phrase and what must be on the plate.
//!
//! The table was written before the grammar, from how menus are printed (common practice of the trade; no line
//! is from a real restaurant). A third of it, `aside`, was not looked at while the grammar was built.

use trencher::reading::{MenuLine, PhraseRole, parse_menu_line};

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
fn roles(line: &MenuLine) -> String {
    let reading = &line.reading;
    let said = reading
        .phrases
        .iter()
        .filter(|p| p.role != PhraseRole::Filler);
    said.map(|p| format!("{}={}", p.role.word(), reading.words_of(p)))
        .collect::<Vec<_>>()
        .join(" ~ ")
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
                    roles(&parse_menu_line(&row.line))
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
    let [built, aside] = shares(|row| roles(&parse_menu_line(&row.line)) == row.roles);
    println!(
        "roles right: {:.1} % of the lines built with, {:.1} % of those kept aside",
        100.0 * built,
        100.0 * aside
    );
    assert!(built >= 0.95, "{built}");
    assert!(aside >= 0.80, "{aside}");
}
