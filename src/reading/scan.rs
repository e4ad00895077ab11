//! Finds one amount at one position of a line.

use super::bounds;
use super::error::{ErrorKind, Problem};
use super::loose::loose_word;
use super::number::{Number, Reader};
use super::pieces::{Piece, Role, piece_word};
use super::tokens::Kind;
use super::units::{
    Size, VolumeUnit, WeightUnit, foreign_unit, misspelt_unit, numbered_scoop_millilitres,
    unit_word,
};
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

/// `about` is taken as 15 % either way.
pub(super) const ABOUT: Range = Range::new(0.85, 1.0, 1.15);
/// `up to`, `at most`: mostly somewhat less.
const UP_TO: Range = Range::new(0.6, 0.82, 1.0);
/// `at least`, `over`: mostly somewhat more.
const AT_LEAST: Range = Range::new(1.0, 1.12, 1.3);

type Search = Result<Option<Found>, Problem>;

impl Reader<'_> {
    /// The amount that begins at `at`, if one does.
    pub(super) fn amount_at(&self, at: usize, position: Position) -> Search {
        let (hedge, start) = self.hedge(at);
        let position = if hedge.is_some() && position == Position::Middle {
            Position::Segment
        } else {
            position
        };
        self.refuse_negative(start)?;
        let found = match self.number(start)? {
            Some(number) => self.numbered(start, number, position)?,
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
        if self.is_mark(at, &['~', '≈', '∼']) {
            return (Some(ABOUT), at + 1);
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
    fn numbered(&self, from: usize, number: Number, position: Position) -> Search {
        let at = number.next;
        if let Some(found) = self.multiplied(from, number)? {
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
        if let Some(found) = self.inner(from, number)? {
            return Ok(Some(found));
        }
        self.refuse_unit(after, number)?;
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
    fn multiplied(&self, from: usize, number: Number) -> Search {
        let at = number.next;
        let times = self.is(at, "x") || self.is_mark(at, &['×', '*', '✕', '✖']);
        if !times || number.article {
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
            && let Some(inner) = self.amount_at(at + 1, Position::Segment)?
            && inner.is_measured()
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
    fn inner(&self, from: usize, number: Number) -> Search {
        let at = number.next;
        let bracket = self.is_mark(at, &['(', '[']);
        let start = at + usize::from(bracket);
        if !self.is_number(start) {
            return Ok(None);
        }
        let Some(inner) = self.amount_at(start, Position::Segment)? else {
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
        if number.article && !self.is(at + 1, "of") {
            return Ok(());
        }
        if let Some(instead) = foreign_unit(word).or_else(|| misspelt_unit(word)) {
            return Err(self.problem(ErrorKind::UnknownUnit(instead), at, at + 1));
        }
        Ok(())
    }

    /// Pieces: `2 slices of`, `1 medium`, `3`.
    fn counted(
        &self,
        from: usize,
        number: Number,
        size: Option<Size>,
        inches: Option<f64>,
        at: usize,
        position: Position,
    ) -> Option<Found> {
        let lone = position == Position::Segment && self.ends_segment(at + 1);
        let piece = self.leading_piece(at, lone);
        let part = piece.is_some_and(|(piece, _)| piece.role == Role::Part) && !self.amount_only;
        let (size, piece_end) = match piece {
            // `chicken, 2 wings`: the wings stay with the food.
            Some(_) if part => (size, at),
            Some((_, next)) => (size, next),
            None => (size, at),
        };
        let text_end = if piece.is_some() && !part || size.is_some() || inches.is_some() {
            piece_end
        } else {
            number.text_end
        };
        let mut found = Found {
            range: number.range,
            what: What::Count {
                piece: piece.map(|(piece, _)| piece),
                size,
                inches,
            },
            approximate: number.vague,
            loose: false,
            each: false,
            from,
            text_end,
            next: if piece.is_some() { piece_end } else { at },
        };
        let before_tail = found.next;
        self.tail(&mut found);
        found.each = false;
        let ends = self.ends_segment(before_tail) || self.ends_segment(found.next);
        let kept = match position {
            Position::Start => true,
            Position::Segment => {
                inches.is_some() && !number.article || piece.is_some() || ends && !number.article
            }
            Position::Middle => {
                !number.article && ends && (piece.is_some() || found.next >= self.tokens.len())
            }
        };
        kept.then_some(found)
    }

    /// The piece word at `at`, when there it measures the food rather than naming it.
    fn leading_piece(&self, at: usize, lone: bool) -> Option<(Piece, usize)> {
        if self.is_any(at, &["cubic", "surface"]) && self.is_any(at + 1, &["inch", "inches"]) {
            let name = if self.is(at, "cubic") {
                "cubic inch"
            } else {
                "surface inch"
            };
            let piece = Piece {
                name,
                role: Role::Measure,
                plural: false,
            };
            return Some((piece, at + 2));
        }
        if self.is_any(at, &["cup", "cups"]) && at > 0 {
            let piece = Piece {
                name: "cup",
                role: Role::Ware,
                plural: false,
            };
            return Some((piece, at + 1));
        }
        let piece = piece_word(self.word(at)?)?;
        if self.is_hyphen(at + 1) {
            return None;
        }
        let more_food = self.word(at + 1).is_some();
        let leads = match piece.role {
            Role::Measure | Role::Ware => true,
            Role::MeasureWithOf => {
                self.is(at + 1, "of") || piece.plural || self.ends_segment(at + 1)
            }
            Role::Either => more_food || lone,
            Role::Part => lone,
        };
        let leads = leads || self.amount_only;
        leads.then_some((piece, at + 1))
    }

    /// Amounts without a number: `cup of soup`, `large fries`, `x2`, `No. 8 scoop`, and at the
    /// end of a line `a drizzle` without its article.
    fn unnumbered(&self, at: usize, position: Position) -> Search {
        if let Some(found) = self.times_sign(at) {
            return Ok(Some(found));
        }
        if let Some(found) = self.numbered_scoop(at, 1.0) {
            return Ok(Some(found));
        }
        if position == Position::Middle {
            return Ok(None);
        }
        let one = Number {
            range: Range::exact(1.0),
            next: at,
            text_end: at,
            article: true,
            vague: false,
        };
        let (size, factor, measure_at) = self.qualifiers(at);
        if let Some(measured) = self.measured(measure_at, size, true) {
            let stands = self.is(measured.next, "of")
                || self.ends_segment(measured.next) && position == Position::Segment;
            if stands {
                return Ok(Some(self.with_measure(at, one, &measured, factor)?));
            }
            return Ok(None);
        }
        let (size, next) = self
            .size(at)
            .map_or((None, at), |(size, at)| (Some(size), at));
        if let Some((piece, after)) = self.leading_piece(next, false)
            && (self.is(after, "of") || size.is_some() && piece.role != Role::MeasureWithOf)
        {
            return Ok(self.counted(at, one, size, None, next, Position::Start));
        }
        let plain = matches!(
            size,
            Some(Size::Small | Size::Medium | Size::Large | Size::ExtraLarge)
        );
        if plain && !self.is(at, "regular") && !self.is(at, "jumbo") {
            let stands = match position {
                Position::Start => self.word(next).is_some(),
                _ => {
                    self.ends_segment(next)
                        && !(size == Some(Size::Medium) && self.cooks_to_medium())
                }
            };
            return Ok(stands
                .then_some(())
                .and_then(|()| self.counted(at, one, size, None, next, Position::Start)));
        }
        Ok(None)
    }

    /// `x2` at the end of a segment.
    fn times_sign(&self, at: usize) -> Option<Found> {
        let sign = self.is(at, "x") || self.is_mark(at, &['×', '✕', '✖']);
        let Some(Kind::Number(value)) = self.kind(at + 1) else {
            return None;
        };
        (sign && self.ends_segment(at + 2)).then_some(Found {
            range: Range::exact(value),
            what: What::Times,
            approximate: false,
            loose: false,
            each: false,
            from: at,
            text_end: at + 2,
            next: at + 2,
        })
    }

    /// `No. 8 scoop`, `#16 scoop of`.
    fn numbered_scoop(&self, at: usize, count: f64) -> Option<Found> {
        let number_at = if self.is_mark(at, &['#']) {
            at + 1
        } else if self.is(at, "no") && self.is_mark(at + 1, &['.']) {
            at + 2
        } else {
            return None;
        };
        let Some(Kind::Number(value)) = self.kind(number_at) else {
            return None;
        };
        let scoop = number_at + 1;
        if !(4.0..=100.0).contains(&value) || !self.is_any(scoop, &["scoop", "scoops", "disher"]) {
            return None;
        }
        Some(Found {
            range: Range::exact(count * numbered_scoop_millilitres(value)),
            what: What::Volume(VolumeUnit::NumberedScoop),
            approximate: false,
            loose: false,
            each: false,
            from: at,
            text_end: scoop + 1,
            next: self.skip_of(scoop + 1),
        })
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
