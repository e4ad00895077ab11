//! The foods: an embedded table of names, figures and household measures, and the matcher
//! that finds a food for what people write.

pub mod analysis;
pub mod blob;
pub mod certainty;
pub mod columns;
pub mod index;
pub mod knowledge;
pub mod matcher;
pub mod misspellings;
pub mod slots;
pub mod spelling;
pub mod store;
pub mod tables;
pub mod target;
pub mod words;

mod best;
mod combine;
mod companions;
mod corrections;
mod food;
mod own;
mod query;
mod scoring;
mod scratch;
mod senses;
mod why;

pub use certainty::Certainty;
pub use columns::{Equivalent, Nutrient};
pub use combine::WithOwnError;
pub use corrections::{Correction, Corrections, CorrectionsError, RowFault};
pub use food::{CATALOGUE_VERSION, Catalogue, CatalogueError, Food, FoodId, Found, Measure};
pub use matcher::Context;
pub use own::{OwnFault, OwnFoods, OwnFoodsError};
pub use target::Targets;
