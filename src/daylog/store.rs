//! The day log's file.

use std::path::{Path, PathBuf};

use jiff::ToSpan;
use jiff::civil::Date;
use rusqlite::{Connection, OpenFlags, Transaction, TransactionBehavior};

use super::day::DayTotal;
use super::entry::Entry;
use super::error::{LogError, explain, explain_io};
use super::exchange::{Export, ImportFault, ImportReport, Record, VERSION, is_uid};
use super::rows::{self, RowError};
use super::{place, schema};
use crate::people::Diner;

/// The open day log. What a method has returned `Ok` for is on the disk; what failed left
/// everything as it was.
#[derive(Debug)]
pub struct Store {
    connection: Connection,
    path: PathBuf,
}

/// What removing a diner took away.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Removed {
    /// The diner's name.
    pub name: String,
    /// How many entries went with them.
    pub entries: usize,
    /// Whether the file was written anew without them. If not (no room for the copy, another
    /// process reading), their bytes were still overwritten with zeros where they stood.
    pub rewritten: bool,
}

impl Store {
    /// Opens the day log, making folder (0700) and file (0600) where there are none, and
    /// bringing an older layout to the latest.
    ///
    /// Fails, and leaves the file as it is, when it is damaged, of something else or of a
    /// later version, and when file or folder cannot be used.
    pub fn open(path: &Path) -> Result<Self, LogError> {
        match std::fs::metadata(path) {
            Ok(found) if found.is_file() && found.len() == 0 => return Err(empty(path)),
            Ok(_) => {}
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => create(path)?,
            Err(error) => return Err(explain_io(path, error)),
        }
        // A file of someone else keeps its rights; what can be read is read.
        let _ = place::close_to_others(path);
        let mut connection = connect(path).map_err(|error| explain(path, error))?;
        let found = check(&connection, path)?;
        if found < schema::LATEST {
            schema::migrate(&mut connection).map_err(|error| explain(path, error))?;
        }
        let path = path.to_owned();
        Ok(Self { connection, path })
    }

    /// The file.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// All diners by name.
    pub fn diners(&self) -> Result<Vec<Diner>, LogError> {
        rows::diners(&self.connection).map_err(|error| error.of(&self.path))
    }

    /// The diner of that name, in any case of letters.
    pub fn diner(&self, name: &str) -> Result<Diner, LogError> {
        let found = || match rows::find_diner(&self.connection, name)? {
            Some((_, diner)) => Ok(diner),
            None => Err(rows::no_diner(&self.connection, name)?.into()),
        };
        found().map_err(|error: RowError| error.of(&self.path))
    }

    /// Adds a diner. Fails on one with faults (held against today's date) and on a taken name.
    pub fn add_diner(&mut self, diner: &Diner, today: Date) -> Result<(), LogError> {
        usable(diner, today)?;
        self.change(|log| {
            name_is_free(log, &diner.name, None)?;
            rows::insert_diner(log, diner)
        })
    }

    /// Puts other details, and perhaps another name, in a diner's place; the entries stay.
    /// Fails as [`Store::add_diner`] does, and when nobody is named so.
    pub fn update_diner(&mut self, name: &str, diner: &Diner, today: Date) -> Result<(), LogError> {
        usable(diner, today)?;
        self.change(|log| {
            let id = rows::diner_id(log, name)?;
            name_is_free(log, &diner.name, Some(id))?;
            rows::update_diner(log, id, diner)
        })
    }

