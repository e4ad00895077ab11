//! Grams with ranges: what was said, through household measures and densities.

mod combine;
mod component;
mod measure;
mod weigh;

pub use combine::{COMMON_SHARE, Part, lognormal, sum};
pub use component::{MatchedComponent, WeighedComponent, match_dish, weigh_dish};
pub use weigh::{Basis, Weight, spread, weigh};
