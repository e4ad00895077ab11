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
    /// What the food before lacks follows: `excluding`, `I skipped`.
    Lacking,
}

/// What a word by itself is in a sentence.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) enum Class {
    /// Praise: says nothing of a food, and is left out of its name.
    Praise,
    /// Alone no food: times, meals, small words.
    Frame,
    /// A part of a food: `crust`, `patty`.
    Part,
    /// A verb of eating that also describes: `added`, `prepared`.
    Ambiguous,
    /// Stands before such a verb where somebody did it.
    Doer,
    /// Stands for an amount of a part rather than of a food: `some`.
    Vague,
    /// Joins a food to what it lies on or in.
    Under,
    /// Says nothing at the end of a food.
    Idle,
    /// May end a verb: `nibbled on`.
    VerbEnd,
    /// Says no more than an article.
    Article,
    /// Stands before the parts of a food.
    BeforeParts,
    /// Begins a phrase that comes to `with`.
    PlainWith,
    /// Ends a phrase that says what a dish holds: `which included`.
    Holds,
    /// What foods on one plate make: `meal`, `combination`.
    Meal,
    /// A sort of food that says nothing of what is in it: `sandwich`.
    Sort,
    /// What is praised about a food, and no food: `flavor`, `crunch`.
    Quality,
    /// Begins what a food is made of: `made with`.
    MadeOf,
}

/// A phrase and what it says.
type Phrase = (Vec<&'static str>, Says);

struct Table {
    /// Phrases by their first word, longest first.
    phrases: HashMap<&'static str, Vec<Phrase>>,
    /// Words by what they are.
    classes: HashMap<Class, HashSet<&'static str>>,
}

/// Everyday English; no facts about food.
const TEXT: &str = include_str!("../tables/told_words.csv");

static TABLE: LazyLock<Table> = LazyLock::new(|| {
    let mut table = Table {
        phrases: HashMap::new(),
        classes: HashMap::new(),
    };
    for line in TEXT.lines().skip(1) {
        let Some((words, name)) = line.rsplit_once(',') else {
            continue;
        };
        if let Some(class) = class(name) {
            table.classes.entry(class).or_default().insert(words);
        } else if let Some(says) = says(name) {
            let phrase: Vec<&str> = words.split(' ').collect();
            let list = table.phrases.entry(phrase[0]).or_default();
            list.push((phrase, says));
        }
    }
    for list in table.phrases.values_mut() {
        list.sort_by_key(|(phrase, _)| std::cmp::Reverse(phrase.len()));
    }
    table
});

/// What a phrase says, by its name in the table.
fn says(name: &str) -> Option<Says> {
    Some(match name {
        "eating" => Says::Eating,
        "joint" => Says::Joint,
        "with" => Says::With,
        "glue" => Says::Glue,
        "tail" => Says::Tail,
        "lacking" => Says::Lacking,
        _ => return None,
    })
}

/// What a word is, by its name in the table.
fn class(name: &str) -> Option<Class> {
    Some(match name {
        "praise" => Class::Praise,
        "frame" => Class::Frame,
        "part" => Class::Part,
        "ambiguous" => Class::Ambiguous,
        "doer" => Class::Doer,
        "vague" => Class::Vague,
        "under" => Class::Under,
        "idle" => Class::Idle,
        "verb end" => Class::VerbEnd,
        "article" => Class::Article,
        "before parts" => Class::BeforeParts,
        "plain with" => Class::PlainWith,
        "holds" => Class::Holds,
        "meal" => Class::Meal,
        "sort" => Class::Sort,
        "quality" => Class::Quality,
        "made of" => Class::MadeOf,
        _ => return None,
    })
}

/// Whether a word is of a class.
pub(super) fn in_class(class: Class, word: &str) -> bool {
    let list = TABLE.classes.get(&class);
    list.is_some_and(|list| list.contains(word))
}

/// Whether the word at `at` is of a class.
pub(super) fn is_in(class: Class, words: &[Option<String>], at: usize) -> bool {
    let word = words.get(at).and_then(Option::as_deref);
    word.is_some_and(|word| in_class(class, word))
}

/// All words in lower case; `None` for what is no word.
pub(super) fn plain_words(reader: &Reader<'_>) -> Vec<Option<String>> {
    (0..reader.tokens.len())
        .map(|at| plain(reader, at))
        .collect()
}

/// The word at `at` in lower case, with a plain apostrophe.
fn plain(reader: &Reader<'_>, at: usize) -> Option<String> {
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
        && in_class(Class::Praise, &format!("{first} {second}"))
    {
        return Some(joint + 1);
    }
    // `single-serving` is no praise of a serving, `generous-sized` is.
    let compound = joint > at + 1 && second.is_some_and(|second| !is_frame(second));
    (!compound && in_class(Class::Praise, first)).then_some(at + 1)
}

/// Whether a word alone is no food.
pub(super) fn is_frame(word: &str) -> bool {
    in_class(Class::Frame, word) || in_class(Class::Praise, word)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_reads_whole_and_no_phrase_stands_twice() {
        let mut seen = HashSet::new();
        for line in TEXT.lines().skip(1) {
            let (words, name) = line.rsplit_once(',').expect("two cells");
            let sort = match (says(name), class(name)) {
                (Some(_), None) => None,
                (None, Some(Class::Frame)) => Some(Class::Praise),
                (None, Some(class)) => Some(class),
                _ => panic!("{line}"),
            };
            assert!(seen.insert((words, sort)), "{line}");
            assert_eq!(words, words.to_lowercase());
        }
    }
}
