//! Cuts sentences into foods and the frame around them.

use super::piece::{Piece, Word};
use super::words::{Class, Says, is_frame, is_in, phrase_at, plain_words, praise_at};
use crate::reading::number::Reader;

/// Where in a sentence the cutter is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Mode {
    /// In the frame; a food begins with its amount.
    Frame,
    /// A food follows, with or without its amount.
    Expect,
    /// In a food.
    Food,
    /// In words of time, place or purpose; only an amount with a measure ends them.
    Tail,
}

/// All foods told, in their order.
pub(super) fn cut(reader: &Reader<'_>) -> Vec<Piece> {
    let mut cutter = Cutter {
        reader,
        words: plain_words(reader),
        mode: Mode::Frame,
        food: Vec::new(),
        told_on: false,
        of_each: Vec::new(),
        pieces: Vec::new(),
    };
    let mut at = 0;
    while at < reader.tokens.len() {
        at = cutter.step(at).max(at + 1);
    }
    cutter.close();
    cutter.pieces
}

pub(super) struct Cutter<'r, 'a> {
    pub(super) reader: &'r Reader<'a>,
    /// The words in lower case.
    pub(super) words: Vec<Option<String>>,
    pub(super) mode: Mode,
    /// The food being read.
    pub(super) food: Vec<Word>,
    /// Whether the food is told on, after `that was`: what is not of it there is praise.
    told_on: bool,
    /// The amount of `30 g each of`, which all foods of the list have.
    of_each: Vec<Word>,
    pieces: Vec<Piece>,
}

impl Cutter<'_, '_> {
    /// Reads what begins at `at`; returns where to go on.
    fn step(&mut self, at: usize) -> usize {
        let reader = self.reader;
        if self.ends_sentence(at) {
            self.close();
            self.mode = Mode::Frame;
            self.of_each.clear();
            return at + 1;
        }
        // `I left half of it`: told of the food before.
        if let Ok(Some(found)) = reader.part_eaten(at) {
            let tokens = (at..found.next.max(at + 1)).map(Word::Own);
            if self.names_food() {
                self.food.extend(tokens);
                return found.next.max(at + 1);
            }
            if let Some(piece) = self.pieces.last_mut() {
                piece.words.extend(tokens);
                self.food.clear();
                self.mode = Mode::Tail;
                return found.next.max(at + 1);
            }
        }
        if let Some(next) = self.between_foods(at) {
            if reader.is_mark(at, &[':']) {
                // `two enchiladas: a 120 g one ...`: the list says what they are.
                self.food.clear();
            }
            return self.await_food(next);
        }
        if let Some(next) = self.unknown_verb(at) {
            return self.await_food(next);
        }
        if !self.inside_word(at)
            && let Some((says, next)) = phrase_at(reader, &self.words, at)
            && let Some(next) = self.frame_phrase(says, at, next)
        {
            return next;
        }
        match self.mode {
            Mode::Frame if self.begins_food(at) => self.begin(at),
            Mode::Expect
                if reader
                    .mark(at)
                    .is_some_and(|mark| !matches!(mark, '~' | '.')) =>
            {
                at + 1
            }
            Mode::Expect => self.begin(at),
            Mode::Tail if self.begins_after_tail(at) => self.begin(at),
            Mode::Food => self.go_on(at),
            Mode::Frame | Mode::Tail => at + 1,
        }
    }

    /// Closes what is being read; a food is to come.
    fn await_food(&mut self, next: usize) -> usize {
        self.close();
        self.mode = Mode::Expect;
        next
    }

