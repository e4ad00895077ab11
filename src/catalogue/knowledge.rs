//! What words mean on a menu: which say a state (raw, fried, skinless), which say nothing
//! about the food (organic, sliced), which exclude (no, without), which are another name
//! for something, which are a kind of something.
//!
//! The tables behind it are `word_classes.csv`, `kinds.csv` and `lexicon.csv`. This file
//! is also compiled into the build script.

use super::blob::{Arena, Place, Reader, Writer};
use super::words::words;
use std::collections::BTreeMap;

/// What a word does in a food's name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(u8)]
pub enum Class {
    /// Names a food or part of one: the default.
    Food = 0,
    /// Says a state of the food, in one dimension (cooking, skin, fat, ...).
    State = 1,
    /// Says nothing about what the food is (sliced, organic, house-made).
    Neutral = 2,
    /// Excludes what follows (no, without, hold).
    Negator = 3,
    /// Joins parts (with, and, in).
    Joiner = 4,
    /// A word for a whole class of foods that adds little (dish, style, mix).
    Faint = 5,
}

impl Class {
    fn from_name(name: &str) -> Option<Self> {
        Some(match name {
            "food" => Class::Food,
            "state" => Class::State,
            "neutral" => Class::Neutral,
            "negator" => Class::Negator,
            "joiner" => Class::Joiner,
            "faint" => Class::Faint,
            _ => return None,
        })
    }

    /// The class stored as a number; anything unknown is a food word.
    #[must_use]
    pub fn from_number(number: u8) -> Self {
        match number {
            1 => Class::State,
            2 => Class::Neutral,
            3 => Class::Negator,
            4 => Class::Joiner,
            5 => Class::Faint,
            _ => Class::Food,
        }
    }
}

/// What is known of one word or phrase.
#[derive(Debug, Clone, Copy, Default, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub struct Fact {
    /// [`Class`] as a number.
    pub class: u8,
    /// Dimension of a state, 0 for none.
    pub dimension: u8,
    /// Value within the dimension.
    pub value: u8,
    /// Non-zero where `class` was stated.
    pub classed: u8,
    /// Words to read instead; empty for none.
    pub means: Place,
    /// The broader word; empty for none.
    pub kind_of: Place,
}

mod section {
    pub const TEXT: usize = 0;
    pub const PHRASES: usize = 1;
    pub const FACTS: usize = 2;
    pub const STATES: usize = 3;
}

/// Longest phrase of the lexicon, in words.
pub const LONGEST_PHRASE: usize = 5;

/// The knowledge in place.
#[derive(Clone)]
pub struct Knowledge<'b> {
    text: &'b str,
    phrases: fst::Map<&'b [u8]>,
    facts: &'b [Fact],
    states: &'b [State],
}

/// One value of one dimension.
#[derive(Debug, Clone, Copy, Default, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
struct State {
    dimension: u32,
    value: u32,
    name: Place,
}

impl std::fmt::Debug for Knowledge<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Knowledge({} facts)", self.facts.len())
    }
}

impl<'b> Knowledge<'b> {
    /// Opens a block written by [`build`].
    pub fn open(bytes: &'b [u8]) -> Result<Self, Box<dyn std::error::Error>> {
        let reader = Reader::new(bytes)?;
        Ok(Self {
            text: reader.text(section::TEXT),
            phrases: fst::Map::new(reader.bytes(section::PHRASES))?,
            facts: reader.numbers(section::FACTS),
            states: reader.numbers(section::STATES),
        })
    }

    /// What is known of a phrase of base forms joined by single spaces.
    #[must_use]
    pub fn fact(&self, phrase: &str) -> Option<Fact> {
        self.facts.get(self.phrases.get(phrase)? as usize).copied()
    }

