//! Estimates and audits the portions on a restaurant plate.
//!
//! The library computes and never prints; data flows one way through its modules, in the
//! order given here: words, amounts, foods, grams, groups, shares, pages. A module uses
//! those above it, never those below.

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

#[cfg(feature = "cli")]
pub mod cli;
