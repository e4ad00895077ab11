//! Plates side by side: foods aligned, groups and limits facing each other, differences in
//! words.
//!
//! A side is a dish as served, the same dish right-sized, or a day's allowance.

mod align;
mod csv;
mod difference;
mod json;
mod model;
mod text;

pub(crate) use self::csv::csv;
pub(crate) use json::json;
pub(crate) use text::text;

use crate::ledger::{LedgerLine, verdict};
use crate::matching::Catalogue;
use crate::pages::handout::AmountRow;
use crate::pages::plating::{Plated, Seen, amount_rows, seen_foods};
use crate::quantity::Range;
use align::aligned;
use difference::difference;
use model::Column;
pub(crate) use model::{Cell, Comparison, Kind, Row, Side};

/// What to put side by side.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Request<'a> {
    /// One to four dishes.
    pub dishes: &'a [Plated<'a>],
    /// The first dish's right-sized plate, in a column of its own.
    pub fit: bool,
    /// The day's allowance, in a column of its own.
    pub day: bool,
}

/// Lays dishes side by side.
pub(crate) fn compare(request: Request<'_>, catalogue: &Catalogue) -> Comparison {
    let columns = columns(request, catalogue);
    let sides: Vec<Side> = columns.iter().map(|c| c.side.clone()).collect();
    let mut foods = aligned(&columns);
    let mut amounts = amounts(&columns);
    for row in foods.iter_mut().chain(&mut amounts) {
        row.difference = difference(&sides, row);
    }
    let first = request.dishes.first();
    let mut notes = Vec::new();
    for plated in request.dishes {
        let lines = plated.notes.iter().chain(&plated.audit.notes);
        let remarks = plated.fitted.filter(|_| request.fit);
        let lines = lines.chain(remarks.into_iter().flat_map(|f| &f.remarks));
        for line in lines {
            if !notes.contains(line) {
                notes.push(line.clone());
            }
        }
    }
    Comparison {
        day: first.map_or_else(String::new, |p| p.day.to_owned()),
        sides,
        foods,
        amounts,
        notes,
    }
}

fn columns(request: Request<'_>, catalogue: &Catalogue) -> Vec<Column> {
    let mut columns = Vec::new();
    for (at, plated) in request.dishes.iter().enumerate() {
        let rows = amount_rows(plated.audit, plated.fitted);
        let foods = seen_foods(*plated, catalogue);
        let side = |kind, letter: String, grams| Side {
            kind,
            letter,
            title: plated.title(),
            grams,
        };
        let letter = ["A", "B", "C", "D"]
            .get(at)
            .copied()
            .unwrap_or("E")
            .to_owned();
        columns.push(Column {
            side: side(Kind::Served, letter, Some(plated.audit.served_grams())),
            foods: foods.clone(),
            rows: rows.iter().map(|r| (*r, Some(r.served()))).collect(),
        });
        if let Some(fitted) = plated.fitted.filter(|_| request.fit && at == 0) {
            let left: Vec<Seen> = foods.iter().filter_map(|f| f.eaten(fitted)).collect();
            let kept = kept(&foods, &left);
            let grams = plated.audit.served_grams().times(kept);
            columns.push(Column {
                side: side(Kind::Fitted, "right-sized".to_owned(), Some(grams)),
                foods: left,
                rows: rows.iter().map(|r| (*r, eaten(r))).collect(),
            });
        }
    }
    if let Some(plated) = request.dishes.first().filter(|_| request.day) {
        let rows = amount_rows(plated.audit, None);
        columns.push(Column {
            side: Side {
                kind: Kind::Day,
                letter: "a day".to_owned(),
                title: plated.day.to_owned(),
                grams: None,
            },
            foods: Vec::new(),
            rows: rows
                .into_iter()
                .map(|r| (r, r.line.allowed().map(Range::exact)))
                .collect(),
        });
    }
    columns
}

/// Part of the grams that is eaten.
fn kept(served: &[Seen], left: &[Seen]) -> f64 {
    let sum = |foods: &[Seen]| foods.iter().map(|f| f.grams).sum::<f64>();
    let all = sum(served);
    if all > 0.0 { sum(left) / all } else { 0.0 }
}

/// What the right-sized plate holds: as unsure as the dish it is a part of.
fn eaten(row: &AmountRow) -> Option<Range> {
    let served = row.served();
    let part = match served.likely {
        likely if likely > 0.0 => row.fitted? / likely,
        _ => 0.0,
    };
    Some(served.times(part.max(0.0)))
}

/// Groups and limits that any dish has some of.
fn amounts(columns: &[Column]) -> Vec<Row> {
    let Some(first) = columns.first() else {
        return Vec::new();
    };
    let subjects = first.rows.iter().map(|(row, _)| row.line.subject);
    subjects
        .filter_map(|subject| {
            let is = |(row, _): &&(AmountRow, _)| row.line.subject == subject;
            let find = |c: &Column| c.rows.iter().find(is).copied();
            let found: Vec<Option<(AmountRow, Option<Range>)>> = columns.iter().map(find).collect();
            let any =
                |of: fn(&LedgerLine) -> bool| found.iter().flatten().any(|(r, _)| of(&r.line));
            let there = any(LedgerLine::is_there);
            let with_pulses = any(LedgerLine::has_pulses);
            there.then(|| Row {
                name: if with_pulses {
                    format!("{} with pulses", subject.label())
                } else {
                    subject.label().to_owned()
                },
                unit: subject.unit().to_owned(),
                cells: found
                    .iter()
                    .map(|f| f.and_then(|(row, amount)| Some(cell(&row, amount?))))
                    .collect(),
                difference: String::new(),
            })
        })
        .collect()
}

fn cell(row: &AmountRow, amount: Range) -> Cell {
    let share = row.line.share_of(amount.likely);
    Cell {
        amount,
        size: None,
        share,
        verdict: share.map(|share| verdict(row.line.subject.kind(), share)),
    }
}
