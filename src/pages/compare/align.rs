//! Which foods of different dishes face each other.

use super::{Cell, Column, Row};
use crate::ledger::Group;
use crate::pages::plating::Seen;
use crate::quantity::Range;

/// A row in the making: at most one food a side.
struct Facing<'a> {
    foods: Vec<Option<&'a Seen>>,
}

/// Foods in rows: the very same food first, then foods of one family with the same last word
/// (two kinds of lettuce); what is left stands alone. Rows follow the groups' order.
pub(super) fn aligned(columns: &[Column]) -> Vec<Row> {
    let mut rows: Vec<Facing<'_>> = Vec::new();
    for (side, column) in columns.iter().enumerate() {
        for food in &column.foods {
            let same = |row: &Facing<'_>| {
                row.foods[side].is_none() && row.foods.iter().flatten().any(|f| f.food == food.food)
            };
            let alike = |row: &Facing<'_>| {
                row.foods[side].is_none() && row.foods.iter().flatten().any(|f| is_alike(f, food))
            };
            let found = rows
                .iter()
                .position(same)
                .or_else(|| rows.iter().position(alike));
            if let Some(at) = found {
                rows[at].foods[side] = Some(food);
                continue;
            }
            let mut foods = vec![None; columns.len()];
            foods[side] = Some(food);
            rows.push(Facing { foods });
        }
    }
    rows.sort_by_key(|row| {
        let group = row.foods.iter().flatten().find_map(|f| f.group);
        let place = group.and_then(|g| Group::ALL.iter().position(|a| *a == g));
        let alone = row.foods.iter().flatten().count() == 1 && columns.len() > 1;
        (place.unwrap_or(usize::MAX), alone)
    });
    rows.iter().map(row).collect()
}

fn is_alike(a: &Seen, b: &Seen) -> bool {
    let head = |name: &str| {
        let plain = crate::words::head(name);
        let word = plain.split(' ').next_back().unwrap_or(plain);
        word.trim_end_matches('s').to_lowercase()
    };
    a.family == b.family && head(&a.name) == head(&b.name)
}

fn row(facing: &Facing<'_>) -> Row {
    let mut names: Vec<&str> = Vec::new();
    for food in facing.foods.iter().flatten() {
        if !names.contains(&food.name.as_str()) {
            names.push(&food.name);
        }
    }
    Row {
        name: names.join(" / "),
        unit: "g".to_owned(),
        cells: facing.foods.iter().map(|f| f.map(cell)).collect(),
        difference: String::new(),
    }
}

fn cell(food: &Seen) -> Cell {
    Cell {
        amount: Range {
            likely: food.grams,
            ..food.grams_range
        },
        size: Some(food.size.clone()),
        share: None,
        verdict: None,
    }
}
