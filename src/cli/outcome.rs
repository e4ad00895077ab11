//! How a run ends, and what it prints on the way.

use crate::pages::escape::terminal;
use std::io::Write;

/// How a run ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Outcome {
    /// Everything was used.
    Done,
    /// Done, but some input could not be used; all of it is listed.
    Partly,
}

impl Outcome {
    /// Done where everything was used.
    pub(super) fn done_if(everything_used: bool) -> Self {
        if everything_used {
            Self::Done
        } else {
            Self::Partly
        }
    }
}

/// Why a run fails.
#[derive(Debug, thiserror::Error)]
pub(super) enum Failure {
    /// The request itself is wrong: exit code 2.
    #[error("{0}")]
    Request(String),
    /// Nothing of what was given could be used: exit code 1.
    #[error("{0}")]
    Unusable(String),
    /// A file or database failed: exit code 3.
    #[error("{0}")]
    File(String),
    /// Whoever reads the output has gone: quiet, exit code 0.
    #[error("output closed")]
    Closed,
}

impl From<std::io::Error> for Failure {
    fn from(error: std::io::Error) -> Self {
        if error.kind() == std::io::ErrorKind::BrokenPipe {
            Failure::Closed
        } else {
            Failure::File(format!("cannot write: {error}"))
        }
    }
}

impl From<crate::store::LibraryError> for Failure {
    fn from(error: crate::store::LibraryError) -> Self {
        Failure::File(error.to_string())
    }
}

impl From<crate::store::target::TargetError> for Failure {
    fn from(error: crate::store::target::TargetError) -> Self {
        if error.is_of_the_system() {
            Failure::File(error.to_string())
        } else {
            Failure::Request(error.to_string())
        }
    }
}

impl From<crate::foods::CatalogueError> for Failure {
    fn from(error: crate::foods::CatalogueError) -> Self {
        Failure::File(error.to_string())
    }
}

impl From<csv::Error> for Failure {
    fn from(error: csv::Error) -> Self {
        Failure::File(format!("cannot write: {error}"))
    }
}

impl From<crate::pages::handout::PageError> for Failure {
    fn from(error: crate::pages::handout::PageError) -> Self {
        Failure::File(error.to_string())
    }
}

impl From<serde_json::Error> for Failure {
    fn from(error: serde_json::Error) -> Self {
        Failure::File(format!("cannot write: {error}"))
    }
}

/// Prints to standard output in one go, safe for a terminal.
pub(super) fn print(text: &str) -> Result<Outcome, Failure> {
    let mut out = std::io::stdout().lock();
    out.write_all(terminal(text).as_bytes())?;
    out.flush()?;
    Ok(Outcome::Done)
}

/// Prints what was done. When that fails it is done all the same, and the failure says so.
pub(super) fn print_done(done: &str, text: &str) -> Result<Outcome, Failure> {
    print(text).map_err(|failure| match failure {
        Failure::File(told) => {
            Failure::File(format!("{done}, but the answer was not shown: {told}"))
        }
        other => other,
    })
}

/// Reports something that could not be used, on standard error.
pub(super) fn warn(text: &str) {
    let _ = writeln!(std::io::stderr(), "error: {}", terminal(text));
}

/// Tells something on standard error that is not an error.
pub(super) fn note(text: &str) {
    let _ = writeln!(std::io::stderr(), "note: {}", terminal(text));
}
