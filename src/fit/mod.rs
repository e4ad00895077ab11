//! The right-sized plate: how much of each component to eat so that no group's share and
//! no limit is passed, while the plate stays as close as it can to the dish as served.
//!
//! # The programme
//!
//! Every component has a few amounts that a person can serve: whole multiples of its
//! kitchen unit ([`KitchenUnit`]), from nothing up to what was served less half a unit's step,
//! and "all of it", which nobody has to measure. One amount of each is chosen so that
//!
//! * the energy and every firm cap ([`Cap::firm`]: food groups, saturated fat, added
//!   sugars) is kept, and
//! * the sum over components of `weight x (1 - eaten / served)^2` is least.
//!
//! Squares spread a reduction over the plate instead of striking one component out, so the
//! dish stays the same dish. `weight` is half an equal part for every component (a burger
//! stands for all it is made of) and half its part of the plate's grams (a taco without its salsa is another dish, and so is one
//! with half its meat), times [`KEEP_FIRST`] for protein foods, vegetables, fruit and free
//! foods: what is shrunk is starch, fat, sugar and sauce. The weights and the factor are our
//! own choice.
//!
//! Without the steps this is a convex quadratic programme; the crate `clarabel` solves it
//! and prices every cap. With these prices each component by itself says what each of its
//! servable amounts costs, and the sum of the cheapest is a bound below every plate
//! (Lagrangian relaxation). Branch and bound over the few amounts that stay within the
//! bound then finds the plate to a proven gap of at most [`GAP`]. (A general solver for
//! mixed-integer programmes, `microlp`, gives the same plates in the tests but took 200 ms
//! for 20 components.) The same input always gives the same plate: the search is bounded by
//! branches, not by the clock, and between equally good plates the component written first
//! keeps more.
//!
//! # Firm and soft
//!
//! Restaurant food often holds a whole day's sodium in one dish. A cap that is not firm
//! (sodium) is kept when at least half of the plate that the firm caps allow is left
//! ([`GIVES_WAY_BELOW`]), and most of what is kept first ([`FIRST_GIVES_WAY_BELOW`]);
//! otherwise it is shown as passed, with a remark, and the plate is the one that the firm caps
//! allow. A component is not held to a cap that it hardly carries ([`Cap::trace`]).

mod asks;
mod branch;
pub(crate) mod change;
mod dish;
mod explain;
pub(crate) mod kitchen_units;
mod model;
mod plate;
mod relax;
mod remark;
mod requests;
mod room;
mod solve;
#[cfg(test)]
mod tests;
mod together;

pub(crate) use asks::Swap;
pub use asks::{Ask, AskWhat};
pub use dish::right_size;
pub use dish::{Fitting, Member, RightSized};
pub(crate) use dish::{kitchen_unit, plate_for};
pub use kitchen_units::KitchenUnit;
pub use plate::{Budget, Cap, CapKind, Item, Plate, Unfit};
pub use plate::{Portion, Use};
pub use remark::Remark;
pub(crate) use remark::several;
pub(crate) use requests::{Requests, requests};
pub use room::Measured;
pub use room::{Hold, Room};
pub use solve::fit;

/// How much dearer a reduction of protein foods, vegetables, fruit and free foods is.
pub const KEEP_FIRST: f64 = 20.0;

/// The chosen plate's cost is at most this part above the least possible.
pub const GAP: f64 = 0.008;

/// A cap that is not firm gives way when less than this part of the plate's grams would be left.
pub(crate) const GIVES_WAY_BELOW: f64 = 0.5;

/// The same for the grams of what is kept first.
pub(crate) const FIRST_GIVES_WAY_BELOW: f64 = 0.8;
