//! Grams with ranges: what was said, through household measures and densities.

mod apportion;
mod component;
mod counts;
mod density;
mod doubt;
mod finds;
mod hidden;
mod kinds;
mod kitchen;
mod measure;
mod menu;
mod passes;
mod phrases;
mod plan;
mod raw;
mod request;
mod served;
pub mod servings;
mod typical;
mod usual;
mod vessel;
mod wares;
mod weigh;
mod weight;

pub use component::MatchedComponent;
pub use component::{WeighedComponent, energy, match_dish, weigh_dish};
pub use doubt::narrowest_question;
pub use finds::Finds;
pub(crate) use measure::unstated;
pub use menu::{Known, MenuContext, estimate_in_section, estimate_line};
pub use plan::estimate;
pub(crate) use plan::estimate_with;
pub use request::{Estimated, Request};
pub(crate) use usual::{Role, usual};
pub use weigh::{Basis, weigh};
