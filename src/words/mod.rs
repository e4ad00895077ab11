//! What text is made of: comparable word forms, spellings, words with another sense elsewhere.

pub mod misspellings;

mod forms;
mod lines;
pub(crate) mod senses;

pub use forms::{base_form, plain_letters, split, words};
pub(crate) use lines::line_of;
