//! Spelling: the dictionary word that a misspelt one means.

use super::analysis::Speller;
use super::index::Index;

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
        uses(self.index, word) > 0 || self.larger.is_some_and(|larger| uses(larger, word) > 0)
    }

    fn mend(&self, word: &str) -> Option<Vec<String>> {
        let one = |word: String| vec![word];
        split_in_two(self.index, word)
            .or_else(|| self.larger.and_then(|larger| split_in_two(larger, word)))
            .or_else(|| {
                self.larger
                    .and_then(|larger| nearest(larger, word))
                    .map(one)
            })
            .or_else(|| nearest(self.index, word).map(one))
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
        let right = super::words::base_form(right);
        let known = |w: &str| index.word(w).is_some_and(|n| !index.postings(n).is_empty());
        (known(left) && known(&right)).then(|| vec![left.to_owned(), right])
    })
}

/// Length from which a misspelt word has few neighbours.
const SURE_LENGTH: usize = 5;
/// Uses from which a word is common.
const COMMON_USES: usize = 4;

/// The dictionary word nearest to a misspelt one, within one slip (two from seven
/// letters on). Ties go to the word in more names, then to the alphabet.
fn nearest(index: &Index<'_>, word: &str) -> Option<String> {
    let allowed = if word.len() >= 7 { 2.0 } else { 1.0 };
    let mut best: Option<(f32, usize, String)> = None;
    for number in index.near(word) {
        let other = index.word_text(number);
        let slips = slips(word, other);
        if slips > allowed {
            continue;
        }
        let uses = index.postings(number).len() + index.below(number).len();
        if uses == 0 || other == word {
            continue;
        }
        // Short words have many neighbours: only a common word is taken for what was meant.
        if word.len() < SURE_LENGTH && uses < COMMON_USES {
            continue;
        }
        let better = best.as_ref().is_none_or(|(s, u, w)| {
            (slips, std::cmp::Reverse(uses), other) < (*s, std::cmp::Reverse(*u), w.as_str())
        });
        if better {
            best = Some((slips, uses, other.to_owned()));
        }
    }
    best.map(|(_, _, word)| word)
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
