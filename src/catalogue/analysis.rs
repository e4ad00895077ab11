//! A food's name taken apart: which words name the food, which say its state, which are
//! excluded, which is the head.
//!
//! This file is also compiled into the build script: names in the index and words in a
//! query go through the very same steps.

use super::knowledge::{Class, Knowledge, LONGEST_PHRASE};
use super::words::words;

/// One word of a name, classified.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Term {
    /// The base form, after synonyms and spelling.
    pub word: String,
    /// What the word does.
    pub class: Class,
    /// Dimension and value of a state; zeros for none.
    pub state: (u8, u8),
    /// The word is excluded (`no mayo`, `skinless`).
    pub negated: bool,
    /// The word stands behind `with` or `in`: it belongs to what comes along.
    pub secondary: bool,
    /// The head noun.
    pub head: bool,
}

/// How single words are looked up and mended before anything else.
pub trait Speller {
    /// Whether the word is known as it stands.
    fn knows(&self, word: &str) -> bool;
    /// The word or words meant by an unknown one.
    fn mend(&self, word: &str) -> Option<Vec<String>>;
}

/// Takes every word as it stands.
#[derive(Debug, Clone, Copy)]
pub struct AsWritten;

impl Speller for AsWritten {
    fn knows(&self, _: &str) -> bool {
        true
    }
    fn mend(&self, _: &str) -> Option<Vec<String>> {
        None
    }
}

/// Takes a name apart. Terms come in the order written; joiners and negators are gone.
#[must_use]
pub fn analyse(text: &str, knowledge: &Knowledge<'_>, speller: &dyn Speller) -> Vec<Term> {
    let mut terms: Vec<Term> = Vec::new();
    let mut head_found = false;
    for segment in text.split([',', ';', '(', ')', ':', '\u{2014}', '\u{2013}', '+']) {
        let spelled = mend_words(&words(segment), speller, knowledge);
        let start = terms.len();
        classify(&reword(&spelled, knowledge), knowledge, &mut terms);
        if !head_found {
            head_found = mark_head(&mut terms[start..]);
        }
    }
    if !head_found && let Some(last) = terms.last_mut() {
        last.head = true;
    }
    terms
}

/// Repairs unknown words: two that belong together, one that is two, a misspelt one.
fn mend_words(list: &[String], speller: &dyn Speller, knowledge: &Knowledge<'_>) -> Vec<String> {
    let known = |word: &str| speller.knows(word) || knowledge.fact(word).is_some();
    let mut mended = Vec::with_capacity(list.len());
    let mut at = 0;
    while at < list.len() {
        let word = &list[at];
        if known(word) || word.chars().any(|c| c.is_ascii_digit()) {
            mended.push(word.clone());
        } else if let Some(next) = list.get(at + 1)
            && known(&format!("{word}{next}"))
        {
            mended.push(format!("{word}{next}"));
            at += 1;
        } else if let Some(meant) = speller.mend(word) {
            mended.extend(meant);
        } else {
            mended.push(word.clone());
        }
        at += 1;
    }
    mended
}

/// Replaces the longest phrases that have another name in the lexicon. What replaces
/// them is final: a meaning is never looked up again, so the lexicon cannot run in
/// circles.
fn reword(list: &[String], knowledge: &Knowledge<'_>) -> Vec<String> {
    let mut out = Vec::with_capacity(list.len());
    let mut at = 0;
    while at < list.len() {
        let longest = LONGEST_PHRASE.min(list.len() - at);
        let hit = (1..=longest).rev().find_map(|length| {
            let fact = knowledge.fact(&list[at..at + length].join(" "))?;
            Some((length, knowledge.means(fact)?))
        });
        if let Some((length, meaning)) = hit {
            out.extend(meaning.split(' ').map(str::to_owned));
            at += length;
        } else {
            out.push(list[at].clone());
            at += 1;
        }
    }
    out
}

/// Classifies words one by one, working out what is excluded and what comes along.
fn classify(list: &[String], knowledge: &Knowledge<'_>, terms: &mut Vec<Term>) {
    let start = terms.len();
    let mut negating = false;
    let mut secondary = false;
    for word in list {
        let fact = knowledge.fact(word).unwrap_or_default();
        match Class::from_number(fact.class) {
            // `removed`, `free`: excludes what stands before it.
            Class::Negator if fact.dimension != 0 => negate_before(&mut terms[start..]),
            Class::Negator => negating = true,
            Class::Joiner => {
                secondary |= matches!(word.as_str(), "with" | "in" | "on" | "over");
                if !matches!(word.as_str(), "and" | "or") {
                    negating = false;
                }
            }
            class => terms.push(Term {
                word: word.clone(),
                class,
                state: (fact.dimension, fact.value),
                negated: negating,
                secondary,
                head: false,
            }),
        }
    }
}

/// Parts of a food that people eat or leave.
#[must_use]
pub fn can_be_left(word: &str) -> bool {
    matches!(
        word,
        "skin" | "coating" | "breading" | "crust" | "rind" | "peel" | "bone"
    )
}

/// `skin and breading removed`: the last food word before it, and parts before that.
fn negate_before(terms: &mut [Term]) {
    let mut first = true;
    for term in terms.iter_mut().rev().filter(|t| t.class == Class::Food) {
        if !first && !can_be_left(&term.word) {
            break;
        }
        let part = can_be_left(&term.word);
        term.negated = true;
        first = false;
        if !part {
            break;
        }
    }
}

/// The head is the last food word before `with` that is not excluded.
fn mark_head(terms: &mut [Term]) -> bool {
    let head = terms
        .iter_mut()
        .rev()
        .find(|t| t.class == Class::Food && !t.secondary && !t.negated);
    match head {
        Some(term) => {
            term.head = true;
            true
        }
        None => false,
    }
}

/// The terms as one key: what two names share when they say the same in the same order.
/// Words that say nothing are left out.
#[must_use]
pub fn key(terms: &[Term]) -> String {
    let parts: Vec<String> = terms
        .iter()
        .filter(|t| t.class != Class::Neutral)
        .map(|t| {
            if t.negated {
                format!("!{}", t.word)
            } else {
                t.word.clone()
            }
        })
        .collect();
    parts.join(" ")
}
