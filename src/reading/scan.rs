//! Finds one amount at one position of a line.

use super::bounds;
use super::error::{ErrorKind, Problem};
use super::loose::loose_word;
use super::number::{Number, Reader};
use super::pieces::{Piece, Role, piece_word};
use super::units::{Size, VolumeUnit, WeightUnit, foreign_unit, misspelt_unit, unit_word};
use crate::quantity::Range;

/// What a found amount measures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum What {
    Weight(Option<WeightUnit>),
    Volume(VolumeUnit),
    Count {
        piece: Option<Piece>,
        size: Option<Size>,
        inches: Option<f64>,
    },
    /// `x2`: times whatever else is found.
    Times,
}

/// An amount found in a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Found {
    /// Grams, millilitres or pieces.
    pub range: Range,
    pub what: What,
    pub approximate: bool,
    /// A handful, a pinch: no real measure.
    pub loose: bool,
    /// `30 g each`.
    pub each: bool,
    /// First position.
    pub from: usize,
    /// First position after what is worth keeping as text.
    pub text_end: usize,
    /// First position after everything that belongs to it.
    pub next: usize,
}

impl Found {
    pub(super) fn is_measured(&self) -> bool {
        matches!(self.what, What::Weight(_) | What::Volume(_))
    }
}

/// Where in a line an amount is looked for; the further in, the less counts as one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Position {
    /// At the very start: any number is an amount.
    Start,
    /// After a comma, a bracket, a colon or a dash.
    Segment,
    /// Between other words.
    Middle,
}

/// Amounts within one another that are read.
const DEEPEST: u8 = 3;

/// `about` is taken as 15 % either way.
pub(super) const ABOUT: Range = Range::new(0.85, 1.0, 1.15);
/// `up to`, `at most`: mostly somewhat less.
const UP_TO: Range = Range::new(0.6, 0.82, 1.0);
/// `at least`, `over`: mostly somewhat more.
pub(super) const AT_LEAST: Range = Range::new(1.0, 1.12, 1.3);

pub(super) type Search = Result<Option<Found>, Problem>;

