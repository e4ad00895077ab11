//! One line taken apart: which words are the amount, which the food, which an aside.

mod outcome;

use super::amount::Amount;
use super::error::{ErrorKind, Problem};
use super::number::Reader;
use super::pieces::Role;
use super::scan::{Found, Position, What};
use super::share::ShareOf;
use super::tokens::tokens;
use super::units::UnitSystem;
use crate::quantity::Range;

/// A line taken apart.
pub(super) struct ReadLine {
    pub amount: Option<Amount>,
    pub food: String,
    pub note: Option<String>,
    pub share: Option<ShareOf>,
    /// Bytes of the first word that belongs to the food.
    pub first_word: Option<(usize, usize)>,
}

impl ReadLine {
    pub(super) fn require_food(self, text: &str, start: usize) -> Result<Self, Problem> {
        if self.first_word.is_some() {
            return Ok(self);
        }
        let blank = self.amount.is_none() && self.share.is_none() && self.note.is_none();
        let kind = if blank {
            ErrorKind::Empty
        } else {
            ErrorKind::NoFood
        };
        let end = start + text[start..].trim_end().len();
        Err(Problem::new(kind, start, end))
    }
}

/// Takes apart `text` from byte `start`. `amount_only` is for text that is an amount and
/// nothing else: then `2 cloves` are pieces.
pub(super) fn read(
    text: &str,
    start: usize,
    units: UnitSystem,
    amount_only: bool,
) -> Result<ReadLine, Problem> {
    let shifted = |problem: Problem| Problem {
        start: problem.start + start,
        end: problem.end + start,
        ..problem
    };
    let body = &text[start..];
    let tokens = tokens(body).map_err(shifted)?;
    let reader = Reader {
        text: body,
        tokens: &tokens,
        units,
        amount_only,
    };
    let mut line = Line::new(&reader);
    let read = line.scan().and_then(|()| line.finish()).map_err(shifted)?;
    Ok(ReadLine {
        first_word: read.first_word.map(|(from, to)| (from + start, to + start)),
        ..read
    })
}

/// The work on one line: which tokens are spoken for, and by what.
struct Line<'r, 'a> {
    reader: &'r Reader<'a>,
    /// Tokens that are not part of the food.
    taken: Vec<bool>,
    founds: Vec<Found>,
    notes: Vec<(usize, usize)>,
    guessed: bool,
    share: Option<ShareOf>,
    heap: Option<(f64, usize, usize)>,
}

impl<'r, 'a> Line<'r, 'a> {
    fn new(reader: &'r Reader<'a>) -> Self {
        Self {
            reader,
            taken: vec![false; reader.tokens.len()],
            founds: Vec::new(),
            notes: Vec::new(),
            guessed: false,
            share: None,
            heap: None,
        }
    }

    fn take(&mut self, from: usize, to: usize) {
        let to = to.min(self.taken.len());
        self.taken[from.min(to)..to].fill(true);
    }

    fn scan(&mut self) -> Result<(), Problem> {
        let reader = self.reader;
        let mut at = 0;
        if !reader.amount_only {
            if reader.says_absent() {
                return Err(reader.problem(ErrorKind::Absent, 0, reader.tokens.len()));
            }
            if let Some(next) = reader.vague_start() {
                self.note(0, next);
                at = next;
            }
        }
        while at < reader.tokens.len() {
            at = self.step(at)?;
        }
        Ok(())
    }

    /// Reads what begins at `at`; returns where to go on.
    fn step(&mut self, at: usize) -> Result<usize, Problem> {
        let reader = self.reader;
        let position = self.position(at);
        if position == Position::Middle && reader.is_only_food(at) && !self.joins_foods(at) {
            debug_assert!(self.begins_nothing(at), "{}", reader.text);
            return Ok(at + 1);
        }
        if !reader.amount_only {
            if let Some(aside) = reader.aside(at, position != Position::Middle) {
                self.note(at, aside.next);
                self.guessed |= aside.guessed;
                return Ok(aside.next);
            }
            if let Some(next) = self.vessel_words(at, position)? {
                return Ok(next);
            }
        }
        if reader.amount_only
            && let Some((_, _, next)) = reader.share_at(at)?
        {
            return Ok(next);
        }
        let fixed = reader.fixed(at);
        if fixed > 0 {
            return Ok(at + fixed);
        }
        let found = self.amount_at(at, position)?;
        if let Some(found) = found.filter(|found| !self.describes(found)) {
            if self.is_raw_weight(&found) {
                self.note(found.from, found.next + 1);
                return Ok(found.next + 1);
            }
            self.take(found.from, found.next);
            self.founds.push(found);
            return Ok(found.next.max(at + 1));
        }
        Ok(at + 1)
    }

    /// Whether all that is looked for is not there.
    fn begins_nothing(&self, at: usize) -> bool {
        let reader = self.reader;
        reader.aside(at, false).is_none()
            && matches!(reader.share_at(at), Ok(None))
            && reader.fixed(at) == 0
            && matches!(reader.amount_at(at, Position::Middle), Ok(None))
    }

