//! What the cutter asks of a sentence: where foods begin and end, and whose an amount is.

use super::cut::{Cutter, Mode};
use super::piece::{Word, is_weight};
use super::words::{Class, Says, in_class, is_frame, is_in, phrase_at, praise_at};
use crate::reading::scan::{Found, Position, What};

/// Words looked through for the noun of a part: `with two medium seasoned patties`.
const PART_WORDS: usize = 6;
/// Words between an article and the weight it belongs to: `a generous drizzle of 15 g`.
const WORDS_IN_AMOUNT: usize = 5;
/// Words between a food and the weight told behind it: `a soft white roll weighing 52 g`.
const WORDS_TO_WEIGHT: usize = 8;

impl Cutter<'_, '_> {
    /// `with added calcium`, `commercially prepared salsa`: the word tells of the food, unless
    /// somebody did it.
    pub(super) fn describes(&self, at: usize) -> bool {
        if !is_in(Class::Ambiguous, &self.words, at) {
            return false;
        }
        let reader = self.reader;
        let Some(before) = at.checked_sub(1) else {
            return false;
        };
        let mark = reader.mark(before);
        if mark.is_some_and(|mark| matches!(mark, ';' | '.')) {
            return false;
        }
        // `fruit, milk and added protein` goes on, `and added 15 g of cream` is told anew.
        if mark == Some(',') || reader.is(before, "and") {
            return self.mode == Mode::Food && !self.begins_food(at + 1);
        }
        !is_in(Class::Doer, &self.words, before)
    }

    /// `I sated my hunger with`, `we nibbled on`: a verb that the table does not know.
    pub(super) fn unknown_verb(&self, at: usize) -> Option<usize> {
        let reader = self.reader;
        if !reader.is_any(at, &["i", "we"]) {
            return None;
        }
        let verb = (at + 1..at + 4).find(|&verb| {
            self.word(verb)
                .is_some_and(|word| word.len() > 3 && word.ends_with("ed"))
        })?;
        let known = (at + 1..=verb).any(|at| phrase_at(reader, &self.words, at).is_some());
        if known {
            return None;
        }
        let after = verb + 1;
        Some(after + usize::from(is_in(Class::VerbEnd, &self.words, after)))
    }

    /// The word at `at` in lower case.
    fn word(&self, at: usize) -> Option<&str> {
        self.words.get(at)?.as_deref()
    }

    /// A comma, `and` or both, with an amount behind them: the position of the next food.
    pub(super) fn between_foods(&self, at: usize) -> Option<usize> {
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
        if self.lists_each() && self.holds_food(next) {
            return Some(next);
        }
        if self.mode == Mode::Food && self.is_in_a_plain_list(at, next) {
            return Some(next);
        }
        let part = self.mode == Mode::Food && self.tells_parts() && self.parts_follow(next);
        (!part && self.begins_food(next)).then_some(next)
    }

    /// `eggs, bacon, toast and coffee`: three foods or more, none with an amount, and nothing
    /// that would make them the parts of one (`egg, cheese and ham on a roll`).
    fn is_in_a_plain_list(&self, at: usize, next: usize) -> bool {
        let first = self.food.first().map_or(at, |word| word.at());
        if self.amount_at(first).is_some() || self.tells_parts() || !self.holds_food(next) {
            return false;
        }
        let mut joints = 0;
        let mut last = None;
        for place in self.list_from(first)..self.reader.tokens.len() {
            if self.reader.is_mark(place, &[',']) {
                joints += usize::from(!self.reader.is(place + 1, "and"));
            } else if self.reader.is(place, "and") {
                joints += 1;
            } else if self.ends_sentence(place) {
                break;
            } else {
                match phrase_at(self.reader, &self.words, place) {
                    Some((Says::With, _)) => return false,
                    Some(_) => break,
                    None => last = self.word(place),
                }
            }
        }
        let sort = last.is_some_and(|word| {
            in_class(Class::Sort, word)
                || in_class(Class::Meal, word)
                || in_class(Class::Part, word)
        });
        joints >= 2 && !sort
    }

    /// Where the list that the word at `first` stands in begins: behind the last words of the
    /// frame or amount before it.
    fn list_from(&self, first: usize) -> usize {
        let own = |at: usize| {
            let joint = self.reader.is_mark(at, &[',']) || self.reader.is(at, "and");
            joint
                || self.word(at).is_some()
                    && self.amount_at(at).is_none()
                    && phrase_at(self.reader, &self.words, at).is_none()
        };
        (0..first)
            .rev()
            .take_while(|at| own(*at))
            .last()
            .unwrap_or(first)
    }

