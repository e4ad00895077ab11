//! Text in: amounts, component lines, dish files. Nothing here knows a food.
//!
//! What is written is read into an [`Amount`], the words for the food and asides; what is
//! not understood becomes a [`ReadingError`] with its line and column, never silence.

mod amount;
mod aside;
pub mod bounds;
mod combine;
mod counted;
mod dish;
mod dish_file;
mod eaten;
mod error;
mod fixed;
mod line;
pub mod loose;
mod measured;
mod menu_line;
mod number;
mod objects;
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

pub use amount::{Amount, Measure, parse_amount, parse_amount_at};
pub use dish::{Dish, LineNotes};
pub use dish_file::{parse_dish_file, to_toml};
pub use error::{ErrorKind, Place, ReadingError, visible};
pub use line::{ComponentLine, decode, parse_component, parse_lines};
pub use menu_line::{
    AddOn, Choice, MenuLine, MenuPart, PartKind, Section, ServingWords, SizeWord, parse_menu_line,
};
pub use phrase::{Phrase, PhraseRole, Reading};
pub use served::{Served, parse_served};
pub use share::{ShareOf, Vessel};
pub use shown::{is_formula, json_escaped};
pub use tokens::is_hidden;
pub use told::{Told, is_told, parse_text, parse_told};
pub use units::{Size, UnitSystem, VolumeUnit, WeightUnit, numbered_scoop_millilitres};
