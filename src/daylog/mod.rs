//! What each diner ate on which day: kept on this machine, by value, and lost by nothing
//! short of the disk.
//!
//! [`Store`] is one `SQLite` file with diners and entries. An [`Entry`] holds the figures as
//! they stood when it was eaten, so that an old day never changes when the catalogue does.
//! Sums, what is left of a day and the history plot are pure functions beside it.

mod at;
mod backup;
mod change;
#[cfg(feature = "cli")]
mod change_rows;
mod clock;
mod day;
mod eaten;
pub(crate) mod entry;
#[cfg(feature = "cli")]
pub(crate) mod error;
pub(crate) mod exchange;
#[cfg(feature = "cli")]
mod importer;
#[cfg(feature = "cli")]
mod place;
mod plot;
pub(crate) mod record;
mod review;
#[cfg(feature = "cli")]
mod rows;
#[cfg(feature = "cli")]
mod schema;
mod standing;
#[cfg(feature = "cli")]
mod store;
mod table;

pub(crate) use at::{Sense, parse_at, parse_at_on, parse_day};
pub use change::{Before, Change, ChangeKind, Undone};
#[cfg(feature = "cli")]
pub(crate) use clock::SystemClock;
pub(crate) use clock::{Clock, ZoneError, now_for};
pub use day::DayTotal;
pub(crate) use day::{Left, left, nutrients};
pub(crate) use eaten::Eaten;
pub use entry::{EatenComponent, Entry, GroupAmount, LimitAmount, Moment};
#[cfg(feature = "cli")]
pub use error::LogError;
pub use exchange::{Export, ImportFault};
#[cfg(feature = "cli")]
pub(crate) use place::{PlaceError, database_path};
pub(crate) use plot::{PlotColumn, PlotDay, plot};
pub use record::Record;
pub(crate) use review::{Average, MealBeyond, averages, furthest_beyond, totals};
pub(crate) use standing::{LEFT_TODAY, Standing};
#[cfg(feature = "cli")]
pub use store::{ExportForm, Store};
