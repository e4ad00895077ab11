//! What kitchens really serve: the energy of a serving from the words of a menu, as fitted on
//! what restaurants print.
//!
//! Restaurants print the energy of thousands of servings; `examples/fit_servings` fits how
//! each kind, size, count, section and word changes it, and how far a restaurant that the fit
//! has not seen lies from that. Here the tables are read and the servings of a plate are set
//! to agree with them.

mod effects;
mod features;
mod kinds;
mod level;
mod measures;
mod said;
mod set;

pub use effects::{Fitted, FittedText, served_as};
pub use features::{Parts, What, features};
pub use kinds::ServingKind;
pub(super) use kinds::is_drink;
pub use level::{ALIKE, Kitchen, KnownDish, Level, Traits};
pub(super) use said::thing_itself;
pub use said::{Known, Said, ServingText};
pub(crate) use set::as_this_kitchen;
pub(super) use set::set_to_serving;
