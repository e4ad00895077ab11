//! Plates side by side as JSON, version 1. Keys are stable.

use super::{Comparison, Kind, Row};
use crate::ledger::Verdict;
pub(super) use crate::pages::json::round;
use crate::quantity::Range;
use serde::Serialize;

/// Version of the layout.
const VERSION: u32 = 1;

#[derive(Serialize)]
struct Page<'a> {
    version: u32,
    day: &'a str,
    sides: Vec<Side<'a>>,
    components: Vec<Line<'a>>,
    amounts: Vec<Line<'a>>,
    notes: &'a [String],
}

#[derive(Serialize)]
struct Side<'a> {
    name: &'a str,
    kind: &'static str,
    title: &'a str,
    grams: Option<Range>,
}

#[derive(Serialize)]
struct Line<'a> {
    name: &'a str,
    unit: &'a str,
    sides: Vec<Option<Cell<'a>>>,
    difference: &'a str,
}

#[derive(Serialize)]
struct Cell<'a> {
    amount: Range,
    size: Option<&'a str>,
    share: Option<f64>,
    verdict: Option<&'static str>,
}

/// The comparison as JSON text. Fails only when memory does.
pub(crate) fn json(comparison: &Comparison) -> Result<String, serde_json::Error> {
    let page = Page {
        version: VERSION,
        day: &comparison.day,
        sides: comparison
            .sides
            .iter()
            .map(|side| Side {
                name: &side.letter,
                kind: kind(side.kind),
                title: &side.title,
                grams: side.grams.map(rounded),
            })
            .collect(),
        components: comparison.foods.iter().map(line).collect(),
        amounts: comparison.amounts.iter().map(line).collect(),
        notes: &comparison.notes,
    };
    crate::pages::escape::json(&page)
}

pub(super) const fn kind(kind: Kind) -> &'static str {
    match kind {
        Kind::Served => "served",
        Kind::Fitted => "right_sized",
        Kind::Day => "day",
    }
}

fn line(row: &Row) -> Line<'_> {
    Line {
        name: &row.name,
        unit: &row.unit,
        sides: row
            .cells
            .iter()
            .map(|cell| {
                cell.as_ref().map(|c| Cell {
                    amount: rounded(c.amount),
                    size: c.size.as_deref(),
                    share: c.share.map(round),
                    verdict: c.verdict.map(Verdict::word),
                })
            })
            .collect(),
        difference: &row.difference,
    }
}

fn rounded(range: Range) -> Range {
    Range::new(round(range.low), round(range.likely), round(range.high))
}