    /// What words of the frame do to what is being read; `None` where they are words of a food.
    fn frame_phrase(&mut self, says: Says, at: usize, next: usize) -> Option<usize> {
        let in_food = self.mode == Mode::Food && self.names_food();
        let describes = says == Says::Eating && next == at + 1 && self.describes(at);
        let ready = says == Says::Tail && at > 0 && self.reader.is(at - 1, "ready");
        if describes || ready {
            return None;
        }
        match says {
            Says::Lacking => self.lacking(at, next, in_food),
            Says::Glue if in_food => {
                self.told_on = true;
                Some(next)
            }
            Says::Eating | Says::Joint if in_food && self.tells_of_the_same(says, next) => {
                self.food.push(Word::Said(at, "with"));
                Some(next)
            }
            Says::With | Says::Glue if self.goes_on_after_tail(says, at, next) => {
                let before = self.pieces.pop().unwrap_or(Piece { words: Vec::new() });
                self.food = before.words;
                self.mode = Mode::Food;
                self.with(at, next);
                Some(next)
            }
            Says::Eating | Says::Joint | Says::Glue => Some(self.await_food(next)),
            Says::Tail => {
                self.close();
                self.mode = Mode::Tail;
                Some(next)
            }
            Says::With if in_food && self.own_amount(at, next) => {
                let made_of = is_in(Class::MadeOf, &self.words, at) && self.is_measured(next);
                if self.is_only_a_meal() || made_of && self.is_only_a_sort() {
                    self.food.clear();
                }
                Some(self.await_food(next))
            }
            Says::With if in_food => {
                self.with(at, next);
                Some(next)
            }
            Says::With if self.begins_food(next) => Some(self.await_food(next)),
            Says::With => None,
        }
    }

    /// The joining words at `at` in the food; longer ones come to `with`.
    fn with(&mut self, at: usize, next: usize) {
        if is_in(Class::PlainWith, &self.words, at) || is_in(Class::Holds, &self.words, next - 1) {
            self.food.push(Word::Said(at, "with"));
        } else {
            self.food.extend((at..next).map(Word::Own));
        }
    }

    /// `I skipped the peel`, `excluding carrots`: what the food before lacks.
    fn lacking(&mut self, at: usize, next: usize, in_food: bool) -> Option<usize> {
        if !in_food {
            if self.mode == Mode::Food {
                self.close();
            }
            self.food = self.pieces.pop()?.words;
            self.mode = Mode::Food;
        }
        self.told_on = false;
        while self.food.last().is_some_and(|word| self.is_idle(*word)) {
            self.food.pop();
        }
        self.food.push(Word::Said(at, "without"));
        Some(next)
    }

    /// `accompanied by noodles` of a weighed dish: what has no amount of its own is part of it.
    fn tells_of_the_same(&self, says: Says, next: usize) -> bool {
        if says == Says::Eating {
            return self.parts_follow(next) && !self.begins_measured(next);
        }
        self.is_weighed() && !self.begins_food(next) && self.holds_food(next)
    }

    /// `for lunch, featuring a frankfurter`: more of the food before the tail.
    fn goes_on_after_tail(&self, says: Says, at: usize, next: usize) -> bool {
        let telling = match says {
            // `which included chicken`, but `which was delicious`.
            Says::Glue => is_in(Class::Holds, &self.words, next - 1),
            _ => next > at + 1 || is_in(Class::PlainWith, &self.words, at),
        };
        self.mode == Mode::Tail
            && telling
            && !self.pieces.is_empty()
            && !self.begins_measured(next)
            && self.holds_food(next)
    }

    /// A food begins.
    fn begin(&mut self, at: usize) -> usize {
        self.mode = Mode::Food;
        let reader = self.reader;
        let next = self.amount_at(at).map_or(at, |found| found.next);
        if next > at && !reader.is_article(at) {
            self.of_each.clear();
        }
        if next == at {
            self.food.extend(&self.of_each);
        }
        // Praise inside an amount is left out with the rest of it.
        let mut token = at;
        while token < next.max(at + 1) {
            if let Some(after) = praise_at(reader, &self.words, token) {
                token = after;
                continue;
            }
            if token == at && reader.is(at, "another") {
                self.food.push(Word::Said(at, "a"));
                token += 1;
                continue;
            }
            self.food.push(Word::Own(token));
            token += 1;
        }
        if next > at
            && let Some(food) = self.behind_each_of(token)
        {
            self.food
                .retain(|word| !reader.is_any(word.at(), &["each", "of"]));
            self.of_each = self.food.clone();
            return food;
        }
        token
    }

