//! A menu line becomes a dish: a whole dish or a kind of dish, what the line names, what it
//! adds and takes away, and what comes beside it.

mod changes;
mod chosen;
mod described;
mod draft;
mod estimate;
mod halves;
mod joined;
mod listed;
mod named;
mod offers;
mod parts;
mod patty;
mod served;
mod tongues;
mod turned;
mod whole;
mod wording;

pub use draft::{Known, MenuContext};
pub use estimate::{estimate_in_section, estimate_line};
