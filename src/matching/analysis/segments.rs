//! The parts of a name between commas and brackets: spelling mended, names turned round put
//! in order.
//!
//! This file is also compiled into the build script.

use super::super::knowledge::{Class, Fact, Knowledge};
use super::speller::Speller;
use crate::words::words;

/// The parts of a name between commas and brackets.
pub(crate) type Segments = Vec<(Vec<String>, bool)>;

/// The words of each part between commas and brackets, and whether it stood in brackets; and
/// whether any spelling was mended. It is outside brackets only: inside stand brands and
/// remarks.
#[must_use]
pub(crate) fn segments(
    text: &str,
    speller: &dyn Speller,
    knowledge: &Knowledge<'_>,
) -> (Segments, bool) {
    let mut list = Vec::new();
    let mut mended = false;
    let mut depth = 0_u32;
    let apart = negated_apart(text);
    let mut rest = apart.as_deref().unwrap_or(text);
    let bounds = [',', ';', '(', ')', ':', '\u{2014}', '\u{2013}', '+'];
    loop {
        let end = rest.find(bounds).unwrap_or(rest.len());
        let plain = words(&rest[..end]);
        let aside = depth > 0;
        if !plain.is_empty() && !aside {
            let words = mend_words(&plain, speller, knowledge);
            mended |= words != plain;
            list.push((words, aside));
        } else if !plain.is_empty() {
            list.push((plain, aside));
        }
        let mut letters = rest[end..].chars();
        match letters.next() {
            None => return (list, mended),
            Some('(') => depth += 1,
            Some(')') => depth = depth.saturating_sub(1),
            Some(_) => {}
        }
        rest = letters.as_str();
    }
}

/// `no-added-fat broccoli` as `broccoli, no added fat`: what a compound excludes ends with the
/// compound. `None` where there is none.
fn negated_apart(text: &str) -> Option<String> {
    let starts = |word: &&str| {
        word.len() > 5
            && word
                .get(..3)
                .is_some_and(|head| head.eq_ignore_ascii_case("no-"))
    };
    if !text.contains('-') {
        return None;
    }
    let compound = text.split_whitespace().find(starts)?;
    let (before, behind) = text.split_once(compound)?;
    let compound = compound.trim_end_matches(|letter: char| !letter.is_alphanumeric());
    let others = [before.trim(), behind.trim()].join(" ");
    let names = others.chars().any(char::is_alphabetic);
    names.then(|| format!("{}, {}", others.trim(), compound.replace('-', " ")))
}

/// Repairs unknown words: two that belong together, one that is two, a misspelt one.
/// Words of a known phrase stand as they are.
fn mend_words(list: &[String], speller: &dyn Speller, knowledge: &Knowledge<'_>) -> Vec<String> {
    let known = |word: &str| speller.knows(word) || knowledge.fact(word).is_some();
    let mut mended: Vec<String> = Vec::with_capacity(list.len());
    let mut at = 0;
    while at < list.len() {
        let word = &list[at];
        if known(word) || word.chars().any(|c| c.is_ascii_digit()) {
            mended.push(word.clone());
        } else if let Some((length, _)) = knowledge.longest(&list[at..], |_| true) {
            mended.extend_from_slice(&list[at..at + length]);
            at += length - 1;
        } else if let Some(next) = list.get(at + 1)
            && known(&format!("{word}{next}"))
        {
            mended.push(format!("{word}{next}"));
            at += 1;
        } else if let Some(pair) = closed_up(word, knowledge) {
            mended.extend(pair);
        } else if let Some(meant) = speller.mend(word, &[&mended, &list[at + 1..]].concat()) {
            mended.extend(meant);
        } else {
            mended.push(word.clone());
        }
        at += 1;
    }
    mended
}

/// Fewest letters of each half of a phrase written without its space.
const SHORTEST_HALF: usize = 3;

/// The two words of a known phrase that is written as one (`candyfloss`).
fn closed_up(word: &str, knowledge: &Knowledge<'_>) -> Option<[String; 2]> {
    if !word.is_ascii() {
        return None;
    }
    (SHORTEST_HALF..=word.len().saturating_sub(SHORTEST_HALF)).find_map(|at| {
        let (left, right) = word.split_at(at);
        knowledge.fact(&format!("{left} {right}"))?;
        Some([left.to_owned(), right.to_owned()])
    })
}

/// Segments behind the first that may hold its first word.
const TURNED_WITHIN: usize = 3;

