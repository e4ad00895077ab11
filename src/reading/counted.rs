//! Counts of pieces, and amounts that are said without a number.

use super::loose::PLAIN_LOOSE;
use super::measured::likened_to;
use super::number::{Number, Reader};
use super::pieces::{Piece, Role, piece_word};
use super::scan::{Found, Position, Search, What, product};
use super::tokens::Kind;
use super::units::{Size, VolumeUnit, numbered_scoop_millilitres};
use crate::quantity::Range;

/// Ware and servings that hold a number of pieces.
pub(super) const HOLDS_PIECES: [&str; 18] = [
    "bag",
    "basket",
    "box",
    "bucket",
    "carton",
    "container",
    "order",
    "pack",
    "package",
    "packet",
    "plate",
    "platter",
    "portion",
    "pouch",
    "serving",
    "tin",
    "tray",
    "tub",
];

/// The one that is meant where no number is written.
fn one(at: usize) -> Number {
    Number {
        range: Range::exact(1.0),
        next: at,
        text_end: at,
        article: true,
        vague: false,
    }
}

impl Reader<'_> {
    /// Pieces: `2 slices of`, `1 medium`, `3`.
    pub(super) fn counted(
        &self,
        from: usize,
        number: Number,
        size: Option<Size>,
        inches: Option<f64>,
        at: usize,
        position: Position,
    ) -> Option<Found> {
        let lone = position != Position::Start && self.ends_segment(at + 1);
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
        if position == Position::Start
            && let Some(pieces) = self.pieces_in_ware(&found)
        {
            return Some(pieces);
        }
        found.each = false;
        let ends = part || self.ends_segment(before_tail) || self.ends_segment(found.next);
        let kept = match position {
            Position::Start => true,
            Position::Segment => {
                inches.is_some() && !number.article || piece.is_some() || ends && !number.article
            }
            Position::Middle => {
                // `burger 5.99` is a price, a `leg quarter` no quarter.
                let pieces =
                    self.is_number(from) && (number.range.likely * 4.0).fract().abs() < 1e-9;
                !number.article && ends && (piece.is_some() || inches.is_some() || pieces)
            }
        };
        kept.then_some(found)
    }

    /// `a package of two tarts`, `2 boxes of 6 nuggets`: so many pieces as the ware holds.
    /// `a bowl of 3 bean soup` and `a carton of 2% milk` hold one thing.
    fn pieces_in_ware(&self, ware: &Found) -> Option<Found> {
        let What::Count {
            piece: Some(piece), ..
        } = ware.what
        else {
            return None;
        };
        if !HOLDS_PIECES.contains(&piece.name) || !self.is(ware.next.checked_sub(1)?, "of") {
            return None;
        }
        let number = self.number(ware.next).ok().flatten()?;
        if number.article || self.is_mark(number.next, &['%', '/', '-']) {
            return None;
        }
        let ends = (number.next..self.tokens.len())
            .take_while(|at| self.word(*at).is_some())
            .last()?;
        let plural = self.word(ends).is_some_and(|word| word.ends_with('s'));
        let inner = self.numbered(ware.next, number, Position::Start).ok()??;
        let counted = matches!(inner.what, What::Count { .. });
        (plural && counted).then(|| Found {
            range: product(ware.range, inner.range),
            from: ware.from,
            ..inner
        })
    }

    /// The piece word at `at`, when there it measures the food rather than naming it.
    pub(super) fn leading_piece(&self, at: usize, lone: bool) -> Option<(Piece, usize)> {
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
        if let Some(found) = self.ware_with_its_use(at) {
            return Some(found);
        }
        let piece = piece_word(self.word(at)?)?;
        if self.is_hyphen(at + 1) {
            return None;
        }
        // `1 piece/slice`, `1 can or bottle`: either will do.
        let other = (self.is_mark(at + 1, &['/']) || self.is(at + 1, "or"))
            && self.word(at + 2).and_then(piece_word).is_some();
        let next = at + 1 + 2 * usize::from(other);
        let more_food = self.word(next).is_some();
        let leads = match piece.role {
            Role::Measure | Role::Ware => true,
            Role::MeasureWithOf => self.is(next, "of") || piece.plural || self.ends_segment(next),
            Role::OnlyWithOf => self.is(next, "of"),
            Role::Either => more_food || lone,
            Role::Part => lone,
        };
        let leads = leads || self.amount_only;
        leads.then_some((piece, next))
    }

    /// `individual container of`, `single serving bag of`, `school carton of`: ware with words
    /// for its use before it.
    fn ware_with_its_use(&self, at: usize) -> Option<(Piece, usize)> {
        const USES: [&str; 14] = [
            "individual",
            "single",
            "serving",
            "school",
            "snack",
            "lunch",
            "standard",
            "juice",
            "prepackaged",
            "foil",
            "plastic",
            "paper",
            "takeout",
            "drink",
        ];
        let mut next = at;
        while next < at + 6 && (self.is_any(next, &USES) || next > at && self.is_hyphen(next)) {
            next += 1;
        }
        if next == at {
            return None;
        }
        let piece = piece_word(self.word(next)?)?;
        let ware = piece.role == Role::Ware && self.is(next + 1, "of");
        ware.then_some((piece, next + 1))
    }

    /// Amounts without a number: `cup of soup`, `large fries`, `x2`, `No. 8 scoop`, and at the
    /// end of a line `a drizzle` without its article.
    pub(super) fn unnumbered(&self, at: usize, position: Position) -> Search {
        if let Some(found) = self.times_sign(at) {
            return Ok(Some(found));
        }
        if let Some(found) = self.numbered_scoop(at, 1.0) {
            return Ok(Some(found));
        }
        if position != Position::Start
            && let Some(found) = self.part_eaten(at)?
        {
            return Ok(Some(found));
        }
        if let Some((object, next)) = self.likened(at) {
            let measured = likened_to(object, next);
            return Ok(Some(self.with_measure(at, one(at), &measured, None)?));
        }
        if position == Position::Middle {
            return Ok(None);
        }
        let whole = self.is(at, "the") && self.is_any(at + 1, &["whole", "entire"]);
        let flour = self.is_any(at + 2, &["wheat", "grain", "milk", "meal"]);
        if whole && !flour {
            let at = at + 2;
            return Ok(self.counted(at, one(at), None, None, at, position));
        }
        self.one_measure(at, position)
    }

    /// One of a measure, of a size or of a piece that stands without its article.
    fn one_measure(&self, at: usize, position: Position) -> Search {
        let (size, factor, measure_at) = self.qualifiers(at);
        if let Some(measured) = self.measured(measure_at, size, true) {
            let plain = self.is_any(measure_at, &PLAIN_LOOSE) || factor.is_some();
            let stands = self.is(measured.next, "of") && self.word(measured.next + 1).is_some()
                || plain && self.word(measured.next).is_some()
                || measured.loose
                    && self.ends_segment(measured.next)
                    && (position == Position::Segment || self.amount_only);
            if stands && (measured.loose || !self.amount_only) {
                return Ok(Some(self.with_measure(at, one(at), &measured, factor)?));
            }
            return Ok(None);
        }
        let (size, next) = self
            .size(at)
            .map_or((None, at), |(size, at)| (Some(size), at));
        if let Some((piece, after)) = self.leading_piece(next, false)
            && (self.is(after, "of")
                || size.is_some() && piece.role != Role::MeasureWithOf
                || self.amount_only && self.ends_segment(after))
        {
            return Ok(self.counted(at, one(at), size, None, next, Position::Start));
        }
        if factor.is_some()
            && let Some((_, after)) = self.leading_piece(measure_at, false)
            && self.is(after, "of")
        {
            return self.numbered(at, one(at), Position::Start);
        }
        Ok(self.one_of_a_size(at, size, next, position))
    }

    /// `large fries`, `fries, large`: one of the size whose words end before `next`.
    fn one_of_a_size(
        &self,
        at: usize,
        size: Option<Size>,
        next: usize,
        position: Position,
    ) -> Option<Found> {
        let plain = matches!(
            size,
            Some(Size::Small | Size::Medium | Size::Large | Size::ExtraLarge)
        );
        let adjective = position == Position::Start
            && self.is_any(at, &["regular", "jumbo", "sm", "med", "lg"]);
        if !plain || adjective {
            return None;
        }
        let stands = match position {
            Position::Start if self.amount_only => self.ends_segment(next),
            Position::Start => self.word(next).is_some(),
            _ => self.ends_segment(next) && !(size == Some(Size::Medium) && self.cooks_to_medium()),
        };
        stands
            .then(|| self.counted(at, one(at), size, None, next, Position::Start))
            .flatten()
    }

    /// `x2` at the end of a segment.
    pub(super) fn times_sign(&self, at: usize) -> Option<Found> {
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
    pub(super) fn numbered_scoop(&self, at: usize, count: f64) -> Option<Found> {
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
}
