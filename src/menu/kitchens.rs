//! What is known of the kitchens of a menu.

use super::item::Item;
use crate::matching::Catalogue;
use crate::memo::Quick;
use crate::weighing::servings::{Kitchen, Level, ServingText};
use crate::weighing::{WeighedComponent, as_this_kitchen};
use std::collections::{BTreeMap, HashMap};

/// Dishes as they are before anything is known of their kitchen, by their texts.
pub(super) type Unlevelled = HashMap<Box<str>, Box<[WeighedComponent]>, Quick>;

/// The kitchens of a menu, by the restaurant that its rows name (nothing where they name none).
#[derive(Debug, Clone, Default)]
pub struct Kitchens {
    known: BTreeMap<String, Kitchen>,
    /// Dishes that were worked out to learn from them.
    worked_out: Unlevelled,
}

impl Kitchens {
    /// Kitchens by name, and the dishes that they were learned from.
    pub(super) fn new(known: BTreeMap<String, Kitchen>, worked_out: Unlevelled) -> Self {
        Self { known, worked_out }
    }

    /// A dish with these texts as its kitchen serves it, if it was worked out already.
    pub(super) fn served(
        &self,
        texts: &str,
        item: &Item,
        catalogue: &Catalogue,
    ) -> Option<Vec<WeighedComponent>> {
        let mut list = self.worked_out.get(texts)?.to_vec();
        if let Some(level) = self.level(item) {
            as_this_kitchen(&mut list, level, catalogue);
        }
        Some(list)
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
