//! What text is made of: comparable word forms, spellings, words with another sense elsewhere.

pub(crate) mod misspellings;

mod forms;
mod hidden;
mod lines;
mod numbers;
mod remembered;
pub(crate) mod senses;
mod table;

pub use forms::words;
pub(crate) use forms::{base_form, split};
pub use hidden::is_hidden;
pub(crate) use lines::{head, line_of};
pub(crate) use numbers::spelt_number;
pub(crate) use remembered::words_of;
pub(crate) use table::{prepared, prepared_rows, rows};
