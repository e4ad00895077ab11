//! How a dish is to be estimated, and what comes of it.

use super::component::WeighedComponent;
use super::servings::{Fitted, Level};
use crate::reading::Dish;

/// How a dish is to be estimated.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a plain wish, independent of the others"
)]
pub struct Request {
    /// Leave out fat and coating that only cooking words imply.
    pub as_written: bool,
    /// Energy that the restaurant prints for the dish, kcal.
    pub printed_kcal: Option<f64>,
    /// The amounts are those of a typical kitchen, not of the one that serves the dish.
    pub other_kitchen: bool,
    /// Weigh a menu line by its parts alone, without what restaurants print of such servings:
    /// for fitting that very thing.
    pub parts_only: bool,
    /// Only figures are wanted: what to ask for surer ones is not worked out.
    pub figures_only: bool,
    /// How the kitchen serves this dish beside others, where something is known of it.
    pub kitchen: Option<Level>,
    /// What was fitted on printed servings, in place of the program's own tables: for judging a fit
    /// on restaurants that it has not seen.
    pub fitted: Option<&'static Fitted>,
}

impl Request {
    /// What was fitted on printed servings.
    #[must_use]
    pub(super) fn fitted(&self) -> &'static Fitted {
        self.fitted.unwrap_or_else(Fitted::built_in)
    }
}

/// A dish with weights for everything that has a food, and remarks.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimated {
    /// The dish.
    pub dish: Dish<WeighedComponent>,
    /// What was assumed or does not fit.
    pub notes: Vec<String>,
    /// Whether all of it is one serving that nothing was changed of once it was served: what is
    /// learned of the kitchen later can be put to it as it stands (`servings::as_this_kitchen`).
    pub(crate) one_serving: bool,
}
