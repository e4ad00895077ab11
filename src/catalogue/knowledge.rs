//! What words mean on a menu: which say a state (raw, fried, skinless), which say nothing
//! about the food (organic, sliced), which exclude (no, without), which are another name
//! for something, which are a kind of something.
//!
//! The tables behind it are `word_classes.csv`, `kinds.csv` and `lexicon.csv`. This file
//! is also compiled into the build script.

use super::blob::{Arena, Place, Reader, Writer};
use super::slots::{START, Slots, hash, hash_on, lay_out};
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
    /// Makes another food of what it stands with (oil, juice, cake).
    Product = 6,
    /// A part that is not what is usually eaten of it (skin, liver, leaf).
    Part = 7,
    /// A cut or shape of the same food (fillet, steak, shoulder).
    Cut = 8,
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
            "product" => Class::Product,
            "part" => Class::Part,
            "cut" => Class::Cut,
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
            6 => Class::Product,
            7 => Class::Part,
            8 => Class::Cut,
            _ => Class::Food,
        }
    }

    /// Whether the word can be what a food's name is about.
    #[must_use]
    pub fn names_food(self) -> bool {
        matches!(
            self,
            Class::Food | Class::Product | Class::Part | Class::Cut
        )
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
    /// Number of the state, over all dimensions; 0 for none.
    pub value: u8,
    /// Non-zero where `class` was stated.
    pub classed: u8,
    /// Words to read instead; empty for none.
    pub means: Place,
    /// The broader word; empty for none.
    pub kind_of: Place,
}

/// A word or phrase that something is known of, a broader word, or the beginning of a longer
/// phrase.
#[derive(Debug, Clone, Copy, Default, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub struct Phrase {
    /// Base forms joined by single spaces.
    text: Place,
    /// Number of its fact plus one; 0 for none.
    fact: u32,
    /// Number of the phrase that is the broader word, plus one; 0 for none.
    kind_of: u32,
    /// Non-zero where longer phrases begin with it.
    longer: u32,
}

mod section {
    pub const TEXT: usize = 0;
    pub const PHRASES: usize = 1;
    pub const PHRASE_SLOTS: usize = 2;
    pub const FACTS: usize = 3;
    pub const STATES: usize = 4;
    pub const AGREEMENT: usize = 5;
    pub const STRESS: usize = 6;
    pub const SILENCE: usize = 7;
}

/// Longest phrase of the lexicon, in words.
pub const LONGEST_PHRASE: usize = 5;

/// Steps from a word to its broadest kind that are looked at.
pub const HIGHEST: usize = 4;