    /// The words to read instead of a phrase.
    #[must_use]
    pub fn means(&self, fact: Fact) -> Option<&'b str> {
        Some(fact.means.of(self.text)).filter(|text| !text.is_empty())
    }

    /// The broader word.
    #[must_use]
    pub fn kind_of(&self, fact: Fact) -> Option<&'b str> {
        Some(fact.kind_of.of(self.text)).filter(|text| !text.is_empty())
    }

    /// A state's name, such as `skin: without`, for explanations.
    #[must_use]
    pub fn state_name(&self, dimension: u8, value: u8) -> &'b str {
        let wanted = (u32::from(dimension), u32::from(value));
        self.states
            .iter()
            .find(|state| (state.dimension, state.value) == wanted)
            .map_or("", |state| state.name.of(self.text))
    }

    /// The numbers of a state by dimension and value name; `None` when no word says it.
    #[must_use]
    pub fn state_number(&self, dimension: &str, value: &str) -> Option<(u8, u8)> {
        let name = format!("{dimension}: {value}");
        let state = self.states.iter().find(|s| s.name.of(self.text) == name)?;
        Some((state.dimension as u8, state.value as u8))
    }

    /// Every single word the knowledge speaks of, so that spelling is not corrected away
    /// from it.
    #[must_use]
    pub fn vocabulary(&self) -> Vec<String> {
        use fst::Streamer;
        let mut list = Vec::new();
        let mut stream = self.phrases.stream();
        while let Some((phrase, _)) = stream.next() {
            for word in String::from_utf8_lossy(phrase).split(' ') {
                list.push(word.to_owned());
            }
        }
        for fact in self.facts {
            list.extend(words(fact.means.of(self.text)));
            list.extend(words(fact.kind_of.of(self.text)));
        }
        list.sort();
        list.dedup();
        list
    }
}

/// One row of `word_classes.csv`: word, class, dimension, value.
pub type ClassRow = [String; 4];
/// One row of `kinds.csv` (word, broader word) or of `lexicon.csv` (phrase, meaning).
pub type PairRow = [String; 2];

/// Puts the three tables into one block. Fails on an unknown class name or a phrase
/// stated twice with different meanings.
pub fn build(
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
        fact.class =
            Class::from_name(class).ok_or_else(|| format!("`{word}`: no class `{class}`"))? as u8;
        fact.classed = 1;
        if !dimension.is_empty() {
            (fact.dimension, fact.value) = states.number(dimension, value);
        }
    }
    for [word, kind] in kinds {
        let fact = facts.entry(words(word).join(" ")).or_default();
        fact.kind_of = arena.keep(&words(kind).join(" "));
    }
    for [phrase, meaning] in lexicon {
        let key = words(phrase).join(" ");
        let meaning = words(meaning).join(" ");
        if key == meaning {
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
    let mut phrases = fst::MapBuilder::memory();
    for (number, phrase) in facts.keys().enumerate() {
        phrases
            .insert(phrase, number as u64)
            .map_err(|e| e.to_string())?;
    }
    let states = states.rows(&mut arena);
    let list: Vec<Fact> = facts.into_values().collect();
    let mut writer = Writer::default();
    writer.add(&arena.into_bytes());
    writer.add(&phrases.into_inner().map_err(|e| e.to_string())?);
    writer.add(&list);
    writer.add(&states);
    Ok(writer.finish())
}

/// Numbers dimensions and their values in order of first use, from 1.
#[derive(Debug, Default)]
struct StateNumbers {
    dimensions: Vec<(String, Vec<String>)>,
}

impl StateNumbers {
    fn number(&mut self, dimension: &str, value: &str) -> (u8, u8) {
        let d = find_or_add(
            &mut self.dimensions,
            |(name, _)| name == dimension,
            || (dimension.to_owned(), Vec::new()),
        );
        let v = find_or_add(
            &mut self.dimensions[d].1,
            |name| name == value,
            || value.to_owned(),
        );
        (d as u8 + 1, v as u8 + 1)
    }

    fn rows(&self, arena: &mut Arena) -> Vec<State> {
        let mut rows = Vec::new();
        for (d, (dimension, values)) in self.dimensions.iter().enumerate() {
            for (v, value) in values.iter().enumerate() {
                rows.push(State {
                    dimension: d as u32 + 1,
                    value: v as u32 + 1,
                    name: arena.keep(&format!("{dimension}: {value}")),
                });
            }
        }
        rows
    }
}

fn find_or_add<T>(list: &mut Vec<T>, is: impl Fn(&T) -> bool, new: impl Fn() -> T) -> usize {
    list.iter().position(is).unwrap_or_else(|| {
        list.push(new());
        list.len() - 1
    })
}
