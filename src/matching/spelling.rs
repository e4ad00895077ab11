//! Spelling: the dictionary word that a misspelt one means.

use super::analysis::Speller;
use super::index::Index;
use crate::words::base_form;

/// Takes misspelt words to the dictionary's.
#[derive(Debug, Clone, Copy)]
pub(crate) struct IndexSpeller<'i, 'b> {
    /// The names that are searched.
    pub index: &'i Index<'b>,
    /// A larger table whose words are known as well.
    pub larger: Option<&'i Index<'i>>,
}

impl Speller for IndexSpeller<'_, '_> {
    fn knows(&self, word: &str) -> bool {
        let names_hold = |index: &Index<'_>| uses(index, word) > 0;
        let names_write = |index: &Index<'_>| {
            let number = index.word(word);
            number.is_some_and(|number| index.row(number).uses > 0)
        };
        names_hold(self.index)
            || self.larger.is_some_and(names_hold)
            || names_write(self.larger.unwrap_or(self.index))
    }

    fn mend(&self, word: &str, beside: &[String]) -> Option<Vec<String>> {
        let largest = self.larger.unwrap_or(self.index);
        // A word of some known phrase: mended only where its neighbours speak for it.
        if largest.word(word).is_some() {
            return nearest(largest, word, beside, true).map(|word| vec![word]);
        }
        let list = [self.larger, Some(self.index)];
        let both = list.into_iter().flatten();
        split_in_two(self.index, word)
            .or_else(|| self.larger.and_then(|larger| split_in_two(larger, word)))
            .or_else(|| {
                let mut found = both.filter_map(|index| nearest(index, word, beside, false));
                found.next().map(|word| vec![word])
            })
    }
}

/// Names that hold a word or a narrower one.
fn uses(index: &Index<'_>, word: &str) -> usize {
    index
        .word(word)
        .map_or(0, |n| index.postings(n).len() + index.below(n).len())
}

/// `meatloaf` as `meat loaf`: both halves known and long enough to mean something.
fn split_in_two(index: &Index<'_>, word: &str) -> Option<Vec<String>> {
    if !word.is_ascii() {
        return None;
    }
    (3..word.len().saturating_sub(2)).find_map(|at| {
        let (left, right) = word.split_at(at);
        let known = |w: &str| index.word(w).is_some_and(|n| !index.postings(n).is_empty());
        if !known(left) {
            return None;
        }
        let right = base_form(right);
        known(&right).then(|| vec![left.to_owned(), right])
    })
}

/// Length from which a misspelt word has few neighbours.
const SURE_LENGTH: usize = 5;
/// Power of two of the names that a common word is written in.
const COMMON: u8 = 2;
/// How much nearer a word is that stands in one name with another word of the query.
const TOGETHER: f32 = 0.6;
/// Neighbours that are looked at for what stands beside them.
const NEIGHBOURS: usize = 6;

