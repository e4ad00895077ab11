//! Numbers that carry their uncertainty.

mod estimate;
pub mod number;
mod range;
mod sum;

pub use estimate::{Estimate, Shared};
pub use range::Range;
pub use sum::{Term, sum};
