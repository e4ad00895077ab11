//! Dishes side by side: plates at one scale, groups and limits facing each other.

use super::content::{AmountRow, Handout};
use super::lead::{capital, lead};
use super::view::{amount, drawings, full_bar, sizes, sources, textures};
use crate::ledger::Subject;
use crate::pages::drawing::Picture;
use crate::pages::number::portions;
use crate::quantity::Range;
use minijinja::context;
use minijinja::value::Value;

/// Most plates on one page: more are too small to read.
pub const MOST_PLATES: usize = 4;

/// How the columns of more than two dishes are called.
const LETTERS: [&str; MOST_PLATES] = ["A", "B", "C", "D"];

/// Amounts this close are told as the same.
const SAME_WITHIN: f64 = 1.1;

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
            context! { name => capital(subject.label()), cells, verdict => verdict(handouts, subject) }
        })
        .collect()
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
        _ => among(&amounts),
    }
}

/// Ranges that hold each other's likely figure leave no honest difference.
fn about_same(a: Range, b: Range) -> bool {
    let (less, more) = if a.likely < b.likely { (a, b) } else { (b, a) };
    let overlap = less.high >= more.likely && more.low <= less.likely;
    overlap || more.likely < less.likely * SAME_WITHIN
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

/// Which of several dishes hold most and least.
fn among(amounts: &[Range]) -> String {
    let by = |a: &&Range, b: &&Range| a.likely.total_cmp(&b.likely);
    let (Some(most), Some(least)) = (amounts.iter().max_by(by), amounts.iter().min_by(by)) else {
        return String::new();
    };
    let like = |than: &Range| {
        let alike = amounts.iter().zip(LETTERS);
        let alike = alike.filter(|(a, _)| about_same(**a, *than));
        let letters: Vec<&str> = alike.map(|(_, letter)| letter).collect();
        letters.join(", ")
    };
    match () {
        () if most.likely < 1e-9 => "none in any".to_owned(),
        () if about_same(*most, *least) => "about the same".to_owned(),
        () => format!("most on {}; least on {}", like(most), like(least)),
    }
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
pub(super) fn beside(handouts: &[&Handout]) -> Value {
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
                reached => lead.reached,
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
        rows => facing(handouts),
        cautions => cautions(handouts),
        sources => sources(handouts, !sizes.is_empty()),
        sizes,
    }
}
