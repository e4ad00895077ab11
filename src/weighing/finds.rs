//! What words were found to mean, remembered: the lines of a menu repeat themselves.

use super::usual::{Usual, usual};
use crate::foods::FoodId;
use crate::matching::{Catalogue, Context, Found};
use crate::memo::Memo;
use crate::reading::{ComponentLine, UnitSystem};
use std::cell::RefCell;
use std::sync::Arc;

/// Foods found that are remembered, in each of two generations: enough for the components of a
/// library.
const FOUND: usize = 1024;
/// Texts read and amounts remembered likewise: a line asks for its own again and again.
const READ: usize = 256;
/// Parts the words of a key; no word holds it.
const PART: char = '\u{1f}';
/// Foods looked at for each component: the one taken and what else it could be.
const CANDIDATES: usize = 4;

/// Looks words up in a catalogue and remembers the last of what it found, which never
/// changes an answer.
pub struct Finds<'c> {
    catalogue: &'c Catalogue,
    memory: RefCell<Memory>,
}

/// What is remembered, and room for the key of a question.
struct Memory {
    found: Memo<Known>,
    usual: Memo<&'static Usual>,
    read: Memo<Option<Arc<ComponentLine>>>,
    key: String,
}

/// What words were found to mean.
struct Known {
    found: Arc<Found>,
    /// Whether they are general ones, which what stands around could make exact.
    general: bool,
}

impl<'c> Finds<'c> {
    /// Finds in this catalogue; nothing is remembered yet.
    #[must_use]
    pub fn new(catalogue: &'c Catalogue) -> Self {
        let memory = Memory {
            found: Memo::new(FOUND),
            usual: Memo::new(READ),
            read: Memo::new(READ),
            key: String::new(),
        };
        Self {
            catalogue,
            memory: RefCell::new(memory),
        }
    }

    /// Where it looks.
    #[must_use]
    pub fn catalogue(&self) -> &'c Catalogue {
        self.catalogue
    }

    /// What words mean by themselves.
    #[must_use]
    pub(crate) fn by_itself(&self, words: &str, british: bool) -> Arc<Found> {
        self.find(words, british, Vec::new)
    }

    /// As [`Catalogue::find`]. `around` is asked for only where it can matter: what stands
    /// around words that are not general ones changes nothing.
    #[must_use]
    pub(crate) fn find(
        &self,
        words: &str,
        british: bool,
        around: impl FnOnce() -> Vec<String>,
    ) -> Arc<Found> {
        let Memory { found, key, .. } = &mut *self.memory.borrow_mut();
        let context = |words: Vec<String>| Context { words, british };
        let find = |context: &Context| Arc::new(self.catalogue.find(words, context, CANDIDATES));
        write_key(key, words, "", british);
        let by_itself = found.get(key, || Known {
            found: find(&context(Vec::new())),
            general: self.catalogue.are_general(words, british),
        });
        if !by_itself.general {
            return Arc::clone(&by_itself.found);
        }
        let around = context(around());
        let Some(exact) = self.catalogue.made_exact(words, &around) else {
            return Arc::clone(&by_itself.found);
        };
        write_key(key, words, exact, british);
        let beside = found.get(key, || Known {
            found: find(&around),
            general: true,
        });
        Arc::clone(&beside.found)
    }

    /// How much is usual of a food written as `text`.
    #[must_use]
    pub(super) fn usual(&self, text: &str, food: Option<FoodId>) -> &'static Usual {
        let Memory {
            usual: known, key, ..
        } = &mut *self.memory.borrow_mut();
        key.clear();
        key.push_str(text);
        key.push(PART);
        if let Some(FoodId(row)) = food {
            key.push_str(itoa::Buffer::new().format(row));
        }
        known.get(key, || usual(text, food.map(|id| self.catalogue.food(id))))
    }

    /// A text as a component, as `read` reads it: the same for the same text and units.
    pub(super) fn read(
        &self,
        text: &str,
        units: UnitSystem,
        read: impl FnOnce() -> Option<ComponentLine>,
    ) -> Option<Arc<ComponentLine>> {
        let Memory {
            read: known, key, ..
        } = &mut *self.memory.borrow_mut();
        key.clear();
        key.push_str(text);
        key.push(PART);
        key.push(if units == UnitSystem::Us { 'u' } else { 'm' });
        known.get(key, || read().map(Arc::new)).clone()
    }
}

/// All that what is found depends on: the words, what they mean beside others, how they are read.
fn write_key(key: &mut String, words: &str, exact: &str, british: bool) {
    key.clear();
    for part in [words, exact] {
        key.push_str(part);
        key.push(PART);
    }
    key.push(if british { 'b' } else { 'a' });
}
