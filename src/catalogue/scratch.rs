//! Working memory of the matcher, kept between queries so that none is allocated twice.

use super::index::Index;
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
    }

    pub(super) fn mark(&mut self, word: u32) -> &mut Mark {
        self.marked.push(word);
        &mut self.marks[word as usize]
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

    pub(super) fn clear(&mut self) {
        for name in self.touched.drain(..) {
            self.met[name as usize] = 0.0;
        }
        for word in self.marked.drain(..) {
            self.marks[word as usize] = Mark::default();
        }
        self.short.clear();
    }
}
