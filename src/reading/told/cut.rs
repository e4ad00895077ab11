//! Cuts sentences into foods and the frame around them.

use super::words::{Says, is_frame, is_part, phrase_at, plain, praise_at};
use crate::reading::number::{Reader, number_word};
use crate::reading::phrase::PhraseRole;
use crate::reading::scan::{Found, Position, What};

/// The tokens of one food and its amount, in order, without the frame between them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Piece {
    tokens: Vec<usize>,
}

impl Piece {
    /// Where it stands in the text, in bytes.
    pub(super) fn span(&self, reader: &Reader<'_>) -> (usize, usize) {
        let token = |at: Option<&usize>| at.and_then(|at| reader.tokens.get(*at));
        let start = token(self.tokens.first()).map_or(0, |token| token.start);
        (
            start,
            token(self.tokens.last()).map_or(start, |token| token.end),
        )
    }

    /// The role of its amount, where that ends and where the food begins, in bytes.
    pub(super) fn amount(&self, reader: &Reader<'_>) -> Option<(PhraseRole, usize, usize)> {
        let first = *self.tokens.first()?;
        let found = reader.amount_at(first, Position::Start).ok().flatten()?;
        let role = match found.what {
            What::Weight(_) | What::Volume(_) => PhraseRole::Amount,
            What::Count { size: Some(_), .. } => PhraseRole::Size,
            What::Count { .. } | What::Times => PhraseRole::Count,
        };
        let end = reader.tokens.get(found.text_end.checked_sub(1)?)?.end;
        let food = self.tokens.iter().find(|&&at| at >= found.next)?;
        Some((role, end, reader.tokens.get(*food)?.start.max(end)))
    }

    /// This and what was said of it further on.
    pub(super) fn joined(&self, more: &Self) -> Self {
        let tokens = self.tokens.iter().chain(&more.tokens).copied();
        Self {
            tokens: tokens.collect(),
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
            .tokens
            .iter()
            .take_while(|&&at| number(at) || reader.is_article(at))
            .count();
        let kept = self
            .tokens
            .iter()
            .enumerate()
            .filter(|&(index, &at)| index <= head || !number(at));
        Self {
            tokens: kept.map(|(_, at)| *at).collect(),
        }
    }

    /// Its words, as somebody would write them in a line of their own.
    pub(super) fn words(&self, reader: &Reader<'_>) -> String {
        let mut text = String::new();
        let mut before: Option<usize> = None;
        for &at in &self.tokens {
            let token = reader.tokens[at];
            let tight = before.is_some_and(|before| before + 1 == at) && token.glued;
            if !(text.is_empty() || tight) {
                text.push(' ');
            }
            text.push_str(&reader.text[token.start..token.end]);
            before = Some(at);
        }
        text
    }
}

/// Where in a sentence the cutter is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Mode {
    /// In the frame; a food begins with its amount.
    Frame,
    /// A food follows, with or without its amount.
    Expect,
    /// In a food.
    Food,
    /// In words of time, place or purpose; only an amount with a measure ends them.
    Tail,
}

/// Whether the text tells what somebody ate.
pub(super) fn is_told(reader: &Reader<'_>) -> bool {
    let words = plain_words(reader);
    let word = |at: usize| words.get(at).and_then(Option::as_deref);
    let eats = |at: usize| matches!(phrase_at(reader, &words, at), Some((Says::Eating, _)));
    let eats_near = |at: usize| (at..at + 5).any(eats);
    let first = (0..words.len())
        .find(|at| words[*at].is_some())
        .unwrap_or(0);
    // `Had two eggs`, `Just ate a bagel`.
    let begins = |at: usize| matches!(word(at), Some("had" | "ate" | "drank" | "eaten"));
    if begins(first) || word(first) == Some("just") && begins(first + 1) {
        return true;
    }
    (0..words.len()).any(|at| match word(at) {
        Some("i" | "we") => {
            let past =
                |at: usize| word(at).is_some_and(|word| word.len() > 3 && word.ends_with("ed"));
            eats_near(at) || (at + 1..at + 4).any(past)
        }
        Some("breakfast" | "lunch" | "dinner" | "supper" | "brunch" | "snack" | "meal") => {
            let whose = at.checked_sub(1).is_none_or(|before| {
                word(before).is_some_and(|word| is_frame(word) || word.ends_with("'s"))
            });
            whose && (at + 1..at + 4).any(|at| is_verb_of_meals(word(at), word(at + 1)))
        }
        _ => false,
    })
}

/// `was`, `consisted of`: what a meal does in a sentence.
fn is_verb_of_meals(word: Option<&str>, next: Option<&str>) -> bool {
    matches!(
        word,
        Some("was" | "included" | "featured" | "comprised" | "contained")
    ) || matches!((word, next), (Some("consisted" | "consists"), Some(_)))
}

