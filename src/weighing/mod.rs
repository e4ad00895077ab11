//! Grams with ranges: what was said, through household measures and densities.

mod combine;
mod component;
mod doubt;
mod finds;
mod hidden;
mod kinds;
mod measure;
mod menu;
mod phrases;
mod plan;
mod raw;
pub mod shapes;
mod typical;
mod usual;
mod vessel;
mod weigh;

pub use combine::{
    COMMON_SHARE, Part, Term, Tie, log_sd_of, lognormal, sd_of, sum, sum_of, variance,
};
pub use component::{MatchedComponent, WeighedComponent, energy, match_dish, weigh_dish};
pub use doubt::{Question, narrowest_question};
pub use finds::Finds;
pub use kinds::{DishKind, KindHit, kind_named, kind_of, kinds};
pub use menu::{Known, MenuContext, estimate_line, soften};
pub use plan::{Estimated, Request, estimate};
pub use typical::{Setting, fill, settle};
pub use usual::{Role, Usual, usual};
pub use vessel::{VesselKind, served_grams, vessel_kind, weigh_share};
pub use weigh::{Basis, Weight, spread, weigh};
