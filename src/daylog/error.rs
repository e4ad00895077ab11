//! What can go wrong with the day log's file, and what to do then.

use std::io;
use std::path::{Path, PathBuf};

use rusqlite::ErrorCode;

use super::entry::EntryFault;
use super::exchange::ImportFault;
use crate::people::DinerError;

/// Why the day log could not be read or written. In every case what was there before is
/// still there.
#[derive(Debug, thiserror::Error)]
pub enum LogError {
    /// The file is no longer a sound database.
    #[error(
        "the day log `{path}` is damaged ({detail}) and was left untouched; move it to another name, \
         then bring back an export with `trencher day import FILE`, or try `sqlite3 FILE .recover` on the damaged file",
        path = path.display()
    )]
    Damaged {
        /// The file.
        path: PathBuf,
        /// What was found.
        detail: String,
    },
    /// A database, but of something else.
    #[error(
        "`{path}` is a database of something else and was left untouched; set `TRENCHER_HOME` to another folder",
        path = path.display()
    )]
    Foreign {
        /// The file.
        path: PathBuf,
    },
    /// Written by a later version of this program.
    #[error(
        "the day log `{path}` has layout {found}, this program knows up to {known}; update trencher",
        path = path.display()
    )]
    Newer {
        /// The file.
        path: PathBuf,
        /// Its layout.
        found: i64,
        /// The latest layout known here.
        known: i64,
    },
    /// The file is gone but the half-written page list of its last change is there.
    #[error(
        "the day log `{path}` is missing but `{journal}` is there; put the day log back beside it, \
         or move `{journal}` away to start anew",
        path = path.display(), journal = journal.display()
    )]
    Orphaned {
        /// The file that is missing.
        path: PathBuf,
        /// What was left of it.
        journal: PathBuf,
    },
    /// No room.
    #[error(
        "the disk is full or a limit on file size is reached: the change to `{path}` was not made, all before it is kept; make room and repeat it",
        path = path.display()
    )]
    Full {
        /// The file.
        path: PathBuf,
    },
    /// The file or its folder cannot be written.
    #[error(
        "`{path}` or its folder cannot be written, so nothing was changed; give yourself the right to write, or set `TRENCHER_HOME` to another folder",
        path = path.display()
    )]
    ReadOnly {
        /// The file.
        path: PathBuf,
    },
    /// Another process kept the file to itself.
    #[error(
        "another program has kept the day log `{path}` busy for {seconds} seconds; nothing was changed, try again",
        path = path.display()
    )]
    Busy {
        /// The file.
        path: PathBuf,
        /// How long this one waited.
        seconds: u64,
    },
    /// The system refused.
    #[error("cannot use `{path}`: {source}", path = path.display())]
    Io {
        /// The file or folder.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// Anything else from the database.
    #[error("the day log `{path}` could not be used: {source}", path = path.display())]
    Database {
        /// The file.
        path: PathBuf,
        /// What the database said.
        source: rusqlite::Error,
    },
    /// A stored diner or entry cannot be read.
    #[error(
        "{what} in the day log `{path}` cannot be read ({detail}); nothing was changed",
        path = path.display()
    )]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// Which record.
        what: String,
        /// What is wrong with it.
        detail: String,
    },
    /// Nobody of that name.
    #[error("no diner is named `{name}`; {}", known_names(known))]
    NoDiner {
        /// As asked.
        name: String,
        /// Who there is.
        known: Vec<String>,
    },
    /// No entry with that number.
    #[error("no entry has the number {number}; `trencher day show` lists them with their numbers")]
    NoEntry {
        /// As asked.
        number: u32,
    },
    /// The entry does not count any more.
    #[error(
        "entry {number} (`{dish}`) was taken back or removed; `trencher day undo` brings back what was removed last"
    )]
    EntryRemoved {
        /// As asked.
        number: u32,
        /// Its dish.
        dish: String,
    },
    /// Somebody else changed it first.
    #[error(
        "entry {number} was changed by another program meanwhile; nothing was changed, look at it and try again"
    )]
    Changed {
        /// Its number.
        number: u32,
    },
    /// The name is taken.
    #[error("there is a diner named `{name}` already; choose another name or remove that one")]
    NameTaken {
        /// The name as it is stored.
        name: String,
    },
    /// The diner has faults; all of them.
    #[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))]
    Diner(Vec<DinerError>),
    /// The entry has a fault.
    #[error(transparent)]
    Entry(#[from] EntryFault),
    /// The text of an import.
    #[error(transparent)]
    Read(#[from] super::record::ReadError),
    /// What was to be written could not be.
    #[error("cannot write: {0}")]
    Output(io::Error),
    /// The person could not be removed surely: another program has the file open.
    #[error(
        "another program has the day log `{path}` open and keeps copies of what stood in it; \
         nobody was removed, close that program and repeat it",
        path = path.display()
    )]
    Shared {
        /// The file.
        path: PathBuf,
    },
    /// Records of an import that cannot be taken; all of them. None was.
    #[error("nothing was imported: {}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))]
    Import(Vec<ImportFault>),
}

fn known_names(known: &[String]) -> String {
    if known.is_empty() {
        return "there are none yet, add one with `trencher diner add NAME`".to_owned();
    }
    format!("known: {}", known.join(", "))
}

/// A database error in terms of the file.
pub(super) fn explain(path: &Path, error: rusqlite::Error) -> LogError {
    let path = path.to_owned();
    match error.sqlite_error().map(|inner| inner.code) {
        Some(ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase) => LogError::Damaged {
            path,
            detail: error.to_string(),
        },
        Some(ErrorCode::DiskFull) => LogError::Full { path },
        // The database has no word for a limit on file size; a failed write is all it tells.
        Some(ErrorCode::SystemIoFailure) if failed_write(&error) => LogError::Full { path },
        Some(ErrorCode::ReadOnly | ErrorCode::PermissionDenied | ErrorCode::CannotOpen) => {
            LogError::ReadOnly { path }
        }
        Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => LogError::Busy {
            path,
            seconds: super::place::WAIT.as_secs(),
        },
        _ => LogError::Database {
            path,
            source: error,
        },
    }
}

fn failed_write(error: &rusqlite::Error) -> bool {
    let extended = error.sqlite_error().map(|inner| inner.extended_code);
    extended == Some(rusqlite::ffi::SQLITE_IOERR_WRITE)
}

/// A system error in terms of the file.
pub(super) fn explain_io(path: &Path, source: io::Error) -> LogError {
    let path = path.to_owned();
    match source.kind() {
        io::ErrorKind::StorageFull | io::ErrorKind::FileTooLarge | io::ErrorKind::QuotaExceeded => {
            LogError::Full { path }
        }
        io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem => {
            LogError::ReadOnly { path }
        }
        _ => LogError::Io { path, source },
    }
}
