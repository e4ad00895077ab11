//! How many: digits, fractions, number words and ranges.

use super::error::{ErrorKind, Problem};
use super::tokens::{Kind, Token};
use super::units::UnitSystem;
use crate::quantity::Range;
use crate::words::spelt_number;

/// A line with its tokens; all grammar is methods on it. A position is an index of a token;
/// positions past the end are allowed and hold nothing.
pub(super) struct Reader<'a> {
    pub text: &'a str,
    pub tokens: &'a [Token],
    pub units: UnitSystem,
    /// The text is an amount and nothing else.
    pub amount_only: bool,
}

/// A number read from text.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Number {
    pub range: Range,
    /// First position after it.
    pub next: usize,
    /// End of what is worth keeping as text: `half an` is `half`.
    pub text_end: usize,
    /// It was only `a` or `an`.
    pub article: bool,
    /// It was `a few`, `several`.
    pub vague: bool,
}

/// One figure and the position after it.
type Figure = Option<(f64, usize)>;

impl Reader<'_> {
    pub(super) fn kind(&self, at: usize) -> Option<Kind> {
        self.tokens.get(at).map(|token| token.kind)
    }

    pub(super) fn word(&self, at: usize) -> Option<&str> {
        let token = self.tokens.get(at)?;
        (token.kind == Kind::Word).then(|| &self.text[token.start..token.end])
    }

    pub(super) fn is(&self, at: usize, word: &str) -> bool {
        self.word(at)
            .is_some_and(|have| have.eq_ignore_ascii_case(word))
    }

    pub(super) fn is_any(&self, at: usize, words: &[&str]) -> bool {
        self.word(at)
            .is_some_and(|have| words.iter().any(|word| have.eq_ignore_ascii_case(word)))
    }

    pub(super) fn mark(&self, at: usize) -> Option<char> {
        match self.kind(at) {
            Some(Kind::Mark(mark)) => Some(mark),
            _ => None,
        }
    }

    pub(super) fn is_mark(&self, at: usize, marks: &[char]) -> bool {
        self.mark(at).is_some_and(|mark| marks.contains(&mark))
    }

    pub(super) fn glued(&self, at: usize) -> bool {
        self.tokens.get(at).is_some_and(|token| token.glued)
    }

    pub(super) fn is_dash(&self, at: usize) -> bool {
        self.is_mark(at, &['-', '–', '—', '‐', '‑', '−'])
    }

    /// A dash with no space on either side.
    pub(super) fn is_hyphen(&self, at: usize) -> bool {
        self.is_dash(at) && self.glued(at) && self.glued(at + 1)
    }

    pub(super) fn is_number(&self, at: usize) -> bool {
        matches!(self.kind(at), Some(Kind::Number(_) | Kind::Vulgar(_)))
    }

    pub(super) fn is_article(&self, at: usize) -> bool {
        // `A1` is a name.
        self.is_any(at, &["a", "an"]) && !(self.glued(at + 1) && self.is_number(at + 1))
    }

    /// A problem over the tokens `from..to`.
    pub(super) fn problem(&self, kind: ErrorKind, from: usize, to: usize) -> Problem {
        let start = self
            .tokens
            .get(from)
            .map_or(self.text.len(), |token| token.start);
        let end = match to.checked_sub(1).and_then(|last| self.tokens.get(last)) {
            Some(token) if token.end >= start => token.end,
            _ => start,
        };
        Problem::new(kind, start, end)
    }

    /// The number at `at`, if there is one: a figure or a range of figures.
    pub(super) fn number(&self, at: usize) -> Result<Option<Number>, Problem> {
        if self.is(at, "between") {
            return self.between(at);
        }
        if let Some(vague) = self.vague_number(at) {
            return Ok(Some(vague));
        }
        let Some((low, next)) = self.figure(at)? else {
            let article = self.is_article(at) && !self.is_any(at + 1, &["la", "few"]);
            return Ok(article.then_some(Number {
                range: Range::exact(1.0),
                next: at + 1,
                text_end: at + 1,
                article: true,
                vague: false,
            }));
        };
        let (low, next) = self.added(low, next)?;
        if let Some((high, after)) = self.range_end(next)? {
            return self.range(at, low, high, after);
        }
        let after = if low < 1.0 {
            self.skip_of_article(next)
        } else {
            next
        };
        Ok(Some(Number {
            range: Range::exact(low),
            next: after,
            text_end: next,
            article: false,
            vague: false,
        }))
    }

    fn range(
        &self,
        at: usize,
        low: f64,
        high: f64,
        next: usize,
    ) -> Result<Option<Number>, Problem> {
        if high < low {
            return Err(self.problem(ErrorKind::RangeBackwards, at, next));
        }
        // `1-2-3` is no range.
        if self.is_hyphen(next) && self.is_number(next + 1) {
            return Err(self.problem(ErrorKind::UnreadableNumber, at, next + 2));
        }
        Ok(Some(Number {
            range: Range::new(low, f64::midpoint(low, high), high),
            next,
            text_end: next,
            article: false,
            vague: false,
        }))
    }

    fn between(&self, at: usize) -> Result<Option<Number>, Problem> {
        let Some((low, next)) = self.figure(at + 1)? else {
            return Ok(None);
        };
        if !self.is(next, "and") {
            return Ok(None);
        }
        match self.figure(next + 1)? {
            Some((high, after)) => self.range(at, low, high, after),
            None => Ok(None),
        }
    }

    /// `a couple of`, `a few`, `several`, `a pair of`.
    fn vague_number(&self, at: usize) -> Option<Number> {
        let start = at + usize::from(self.is_article(at));
        let key = super::tokens::Key::of(self.word(start)?)?;
        let (range, vague) = match key.as_str() {
            "couple" | "pair" => (Range::exact(2.0), false),
            "few" => (Range::new(2.0, 3.3, 5.0), true),
            "several" => (Range::new(3.0, 4.5, 7.0), true),
            _ => return None,
        };
        let next = start + 1;
        Some(Number {
            range,
            next: next + usize::from(self.is(next, "of")),
            text_end: next,
            article: false,
            vague,
        })
    }

    /// `100 + 50`.
    fn added(&self, first: f64, at: usize) -> Result<(f64, usize), Problem> {
        if self.is_mark(at, &['+'])
            && self.is_number(at + 1)
            && let Some((second, next)) = self.figure(at + 1)?
        {
            return Ok((first + second, next));
        }
        Ok((first, at))
    }

    /// After a number: the second figure of a range.
    pub(super) fn range_end(&self, at: usize) -> Result<Figure, Problem> {
        let dash =
            self.is_dash(at) && self.glued(at) == self.glued(at + 1) && self.is_number(at + 1);
        let word = self.is_any(at, &["to", "or"]) && !self.is_article(at + 1);
        if dash || word {
            self.figure(at + 1)
        } else {
            Ok(None)
        }
    }

    /// `of a`, `an`, `of the` after a fraction.
    fn skip_of_article(&self, at: usize) -> usize {
        let after_of = at + usize::from(self.is(at, "of"));
        if self.is_any(after_of, &["a", "an", "the", "my", "this", "one"]) {
            after_of + 1
        } else {
            at
        }
    }

    /// A single figure: `6`, `1 1/2`, `½`, `three quarters`, `half a dozen`.
    pub(super) fn figure(&self, at: usize) -> Result<Figure, Problem> {
        let plain = match self.kind(at) {
            Some(Kind::Number(_)) => Some(self.digits(at)?),
            Some(Kind::Vulgar(value)) => Some((value, at + 1)),
            Some(Kind::Word) => self.spelt(at),
            _ => None,
        };
        Ok(plain.map(|(value, next)| self.dozens(value, next)))
    }

    fn digits(&self, at: usize) -> Result<(f64, usize), Problem> {
        if let Some((value, next)) = self.fraction(at)? {
            return Ok((value, next));
        }
        let Some(Kind::Number(whole)) = self.kind(at) else {
            return Ok((0.0, at));
        };
        let next = at + 1;
        if let Some(Kind::Vulgar(part)) = self.kind(next) {
            return Ok((whole + part, next + 1));
        }
        if whole.fract() != 0.0 {
            return Ok((whole, next));
        }
        // `1 1/2`, `1-1/2`, `1 and 1/2`, `2 and a half`.
        let joint = if self.is_hyphen(next) || self.is(next, "and") || self.is_mark(next, &['&']) {
            next + 1
        } else {
            next
        };
        if !(joint == next && self.glued(next)) {
            if let Some((part, after)) = self.fraction(joint)?
                && part < 1.0
            {
                return Ok((whole + part, after));
            }
            if let Some(Kind::Vulgar(part)) = self.kind(joint) {
                return Ok((whole + part, joint + 1));
            }
        }
        Ok(self.and_a_half(whole, next).unwrap_or((whole, next)))
    }

    /// `3/4`, also with the fraction slash.
    fn fraction(&self, at: usize) -> Result<Figure, Problem> {
        let (Some(Kind::Number(over)), Some(Kind::Number(under))) =
            (self.kind(at), self.kind(at + 2))
        else {
            return Ok(None);
        };
        if !self.is_mark(at + 1, &['/', '\u{2044}', '\u{2215}']) {
            return Ok(None);
        }
        if under == 0.0 {
            return Err(self.problem(ErrorKind::DivisionByZero, at, at + 3));
        }
        Ok(Some((over / under, at + 3)))
    }

    fn and_a_half(&self, whole: f64, at: usize) -> Option<(f64, usize)> {
        if !(self.is(at, "and") && self.is_article(at + 1)) {
            return None;
        }
        let part = self.part_word(at + 2)?;
        Some((whole + part, at + 3))
    }

    /// A number in letters.
    fn spelt(&self, at: usize) -> Figure {
        if let Some(part) = self.part_word(at) {
            // `a third` only with its article: `third` alone is an ordinal.
            return (part > 0.24 && !self.is(at, "third")).then_some((part, at + 1));
        }
        if self.is(at, "dozen") {
            return Some((1.0, at));
        }
        if self.is_article(at) {
            let next = at + 1;
            if let Some(part) = self.part_word(next) {
                return Some((part, next + 1));
            }
            return self.is(next, "dozen").then_some((1.0, next));
        }
        let (value, next) = self.number_words(at)?;
        // `two-thirds`, `three quarters`, `one half`, `one and a half`.
        let joint = next + usize::from(self.is_hyphen(next));
        if let Some(part) = self.part_word(joint) {
            return Some((value * part, joint + 1));
        }
        Some(self.and_a_half(value, next).unwrap_or((value, next)))
    }

    fn number_words(&self, at: usize) -> Figure {
        let value = number_word(self.word(at)?)?;
        if value < 20.0 {
            return Some((value, at + 1));
        }
        let joint = at + 1 + usize::from(self.is_hyphen(at + 1));
        match self.word(joint).and_then(number_word) {
            Some(ones) if ones < 10.0 => Some((value + ones, joint + 1)),
            _ => Some((value, at + 1)),
        }
    }

    /// The share that a word names: `half`, `thirds`.
    pub(super) fn part_word(&self, at: usize) -> Option<f64> {
        let key = super::tokens::Key::of(self.word(at)?)?;
        Some(match key.as_str() {
            "half" => 0.5,
            "third" | "thirds" => 1.0 / 3.0,
            "quarter" | "quarters" | "fourth" | "fourths" => 0.25,
            "fifth" | "fifths" => 0.2,
            "sixth" | "sixths" => 1.0 / 6.0,
            "eighth" | "eighths" => 0.125,
            "tenth" | "tenths" => 0.1,
            _ => return None,
        })
    }

    /// `2 half`, `3 quarters`, `2 dozen`, `half a dozen` after a figure.
    fn dozens(&self, value: f64, at: usize) -> (f64, usize) {
        let skip = if value < 1.0 {
            self.skip_of_article(at)
        } else {
            at
        };
        if self.is(skip, "dozen") {
            let next = skip + 1;
            return (value * 12.0, next + usize::from(self.is(next, "of")));
        }
        if value >= 1.0
            && value.fract() == 0.0
            && let Some(part) = self.part_word(at)
        {
            return (value * part, at + 1);
        }
        (value, at)
    }
}

pub(super) fn number_word(word: &str) -> Option<f64> {
    spelt_number(super::tokens::Key::of(word)?.as_str())
}
