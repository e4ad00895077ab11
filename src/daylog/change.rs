//! What was done to the log, kept so that it can be looked up and taken back.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::entry::Entry;
use super::record::Record;

/// What a change did to an entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ChangeKind {
    /// It was logged as eaten.
    Eaten,
    /// It was planned.
    Planned,
    /// It was logged as eaten, its figures those of an earlier entry.
    Repeated,
    /// Its share, time, meal or dish was changed.
    Edited,
    /// It was removed.
    Removed,
    /// It was planned before and is eaten now.
    Fulfilled,
}

impl ChangeKind {
    /// All of them.
    const ALL: [Self; 6] = [
        Self::Eaten,
        Self::Planned,
        Self::Repeated,
        Self::Edited,
        Self::Removed,
        Self::Fulfilled,
    ];

    /// The word for files.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Eaten => "eaten",
            Self::Planned => "planned",
            Self::Repeated => "repeated",
            Self::Edited => "edited",
            Self::Removed => "removed",
            Self::Fulfilled => "fulfilled",
        }
    }

    /// The kind with this word.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.word() == word)
    }

    /// Whether the entry came into the log by it.
    #[must_use]
    pub const fn is_new(self) -> bool {
        matches!(self, Self::Eaten | Self::Planned | Self::Repeated)
    }

    /// Whether it says what stood there before.
    pub(crate) const fn has_before(self) -> bool {
        matches!(self, Self::Edited | Self::Fulfilled)
    }
}

/// An entry as it stood before a change.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Before {
    /// Whether it was planned and not eaten yet.
    pub planned: bool,
    /// Its figures.
    pub entry: Entry,
}

/// One change of one entry.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Change {
    /// Name of the entry across copies.
    pub entry: String,
    /// What was done.
    pub kind: ChangeKind,
    /// Changes of one diner that were made together have the same step and are taken back
    /// together; later ones have a larger one.
    pub step: u32,
    /// When; nothing where it was not kept.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub made: Option<Timestamp>,
    /// What stood there before, where the entry itself was changed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub before: Option<Before>,
    /// Whether it was taken back.
    pub undone: bool,
}

/// What was taken back of one change.
#[derive(Debug, Clone, PartialEq)]
pub struct Undone {
    /// What had been done.
    pub kind: ChangeKind,
    /// The entry before it was taken back.
    pub was: Record,
    /// The entry as it stands now.
    pub now: Record,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_bring_the_kind_back() {
        for kind in ChangeKind::ALL {
            assert_eq!(ChangeKind::from_word(kind.word()), Some(kind));
            let json = serde_json::to_string(&kind).unwrap();
            assert_eq!(json, format!("\"{}\"", kind.word()));
        }
        assert_eq!(ChangeKind::from_word("lost"), None);
    }
}
