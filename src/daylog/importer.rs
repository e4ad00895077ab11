//! Brings back what an export holds, piece by piece, within one change of the log.

use jiff::civil::Date;
use rusqlite::Connection;

use super::backup::Take;
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
            failed: None,
        }
    }

    /// What came of it; the faults, where there are any.
    pub(super) fn end(self) -> Result<ImportReport, RowError> {
        match self.failed {
            Some(error) => Err(error),
            None if self.faults.is_empty() => Ok(self.report),
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
            if here == *record {
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
        let given = Some((record.uid.as_str(), record.undone));
        rows::insert_entry(self.log, diner, &record.entry, given)?;
        self.report.entries_added += 1;
        Ok(())
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
}
