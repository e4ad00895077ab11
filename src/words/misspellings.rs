//! Words by what is left of them when letters are left out: a misspelt word and the one that
//! was meant have such a rest in common.
//!
//! This file is also compiled into the build script, which writes what the program reads.

/// Shortest word whose spelling is mended.
const SHORTEST_MENDED: usize = 4;
/// Longest one: the rests of a word are as many as half the square of its length.
const LONGEST_MENDED: usize = 40;
/// Length from which two slips are forgiven.
const TWO_SLIPS_FROM: usize = 7;
/// Rests in one part of the table, on average.
const ROWS_A_PART: usize = 4;

/// Hash of a rest, and the number of the word that it is of.
pub(crate) type Rest = [u32; 2];

/// The table in place: rests in the order of their hashes, in parts of equal shares of all
/// hashes.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Misspellings<'b> {
    /// Where each part begins, and the end of the last.
    pub parts: &'b [u32],
    /// The rests.
    pub rests: &'b [Rest],
}

impl Misspellings<'_> {
    /// Puts into `found` the numbers of the words of which `word` may be a misspelling, in
    /// ascending order; whether it is one is not checked.
    pub(crate) fn near(&self, word: &str, found: &mut Vec<u32>) {
        found.clear();
        if !is_mended(word) || self.parts.len() < 2 {
            return;
        }
        for_each_rest(word, |hash| {
            let part = part(hash, self.parts.len() - 1);
            let (start, end) = (self.parts[part], self.parts[part + 1]);
            let rests = &self.rests[start as usize..end as usize];
            let same = rests.iter().filter(|rest| rest[0] == hash);
            found.extend(same.map(|rest| rest[1]));
        });
        found.sort_unstable();
        found.dedup();
    }
}

/// The table of words, the first with number 0: where parts begin, and the rests.
pub(crate) fn lay_out<'w>(words: impl Iterator<Item = &'w str>) -> (Vec<u32>, Vec<Rest>) {
    let mut rests: Vec<Rest> = Vec::new();
    for (word, number) in words.zip(0..).filter(|(word, _)| is_mended(word)) {
        for_each_rest(word, |hash| rests.push([hash, number]));
    }
    rests.sort_unstable();
    rests.dedup();
    let count = rests.len() / ROWS_A_PART + 1;
    let start = |of: usize| rests.partition_point(|rest| part(rest[0], count) < of) as u32;
    let parts = (0..=count).map(start).collect();
    (parts, rests)
}

fn is_mended(word: &str) -> bool {
    (SHORTEST_MENDED..=LONGEST_MENDED).contains(&word.len())
        && word.bytes().all(|b| b.is_ascii_lowercase())
}

/// In which of `count` parts a hash lies.
fn part(hash: u32, count: usize) -> usize {
    ((u64::from(hash) * count as u64) >> 32) as usize
}

/// Odd and without pattern: a letter's place reaches all bits of the number.
const BASE: u64 = 0x9E37_79B9_7F4A_7C15;

/// Hashes of a word and of what is left of it without one letter (for long words also
/// without two), some perhaps more than once.
///
/// The letters are the digits of a number, so that leaving one out takes a step and not a
/// walk through the word. The word is one [`is_mended`] takes.
fn for_each_rest(word: &str, mut take: impl FnMut(u32)) {
    let mut take = |number: u64| take(((number ^ (number >> 29)).wrapping_mul(BASE) >> 32) as u32);
    let letters = word.as_bytes();
    // The letters from each place to the end, as numbers.
    let mut from = [0_u64; LONGEST_MENDED + 1];
    for at in (0..letters.len()).rev() {
        from[at] = u64::from(letters[at]).wrapping_add(from[at + 1].wrapping_mul(BASE));
    }
    take(from[0]);
    let (mut before, mut place) = (0_u64, 1_u64);
    for first in 0..letters.len() {
        take(before.wrapping_add(place.wrapping_mul(from[first + 1])));
        if letters.len() >= TWO_SLIPS_FROM {
            let (mut before, mut place) = (before, place);
            for second in first + 1..letters.len() {
                take(before.wrapping_add(place.wrapping_mul(from[second + 1])));
                append(&mut before, &mut place, letters[second]);
            }
        }
        append(&mut before, &mut place, letters[first]);
    }
}

/// Adds a letter to the end of a number whose next digit stands for `place`.
fn append(number: &mut u64, place: &mut u64, letter: u8) {
    *number = number.wrapping_add(place.wrapping_mul(u64::from(letter)));
    *place = place.wrapping_mul(BASE);
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn near(words: &[&str], word: &str) -> Vec<u32> {
        let (parts, rests) = lay_out(words.iter().copied());
        let mut found = Vec::new();
        let table = Misspellings {
            parts: &parts,
            rests: &rests,
        };
        table.near(word, &mut found);
        found
    }

    #[test]
    fn what_cannot_be_mended_is_near_nothing() {
        for word in ["", "ham", "caf\u{e9}s", "Ham2"] {
            assert!(near(&["hams", word], word).is_empty(), "{word}");
        }
        assert!(Misspellings::default().parts.is_empty());
        assert!(near(&[], "cheese").is_empty());
        let long = "a".repeat(LONGEST_MENDED + 1);
        assert!(near(&[&long], &long).is_empty());
    }

    proptest! {
        #[test]
        fn every_word_within_its_slips_is_near(
            word in "[a-e]{4,12}",
            other in "[a-e]{4,12}",
            slips in prop::collection::vec((0_usize..4, any::<prop::sample::Index>(), b'a'..=b'e'), 1..=2),
        ) {
            let allowed = if word.len() >= TWO_SLIPS_FROM { 2 } else { 1 };
            let mut letters = word.clone().into_bytes();
            for (kind, at, letter) in slips.into_iter().take(allowed) {
                let at = at.index(letters.len() - 1);
                match kind {
                    0 => letters.swap(at, at + 1),
                    1 => drop(letters.remove(at)),
                    2 => letters.insert(at, letter),
                    _ => letters[at] = letter,
                }
            }
            let written = String::from_utf8(letters).unwrap();
            prop_assume!(is_mended(&written));
            // Two slips are forgiven where both words are long enough.
            prop_assume!(written.len() >= TWO_SLIPS_FROM || allowed == 1);
            prop_assert!(near(&[&other, &word], &written).contains(&1));
        }
    }
}
