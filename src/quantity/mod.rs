//! Numbers that carry their uncertainty.

mod estimate;
pub(crate) mod number;
mod range;
mod share;
mod sum;
pub(crate) mod units;

pub use estimate::{Estimate, Shared};
pub use range::Range;
pub(crate) use share::parse_share;
pub(crate) use sum::{Term, sum};
