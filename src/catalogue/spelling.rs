//! Spelling: the dictionary word that a misspelt one means.

use super::analysis::Speller;
use super::index::{Index, hash};

/// Takes misspelt words to the dictionary's.
#[derive(Debug, Clone, Copy)]
pub struct IndexSpeller<'i, 'b> {
    /// The names that are searched.
    pub index: &'i Index<'b>,
    /// A larger table whose words are known as well.
    pub larger: Option<&'i Index<'i>>,
}

impl Speller for IndexSpeller<'_, '_> {
    fn knows(&self, word: &str) -> bool {
        self.index.word(word).is_some()
            || self
                .larger
                .is_some_and(|larger| larger.word(word).is_some())
    }

    fn mend(&self, word: &str, beside: &[String]) -> Option<Vec<String>> {
        let one = |word: String| vec![word];
        split_in_two(self.index, word)
            .or_else(|| self.larger.and_then(|larger| split_in_two(larger, word)))
            .or_else(|| {
                self.larger
                    .and_then(|larger| nearest(larger, word, beside))
                    .map(one)
            })
            .or_else(|| nearest(self.index, word, beside).map(one))
    }
}

/// `meatloaf` as `meat loaf`: both halves known and long enough to mean something.
fn split_in_two(index: &Index<'_>, word: &str) -> Option<Vec<String>> {
    if !word.is_ascii() {
        return None;
    }
    (3..word.len().saturating_sub(2)).find_map(|at| {
        let (left, right) = word.split_at(at);
        let right = super::words::base_form(right);
        let known = |w: &str| index.word(w).is_some_and(|n| !index.postings(n).is_empty());
        (known(left) && known(&right)).then(|| vec![left.to_owned(), right])
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
/// (`peanut bittle`). Ties go to the word in more names, then to the alphabet.
fn nearest(index: &Index<'_>, word: &str, beside: &[String]) -> Option<String> {
    let allowed = if word.len() >= 7 { 2.0 } else { 1.0 };
    let mut list: Vec<(f32, u8, &str)> = index
        .near(word)
        .into_iter()
        .map(|number| {
            let other = index.word_text(number);
            (slips(word, other), index.row(number).uses, other)
        })
        .filter(|(slips, uses, other)| {
            // Short words have many neighbours: only a common word is taken for what was meant.
            *slips <= allowed && *other != word && (word.len() >= SURE_LENGTH || *uses >= COMMON)
        })
        .collect();
    let nearer = |a: &(f32, u8, &str), b: &(f32, u8, &str)| {
        a.0.total_cmp(&b.0).then(b.1.cmp(&a.1)).then(a.2.cmp(b.2))
    };
    list.sort_unstable_by(nearer);
    list.truncate(NEIGHBOURS);
    if list.len() > 1 {
        let hashes: Vec<u32> = list.iter().map(|(_, _, w)| hash(w.as_bytes())).collect();
        let others: Vec<u32> = beside
            .iter()
            .filter(|other| *other != word)
            .map(|other| hash(other.as_bytes()))
            .collect();
        let together = index.together(&hashes, &others);
        for (row, together) in list.iter_mut().zip(together) {
            row.0 -= if together { TOGETHER } else { 0.0 };
        }
        list.sort_unstable_by(nearer);
    }
    list.first().map(|(_, _, word)| (*word).to_owned())
}

/// Slips between two spellings: transpositions count once; a doubled letter and a key
/// beside the right one count less, a different first letter more.
fn slips(written: &str, meant: &str) -> f32 {
    let mut slips = strsim::osa_distance(written, meant) as f32;
    if written.bytes().next() != meant.bytes().next() {
        slips += 0.5;
    }
    if undoubled(written) == undoubled(meant) {
        slips -= 0.5;
    } else if written.len() == meant.len() && neighbours(written, meant) {
        slips -= 0.3;
    }
    slips
}

fn undoubled(word: &str) -> String {
    let mut last = ' ';
    word.chars()
        .filter(|c| std::mem::replace(&mut last, *c) != *c)
        .collect()
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
