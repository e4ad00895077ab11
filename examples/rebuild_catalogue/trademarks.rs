//! Names that belong to somebody, kept as hashes alone: neither tables nor texts of ours name
//! a maker's product.

use std::collections::HashSet;

/// Most words of such a name.
const MOST_WORDS: usize = 4;

/// Words of a text: letters and digits, apostrophes dropped, a possessive apart.
fn words(text: &str) -> Vec<String> {
    let plain = text.to_lowercase().replace('\u{2019}', "'");
    let plain = plain.replace("'s ", "s ").replace('\'', "");
    let words = plain.split(|c: char| !c.is_ascii_alphanumeric());
    words.filter(|w| !w.is_empty()).map(str::to_owned).collect()
}

/// FNV-1a over 64 bits (G. Fowler, L. C. Noll, K.-P. Vo).
fn hash(text: &str) -> u64 {
    text.bytes().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    })
}

/// The hashes of a list, one a line.
pub fn read(list: &str) -> HashSet<u64> {
    let lines = list.lines().map(str::trim).filter(|l| !l.is_empty());
    lines
        .filter_map(|line| u64::from_str_radix(line, 16).ok())
        .collect()
}

/// The first words of a text that are such a name.
pub fn named(text: &str, names: &HashSet<u64>) -> Option<String> {
    let words = words(text);
    for from in 0..words.len() {
        for to in from + 1..=words.len().min(from + MOST_WORDS) {
            let some = words[from..to].join(" ");
            if names.contains(&hash(&some)) {
                return Some(some);
            }
        }
    }
    None
}
