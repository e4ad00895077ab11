//! The whole plate: a weight, a volume, or a vessel and how full it is.

use super::amount::{Amount, Measure};
use super::error::{ErrorKind, Place, Problem, ReadingError};
use super::number::Reader;
use super::share::{Vessel, VesselSize, vessel_word};
use super::tokens::{Kind, tokens};
use super::units::{Size, UnitSystem, unit_word};
use super::whole_amount::parse_amount_at;
use crate::quantity::Range;

/// How much was served in all.
#[derive(Debug, Clone, PartialEq)]
pub enum Served {
    /// A weight.
    Weight(Amount),
    /// A volume, as of a soup or a drink.
    Volume(Amount),
    /// A vessel and how full it is.
    Vessel {
        /// As written.
        text: String,
        /// The vessel, if named.
        vessel: Option<Vessel>,
        /// Diameter in inches, if said.
        inches: Option<f64>,
        /// Capacity in millilitres, if said.
        millilitres: Option<f64>,
        /// Size in words, if said.
        size: Option<Size>,
        /// Share of the capacity that is filled; more than 1 when heaped.
        fullness: Range,
    },
}

impl Served {
    /// As written.
    #[must_use]
    pub(crate) fn text(&self) -> &str {
        match self {
            Self::Weight(amount) | Self::Volume(amount) => &amount.text,
            Self::Vessel { text, .. } => text,
        }
    }
}

/// Fill where nobody says: bowls and plates go out between 40 and 90 % of brim volume
/// (common practice).
const UNSAID: Range = Range::new(0.5, 0.72, 0.92);
/// `full`: filled as a kitchen fills, some 80 to 100 % of brim volume (common practice).
const FULL: Range = Range::new(0.8, 0.91, 1.0);
/// To the brim.
const BRIM: Range = Range::new(0.94, 0.98, 1.0);
/// Heaped above the rim (common practice).
const HEAPED: Range = Range::new(1.0, 1.15, 1.35);

/// Reads `450 g`, `1 lb`, `32 fl oz bowl, full`, `12 in plate`, `half full`.
pub fn parse_served(text: &str, units: UnitSystem) -> Result<Served, ReadingError> {
    parse_served_at(text, &Place::new("served", 1, 1), units)
}

/// As [`parse_served`], for text that stands at `place`.
pub(super) fn parse_served_at(
    text: &str,
    place: &Place,
    units: UnitSystem,
) -> Result<Served, ReadingError> {
    let at = |problem: Problem| problem.at(text, place);
    if text.trim().is_empty() {
        return Err(at(Problem::new(ErrorKind::Empty, 0, text.len())));
    }
    let list = tokens(text).map_err(at)?;
    let reader = Reader {
        text,
        tokens: &list,
        units,
        amount_only: true,
    };
    if !reader.names_vessel() {
        let amount = parse_amount_at(text, place, units)?;
        match amount.measure {
            Measure::Grams => return Ok(Served::Weight(amount)),
            Measure::Millilitres { .. } => return Ok(Served::Volume(amount)),
            Measure::Count { .. } => {
                return Err(at(Problem::new(ErrorKind::NotServed, 0, text.len())));
            }
        }
    }
    reader.vessel().map_err(at)
}

impl Reader<'_> {
    /// Whether the text is about a vessel: it names one, or says how full it is.
    fn names_vessel(&self) -> bool {
        (0..self.tokens.len()).any(|at| {
            let vessel = self.word(at).and_then(vessel_word);
            let measure = vessel == Some(Vessel::Cup) && at > 0 && self.counts_cups(at - 1);
            vessel.is_some() && !measure || self.is_any(at, &["full", "heaped", "heaping"])
        }) && !self.heaped_spoon()
    }

    /// `1 heaped cup` is a volume.
    fn heaped_spoon(&self) -> bool {
        (1..self.tokens.len()).any(|at| {
            let unit = self.word(at).and_then(unit_word).is_some();
            unit && self.is_any(at - 1, &["heaped", "heaping"])
        })
    }

    fn counts_cups(&self, before: usize) -> bool {
        self.is_number(before)
            || self.part_word(before).is_some()
            || self.is_any(before, &["a", "one", "two", "three", "four"])
    }

    fn vessel(&self) -> Result<Served, Problem> {
        let mut stated = VesselSize::default();
        let mut vessel = None;
        let mut fullness = None;
        let mut at = 0;
        while at < self.tokens.len() {
            if self.is_mark(at, &[',', ';', '(', ')'])
                || self.is_any(at, &["a", "an", "the", "of", "one"])
            {
                at += 1;
            } else if let Some((fill, next)) = self.fullness(at)? {
                fullness = Some(fill);
                at = next;
            } else if let Some(next) = self.vessel_size(at, &mut stated)? {
                at = next;
            } else if let Some(named) = self
                .word(at)
                .and_then(vessel_word)
                .filter(|_| vessel.is_none())
            {
                vessel = Some(named);
                at += 1;
            } else {
                return Err(self.problem(ErrorKind::NotServed, at, at + 1));
            }
        }
        Ok(Served::Vessel {
            text: self.text.trim().to_owned(),
            vessel,
            inches: stated.inches,
            millilitres: stated.millilitres,
            size: stated.size,
            fullness: fullness.unwrap_or(UNSAID),
        })
    }

    /// `full`, `half full`, `3/4 full`, `80% full`, `heaped`, `half a`.
    fn fullness(&self, at: usize) -> Result<Option<(Range, usize)>, Problem> {
        if self.is(at, "full") {
            let brim = self.is(at + 1, "to") && self.is(at + 2, "the") && self.is(at + 3, "brim");
            return Ok(Some(if brim { (BRIM, at + 4) } else { (FULL, at + 1) }));
        }
        if self.is_any(at, &["heaped", "heaping", "overflowing"]) {
            return Ok(Some((HEAPED, at + 1)));
        }
        if self.is_any(at, &["brimming", "brimful"]) {
            return Ok(Some((BRIM, at + 1)));
        }
        if self.is_any(at, &["nearly", "almost", "mostly"]) && self.is(at + 1, "full") {
            return Ok(Some((Range::new(0.68, 0.8, 0.92), at + 2)));
        }
        if let Some(Kind::Number(value)) = self.kind(at)
            && self.is_mark(at + 1, &['%'])
        {
            let next = at + 2 + usize::from(self.is(at + 2, "full"));
            return self.filled(value / 100.0, at, next);
        }
        if self.is_article(at) && self.part_word(at + 1).is_none() {
            return Ok(None);
        }
        let Some((value, next)) = self.figure(at)? else {
            return Ok(None);
        };
        let joint = next + usize::from(self.is_hyphen(next));
        if self.is(joint, "full") {
            return self.filled(value, at, joint + 1);
        }
        let share = value < 1.0 && (self.is(next, "of") || self.is_any(next, &["a", "the"]));
        if share {
            self.filled(value, at, next)
        } else {
            Ok(None)
        }
    }

    /// A stated share; people are some 15 % off either way (common practice).
    fn filled(
        &self,
        share: f64,
        at: usize,
        next: usize,
    ) -> Result<Option<(Range, usize)>, Problem> {
        let bound = &super::bounds::SHARE;
        if !bound.holds(share) {
            let kind = ErrorKind::OutOfBounds {
                figure: share,
                bound,
            };
            return Err(self.problem(kind, at, next));
        }
        Ok(Some((
            Range::new(share * 0.85, share, (share * 1.15).min(1.0)),
            next,
        )))
    }
}
