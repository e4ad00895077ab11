//! A food's name taken apart: which words name the food, which say its state, which are
//! excluded, which is the head.
//!
//! This file is also compiled into the build script: names in the index and words in a
//! query go through the very same steps.

use super::knowledge::{Class, Fact, HIGHEST, Knowledge};
use super::words::words;

/// One word of a name, classified.
// Each flag is a plain fact about the word, independent of the others.
#[allow(clippy::struct_excessive_bools)]
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Term {
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

/// How single words are looked up and mended before anything else.
pub trait Speller {
    /// Whether the word is known as it stands.
    fn knows(&self, word: &str) -> bool;
    /// The word or words meant by an unknown one that stands beside others.
    fn mend(&self, word: &str, beside: &[String]) -> Option<Vec<String>>;
}

/// Takes every word as it stands.
#[derive(Debug, Clone, Copy)]
pub struct AsWritten;

impl Speller for AsWritten {
    fn knows(&self, _: &str) -> bool {
        true
    }
    fn mend(&self, _: &str, _: &[String]) -> Option<Vec<String>> {
        None
    }
}

/// Takes a name apart. Terms come in the order written; joiners and negators are gone.
#[must_use]
pub fn analyse(text: &str, knowledge: &Knowledge<'_>, speller: &dyn Speller) -> Vec<Term> {
    analyse_segments(segments(text, speller, knowledge), knowledge)
}

/// The parts of a name between commas and brackets.
pub type Segments = Vec<(Vec<String>, bool)>;

/// Takes a name apart whose parts are known.
#[must_use]
pub fn analyse_segments(mut segments: Segments, knowledge: &Knowledge<'_>) -> Vec<Term> {
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
    terms
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

/// The words of each part between commas and brackets, and whether it stood in brackets.
/// Spelling is mended outside brackets only: inside stand brands and remarks.
#[must_use]
pub fn segments(text: &str, speller: &dyn Speller, knowledge: &Knowledge<'_>) -> Segments {
    let mut list = Vec::new();
    let mut depth = 0_u32;
    let mut rest = text;
    let bounds = [',', ';', '(', ')', ':', '\u{2014}', '\u{2013}', '+'];
    loop {
        let end = rest.find(bounds).unwrap_or(rest.len());
        let plain = words(&rest[..end]);
        let aside = depth > 0;
        if !plain.is_empty() {
            list.push((
                if aside {
                    plain
                } else {
                    mend_words(&plain, speller, knowledge)
                },
                aside,
            ));
        }
        let mut letters = rest[end..].chars();
        match letters.next() {
            None => return list,
            Some('(') => depth += 1,
            Some(')') => depth = depth.saturating_sub(1),
            Some(_) => {}
        }
        rest = letters.as_str();
    }
}

/// Segments behind the first that may hold its first word.
const TURNED_WITHIN: usize = 3;

/// Food tables turn names round (`egg, white`; `beans, snap`): where a segment is one word
/// and a later one makes a known phrase with it, the two are put together. Words for whole
/// classes of foods (`beverages, tea, green`) may stand before.
fn turn_round(segments: &mut Segments, knowledge: &Knowledge<'_>) {
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
    let Some((segment, false)) = segments.get(first) else {
        return;
    };
    if segment.len() > 2 {
        return;
    }
    let noun = segment.clone();
    for at in first + 1..segments.len().min(first + 1 + TURNED_WITHIN) {
        let (segment, aside) = &segments[at];
        if let Some((phrase, rest)) = turned(&noun, segment, knowledge).filter(|_| !aside) {
            segments[first].0 = phrase;
            segments[at].0 = rest;
            segments.retain(|(segment, _)| !segment.is_empty());
            turn_round(segments, knowledge);
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
        } else if let Some(meant) = speller.mend(word, &[&mended, &list[at + 1..]].concat()) {
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
        let hit = knowledge.longest(&list[at..], |fact| knowledge.means(fact).is_some());
        if let Some((length, meaning)) =
            hit.and_then(|(length, fact)| Some((length, knowledge.means(fact)?)))
        {
            out.extend(meaning.split(' ').map(str::to_owned));
            at += length;
        } else {
            out.push(list[at].clone());
            at += 1;
        }
    }
    out
}

/// Words between the two of a compound (`white long-grain rice`).
const WIDEST_GAP: usize = 3;

/// Joins words that name one food together (`sweet potato`, `sour cream`), so that neither
/// half is mistaken for a food of its own.
fn compounds(list: &[String], knowledge: &Knowledge<'_>) -> Vec<String> {
    let is_kind = |fact: Fact| knowledge.kind_of(fact).is_some();
    let mut out: Vec<String> = Vec::with_capacity(list.len());
    let mut at = 0;
    while at < list.len() {
        match knowledge.longest(&list[at..], is_kind) {
            Some((length, _)) if length > 1 => {
                out.push(list[at..at + length].join(" "));
                at += length;
                continue;
            }
            _ => {}
        }
        if let Some(noun) = shared_noun(&list[at..], knowledge) {
            out.push(format!("{} {noun}", list[at]));
            at += 1;
            continue;
        }
        match over_a_gap(&out, &list[at], knowledge) {
            Some(before) => out[before] = format!("{} {}", out[before], list[at]),
            None => out.push(list[at].clone()),
        }
        at += 1;
    }
    out
}

/// The noun that the first word shares with one behind `or` or `and` (`american or cheddar
/// cheese`), where the two are a compound.
fn shared_noun<'l>(list: &'l [String], knowledge: &Knowledge<'_>) -> Option<&'l str> {
    let (first, joiner, noun) = (list.first()?, list.get(1)?, list.get(3)?);
    if !matches!(joiner.as_str(), "or" | "and") {
        return None;
    }
    let compound = format!("{first} {noun}");
    let known = knowledge
        .fact(&compound)
        .is_some_and(|fact| knowledge.kind_of(fact).is_some());
    known.then_some(noun.as_str())
}

/// Where the first half of a compound stands whose second half is `word`, with only words
/// between that name no food.
fn over_a_gap(out: &[String], word: &str, knowledge: &Knowledge<'_>) -> Option<usize> {
    for back in 1..=WIDEST_GAP.min(out.len()) {
        let at = out.len() - back;
        if back > 1 && !out[at].contains(' ') {
            let pair = [out[at].as_str(), word];
            let hit = knowledge.longest(&pair, |fact| knowledge.kind_of(fact).is_some());
            if hit.is_some_and(|(length, _)| length == 2) {
                return Some(at);
            }
        }
        let class = knowledge
            .fact(&out[at])
            .map_or(Class::Food, |f| Class::from_number(f.class));
        if class.names_food() || matches!(class, Class::Joiner | Class::Negator) {
            return None;
        }
    }
    None
}

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

/// The head is the last food word before `with` that is not excluded; a cut is a head only
/// where nothing else is.
fn mark_head(terms: &mut [Term]) -> bool {
    let heads = |t: &&mut Term, cuts: bool| {
        t.class.names_food() && (t.class == Class::Cut) == cuts && !t.secondary && !t.negated
    };
    for cuts in [false, true] {
        if let Some(term) = terms.iter_mut().rev().find(|t| heads(t, cuts)) {
            term.head = true;
            return true;
        }
    }
    false
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
