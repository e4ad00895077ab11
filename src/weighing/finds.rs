//! What words were found to mean, remembered: the lines of a menu repeat themselves.

use crate::matching::{Catalogue, Context, Found};
use crate::memo::Memo;
use std::cell::RefCell;

/// Finds remembered, in each of two generations: enough for the components of a library.
const KNOWN: usize = 2048;
/// Parts the words of a key; no word holds it.
const PART: char = '\u{1f}';

/// Looks words up in a catalogue and remembers the last of what it found, which never
/// changes an answer.
pub struct Finds<'c> {
    catalogue: &'c Catalogue,
    known: RefCell<(Memo<Found>, String)>,
}

impl<'c> Finds<'c> {
    /// Finds in this catalogue; nothing is remembered yet.
    #[must_use]
    pub fn new(catalogue: &'c Catalogue) -> Self {
        Self {
            catalogue,
            known: RefCell::new((Memo::new(KNOWN), String::new())),
        }
    }

    /// Where it looks.
    #[must_use]
    pub fn catalogue(&self) -> &'c Catalogue {
        self.catalogue
    }

    /// As [`Catalogue::find`].
    #[must_use]
    pub(crate) fn find(&self, words: &str, context: &Context, top: usize) -> Found {
        let (known, key) = &mut *self.known.borrow_mut();
        key.clear();
        key.push_str(words);
        for word in &context.words {
            key.push(PART);
            key.push_str(word);
        }
        key.push(PART);
        key.push(if context.british { 'b' } else { 'a' });
        key.push_str(itoa::Buffer::new().format(top));
        let find = || self.catalogue.find(words, context, top);
        known.get(key, find).clone()
    }
}
