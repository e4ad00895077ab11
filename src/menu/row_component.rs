//! A component as the rows of a menu need it.

use crate::foods::FoodId;
use crate::matching::Certainty;
use crate::quantity::Term;
use crate::weighing::{Basis, WeighedComponent};
use std::sync::Arc;

/// A component as found, without what its food and weight rest on: cheap to copy from item
/// to item.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct RowComponent {
    /// As written.
    pub text: Arc<str>,
    /// The food it was taken for.
    pub food: Option<FoodId>,
    /// How sure that is.
    pub certainty: Certainty,
    /// How the weight is known.
    pub basis: Option<Basis>,
    /// Its weight, edible grams as served, as a term of sums; `None` when unsized.
    pub weight: Option<Term>,
    /// Whether it is a main dish that nobody knows.
    pub unknown_main: bool,
}

impl RowComponent {
    /// What rows need of a component.
    #[must_use]
    pub(crate) fn of(c: &WeighedComponent) -> Self {
        Self {
            text: c.matched.line.text.as_str().into(),
            food: c.matched.food,
            certainty: c.matched.certainty,
            basis: c.basis(),
            weight: c.term(),
            unknown_main: c.is_unknown_main(),
        }
    }
}