/// The knowledge in place.
#[derive(Clone)]
pub struct Knowledge<'b> {
    text: &'b str,
    phrases: &'b [Phrase],
    slots: Slots<'b>,
    facts: &'b [Fact],
    states: &'b [State],
    agreement: &'b [u8],
    stress: &'b [u8],
    silence: &'b [u8],
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
            phrases: reader.numbers(section::PHRASES),
            slots: Slots(reader.numbers(section::PHRASE_SLOTS)),
            facts: reader.numbers(section::FACTS),
            states: reader.numbers(section::STATES),
            agreement: reader.bytes(section::AGREEMENT),
            stress: reader.bytes(section::STRESS),
            silence: reader.bytes(section::SILENCE),
        })
    }

    /// Number of a phrase of base forms joined by single spaces.
    #[must_use]
    pub fn phrase(&self, text: &str) -> Option<u32> {
        self.slots
            .find(hash(text.as_bytes()), |at| self.phrase_text(at) == text)
    }

    /// A phrase by its number; empty for a foreign one.
    #[must_use]
    pub fn phrase_text(&self, phrase: u32) -> &'b str {
        let row = self.phrases.get(phrase as usize);
        row.map_or("", |row| row.text.of(self.text))
    }

    /// What is known of a phrase of base forms joined by single spaces.
    #[must_use]
    pub fn fact(&self, phrase: &str) -> Option<Fact> {
        self.fact_of(self.phrase(phrase)?)
    }

    /// What is known of a phrase by its number; `None` for one that is only a broader word
    /// or the beginning of a longer one.
    #[must_use]
    pub fn fact_of(&self, phrase: u32) -> Option<Fact> {
        let row = self.phrases.get(phrase as usize)?;
        self.facts.get(row.fact.checked_sub(1)? as usize).copied()
    }

    /// The longest phrase at the start of `words` whose fact is `wanted`, with its length.
    #[must_use]
    pub fn longest(
        &self,
        words: &[impl AsRef<str>],
        wanted: impl Fn(Fact) -> bool,
    ) -> Option<(usize, Fact)> {
        let mut sum = START;
        let mut best = None;
        for (at, word) in words.iter().take(LONGEST_PHRASE).enumerate() {
            let space: &[u8] = if at == 0 { b"" } else { b" " };
            sum = hash_on(hash_on(sum, space), word.as_ref().as_bytes());
            let said = words[..=at].iter().map(AsRef::as_ref);
            let is = |number: u32| self.phrase_text(number).split(' ').eq(said.clone());
            let Some(number) = self.slots.find(sum, is) else {
                return best;
            };
            let row = self.phrases[number as usize];
            let fact = self.fact_of(number).filter(|fact| wanted(*fact));
            best = fact.map(|fact| (at + 1, fact)).or(best);
            if row.longer == 0 {
                return best;
            }
        }
        best
    }

    /// Numbers of the phrases that are broader words, nearest first.
    pub fn above(&self, phrase: Option<u32>) -> impl Iterator<Item = u32> {
        let step = |phrase: u32| self.phrases.get(phrase as usize)?.kind_of.checked_sub(1);
        std::iter::successors(phrase.and_then(step), move |phrase| step(*phrase)).take(HIGHEST)
    }

    /// How much a state of this dimension changes what is in the food, around 1.
    #[must_use]
    pub fn stress(&self, dimension: u8) -> f32 {
        let percent = usize::from(dimension)
            .checked_sub(1)
            .and_then(|at| self.stress.get(at));
        f32::from(percent.copied().unwrap_or(100)) / 100.0
    }

    /// How well a name that is silent on the dimension of a state goes with it, from 0 to 1.
    #[must_use]
    pub fn silence(&self, state: u8) -> f32 {
        let percent = usize::from(state)
            .checked_sub(1)
            .and_then(|at| self.silence.get(at));
        f32::from(percent.copied().unwrap_or(100)) / 100.0
    }

    /// How well two states of one dimension go together, from 0 to 1.
    #[must_use]
    pub fn agreement(&self, a: u8, b: u8) -> f32 {
        let width = self.states.len() + 1;
        let percent = self.agreement.get(usize::from(a) * width + usize::from(b));
        f32::from(percent.copied().unwrap_or(100)) / 100.0
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
        let mut list = Vec::new();
        for (row, number) in self.phrases.iter().zip(0..) {
            let phrase = row.text.of(self.text);
            let Some(fact) = self.fact_of(number) else {
                continue;
            };
            let kind = fact.kind_of.of(self.text);
            // A compound is a word of its own.
            if !kind.is_empty() {
                list.extend([phrase.to_owned(), kind.to_owned()]);
            }
            list.extend(phrase.split(' ').map(str::to_owned));
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
    let kinds: Vec<(&String, String)> = facts
        .iter()
        .map(|(word, fact)| (word, fact.kind_of.of(arena.text()).to_owned()))
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
            .map(|name| stress(name))
            .collect::<Vec<u8>>(),
    );
    writer.add(&states.silences());
    Ok(writer.finish())
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

    /// Percent for each state against a silent name.
    fn silences(&self) -> Vec<u8> {
        let row = |(dimension, value): &(u8, String)| {
            silence(&self.dimensions[usize::from(*dimension) - 1], value)
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

/// How much the states of a dimension change what is in the food, percent (our judgement).
fn stress(dimension: &str) -> u8 {
    match dimension {
        "make" => 250,
        "coat" => 200,
        "fat" => 180,
        "sweet" => 130,
        "colour" => 70,
        "salt" => 60,
        _ => 100,
    }
}

/// How well a name that is silent on a dimension goes with a state of it, percent: silence
/// means the usual version (our judgement).
fn silence(dimension: &str, value: &str) -> u8 {
    match (dimension, value) {
        ("make", _) => 55,
        ("fat", "free") => 70,
        ("fat", "low" | "extralean") => 80,
        ("fat", "reduced" | "light" | "lean") | ("caffeine", _) => 90,
        ("sweet", "sugarfree" | "reduced") => 85,
        ("grain", "whole" | "multigrain") | ("keep", "dried" | "pickled") => 88,
        ("form", "powdered" | "concentrated") => 75,
        _ => 100,
    }
}

/// How well two different values of a dimension go together, percent (our judgement).
fn agreement(dimension: &str, ours: &str, theirs: &str) -> u8 {
    match dimension {
        "cook" => cooking_agreement(ours, theirs),
        "fat" => fat_agreement(ours, theirs),
        "sweet" | "pack" => 70,
        "coat" => 60,
        "colour" => 75,
        "meat" | "make" => 50,
        "keep" | "age" => 85,
        _ => 80,
    }
}

fn cooking_agreement(a: &str, b: &str) -> u8 {
    let fried = |v: &str| v.contains("fried") || v == "sauteed";
    let moist = |v: &str| {
        matches!(
            v,
            "boiled" | "steamed" | "poached" | "simmered" | "stewed" | "braised"
        )
    };
    match (a, b) {
        ("raw", _) | (_, "raw") => 80,
        ("cooked", other) | (other, "cooked") => {
            if fried(other) {
                90
            } else {
                98
            }
        }
        _ if fried(a) && fried(b) => 95,
        _ if fried(a) != fried(b) => 75,
        _ if moist(a) == moist(b) => 95,
        _ => 88,
    }
}

/// Words for less fat say much the same on a label; none of them says full.
fn fat_agreement(a: &str, b: &str) -> u8 {
    let step = |v: &str| match v {
        "full" => 0,
        "reduced" | "light" | "lean" => 2,
        "low" | "extralean" => 3,
        _ => 4,
    };
    match u8::abs_diff(step(a), step(b)) {
        0 => 97,
        1 => 90,
        2 => 72,
        3 => 55,
        _ => 45,
    }
}

fn find_or_add<T>(list: &mut Vec<T>, is: impl Fn(&T) -> bool, new: impl Fn() -> T) -> usize {
    list.iter().position(is).unwrap_or_else(|| {
        list.push(new());
        list.len() - 1
    })
}
