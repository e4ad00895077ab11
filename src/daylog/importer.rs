//! Brings back what an export holds, piece by piece, within one change of the log.

use std::collections::{HashMap, HashSet};

use jiff::civil::Date;
use rusqlite::Connection;

use super::backup::Take;
use super::change::Change;
use super::change_rows;
use super::entry::Entry;
use super::error::LogError;
use super::exchange::{ImportFault, ImportReport, is_uid};
use super::record::Record;
use super::rows::{self, RowError};
use crate::people::Diner;

/// Records that cannot be taken of which each is named.
const MOST_FAULTS: usize = 100;

/// Brings an export back, piece by piece, within one change.
pub(super) struct Importer<'l> {
    log: &'l Connection,
    today: Date,
    report: ImportReport,
    faults: Vec<ImportFault>,
    number: usize,
    /// Entries that were added, by name: the rows of their diner and of themselves.
    added: HashMap<String, (i64, i64)>,
    /// Entries that are here already.
    present: HashSet<String>,
    changes: usize,
    /// The last step brought back of each diner: its number there and here.
    steps: HashMap<i64, (u32, u32)>,
    failed: Option<RowError>,
}

impl<'l> Importer<'l> {
    pub(super) fn new(log: &'l Connection, today: Date) -> Self {
        Self {
            log,
            today,
            report: ImportReport::default(),
            faults: Vec::new(),
            number: 0,
            added: HashMap::new(),
            present: HashSet::new(),
            changes: 0,
            steps: HashMap::new(),
            failed: None,
        }
    }

    /// What came of it; the faults, where there are any.
    pub(super) fn end(self) -> Result<ImportReport, RowError> {
        match self.failed {
            Some(error) => Err(error),
            None if self.faults.is_empty() => {
                change_rows::fill_in(self.log)?;
                Ok(self.report)
            }
            None => Err(LogError::Import(self.faults).into()),
        }
    }

    /// Whether more is wanted after a piece.
    fn goes_on(&mut self, taken: Result<(), RowError>) -> bool {
        self.failed = taken.err();
        self.failed.is_none() && self.faults.len() < MOST_FAULTS
    }

    fn take_diner(&mut self, diner: &Diner) -> Result<(), RowError> {
        match rows::find_diner(self.log, &diner.name)? {
            Some((_, here)) if here == *diner => return Ok(()),
            Some((_, here)) => {
                self.report.diners_differing.push(here.name);
                return Ok(());
            }
            None => {}
        }
        let faults = diner.faults(self.today);
        if faults.is_empty() {
            rows::insert_diner(self.log, diner)?;
            self.report.diners_added += 1;
        } else {
            let name = diner.name.clone();
            self.faults.push(ImportFault::Diner { name, faults });
        }
        Ok(())
    }

    fn take_entry(&mut self, record: &Record) -> Result<(), RowError> {
        let number = self.number;
        if let Err(fault) = record.entry.check() {
            self.faults.push(ImportFault::Entry { number, fault });
            return Ok(());
        }
        if !is_uid(&record.uid) {
            let uid = record.uid.clone();
            self.faults.push(ImportFault::Uid { number, uid });
            return Ok(());
        }
        if let Some(here) = rows::records(self.log, "WHERE entries.uid = ?1", [&record.uid])?.pop()
        {
            self.present.insert(record.uid.clone());
            // Each copy counts for itself.
            let same = Record {
                number: here.number,
                ..record.clone()
            };
            if here == same {
                self.report.entries_present += 1;
            } else {
                let Entry { dish, at, .. } = &here.entry;
                let named = format!("{dish} on {}", at.date);
                self.report.entries_differing.push(named);
            }
            return Ok(());
        }
        let Some((diner, _)) = rows::find_diner(self.log, &record.diner)? else {
            let name = record.diner.clone();
            self.faults.push(ImportFault::NoDiner { number, name });
            return Ok(());
        };
        let given = rows::Given {
            uid: Some(&record.uid),
            planned: record.planned,
            undone: record.undone,
        };
        let added = rows::insert_entry(self.log, diner, &record.entry, given)?;
        self.added.insert(added.uid, (diner, added.id));
        self.report.entries_added += 1;
        Ok(())
    }

    /// Keeps what was done to an entry that was added; of those that were here already what was
    /// done is kept here.
    fn take_change(&mut self, change: &Change) -> Result<(), RowError> {
        let whole = change.kind.has_before() == change.before.is_some();
        let before = change.before.as_ref();
        let sound = before.is_none_or(|before| before.entry.check().is_ok());
        let Some((diner, entry)) = self.added.get(&change.entry).copied() else {
            if !self.present.contains(&change.entry) {
                self.bad_change();
            }
            return Ok(());
        };
        if !whole || !sound {
            self.bad_change();
            return Ok(());
        }
        let step = match self.steps.get(&diner) {
            Some((there, here)) if *there == change.step => *here,
            _ => change_rows::next_step(self.log, diner)?,
        };
        self.steps.insert(diner, (change.step, step));
        change_rows::insert(
            self.log,
            &change_rows::New {
                diner,
                entry,
                step,
                kind: change.kind,
                made: change.made,
                before,
                undone: change.undone,
            },
        )
    }

    fn bad_change(&mut self) {
        let number = self.changes;
        self.faults.push(ImportFault::Change { number });
    }
}

impl Take for Importer<'_> {
    fn diner(&mut self, diner: Diner) -> bool {
        let taken = self.take_diner(&diner);
        self.goes_on(taken)
    }

    fn entry(&mut self, record: Record) -> bool {
        self.number += 1;
        let taken = self.take_entry(&record);
        self.goes_on(taken)
    }

    fn change(&mut self, change: Change) -> bool {
        self.changes += 1;
        let taken = self.take_change(&change);
        self.goes_on(taken)
    }
}