fn plain_words(reader: &Reader<'_>) -> Vec<Option<String>> {
    (0..reader.tokens.len())
        .map(|at| plain(reader, at))
        .collect()
}

/// All foods told, in their order.
pub(super) fn cut(reader: &Reader<'_>) -> Vec<Piece> {
    let mut cutter = Cutter {
        reader,
        words: plain_words(reader),
        mode: Mode::Frame,
        food: Vec::new(),
        told_on: false,
        pieces: Vec::new(),
    };
    let mut at = 0;
    while at < reader.tokens.len() {
        at = cutter.step(at).max(at + 1);
    }
    cutter.close();
    cutter.pieces
}

struct Cutter<'r, 'a> {
    reader: &'r Reader<'a>,
    words: Vec<Option<String>>,
    mode: Mode,
    food: Vec<usize>,
    /// Whether the food is told on, after `that was`: what is not of it there is praise.
    told_on: bool,
    pieces: Vec<Piece>,
}

impl Cutter<'_, '_> {
    /// Reads what begins at `at`; returns where to go on.
    fn step(&mut self, at: usize) -> usize {
        let reader = self.reader;
        if self.ends_sentence(at) {
            self.close();
            self.mode = Mode::Frame;
            return at + 1;
        }
        // `I left half of it`: told of the food before.
        if let Ok(Some(found)) = reader.part_eaten(at) {
            let tokens = at..found.next.max(at + 1);
            if self.names_food() {
                self.food.extend(tokens);
                return found.next.max(at + 1);
            }
            if let Some(piece) = self.pieces.last_mut() {
                piece.tokens.extend(tokens);
                self.food.clear();
                self.mode = Mode::Tail;
                return found.next.max(at + 1);
            }
        }
        if let Some(next) = self.between_foods(at) {
            self.close();
            self.mode = Mode::Expect;
            return next;
        }
        if let Some(next) = self.unknown_verb(at) {
            self.close();
            self.mode = Mode::Expect;
            return next;
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
    #[expect(
        clippy::unnecessary_wraps,
        reason = "the answer of every arm of `frame_phrase`"
    )]
    fn await_food(&mut self, next: usize) -> Option<usize> {
        self.close();
        self.mode = Mode::Expect;
        Some(next)
    }

    /// What words of the frame do to what is being read.
    fn frame_phrase(&mut self, says: Says, at: usize, next: usize) -> Option<usize> {
        let in_food = self.mode == Mode::Food && self.names_food();
        if says == Says::Eating && next == at + 1 && self.describes(at) {
            return None;
        }
        match says {
            Says::Tail if at > 0 && self.reader.is(at - 1, "ready") => None,
            Says::Glue if in_food => {
                self.told_on = true;
                Some(next)
            }
            Says::Eating | Says::Joint | Says::Glue => self.await_food(next),
            Says::Tail => {
                self.close();
                self.mode = Mode::Tail;
                Some(next)
            }
            Says::With if in_food && self.own_amount(at, next) => self.await_food(next),
            Says::With if in_food => {
                self.food.extend(at..next);
                Some(next)
            }
            Says::With if self.begins_food(next) => self.await_food(next),
            Says::With => None,
        }
    }

    /// `with added calcium`, `commercially prepared salsa`: the word tells of the food, unless
    /// somebody did it.
    fn describes(&self, at: usize) -> bool {
        let reader = self.reader;
        let ambiguous = reader.is_any(
            at,
            &[
                "added", "prepared", "opened", "poured", "finished", "ordered", "tried",
            ],
        );
        let done = at.checked_sub(1).is_none_or(|before| {
            reader
                .mark(before)
                .is_some_and(|mark| matches!(mark, ',' | ';' | '.'))
                || reader.is_any(
                    before,
                    &[
                        "i", "we", "and", "also", "then", "which", "that", "just", "even",
                        "quickly", "simply",
                    ],
                )
        });
        ambiguous && !done
    }

    /// `I sated my hunger with`, `we nibbled on`: a verb that the table does not know.
    fn unknown_verb(&self, at: usize) -> Option<usize> {
        let reader = self.reader;
        if !reader.is_any(at, &["i", "we"]) {
            return None;
        }
        let verb = (at + 1..at + 4).find(|&verb| {
            self.words
                .get(verb)
                .and_then(Option::as_deref)
                .is_some_and(|word| word.len() > 3 && word.ends_with("ed"))
        })?;
        let known = (at + 1..=verb).any(|at| phrase_at(reader, &self.words, at).is_some());
        if known {
            return None;
        }
        let after = verb + 1;
        let joint = reader.is_any(
            after,
            &[
                "on", "to", "with", "in", "at", "for", "into", "up", "down", "open",
            ],
        );
        Some(after + usize::from(joint))
    }

