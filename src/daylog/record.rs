//! An entry as it stands in an exported day log, and why a text is none.

use super::entry::Entry;
use serde::{Deserialize, Serialize};

/// Version of the exported JSON. Version 1 knew neither planned entries nor changes.
pub(crate) const VERSION: u32 = 2;
/// The oldest version that is read.
pub(super) const OLDEST: u32 = 1;

/// One entry with whose it is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Record {
    /// Names this entry in every copy.
    pub uid: String,
    /// The diner's name.
    pub diner: String,
    /// Its number among the diner's entries, from 1, by which commands name it; another copy
    /// of the log may have another. 0 in exports that had none.
    #[serde(default)]
    pub number: u32,
    /// Whether it is planned and not eaten yet.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub planned: bool,
    /// Whether it was taken back or removed.
    pub undone: bool,
    /// What was eaten.
    pub entry: Entry,
}

/// Why text is no export.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ReadError {
    /// Not JSON of this form.
    #[error("this is no exported day log: {detail}")]
    Json {
        /// What is wrong, with line and column.
        detail: String,
    },
    /// The text could not be read to its end.
    #[error("it cannot be read: {detail}")]
    Input {
        /// What the system said.
        detail: String,
    },
    /// From a later version.
    #[error(
        "this export has version {found}, this program reads up to version {VERSION}; update trencher"
    )]
    Version {
        /// Its version.
        found: u64,
    },
    /// Not a CSV table, or without columns it needs.
    #[error("this is no exported day log: {detail}")]
    Table {
        /// What is wrong.
        detail: String,
    },
    /// Cells that cannot be read; of very many the first.
    #[error("cells that cannot be read: {}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))]
    Cells(Vec<BadCell>),
}

/// A cell that cannot be read.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("line {line}, column `{column}`: `{text}`")]
pub struct BadCell {
    /// Line of the file, from 1.
    pub line: u64,
    /// Heading of the column.
    pub column: String,
    /// What stands there.
    pub text: String,
}
