//! What words mean on a menu: which say a state (raw, fried, skinless), which say nothing
//! about the food (organic, sliced), which exclude (no, without), which are another name
//! for something, which are a kind of something.
//!
//! The tables behind it are `word_classes.csv`, `kinds.csv` and `lexicon.csv`. This file
//! is also compiled into the build script, which fills it (`building/`).

mod class;

pub(crate) use class::Class;

use super::slots::{START, Slots, hash, hash_on};
use crate::foods::blob::{Place, Reader, Text};
use crate::words::words;

/// What is known of one word or phrase.
#[derive(Debug, Clone, Copy, Default, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub(crate) struct Fact {
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
pub(crate) struct Phrase {
    /// Base forms joined by single spaces.
    pub text: Place,
    /// Number of its fact plus one; 0 for none.
    pub fact: u32,
    /// Number of the phrase that is the broader word, plus one; 0 for none.
    pub kind_of: u32,
    /// Non-zero where longer phrases begin with it.
    pub longer: u32,
}

mod section {
    pub(crate) const TEXT: usize = 0;
    pub(crate) const PHRASES: usize = 1;
    pub(crate) const PHRASE_SLOTS: usize = 2;
    pub(crate) const FACTS: usize = 3;
    pub(crate) const STATES: usize = 4;
    pub(crate) const AGREEMENT: usize = 5;
    pub(crate) const DIMENSION_WEIGHT: usize = 6;
    pub(crate) const UNSTATED: usize = 7;
}

/// Longest phrase of the lexicon, in words.
pub(crate) const LONGEST_PHRASE: usize = 5;

/// Steps from a word to its broadest kind that are looked at.
pub(crate) const HIGHEST: usize = 4;

/// The knowledge in place.
#[derive(Clone)]
pub(crate) struct Knowledge<'b> {
    text: Text<'b>,
    phrases: &'b [Phrase],
    slots: Slots<'b>,
    facts: &'b [Fact],
    states: &'b [State],
    agreement: &'b [u8],
    dimension_weight: &'b [u8],
    unstated_credit: &'b [u8],
    /// The states that queries are asked for: dried, raw.
    pub(crate) dried: Option<(u8, u8)>,
    pub(crate) raw: Option<(u8, u8)>,
}

/// One value of one dimension.
#[derive(Debug, Clone, Copy, Default, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub(crate) struct State {
    pub dimension: u32,
    pub value: u32,
    pub name: Place,
}

impl std::fmt::Debug for Knowledge<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Knowledge({} facts)", self.facts.len())
    }
}

impl<'b> Knowledge<'b> {
    /// Opens a block that the build script wrote.
    pub(crate) fn open(bytes: &'b [u8]) -> Result<Self, Box<dyn std::error::Error>> {
        let reader = Reader::new(bytes)?;
        let mut opened = Self {
            text: reader.text(section::TEXT),
            phrases: reader.numbers(section::PHRASES),
            slots: Slots(reader.numbers(section::PHRASE_SLOTS)),
            facts: reader.numbers(section::FACTS),
            states: reader.numbers(section::STATES),
            agreement: reader.bytes(section::AGREEMENT),
            dimension_weight: reader.bytes(section::DIMENSION_WEIGHT),
            unstated_credit: reader.bytes(section::UNSTATED),
            dried: None,
            raw: None,
        };
        opened.dried = opened.state_number("keep", "dried");
        opened.raw = opened.state_number("cook", "raw");
        Ok(opened)
    }

    /// Number of a phrase of base forms joined by single spaces.
    #[must_use]
    pub(crate) fn phrase(&self, text: &str) -> Option<u32> {
        let is = |at: u32| self.phrases[at as usize].text.is(self.text, text);
        self.slots.find(hash(text.as_bytes()), is)
    }

