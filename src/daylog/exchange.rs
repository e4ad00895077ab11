//! The day log as text for other programs, and back without loss.

use std::io::{self, Write};

use serde::Serialize;

use super::backup::{self, Take};
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
    /// JSON with everything, a diner or an entry a line.
    #[must_use]
    pub fn to_json(&self) -> String {
        let mut text = Vec::new();
        // Memory takes whatever is written.
        let _ = JsonOut::begin(&mut text, &self.diners).and_then(|mut out| {
            self.entries.iter().try_for_each(|entry| out.entry(entry))?;
            out.end()
        });
        String::from_utf8(text).unwrap_or_default()
    }

    /// Reads [`Export::to_json`]. Fails on other text and on later versions.
    pub fn from_json(text: &str) -> Result<Self, ReadError> {
        Self::read(text)
    }

    fn read(text: &str) -> Result<Self, ReadError> {
        let mut export = Self {
            version: VERSION,
            diners: Vec::new(),
            entries: Vec::new(),
        };
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

    use super::super::entry::{Entry, tests::sample};
    use super::*;

    fn export() -> Export {
        let day = date(2026, 3, 1);
        let record = |uid: &str, entry: Entry| Record {
            uid: uid.to_owned(),
            diner: "Ana".to_owned(),
            undone: uid == "b",
            entry,
        };
        let water = Entry::water(sample(day, "x", 1.0).at, "water", 250.0, "c", "s");
        Export {
            version: VERSION,
            diners: vec![Diner::named("Ana")],
            entries: vec![
                record("a", sample(day, "=rice, \"fried\"", 1.0 / 3.0)),
                record("b", sample(day, "'quoted", 512.0)),
                record("c", water),
            ],
        }
    }

    #[test]
    fn json_and_csv_come_back_the_same() {
        let export = export();
        assert_eq!(Export::from_json(&export.to_json()).as_ref(), Ok(&export));
        let back = Export::from_csv(&export.to_csv()).unwrap();
        assert_eq!(back.entries, export.entries);
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
