//! The right-sized plate: how much of each component to eat so that no group's share and
//! no limit is passed, while the plate stays as close as it can to the dish as served.
//!
//! # The programme
//!
//! Every component has a few amounts that a person can serve: whole multiples of its
//! kitchen unit ([`KitchenUnit`]), from nothing up to what was served, and "all of it",
//! which nobody has to measure. One amount of each is chosen so that
//!
//! * the energy and every firm cap ([`Cap::firm`]: food groups, saturated fat, added
//!   sugars) is kept, and
//! * the sum over components of `weight x (1 - eaten / served)^2` is least.
//!
//! Squares spread a reduction over the plate instead of striking one component out, so the
//! dish stays the same dish. `weight` is half an equal part for every component and half
//! its part of the plate's grams (a taco without its salsa is another dish, and so is one
//! with half its meat), times [`KEEP_FIRST`] for vegetables, fruit and free foods. The
//! weights and the factor are our own choice.
//!
//! The square is convex and only matters at the servable amounts, so it is exact as a
//! piecewise-linear cost: the whole is a mixed-integer linear programme, solved by branch
//! and bound (crate `microlp`) to a proven gap of at most [`GAP`]. The same input always
//! gives the same plate: the search is bounded by nodes, not by the clock, and between
//! equally good plates the component written first keeps more.
//!
//! # Firm and soft
//!
//! Restaurant food often holds a whole day's sodium in one dish. A cap that is not firm
//! (sodium) is kept when at least half of the plate that the firm caps allow is left
//! ([`SOFT_KEEPS`]); otherwise it is shown as passed, with a remark, and the plate is the
//! one that the firm caps allow.

mod asks;
mod explain;
pub mod kitchen_units;
mod model;
mod plate;
mod solve;

pub use asks::{Ask, AskWhat, Candidate, Swap, asks, swaps};
pub use explain::Remark;
pub use kitchen_units::KitchenUnit;
pub use plate::{Budget, Cap, CapKind, Item, Plate, Portion, Unfit, Use};
pub use solve::fit;

/// How much dearer a reduction of vegetables, fruit and free foods is.
pub const KEEP_FIRST: f64 = 4.0;

/// The chosen plate's cost is at most this part above the least possible.
pub const GAP: f64 = 0.002;

/// Part of the plate's grams that must be left for a soft cap to be kept.
pub const SOFT_KEEPS: f64 = 0.5;
