//! Text in: amounts, component lines, dish files. Nothing here knows a food.
//!
//! What is written is read into an [`Amount`], the words for the food and asides; what is
//! not understood becomes a [`ReadingError`] with its line and column, never silence.

mod amount;
mod aside;
pub(crate) mod bounds;
mod combine;
mod counted;
mod dish;
mod dish_decided;
mod dish_file;
mod eaten;
mod error;
mod fixed;
mod line;
pub(crate) mod loose;
mod measured;
mod menu_line;
mod number;
mod objects;
mod offered;
mod openers;
mod parts;
mod phrase;
mod pieces;
mod scan;
mod served;
mod share;
mod shown;
mod size;
#[cfg(test)]
mod tests;
mod tokens;
mod told;
mod units;
mod whole_amount;

pub use crate::words::is_hidden;
pub use amount::{Amount, Measure};
pub use dish::Dish;
pub use dish::LineNotes;
pub use dish_file::{parse_dish_file, to_toml};
pub use error::Place;
pub use error::ReadingError;
pub(crate) use error::visible;
pub use line::ComponentLine;
pub use line::{parse_component, parse_lines};
pub use menu_line::{Choice, MenuPart, PartKind};
pub(crate) use menu_line::{Feeds, Offer, PLAIN, SizeWord, is_heading};
pub use menu_line::{MenuLine, parse_menu_line};
pub use offered::{DishChoice, Offered};
pub use phrase::{PhraseRole, Reading};
pub use served::{Served, parse_served};
pub use share::{ShareOf, Vessel};
pub(crate) use shown::{is_formula, json_escaped};
pub(crate) use told::parse_text;
pub use told::{is_told, parse_told};
pub use units::UnitSystem;
pub use units::{Size, VolumeUnit, WeightUnit};
pub(crate) use whole_amount::parse_amount;
