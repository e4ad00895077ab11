//! Lines that a menu holds again: what they came to is remembered, within a bound of memory.

use super::summary::Brief;
use crate::memo::{Quick, TextHasher};
use std::collections::HashMap;
use std::hash::Hasher;

/// Bytes remembered in each of two generations.
const ROOM: usize = 6 << 20;
/// What an answer takes beside its bytes, about.
const BESIDE: usize = 512;
/// Lines of which it is known that they were seen.
const SEEN: usize = 1 << 14;

/// What a line came to.
#[derive(Debug, Clone)]
pub(super) struct Answer {
    /// Its row as written.
    pub out: Box<[u8]>,
    /// What the summary needs of it; nothing when it was not wanted.
    pub brief: Option<Brief>,
    /// What it is sorted by.
    pub key: Option<f64>,
    /// Whether all of it counts.
    pub whole: bool,
}

type Table = HashMap<Box<[u8]>, Answer, Quick>;

/// What lines came to that were seen twice already: a line that never comes back costs a look.
///
/// Two generations: when the young one is full it becomes the old one, and what is asked for
/// again moves back.
#[derive(Debug)]
pub(super) struct Repeats {
    seen: Vec<u64>,
    young: Table,
    old: Table,
    bytes: usize,
}

/// What is known of a line.
pub(super) enum Known<'r> {
    /// Nothing.
    New,
    /// That it was there before.
    Seen,
    /// What it comes to.
    Answered(&'r Answer),
}

impl Repeats {
    pub(super) fn new() -> Self {
        Self {
            seen: vec![0; SEEN],
            young: Table::default(),
            old: Table::default(),
            bytes: 0,
        }
    }

    /// What is known of a line, which counts as seen from now on.
    pub(super) fn look(&mut self, line: &[u8]) -> Known<'_> {
        let mut hasher = TextHasher::default();
        hasher.write(line);
        let hash = hasher.finish();
        let slot = &mut self.seen[hash as usize % SEEN];
        if *slot != hash {
            *slot = hash;
            return Known::New;
        }
        if let Some((line, answer)) = self.old.remove_entry(line) {
            self.keep(line, answer);
        }
        match self.young.get(line) {
            Some(answer) => Known::Answered(answer),
            None => Known::Seen,
        }
    }

    /// Remembers what a line came to.
    pub(super) fn keep(&mut self, line: Box<[u8]>, answer: Answer) {
        if self.bytes >= ROOM {
            self.old = std::mem::take(&mut self.young);
            self.bytes = 0;
        }
        self.bytes += line.len() + answer.out.len() + BESIDE;
        self.young.insert(line, answer);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_third_time_a_line_is_known_and_memory_stays_bounded() {
        let mut repeats = Repeats::new();
        let answer = |size: usize| Answer {
            out: vec![b'x'; size].into(),
            brief: None,
            key: None,
            whole: true,
        };
        assert!(matches!(repeats.look(b"rice"), Known::New));
        assert!(matches!(repeats.look(b"rice"), Known::Seen));
        repeats.keep(b"rice".as_slice().into(), answer(4));
        assert!(matches!(repeats.look(b"rice"), Known::Answered(a) if a.out.len() == 4));
        for number in 0..20_000_u32 {
            let line = number.to_string().into_bytes();
            repeats.look(&line);
            repeats.look(&line);
            repeats.keep(line.into(), answer(2_000));
        }
        let held: usize = repeats
            .young
            .values()
            .chain(repeats.old.values())
            .map(|a| a.out.len())
            .sum();
        assert!(held <= 2 * (ROOM + 4_000), "{held}");
    }
}
