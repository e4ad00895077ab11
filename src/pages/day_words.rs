//! What is said of single entries of the log: logged, planned, changed, removed, taken back.

use super::answer;
use super::layout::{visible, wrap};
use super::number::{kcal, span};
use crate::daylog::{ChangeKind, Entry, Left, Record, Undone};
use crate::ledger::Subject;

/// What was put into one diner's log.
#[derive(Debug)]
pub(crate) struct Logged<'p> {
    /// The entries.
    pub records: &'p [&'p Record],
    /// What is left of the day of the last of them; as planned, where one is planned.
    pub left: &'p [Left],
    /// Whether others are told of beside it, so that it has to be said whose day is left.
    pub several: bool,
}

/// The lines that acknowledge what was logged or planned, and how the day stands then.
pub(crate) fn logged(logged: &Logged<'_>) -> String {
    let mut text = String::new();
    for record in logged.records {
        let entry = &record.entry;
        let how = if record.planned { "Planned" } else { "Logged" };
        text.push_str(&wrap(&format!(
            "{how} for {}{}, {}: {}, {}",
            visible(&record.diner),
            meal(entry),
            moment(entry),
            dish(&entry.dish, entry.share),
            energy(entry)
        )));
        for words in &entry.uncounted {
            text.push_str(&wrap(&format!("not counted: {}", visible(words))));
        }
        if record.planned {
            text.push_str(&wrap(&format!(
                "Once it is eaten: `trencher day eat --planned {}`",
                record.number
            )));
        }
    }
    let day = match logged.records.first() {
        Some(record) if logged.several => format!("{}'s day", visible(&record.diner)),
        _ => "the day".to_owned(),
    };
    let planned = logged.records.iter().any(|record| record.planned);
    text.push_str(&left_of(&day, logged.left, planned));
    text
}

/// The lines that acknowledge a change of an entry, and how the day stands then.
pub(crate) fn changed(was: &Record, now: &Record, left: &[Left]) -> String {
    let all = |entry: &Entry| {
        let meal = meal(entry);
        format!(
            "{}{meal}, {}, {}",
            dish(&entry.dish, entry.share),
            moment(entry),
            energy(entry)
        )
    };
    let mut text = wrap(&format!(
        "Changed for {}, entry {}: {}",
        visible(&now.diner),
        now.number,
        all(&now.entry)
    ));
    text.push_str(&wrap(&format!("Before: {}", all(&was.entry))));
    for words in &now.entry.uncounted {
        text.push_str(&wrap(&format!("not counted: {}", visible(words))));
    }
    text.push_str(&left_of("the day", left, now.planned));
    text
}

/// The lines that acknowledge what was removed.
pub(crate) fn removed(records: &[Record]) -> String {
    let line = |record: &Record| {
        wrap(&format!(
            "Removed for {}, entry {}: {}",
            visible(&record.diner),
            record.number,
            named(&record.entry)
        ))
    };
    let lines: String = records.iter().map(line).collect();
    format!("{lines}`trencher day undo` brings it back\n")
}

/// The lines that acknowledge what was taken back.
pub(crate) fn taken_back(diner: &str, undone: &[Undone]) -> String {
    let name = visible(diner);
    if undone.is_empty() {
        return wrap(&format!("Nothing is logged for {name}"));
    }
    let line = |undone: &Undone| {
        let (was, now) = (&undone.was, &undone.now);
        let number = now.number;
        wrap(&match undone.kind {
            ChangeKind::Eaten | ChangeKind::Repeated => {
                format!("Taken back for {name}: {}", named(&was.entry))
            }
            ChangeKind::Planned => {
                format!("Taken back for {name}: the plan of {}", named(&was.entry))
            }
            ChangeKind::Edited => format!(
                "Taken back for {name}: the change of entry {number}, which is again {}",
                named(&now.entry)
            ),
            ChangeKind::Removed => format!(
                "Brought back for {name}: entry {number}, {}",
                named(&now.entry)
            ),
            ChangeKind::Fulfilled => format!(
                "Taken back for {name}: entry {number} is not eaten but planned again, {}",
                named(&now.entry)
            ),
        })
    };
    undone.iter().map(line).collect()
}

/// `Left of the day: about 800 of 2,000 kcal`, and the answer for limits and groups.
fn left_of(day: &str, left: &[Left], planned: bool) -> String {
    let mut text = String::new();
    if let Some(row) = energy_row(left) {
        let of = if planned { " if eaten as planned" } else { "" };
        text.push_str(&wrap(&format!(
            "Left of {day}{of}: {}",
            energy_left(row, " of")
        )));
    }
    text.push_str(&stands(left));
    text
}

/// `, lunch`; nothing without a meal.
fn meal(entry: &Entry) -> String {
    let meal = entry.meal.as_deref();
    meal.map(|meal| format!(", {}", visible(meal)))
        .unwrap_or_default()
}

/// `Wed 25 Nov 12:30`.
pub(super) fn moment(entry: &Entry) -> String {
    format!(
        "{} {}",
        entry.at.date.strftime("%a %-d %b"),
        entry.at.time.strftime("%H:%M")
    )
}

/// `half of Beef and broccoli, Wed 25 Nov 12:30`.
pub(super) fn named(entry: &Entry) -> String {
    format!("{}, {}", dish(&entry.dish, entry.share), moment(entry))
}

fn energy(entry: &Entry) -> String {
    entry
        .energy_kcal()
        .map_or("energy not known".to_owned(), |e| {
            format!("{} kcal (80 % range {})", kcal(e.likely), span(e, kcal))
        })
}

/// `half of Beef and broccoli`; the whole of it goes without saying.
pub(crate) fn dish(name: &str, share: f64) -> String {
    let name = visible(name);
    if (share - 1.0).abs() < 1e-9 {
        return name;
    }
    if share > 1.0 {
        return format!("{} times {name}", part(share));
    }
    format!("{} of {name}", part(share))
}

/// A share as a person says it.
pub(crate) fn part(share: f64) -> String {
    const SAID: [(f64, &str); 8] = [
        (1.0, "all"),
        (0.5, "half"),
        (1.0 / 3.0, "a third"),
        (2.0 / 3.0, "two thirds"),
        (0.25, "a quarter"),
        (0.75, "3/4"),
        (2.0, "2"),
        (3.0, "3"),
    ];
    let said = SAID.iter().find(|(s, _)| (s - share).abs() < 1e-6);
    match said {
        Some((_, word)) => (*word).to_owned(),
        None if share > 1.0 => format!("{share:.1}"),
        None => format!("{:.0} %", share * 100.0),
    }
}

/// The row of the energy.
pub(super) fn energy_row(left: &[Left]) -> Option<&Left> {
    left.iter().find(|row| row.line.subject == Subject::ENERGY)
}

/// `about 800 of 2,000 kcal`.
pub(super) fn energy_left(row: &Left, of: &str) -> String {
    let day = kcal(row.line.allowed().unwrap_or_default());
    match row.left().likely {
        left if left > 0.0 => format!("about {}{of} {day} kcal", kcal(left)),
        _ => format!("nothing{of} {day} kcal"),
    }
}

/// Limits that are beyond the day, groups that are reached.
pub(super) fn stands(left: &[Left]) -> String {
    let lines = left.iter().map(|row| row.line);
    if lines.clone().all(|line| line.share() == Some(0.0)) {
        return wrap("Nothing of the day is used yet");
    }
    wrap(&answer::line(lines))
}
