//! Stated amounts within a menu line.

use super::lexer::Lexed;
use super::prices::is_fraction;
use crate::reading::phrase::PhraseRole;
use crate::reading::tokens::Kind;

/// The token behind the unit at `at`.
pub(super) fn unit_at(line: &Lexed<'_>, at: usize) -> Option<usize> {
    const UNITS: [&str; 26] = [
        "oz", "ounce", "ounces", "lb", "lbs", "pound", "pounds", "g", "gr", "gram", "grams", "kg",
        "ml", "cl", "dl", "l", "liter", "litre", "liters", "litres", "gal", "gallon", "tbsp",
        "tsp", "cups", "onz",
    ];
    if line.any(at, &["fl", "fluid"]) {
        let next = at + 1 + usize::from(line.mark(at + 1) == Some('.'));
        return line
            .any(next, &["oz", "ounce", "ounces"])
            .then_some(after_point(line, next + 1));
    }
    line.any(at, &UNITS).then(|| after_point(line, at + 1))
}

/// The point of `oz.` belongs to it, unless it ends the line's sentence.
fn after_point(line: &Lexed<'_>, at: usize) -> usize {
    at + usize::from(line.mark(at) == Some('.') && line.glued(at))
}

/// `6 oz`, `1/2 lb`, `16 fl oz`, `by the pound`.
pub(super) fn amount(line: &mut Lexed<'_>, at: usize) -> Option<usize> {
    if let Some(next) = line
        .longest(
            at,
            &[
                "by the pound",
                "per pound",
                "by the ounce",
                "by the glass",
                "by the bottle",
                "by the carafe",
                "by the pint",
                "by the cup",
            ],
        )
        .filter(|_| at > 0)
    {
        line.claim(PhraseRole::Amount, at, next);
        return Some(next);
    }
    line.number(at)?;
    let mut next = at + 1;
    if is_fraction(line, at) {
        next = at + 3;
    } else if matches!(line.tokens.get(next).map(|t| t.kind), Some(Kind::Vulgar(_))) {
        next += 1;
    } else if line.is_mark(next, &['-', '\u{2013}']) && line.number(next + 1).is_some() {
        next += 2;
    }
    let hyphen = usize::from(line.is_mark(next, &['-']) && line.glued(next));
    let end = unit_at(line, next + hyphen)?;
    line.claim(PhraseRole::Amount, at, end);
    Some(end)
}
