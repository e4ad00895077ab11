//! A food's name taken apart: which words name the food, which say its state, which are
//! excluded, which is the head.
//!
//! This file is also compiled into the build script: names in the index and words in a
//! query go through the very same steps.

mod phrases;
mod segments;
mod speller;

pub(crate) use segments::{Segments, segments};
pub(crate) use speller::{AsWritten, Speller};

use super::knowledge::{Class, HIGHEST, Knowledge};
use phrases::{compounds, reword};
use segments::turn_round;

/// One word of a name, classified.
// Each flag is a plain fact about the word, independent of the others.
#[allow(clippy::struct_excessive_bools)]
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Term {
    /// The base form, after synonyms and spelling.
    pub word: String,
    /// Number of the word in the knowledge; `None` where nothing is known of it.
    pub phrase: Option<u32>,
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
    /// The word stands in brackets: a remark, not the name.
    pub aside: bool,
    /// Parts between commas that stand between the head and this word, at most 3.
    pub behind: u8,
}

/// Takes a name apart. Terms come in the order written; joiners and negators are gone.
#[must_use]
pub(crate) fn analyse(text: &str, knowledge: &Knowledge<'_>, speller: &dyn Speller) -> Vec<Term> {
    analyse_segments(segments(text, speller, knowledge).0, knowledge)
}

/// Takes a name apart whose parts are known.
#[must_use]
pub(crate) fn analyse_segments(mut segments: Segments, knowledge: &Knowledge<'_>) -> Vec<Term> {
    turn_round(&mut segments, knowledge);
    let mut terms: Vec<Term> = Vec::new();
    let mut head_found = false;
    let mut behind = 0;
    for (segment, aside) in segments {
        let start = terms.len();
        let said = compounds(&reword(&segment, knowledge), knowledge);
        classify(&said, knowledge, &mut terms);
        behind += u8::from(head_found && behind < FARTHEST && terms.len() > start);
        for term in &mut terms[start..] {
            (term.aside, term.behind) = (aside, behind);
        }
        if !head_found && !aside {
            head_found = mark_head(&mut terms[start..]);
        }
    }
    if !head_found && let Some(last) = terms.iter_mut().rfind(|t| !t.negated) {
        last.head = true;
    }
    hand_on_head(&mut terms, knowledge);
    hand_on_to_sibling(&mut terms, knowledge);
    terms
}

/// In the next part another kind of the same sort says more exactly what is meant (`fish, pike,
/// walleye`): the head goes to it, and the one before becomes a word for a class of foods.
fn hand_on_to_sibling(terms: &mut [Term], knowledge: &Knowledge<'_>) {
    let Some(head) = terms.iter().position(|t| t.head) else {
        return;
    };
    let Some(sort) = knowledge.above(terms[head].phrase).next() else {
        return;
    };
    // A sort that nobody speaks of (meat, of bologna and of beef) says nothing.
    let word = knowledge.phrase_text(sort);
    let spoken = terms[head].word.split(' ').any(|part| part == word);
    if !spoken && terms.iter().all(|t| t.phrase != Some(sort)) {
        return;
    }
    let part = terms[head].behind + 1;
    let mut next = terms.iter().enumerate().filter(|(_, t)| t.behind == part);
    let Some((at, sibling)) = next.next() else {
        return;
    };
    let alone = next.all(|(_, t)| !t.class.names_food());
    let names = sibling.class.names_food() && sibling.class != Class::Cut;
    let apart = sibling.negated || sibling.secondary || sibling.aside;
    if alone && names && !apart && knowledge.above(sibling.phrase).next() == Some(sort) {
        (terms[head].head, terms[head].class) = (false, Class::Faint);
        terms[at].head = true;
        for term in terms.iter_mut() {
            term.behind = term.behind.saturating_sub(part);
        }
    }
}

