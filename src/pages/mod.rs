//! What people and programs are shown: text, JSON, CSV, plate drawings, handouts.

mod answer;
pub(crate) mod cautions_page;
pub(crate) mod changes_page;
pub(crate) mod compare;
pub(crate) mod csv_page;
mod day_lines;
pub(crate) mod day_page;
pub(crate) mod day_sheet;
pub(crate) mod day_words;
pub(crate) mod diner_page;
pub mod drawing;
pub mod escape;
pub(crate) mod fitted;
pub mod handout;
pub(crate) mod history_page;
pub(crate) mod json;
mod layout;
pub(crate) mod menu_report;
pub(crate) mod swap_page;
pub(crate) use crate::quantity::number;
pub(crate) mod overview_page;
pub mod plating;
mod reading_page;
mod report_page;
mod tables;
pub(crate) mod text;
pub(crate) mod today;
