//! Dishes of the library by their exact name.

use crate::reading::{ComponentLine, Dish, UnitSystem, parse_dish_file};
use crate::store::Library;
use crate::words::words;
use std::collections::HashMap;
use std::sync::OnceLock;

/// Dish files by name, read only when they are asked for, and once.
#[derive(Debug, Clone, Default)]
pub struct KnownDishes(HashMap<String, DishFile>);

#[derive(Debug, Clone, Default)]
struct DishFile {
    slug: String,
    text: String,
    /// In US and in metric cups and spoons; nothing when it can not be read.
    read: [OnceLock<Option<Dish<ComponentLine>>>; 2],
}

impl KnownDishes {
    /// The dishes of a library; of several with one name the first.
    #[must_use]
    pub fn of(library: &Library) -> Self {
        let mut all = HashMap::new();
        for entry in library.entries() {
            let file = DishFile {
                slug: entry.slug.clone(),
                text: entry.text.clone(),
                ..DishFile::default()
            };
            all.entry(key(&entry.name)).or_insert(file);
        }
        Self(all)
    }

    /// The dish of exactly this name, whatever the spelling of its words; nothing when there
    /// is none or its file can not be read.
    pub(crate) fn find(&self, name: &str, units: UnitSystem) -> Option<&Dish<ComponentLine>> {
        let file = self.0.get(&key(name))?;
        let read = match units {
            UnitSystem::Us => &file.read[0],
            UnitSystem::Metric => &file.read[1],
        };
        let dish = read.get_or_init(|| parse_dish_file(&file.slug, &file.text, units).ok());
        dish.as_ref()
    }
}

fn key(name: &str) -> String {
    words(name).join(" ")
}
