//! The dish library: the dishes that come with the program, and folders of dish files; where
//! a person's own files lie.

pub(crate) mod bounded;
#[cfg(feature = "cli")]
mod corrections_file;
#[cfg(feature = "cli")]
mod folder;
mod known;
mod library;
#[cfg(feature = "cli")]
pub(crate) mod place;
#[cfg(feature = "cli")]
pub(crate) mod target;

#[cfg(feature = "cli")]
pub(crate) use corrections_file::{CorrectionsFile, CorrectionsFileError};
#[cfg(feature = "cli")]
pub(crate) use folder::{Holds, LibraryError, read_text, read_text_of, toml_files, write_new};
pub use known::KnownDishes;
pub(crate) use known::Meaning;
pub(crate) use library::slug;
pub use library::{Entry, Hit, Library};
