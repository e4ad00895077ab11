//! From all the amounts found in one line to the one that counts.
//!
//! A weight wins over a volume, a volume over a count, a count over a loose measure. Two that
//! cannot both be true are refused.

use super::amount::{Amount, Measure};
use super::bounds::{AGREEMENT_FACTOR, GRAMS_PER_MILLILITRE};
use super::error::{ErrorKind, Problem};
use super::number::Reader;
use super::pieces::{Piece, Role};
use super::scan::{Found, What, product};
use crate::quantity::Range;

/// What a part of is said to have been eaten.
const SERVING: Piece = Piece {
    name: "serving",
    role: Role::Measure,
    plural: false,
};

impl Reader<'_> {
    /// The amount that `founds` come to.
    pub(super) fn combine(&self, founds: &[Found]) -> Result<Option<Found>, Problem> {
        let count = self.counts(founds)?;
        let weight = self.agreed(founds, count, |what| matches!(what, What::Weight(_)))?;
        let volume = self.agreed(founds, count, |what| matches!(what, What::Volume(_)))?;
        if let (Some(weight), Some(volume)) = (weight, volume) {
            self.check_density(weight, volume)?;
        }
        let loose = founds.iter().find(|found| found.loose).copied();
        let measured = weight.or(volume);
        if let (None, Some(count), Some(loose)) = (measured, count, loose) {
            return Err(self.contradiction(count, loose));
        }
        // `steak 6 oz x2` is two of these; `egg whites x3, 99 g` weigh that in all.
        let measured_at = weight
            .or(volume)
            .filter(|found| !found.each)
            .map_or(0, |found| found.from);
        let times = founds
            .iter()
            .filter(|found| found.what == What::Times && found.from >= measured_at)
            .fold(Range::exact(1.0), |by, found| product(by, found.range));
        let counted = founds
            .iter()
            .find(|found| found.what == What::Times)
            .map(|found| Found {
                range: Range::exact(1.0),
                // `left half` is half of what was served, not half a piece.
                what: What::Count {
                    piece: (found.range.likely < 1.0).then_some(SERVING),
                    size: None,
                    inches: None,
                },
                ..*found
            });
        let Some(mut found) = measured.or(count).or(loose).or(counted) else {
            return Ok(None);
        };
        found.range = product(found.range, times);
        self.check_bounds(&found)?;
        Ok(Some(found))
    }

    /// All counts of a line as one: `2 eggs, large` are two large eggs.
    fn counts(&self, founds: &[Found]) -> Result<Option<Found>, Problem> {
        let mut total: Option<Found> = None;
        for found in founds {
            let What::Count {
                piece,
                size,
                inches,
            } = found.what
            else {
                continue;
            };
            let Some(so_far) = &mut total else {
                total = Some(*found);
                continue;
            };
            let What::Count {
                size: old_size,
                inches: old_inches,
                ..
            } = &mut so_far.what
            else {
                continue;
            };
            // `two (2) eggs`.
            if piece.is_none() && size.is_none() && inches.is_none() && found.range == so_far.range
            {
                continue;
            }
            let describes = piece.is_none()
                && (found.range.likely - 1.0).abs() < 1e-9
                && (size.is_some() && old_size.is_none()
                    || inches.is_some() && old_inches.is_none());
            if !describes {
                let first = *so_far;
                return Err(self.contradiction(first, *found));
            }
            *old_size = old_size.or(size);
            *old_inches = old_inches.or(inches);
        }
        Ok(total)
    }

    /// The first measured amount of a kind, if all of that kind agree.
    fn agreed(
        &self,
        founds: &[Found],
        count: Option<Found>,
        of_kind: fn(What) -> bool,
    ) -> Result<Option<Found>, Problem> {
        let mut first: Option<Found> = None;
        for found in founds
            .iter()
            .filter(|found| of_kind(found.what) && !found.loose)
        {
            let total = self.for_all_pieces(*found, count);
            match first {
                None => first = Some(total),
                Some(other) => {
                    let ratio = total.range.likely / other.range.likely;
                    if !(1.0 / AGREEMENT_FACTOR..=AGREEMENT_FACTOR).contains(&ratio) {
                        return Err(self.contradiction(other, *found));
                    }
                }
            }
        }
        Ok(first)
    }

    /// `2 cans (12 fl oz)` and `3 slices, 30 g each` state one piece; `2 slices (60 g)` all.
    fn for_all_pieces(&self, found: Found, count: Option<Found>) -> Found {
        let Some(count) = count else {
            return found;
        };
        let ware = matches!(count.what, What::Count { piece: Some(piece), .. } if piece.role == Role::Ware);
        let bracket = found.from > 0
            && self.is_mark(found.from - 1, &['(', '['])
            && (count.next == found.from - 1 || count.text_end == found.from - 1);
        if !(found.each || ware && bracket) {
            return found;
        }
        let drink = matches!(count.what, What::Count { piece: Some(piece), .. }
            if matches!(piece.name, "glass" | "mug" | "cup" | "bowl" | "bottle" | "shot"));
        let mut found = found;
        if drink {
            self.as_fluid(&mut found);
        }
        found.range = product(found.range, count.range);
        found
    }

    fn check_density(&self, weight: Found, volume: Found) -> Result<(), Problem> {
        if GRAMS_PER_MILLILITRE.holds(weight.range.likely / volume.range.likely) {
            return Ok(());
        }
        if weight.from < volume.from {
            return Err(self.contradiction(weight, volume));
        }
        Err(self.contradiction(volume, weight))
    }

    fn contradiction(&self, first: Found, second: Found) -> Problem {
        let text = self.slice(first.from, first.text_end);
        self.problem(
            ErrorKind::Contradiction(text.into()),
            second.from,
            second.text_end,
        )
    }
}

/// The public form of `found`, read from `text`.
pub(super) fn amount(found: &Found, text: String) -> Amount {
    let (measure, weight_unit) = match found.what {
        What::Weight(unit) => (Measure::Grams, unit),
        What::Volume(spoken) => (Measure::Millilitres { spoken }, None),
        What::Count {
            piece,
            size,
            inches,
        } => {
            let unit = piece.map(|piece| piece.name.to_owned());
            let measure = Measure::Count { unit, size, inches };
            (measure, None)
        }
        What::Times => (
            Measure::Count {
                unit: None,
                size: None,
                inches: None,
            },
            None,
        ),
    };
    Amount {
        number: found.range,
        measure,
        approximate: found.approximate,
        weight_unit,
        text,
    }
}
