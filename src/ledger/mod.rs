//! Limits and food groups, standards, and the ledger that holds a plate against a day.

mod allowances;
mod amounts;
mod audit;
mod cautions;
mod density;
mod free_food;
mod group;
mod known_food;
mod lines;
mod plausible;
mod standard;
mod subject;
mod sureness;
mod verdict;

pub(crate) use allowances::Allowances;
pub use amounts::Amounts;
pub use audit::audit;
pub use audit::{Audit, AuditedComponent};
pub(crate) use cautions::{ALCOHOL, CAUTIONS_LINE, RAW, cautions};
pub(crate) use density::{Per100Kcal, nrf9_3};
pub(crate) use free_food::is_free;
pub use group::EnergyNutrient;
pub(crate) use group::{EqUnit, Subgroup};
pub use group::{Group, Limit, PulsesAs};
pub(crate) use known_food::{KnownFood, fraction, free_foods, known_foods};
pub(crate) use lines::Holding;
pub(crate) use lines::by_share;
pub use lines::{Ledger, LedgerLine};
pub(crate) use plausible::{Weighed as PlausiblePart, not_plausible};
pub use standard::Allowance;
pub use standard::{Day, Standard};
pub(crate) use subject::Kind;
pub use subject::Subject;
pub(crate) use sureness::Sureness;
pub(crate) use verdict::{Verdict, verdict};
