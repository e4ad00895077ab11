//! Estimates and audits the portions on a restaurant plate.
//!
//! [`Plates`] gives an audited plate, a row of a menu or a right-sized plate in one call:
//!
//! ```
//! let plates = trencher::Plates::new()?.for_energy(2000.0);
//! let plate = plates.plate("cheeseburger with fries")?;
//! print!("{}", plates.text(&plate));
//! for limit in plate.audit.ledger.over() {
//!     println!("beyond a day: {}", limit.label());
//! }
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! The modules behind it stand in the order in which data flows: words, amounts, foods, grams,
//! groups, shares, pages. A module uses those above it, never those below. Figures are
//! estimates for teaching and planning, no medical advice.
//!
//! Without the feature `cli` (on by default) the library holds no command, no database, no
//! files and no threads, and builds for a browser.

// Pages and sums that only a command asks for are part of every build; without `cli` nobody
// asks.
#![cfg_attr(not(feature = "cli"), allow(dead_code, unused_imports))]

mod memo;

pub mod words;

pub mod quantity;

pub mod reading;

pub mod foods;

pub mod matching;

pub mod weighing;

pub mod ledger;

pub mod people;

pub mod fit;

pub mod store;

pub mod daylog;

pub mod pages;

pub mod menu;

mod plates;

pub use plates::{NoPlate, Plate, Plates};

pub mod browser;

#[cfg(feature = "cli")]
pub mod cli;
