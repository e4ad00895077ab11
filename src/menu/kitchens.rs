//! What is known of the kitchens of a menu.

use super::item::Item;
use crate::weighing::servings::{Kitchen, Level, ServingText};
use std::collections::BTreeMap;

/// The kitchens of a menu, by the restaurant that its rows name (nothing where they name none).
#[derive(Debug, Clone, Default)]
pub struct Kitchens {
    known: BTreeMap<String, Kitchen>,
}

impl Kitchens {
    /// Kitchens by name.
    pub(super) fn new(known: BTreeMap<String, Kitchen>) -> Self {
        Self { known }
    }

    /// How its kitchen serves an item, as far as other dishes of it are known.
    #[must_use]
    pub fn level(&self, item: &Item) -> Option<Level> {
        self.known.get(&item.restaurant)?.level(text_of(item))
    }

    /// Kitchens of which something is known.
    pub fn all(&self) -> impl Iterator<Item = (&str, &Kitchen)> {
        self.known
            .iter()
            .map(|(name, kitchen)| (name.as_str(), kitchen))
    }

    /// The kitchen of a menu of one restaurant.
    #[must_use]
    pub fn into_only(self) -> Option<Kitchen> {
        let mut all = self.known.into_values();
        all.next().filter(|_| all.next().is_none())
    }
}

/// What an item's texts say of its serving.
pub(super) fn text_of(item: &Item) -> ServingText<'_> {
    ServingText {
        name: &item.name,
        section: &item.section,
        description: &item.description,
        ..ServingText::default()
    }
}
