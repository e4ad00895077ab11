//! Working memory of the matcher, kept between queries so that none is allocated twice.

use super::index::Index;
use super::query::Query;
use std::cell::RefCell;

/// What the query has to do with a word of the dictionary, one bit for each of its terms.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Mark {
    /// Terms that are this word.
    pub(super) asked: u32,
    /// Terms that exclude this word.
    pub(super) excluded: u32,
    /// Terms of which this word is a broader one.
    pub(super) above: u32,
}

/// What the query has to do with every word of the dictionary.
#[derive(Debug)]
pub(super) struct Marks {
    /// For every word, the place of its mark in the list; 0 where it has nothing to do.
    places: Vec<u16>,
    /// The marks; the first one is empty.
    list: Vec<Mark>,
    /// Words marked.
    marked: Vec<u32>,
}

impl Default for Marks {
    fn default() -> Self {
        Self {
            places: Vec::new(),
            list: vec![Mark::default()],
            marked: Vec::new(),
        }
    }
}

impl Marks {
    /// What the query has to do with a word.
    pub(super) fn of(&self, word: u32) -> Mark {
        self.list[usize::from(self.places[word as usize])]
    }

    fn of_mut(&mut self, word: u32) -> &mut Mark {
        let place = &mut self.places[word as usize];
        if *place == 0 {
            *place = self.list.len() as u16;
            self.list.push(Mark::default());
            self.marked.push(word);
        }
        &mut self.list[usize::from(*place)]
    }

    fn clear(&mut self) {
        for word in self.marked.drain(..) {
            self.places[word as usize] = 0;
        }
        self.list.truncate(1);
    }
}

/// The query is written in the form.
pub(super) const WRITTEN: u8 = 1;
/// The query means the form.
pub(super) const MEANT: u8 = 2;

/// A name with its quick estimate, as one number: the greater comes first, of equals the
/// earlier name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Quick(u64);

impl Quick {
    pub(super) fn new(estimate: f32, name: u32) -> Self {
        // The order of `f32::total_cmp`, as an unsigned number.
        let bits = estimate.to_bits();
        let negative = bits >> 31 != 0;
        let order = bits ^ if negative { u32::MAX } else { 1 << 31 };
        Self(u64::from(order) << 32 | u64::from(!name))
    }

    pub(super) fn name(self) -> u32 {
        !(self.0 as u32)
    }

    /// The estimate.
    pub(super) fn estimate(self) -> f32 {
        let order = (self.0 >> 32) as u32;
        let positive = order >> 31 != 0;
        f32::from_bits(order ^ if positive { 1 << 31 } else { u32::MAX })
    }
}

/// Working memory, kept between queries so that none is allocated twice.
#[derive(Debug, Default)]
pub(super) struct Scratch {
    /// Weight met so far, for every name.
    pub(super) met: Vec<f32>,
    /// Names met.
    pub(super) touched: Vec<u32>,
    pub(super) marks: Marks,
    /// For every form, [`WRITTEN`] where the query is written in it and [`MEANT`] where it
    /// means it.
    pub(super) forms: Vec<u8>,
    /// Best candidates by the quick estimate, as [`Quick`].
    pub(super) short: Vec<Quick>,
}

thread_local! {
    pub(super) static SCRATCH: RefCell<Scratch> = RefCell::default();
}

impl Scratch {
    pub(super) fn fit(&mut self, index: &Index<'_>) {
        if self.met.len() < index.entries().len() {
            self.met.resize(index.entries().len(), 0.0);
        }
        if self.marks.places.len() < index.words() {
            self.marks.places.resize(index.words(), 0);
        }
        if self.forms.len() < index.forms() {
            self.forms.resize(index.forms(), 0);
        }
    }

    pub(super) fn mark(&mut self, word: u32) -> &mut Mark {
        self.marks.of_mut(word)
    }

    /// Notes which forms a query is written in and means; `false` takes the notes away.
    pub(super) fn note_forms(&mut self, query: &Query, on: bool) {
        for (forms, bit) in [(&query.written, WRITTEN), (&query.meant, MEANT)] {
            for form in forms.iter().flatten() {
                let noted = &mut self.forms[*form as usize];
                *noted = if on { *noted | bit } else { 0 };
            }
        }
    }

    pub(super) fn meet(&mut self, names: &[u32], weight: f32) {
        for name in names {
            let met = &mut self.met[*name as usize];
            if *met == 0.0 {
                self.touched.push(*name);
            }
            *met += weight;
        }
    }

    /// Forgets which names were met.
    pub(super) fn forget_names(&mut self) {
        for name in self.touched.drain(..) {
            self.met[name as usize] = 0.0;
        }
    }

    pub(super) fn clear(&mut self) {
        self.forget_names();
        self.marks.clear();
        self.short.clear();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn quick_estimates_are_in_order(a: f32, b: f32, one: u32, other: u32) {
            let order = a.total_cmp(&b).then(other.cmp(&one));
            prop_assert_eq!(Quick::new(a, one).cmp(&Quick::new(b, other)), order);
            prop_assert_eq!(Quick::new(a, one).name(), one);
            prop_assert_eq!(Quick::new(a, one).estimate().to_bits(), a.to_bits());
        }
    }
}
