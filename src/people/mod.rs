//! Whose day it is: energy need, a safe day's target, meal shares, fluid.
//!
//! Everything here is computed from what a person states; nothing is read, stored or
//! printed. A figure meant for a person's day comes from [`allowance::day_target`], which
//! holds the guard rails; [`energy::need`] is the bare published equation.

pub mod allowance;
pub mod body;
pub mod diner;
pub mod energy;
pub mod equations;
pub mod fluid;
pub mod guard;
pub mod meals;
mod measure;
pub mod source;
pub mod units;

pub use crate::ledger::PulsesAs;
pub use allowance::{DayTarget, NoTarget, day_target};
pub use body::{Activity, AgeYears, Body, HeightCm, Sex, WeightKg};
pub use diner::{Age, Aim, Diner, DinerError};
pub use energy::{EnergyError, EnergyNeed, Equation};
pub use guard::{Caution, Refusal};
pub use meals::MealShares;
pub use measure::MeasureError;

pub(crate) use crate::quantity::number::thousands as whole;
