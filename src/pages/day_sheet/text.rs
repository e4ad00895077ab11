//! A day sheet as text for 80 columns.

use super::boxes::Tick;
use super::content::{DaySheet, SheetGroup};
use crate::ledger::Group;
use crate::pages::layout::{LINE_WIDTH, visible, width, wrap};

/// Columns that names of groups take.
const NAME: usize = 14;

impl DaySheet {
    /// The sheet, to print as it is.
    pub(crate) fn text(&self) -> String {
        let mut page = wrap(&visible(&self.title));
        page.push_str(&wrap(&visible(&self.day)));
        page.push('\n');
        page.push_str(&self.boxes());
        page.push('\n');
        page.push_str(&wrap(&format!("Stay within: {}", self.bounds.join("; "))));
        if let Some(protein) = &self.protein {
            page.push_str(&wrap(&format!("Protein: {protein}")));
        }
        page.push_str("\nWhat one portion is, best foods first\n");
        for group in &self.groups {
            page.push_str(&wrap(&portion_line(group)));
        }
        page.push_str("\nWhat these equal\n");
        page.push_str(&wrap(&self.equals.join("; ")));
        page.push_str("\nFree foods\n");
        page.push_str(&wrap(self.free_words));
        for (kind, foods) in &self.free {
            page.push_str(&wrap(&format!("{kind}: {}", foods.join(", "))));
        }
        page.push_str("\nWater\n");
        page.push_str(&wrap(&self.water_words));
        page.push_str(&wrap(&format!("Flavour it: {}", self.flavours.join("; "))));
        page.push('\n');
        for caution in &self.cautions {
            page.push_str(&wrap(&visible(caution)));
        }
        for source in &self.sources {
            page.push_str(&wrap(&visible(source)));
        }
        page
    }

    /// The boxes, groups below each other, columns side by side.
    fn boxes(&self) -> String {
        let columns = self.columns.len().max(1);
        let cell = (LINE_WIDTH - NAME) / columns;
        let mut page = String::new();
        if columns > 1 {
            let names = self.columns.iter().map(|name| pad(&visible(name), cell));
            page.push_str(&line(&" ".repeat(NAME), names));
        }
        for group in &self.groups {
            let (open, close) = brackets(group.group);
            let name = group.group.label();
            page.push_str(&rows(name, &group.boxes, open, close, cell));
        }
        if self.water.iter().any(|glasses| !glasses.is_empty()) {
            page.push_str(&rows("glasses", &self.water, "\\", "/", cell));
        }
        page
    }
}

/// The boxes of a group: as many lines as its fullest column needs.
fn rows(name: &str, boxes: &[Vec<Tick>], open: &str, close: &str, cell: usize) -> String {
    let drawn: Vec<Vec<String>> = boxes
        .iter()
        .map(|ticks| packed(ticks, open, close, cell))
        .collect();
    let lines = drawn.iter().map(Vec::len).max().unwrap_or(0);
    let mut page = String::new();
    for at in 0..lines {
        let head = if at == 0 { name } else { "" };
        let cells = drawn.iter().map(|column| {
            let words = column.get(at).map_or("", String::as_str);
            pad(words, cell)
        });
        page.push_str(&line(&pad(head, NAME), cells));
    }
    page
}

/// Boxes in lines no wider than a cell.
fn packed(ticks: &[Tick], open: &str, close: &str, cell: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for tick in ticks {
        let part = if tick.part().is_empty() {
            " "
        } else {
            tick.part()
        };
        let drawn = format!("{open}{part}{close} ");
        let full = lines
            .last()
            .is_some_and(|l| width(l) + width(&drawn) > cell);
        if full {
            lines.push(String::new());
        }
        if let Some(last) = lines.last_mut() {
            last.push_str(&drawn);
        }
    }
    lines
}

fn pad(words: &str, room: usize) -> String {
    format!("{words}{}", " ".repeat(room.saturating_sub(width(words))))
}

fn line(head: &str, cells: impl Iterator<Item = String>) -> String {
    let all: String = std::iter::once(head.to_owned()).chain(cells).collect();
    format!("{}\n", all.trim_end())
}

/// The shape of a group's boxes.
const fn brackets(group: Group) -> (&'static str, &'static str) {
    match group {
        Group::Vegetables | Group::Pulses => ("[", "]"),
        Group::Fruits => ("(", ")"),
        Group::Grains => ("<", ">"),
        Group::ProteinFoods => ("{", "}"),
        Group::Dairy => ("|", "|"),
        Group::Oils => ("/", "\\"),
    }
}

fn portion_line(group: &SheetGroup) -> String {
    let foods = group.foods.iter();
    let foods: Vec<String> = foods
        .map(|(food, amount)| format!("{food} {amount}"))
        .collect();
    let remark = group
        .remark
        .as_ref()
        .map_or(String::new(), |r| format!("; {r}"));
    format!(
        "{}, {}, one is {} ({}): {}{remark}",
        group.group.label(),
        group.portions,
        group.portion,
        group.looks.join("; "),
        foods.join(", ")
    )
}
