//! Readers that give no more than is left for the piece at hand, so that one piece of a
//! stream cannot take all memory.

use std::cell::Cell;
use std::io::{Error, ErrorKind, Read, Result};
use std::rc::Rc;

/// How many bytes the piece at hand may still take; set anew by whoever begins a piece.
#[derive(Debug, Clone)]
pub(crate) struct Left(Rc<Cell<u64>>);

impl Left {
    /// So many.
    pub(crate) fn of(bytes: u64) -> Self {
        Self(Rc::new(Cell::new(bytes)))
    }

    /// A new piece of at most so many begins.
    pub(crate) fn begin(&self, bytes: u64) {
        self.0.set(bytes);
    }

    /// A piece of any length begins, of which nothing is kept.
    pub(crate) fn pass_over(&self) {
        self.0.set(u64::MAX);
    }

    /// Whether the piece took all it might.
    pub(crate) fn is_used_up(&self) -> bool {
        self.0.get() == 0
    }
}

/// Reads no more than is left.
#[derive(Debug)]
pub(crate) struct Bounded<R> {
    from: R,
    left: Left,
}

impl<R: Read> Bounded<R> {
    pub(crate) fn new(from: R, left: &Left) -> Self {
        let left = left.clone();
        Self { from, left }
    }
}

impl<R: Read> Read for Bounded<R> {
    fn read(&mut self, into: &mut [u8]) -> Result<usize> {
        let left = self.left.0.get();
        if left == 0 {
            let told = "a piece of it is larger than is taken for one";
            return Err(Error::new(ErrorKind::InvalidData, told));
        }
        let most = into.len().min(usize::try_from(left).unwrap_or(usize::MAX));
        let read = self.from.read(&mut into[..most])?;
        self.left.0.set(left - read as u64);
        Ok(read)
    }
}
