//! The foods: an embedded table of names, figures and household measures, and a person's own.

pub(crate) mod columns;
pub(crate) mod rows;
pub mod store;

pub(crate) mod blob;
pub(crate) mod own;

pub(crate) mod everyday;
mod family;
mod food;

pub use columns::{Equivalent, Nutrient};
pub(crate) use family::{Trait, family_has, family_of};
pub(crate) use food::CATALOGUE_VERSION;
pub use food::CatalogueError;
pub(crate) use food::Foods;
pub use food::{Food, FoodId};
pub use own::OwnFoods;