    /// A phrase by its number; empty for a foreign one.
    #[must_use]
    pub(crate) fn phrase_text(&self, phrase: u32) -> &'b str {
        let row = self.phrases.get(phrase as usize);
        row.map_or("", |row| row.text.of(self.text))
    }

    /// What is known of a phrase of base forms joined by single spaces.
    #[must_use]
    pub(crate) fn fact(&self, phrase: &str) -> Option<Fact> {
        self.fact_of(self.phrase(phrase)?)
    }

    /// What is known of a phrase by its number; `None` for one that is only a broader word
    /// or the beginning of a longer one.
    #[must_use]
    pub(crate) fn fact_of(&self, phrase: u32) -> Option<Fact> {
        let row = self.phrases.get(phrase as usize)?;
        self.facts.get(row.fact.checked_sub(1)? as usize).copied()
    }

    /// The longest phrase at the start of `words` whose fact is `wanted`, with its length.
    #[must_use]
    pub(crate) fn longest(
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

    /// The fact of a whole phrase that is a kind of something.
    #[must_use]
    pub(crate) fn kind_of_words(&self, words: &[String]) -> Option<Fact> {
        let (length, fact) = self.longest(words, |fact| self.kind_of(fact).is_some())?;
        (length == words.len()).then_some(fact)
    }

    /// Whether a phrase is a kind of another, nearer or farther.
    #[must_use]
    pub(crate) fn is_below(&self, phrase: &str, sort: &str) -> bool {
        let mut above = self.above(self.phrase(phrase));
        above.any(|broader| self.phrase_text(broader) == sort)
    }

    /// Numbers of the phrases that are broader words, nearest first.
    pub(crate) fn above(&self, phrase: Option<u32>) -> impl Iterator<Item = u32> {
        let step = |phrase: u32| self.phrases.get(phrase as usize)?.kind_of.checked_sub(1);
        std::iter::successors(phrase.and_then(step), move |phrase| step(*phrase)).take(HIGHEST)
    }

    /// How much a state of this dimension changes what is in the food, around 1.
    #[must_use]
    pub(crate) fn dimension_weight(&self, dimension: u8) -> f32 {
        let percent = usize::from(dimension)
            .checked_sub(1)
            .and_then(|at| self.dimension_weight.get(at));
        f32::from(percent.copied().unwrap_or(100)) / 100.0
    }

    /// How well a name that does not state the dimension goes with it, from 0 to 1.
    #[must_use]
    pub(crate) fn unstated_credit(&self, state: u8) -> f32 {
        let percent = usize::from(state)
            .checked_sub(1)
            .and_then(|at| self.unstated_credit.get(at));
        f32::from(percent.copied().unwrap_or(100)) / 100.0
    }

    /// How well two states of one dimension go together, from 0 to 1.
    #[must_use]
    pub(crate) fn agreement(&self, a: u8, b: u8) -> f32 {
        let width = self.states.len() + 1;
        let percent = self.agreement.get(usize::from(a) * width + usize::from(b));
        f32::from(percent.copied().unwrap_or(100)) / 100.0
    }

    /// The words to read instead of a phrase.
    #[must_use]
    pub(crate) fn means(&self, fact: Fact) -> Option<&'b str> {
        Some(fact.means.of(self.text)).filter(|text| !text.is_empty())
    }

    /// The broader word.
    #[must_use]
    pub(crate) fn kind_of(&self, fact: Fact) -> Option<&'b str> {
        Some(fact.kind_of.of(self.text)).filter(|text| !text.is_empty())
    }

    /// The numbers of a state by dimension and value name; `None` when no word says it.
    #[must_use]
    pub(crate) fn state_number(&self, dimension: &str, value: &str) -> Option<(u8, u8)> {
        let name = format!("{dimension}: {value}");
        let state = self.states.iter().find(|s| s.name.of(self.text) == name)?;
        Some((state.dimension as u8, state.value as u8))
    }

    /// Every single word the knowledge speaks of, so that spelling is not corrected away
    /// from it.
    #[must_use]
    pub(crate) fn vocabulary(&self) -> Vec<String> {
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
