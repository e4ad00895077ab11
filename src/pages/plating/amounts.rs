//! Limits and food groups against the day, as served and right-sized.

use super::portions::Fitted;
use crate::ledger::{Amounts, Audit, Subject};
use crate::pages::handout::AmountRow;

/// Rows of the limits that have a day's allowance and of all groups.
///
/// Beans, peas and lentils stand in the row of the group in whose share they count, never in
/// a row of their own, so that a share and the amounts beside it are of the same thing.
#[must_use]
pub(crate) fn amount_rows(audit: &Audit, fitted: Option<&Fitted>) -> Vec<AmountRow> {
    let eaten = fitted.map(|fitted| eaten(audit, fitted));
    let pulses = audit.ledger.allowances().pulses();
    let known = audit.ledger.lines().filter(|line| match line.subject {
        Subject::Limit(_) => line.allowance.is_some() && line.counted.is_some(),
        Subject::Group(_) => line.subject.stands_alone(),
        Subject::Nutrient(_) => false,
    });
    known
        .map(|line| AmountRow {
            line,
            fitted: eaten.and_then(|eaten| eaten.counted(line.subject, pulses)),
        })
        .collect()
}

/// What the right-sized plate holds.
fn eaten(audit: &Audit, fitted: &Fitted) -> Amounts {
    let components = audit.components.iter().enumerate();
    let parts = components.filter_map(|(at, c)| Some(c.amounts?.times(fitted.part(at))));
    parts.fold(Amounts::default(), |sum, part| sum.plus(&part))
}
