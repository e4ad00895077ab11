//! Numbers that carry their uncertainty.

mod estimate;
mod range;
mod sum;

pub use estimate::{Estimate, Shared};
pub use range::Range;
pub use sum::{Term, sum};
