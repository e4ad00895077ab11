//! One item of a menu, audited.

use super::fitted::Fitted;
use super::item::PrintedIs;
use super::row_component::RowComponent;
use crate::ledger::{Choice, Ledger, Sureness};
use crate::matching::Certainty;
use crate::quantity::Range;

/// An audited item.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// What is ordered.
    pub item: String,
    /// The part of the menu it stands in; empty where none is said.
    pub section: String,
    /// What it was found to be made of, in order.
    pub(crate) components: Vec<RowComponent>,
    /// Limits and food groups against the day.
    pub ledger: Ledger,
    /// Certainty of the least sure component.
    pub certainty: Certainty,
    /// How much of it fits the meal; `None` when its energy is not known.
    pub(crate) fitted: Option<Fitted>,
    /// How it fits the rest of a day, where that is asked for; nothing where its energy is not
    /// known.
    pub(crate) choice: Option<Choice>,
    /// Energy that the restaurant prints, kcal: low and high.
    pub printed: Option<(f64, f64)>,
    /// Where that lies against the estimate.
    pub(crate) printed_is: Option<PrintedIs>,
    /// What can hardly be so, a sentence each.
    pub(crate) not_plausible: Vec<String>,
    /// Components as written that no food fits, or that could not be read.
    pub unmatched: Vec<String>,
    /// Components as written that have a food and no weight.
    pub without_amount: Vec<String>,
}

impl Row {
    /// Energy, kcal.
    pub(crate) fn energy(&self) -> Option<Range> {
        self.ledger.energy()
    }

    /// How sure the whole answer is.
    pub(crate) fn sureness(&self) -> Sureness {
        Sureness::of(self.energy(), self.is_whole())
    }

    /// Whether everything that was written counts.
    pub(crate) fn is_whole(&self) -> bool {
        self.unmatched.is_empty() && self.without_amount.is_empty()
    }
}
