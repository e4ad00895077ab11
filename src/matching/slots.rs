//! A table from hashes to numbers that is read in place: what words are looked up in.
//!
//! This file is also compiled into the build script, which writes what the program reads.

/// A hash and the number it leads to plus one; zeros for an empty slot.
pub(crate) type Slot = [u32; 2];

/// The table in place.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Slots<'b>(pub &'b [Slot]);

/// FNV-1a: small, the same on every machine, good enough where what it leads to is checked.
#[must_use]
pub fn hash(bytes: &[u8]) -> u32 {
    hash_on(START, bytes)
}

/// The hash of nothing.
pub(crate) const START: u32 = 0x811c_9dc5;

/// The hash of a text that goes on, from the hash of what stands before.
#[must_use]
pub(crate) fn hash_on(before: u32, bytes: &[u8]) -> u32 {
    bytes
        .iter()
        .fold(before, |h, b| (h ^ u32::from(*b)).wrapping_mul(0x0100_0193))
}

/// A second hash, for what is looked up by its hashes alone: with [`hash`] it makes 64 bits.
#[must_use]
pub(crate) fn check(bytes: &[u8]) -> u32 {
    let mixed = bytes.iter().fold(bytes.len() as u32, |h, b| {
        (h.rotate_left(5) ^ u32::from(*b)).wrapping_mul(0x9E37_79B1)
    });
    mixed ^ (mixed >> 15)
}

impl Slots<'_> {
    /// The first number under a hash that `is` the one sought.
    #[must_use]
    pub(crate) fn find(&self, hash: u32, is: impl Fn(u32) -> bool) -> Option<u32> {
        let (before, from) = self.0.split_at(place(hash, self.0.len()));
        for [kept, number] in from.iter().chain(before) {
            let number = number.checked_sub(1)?;
            if *kept == hash && is(number) {
                return Some(number);
            }
        }
        None
    }
}

/// Where a hash belongs in a table of some size, from 0 to the size.
fn place(hash: u32, size: usize) -> usize {
    // The high bits of the hash are the well-mixed ones.
    ((u64::from(hash) * size as u64) >> 32) as usize
}

/// Lays out a table in which the first of `hashes` leads to 0, the next to 1 and so on.
#[must_use]
pub(crate) fn lay_out(hashes: &[u32]) -> Vec<Slot> {
    // Two thirds full: a search ends after a step or two.
    let mut slots = vec![[0; 2]; hashes.len() + hashes.len() / 2 + 1];
    for (hash, number) in hashes.iter().zip(1..) {
        let mut at = place(*hash, slots.len());
        while slots[at][1] != 0 {
            at = (at + 1) % slots.len();
        }
        slots[at] = [*hash, number];
    }
    slots
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn nothing_is_found_where_nothing_lies() {
        assert_eq!(Slots(&[]).find(7, |_| true), None);
        assert_eq!(Slots(&lay_out(&[])).find(0, |_| true), None);
    }

    #[test]
    fn a_hash_goes_on() {
        assert_eq!(hash_on(hash(b"sweet"), b" potato"), hash(b"sweet potato"));
    }

    proptest! {
        #[test]
        fn everything_laid_out_is_found(hashes in prop::collection::vec(0_u32..200, 0..100)) {
            let slots = lay_out(&hashes);
            for (hash, number) in hashes.iter().zip(0..) {
                prop_assert_eq!(Slots(&slots).find(*hash, |n| n == number), Some(number));
            }
            prop_assert_eq!(Slots(&slots).find(999, |_| true), None);
        }
    }
}
