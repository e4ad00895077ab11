//! Numbers that carry their uncertainty.

mod estimate;
pub mod number;
mod range;
mod share;
mod sum;

pub use estimate::{Estimate, Shared};
pub use range::Range;
pub use share::parse_share;
pub use sum::{Term, sum};
