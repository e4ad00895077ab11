//! The day log as text for other programs, and back without loss.

use std::io::{self, Write};

use serde::Serialize;

use super::backup::{self, Take};
use super::change::Change;
use super::entry::EntryFault;
use super::record::{ReadError, Record, VERSION};
use super::table;
use crate::people::{Diner, DinerError};
use crate::reading::json_escaped;

/// Diners and entries in the order they were logged, those taken back among them.
#[derive(Debug, Clone, PartialEq)]
pub struct Export {
    /// [`VERSION`].
    pub version: u32,
    /// The diners; none in a CSV table.
    pub diners: Vec<Diner>,
    /// Their entries.
    pub entries: Vec<Record>,
    /// What was done to them, in order; none in a CSV table and in exports of version 1.
    pub changes: Vec<Change>,
}

/// What an import did.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ImportReport {
    /// Diners added.
    pub diners_added: usize,
    /// Names of diners that are here with other details; kept as they are here.
    pub diners_differing: Vec<String>,
    /// Entries added.
    pub entries_added: usize,
    /// Entries that were here already, the same.
    pub entries_present: usize,
    /// Dishes with dates of entries that are here with other figures; kept as they are here.
    pub entries_differing: Vec<String>,
}

/// Why a record of an import cannot be taken.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ImportFault {
    /// Its figures.
    #[error("entry {number}: {fault}")]
    Entry {
        /// Place in the export, from 1.
        number: usize,
        /// What is wrong.
        fault: EntryFault,
    },
    /// Its diner is neither here nor in the export.
    #[error(
        "entry {number}: no diner is named `{name}`; add them first, or import the JSON export, which holds the diners"
    )]
    NoDiner {
        /// Place in the export, from 1.
        number: usize,
        /// The diner's name.
        name: String,
    },
    /// Its name across copies.
    #[error("entry {number}: `{uid}` is no `uid`; it must be 1 to 64 letters, digits or hyphens")]
    Uid {
        /// Place in the export, from 1.
        number: usize,
        /// As given.
        uid: String,
    },
    /// A change of no entry that is brought back, or without what it needs.
    #[error("change {number}: it tells of no entry in the export, or not what stood there before")]
    Change {
        /// Place in the export, from 1.
        number: usize,
    },
    /// A diner's details.
    #[error("diner `{name}`: {}", .faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))]
    Diner {
        /// The diner.
        name: String,
        /// All faults.
        faults: Vec<DinerError>,
    },
}

impl Export {
    /// An export of this version, without what was done to the entries.
    #[must_use]
    pub fn of(diners: Vec<Diner>, entries: Vec<Record>) -> Self {
        Self {
            version: VERSION,
            diners,
            entries,
            changes: Vec::new(),
        }
    }

    /// JSON with everything, a diner, an entry or a change a line.
    #[must_use]
    pub fn to_json(&self) -> String {
        let mut text = Vec::new();
        // Memory takes whatever is written.
        let _ = JsonOut::begin(&mut text, &self.diners).and_then(|mut out| {
            self.entries.iter().try_for_each(|entry| out.entry(entry))?;
            out.changes()?;
            let mut changes = self.changes.iter();
            changes.try_for_each(|change| out.change(change))?;
            out.end()
        });
        String::from_utf8(text).unwrap_or_default()
    }

    /// Reads [`Export::to_json`]. Fails on other text and on later versions.
    pub fn from_json(text: &str) -> Result<Self, ReadError> {
        Self::read(text)
    }

    fn read(text: &str) -> Result<Self, ReadError> {
        let mut export = Self::of(Vec::new(), Vec::new());
        backup::read(&mut std::io::Cursor::new(text), &mut export)?;
        Ok(export)
    }

    /// The entries as a CSV table with a heading, one entry a line, without the diners'
    /// details.
    #[must_use]
    pub fn to_csv(&self) -> String {
        table::write(&self.entries)
    }

    /// Reads [`Export::to_csv`]; columns may stand in another order. Fails on other tables,
    /// and names every cell that cannot be read.
    pub fn from_csv(text: &str) -> Result<Self, ReadError> {
        Self::read(text)
    }
}

impl Take for Export {
    fn diner(&mut self, diner: Diner) -> bool {
        self.diners.push(diner);
        true
    }

    fn entry(&mut self, record: Record) -> bool {
        self.entries.push(record);
        true
    }

    fn change(&mut self, change: Change) -> bool {
        self.changes.push(change);
        true
    }
}

/// Writes an export as JSON, an entry at a time.
pub(super) struct JsonOut<'o> {
    out: &'o mut dyn Write,
    first: bool,
}

