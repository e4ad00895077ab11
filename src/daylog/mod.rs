//! What each diner ate on which day: kept on this machine, by value, and lost by nothing
//! short of the disk.
//!
//! [`Store`] is one `SQLite` file with diners and entries. An [`Entry`] holds the figures as
//! they stood when it was eaten, so that an old day never changes when the catalogue does.
//! Sums, what is left of a day and the history plot are pure functions beside it.

pub mod at;
mod backup;
pub mod clock;
mod day;
mod eaten;
pub mod entry;
#[cfg(feature = "cli")]
pub mod error;
pub mod exchange;
#[cfg(feature = "cli")]
mod importer;
#[cfg(feature = "cli")]
pub mod place;
pub mod plot;
mod record;
#[cfg(feature = "cli")]
mod rows;
#[cfg(feature = "cli")]
mod schema;
#[cfg(feature = "cli")]
mod store;
mod table;

pub use at::{AtError, parse_at};
#[cfg(feature = "cli")]
pub use clock::SystemClock;
pub use clock::{Clock, ZoneError, now_for, today_for};
pub use day::{DayTotal, GroupTotal, Left, Total, left};
pub use eaten::{Eaten, fluid_ml};
pub use entry::{EatenComponent, Entry, EntryFault, GroupAmount, LimitAmount, Moment};
#[cfg(feature = "cli")]
pub use error::LogError;
pub use exchange::{Export, ImportFault, ImportReport};
#[cfg(feature = "cli")]
pub use place::{PlaceError, database_path};
pub use plot::{PlotColumn, PlotDay, plot};
pub use record::{ReadError, Record, VERSION};
#[cfg(feature = "cli")]
pub use store::{ExportForm, Removed, Store};
