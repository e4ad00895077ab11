//! Plates side by side for a terminal of 80 columns.

use super::{Cell, Comparison, Kind, Row, Side};
use crate::ledger::Verdict;
use crate::pages::layout::{grid, visible, wrap};
use crate::pages::number::{self, span};
use tabled::builder::Builder;

/// Widths of name, sides and difference for two and for three sides.
const TWO: (usize, usize, usize) = (20, 16, 22);
const THREE: (usize, usize, usize) = (16, 14, 16);

/// The whole comparison.
pub(crate) fn text(comparison: &Comparison) -> String {
    let mut page = String::new();
    for (at, side) in comparison.sides.iter().enumerate() {
        if side.kind != Kind::Day {
            page.push_str(&wrap(&headline(comparison, side, at)));
        }
    }
    page.push('\n');
    page.push_str(&table("food", &comparison.foods, comparison, food_cell));
    page.push('\n');
    let title = "limit or group";
    page.push_str(&table(title, &comparison.amounts, comparison, amount_cell));
    page.push('\n');
    page.push_str(&wrap(&format!(
        "Likely amounts; in brackets the share of {}.",
        visible(&comparison.day)
    )));
    for note in &comparison.notes {
        page.push_str(&wrap(&format!("note: {}", visible(note))));
    }
    page
}

/// Such as `A: Fish and chips, 500 to 590 g, 1,200 kcal; beyond a day: oils 2.0 times`.
fn headline(comparison: &Comparison, side: &Side, at: usize) -> String {
    let title = visible(&side.title);
    let name = match side.kind {
        Kind::Fitted => "right-sized".to_owned(),
        _ => format!("{}: {title}", side.letter),
    };
    let grams = side
        .grams
        .map_or_else(String::new, |g| format!(", {} g", span(g, number::grams)));
    let cell_of = |row: &Row| row.cells.get(at).cloned().flatten();
    let energy = comparison.amounts.iter().find(|r| r.name == "energy");
    let energy = energy.and_then(cell_of).map_or_else(String::new, |c| {
        format!(", {} kcal", number::kcal(c.amount.likely))
    });
    let over: Vec<String> = comparison
        .amounts
        .iter()
        .filter_map(|row| Some((row, cell_of(row)?)))
        .filter(|(_, cell)| cell.verdict == Some(Verdict::Beyond))
        .map(|(row, cell)| format!("{} {}", row.name, number::share(cell.share.unwrap_or(0.0))))
        .collect();
    let beyond = match over.len() {
        0 => "no limit of a day is passed".to_owned(),
        _ => format!("beyond a day's limit: {}", over.join(", ")),
    };
    format!("{name}{grams}{energy}; {beyond}")
}

fn table(
    title: &str,
    rows: &[Row],
    comparison: &Comparison,
    cell: fn(&Cell, &Row) -> String,
) -> String {
    // A day has no foods: it stands in tables that it has something in.
    let stands = |at: &usize| {
        comparison.sides[*at].kind != Kind::Day || rows.iter().any(|r| r.cells[*at].is_some())
    };
    let shown: Vec<usize> = (0..comparison.sides.len()).filter(stands).collect();
    let differs = rows.iter().any(|r| !r.difference.is_empty());
    let mut table = Builder::default();
    let mut head = vec![title.to_owned()];
    head.extend(shown.iter().map(|at| title_of(&comparison.sides[*at])));
    if differs {
        head.push("difference".to_owned());
    }
    table.push_record(head);
    for row in rows {
        let mut record = vec![named(row)];
        record.extend(shown.iter().map(|at| {
            let told = row.cells[*at].as_ref();
            told.map_or_else(|| "none".to_owned(), |c| cell(c, row))
        }));
        if differs {
            record.push(row.difference.replace("; ", "\n"));
        }
        table.push_record(record);
    }
    let (name, side, difference) = if shown.len() > 2 { THREE } else { TWO };
    let mut widths = vec![name];
    widths.extend(shown.iter().map(|_| side));
    if differs {
        widths.push(difference);
    }
    grid(table, &widths, &[])
}

fn title_of(side: &Side) -> String {
    match side.kind {
        Kind::Served => format!("{}: {}", side.letter, visible(&side.title)),
        Kind::Fitted | Kind::Day => side.letter.clone(),
    }
}

fn named(row: &Row) -> String {
    if row.cells.iter().flatten().any(|c| c.size.is_some()) {
        visible(&row.name)
    } else {
        format!("{}, {}", row.name, row.unit)
    }
}

fn food_cell(cell: &Cell, _: &Row) -> String {
    let grams = number::grams(cell.amount.likely);
    match &cell.size {
        Some(size) => format!("{size}, {grams} g"),
        None => format!("{grams} g"),
    }
}

fn amount_cell(cell: &Cell, row: &Row) -> String {
    let amount = number::amount(&row.unit, cell.amount.likely);
    match cell.share {
        Some(share) => format!("{amount} ({})", number::share(share)),
        None => amount,
    }
}
