//! Entries put into the log, changed, removed and brought back, every change kept.

use rusqlite::Transaction;

use super::super::change::{Before, Change, ChangeKind, Undone};
use super::super::change_rows::{self, New};
use super::super::entry::Entry;
use super::super::error::LogError;
use super::super::record::Record;
use super::super::rows::{self, Given, RowError};
use super::Store;

impl Store {
    /// Logs something eaten or drunk. Fails on faulty figures and when nobody is named so.
    pub fn eat(&mut self, diner: &str, entry: &Entry) -> Result<Record, LogError> {
        let mut logged = self.eat_all(diner, std::slice::from_ref(entry))?;
        // One entry in, one record out.
        logged.pop().ok_or_else(|| LogError::Unreadable {
            path: self.path.clone(),
            what: "the entry just logged".to_owned(),
            detail: "it is not there".to_owned(),
        })
    }

    /// Logs several things at once: all of them, or none. Fails as [`Store::eat`] does.
    pub fn eat_all(&mut self, diner: &str, entries: &[Entry]) -> Result<Vec<Record>, LogError> {
        self.put(&[(diner, entries)], ChangeKind::Eaten)
    }

    /// Puts entries of several diners into the log, all of them or none: eaten, planned or
    /// repeated. What a diner gets is one step, to be taken back as one.
    ///
    /// Fails on faulty figures and when nobody is named so.
    pub fn put(
        &mut self,
        all: &[(&str, &[Entry])],
        kind: ChangeKind,
    ) -> Result<Vec<Record>, LogError> {
        debug_assert!(kind.is_new(), "{kind:?} puts nothing into the log");
        for entry in all.iter().flat_map(|(_, entries)| *entries) {
            entry.check()?;
        }
        let made = self.now;
        self.change(|log| {
            let mut records = Vec::new();
            for (name, entries) in all {
                let Some((diner, known)) = rows::find_diner(log, name)? else {
                    return Err(rows::no_diner(log, name)?.into());
                };
                let step = change_rows::next_step(log, diner)?;
                for entry in *entries {
                    let planned = kind == ChangeKind::Planned;
                    let given = Given {
                        planned,
                        ..Given::default()
                    };
                    let added = rows::insert_entry(log, diner, entry, given)?;
                    let change = New {
                        diner,
                        entry: added.id,
                        step,
                        kind,
                        made,
                        before: None,
                        undone: false,
                    };
                    change_rows::insert(log, &change)?;
                    records.push(Record {
                        uid: added.uid,
                        diner: known.name.clone(),
                        number: added.number,
                        planned,
                        undone: false,
                        entry: entry.clone(),
                    });
                }
            }
            Ok(records)
        })
    }

    /// The entry with a number of a diner's, eaten or planned.
    ///
    /// Fails when there is none, or when it was taken back or removed.
    pub fn entry(&self, diner: &str, number: u32) -> Result<Record, LogError> {
        let found = || {
            let diner = rows::diner_id(&self.connection, diner)?;
            Ok(counting(&self.connection, diner, number)?.1)
        };
        found().map_err(|error: RowError| error.of(&self.path))
    }

    /// Puts other figures in an entry's place; a planned one may become eaten. `was` is the
    /// entry that the new figures were made from.
    ///
    /// Fails on faulty figures, when the entry is not there, and when somebody has changed it
    /// meanwhile.
    pub fn replace(
        &mut self,
        was: &Record,
        entry: &Entry,
        kind: ChangeKind,
    ) -> Result<Record, LogError> {
        debug_assert!(kind.has_before(), "{kind:?} changes no figures");
        entry.check()?;
        let made = self.now;
        self.change(|log| {
            let diner = rows::diner_id(log, &was.diner)?;
            let (id, here) = counting(log, diner, was.number)?;
            if here != *was {
                let number = was.number;
                return Err(LogError::Changed { number }.into());
            }
            let before = Before {
                planned: here.planned,
                entry: here.entry,
            };
            let planned = here.planned && kind != ChangeKind::Fulfilled;
            rows::update_entry(log, id, entry, planned)?;
            let change = New {
                diner,
                entry: id,
                step: change_rows::next_step(log, diner)?,
                kind,
                made,
                before: Some(&before),
                undone: false,
            };
            change_rows::insert(log, &change)?;
            rows::entry_at(log, id)
        })
    }

