//! A bounded memory of answers that depend on their question alone, and a quick hash for the
//! short texts that such memories and our own tables are asked for.

use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

/// Remembers at least the last `room` answers asked for, and at most twice as many.
///
/// Two generations: when the young one is full it becomes the old one, and what is asked for
/// again moves back. Answers must not depend on what is remembered.
#[derive(Debug)]
pub(crate) struct Memo<V> {
    young: Table<V>,
    old: Table<V>,
    room: usize,
}

// A row of a menu made to collide can only slow its own run: a generation holds a few
// thousand texts at most.
type Table<V> = HashMap<Box<str>, V, Quick>;

impl<V> Memo<V> {
    /// Room for `room` answers in each generation.
    #[must_use]
    pub(crate) fn new(room: usize) -> Self {
        Self {
            young: Table::default(),
            old: Table::default(),
            room: room.max(1),
        }
    }

    /// The answer to `key`, worked out only when it is not remembered.
    pub(crate) fn get(&mut self, key: &str, work_out: impl FnOnce() -> V) -> &V {
        if !self.young.contains_key(key) {
            if self.young.len() >= self.room {
                self.old = std::mem::take(&mut self.young);
            }
            let (key, value) = match self.old.remove_entry(key) {
                Some(known) => known,
                None => (key.into(), work_out()),
            };
            return self.young.entry(key).or_insert(value);
        }
        &self.young[key]
    }
}

/// Builds the hash of a map: nothing that withstands an attacker.
pub(crate) type Quick = BuildHasherDefault<TextHasher>;

/// A multiplying hash over eight bytes at a time.
#[derive(Debug, Default, Clone, Copy)]
pub(crate) struct TextHasher(u64);

const SPREAD: u64 = 0x517c_c1b7_2722_0a95;

impl TextHasher {
    fn add(&mut self, word: u64) {
        self.0 = (self.0.rotate_left(5) ^ word).wrapping_mul(SPREAD);
    }
}

impl Hasher for TextHasher {
    fn finish(&self) -> u64 {
        self.0 ^ (self.0 >> 32)
    }

    fn write(&mut self, bytes: &[u8]) {
        let mut parts = bytes.chunks_exact(8);
        for part in &mut parts {
            self.add(part.iter().rev().fold(0, |all, b| all << 8 | u64::from(*b)));
        }
        let rest = parts.remainder();
        if !rest.is_empty() {
            self.add(rest.iter().rev().fold(0, |all, b| all << 8 | u64::from(*b)));
        }
    }

    fn write_u8(&mut self, byte: u8) {
        self.add(u64::from(byte));
    }
}

#[cfg(test)]
mod tests {
    use super::Memo;

    #[test]
    fn it_remembers_the_last_and_stays_small() {
        let mut memo = Memo::new(3);
        let mut worked = 0;
        let ask = |memo: &mut Memo<usize>, key: &str, worked: &mut usize| {
            *memo.get(key, || {
                *worked += 1;
                key.len()
            })
        };
        for key in ["a", "bb", "ccc", "a", "dddd", "a", "eeeee", "dddd"] {
            assert_eq!(ask(&mut memo, key, &mut worked), key.len());
        }
        assert_eq!(worked, 5, "each once: none was forgotten");
        for at in 0..100 {
            ask(&mut memo, &format!("key {at}"), &mut worked);
        }
        assert!(memo.young.len() + memo.old.len() <= 6);
    }
}
