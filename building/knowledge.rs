//! Putting what words mean into one block.

use super::states::{agreement, dimension_weight, unstated_credit};
use crate::foods::blob::{Arena, Place, Writer};
use crate::matching::knowledge::{Class, Fact, LONGEST_PHRASE, Phrase, State};
use crate::matching::slots::{hash, lay_out};
use crate::words::words;
use std::collections::BTreeMap;

/// One row of `word_classes.csv`: word, class, dimension, value.
pub(crate) type ClassRow = [String; 4];
/// One row of `kinds.csv` (word, broader word) or of `lexicon.csv` (phrase, meaning).
pub(crate) type PairRow = [String; 2];

/// The first columns of a table, as many as a row has.
pub(crate) fn table_rows<const N: usize>(text: &str) -> Result<Vec<[String; N]>, String> {
    let mut list = Vec::new();
    for record in csv::Reader::from_reader(text.as_bytes()).records() {
        let record = record.map_err(|e| e.to_string())?;
        list.push(std::array::from_fn(|i| record[i].trim().to_owned()));
    }
    Ok(list)
}

/// Puts the three tables into one block. Fails on an unknown class name or a phrase
/// stated twice with different meanings.
pub(crate) fn build(
    classes: &[ClassRow],
    kinds: &[PairRow],
    lexicon: &[PairRow],
) -> Result<Vec<u8>, String> {
    let mut arena = Arena::default();
    let mut facts: BTreeMap<String, Fact> = BTreeMap::new();
    let mut states = StateNumbers::default();
    for [word, class, dimension, value] in classes {
        let key = words(word).join(" ");
        let fact = facts.entry(key).or_default();
        fact.class = class_of(class).ok_or_else(|| format!("`{word}`: no class `{class}`"))? as u8;
        fact.classed = 1;
        if !dimension.is_empty() {
            (fact.dimension, fact.value) = states.number(dimension, value);
        }
    }
    let mut broader: BTreeMap<String, String> = BTreeMap::new();
    for [word, kind] in kinds {
        let (word, kind) = (words(word).join(" "), words(kind).join(" "));
        facts.entry(word.clone()).or_default().kind_of = arena.keep(&kind);
        broader.insert(word, kind);
    }
    take_meanings(lexicon, &mut facts, &mut arena)?;
    let kinds: Vec<(&String, String)> = facts
        .keys()
        .map(|word| (word, broader.remove(word).unwrap_or_default()))
        .collect();
    let phrases = phrase_rows(&kinds);
    let hashes: Vec<u32> = phrases.keys().map(|text| hash(text.as_bytes())).collect();
    let rows: Vec<Phrase> = phrases
        .iter()
        .map(|(text, row)| Phrase {
            text: arena.keep(text),
            ..*row
        })
        .collect();
    let state_rows = states.rows(&mut arena);
    let list: Vec<Fact> = facts.into_values().collect();
    let mut writer = Writer::default();
    writer.add(&arena.into_bytes());
    writer.add(&rows);
    writer.add(&lay_out(&hashes));
    writer.add(&list);
    writer.add(&state_rows);
    writer.add(&states.agreements());
    writer.add(
        &states
            .dimensions
            .iter()
            .map(|name| dimension_weight(name))
            .collect::<Vec<u8>>(),
    );
    writer.add(&states.unstated_credits());
    Ok(writer.finish())
}

fn class_of(name: &str) -> Option<Class> {
    Some(match name {
        "food" => Class::Food,
        "state" => Class::State,
        "neutral" => Class::Neutral,
        "negator" => Class::Negator,
        "joiner" => Class::Joiner,
        "faint" => Class::Faint,
        "product" => Class::Product,
        "part" => Class::Part,
        "cut" => Class::Cut,
        _ => return None,
    })
}

