//! Which food words mean: names taken apart, an index over them, scores, how sure a match is,
//! and what a person has corrected.

pub(crate) mod analysis;
pub(crate) mod certainty;
pub(crate) mod index;
pub(crate) mod knowledge;
pub(crate) mod matcher;
pub mod slots;
pub(crate) mod spelling;
pub(crate) mod target;

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

pub use catalogue::Catalogue;
pub use catalogue::Found;
pub use certainty::Certainty;
pub(crate) use combine::WithOwnError;
pub(crate) use companions::with_those_around;
pub(crate) use corrections::Correction;
pub use corrections::Corrections;
pub use corrections::CorrectionsError;
pub use matcher::Context;
pub use target::Targets;
