//! A weight and how it is known.

use crate::quantity::{Estimate, Shared};
use serde::Serialize;

/// How an amount is known, narrowest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Basis {
    /// A weight was stated.
    Weighed,
    /// Cups, spoons or fluid ounces were stated.
    Measured,
    /// Pieces or sizes were stated.
    Counted,
    /// A share of a vessel was stated.
    Vessel,
    /// Nobody said; the usual amount.
    Typical,
    /// Nobody said it is there; cooking words imply it.
    Hidden,
}

impl Basis {
    /// The word for tables and files.
    #[must_use]
    pub(crate) fn word(self) -> &'static str {
        match self {
            Basis::Weighed => "weighed",
            Basis::Measured => "measured",
            Basis::Counted => "counted",
            Basis::Vessel => "vessel",
            Basis::Typical => "typical",
            Basis::Hidden => "hidden",
        }
    }

    /// Whether nobody said the amount, in whatever way.
    #[must_use]
    pub(crate) fn is_unsaid(self) -> bool {
        matches!(self, Basis::Typical | Basis::Hidden)
    }

    /// One standard deviation of the log of the amount. Own reading of measured spreads:
    /// scales and rounding for stated weights; spooning and packing for volumes (17 %);
    /// piece sizes for counts (12 %); 0.4 for an ingredient named without an amount
    /// (own calculation on the Nutrition5k metadata, Thames et al. 2021: 0.4 to 0.65).
    #[must_use]
    pub(crate) fn log_sd(self) -> f64 {
        match self {
            Basis::Weighed => 0.05,
            Basis::Measured => 0.17,
            Basis::Counted => 0.12,
            Basis::Vessel => 0.22,
            Basis::Typical => 0.45,
            Basis::Hidden => 0.6,
        }
    }
}

/// A weight found for a component.
#[derive(Debug, Clone, PartialEq)]
pub struct Weight {
    /// Edible grams as served.
    pub grams: Estimate,
    /// How it is known.
    pub basis: Basis,
    /// What it rests on, a step after the other, for `--why`.
    pub steps: Vec<String>,
}

impl Weight {
    /// A weight known from what was said, as surely as its basis allows.
    pub(super) fn said(said: Estimate, log_sd: f64, basis: Basis, rests_on: String) -> Self {
        Self {
            grams: said.doubted(log_sd),
            basis,
            steps: vec![rests_on],
        }
    }

    /// A weight that nobody said: a generous or a thrifty kitchen has it in common with the
    /// others.
    pub(super) fn unsaid(mean: f64, log_sd: f64, basis: Basis, rests_on: String) -> Self {
        Self {
            grams: Estimate::new(mean, log_sd).sharing(Shared::Kitchen),
            basis,
            steps: vec![rests_on],
        }
    }
}
