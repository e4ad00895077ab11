//! What names are found with, and what is found.

use super::index::Index;
use super::knowledge::Knowledge;

/// One candidate.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// What was found: a food's row, or a row of a target table.
    pub item: u32,
    /// The name in the index that fitted best.
    pub entry: u32,
    /// From 0 (nothing in common) to 1 (says the same).
    pub score: f32,
}

impl Candidate {
    pub(super) fn before(&self, other: &Self) -> bool {
        let order = other.score.total_cmp(&self.score);
        let order = order.then(self.item.cmp(&other.item));
        order.then(self.entry.cmp(&other.entry)).is_lt()
    }
}

/// What stands around a component: it makes general words exact, and no other words mean
/// anything else for it.
#[derive(Debug, Clone, Default)]
pub struct Context {
    /// Words of the dish's name and of the other components, in base form.
    pub words: Vec<String>,
    /// Whether British senses come first (`chips`, `biscuit`).
    pub british: bool,
}

/// Finds names for words.
#[derive(Debug, Clone, Copy)]
pub struct Matcher<'m, 'b> {
    pub(super) index: &'m Index<'b>,
    pub(super) knowledge: &'m Knowledge<'m>,
    pub(super) larger: Option<&'m Index<'m>>,
    /// Dimension and number of the state `dried`.
    pub(super) dried: (u8, u8),
}

impl<'m, 'b> Matcher<'m, 'b> {
    /// A matcher over an index.
    #[must_use]
    pub(crate) fn new(index: &'m Index<'b>, knowledge: &'m Knowledge<'m>) -> Self {
        // A word that no table knows has no state at all.
        let dried = knowledge.dried.unwrap_or((u8::MAX, u8::MAX));
        Self {
            index,
            knowledge,
            larger: None,
            dried,
        }
    }

    /// A matcher over a small table, with the rarity and spelling of words from a larger one.
    #[must_use]
    pub(crate) fn beside(
        index: &'m Index<'b>,
        knowledge: &'m Knowledge<'m>,
        larger: &'m Index<'m>,
    ) -> Self {
        Self {
            larger: Some(larger),
            ..Self::new(index, knowledge)
        }
    }
}
