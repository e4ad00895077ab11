//! Lines of a day as JSON: keys are stable.

use crate::daylog::Left;
use crate::ledger::{Group, Kind, LedgerLine, Verdict};
use crate::quantity::Range;
use serde::Serialize;

/// What a day allows of a limit or group.
#[derive(Debug, Serialize)]
pub(super) struct AllowanceJson {
    key: &'static str,
    is_group: bool,
    unit: &'static str,
    amount: f64,
    minimum: Option<f64>,
    portion: f64,
    /// How much of the unit a cup-equivalent of beans, peas and lentils counts for here.
    pulses: f64,
}

impl AllowanceJson {
    pub(super) fn of(line: &LedgerLine) -> Self {
        Self {
            key: line.subject.key(),
            is_group: line.subject.kind() == Kind::ToReach,
            unit: line.subject.unit(),
            amount: line.allowed().unwrap_or_default(),
            minimum: line.allowance.and_then(|a| a.minimum),
            portion: line.portion,
            pulses: line.pulses_per_cup(),
        }
    }
}

/// What is left of a day of a limit or group.
#[derive(Debug, Serialize)]
pub(super) struct LeftJson {
    allowance: AllowanceJson,
    eaten: Range,
    left: Range,
    share: f64,
    verdict: Option<&'static str>,
    missing: usize,
}

impl LeftJson {
    pub(super) fn of(left: &Left) -> Self {
        Self {
            allowance: AllowanceJson::of(&left.line),
            eaten: left.eaten(),
            left: left.left(),
            share: left.share(),
            verdict: left.line.verdict().map(Verdict::word),
            missing: left.missing,
        }
    }

    pub(super) fn all(left: &[Left]) -> Vec<Self> {
        left.iter().map(Self::of).collect()
    }
}

/// Whether a line is worth a word among those of which something is left.
pub(super) fn is_open_group(line: &LedgerLine) -> bool {
    let group = line.subject.kind() == Kind::ToReach && line.subject.stands_alone();
    // Oils are in the table.
    group && line.subject != Group::Oils.into()
}
