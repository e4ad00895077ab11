//! The words of the frame of a sentence: what is said around the foods.

use crate::reading::number::Reader;
use std::collections::{HashMap, HashSet};
use std::sync::LazyLock;

/// What words of the frame say about what follows them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Says {
    /// A food follows: `treated myself to`, `consisted of`.
    Eating,
    /// Another food follows: `washed down with`.
    Joint,
    /// More of the same food follows, or another one when an amount does: `topped with`.
    With,
    /// The same food is told on: `that was`, `weighing`.
    Glue,
    /// Time, place, company and purpose follow, no food: `during`, `to start`.
    Tail,
}

/// A phrase and what it says.
type Phrase = (Vec<&'static str>, Says);

struct Table {
    /// Phrases by their first word, longest first.
    phrases: HashMap<&'static str, Vec<Phrase>>,
    /// Words of praise: they say nothing of a food, and are left out of its name.
    praise: HashSet<&'static str>,
    /// Words that alone are no food: times, meals, small words.
    frame: HashSet<&'static str>,
    /// Parts of a food: `crust`, `patty`.
    part: HashSet<&'static str>,
}

/// Everyday English; no facts about food.
const TEXT: &str = include_str!("../tables/told_words.csv");

static TABLE: LazyLock<Table> = LazyLock::new(|| {
    let mut table = Table {
        phrases: HashMap::new(),
        praise: HashSet::new(),
        frame: HashSet::new(),
        part: HashSet::new(),
    };
    for line in TEXT.lines().skip(1) {
        let Some((words, class)) = line.rsplit_once(',') else {
            continue;
        };
        let says = match class {
            "eating" => Says::Eating,
            "joint" => Says::Joint,
            "with" => Says::With,
            "glue" => Says::Glue,
            "tail" => Says::Tail,
            "praise" => {
                table.praise.insert(words);
                continue;
            }
            "part" => {
                table.part.insert(words);
                continue;
            }
            _ => {
                table.frame.insert(words);
                continue;
            }
        };
        let phrase: Vec<&str> = words.split(' ').collect();
        table
            .phrases
            .entry(phrase[0])
            .or_default()
            .push((phrase, says));
    }
    for list in table.phrases.values_mut() {
        list.sort_by_key(|(phrase, _)| std::cmp::Reverse(phrase.len()));
    }
    table
});

/// The word at `at` in lower case, with a plain apostrophe.
pub(super) fn plain(reader: &Reader<'_>, at: usize) -> Option<String> {
    let word = reader.word(at)?;
    Some(word.to_lowercase().replace('\u{2019}', "'"))
}

/// The longest phrase of the frame that begins at `at`: what it says and the position after
/// it. Hyphens between its words count as spaces.
pub(super) fn phrase_at(
    reader: &Reader<'_>,
    words: &[Option<String>],
    at: usize,
) -> Option<(Says, usize)> {
    let first = words.get(at)?.as_deref()?;
    let list = TABLE.phrases.get(first)?;
    list.iter()
        .find_map(|(phrase, says)| end_of(reader, words, at, phrase).map(|next| (*says, next)))
}

/// The position after `phrase`, if it stands at `at`.
fn end_of(
    reader: &Reader<'_>,
    words: &[Option<String>],
    at: usize,
    phrase: &[&str],
) -> Option<usize> {
    let mut next = at;
    for (index, word) in phrase.iter().enumerate() {
        if index > 0 && reader.is_hyphen(next) {
            next += 1;
        }
        if words.get(next)?.as_deref()? != *word {
            return None;
        }
        next += 1;
    }
    Some(next)
}

/// The position after the words of praise at `at`, if some stand there.
pub(super) fn praise_at(reader: &Reader<'_>, words: &[Option<String>], at: usize) -> Option<usize> {
    let first = words.get(at)?.as_deref()?;
    let joint = at + 1 + usize::from(reader.is_hyphen(at + 1));
    let second = words.get(joint).and_then(Option::as_deref);
    if let Some(second) = second
        && TABLE.praise.contains(format!("{first} {second}").as_str())
    {
        return Some(joint + 1);
    }
    TABLE.praise.contains(first).then_some(at + 1)
}

/// Whether a word alone is no food.
pub(super) fn is_frame(word: &str) -> bool {
    TABLE.frame.contains(word) || TABLE.praise.contains(word)
}

/// Whether a word names a part of a food rather than a food of its own.
pub(super) fn is_part(word: &str) -> bool {
    TABLE.part.contains(word)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_reads_whole_and_no_phrase_stands_twice() {
        let mut seen = HashSet::new();
        for line in TEXT.lines().skip(1) {
            let (words, class) = line.rsplit_once(',').expect("two cells");
            assert!(
                matches!(
                    class,
                    "eating" | "joint" | "with" | "glue" | "tail" | "praise" | "frame" | "part"
                ),
                "{line}"
            );
            let sort = match class {
                "praise" | "frame" => 1,
                "part" => 2,
                _ => 0,
            };
            assert!(seen.insert((words, sort)), "{line}");
            assert_eq!(words, words.to_lowercase());
        }
    }
}
