//! Dishes of the library by their exact name.

use crate::catalogue::words::words;
use crate::library::Library;
use crate::reading::{ComponentLine, Dish, UnitSystem, parse_dish_file};
use std::collections::HashMap;

/// Dish files by name, read only when they are asked for.
#[derive(Debug, Clone, Default)]
pub struct KnownDishes(HashMap<String, (String, String)>);

impl KnownDishes {
    /// The dishes of a library; of several with one name the first.
    #[must_use]
    pub fn of(library: &Library) -> Self {
        let mut all = HashMap::new();
        for entry in library.entries() {
            let file = (entry.slug.clone(), entry.text.clone());
            all.entry(key(&entry.name)).or_insert(file);
        }
        Self(all)
    }

    /// The dish of exactly this name, whatever the spelling of its words; nothing when there
    /// is none or its file can not be read.
    #[must_use]
    pub fn find(&self, name: &str, units: UnitSystem) -> Option<Dish<ComponentLine>> {
        let (slug, text) = self.0.get(&key(name))?;
        parse_dish_file(slug, text, units).ok()
    }
}

fn key(name: &str) -> String {
    words(name).join(" ")
}
