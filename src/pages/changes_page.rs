//! What was done to a log, the last first: text for 80 columns, JSON, CSV.

use super::csv_table::csv_table;
use super::day_words::named;
use super::escape::cell as guard;
use super::layout::{visible, wrap};
use super::tables::{Column, Table};
use crate::daylog::{Change, ChangeKind, Record};
use jiff::tz::TimeZone;
use serde::Serialize;

/// Version of the JSON layout.
const VERSION: u32 = 1;

/// The changes of one person's log.
#[derive(Debug)]
pub(crate) struct ChangesPage<'p> {
    /// Whose.
    pub diner: &'p str,
    /// The changes, the last first, each with its entry as it stands now.
    pub changes: &'p [(Change, Record)],
    /// The diner's zone.
    pub zone: &'p TimeZone,
}

#[derive(Serialize)]
struct ChangeJson<'p> {
    number: u32,
    dish: &'p str,
    kind: ChangeKind,
    made: Option<jiff::Timestamp>,
    undone: bool,
    before: Option<&'p crate::daylog::Before>,
}

impl ChangesPage<'_> {
    /// A line a change.
    pub(crate) fn text(&self) -> String {
        let name = visible(self.diner);
        if self.changes.is_empty() {
            return wrap(&format!("Nothing was done to {name}'s log yet"));
        }
        let row = |(change, record): &(Change, Record)| {
            let entry = match &change.before {
                Some(before) => format!("was: {}", named(&before.entry)),
                None => named(&record.entry),
            };
            let back = if change.undone { ", taken back" } else { "" };
            vec![
                self.made(change, "%a %-d %b %H:%M").into(),
                format!("{}{back}", word(change.kind)).into(),
                record.number.to_string().into(),
                entry.into(),
            ]
        };
        let table = Table {
            title: format!("Changes of {name}'s log, the last first"),
            columns: vec![
                Column::words("when", 16),
                Column::words("what", 16),
                Column::figures("no.", 5),
                Column::words("entry", 36),
            ],
            rows: self.changes.iter().map(row).collect(),
        };
        table.text()
    }

    fn made(&self, change: &Change, format: &str) -> String {
        let made = change
            .made
            .map(|made| made.to_zoned_datetime(self.zone.clone()));
        made.map_or("not kept".to_owned(), |made| {
            made.strftime(format).to_string()
        })
    }

    /// JSON, version 1.
    pub(crate) fn json(&self) -> Result<String, serde_json::Error> {
        let change = |(change, record): &'_ (Change, Record)| -> serde_json::Result<_> {
            serde_json::to_value(ChangeJson {
                number: record.number,
                dish: &record.entry.dish,
                kind: change.kind,
                made: change.made,
                undone: change.undone,
                before: change.before.as_ref(),
            })
        };
        let changes = self.changes.iter().map(change);
        let changes = changes.collect::<Result<Vec<_>, _>>()?;
        super::escape::json(&serde_json::json!({
            "version": VERSION,
            "diner": self.diner,
            "changes": changes,
        }))
    }

    /// CSV: a row a change.
    pub(crate) fn csv(&self) -> Result<String, csv::Error> {
        let row = |(change, record): &(Change, Record)| {
            [
                guard(self.diner),
                self.made(change, "%Y-%m-%d %H:%M:%S"),
                change.kind.word().to_owned(),
                record.number.to_string(),
                guard(&record.entry.dish),
                record.entry.share.to_string(),
                change.undone.to_string(),
            ]
        };
        let header = "diner,made,kind,number,dish,share,undone";
        csv_table(header, self.changes.iter().map(row))
    }
}

/// What people read for it.
const fn word(kind: ChangeKind) -> &'static str {
    match kind {
        ChangeKind::Eaten => "logged",
        ChangeKind::Planned => "planned",
        ChangeKind::Repeated => "logged again",
        ChangeKind::Edited => "changed",
        ChangeKind::Removed => "removed",
        ChangeKind::Fulfilled => "eaten as planned",
    }
}
