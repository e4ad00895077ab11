//! Estimates and audits the portions on a restaurant plate.
//!
//! The library computes and never prints; data flows one way through its modules, in the
//! order given here: words, amounts, foods, grams, groups, shares, pages.

pub mod people;
pub mod quantity;

pub mod catalogue;