    /// Removes a diner and every entry of theirs, and writes the file anew so that none of it
    /// can be found in there. Exports made before are not reached.
    pub fn remove_diner(&mut self, name: &str) -> Result<Removed, LogError> {
        let (name, entries) = self.change(|log| {
            let Some((id, diner)) = rows::find_diner(log, name)? else {
                return Err(rows::no_diner(log, name)?.into());
            };
            let entries = log.execute("DELETE FROM entries WHERE diner = ?1", [id])?;
            log.execute("DELETE FROM diners WHERE id = ?1", [id])?;
            Ok((diner.name, entries))
        })?;
        let rewritten = self.connection.execute_batch("VACUUM").is_ok();
        Ok(Removed {
            name,
            entries,
            rewritten,
        })
    }

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
        for entry in entries {
            entry.check()?;
        }
        self.change(|log| {
            let Some((id, known)) = rows::find_diner(log, diner)? else {
                return Err(rows::no_diner(log, diner)?.into());
            };
            let record = |entry: &Entry| {
                Ok(Record {
                    uid: rows::insert_entry(log, id, entry, None)?,
                    diner: known.name.clone(),
                    undone: false,
                    entry: entry.clone(),
                })
            };
            entries.iter().map(record).collect()
        })
    }

    /// Takes back the diner's entry that was logged last and still counts; again, the one
    /// before. Nothing when none counts.
    pub fn undo(&mut self, diner: &str) -> Result<Option<Record>, LogError> {
        self.change(|log| {
            let id = rows::diner_id(log, diner)?;
            let uid = log
                .prepare(
                    "UPDATE entries SET undone = 1 WHERE id =
                    (SELECT max(id) FROM entries WHERE diner = ?1 AND undone = 0)
                 RETURNING uid",
                )?
                .query_map([id], |row| row.get::<_, String>(0))?
                .collect::<Result<Vec<_>, _>>()?;
            let Some(uid) = uid.first() else {
                return Ok(None);
            };
            Ok(rows::records(log, "WHERE entries.uid = ?1", [uid])?.pop())
        })
    }

    /// What counts on a diner's local date, by the time it was eaten.
    pub fn day(&self, diner: &str, date: Date) -> Result<Vec<Record>, LogError> {
        self.between(diner, date, date)
    }

    /// What counts from one local date to another, both within, by the time it was eaten.
    pub fn between(&self, diner: &str, from: Date, to: Date) -> Result<Vec<Record>, LogError> {
        let found = || {
            let id = rows::diner_id(&self.connection, diner)?;
            rows::between(&self.connection, id, from, to)
        };
        let mut found = found().map_err(|error: RowError| error.of(&self.path))?;
        found.sort_by_key(|record| (record.entry.at.date, record.entry.at.instant()));
        Ok(found)
    }

    /// The totals of so many weeks of days up to and with a date, oldest first; days without
    /// an entry are there with none. Dates before the calendar's first are left out.
    pub fn history(&self, diner: &str, until: Date, weeks: u32) -> Result<Vec<DayTotal>, LogError> {
        let back = (i64::from(weeks) * 7 - 1).max(0).days();
        let from = until.checked_sub(back).unwrap_or(Date::MIN);
        let found = self.between(diner, from, until)?;
        let days = from.series(1.day()).take_while(|date| *date <= until);
        let total = |date| {
            let of_day = found.iter().map(|record| &record.entry);
            DayTotal::of(date, of_day.filter(|entry| entry.at.date == date))
        };
        Ok(days.map(total).collect())
    }

    /// Everything of one diner, or of all.
    pub fn export(&self, diner: Option<&str>) -> Result<Export, LogError> {
        let Some(name) = diner else {
            return self.export_all();
        };
        let found = || {
            let id = rows::diner_id(&self.connection, name)?;
            rows::records(&self.connection, "WHERE entries.diner = ?1", [id])
        };
        Ok(Export {
            version: VERSION,
            diners: vec![self.diner(name)?],
            entries: found().map_err(|error: RowError| error.of(&self.path))?,
        })
    }

    fn export_all(&self) -> Result<Export, LogError> {
        let entries = rows::records(&self.connection, "", []);
        Ok(Export {
            version: VERSION,
            diners: self.diners()?,
            entries: entries.map_err(|error| error.of(&self.path))?,
        })
    }

    /// Adds what an export holds and is not here yet: all of it, or, on any fault, none. What
    /// is here with other details stays as it is here and is named in the report.
    pub fn import(&mut self, export: &Export, today: Date) -> Result<ImportReport, LogError> {
        self.change(|log| {
            let mut report = ImportReport::default();
            let mut faults = Vec::new();
            for diner in &export.diners {
                import_diner(log, diner, today, &mut report, &mut faults)?;
            }
            for (at, record) in export.entries.iter().enumerate() {
                import_entry(log, at + 1, record, &mut report, &mut faults)?;
            }
            if faults.is_empty() {
                Ok(report)
            } else {
                Err(LogError::Import(faults).into())
            }
        })
    }

    /// Runs a change under the lock: all of it is on the disk afterwards, or none.
    fn change<T>(
        &mut self,
        change: impl FnOnce(&Transaction<'_>) -> Result<T, RowError>,
    ) -> Result<T, LogError> {
        let path = &self.path;
        let run = || {
            let behavior = TransactionBehavior::Immediate;
            let transaction = self.connection.transaction_with_behavior(behavior)?;
            let value = change(&transaction)?;
            transaction.commit()?;
            Ok(value)
        };
        run().map_err(|error: RowError| error.of(path))
    }
}

fn usable(diner: &Diner, today: Date) -> Result<(), LogError> {
    let faults = diner.faults(today);
    if faults.is_empty() {
        Ok(())
    } else {
        Err(LogError::Diner(faults))
    }
}

/// Fails when another row than `own` has the name.
fn name_is_free(log: &Connection, name: &str, own: Option<i64>) -> Result<(), RowError> {
    match rows::find_diner(log, name)? {
        Some((id, taken)) if Some(id) != own => {
            Err(LogError::NameTaken { name: taken.name }.into())
        }
        _ => Ok(()),
    }
}