    /// A comma, `and` or both, with an amount behind them: the position of the next food.
    fn between_foods(&self, at: usize) -> Option<usize> {
        let reader = self.reader;
        let joins = |at: usize| {
            reader.is_mark(at, &[',', ';', '&', '+', ':'])
                || reader.is_any(at, &["and", "plus", "then", "also"])
        };
        if !joins(at) {
            return None;
        }
        let mut next = at;
        while joins(next) {
            next += 1;
        }
        if self.mode == Mode::Food && self.is_half_and_half(at) {
            return None;
        }
        let part = self.mode == Mode::Food && self.parts_follow(next);
        (!part && self.begins_food(next)).then_some(next)
    }

    /// `half and half` is a cream.
    fn is_half_and_half(&self, at: usize) -> bool {
        at > 0 && self.reader.is(at - 1, "half") && self.reader.is(at + 1, "half")
    }

    /// Whether the token at `at` is joined to the one before by a hyphen: `ready-to-eat`.
    fn inside_word(&self, at: usize) -> bool {
        at > 0 && self.reader.is_hyphen(at - 1)
    }

    /// Whether a food begins at `at` with its amount.
    fn begins_food(&self, at: usize) -> bool {
        let amount = self.amount_at(at).is_some()
            || self
                .reader
                .is_any(at, &["some", "another", "several", "plenty", "lots"]);
        amount && self.holds_food(at)
    }

    /// Whether words other than the frame's stand between `at` and the next cut.
    fn holds_food(&self, at: usize) -> bool {
        let reader = self.reader;
        let mut at = at;
        while at < reader.tokens.len() && !self.ends_sentence(at) {
            let stops = reader.is_mark(at, &[',', ';'])
                || matches!(
                    phrase_at(reader, &self.words, at),
                    Some((Says::Eating | Says::Joint | Says::Tail, _))
                );
            if stops {
                return false;
            }
            if let Some(next) = praise_at(reader, &self.words, at) {
                at = next;
                continue;
            }
            if let Some(word) = self.words[at].as_deref()
                && !is_frame(word)
                && reader.number(at).ok().flatten().is_none()
            {
                return true;
            }
            at += 1;
        }
        false
    }

    /// The amount that begins at `at`, with praise between its words left out: `a hearty 84 g`.
    fn amount_at(&self, at: usize) -> Option<Found> {
        let reader = self.reader;
        if reader.fixed(at) > 0 {
            return None;
        }
        let plain = reader.amount_at(at, Position::Start).ok().flatten();
        if plain.is_some() && !reader.is_article(at) {
            return plain;
        }
        let mut next = at + usize::from(reader.is_article(at));
        while let Some(after) = praise_at(reader, &self.words, next) {
            next = after;
        }
        let inner = reader.amount_at(next, Position::Start).ok().flatten();
        inner.or(plain)
    }

    /// Whether the amount at `next`, behind a joining word at `at`, is one of a food of its own
    /// rather than of a part: `toast with 2 eggs`, but `on a biscuit`.
    fn own_amount(&self, at: usize, next: usize) -> bool {
        let reader = self.reader;
        let vague = reader.is_any(
            next,
            &["some", "several", "plenty", "lots", "half", "extra"],
        );
        let under = reader.is_any(
            at,
            &[
                "on", "in", "over", "by", "nestled", "served", "wrapped", "bathed", "coated",
                "dipped",
            ],
        );
        if vague || self.parts_follow(next) || !self.begins_food(next) {
            return false;
        }
        !(under && reader.is_article(next)) || self.is_measured(next)
    }

    /// Whether an amount with a unit or a piece stands at `at`.
    fn is_measured(&self, at: usize) -> bool {
        self.amount_at(at).is_some_and(|found| {
            found.is_measured() && !found.loose
                || matches!(found.what, What::Count { piece: Some(_), .. })
        })
    }

    /// `with a creamy sauce`, `with two medium patties`: parts of the same food.
    fn parts_follow(&self, at: usize) -> bool {
        let reader = self.reader;
        if self.is_measured(at) {
            return false;
        }
        for next in at..at + 6 {
            if reader.word(next).is_none() && !reader.is_number(next) && !reader.is_hyphen(next) {
                return false;
            }
            if self
                .words
                .get(next)
                .and_then(Option::as_deref)
                .is_some_and(is_part)
            {
                return true;
            }
            if next > at && reader.is_any(next, &["with", "of", "on", "in", "and"]) {
                return false;
            }
        }
        false
    }

