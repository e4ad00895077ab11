//! Words that mean something together: phrases with another name, compounds.
//!
//! This file is also compiled into the build script.

use super::super::knowledge::{Class, Fact, Knowledge};

/// Replaces the longest phrases that have another name in the lexicon. What replaces
/// them is final: a meaning is never looked up again, so the lexicon cannot run in
/// circles.
pub(super) fn reword(list: &[String], knowledge: &Knowledge<'_>) -> Vec<String> {
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
pub(super) fn compounds(list: &[String], knowledge: &Knowledge<'_>) -> Vec<String> {
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
