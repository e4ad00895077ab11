//! What a word does in a food's name.
//!
//! This file is also compiled into the build script.

/// What a word does in a food's name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(u8)]
pub(crate) enum Class {
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
    /// The class stored as a number; anything unknown is a food word.
    #[must_use]
    pub(crate) fn from_number(number: u8) -> Self {
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
    pub(crate) fn names_food(self) -> bool {
        matches!(
            self,
            Class::Food | Class::Product | Class::Part | Class::Cut
        )
    }

    /// Products and parts are foods of their own.
    #[must_use]
    pub(crate) fn is_product(self) -> bool {
        matches!(self, Class::Product | Class::Part)
    }
}
