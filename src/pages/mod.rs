//! What people and programs are shown: text, JSON, CSV, plate drawings, handouts.

pub mod compare;
pub mod csv_page;
pub mod day_page;
pub mod diner_page;
pub mod drawing;
pub mod escape;
pub mod fitted;
pub mod handout;
pub mod history_page;
pub mod json;
pub mod menu_report;
pub mod number;
pub mod plating;
pub mod text;
pub mod today;
