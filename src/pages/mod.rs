//! What people and programs are shown: text, JSON, CSV.

pub mod csv_page;
pub mod json;
pub mod number;
pub mod text;