fn import_diner(
    log: &Connection,
    diner: &Diner,
    today: Date,
    report: &mut ImportReport,
    faults: &mut Vec<ImportFault>,
) -> Result<(), RowError> {
    match rows::find_diner(log, &diner.name)? {
        Some((_, here)) if here == *diner => return Ok(()),
        Some((_, here)) => {
            report.diners_differing.push(here.name);
            return Ok(());
        }
        None => {}
    }
    let of_diner = diner.faults(today);
    if of_diner.is_empty() {
        rows::insert_diner(log, diner)?;
        report.diners_added += 1;
    } else {
        faults.push(ImportFault::Diner {
            name: diner.name.clone(),
            faults: of_diner,
        });
    }
    Ok(())
}

fn import_entry(
    log: &Connection,
    number: usize,
    record: &Record,
    report: &mut ImportReport,
    faults: &mut Vec<ImportFault>,
) -> Result<(), RowError> {
    if let Err(fault) = record.entry.check() {
        faults.push(ImportFault::Entry { number, fault });
        return Ok(());
    }
    if !is_uid(&record.uid) {
        let uid = record.uid.clone();
        faults.push(ImportFault::Uid { number, uid });
        return Ok(());
    }
    if let Some(here) = rows::records(log, "WHERE entries.uid = ?1", [&record.uid])?.pop() {
        if here == *record {
            report.entries_present += 1;
        } else {
            let Entry { dish, at, .. } = &here.entry;
            report
                .entries_differing
                .push(format!("{dish} on {}", at.date));
        }
        return Ok(());
    }
    let Some((diner, _)) = rows::find_diner(log, &record.diner)? else {
        let name = record.diner.clone();
        faults.push(ImportFault::NoDiner { number, name });
        return Ok(());
    };
    let given = Some((record.uid.as_str(), record.undone));
    rows::insert_entry(log, diner, &record.entry, given)?;
    report.entries_added += 1;
    Ok(())
}

fn empty(path: &Path) -> LogError {
    LogError::Damaged {
        path: path.to_owned(),
        detail: "the file is empty".to_owned(),
    }
}

/// Makes the file beside its place and then puts it there whole, so that no process ever
/// sees half a day log and two first runs at once end with one.
fn create(path: &Path) -> Result<(), LogError> {
    let io = |error| explain_io(path, error);
    let folder = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty());
    let folder = folder.unwrap_or(Path::new("."));
    let mut journal = path.as_os_str().to_owned();
    journal.push("-journal");
    let journal = PathBuf::from(journal);
    if journal.exists() {
        let path = path.to_owned();
        return Err(LogError::Orphaned { path, journal });
    }
    place::make_folder(folder).map_err(io)?;
    let mut builder = tempfile::Builder::new();
    let draft = builder.prefix(".daylog-").tempfile_in(folder).map_err(io)?;
    let database = |error| explain(path, error);
    let mut connection = connect(draft.path()).map_err(database)?;
    schema::migrate(&mut connection).map_err(database)?;
    connection.close().map_err(|(_, error)| database(error))?;
    draft.as_file().sync_all().map_err(io)?;
    match draft.persist_noclobber(path) {
        Ok(_) => place::sync_folder(folder).map_err(io),
        Err(lost) if lost.error.kind() == std::io::ErrorKind::AlreadyExists => Ok(()),
        Err(lost) => Err(io(lost.error)),
    }
}

fn connect(path: &Path) -> rusqlite::Result<Connection> {
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let connection = Connection::open_with_flags(path, flags)?;
    connection.busy_timeout(place::WAIT)?;
    // A rollback journal, flushed with its folder, so that a change is on the disk when it is
    // acknowledged and leaves no copy of a removed person in a second file. What is deleted is
    // overwritten, and nothing is spilled to the system's folder for temporary files.
    connection.execute_batch(
        "PRAGMA synchronous = EXTRA;
         PRAGMA fullfsync = ON;
         PRAGMA foreign_keys = ON;
         PRAGMA secure_delete = ON;
         PRAGMA temp_store = MEMORY;
         PRAGMA trusted_schema = OFF;",
    )?;
    Ok(connection)
}

/// Looks the file over without writing; the layout it has.
fn check(connection: &Connection, path: &Path) -> Result<i64, LogError> {
    let database = |error| explain(path, error);
    let application: i64 = connection
        .pragma_query_value(None, "application_id", |row| row.get(0))
        .map_err(database)?;
    if application != schema::APPLICATION_ID {
        let path = path.to_owned();
        return Err(LogError::Foreign { path });
    }
    let found = schema::layout(connection).map_err(database)?;
    if found > schema::LATEST {
        return Err(LogError::Newer {
            path: path.to_owned(),
            found,
            known: schema::LATEST,
        });
    }
    let verdict: String = connection
        .pragma_query_value(None, "quick_check", |row| row.get(0))
        .map_err(database)?;
    if verdict != "ok" || found < 1 {
        let detail = if verdict == "ok" {
            "it has no layout"
        } else {
            verdict.trim()
        };
        return Err(LogError::Damaged {
            path: path.to_owned(),
            detail: detail.replace('\n', "; "),
        });
    }
    Ok(found)
}
