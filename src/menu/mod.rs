//! Whole menus as a stream: rows in, audited rows out, in their order, in memory that does not
//! grow with the menu.
//!
//! ```text
//! source -> split -> items -> auditor (every core) -> rows -> filter -> writer
//! ```

mod auditor;
mod csv_out;
mod csv_rows;
mod field;
mod figures;
mod filter;
mod fitted;
mod held;
mod item;
mod json_ld;
mod json_out;
mod json_rows;
mod known;
#[cfg(feature = "cli")]
mod output;
#[cfg(feature = "parquet")]
mod parquet_out;
#[cfg(feature = "cli")]
mod pipeline;
mod row;
#[cfg(feature = "cli")]
mod sorting;
#[cfg(feature = "cli")]
mod source;
#[cfg(feature = "cli")]
mod split;
mod summary;

pub use auditor::{Auditor, Setting};
pub use csv_out::{CsvRows, columns};
pub use csv_rows::{Cells, Header, HeaderFault, to_item};
pub use field::Field;
pub use filter::{Filter, FilterError};
pub use fitted::{Fitted, fitted};
pub use held::Held;
pub use item::{Item, PrintedIs, RowFault, printed_energy};
pub use json_ld::{LdFault, menu_items};
pub use json_out::row as json_row;
pub use json_rows::{from_line, from_menu_item};
pub use known::KnownDishes;
#[cfg(feature = "cli")]
pub use output::Output;
#[cfg(feature = "parquet")]
pub use parquet_out::ParquetRows;
#[cfg(feature = "cli")]
pub use pipeline::{Batch, BeginError, Encoding, Ended, Job, Kept, Order, Rows, Sink, run};
pub use row::Row;
#[cfg(feature = "cli")]
pub use sorting::Sorter;
#[cfg(feature = "cli")]
pub use source::{InputForm, Source, open};
#[cfg(feature = "cli")]
pub use split::{Cut, Found, Shape, Splitter};
pub use summary::{Brief, Histogram, NamedItem, Summary};
