//! A text that is one amount and nothing else.

use super::amount::Amount;
use super::error::{ErrorKind, Place, Problem, ReadingError};
use super::parts::read;
use super::units::UnitSystem;

/// Reads `text` as one amount and nothing else: `120 g`, `1-2 cups`, `2 large slices`.
///
/// Fails when there is no amount, or words beside it, or a figure out of bounds.
pub(crate) fn parse_amount(text: &str, units: UnitSystem) -> Result<Amount, ReadingError> {
    parse_amount_at(text, &Place::new("amount", 1, 1), units)
}

/// As [`parse_amount`], for text that stands at `place`.
pub(crate) fn parse_amount_at(
    text: &str,
    place: &Place,
    units: UnitSystem,
) -> Result<Amount, ReadingError> {
    whole_amount(text, units).map_err(|problem| problem.at(text, place))
}

fn whole_amount(text: &str, units: UnitSystem) -> Result<Amount, Problem> {
    let read = read(text, 0, units, true)?;
    let words = |kind| Problem::new(kind, 0, text.len());
    let Some(amount) = read.amount else {
        return Err(words(if text.trim().is_empty() {
            ErrorKind::Empty
        } else {
            ErrorKind::NotAnAmount
        }));
    };
    match read.first_word {
        Some((start, end)) => Err(Problem::new(ErrorKind::WordsBesideAmount, start, end)),
        None => Ok(amount),
    }
}