/// Food tables turn names round (`egg, white`; `beans, snap`): where a segment is one word
/// and a later one makes a known phrase with it, the two are put together. Words for whole
/// classes of foods (`beverages, tea, green`) may stand before.
pub(super) fn turn_round(segments: &mut Segments, knowledge: &Knowledge<'_>) {
    let class = |word: &String| {
        knowledge
            .fact(word)
            .map_or(Class::Food, |f| Class::from_number(f.class))
    };
    let says_little = |(segment, _): &(Vec<String>, bool)| {
        segment
            .iter()
            .all(|word| matches!(class(word), Class::Faint | Class::Neutral | Class::State))
    };
    let first = segments
        .iter()
        .position(|segment| !says_little(segment))
        .unwrap_or(0);
    if turn_to(first, segments, knowledge) {
        turn_round(segments, knowledge);
        return;
    }
    turn_the_second(first, segments, knowledge);
    narrow_down(first, segments, knowledge);
}

/// What it is may stand behind what sort of food it is: `fish, roughy, orange`.
fn turn_the_second(first: usize, segments: &mut Segments, knowledge: &Knowledge<'_>) {
    if let Some([(sort, false), (noun, false), (word, false)]) = segments.get_mut(first..first + 3)
        && let ([_], [_], [_]) = (sort.as_slice(), noun.as_slice(), word.as_slice())
    {
        let phrase = [word[0].clone(), noun[0].clone()];
        let sort = sort[0].clone();
        if knowledge.is_below(&phrase.join(" "), &sort) {
            *noun = phrase.to_vec();
            segments.remove(first + 2);
        }
    }
}

/// Puts a segment and a word of a later one together, where they make a phrase.
fn turn_to(noun: usize, segments: &mut Segments, knowledge: &Knowledge<'_>) -> bool {
    let Some((words, false)) = segments.get(noun) else {
        return false;
    };
    if words.len() > 2 {
        return false;
    }
    for at in noun + 1..segments.len().min(noun + 1 + TURNED_WITHIN) {
        let (segment, aside) = &segments[at];
        if let Some((phrase, rest)) = turned(words, segment, knowledge).filter(|_| !aside) {
            segments[noun].0 = phrase;
            segments[at].0 = rest;
            segments.retain(|(segment, _)| !segment.is_empty());
            return true;
        }
    }
    false
}

/// A word that says which of a compound's sort is meant (`squash, winter, acorn`) is told as a
/// compound of its own (`winter squash, acorn squash`).
fn narrow_down(first: usize, segments: &mut Segments, knowledge: &Knowledge<'_>) {
    let Some((words, false)) = segments.get(first) else {
        return;
    };
    let [_, noun] = words.as_slice() else {
        return;
    };
    if knowledge.kind_of_words(words).is_none() {
        return;
    }
    let noun = noun.clone();
    for (segment, aside) in segments.iter_mut().skip(first + 1).take(TURNED_WITHIN) {
        if let ([word], false) = (segment.as_slice(), *aside)
            && knowledge
                .kind_of_words(&[word.clone(), noun.clone()])
                .is_some()
        {
            segment.push(noun);
            return;
        }
    }
}

/// The phrase that `noun` makes with words of a segment, and the words left over.
fn turned(
    noun: &[String],
    segment: &[String],
    knowledge: &Knowledge<'_>,
) -> Option<(Vec<String>, Vec<String>)> {
    // What a segment excludes is no part of the name (`burger, no cheese`).
    let excludes = |word: &String| {
        let fact = knowledge.fact(word).unwrap_or_default();
        Class::from_number(fact.class) == Class::Negator
    };
    if segment.iter().any(excludes) {
        return None;
    }
    // A meaning longer than the phrase says more than a table means by its order.
    let short = |means: &str, phrase: &[&str]| means.split(' ').count() <= phrase.len();
    let whole = |phrase: &[&str]| {
        let known = |fact: Fact| {
            knowledge
                .means(fact)
                .is_some_and(|means| short(means, phrase))
                || knowledge.kind_of(fact).is_some()
        };
        knowledge
            .longest(phrase, known)
            .is_some_and(|(length, _)| length == phrase.len())
    };
    let phrase_at = |at: usize| {
        let known = |fact| knowledge.means(fact).is_some() || knowledge.kind_of(fact).is_some();
        knowledge.longest(&segment[at..], known)
    };
    for start in 0..segment.len() {
        // Words that make a food of their own (`corn grits`) are not torn apart.
        let together = phrase_at(start).map_or(1, |(length, _)| length);
        for end in (start + together..=segment.len()).rev() {
            if end - start + noun.len() > 4 {
                continue;
            }
            let phrase: Vec<&str> = segment[start..end]
                .iter()
                .chain(noun)
                .map(String::as_str)
                .collect();
            if whole(&phrase) {
                let phrase = phrase.into_iter().map(str::to_owned).collect();
                let mut rest = segment[..start].to_vec();
                rest.extend_from_slice(&segment[end..]);
                return Some((phrase, rest));
            }
        }
    }
    let (first, rest) = segment.split_first()?;
    let phrase: Vec<&str> = noun.iter().chain([first]).map(String::as_str).collect();
    whole(&phrase).then(|| {
        let phrase = phrase.into_iter().map(str::to_owned).collect();
        (phrase, rest.to_vec())
    })
}
