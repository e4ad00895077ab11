//! One food as it is told: its words, wherever in the sentence they stand.

use crate::reading::number::{Reader, number_word};
use crate::reading::phrase::PhraseRole;
use crate::reading::scan::{Position, What};

/// A word of a food.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Word {
    /// As it stands at this token.
    Own(usize),
    /// What the words at this token come to: `with` for `accompanied by`, `without` for `I
    /// skipped`.
    Said(usize, &'static str),
}

impl Word {
    /// Its token.
    pub(super) fn at(self) -> usize {
        match self {
            Self::Own(at) | Self::Said(at, _) => at,
        }
    }
}

/// The words of one food and its amount, in order, without the frame between them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Piece {
    pub(super) words: Vec<Word>,
}

impl Piece {
    /// Where it stands in the text, in bytes.
    pub(super) fn span(&self, reader: &Reader<'_>) -> (usize, usize) {
        let token = |word: Option<&Word>| word.and_then(|word| reader.tokens.get(word.at()));
        let start = token(self.words.first()).map_or(0, |token| token.start);
        (
            start,
            token(self.words.last()).map_or(start, |token| token.end),
        )
    }

    /// The role of its amount, where that ends and where the food begins, in bytes.
    pub(super) fn amount(&self, reader: &Reader<'_>) -> Option<(PhraseRole, usize, usize)> {
        let first = self.words.first()?.at();
        let found = reader.amount_at(first, Position::Start).ok().flatten()?;
        let role = match found.what {
            What::Weight(_) | What::Volume(_) => PhraseRole::Amount,
            What::Count { size: Some(_), .. } => PhraseRole::Size,
            What::Count { .. } | What::Times => PhraseRole::Count,
        };
        let end = reader.tokens.get(found.text_end.checked_sub(1)?)?.end;
        let food = self.words.iter().find(|word| word.at() >= found.next)?;
        Some((role, end, reader.tokens.get(food.at())?.start.max(end)))
    }

    /// Without what stands before byte `done`: the amount of `30 g each of` stands once.
    pub(super) fn behind(&self, reader: &Reader<'_>, done: usize) -> Option<Self> {
        let behind = |word: &&Word| {
            let token = reader.tokens.get(word.at());
            token.is_some_and(|token| token.start >= done)
        };
        let words: Vec<Word> = self.words.iter().filter(behind).copied().collect();
        (!words.is_empty()).then_some(Self { words })
    }

    /// This and what was said of it further on.
    pub(super) fn joined(&self, more: &Self) -> Self {
        let words = self.words.iter().chain(&more.words).copied();
        Self {
            words: words.collect(),
        }
    }

    /// Without numbers that stand behind the first words for the food.
    pub(super) fn without_inner_numbers(&self, reader: &Reader<'_>) -> Self {
        let number = |at: usize| {
            reader.is_number(at)
                || reader
                    .word(at)
                    .is_some_and(|word| number_word(word).is_some())
        };
        let head = self
            .words
            .iter()
            .take_while(|word| number(word.at()) || reader.is_article(word.at()))
            .count();
        let kept = self
            .words
            .iter()
            .enumerate()
            .filter(|(index, word)| *index <= head || !number(word.at()));
        Self {
            words: kept.map(|(_, word)| *word).collect(),
        }
    }

    /// Its words, as somebody would write them in a line of their own.
    pub(super) fn words(&self, reader: &Reader<'_>) -> String {
        let mut text = String::new();
        let mut before: Option<usize> = None;
        for &word in &self.words {
            let token = reader.tokens[word.at()];
            let tight = before.is_some_and(|before| before + 1 == word.at()) && token.glued;
            if !(text.is_empty() || tight) {
                text.push(' ');
            }
            text.push_str(match word {
                Word::Own(_) => &reader.text[token.start..token.end],
                Word::Said(_, said) => said,
            });
            before = Some(word.at());
        }
        text
    }
}

/// Whether a weight in grams, ounces or the like stands at `at`.
pub(super) fn is_weight(reader: &Reader<'_>, at: usize) -> bool {
    let found = reader.amount_at(at, Position::Start).ok().flatten();
    found.is_some_and(|found| matches!(found.what, What::Weight(_)) && !found.loose)
}
