//! Food groups, standards and the audit of a dish against a day.

mod audit;
mod cautions;
mod density;
mod free_food;
mod group;
mod standard;

pub use audit::{
    Audit, AuditedComponent, AuditedGroup, AuditedLimit, Day, REPORTED, audit, equivalent,
};
pub use cautions::cautions;
pub use density::{Per100Kcal, nrf9_3};
pub use free_food::{FREE_BELOW_KCAL, FREE_UP_TO_CARBOHYDRATE_G, is_free};
pub use group::{EqUnit, Group, Limit, PulsesAs, Subgroup};
pub use standard::{Allowance, Fault, LevelChoice, Standard, StandardError};