    /// Whether the food being read has got to its parts: `on a bun with`.
    fn tells_parts(&self) -> bool {
        self.food.iter().any(|word| match word {
            Word::Said(..) => true,
            Word::Own(at) => {
                is_in(Class::BeforeParts, &self.words, *at) || is_in(Class::Part, &self.words, *at)
            }
        })
    }

    /// `half and half` is a cream.
    fn is_half_and_half(&self, at: usize) -> bool {
        at > 0 && self.reader.is(at - 1, "half") && self.reader.is(at + 1, "half")
    }

    /// Whether the token at `at` is joined to the one before by a hyphen: `ready-to-eat`.
    pub(super) fn inside_word(&self, at: usize) -> bool {
        at > 0 && self.reader.is_hyphen(at - 1)
    }

    /// Whether a food begins at `at` with its amount.
    pub(super) fn begins_food(&self, at: usize) -> bool {
        let amount = self.amount_at(at).is_some()
            || self
                .reader
                .is_any(at, &["some", "another", "several", "plenty", "lots"]);
        amount && self.holds_food(at)
    }

    /// Whether a food begins at `at` with an amount that is more than an article.
    pub(super) fn begins_measured(&self, at: usize) -> bool {
        let measured = !self.reader.is_article(at) || self.is_measured(at);
        measured && self.begins_food(at)
    }

