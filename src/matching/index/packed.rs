//! A term as the index keeps it: word, flags and weight in a few bytes.
//!
//! This file is also compiled into the build script.

use super::super::analysis::Term;

/// A term in the index, packed: dictionary number and flags.
#[derive(Debug, Clone, Copy, PartialEq, Eq, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(transparent)]
pub(crate) struct PackedTerm(u32);

const NEGATED: u32 = 1 << 31;
const SECONDARY: u32 = 1 << 30;
const HEAD: u32 = 1 << 29;
const IMPLIED: u32 = 1 << 28;
const GENERAL: u32 = 1 << 27;
const ASIDE: u32 = 1 << 26;
const BEHIND: u32 = 1 << 25;
const WORD: u32 = BEHIND - 1;

/// A term of a name and what it weighs.
#[derive(Debug, Clone, Copy, PartialEq, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub(crate) struct TermRow {
    /// Word and flags.
    pub packed: PackedTerm,
    /// What leaving it unasked costs, and asking it earns.
    pub weight: f32,
    /// [`Class`] as a number.
    pub class: u8,
    /// Dimension of a state.
    pub dimension: u8,
    /// Value within the dimension.
    pub value: u8,
    spare: u8,
}

impl TermRow {
    pub(super) fn new(packed: PackedTerm, weight: f32, term: &Term) -> Self {
        Self {
            packed,
            weight,
            class: term.class as u8,
            dimension: term.state.0,
            value: term.state.1,
            spare: 0,
        }
    }
}

impl PackedTerm {
    pub(super) fn new(word: u32, term: &Term, general: bool) -> Self {
        let flag = |on: bool, bit: u32| if on { bit } else { 0 };
        Self(
            word | flag(term.negated, NEGATED)
                | flag(term.secondary, SECONDARY)
                | flag(term.head, HEAD)
                | flag(general, GENERAL)
                | flag(term.aside, ASIDE)
                | flag(term.behind > 0, BEHIND),
        )
    }
    /// Number in the dictionary.
    #[must_use]
    pub(crate) fn word(self) -> u32 {
        self.0 & WORD
    }
    /// The name excludes this word.
    #[must_use]
    pub(crate) fn negated(self) -> bool {
        self.0 & NEGATED != 0
    }
    /// The word comes along (`with ...`).
    #[must_use]
    pub(crate) fn secondary(self) -> bool {
        self.0 & SECONDARY != 0
    }
    /// The head noun.
    #[must_use]
    pub(crate) fn head(self) -> bool {
        self.0 & HEAD != 0
    }
    /// Only the item's main name says it.
    #[must_use]
    pub(crate) fn implied(self) -> bool {
        self.0 & IMPLIED != 0
    }
    /// Another word of the name says it more exactly.
    #[must_use]
    pub(crate) fn general(self) -> bool {
        self.0 & GENERAL != 0
    }
    /// The word stands in brackets.
    #[must_use]
    pub(crate) fn aside(self) -> bool {
        self.0 & ASIDE != 0
    }
    /// The word stands in a part of its own behind the head.
    #[must_use]
    pub(crate) fn behind(self) -> bool {
        self.0 & BEHIND != 0
    }
    pub(super) fn as_implied(self) -> Self {
        Self((self.0 | IMPLIED) & !HEAD)
    }
}