    /// In words of time or purpose: an amount with a measure, or a number.
    fn begins_after_tail(&self, at: usize) -> bool {
        let reader = self.reader;
        let Some(found) = self.amount_at(at) else {
            return false;
        };
        let certain = found.is_measured() && !found.loose
            || matches!(found.what, What::Count { piece: Some(_), .. });
        let joined = at > 0
            && (reader.is_any(at - 1, &["of", "with", "for", "on", "by", "was"])
                || reader.is_number(at));
        certain && joined && self.holds_food(at)
    }

    /// A food begins.
    fn begin(&mut self, at: usize) -> usize {
        self.mode = Mode::Food;
        let next = self.amount_at(at).map_or(at, |found| found.next);
        // Praise inside an amount is left out with the rest of it.
        let mut token = at;
        while token < next.max(at + 1) {
            if let Some(after) = praise_at(self.reader, &self.words, token) {
                token = after;
                continue;
            }
            self.food.push(token);
            token += 1;
        }
        token
    }

    /// A word inside a food.
    fn go_on(&mut self, at: usize) -> usize {
        let reader = self.reader;
        if let Some(next) = praise_at(reader, &self.words, at) {
            return next;
        }
        let word = self.words[at].as_deref();
        if self.told_on && word.is_some_and(is_frame) {
            return at + 1;
        }
        // `a sweet, juicy pear`: words of praise parted by a comma.
        if reader.is_mark(at, &[',']) && !self.names_beyond_amount() {
            let words = &self.words;
            self.food.retain(|&at| !is_adjective(words[at].as_deref()));
            return at + 1;
        }
        // `a snack of 28 g chips`: what came before was frame.
        if reader.is(at, "of") && !self.names_food() && !self.counts() {
            self.food.clear();
            self.mode = Mode::Expect;
            return at + 1;
        }
        let article = reader.is_article(at)
            || reader.is_any(at, &["the", "my", "its", "this", "these", "some", "their"]);
        if !article || self.food.is_empty() {
            self.food.push(at);
        }
        at + 1
    }

    /// Whether words behind the amount hold more than frame: `150 g of sweet, juicy grapes`.
    fn names_beyond_amount(&self) -> bool {
        let first = self.food.first().copied().unwrap_or(0);
        let from = self.amount_at(first).map_or(first, |found| found.next);
        self.food.iter().filter(|at| **at >= from).any(|&at| {
            let word = self.words[at].as_deref();
            word.is_some_and(|word| !is_frame(word))
        })
    }

    /// Whether the words so far hold more than frame.
    fn names_food(&self) -> bool {
        self.food.iter().any(|&at| {
            self.words[at]
                .as_deref()
                .is_some_and(|word| !is_frame(word))
                && self.reader.number(at).ok().flatten().is_none()
        })
    }

    /// Whether the words so far are an amount with a measure.
    fn counts(&self) -> bool {
        let Some(&first) = self.food.first() else {
            return false;
        };
        self.amount_at(first).is_some_and(|found| {
            found.is_measured() || matches!(found.what, What::Count { piece: Some(_), .. })
        })
    }

    /// Ends the food being read.
    fn close(&mut self) {
        let names = self.names_food();
        self.told_on = false;
        let mut tokens = std::mem::take(&mut self.food);
        let idle = |at: usize| {
            self.reader
                .mark(at)
                .is_some_and(|mark| !matches!(mark, ')' | ']' | '%' | '"'))
                || self.reader.is_any(
                    at,
                    &[
                        "and",
                        "with",
                        "of",
                        "on",
                        "in",
                        "or",
                        "by",
                        "from",
                        "also",
                        "featuring",
                        "including",
                        "i",
                        "we",
                        "which",
                        "that",
                    ],
                )
        };
        while tokens.last().is_some_and(|&at| idle(at)) {
            tokens.pop();
        }
        if !names || tokens.is_empty() {
            return;
        }
        let lacking = self.reader.is_any(tokens[0], &["without", "no", "minus"]);
        match self.pieces.last_mut() {
            // `which I ate without the skin`.
            Some(before) if lacking => before.tokens.extend(tokens),
            _ => self.pieces.push(Piece { tokens }),
        }
    }

    /// A full stop that is no point of an abbreviation.
    fn ends_sentence(&self, at: usize) -> bool {
        let reader = self.reader;
        if reader.is_mark(at, &['!', '?', '\n']) {
            return true;
        }
        if !reader.is_mark(at, &['.']) {
            return false;
        }
        let unit = at > 0
            && reader
                .word(at - 1)
                .is_some_and(|word| crate::reading::units::unit_word(word).is_some());
        let goes_on = reader
            .word(at + 1)
            .is_some_and(|word| word.starts_with(char::is_lowercase));
        !(unit && goes_on)
    }
}

/// Words of praise that can also be part of a food's name: `sweet`, `light`.
fn is_adjective(word: Option<&str>) -> bool {
    word.is_some_and(|word| is_frame(word) && !matches!(word, "a" | "an"))
}
