//! Whole menus as a stream: rows in, audited rows out, in their order, in memory that does not
//! grow with the menu.
//!
//! ```text
//! source -> split -> items -> auditor (every core) -> rows -> filter -> writer
//! ```

mod auditor;
#[cfg(feature = "cli")]
mod beginning;
mod csv_out;
mod csv_rows;
mod field;
mod figures;
mod filter;
mod fitted;
mod item;
#[cfg(feature = "cli")]
mod item_reader;
mod json_ld;
mod json_out;
mod json_rows;
mod kitchens;
mod learner;
#[cfg(feature = "cli")]
mod output;
#[cfg(feature = "parquet")]
mod parquet_out;
#[cfg(feature = "cli")]
mod pipeline;
mod repeats;
mod row;
mod row_component;
#[cfg(feature = "cli")]
mod sorting;
#[cfg(feature = "cli")]
mod source;
#[cfg(feature = "cli")]
mod split;
mod summary;

pub use auditor::{Auditor, Setting};
#[cfg(feature = "cli")]
pub(crate) use beginning::{can_tell, learn};
pub(crate) use csv_out::CsvRows;
pub use csv_rows::{Cells, Header, to_item};
pub(crate) use field::Field;
pub(crate) use filter::Filter;
pub use item::Item;
pub(crate) use item::PrintedIs;
pub use item::RowFault;
pub use json_ld::menu_items;
pub use json_rows::{from_line, from_menu_item};
pub use kitchens::Kitchens;
pub use learner::Learner;
#[cfg(feature = "cli")]
pub(crate) use output::Output;
#[cfg(feature = "parquet")]
pub(crate) use parquet_out::ParquetRows;
#[cfg(feature = "cli")]
pub(crate) use pipeline::{Batch, BeginError, Encoding, Ended, Job, Order, Rows, Sink, run};
pub use row::Row;
#[cfg(feature = "cli")]
pub(crate) use sorting::Sorter;
#[cfg(feature = "cli")]
pub(crate) use source::{InputForm, Source, open};
#[cfg(feature = "cli")]
pub use split::{Cut, Shape, Splitter};
pub(crate) use summary::{Brief, Histogram, NamedItem, Summary};
