//! What a line comes to once all of its words are spoken for: amount, food and note.

use super::super::combine;
use super::super::error::Problem;
use super::super::pieces::{Piece, Role, piece_word};
use super::super::scan::{ABOUT, Found, What, product};
use super::super::tokens::{Kind, Token};
use super::{Line, ReadLine};

impl Line<'_, '_> {
    pub(super) fn finish(&mut self) -> Result<ReadLine, Problem> {
        if let (Some(share), Some((inches, from, to))) = (&mut self.share, self.heap) {
            share.heap_inches = share.heap_inches.or(Some(inches));
            share.text.push_str(", ");
            share.text.push_str(self.reader.slice(from, to));
            self.take(from, to);
        }
        let found = self.reader.combine(&self.founds)?;
        let amount = found.map(|mut found| {
            let trailing = self.adopt_piece(&mut found);
            if self.guessed && !found.approximate {
                found.range = product(found.range, ABOUT);
                found.approximate = true;
            }
            combine::amount(&found, self.amount_text(trailing))
        });
        let food = self.food_tokens();
        Ok(ReadLine {
            amount,
            first_word: food
                .iter()
                .map(|&at| self.reader.tokens[at])
                .find(is_wordlike)
                .map(|token| (token.start, token.end)),
            food: self.join(&food),
            note: self.note_text(),
            share: self.share.take(),
        })
    }

    /// `3 chicken wings`: the last word of the food may be the piece. Returns its position
    /// when it leaves the food: `2 pizza slices`.
    fn adopt_piece(&mut self, found: &mut Found) -> Option<usize> {
        let What::Count { piece, .. } = &mut found.what else {
            return None;
        };
        if piece.is_some() || self.reader.amount_only {
            return None;
        }
        let (at, words) = self.head_word()?;
        let last = piece_word(self.reader.word(at)?)?;
        if !fits(last, found.range.likely) {
            return None;
        }
        *piece = Some(last);
        let leaves = last.leaves_the_food() && words > 1;
        if !leaves {
            return None;
        }
        self.taken[at] = true;
        Some(at)
    }

    /// The last word of the food's first part, and how many words that part has.
    fn head_word(&self) -> Option<(usize, usize)> {
        let reader = self.reader;
        let mut last = None;
        let mut words = 0;
        for at in (0..reader.tokens.len()).filter(|&at| !self.taken[at]) {
            let ends = reader.is_any(at, &["with", "in", "on", "and", "of", "w", "or"])
                || reader.is_mark(at, &[',', ';', ':', '(', '[']);
            if ends && words > 0 {
                break;
            }
            if reader.word(at).is_some() {
                last = Some(at);
                words += 1;
            }
        }
        last.map(|at| (at, words))
    }

    /// All amounts of the line as written, with a piece word that came after the food.
    fn amount_text(&self, trailing: Option<usize>) -> String {
        let reader = self.reader;
        let mut text = String::new();
        for found in &self.founds {
            let words = reader.slice(found.from, found.text_end);
            let bracket = found.from > 0
                && reader.is_mark(found.from - 1, &['(', '['])
                && reader.is_mark(found.text_end, &[')', ']']);
            match (text.is_empty(), bracket) {
                (true, _) => {}
                (false, true) => text.push_str(" ("),
                (false, false) => text.push_str(", "),
            }
            let close = bracket && !text.is_empty();
            text.push_str(words);
            if close {
                text.push(')');
            }
        }
        if let Some(word) = trailing.and_then(|at| reader.word(at)) {
            text.push(' ');
            text.push_str(word);
        }
        text
    }

    fn note_text(&self) -> Option<String> {
        let notes: Vec<&str> = self
            .notes
            .iter()
            .map(|&(from, to)| self.reader.slice(from, to))
            .collect();
        (!notes.is_empty()).then(|| notes.join("; "))
    }

    /// Positions of the food's tokens, without separators that separate nothing.
    fn food_tokens(&self) -> Vec<usize> {
        let mut food: Vec<usize> = (0..self.taken.len())
            .filter(|&at| !self.taken[at])
            .collect();
        loop {
            let before = food.len();
            food = self.without_idle(&food);
            if food.len() == before {
                return food;
            }
        }
    }

    fn without_idle(&self, food: &[usize]) -> Vec<usize> {
        let reader = self.reader;
        let open = |at: usize| reader.is_mark(at, &['(', '[']);
        let close = |at: usize| reader.is_mark(at, &[')', ']']);
        let separator = |at: usize| self.separates(at);
        let idle = |index: usize| {
            let at = food[index];
            let before = index.checked_sub(1).map(|index| food[index]);
            let after = food.get(index + 1).copied();
            if separator(at) {
                return before.is_none_or(open)
                    || after.is_none_or(|at| separator(at) || close(at));
            }
            if before.is_none() && reader.is_any(at, &["of"]) {
                return true;
            }
            open(at) && after.is_some_and(close) || close(at) && before.is_some_and(open)
        };
        (0..food.len())
            .filter(|&index| !idle(index))
            .map(|index| food[index])
            .collect()
    }

    /// Whether the mark at `at` only keeps parts of a line apart.
    fn separates(&self, at: usize) -> bool {
        let reader = self.reader;
        if reader.is_mark(
            at,
            &[
                ',', ';', ':', '=', '.', '~', '+', '*', '/', '|', '"', '“', '”', '‘', '’', '\'',
            ],
        ) {
            return true;
        }
        // A dash inside a word stays, unless the word beside it is gone.
        let gone =
            |at: Option<usize>| at.is_none_or(|at| self.taken.get(at).copied().unwrap_or(true));
        reader.is_dash(at)
            && (!reader.is_hyphen(at) || gone(at.checked_sub(1)) || gone(Some(at + 1)))
    }

    fn join(&self, positions: &[usize]) -> String {
        let reader = self.reader;
        let mut text = String::with_capacity(reader.text.len());
        let mut before: Option<usize> = None;
        for &at in positions {
            let token = reader.tokens[at];
            if let Some(before) = before {
                let neighbours = before + 1 == at;
                let tight = reader.is_mark(at, &[',', ';', ')', ']', ':', '.'])
                    || reader.is_mark(before, &['(', '[']);
                if !(neighbours && token.glued || tight) {
                    text.push(' ');
                }
            }
            text.push_str(&reader.text[token.start..token.end]);
            before = Some(at);
        }
        text
    }
}

/// Whether a piece word at the end of the food can be what the number counts: `large fries`
/// and `1 large fry` are an order of them.
fn fits(piece: Piece, count: f64) -> bool {
    let alone = count <= 1.0;
    let bunch = alone && (piece.plural || matches!(piece.name, "fry" | "chip"));
    let ware = piece.role == Role::Ware && !piece.leaves_the_food();
    !(bunch || ware || matches!(piece.role, Role::MeasureWithOf | Role::OnlyWithOf))
}

fn is_wordlike(token: &Token) -> bool {
    !matches!(token.kind, Kind::Mark(_))
}