    /// Removes entries of a diner by their numbers, all or none, as one step. They are kept,
    /// out of every sum, until the diner is removed.
    ///
    /// Fails when one is not there.
    pub fn remove(&mut self, diner: &str, numbers: &[u32]) -> Result<Vec<Record>, LogError> {
        let made = self.now;
        self.change(|log| {
            let diner = rows::diner_id(log, diner)?;
            let step = change_rows::next_step(log, diner)?;
            let remove = |number: &u32| {
                let (id, _) = counting(log, diner, *number)?;
                rows::set_undone(log, id, true)?;
                let change = New {
                    diner,
                    entry: id,
                    step,
                    kind: ChangeKind::Removed,
                    made,
                    before: None,
                    undone: false,
                };
                change_rows::insert(log, &change)?;
                rows::entry_at(log, id)
            };
            numbers.iter().map(remove).collect()
        })
    }

    /// Takes back what was done last to the diner's log and still stands: all of one step, in
    /// the order it was made. Again, the step before. Nothing when none stands.
    pub fn undo(&mut self, diner: &str) -> Result<Vec<Undone>, LogError> {
        self.change(|log| {
            let diner = rows::diner_id(log, diner)?;
            let last = change_rows::last_step(log, diner)?;
            let Some(step) = last.first().map(|kept| kept.change.step) else {
                return Ok(Vec::new());
            };
            // The last change first, should one step have changed an entry twice.
            let undone = last.iter().rev().map(|kept| {
                let was = rows::entry_at(log, kept.entry_row)?;
                reverse(log, kept)?;
                let now = rows::entry_at(log, kept.entry_row)?;
                let kind = kept.change.kind;
                Ok(Undone { kind, was, now })
            });
            let mut undone = undone.collect::<Result<Vec<_>, RowError>>()?;
            undone.reverse();
            change_rows::take_back(log, diner, step)?;
            Ok(undone)
        })
    }

    /// What was done to a diner's log, the last first, each with the entry as it stands now; at
    /// most so many.
    pub fn changes(&self, diner: &str, most: u32) -> Result<Vec<(Change, Record)>, LogError> {
        let found = || {
            let diner = rows::diner_id(&self.connection, diner)?;
            let latest = change_rows::latest(&self.connection, diner, most)?;
            let with = |kept: change_rows::Kept| {
                let record = rows::entry_at(&self.connection, kept.entry_row)?;
                Ok((kept.change, record))
            };
            latest.into_iter().map(with).collect::<Result<_, _>>()
        };
        found().map_err(|error: RowError| error.of(&self.path))
    }
}

/// An entry that counts, with its row.
fn counting(
    log: &rusqlite::Connection,
    diner: i64,
    number: u32,
) -> Result<(i64, Record), RowError> {
    match rows::find_entry(log, diner, number)? {
        Some((_, record)) if record.undone => Err(LogError::EntryRemoved {
            number,
            dish: record.entry.dish,
        }
        .into()),
        Some(found) => Ok(found),
        None => Err(LogError::NoEntry { number }.into()),
    }
}

/// Makes an entry what it was before a change.
fn reverse(log: &Transaction<'_>, kept: &change_rows::Kept) -> Result<(), RowError> {
    let id = kept.entry_row;
    match (kept.change.kind, &kept.change.before) {
        (_, Some(before)) => rows::update_entry(log, id, &before.entry, before.planned),
        (ChangeKind::Removed, None) => rows::set_undone(log, id, false),
        (_, None) => rows::set_undone(log, id, true),
    }
}