    /// Whether a count beside another only describes: `burger, 2 patties`, `1 sandwich (2
    /// slices bread)`, the second length of `1 sausage (10" x 1")`.
    fn describes(&self, found: &Found) -> bool {
        let What::Count { piece, inches, .. } = found.what else {
            return false;
        };
        let part = piece.is_some_and(|piece| piece.role == Role::Part);
        let in_bracket = found.from > 0
            && self.reader.is_mark(found.from - 1, &['(', '['])
            && self.reader.word(found.next).is_some();
        self.founds.iter().any(|other| match other.what {
            What::Count { inches: known, .. } => {
                part || in_bracket || inches.is_some() && known.is_some()
            }
            _ => false,
        })
    }

    /// `6 oz sirloin (8 oz raw)`: the weight before cooking, beside the one on the plate.
    fn is_raw_weight(&self, found: &Found) -> bool {
        let reader = self.reader;
        let raw = ["raw", "uncooked", "dry", "precooked"];
        found.is_measured()
            && self.founds.iter().any(Found::is_measured)
            && reader.is_any(found.next, &raw)
            && reader.ends_segment(found.next + 1)
    }

    fn note(&mut self, from: usize, to: usize) {
        self.take(from, to);
        self.notes.push((from, to));
    }

    /// Shares of a vessel and heights of heaps.
    fn vessel_words(&mut self, at: usize, position: Position) -> Result<Option<usize>, Problem> {
        let reader = self.reader;
        if self.share.is_none()
            && let Some((share, _, next)) = reader.share_at(at)?
        {
            self.take(at, next);
            self.share = Some(share);
            return Ok(Some(next));
        }
        if self.heap.is_none()
            && position != Position::Start
            && reader.is_number(at)
            && let Some((inches, next)) = reader.heap_height(at)?
            && reader.ends_segment(next)
        {
            self.heap = Some((inches, at, next));
            return Ok(Some(next));
        }
        Ok(None)
    }

    fn position(&self, at: usize) -> Position {
        let reader = self.reader;
        let Some(before) = at.checked_sub(1) else {
            return Position::Start;
        };
        if reader.is_mark(before, &[',', ';', ':', '(', '[', '='])
            || reader.is_dash(before) && !reader.is_hyphen(before)
        {
            return Position::Segment;
        }
        let marks = (0..at).all(|at| {
            reader.mark(at).is_some()
                || self
                    .notes
                    .first()
                    .is_some_and(|&(from, to)| (from..to).contains(&at))
        });
        if marks {
            Position::Start
        } else {
            Position::Middle
        }
    }

    fn amount_at(&self, at: usize, position: Position) -> Result<Option<Found>, Problem> {
        let reader = self.reader;
        if reader.is_number(at)
            && let Some(before) = at.checked_sub(1)
        {
            // `b12`, `x8`; `omega-3` unless a unit follows.
            if reader.glued(at) && reader.word(before).is_some() {
                return Ok(None);
            }
            if reader.is_hyphen(before) && before > 0 && reader.word(before - 1).is_some() {
                let found = reader.amount_at(at, position)?;
                return Ok(found.filter(Found::is_measured));
            }
        }
        if position == Position::Middle && self.joins_foods(at) {
            self.refuse_second_food(at)?;
        }
        reader.amount_at(at, position)
    }

    /// Whether the word before `at` joins what follows to a food already named.
    fn joins_foods(&self, at: usize) -> bool {
        let reader = self.reader;
        let before = at - 1;
        let joiner = reader.is_any(before, &["with", "and", "plus", "w"])
            || reader.is_mark(before, &['&', '+'])
            || reader.is_mark(before, &['/']) && before > 0 && reader.is(before - 1, "w");
        joiner && (0..before).any(|at| !self.taken[at] && reader.word(at).is_some())
    }

    /// `salad with 2 oz chicken`: the amount is of the chicken only.
    fn refuse_second_food(&self, at: usize) -> Result<(), Problem> {
        const PARTS: [&str; 12] = [
            "cheeses",
            "meats",
            "beans",
            "vegetables",
            "toppings",
            "sauces",
            "spices",
            "herbs",
            "grains",
            "nuts",
            "seeds",
            "sides",
        ];
        let reader = self.reader;
        if reader.fixed(at) > 0 {
            return Ok(());
        }
        let Some(found) = reader.amount_at(at, Position::Start)? else {
            return Ok(());
        };
        let bare_article = reader.is_article(at)
            && matches!(
                found.what,
                What::Count {
                    piece: None,
                    inches: None,
                    ..
                }
            )
            && found.range == Range::exact(1.0);
        let numberless =
            !reader.is_article(at) && reader.number(at)?.is_none() && !found.approximate;
        if bare_article
            || numberless
            || reader.word(found.next).is_none()
            || reader.is_any(found.next, &PARTS)
        {
            return Ok(());
        }
        Err(reader.problem(ErrorKind::TwoFoods, found.from, found.text_end))
    }
}