impl<'o> JsonOut<'o> {
    pub(super) fn begin(out: &'o mut dyn Write, diners: &[Diner]) -> io::Result<Self> {
        write!(out, "{{\"version\":{VERSION},\n\"diners\":[")?;
        let mut this = Self { out, first: true };
        diners.iter().try_for_each(|diner| this.piece(diner))?;
        write!(this.out, "],\n\"entries\":[")?;
        this.first = true;
        Ok(this)
    }

    fn piece<T: Serialize>(&mut self, piece: &T) -> io::Result<()> {
        // Every map here has text keys and every number was checked to be finite: nothing
        // that JSON cannot write.
        let text = json_escaped(serde_json::to_string(piece)?);
        let parted = if self.first { "\n" } else { ",\n" };
        self.first = false;
        write!(self.out, "{parted}{text}")
    }

    pub(super) fn entry(&mut self, record: &Record) -> io::Result<()> {
        self.piece(record)
    }

    /// Goes on to what was done to the entries.
    pub(super) fn changes(&mut self) -> io::Result<()> {
        self.first = true;
        write!(self.out, "],\n\"changes\":[")
    }

    pub(super) fn change(&mut self, change: &Change) -> io::Result<()> {
        self.piece(change)
    }

    pub(super) fn end(self) -> io::Result<()> {
        writeln!(self.out, "]}}")
    }
}

/// Whether a name across copies can be taken.
pub(crate) fn is_uid(uid: &str) -> bool {
    let sign = |sign: u8| sign.is_ascii_alphanumeric() || sign == b'-';
    (1..=64).contains(&uid.len()) && uid.bytes().all(sign)
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::super::change::{Before, ChangeKind};
    use super::super::entry::{Entry, tests::sample};
    use super::*;

    fn export() -> Export {
        let day = date(2026, 3, 1);
        let record = |uid: &str, number, entry: Entry| Record {
            uid: uid.to_owned(),
            diner: "Ana".to_owned(),
            number,
            planned: uid == "a",
            undone: uid == "b",
            entry,
        };
        let water = Entry::water(sample(day, "x", 1.0).at, "water", 250.0, "c", "s");
        let entries = vec![
            record("a", 1, sample(day, "=rice, \"fried\"", 1.0 / 3.0)),
            record("b", 2, sample(day, "'quoted", 512.0)),
            record("c", 3, water),
        ];
        let change = |step, kind, before| Change {
            entry: "a".to_owned(),
            kind,
            step,
            made: Some("2026-03-01T12:00:00Z".parse().unwrap()),
            before,
            undone: false,
        };
        let before = Before {
            planned: true,
            entry: sample(day, "rice", 1.0 / 7.0),
        };
        let mut export = Export::of(vec![Diner::named("Ana")], entries);
        export.changes = vec![
            change(1, ChangeKind::Planned, None),
            change(2, ChangeKind::Edited, Some(before)),
        ];
        export
    }

    #[test]
    fn json_and_csv_come_back_the_same() {
        let export = export();
        assert_eq!(Export::from_json(&export.to_json()).as_ref(), Ok(&export));
        let back = Export::from_csv(&export.to_csv()).unwrap();
        assert_eq!(back.entries, export.entries);
    }

    #[test]
    fn an_export_of_version_1_is_read() {
        let text = r#"{"version":1,"diners":[{"name":"Ana"}],"entries":[]}"#;
        let read = Export::from_json(text).unwrap();
        assert_eq!(read, Export::of(vec![Diner::named("Ana")], Vec::new()));
        // It had no list of changes and no numbers.
        let mut old = export();
        old.changes.clear();
        let text = old.to_json();
        let text = text.replace("\"version\":2", "\"version\":1");
        let text = text.replace(",\n\"changes\":[]", "");
        let text = (1..=3).fold(text, |text, number| {
            text.replace(&format!("\"number\":{number},"), "")
        });
        let read = Export::from_json(&text.replace("\"planned\":true,", "")).unwrap();
        assert_eq!(read.entries[1].entry, old.entries[1].entry);
        assert_eq!(
            (read.entries[1].number, read.entries[0].planned),
            (0, false)
        );
    }

    #[test]
    fn other_text_is_refused() {
        assert!(matches!(
            Export::from_json("{}"),
            Err(ReadError::Json { .. })
        ));
        assert!(matches!(
            Export::from_json("[1"),
            Err(ReadError::Json { .. })
        ));
        assert_eq!(
            Export::from_json(r#"{"version": 9, "else": 1}"#),
            Err(ReadError::Version { found: 9 })
        );
        let more = export().to_json().replacen("\"uid\"", "\"uix\"", 1);
        assert!(matches!(
            Export::from_json(&more),
            Err(ReadError::Json { .. })
        ));
    }

    #[test]
    fn names_across_copies() {
        assert!(is_uid("0a-Z"));
        for bad in ["", "a b", "é", &"a".repeat(65)] {
            assert!(!is_uid(bad));
        }
    }
}
