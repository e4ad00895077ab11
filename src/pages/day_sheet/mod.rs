//! A day to tick off: a person's portions of each group as boxes, what a portion is, which
//! foods to take, what is free, on one page that stands on a fridge door.
//!
//! ```text
//! Ask (whose day) -> DaySheet (plain data) -> text, or html through the handouts' templates
//! ```

mod boxes;
mod content;
mod html;
mod lists;
mod text;

pub(crate) use content::{Ask, Columns, DaySheet};
pub(crate) use html::page;
