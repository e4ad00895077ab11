//! Dishes side by side: plates at one scale, groups and limits facing each other.

use super::content::{AmountRow, Handout};
use super::lead::{capital, lead};
use super::view::{amount, drawings, full_bar, sizes, sources, textures};
use crate::ledger::Subject;
use crate::pages::drawing::Picture;
use crate::pages::number::{self, portions};
use crate::quantity::Range;
use minijinja::context;
use minijinja::value::Value;

/// Most plates on one page: more are too small to read.
pub(crate) const MOST_PLATES: usize = 4;

/// How the columns of more than two dishes are called.
const LETTERS: [&str; MOST_PLATES] = ["A", "B", "C", "D"];

/// Subjects that any dish has some of, in the order in which they first appear.
fn subjects(handouts: &[&Handout]) -> Vec<Subject> {
    let mut subjects: Vec<Subject> = Vec::new();
    for line in handouts.iter().flat_map(|h| &h.amounts).map(|row| row.line) {
        if line.is_there() && !subjects.contains(&line.subject) {
            subjects.push(line.subject);
        }
    }
    subjects
}

fn facing(handouts: &[&Handout]) -> Vec<Value> {
    let full = full_bar(handouts);
    subjects(handouts)
        .into_iter()
        .map(|subject| {
            let cells: Vec<Value> = handouts
                .iter()
                .map(|handout| {
                    let row = handout.amounts.iter().find(|r| r.line.subject == subject);
                    row.map_or_else(
                        || context! { words => "none counted" },
                        |row| amount(row, full),
                    )
                })
                .collect();
            context! {
                name => capital(subject.label()),
                cells,
                day => allowed(handouts, subject),
                verdict => verdict(handouts, subject),
            }
        })
        .collect()
}

/// A day's allowance in words.
fn allowed(handouts: &[&Handout], subject: Subject) -> Option<String> {
    let rows = handouts.iter().flat_map(|h| &h.amounts);
    let line = rows.map(|row| row.line).find(|l| l.subject == subject)?;
    let unit = subject.unit();
    Some(format!("{} {unit}", number::amount(unit, line.allowed()?)))
}

/// How the dishes differ, in words.
fn verdict(handouts: &[&Handout], subject: Subject) -> String {
    let of = |handout: &&Handout| {
        let row = handout.amounts.iter().find(|r| r.line.subject == subject);
        row.map_or(Range::exact(0.0), AmountRow::served)
    };
    let amounts: Vec<Range> = handouts.iter().map(of).collect();
    match amounts[..] {
        [one, other] => pair(one, other),
        _ => among(&amounts, subject.unit()),
    }
}

/// Ranges that hold each other's likely figure leave no honest difference.
fn about_same(a: Range, b: Range) -> bool {
    let (less, more) = if a.likely < b.likely { (a, b) } else { (b, a) };
    less.high >= more.likely && more.low <= less.likely
}

fn pair(one: Range, other: Range) -> String {
    let (less, more, side) = if one.likely < other.likely {
        (one, other, "right")
    } else {
        (other, one, "left")
    };
    match () {
        () if more.likely < 1e-9 => "none in either".to_owned(),
        () if about_same(one, other) => "about the same".to_owned(),
        () if less.likely < more.likely * 0.05 => format!("nearly all on the {side}"),
        () => format!(
            "{} times as much on the {side}",
            portions(more.likely / less.likely)
        ),
    }
}

/// The dishes from most to least, with their amounts; those that are about the same together.
fn among(amounts: &[Range], unit: &str) -> String {
    let mut ranked: Vec<(&str, Range)> = LETTERS.into_iter().zip(amounts.iter().copied()).collect();
    ranked.sort_by(|a, b| b.1.likely.total_cmp(&a.1.likely));
    let (Some(most), Some(least)) = (ranked.first(), ranked.last()) else {
        return String::new();
    };
    if most.1.likely < 1e-9 {
        return "none in any".to_owned();
    }
    if about_same(most.1, least.1) {
        return "about the same".to_owned();
    }
    let mut words = String::new();
    for (at, (letter, amount)) in ranked.iter().enumerate() {
        let before = at.checked_sub(1).map(|b| ranked[b].1);
        words.push_str(match before {
            None => "",
            Some(before) if about_same(before, *amount) => " ≈ ",
            Some(_) => " > ",
        });
        words.push_str(letter);
        words.push(' ');
        words.push_str(&number::amount(unit, amount.likely));
    }
    words
}

/// Cautions of all dishes; those of some alone say whose they are.
fn cautions(handouts: &[&Handout]) -> Vec<String> {
    let shared = |line: &String| handouts.iter().all(|h| h.cautions.contains(line));
    let mut lines: Vec<String> = Vec::new();
    for handout in handouts.iter().take(1) {
        lines.extend(handout.cautions.iter().filter(|c| shared(c)).cloned());
    }
    for handout in handouts {
        let own = handout.cautions.iter().filter(|c| !shared(c));
        lines.extend(own.map(|c| format!("{}: {c}", handout.title)));
    }
    lines
}

/// Two to [`MOST_PLATES`] dishes.
/// `whole_day` adds a column with the day's allowance.
pub(super) fn beside(handouts: &[&Handout], whole_day: bool) -> Value {
    let pictures: Vec<&Picture> = handouts.iter().map(|h| &h.served).collect();
    let plates = drawings(&pictures, "two");
    let many = handouts.len() > 2;
    let title = |handout: &Handout, letter: &str| {
        if many {
            format!("{letter}: {}", handout.title)
        } else {
            handout.title.clone()
        }
    };
    let dishes: Vec<Value> = handouts
        .iter()
        .zip(LETTERS)
        .zip(plates)
        .map(|((handout, letter), drawing)| {
            let lead = lead(handout);
            context! {
                title => title(handout, letter),
                drawing,
                over => lead.over,
                by_how_much => lead.by_how_much,
                glance => lead.glance,
                eat => lead.eat,
                beyond => lead.beyond,
            }
        })
        .collect();
    let textures = textures(&pictures);
    let sizes = sizes(&textures);
    let day = handouts.first().map_or("", |h| h.day.as_str());
    let other = handouts.iter().find(|h| h.day != day);
    context! {
        day,
        other_day => other.map(|h| h.day.clone()),
        many,
        dishes,
        whole_day,
        rows => facing(handouts),
        cautions => cautions(handouts),
        sources => sources(handouts, !sizes.is_empty()),
        sizes,
    }
}
