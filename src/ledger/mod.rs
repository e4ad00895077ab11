//! Limits and food groups, standards, and the ledger that holds a plate against a day.

mod allowances;
mod amounts;
mod audit;
mod cautions;
mod density;
mod free_food;
mod group;
mod lines;
mod plausible;
mod standard;
mod subject;
mod sureness;
mod verdict;

pub use allowances::Allowances;
pub use amounts::Amounts;
pub use audit::{Audit, AuditedComponent, REPORTED, audit};
pub use cautions::cautions;
pub use density::{Per100Kcal, nrf9_3};
pub use free_food::{FREE_BELOW_KCAL, FREE_UP_TO_CARBOHYDRATE_G, is_free};
pub use group::{EqUnit, Group, Limit, PulsesAs, Subgroup};
pub(crate) use lines::by_share;
pub use lines::{Holding, Ledger, LedgerLine};
pub(crate) use plausible::{Weighed as PlausiblePart, not_plausible};
pub use standard::{Allowance, Day, Fault, LevelChoice, Standard, StandardError};
pub use subject::{Kind, SUBJECTS, Subject};
pub use sureness::Sureness;
pub use verdict::{Verdict, verdict};
