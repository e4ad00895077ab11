//! What can be wrong with a standard file, and where in it.

use toml::de::{DeTable, DeValue};

/// Why a standard cannot be used.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum StandardError {
    /// The text is not the TOML expected; the message names line, column and key.
    #[error("{0}")]
    Syntax(String),
    /// A figure, name or row that no standard can have.
    #[error("line {line}, column {column}: {fault}")]
    At {
        /// Line, from 1.
        line: usize,
        /// Column in characters, from 1.
        column: usize,
        /// What is wrong there.
        fault: Fault,
    },
}

impl StandardError {
    /// A fault under the keys `path` of a readable TOML text; where the last keys do not
    /// exist, at the last that does.
    pub(super) fn at(text: &str, path: &[&str], fault: Fault) -> Self {
        let before = text.get(..start_of(text, path)).unwrap_or_default();
        let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
        Self::At {
            line: before.matches('\n').count() + 1,
            column: before[line_start..].chars().count() + 1,
            fault,
        }
    }
}

/// Byte at which the value under `path` is named.
fn start_of(text: &str, path: &[&str]) -> usize {
    let Ok(root) = DeTable::parse(text) else {
        return 0;
    };
    let mut start = 0;
    let mut table = Some(root.get_ref());
    for key in path {
        let Some((name, value)) = table.and_then(|t| t.get_key_value(*key)) else {
            break;
        };
        start = name.span().start;
        table = match value.get_ref() {
            DeValue::Table(inner) => Some(inner),
            _ => None,
        };
    }
    start
}

/// What is wrong in a standard that is readable TOML.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Fault {
    /// A row is not as long as the list of levels.
    #[error("`{row}` has {found} figures for {levels} levels: give one for each level")]
    Length {
        /// Which row.
        row: String,
        /// How many figures it has.
        found: usize,
        /// How many levels there are.
        levels: usize,
    },
    /// A group that does not exist.
    #[error("no food group `{name}`: use one of {known}")]
    UnknownGroup {
        /// As written.
        name: String,
        /// The groups there are.
        known: String,
    },
    /// A subgroup that the group does not have.
    #[error("group `{group}` has no part `{name}`")]
    UnknownSubgroup {
        /// The group.
        group: String,
        /// As written.
        name: String,
    },
    /// A unit that is not the group's.
    #[error("`{group}` is counted in {expected}, not in {found}")]
    Unit {
        /// The group.
        group: String,
        /// Its unit.
        expected: &'static str,
        /// The unit written.
        found: &'static str,
    },
    /// Levels are missing, not positive or not in rising order.
    #[error("`levels` must be energy levels in kcal, rising, between 800 and 6000")]
    Levels,
    /// A figure that no standard can have.
    #[error("`{row}` holds {value}: amounts must be 0 or more, portions above 0")]
    Figure {
        /// Which row.
        row: String,
        /// The figure.
        value: f64,
    },
}