    /// Whether words other than the frame's stand between `at` and the next cut.
    pub(super) fn holds_food(&self, at: usize) -> bool {
        let reader = self.reader;
        let mut at = at;
        while at < reader.tokens.len() && !self.ends_sentence(at) {
            let stops = reader.is_mark(at, &[',', ';'])
                || matches!(
                    phrase_at(reader, &self.words, at),
                    Some((Says::Eating | Says::Joint | Says::Tail | Says::Lacking, _))
                );
            if stops {
                return false;
            }
            if let Some(next) = praise_at(reader, &self.words, at) {
                at = next;
                continue;
            }
            if let Some(word) = self.word(at)
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
    pub(super) fn amount_at(&self, at: usize) -> Option<Found> {
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
    pub(super) fn own_amount(&self, at: usize, next: usize) -> bool {
        let measured = self.is_measured(next) || self.is_weighed() && self.is_weighed_behind(next);
        if is_in(Class::Vague, &self.words, next)
            || !measured && self.parts_follow(next)
            || !self.begins_food(next)
        {
            return false;
        }
        // `an omelet made with two eggs` has them; `a sandwich` is only what it is made of.
        if is_in(Class::MadeOf, &self.words, at) && !self.is_only_a_sort() && !self.is_only_a_meal()
        {
            return self.is_weighed() && measured;
        }
        let article = self.reader.is_article(next);
        let under = is_in(Class::Under, &self.words, at);
        // Of a sandwich that is only called so, and where weights are told, what has no measure
        // is a part.
        let only_told =
            (self.is_weighed() || self.is_only_a_sort()) && self.is_only_an_article(next);
        !(article && (under || only_told)) || measured
    }

    /// Whether the amount at `at` says no more than that there is one.
    fn is_only_an_article(&self, at: usize) -> bool {
        let plain = |found: Found| {
            let one = What::Count {
                piece: None,
                size: None,
                inches: None,
            };
            found.what == one
        };
        self.reader.is_article(at) && self.amount_at(at).is_some_and(plain)
    }

    /// Whether an amount with a unit or a piece stands at `at`.
    pub(super) fn is_measured(&self, at: usize) -> bool {
        let measured = self.amount_at(at).is_some_and(|found| {
            found.is_measured() && !found.loose
                || matches!(found.what, What::Count { piece: Some(_), .. })
        });
        measured || self.is_weighed_soon(at)
    }

    /// `a tiny 1 g`, `a drizzle of 15 g`: a weight behind a few words for the amount.
    fn is_weighed_soon(&self, at: usize) -> bool {
        for next in at..at + WORDS_IN_AMOUNT {
            if self.reader.is_number(next) {
                return is_weight(self.reader, next);
            }
            if self.word(next).is_none() || phrase_at(self.reader, &self.words, next).is_some() {
                return false;
            }
        }
        false
    }

    /// `a soft white roll weighing 52 g`.
    fn is_weighed_behind(&self, at: usize) -> bool {
        for next in at..at + WORDS_TO_WEIGHT {
            if let Some((Says::Glue, after)) = phrase_at(self.reader, &self.words, next) {
                return is_weight(self.reader, after);
            }
            if self.word(next).is_none() {
                return false;
            }
        }
        false
    }

    /// Whether the food being read has a weight.
    pub(super) fn is_weighed(&self) -> bool {
        self.food
            .iter()
            .any(|word| self.reader.is_number(word.at()) && is_weight(self.reader, word.at()))
    }

    /// `with a creamy sauce`, `with two medium patties`: parts of the same food.
    pub(super) fn parts_follow(&self, at: usize) -> bool {
        if self.is_measured(at) {
            return false;
        }
        let reader = self.reader;
        let mut last = None;
        for next in at..at + PART_WORDS {
            if reader.word(next).is_none() && !reader.is_number(next) && !reader.is_hyphen(next) {
                break;
            }
            if next > at
                && (reader.is_any(next, &["with", "of", "on", "in", "and", "from"])
                    || phrase_at(reader, &self.words, next).is_some())
            {
                break;
            }
            last = self.word(next);
        }
        last.is_some_and(|word| in_class(Class::Part, word))
    }

    /// In words of time or purpose: an amount with a measure, or a number.
    pub(super) fn begins_after_tail(&self, at: usize) -> bool {
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

    /// Whether words behind the amount hold more than frame: `150 g of sweet, juicy grapes`.
    pub(super) fn names_beyond_amount(&self) -> bool {
        let first = self.food.first().map_or(0, |word| word.at());
        let from = self.amount_at(first).map_or(first, |found| found.next);
        self.food
            .iter()
            .filter(|word| word.at() >= from)
            .any(|word| self.is_food_word(*word))
    }

    fn is_food_word(&self, word: Word) -> bool {
        matches!(word, Word::Own(at) if self.word(at).is_some_and(|word| !is_frame(word))
            && self.reader.number(at).ok().flatten().is_none())
    }

    /// Whether the words so far hold more than frame.
    pub(super) fn names_food(&self) -> bool {
        self.food.iter().any(|word| self.is_food_word(*word))
    }

    /// Whether the last word so far is one of a food's name.
    pub(super) fn ends_with_food(&self) -> bool {
        let last = self.food.last().copied();
        self.names_beyond_amount() && last.is_some_and(|word| self.is_food_word(word))
    }

    /// The words so far that name the food, without those of its amount.
    fn food_words(&self) -> impl Iterator<Item = &str> {
        let first = self.food.first().map_or(0, |word| word.at());
        let from = self.amount_at(first).map_or(first, |found| found.next);
        self.food
            .iter()
            .filter(move |word| word.at() >= from)
            .filter_map(|word| self.word(word.at()))
    }

    /// `a large frozen meal` with measured foods behind it: the meal is what they make.
    pub(super) fn is_only_a_meal(&self) -> bool {
        self.food_words()
            .last()
            .is_some_and(|word| in_class(Class::Meal, word))
    }

    /// `a sandwich` and no more: what follows says of what.
    pub(super) fn is_only_a_sort(&self) -> bool {
        let mut words = self.food_words().filter(|word| !is_frame(word));
        let sort = |word: &str| in_class(Class::Sort, word) || in_class(Class::Meal, word);
        words.next().is_some_and(sort) && words.next().is_none()
    }

    /// `a fruity, caffeine-free soft drink`: one word so far, which by its form tells of what
    /// follows.
    pub(super) fn is_one_adjective(&self) -> bool {
        const ENDINGS: [&str; 5] = ["less", "ful", "ous", "ed", "y"];
        let mut words = self.food_words();
        let first = words.next();
        words.next().is_none()
            && first.is_some_and(|word| {
                word.len() > 4 && ENDINGS.iter().any(|ending| word.ends_with(ending))
            })
    }

    /// Whether a plain word stands behind the mark at `at`, and neither an amount nor a joint.
    pub(super) fn word_follows(&self, at: usize) -> bool {
        let next = at + 1;
        self.word(next).is_some()
            && !self.reader.is_any(next, &["and", "or"])
            && self.amount_at(next).is_none()
            && phrase_at(self.reader, &self.words, next).is_none()
    }

    /// Whether the words so far are an amount with a measure.
    pub(super) fn counts(&self) -> bool {
        let Some(first) = self.food.first() else {
            return false;
        };
        self.amount_at(first.at()).is_some_and(|found| {
            found.is_measured() || matches!(found.what, What::Count { piece: Some(_), .. })
        })
    }

    /// A full stop that is no point of an abbreviation.
    pub(super) fn ends_sentence(&self, at: usize) -> bool {
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
