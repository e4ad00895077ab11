//! Whose day it is: energy need, a safe day's target, meal shares, fluid.
//!
//! Everything here is computed from what a person states; nothing is read, stored or
//! printed. A figure meant for a person's day comes from [`allowance::day_target`], which
//! holds the guard rails; [`energy::need`] is the bare published equation.

pub(crate) mod allowance;
pub(crate) mod body;
pub(crate) mod condition;
pub(crate) mod diner;
pub mod energy;
pub(crate) mod equations;
pub(crate) mod fluid;
pub(crate) mod guard;
pub(crate) mod meals;
mod measure;
pub(crate) mod protein;
pub(crate) mod source;
pub(crate) mod units;
pub(crate) mod whose;

pub use crate::ledger::PulsesAs;
pub(crate) use allowance::{DayTarget, NoTarget, day_target, protein_of};
pub use body::{Activity, AgeYears, HeightCm, Sex, WeightKg};
pub use condition::Condition;
pub use diner::{Age, DinerError};
pub use diner::{Aim, Diner};
pub use energy::Equation;
pub(crate) use guard::Caution;
pub use meals::MealShares;
pub use protein::ProteinAim;
pub(crate) use protein::ProteinTarget;

pub(crate) use crate::quantity::number::thousands as whole;
