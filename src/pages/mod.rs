//! What people and programs are shown: text, JSON, CSV, plate drawings, handouts.

mod answer;
pub mod compare;
pub mod csv_page;
mod day_lines;
pub mod day_page;
pub mod diner_page;
pub mod drawing;
pub mod escape;
pub mod fitted;
pub mod handout;
pub mod history_page;
pub mod json;
mod layout;
pub mod menu_report;
pub use crate::quantity::number;
pub mod plating;
mod reading_page;
pub mod text;
pub mod today;
