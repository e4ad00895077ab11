//! The day log's file.

mod mend;

use std::io::{Read, Seek, Write};
use std::path::{Path, PathBuf};

use jiff::civil::Date;
use jiff::{Timestamp, ToSpan};
use rusqlite::{Connection, OpenFlags, Transaction, TransactionBehavior};

use super::backup::{self, Take};
use super::day::DayTotal;
use super::error::{LogError, explain, explain_io};
use super::exchange::{Export, ImportReport, JsonOut};
use super::importer::Importer;
use super::record::Record;
use super::review::totals;
use super::rows::{self, RowError};
use super::table::{Blocks, TableOut};
use super::{change_rows, place, schema};
use crate::people::Diner;

/// The open day log. What a method has returned `Ok` for is on the disk; what failed left
/// everything as it was.
#[derive(Debug)]
pub struct Store {
    connection: Connection,
    path: PathBuf,
    /// The moment that changes are kept under.
    now: Option<Timestamp>,
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
        let mut connection = connect(path).map_err(|error| explain(path, error))?;
        let found = check(&connection, path)?;
        // Only now that it is known to be a day log, and never through a link. A file of
        // someone else keeps its rights; what can be read is read.
        let _ = place::close_to_others(path);
        clear_drafts(path);
        if found < schema::LATEST {
            schema::migrate(&mut connection).map_err(|error| explain(path, error))?;
        }
        let path = path.to_owned();
        Ok(Self {
            connection,
            path,
            now: None,
        })
    }

    /// Keeps the moment of every change made from now on.
    pub fn set_now(&mut self, now: Timestamp) {
        self.now = Some(now);
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
        self.end_other_journals()?;
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

    /// Another tool may have left the file in a mode that keeps copies of pages in a second
    /// file, where what is removed would stay.
    fn end_other_journals(&self) -> Result<(), LogError> {
        let pragma = "PRAGMA journal_mode = DELETE";
        let mode = self.connection.query_row(pragma, [], |row| row.get(0));
        let mode: String = mode.map_err(|error| explain(&self.path, error))?;
        if mode.eq_ignore_ascii_case("delete") {
            return Ok(());
        }
        let path = self.path.clone();
        Err(LogError::Shared { path })
    }

    /// What was eaten on a diner's local date, by its time.
    pub fn day(&self, diner: &str, date: Date) -> Result<Vec<Record>, LogError> {
        self.between(diner, date, date)
    }

    /// What was eaten from one local date to another, both within, by its time.
    pub(crate) fn between(
        &self,
        diner: &str,
        from: Date,
        to: Date,
    ) -> Result<Vec<Record>, LogError> {
        self.found(diner, (from, to), false)
    }

    /// What is planned from one local date to another, both within, by its time.
    pub(crate) fn planned(
        &self,
        diner: &str,
        from: Date,
        to: Date,
    ) -> Result<Vec<Record>, LogError> {
        self.found(diner, (from, to), true)
    }

    fn found(
        &self,
        diner: &str,
        dates: (Date, Date),
        planned: bool,
    ) -> Result<Vec<Record>, LogError> {
        let found = || {
            let id = rows::diner_id(&self.connection, diner)?;
            rows::between(&self.connection, id, dates, planned)
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
        Ok(totals(&found, from, until))
    }

    /// Everything of one diner, or of all, held in memory; see [`Store::export_to`].
    pub fn export(&self, diner: Option<&str>) -> Result<Export, LogError> {
        let mut entries = Vec::new();
        let (id, diners) = self.asked(diner)?;
        let all = rows::each(&self.connection, id, &mut |record| {
            entries.push(record);
            Ok(())
        });
        all.map_err(|error| error.of(&self.path))?;
        let mut export = Export::of(diners, entries);
        let all = change_rows::each(&self.connection, id, &mut |change| {
            export.changes.push(change);
            Ok(())
        });
        all.map_err(|error| error.of(&self.path))?;
        Ok(export)
    }

    /// Writes everything of one diner, or of all, entry by entry: what [`Store::import_from`]
    /// brings back.
    ///
    /// Fails when the file cannot be read or `out` cannot be written.
    pub fn export_to(
        &self,
        diner: Option<&str>,
        form: ExportForm,
        out: &mut dyn Write,
    ) -> Result<(), LogError> {
        let (id, diners) = self.asked(diner)?;
        let each = |take: &mut dyn FnMut(Record) -> Result<(), RowError>| {
            rows::each(&self.connection, id, take)
        };
        let mut write = || match form {
            ExportForm::Json => {
                let mut out = JsonOut::begin(out, &diners)?;
                each(&mut |record| Ok(out.entry(&record)?))?;
                out.changes()?;
                change_rows::each(&self.connection, id, &mut |change| Ok(out.change(&change)?))?;
                Ok(out.end()?)
            }
            ExportForm::Table { shown } => {
                let mut blocks = Blocks::default();
                each(&mut |record| {
                    blocks.add(&record.entry);
                    Ok(())
                })?;
                let mut out = TableOut::begin(out, blocks, shown)?;
                each(&mut |record| Ok(out.entry(&record)?))?;
                Ok(out.end()?)
            }
        };
        write().map_err(|error: RowError| error.of(&self.path))
    }

    /// A diner by name with the row's number, or all of them.
    fn asked(&self, diner: Option<&str>) -> Result<(Option<i64>, Vec<Diner>), LogError> {
        let Some(name) = diner else {
            return Ok((None, self.diners()?));
        };
        let id = rows::diner_id(&self.connection, name).map_err(|error| error.of(&self.path))?;
        Ok((Some(id), vec![self.diner(name)?]))
    }

    /// Adds what an export holds and is not here yet: all of it, or, on any fault, none. What
    /// is here with other details stays as it is here and is named in the report.
    pub fn import(&mut self, export: &Export, today: Date) -> Result<ImportReport, LogError> {
        self.change(|log| {
            let mut importer = Importer::new(log, today);
            let mut diners = export.diners.iter().cloned();
            let mut entries = export.entries.iter().cloned();
            let mut changes = export.changes.iter().cloned();
            let _ = diners.all(|diner| importer.diner(diner))
                && entries.all(|record| importer.entry(record))
                && changes.all(|change| importer.change(change));
            importer.end()
        })
    }

    /// The same from the text of an export, JSON or table, entry by entry.
    ///
    /// Fails also on other text, and on an entry larger than 1 MB.
    pub(crate) fn import_from<R: Read + Seek>(
        &mut self,
        from: &mut R,
        today: Date,
    ) -> Result<ImportReport, LogError> {
        self.change(|log| {
            let mut importer = Importer::new(log, today);
            backup::read(from, &mut importer).map_err(LogError::from)?;
            importer.end()
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

/// How an export is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ExportForm {
    /// Everything, diners included.
    Json,
    /// The entries as a CSV table.
    Table {
        /// For a terminal: what cannot be seen stands there as its code.
        shown: bool,
    },
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
    let draft = builder.prefix(DRAFT).tempfile_in(folder).map_err(io)?;
    let database = |error| explain(path, error);
    // Held as long as it is being made, so that nobody clears it away.
    let _ = draft.as_file().try_lock();
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

/// How drafts of a day log begin.
const DRAFT: &str = ".daylog-";
/// A draft is made in less time, s.
const DRAFT_AGE_S: u64 = 60;

/// Takes away drafts that first runs left when they were killed. Nothing is lost by one that
/// cannot be taken away.
fn clear_drafts(path: &Path) {
    let folder = path.parent().filter(|p| !p.as_os_str().is_empty());
    let Ok(list) = std::fs::read_dir(folder.unwrap_or(Path::new("."))) else {
        return;
    };
    for item in list.flatten() {
        let is_draft = item.file_name().to_string_lossy().starts_with(DRAFT);
        let old = || {
            let age = item.metadata().ok()?.modified().ok()?.elapsed().ok()?;
            Some(age.as_secs() >= DRAFT_AGE_S)
        };
        if !is_draft || !old().unwrap_or(false) {
            continue;
        }
        let in_use = std::fs::File::open(item.path()).is_ok_and(|file| file.try_lock().is_err());
        if !in_use {
            let _ = std::fs::remove_file(item.path());
        }
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
