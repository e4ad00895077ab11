//! What is eaten of each component, and the rows that say so.

use crate::pages::handout::Portioning;

/// The right-sized plate, as pages need it.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitted {
    /// The part of each component that is eaten, 0 to 1, in the dish's order; `None` for those
    /// without a weight.
    pub parts: Vec<Option<f64>>,
    /// What to eat and what to box, in words.
    pub portioning: Vec<Portioning>,
    /// What the plate may take, to be read after `for`: `a third of the day`.
    pub room: String,
}

impl Fitted {
    /// The part eaten of the component at a place in the dish; 0 where nobody knows.
    #[must_use]
    pub fn part(&self, at: usize) -> f64 {
        self.parts.get(at).copied().flatten().unwrap_or(0.0)
    }
}