impl Reader<'_> {
    /// The amount that begins at `at`, if one does.
    pub(super) fn amount_at(&self, at: usize, position: Position) -> Search {
        self.amount_within(at, position, 0)
    }

    /// As [`Self::amount_at`], inside `depth` other amounts: `2 x 6-oz` has one within the
    /// other, and nobody writes more than a handful.
    fn amount_within(&self, at: usize, position: Position, depth: u8) -> Search {
        if depth > DEEPEST {
            return Ok(None);
        }
        let (hedge, start) = self.hedge(at);
        let position = if hedge.is_some() && position == Position::Middle {
            Position::Segment
        } else {
            position
        };
        self.refuse_negative(start)?;
        self.refuse_no_number(start)?;
        if let Some(found) = self.part_of_the(start)? {
            return Ok(Some(Found { from: at, ..found }));
        }
        let found = match self.number(start)? {
            Some(number) => self.numbered_within(start, number, position, depth)?,
            None => self.unnumbered(start, position)?,
        };
        let Some(mut found) = found else {
            return Ok(None);
        };
        found.from = at;
        if let Some(factor) = hedge {
            found.range = product(found.range, factor);
            found.approximate = true;
        }
        self.check_bounds(&found)?;
        Ok(Some(found))
    }

    /// `about`, `~`, `up to`: the factor and the position after it.
    fn hedge(&self, at: usize) -> (Option<Range>, usize) {
        if self.is_mark(at, &['~', '≈', '∼', '±']) {
            return (Some(ABOUT), at + 1);
        }
        if self.is_mark(at, &['<', '≤']) {
            return (Some(UP_TO), at + 1);
        }
        if self.is_mark(at, &['>', '≥']) {
            return (Some(AT_LEAST), at + 1);
        }
        if self.is(at, "c") && self.is_mark(at + 1, &['.']) && self.is_number(at + 2) {
            return (Some(ABOUT), at + 2);
        }
        let pair = |first: &str, second: &str| self.is(at, first) && self.is(at + 1, second);
        if pair("up", "to") || pair("at", "most") || pair("less", "than") || pair("just", "under") {
            return (Some(UP_TO), at + 2);
        }
        if pair("at", "least") || pair("more", "than") || pair("just", "over") {
            return (Some(AT_LEAST), at + 2);
        }
        if self.is_any(
            at,
            &[
                "about",
                "around",
                "approx",
                "approximately",
                "roughly",
                "circa",
                "ca",
                "nearly",
                "almost",
                "maybe",
                "perhaps",
            ],
        ) {
            let point = usize::from(self.is_mark(at + 1, &['.']) && self.glued(at + 1));
            return (Some(ABOUT), at + 1 + point);
        }
        (None, at)
    }

    /// `NaN g`, `inf kg`.
    fn refuse_no_number(&self, at: usize) -> Result<(), Problem> {
        let unit = self
            .word(at + 1)
            .is_some_and(|word| unit_word(word).is_some());
        if unit && self.is_any(at, &["nan", "inf", "infinity"]) {
            return Err(self.problem(ErrorKind::UnreadableNumber, at, at + 1));
        }
        Ok(())
    }

    fn refuse_negative(&self, at: usize) -> Result<(), Problem> {
        let open = at == 0 || !self.glued(at);
        if open && self.is_dash(at) && self.glued(at + 1) && self.is_number(at + 1) {
            return Err(self.problem(ErrorKind::Negative, at, at + 2));
        }
        Ok(())
    }

    pub(super) fn check_bounds(&self, found: &Found) -> Result<(), Problem> {
        let bound = match found.what {
            What::Weight(_) => &bounds::GRAMS,
            What::Volume(_) => &bounds::MILLILITRES,
            What::Count { .. } | What::Times => &bounds::PIECES,
        };
        let out = |figure, bound| {
            let kind = ErrorKind::OutOfBounds { figure, bound };
            self.problem(kind, found.from, found.text_end)
        };
        if !bound.holds(found.range.low) {
            return Err(out(found.range.low, bound));
        }
        if !bound.holds(found.range.high) {
            return Err(out(found.range.high, bound));
        }
        if let What::Count {
            inches: Some(inches),
            ..
        } = found.what
            && !bounds::INCHES.holds(inches)
        {
            return Err(out(inches, &bounds::INCHES));
        }
        Ok(())
    }

    /// What follows a number.
    pub(super) fn numbered(&self, from: usize, number: Number, position: Position) -> Search {
        self.numbered_within(from, number, position, 0)
    }

    fn numbered_within(
        &self,
        from: usize,
        number: Number,
        position: Position,
        depth: u8,
    ) -> Search {
        let at = number.next;
        if let Some(found) = self.multiplied(from, number, depth)? {
            return Ok(Some(found));
        }
        if self.is_hyphen(at) && self.word(at + 1).is_some() && !self.measures(at + 1) {
            // `7-grain bread`, `3-egg omelette`: the number is part of a word.
            return Ok(None);
        }
        let after = at + usize::from(self.is_hyphen(at));
        let (size, factor, measure_at) = self.qualifiers(after);
        if let Some(measured) = self.measured(measure_at, size, number.article) {
            return Ok(Some(self.with_measure(from, number, &measured, factor)?));
        }
        if let Some(found) = self.inner(from, number, depth)? {
            return Ok(Some(found));
        }
        self.refuse_unit(after, number)?;
        if let Some(factor) = factor
            && self.leading_piece(measure_at, false).is_some()
        {
            // `a heaping plate of pasta`, `3/4 full bowl of rice`.
            let filled = Number {
                range: product(number.range, factor),
                vague: number.vague || !factor.is_exact(),
                ..number
            };
            return Ok(self.counted(from, filled, size, None, measure_at, position));
        }
        let (size, at) = self
            .size(after)
            .map_or((None, after), |(size, at)| (Some(size), at));
        if let Some((inches, after)) = self.length(number, at) {
            let one = Number {
                range: Range::exact(1.0),
                ..number
            };
            return Ok(self.counted(from, one, size, Some(inches), after, position));
        }
        Ok(self.counted(from, number, size, None, at, position))
    }

    /// Whether the word at `at` can stand after `6-`.
    fn measures(&self, at: usize) -> bool {
        self.word(at).is_some_and(|word| {
            (unit_word(word).is_some() && word.len() > 1 || word == "g")
                || loose_word(word).is_some()
                || matches!(piece_word(word), Some(piece) if matches!(piece.role, Role::Measure))
        }) || self.is_any(at, &["fl", "fluid"])
            || self.size(at).is_some()
    }

    /// `2 x 30 g`, `2x eggs`, and `x2` seen from its number.
    fn multiplied(&self, from: usize, number: Number, depth: u8) -> Search {
        let at = number.next;
        let times = self.is(at, "x") || self.is_mark(at, &['×', '*', '✕', '✖']);
        if !times || number.article || self.is_hyphen(at + 1) {
            return Ok(None);
        }
        let found = |what, range, text_end, next| Found {
            range,
            what,
            approximate: false,
            loose: false,
            each: false,
            from,
            text_end,
            next,
        };
        if self.is_number(at + 1)
            && let Some(inner) = self.amount_within(at + 1, Position::Start, depth + 1)?
        {
            let range = product(inner.range, number.range);
            return Ok(Some(Found {
                range,
                from,
                ..inner
            }));
        }
        let what = if from > 0 && self.ends_segment(at + 1) {
            What::Times
        } else {
            What::Count {
                piece: None,
                size: None,
                inches: None,
            }
        };
        let next = at + 1;
        if let What::Count { .. } = what
            && let Some(more) = self.numbered_pieces(from, number, next)
        {
            return Ok(Some(more));
        }
        Ok(Some(found(what, number.range, next, next)))
    }

    /// `2 x large slices`.
    fn numbered_pieces(&self, from: usize, number: Number, at: usize) -> Option<Found> {
        if self.is_number(at) {
            return None;
        }
        let (size, after) = self
            .size(at)
            .map_or((None, at), |(size, at)| (Some(size), at));
        self.counted(from, number, size, None, after, Position::Start)
    }

    /// A number, then a measure of its own: `2 6-oz steaks`, `2 (6 oz) steaks`, `a 6 oz steak`.
    fn inner(&self, from: usize, number: Number, depth: u8) -> Search {
        let at = number.next;
        let bracket = self.is_mark(at, &['(', '[']);
        let comma =
            self.is_mark(at, &[',']) && self.is_hyphen(at + 2) && self.word(at + 3).is_some();
        let start = at + usize::from(bracket || comma);
        if !self.is_number(start) {
            return Ok(None);
        }
        let Some(inner) = self.amount_within(start, Position::Segment, depth + 1)? else {
            return Ok(None);
        };
        let count_inches = matches!(
            inner.what,
            What::Count {
                inches: Some(_),
                ..
            }
        );
        if !(inner.is_measured() || count_inches) {
            return Ok(None);
        }
        let mut next = inner.next;
        let mut text_end = inner.text_end;
        if bracket {
            if !self.is_mark(next, &[')', ']']) {
                return Ok(None);
            }
            next += 1;
            text_end = next;
            let ware = self.word(next).and_then(piece_word);
            if ware.is_some_and(|piece| piece.role == Role::Ware) {
                next += 1;
                text_end = next;
            }
            next = self.skip_of(next);
        }
        Ok(Some(Found {
            range: product(inner.range, number.range),
            from,
            approximate: inner.approximate || number.vague,
            each: false,
            text_end,
            next,
            ..inner
        }))
    }

    /// Refuses `3 bushels of spinach` and `2 tabelspoons oil`.
    fn refuse_unit(&self, at: usize, number: Number) -> Result<(), Problem> {
        let Some(word) = self.word(at) else {
            return Ok(());
        };
        // `1 stone fruit`, `a foot long sub`.
        let name = self.is_any(at + 1, &["fruit", "fruits", "long"]);
        if name || number.article && !self.is(at + 1, "of") {
            return Ok(());
        }
        if let Some(instead) = foreign_unit(word).or_else(|| misspelt_unit(word)) {
            return Err(self.problem(ErrorKind::UnknownUnit(instead), at, at + 1));
        }
        Ok(())
    }

    /// Whether a segment of the line ends before `at`.
    pub(super) fn ends_segment(&self, at: usize) -> bool {
        at >= self.tokens.len()
            || self.is_mark(at, &[',', ';', ')', ']', '('])
            || self.is_mark(at, &['.', ':']) && (at + 1 == self.tokens.len() || !self.glued(at + 1))
            || self.is_dash(at) && !self.glued(at) && !self.glued(at + 1)
    }
}

/// Two ranges multiplied. When both are wide the ends are softened, as ends of independent
/// spreads: their relative widths add in squares.
pub(super) fn product(one: Range, other: Range) -> Range {
    if one.is_exact() {
        return other.times(one.likely);
    }
    if other.is_exact() {
        return one.times(other.likely);
    }
    let likely = one.likely * other.likely;
    let spread = |end: fn(Range) -> f64| {
        let relative = |range: Range| (end(range) / range.likely - 1.0).powi(2);
        (relative(one) + relative(other)).sqrt()
    };
    let low = (1.0 - spread(|range| range.low)).max(0.0);
    Range::new(
        likely * low.max(one.low * other.low / likely),
        likely,
        likely * (1.0 + spread(|range| range.high)),
    )
}