/// The head goes to a word that says it more exactly, and on from there (`fish, salmon,
/// sockeye`).
fn hand_on_head(terms: &mut [Term], knowledge: &Knowledge<'_>) {
    for _ in 0..HIGHEST {
        let Some(head) = terms.iter().position(|t| t.head) else {
            return;
        };
        let exact = terms.iter().position(|t| {
            t.class.names_food()
                && t.class != Class::Cut
                && !(t.negated || t.secondary || t.aside)
                && knowledge
                    .above(t.phrase)
                    .any(|word| Some(word) == terms[head].phrase)
        });
        let Some(exact) = exact else {
            return;
        };
        terms[head].head = false;
        terms[exact].head = true;
        let behind = terms[exact].behind;
        // Distances count from the new head.
        for term in terms.iter_mut() {
            term.behind = term.behind.saturating_sub(behind);
        }
    }
}

/// Parts behind the head that are told apart.
const FARTHEST: u8 = 3;

/// Joiners behind which stands what comes along.
const COMES_ALONG: [&str; 9] = [
    "with",
    "in",
    "on",
    "over",
    "topped",
    "include",
    "including",
    "contain",
    "containing",
];

/// Classifies words one by one, working out what is excluded and what comes along.
fn classify(list: &[String], knowledge: &Knowledge<'_>, terms: &mut Vec<Term>) {
    let start = terms.len();
    let mut negating = false;
    let mut secondary = false;
    // First term of the group that `and` joins: `skin and coating removed`.
    let mut group = start;
    let mut joined = false;
    for (at, word) in list.iter().enumerate() {
        let phrase = knowledge.phrase(word);
        let fact = phrase.and_then(|phrase| knowledge.fact_of(phrase));
        let fact = fact.unwrap_or_default();
        match Class::from_number(fact.class) {
            // `removed`, `free`: excludes what stands before it.
            Class::Negator if fact.dimension != 0 => {
                negate_before(&mut terms[start..], group - start);
            }
            Class::Negator => negating = true,
            Class::Joiner => {
                let along = COMES_ALONG.contains(&word.as_str());
                // What a name begins with (`on the side`) brings nothing along.
                secondary |= along && (terms.len() > start || at == 0 && start > 0);
                joined = matches!(word.as_str(), "and" | "or");
                if !joined {
                    negating = false;
                }
            }
            class => {
                if class.names_food() && !std::mem::take(&mut joined) {
                    group = terms.len();
                }
                terms.push(Term {
                    word: word.clone(),
                    phrase,
                    class,
                    state: (fact.dimension, fact.value),
                    negated: negating,
                    secondary,
                    head: false,
                    aside: false,
                    behind: 0,
                });
            }
        }
    }
}

/// Excludes the last food word, and those that `and` joins to it from `group` on.
fn negate_before(terms: &mut [Term], group: usize) {
    let group = group.min(terms.len());
    let foods = terms[group..].iter_mut().filter(|t| t.class.names_food());
    let mut any = false;
    for term in foods {
        term.negated = true;
        any = true;
    }
    if !any && let Some(term) = terms.iter_mut().rev().find(|t| t.class.names_food()) {
        term.negated = true;
    }
}

/// Says that the word before it is a flavour: `iced tea raspberry flavored`.
const FLAVOURED: &str = "flavored";

/// The head is the last food word before `with` that is not excluded; a cut is a head only
/// where nothing else is, and so is a flavour.
fn mark_head(terms: &mut [Term]) -> bool {
    let flavour = |at: usize| terms.get(at + 1).is_some_and(|t| t.word == FLAVOURED);
    let can_head = |at: &usize| {
        let t = &terms[*at];
        t.class.names_food() && !t.secondary && !t.negated
    };
    let head = (0..terms.len())
        .filter(can_head)
        .max_by_key(|at| (!flavour(*at), terms[*at].class != Class::Cut, *at));
    if let Some(at) = head {
        terms[at].head = true;
    }
    head.is_some()
}

/// The terms as one key: what two names share when they say the same in the same order.
/// Words that say nothing are left out.
#[must_use]
pub(crate) fn key(terms: &[Term]) -> String {
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