/// Puts the meanings of the lexicon into the facts.
fn take_meanings(
    lexicon: &[PairRow],
    facts: &mut BTreeMap<String, Fact>,
    arena: &mut Arena,
) -> Result<(), String> {
    for [phrase, meaning] in lexicon {
        let key = words(phrase).join(" ");
        let meaning = words(meaning).join(" ");
        // A phrase that means itself keeps a shorter one from being read into it.
        if key == meaning && !key.contains(' ') {
            continue;
        }
        if key.split(' ').count() > LONGEST_PHRASE {
            return Err(format!(
                "lexicon: `{phrase}` is longer than {LONGEST_PHRASE} words"
            ));
        }
        let fact = facts.entry(key).or_default();
        let place = arena.keep(&meaning);
        if fact.means != Place::default() && fact.means != place {
            return Err(format!("lexicon: `{phrase}` has two meanings"));
        }
        fact.means = place;
    }
    Ok(())
}

/// All phrases with facts, their broader words, and what longer ones begin with, still
/// without their texts' places. `kinds` holds the phrases in the order of their facts, with
/// their broader words.
fn phrase_rows(kinds: &[(&String, String)]) -> BTreeMap<String, Phrase> {
    let mut phrases: BTreeMap<String, Phrase> = BTreeMap::new();
    for ((text, kind), number) in kinds.iter().zip(1..) {
        phrases.entry((*text).clone()).or_default().fact = number;
        if !kind.is_empty() {
            phrases.entry(kind.clone()).or_default();
        }
        for (end, _) in text.match_indices(' ') {
            phrases.entry(text[..end].to_owned()).or_default().longer = 1;
        }
    }
    let numbers: BTreeMap<String, u32> = phrases.keys().cloned().zip(1..).collect();
    for (text, kind) in kinds {
        if let Some(row) = phrases.get_mut(*text) {
            row.kind_of = numbers.get(kind).copied().unwrap_or(0);
        }
    }
    phrases
}

/// Numbers dimensions and states in order of first use, from 1.
#[derive(Debug, Default)]
struct StateNumbers {
    dimensions: Vec<String>,
    /// Dimension number and name of each state; a state's number is its place plus one.
    states: Vec<(u8, String)>,
}

impl StateNumbers {
    fn number(&mut self, dimension: &str, value: &str) -> (u8, u8) {
        let d = find_or_add(
            &mut self.dimensions,
            |name| name == dimension,
            || dimension.to_owned(),
        );
        let d = d as u8 + 1;
        let v = find_or_add(
            &mut self.states,
            |(of, name)| *of == d && name == value,
            || (d, value.to_owned()),
        );
        (d, v as u8 + 1)
    }

    fn rows(&self, arena: &mut Arena) -> Vec<State> {
        let mut rows = Vec::new();
        for (number, (dimension, value)) in self.states.iter().enumerate() {
            let name = &self.dimensions[usize::from(*dimension) - 1];
            rows.push(State {
                dimension: u32::from(*dimension),
                value: number as u32 + 1,
                name: arena.keep(&format!("{name}: {value}")),
            });
        }
        rows
    }

    /// Percent for each state against a name that does not state it.
    fn unstated_credits(&self) -> Vec<u8> {
        let row = |(dimension, value): &(u8, String)| {
            unstated_credit(&self.dimensions[usize::from(*dimension) - 1], value)
        };
        self.states.iter().map(row).collect()
    }

    /// Percent of agreement of every two states, row by row; row and column 0 are `none`.
    fn agreements(&self) -> Vec<u8> {
        let width = self.states.len() + 1;
        let mut table = vec![100; width * width];
        for (a, (dimension, ours)) in self.states.iter().enumerate() {
            let name = self.dimensions[usize::from(*dimension) - 1].as_str();
            for (b, (other, theirs)) in self.states.iter().enumerate() {
                if dimension == other && a != b {
                    table[(a + 1) * width + b + 1] = agreement(name, ours, theirs);
                }
            }
        }
        table
    }
}

fn find_or_add<T>(list: &mut Vec<T>, is: impl Fn(&T) -> bool, new: impl Fn() -> T) -> usize {
    list.iter().position(is).unwrap_or_else(|| {
        list.push(new());
        list.len() - 1
    })
}
