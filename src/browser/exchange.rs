//! The day log as text for the command, and back.

use super::Fault;
use crate::daylog::{Change, Export, Record};
use crate::people::Diner;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ExportAsk {
    diners: Vec<Diner>,
    /// In the order they were logged, those taken back among them.
    records: Vec<Record>,
    /// What was done to them, in order.
    #[serde(default)]
    changes: Vec<Change>,
}

#[derive(Debug, Serialize)]
pub(super) struct Exported {
    text: String,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ImportAsk {
    text: String,
    today: Date,
}

/// What a text holds, all of it fit to be kept.
#[derive(Debug, Serialize)]
pub(super) struct Imported {
    diners: Vec<Diner>,
    records: Vec<Record>,
    changes: Vec<Change>,
}

pub(super) fn export(ask: &ExportAsk) -> Exported {
    let mut export = Export::of(ask.diners.clone(), ask.records.clone());
    export.changes.clone_from(&ask.changes);
    Exported {
        text: export.to_json(),
    }
}

/// All of it or nothing, as on the command line. Fails with the first of what cannot be kept.
pub(super) fn import(ask: &ImportAsk) -> Result<Imported, Fault> {
    let export = Export::from_json(&ask.text).map_err(Fault::of)?;
    for diner in &export.diners {
        if let Some(fault) = diner.faults(ask.today).first() {
            return Err(Fault::of(format!("diner “{}”: {fault}", diner.name)));
        }
    }
    for (at, record) in export.entries.iter().enumerate() {
        let number = at + 1;
        record
            .entry
            .check()
            .map_err(|fault| Fault::of(format!("entry {number}: {fault}")))?;
        if !crate::daylog::exchange::is_uid(&record.uid) {
            return Err(Fault::of(format!(
                "entry {number} has no name that can be kept"
            )));
        }
    }
    for (at, change) in export.changes.iter().enumerate() {
        let whole = change.kind.has_before() == change.before.is_some();
        let before = change.before.as_ref();
        let sound = before.is_none_or(|before| before.entry.check().is_ok());
        let known = export
            .entries
            .iter()
            .any(|record| record.uid == change.entry);
        if !(whole && sound && known) {
            return Err(Fault::of(format!("change {} cannot be taken", at + 1)));
        }
    }
    Ok(Imported {
        diners: export.diners,
        records: export.entries,
        changes: export.changes,
    })
}
