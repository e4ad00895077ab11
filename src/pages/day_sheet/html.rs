//! A day sheet as a page to print.

use super::boxes::Tick;
use super::content::{DaySheet, SheetGroup};
use crate::ledger::Group;
use crate::pages::handout::{Options, PageError, rendered};
use crate::pages::plating::words::fractions;
use minijinja::context;
use minijinja::value::Value;
use std::fmt::Write as _;

/// Size of a box's own drawing, in its units.
const BOX: f64 = 20.0;

/// The page.
pub(crate) fn page(sheet: &DaySheet, options: &Options) -> Result<String, PageError> {
    let content = context! { sheet => value(sheet) };
    rendered("day.html", &sheet.title, options, content)
}

fn value(sheet: &DaySheet) -> Value {
    let groups: Vec<Value> = sheet.groups.iter().map(group).collect();
    let free: Vec<Value> = sheet
        .free
        .iter()
        .map(|(kind, foods)| context! { kind, foods => foods.join(", ") })
        .collect();
    let water = sheet
        .water
        .iter()
        .map(|ticks| cell("glass", ticks, "glasses of water"));
    context! {
        title => sheet.title.as_str(),
        day => sheet.day.as_str(),
        columns => sheet.columns.clone(),
        many => sheet.columns.len() > 1,
        week => sheet.columns.len() == 7,
        groups,
        bounds => sheet.bounds.join("; "),
        protein => sheet.protein.as_deref(),
        water => water.collect::<Vec<_>>(),
        has_water => sheet.water.iter().any(|glasses| !glasses.is_empty()),
        water_words => sheet.water_words.as_str(),
        flavours => sheet.flavours.join("; "),
        free,
        free_words => sheet.free_words,
        equals => sheet.equals.iter().map(|e| fractions(e)).collect::<Vec<_>>(),
        cautions => sheet.cautions.clone(),
        sources => sheet.sources.clone(),
    }
}

fn group(group: &SheetGroup) -> Value {
    let label = group.group.label();
    let name = label[..1].to_uppercase() + &label[1..];
    let shape = shape(group.group);
    let foods = group.foods.iter();
    let foods: Vec<String> = foods
        .map(|(food, amount)| format!("{food} {}", unbroken(amount)))
        .collect();
    let boxes = group
        .boxes
        .iter()
        .map(|ticks| cell(shape, ticks, group.group.label()));
    context! {
        name,
        portions => fractions(&group.portions),
        portion => fractions(&group.portion),
        boxes => boxes.collect::<Vec<_>>(),
        looks => fractions(&group.looks.join("; ")),
        foods => foods.join(", "),
        remark => group.remark.as_deref(),
    }
}

/// An amount that no line breaks.
fn unbroken(amount: &str) -> String {
    fractions(amount).replace(' ', "\u{a0}")
}

/// The shape of a group's boxes: told apart without colour.
const fn shape(group: Group) -> &'static str {
    match group {
        Group::Vegetables | Group::Pulses => "square",
        Group::Fruits => "circle",
        Group::Grains => "loaf",
        Group::ProteinFoods => "hexagon",
        Group::Dairy => "cup",
        Group::Oils => "drop",
    }
}

/// The outline of a shape in a square of [`BOX`].
fn outline(shape: &str) -> &'static str {
    match shape {
        "circle" => "M10 1.5a8.5 8.5 0 1 0 0 17a8.5 8.5 0 1 0 0-17z",
        "loaf" => "M1.5 18.5v-9a8.5 7.5 0 0 1 17 0v9z",
        "hexagon" => "M5.5 2h9l4.5 8l-4.5 8h-9l-4.5-8z",
        "cup" => "M3 1.5h14l-1 17h-12z",
        "drop" => "M10 1c3 5 7 8 7 11.5a7 6.5 0 0 1-14 0c0-3.500 4-6.500 7-11.500z",
        "glass" => "M3 1.5h14l-2.500 17h-9z",
        _ => "M2 2h16v16h-16z",
    }
}

/// Boxes of a cell with what they come to for who hears the page.
fn cell(shape: &str, ticks: &[Tick], what: &str) -> Value {
    let mut svg = String::new();
    for tick in ticks {
        let dashed = if tick.quarters < 4 { " part" } else { "" };
        let _ = write!(
            svg,
            "<svg class=\"tick{dashed}\" data-quarters=\"{}\" viewBox=\"0 0 {BOX} {BOX}\" aria-hidden=\"true\"><path d=\"{}\"/>",
            tick.quarters,
            outline(shape)
        );
        let part = match tick.part() {
            "1/4" => "¼",
            "1/2" => "½",
            "3/4" => "¾",
            _ => "",
        };
        if !part.is_empty() {
            let _ = write!(svg, "<text x=\"10\" y=\"14.5\">{part}</text>");
        }
        svg.push_str("</svg>");
    }
    let quarters: u32 = ticks.iter().map(|tick| u32::from(tick.quarters)).sum();
    let many = crate::ledger::fraction(f64::from(quarters) / 4.0);
    context! { svg => Value::from_safe_string(svg), aloud => format!("{many} of {what}") }
}
