//! Where a figure comes from, and how far that was checked.

use serde::Serialize;

/// How far a figure was checked.
///
/// The order is from firmest to weakest, so the weakest part of a sum is its `max`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Standing {
    /// Read in at least one public copy of the publication or a reprint of its table.
    Checked,
    /// Recalled, and not yet compared with the publication.
    FromMemory,
    /// Usual practice without one publication behind it.
    CommonPractice,
    /// This program's own choice.
    OwnChoice,
}

impl Standing {
    /// Words for a page: `checked`, `from memory`, `common practice`, `own choice`.
    #[must_use]
    pub(crate) const fn words(self) -> &'static str {
        match self {
            Self::Checked => "checked",
            Self::FromMemory => "from memory",
            Self::CommonPractice => "common practice",
            Self::OwnChoice => "own choice",
        }
    }
}

/// A publication, or the plain words that there is none, with the standing of the figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub(crate) struct Source {
    /// The publication and the place in it.
    pub citation: &'static str,
    /// How far the figure was checked.
    pub standing: Standing,
}

impl std::fmt::Display for Source {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "{} ({})", self.citation, self.standing.words())
    }
}
