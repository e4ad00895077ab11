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
    /// The word is around in the dish.
    pub(super) around: bool,
}

/// The query is written in the form.
pub(super) const WRITTEN: u8 = 1;
/// The query means the form.
pub(super) const MEANT: u8 = 2;

/// Working memory, kept between queries so that none is allocated twice.
#[derive(Debug, Default)]
pub(super) struct Scratch {
    /// Weight met so far, for every name.
    pub(super) met: Vec<f32>,
    /// Names met.
    pub(super) touched: Vec<u32>,
    /// For every word of the dictionary.
    pub(super) marks: Vec<Mark>,
    /// Words marked.
    pub(super) marked: Vec<u32>,
    /// For every form, [`WRITTEN`] where the query is written in it and [`MEANT`] where it
    /// means it.
    pub(super) forms: Vec<u8>,
    /// Best candidates by the quick estimate.
    pub(super) short: Vec<(f32, u32)>,
}

thread_local! {
    pub(super) static SCRATCH: RefCell<Scratch> = RefCell::default();
}

impl Scratch {
    pub(super) fn fit(&mut self, index: &Index<'_>) {
        if self.met.len() < index.entries().len() {
            self.met.resize(index.entries().len(), 0.0);
        }
        if self.marks.len() < index.words() {
            self.marks.resize(index.words(), Mark::default());
        }
        if self.forms.len() < index.forms() {
            self.forms.resize(index.forms(), 0);
        }
    }

    pub(super) fn mark(&mut self, word: u32) -> &mut Mark {
        self.marked.push(word);
        &mut self.marks[word as usize]
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
        for word in self.marked.drain(..) {
            self.marks[word as usize] = Mark::default();
        }
        self.short.clear();
    }
}