    /// Where the foods of `30 g each of` begin: `token` stands behind the amount, of which the
    /// reader may have taken the `each` and the `of` as well.
    fn behind_each_of(&self, token: usize) -> Option<usize> {
        let each_of = |at: usize| self.reader.is(at, "each") && self.reader.is(at + 1, "of");
        (token.checked_sub(2)?..=token)
            .find(|at| each_of(*at))
            .map(|at| at + 2)
    }

    /// A word inside a food.
    fn go_on(&mut self, at: usize) -> usize {
        let reader = self.reader;
        if let Some(next) = praise_at(reader, &self.words, at)
            && !self.is_the_noun(next)
        {
            return next;
        }
        let word = self.words[at].as_deref();
        if self.told_on && word.is_some_and(is_frame) {
            return at + 1;
        }
        // `a sweet, juicy pear`: words of praise parted by a comma.
        if reader.is_mark(at, &[',']) && self.is_one_adjective() && self.word_follows(at) {
            return at + 1;
        }
        if reader.is_mark(at, &[',']) && !self.names_beyond_amount() {
            let words = &self.words;
            self.food
                .retain(|word| !is_adjective(words[word.at()].as_deref()));
            return at + 1;
        }
        // `a snack of 28 g chips`: what came before was frame.
        if reader.is(at, "of") && !self.names_food() && !self.counts() {
            self.food.clear();
            self.mode = Mode::Expect;
            return at + 1;
        }
        let article = reader.is_article(at) || is_in(Class::Article, &self.words, at);
        if !article || self.food.is_empty() {
            self.food.push(Word::Own(at));
        }
        at + 1
    }

    /// A word of praise behind a food's name that ends it is its noun: `a chicken tender`.
    fn is_the_noun(&self, next: usize) -> bool {
        let ends = self.words.get(next).is_none_or(Option::is_none)
            || phrase_at(self.reader, &self.words, next).is_some();
        ends && !self.told_on && self.ends_with_food()
    }

    /// Ends the food being read.
    fn close(&mut self) {
        let names = self.names_food();
        self.told_on = false;
        let mut food = std::mem::take(&mut self.food);
        while food.last().is_some_and(|word| self.is_idle(*word)) {
            food.pop();
        }
        if !names || food.is_empty() || self.is_a_quality(&food) {
            return;
        }
        self.pieces.push(Piece { words: food });
    }

    /// `savoring its hearty flavor`, `adding a satisfying crunch`: praise of what was told before.
    fn is_a_quality(&self, food: &[Word]) -> bool {
        let ends = food
            .last()
            .is_some_and(|word| is_in(Class::Quality, &self.words, word.at()));
        let joins = |word: &Word| {
            matches!(word, Word::Said(_, "with" | "without"))
                || is_in(Class::Under, &self.words, word.at())
                || self.reader.is_mark(word.at(), &[','])
                || self.reader.is_any(word.at(), &["of", "with"])
        };
        ends && !food.iter().any(joins)
    }

    /// Whether a word says nothing at the end of a food.
    fn is_idle(&self, word: Word) -> bool {
        let mark = |mark: char| !matches!(mark, ')' | ']' | '%' | '"');
        self.reader.mark(word.at()).is_some_and(mark)
            || matches!(word, Word::Said(..))
            || is_in(Class::Idle, &self.words, word.at())
    }

    /// How many foods of a list with one amount are still to come: whether a comma parts them.
    pub(super) fn lists_each(&self) -> bool {
        !self.of_each.is_empty() && self.mode == Mode::Food && self.names_beyond_amount()
    }
}

/// Words of praise that can also be part of a food's name: `sweet`, `light`.
fn is_adjective(word: Option<&str>) -> bool {
    word.is_some_and(|word| is_frame(word) && !matches!(word, "a" | "an"))
}