/// The dictionary word nearest to a misspelt one, within one slip (two from seven
/// letters on). A word that names hold together with another word of the query is nearer
/// (`peanut bittle`); with `only_together` no other is taken. Ties go to the word in more
/// names, then to the alphabet.
fn nearest(
    index: &Index<'_>,
    word: &str,
    beside: &[String],
    only_together: bool,
) -> Option<String> {
    let allowed = if word.len() >= 7 { 2.0 } else { 1.0 };
    let mut near = Vec::new();
    index.misspellings().near(word, &mut near);
    let meant = near.into_iter().filter_map(|number| {
        let other = index.word_text(number);
        // Two letters too many or too few are another word.
        if word.len().abs_diff(other.len()) > 1 || other == word {
            return None;
        }
        // Short words have many neighbours: only a common word is taken for what was
        // meant, and never one of the same length (`lime` is no `lame`).
        let uses = index.row(number).uses;
        let clear = word.len() >= SURE_LENGTH
            || (uses >= COMMON && (other.len() != word.len() || swapped(word, other)));
        let slips = slips(word, other, allowed).filter(|_| clear)?;
        Some((slips, uses, other))
    });
    let mut list: Vec<(f32, u8, &str)> = meant.collect();
    let nearer = |a: &(f32, u8, &str), b: &(f32, u8, &str)| {
        a.0.total_cmp(&b.0).then(b.1.cmp(&a.1)).then(a.2.cmp(b.2))
    };
    list.sort_unstable_by(nearer);
    list.truncate(NEIGHBOURS);
    if list.len() > 1 || only_together {
        let others: Vec<u32> = beside
            .iter()
            .filter(|other| *other != word)
            .filter_map(|other| index.form(other))
            .collect();
        let with_another = |(_, _, word): &(f32, u8, &str)| {
            let form = index.form(word);
            form.is_some_and(|form| others.iter().any(|other| index.together(form, *other)))
        };
        let together: Vec<bool> = list.iter().map(with_another).collect();
        for (row, together) in list.iter_mut().zip(&together) {
            row.0 -= if *together { TOGETHER } else { 0.0 };
        }
        if only_together {
            let mut together = together.into_iter();
            list.retain(|_| together.next().unwrap_or(false));
        }
        list.sort_unstable_by(nearer);
    }
    list.first().map(|(_, _, word)| (*word).to_owned())
}

/// Slips between two spellings, if they are no more than `allowed`: transpositions count
/// once; a doubled letter and a key beside the right one count less, a different first
/// letter more.
fn slips(written: &str, meant: &str, allowed: f32) -> Option<f32> {
    // Letters that only one of them has take a slip each, less half a one in all.
    if letters_apart(written, meant) as f32 > allowed + 0.5 {
        return None;
    }
    let mut slips = strsim::osa_distance(written, meant) as f32;
    if written.bytes().next() != meant.bytes().next() {
        slips += 0.5;
    }
    if undoubled(written).eq(undoubled(meant)) {
        slips -= 0.5;
    } else if written.len() == meant.len() && neighbours(written, meant) {
        slips -= 0.3;
    }
    (slips <= allowed).then_some(slips)
}

/// Letters of the one word that the other one lacks, the more of both ways.
fn letters_apart(a: &str, b: &str) -> u32 {
    let mut counts = [0_i8; 32];
    for letter in a.bytes() {
        counts[usize::from(letter & 31)] += 1;
    }
    for letter in b.bytes() {
        counts[usize::from(letter & 31)] -= 1;
    }
    let sum = |sign: i8| -> u32 {
        let more = counts
            .iter()
            .map(|count| (count * sign).max(0).unsigned_abs());
        more.map(u32::from).sum()
    };
    sum(1).max(sum(-1))
}

/// Whether two words are the same letters in another order.
fn swapped(a: &str, b: &str) -> bool {
    let sorted = |word: &str| {
        let mut letters = word.as_bytes().to_vec();
        letters.sort_unstable();
        letters
    };
    sorted(a) == sorted(b)
}

/// The letters of a word, doubled ones once.
fn undoubled(word: &str) -> impl Iterator<Item = u8> + '_ {
    let mut last = b' ';
    word.bytes()
        .filter(move |c| std::mem::replace(&mut last, *c) != *c)
}

/// Whether all differing letters lie beside each other on a keyboard.
fn neighbours(a: &str, b: &str) -> bool {
    const ROWS: [&str; 3] = ["qwertyuiop", "asdfghjkl", "zxcvbnm"];
    let place = |c: char| {
        ROWS.iter()
            .enumerate()
            .find_map(|(r, row)| Some((r, row.find(c)?)))
    };
    a.chars()
        .zip(b.chars())
        .filter(|(x, y)| x != y)
        .all(|(x, y)| match (place(x), place(y)) {
            (Some((r1, c1)), Some((r2, c2))) => r1.abs_diff(r2) <= 1 && c1.abs_diff(c2) <= 1,
            _ => false,
        })
}
