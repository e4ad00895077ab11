//! Which food words mean: names taken apart, an index over them, scores, how sure a match is,
//! and what a person has corrected.

pub mod analysis;
pub mod certainty;
pub mod index;
pub mod knowledge;
pub mod matcher;
pub mod slots;
pub mod spelling;
pub mod target;

mod best;
mod catalogue;
mod combine;
mod companions;
mod corrections;
mod naming;
mod query;
mod scoring;
mod scratch;
mod search;
mod why;

pub use catalogue::{Catalogue, Found};
pub use certainty::Certainty;
pub use combine::WithOwnError;
pub use corrections::{Correction, Corrections, CorrectionsError, RowFault};
pub use matcher::Context;
pub use target::Targets;
