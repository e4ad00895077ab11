//! How a dish is to be estimated, and what comes of it.

use super::component::WeighedComponent;
use super::servings::{Fitted, Level};
use crate::reading::Dish;

/// How a restaurant serves its guests, as trade statistics part them (NAICS 722511 and 722513).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Service {
    /// Guests order and are served at a table and pay after the meal.
    Table,
    /// Guests order and pay at a counter.
    Counter,
}

impl Service {
    /// How much a usual serving holds there, as a factor on what menus of all sorts print.
    ///
    /// Of 55 restaurants each left out of the fit, the 19 that sell drinks with alcohol or steaks print
    /// 1.24 times what is told in the middle, the others 0.94 times (`fit_servings --program`).
    #[must_use]
    pub(super) fn level(self) -> f64 {
        match self {
            Self::Table => 1.24,
            Self::Counter => 0.94,
        }
    }
}

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
    /// How the restaurant serves, where somebody says.
    pub service: Option<Service>,
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
