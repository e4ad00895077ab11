//! The cautions in full: what is said with every estimate, and whom it does not serve.

use super::text::wrap;
use crate::ledger::{ALCOHOL, RAW, cautions};
use crate::people::condition::{Condition, RAW_SOURCE};
use crate::people::fluid;

/// The page for a terminal, with the source of each advice.
pub(crate) fn text() -> String {
    let mut page: String = cautions().iter().map(|line| wrap(line)).collect();
    page.push_str("\nAsk first\n");
    for condition in Condition::ALL {
        page.push_str(&wrap(&format!(
            "- {}: {} [{}]",
            condition.who(),
            condition.advice(),
            condition.source()
        )));
    }
    page.push('\n');
    page.push_str(&wrap(&format!(
        "Raw or undercooked fish, meat, eggs and sprouts: {RAW} [{RAW_SOURCE}]"
    )));
    page.push_str(&wrap(&format!(
        "{ALCOHOL} [Dietary Guidelines for Americans 2020-2025 (checked)]"
    )));
    page.push_str(&wrap(&format!("Fluid: {}", fluid::CAUTION)));
    page.push('\n');
    page.push_str(&wrap(
        "Say a condition with `trencher diner set NAME --conditions \"warfarin\"`, and what is \
         said of a dish follows it.",
    ));
    page
}
