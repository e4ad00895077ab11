//! Dishes side by side: plates at one scale, groups and limits facing each other.

use super::content::{AmountRow, Handout};
use super::lead::{capital, lead};
use super::view::{amount, drawings, full_bar, sizes, sources, textures};
use crate::ledger::Subject;
use crate::pages::differ::{differ, of_a_day};
use crate::pages::drawing::Picture;
use crate::pages::number;
use crate::quantity::Range;
use minijinja::context;
use minijinja::value::Value;

/// Most plates on one page: more are too small to read.
pub(crate) const MOST_PLATES: usize = 4;

/// How the dishes are called where they are told apart.
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

/// How the dishes differ, in words; of one dish what it leaves of a day.
fn verdict(handouts: &[&Handout], subject: Subject) -> String {
    let rows = handouts.iter().map(|handout| {
        let mut rows = handout.amounts.iter();
        rows.find(|r| r.line.subject == subject)
    });
    let rows: Vec<Option<&AmountRow>> = rows.collect();
    if let [Some(only)] = rows[..] {
        let line = only.line;
        let told = line.share().zip(line.allowed()).zip(line.verdict());
        return told.map_or_else(String::new, |((share, day), verdict)| {
            of_a_day(verdict, share, day, subject.unit())
        });
    }
    let served = |row: Option<&AmountRow>| row.map_or(Range::exact(0.0), AmountRow::served);
    let amounts = LETTERS.into_iter().zip(rows.into_iter().map(served));
    let amounts: Vec<(&str, Range)> = amounts.collect();
    differ(&amounts, subject.unit())
}

/// A picture of the dish with what the day allows beside its portions.
#[must_use]
pub(crate) fn beside_the_day(handout: &Handout, picture: &Picture) -> Picture {
    let mut picture = picture.clone();
    for portion in &mut picture.strip {
        let mut rows = handout.amounts.iter();
        let row = rows.find(|row| row.texture() == Some(portion.texture));
        if let Some(day) = row.and_then(|row| allowed(&[handout], row.line.subject)) {
            portion.amount = format!("{}, a day {day}", portion.amount);
        }
    }
    picture
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
    let letter = |letter: &'static str| (handouts.len() > 1).then_some(letter);
    let dishes: Vec<Value> = handouts
        .iter()
        .zip(LETTERS)
        .zip(plates)
        .map(|((handout, mark), drawing)| {
            let lead = lead(handout);
            context! {
                letter => letter(mark),
                title => handout.title.as_str(),
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
