//! Counts within a menu line.

use super::lexer::Lexed;
use super::prices::{counts_for_price, is_bracket_of_counts, is_fraction};
use super::serving::ServingWords;
use super::units::unit_at;
use crate::reading::counted::HOLDS_PIECES;
use crate::reading::phrase::PhraseRole;
use crate::words::spelt_number;

/// Largest number that counts pieces of one order.
const MOST_PIECES: f64 = 100.0;

/// A number at `at`, in figures or a word, small enough to count.
pub(super) fn counting(line: &Lexed<'_>, at: usize) -> Option<f64> {
    if line.claimed(at) {
        return None;
    }
    let spelt = || match line.word(at) {
        "dozen" => Some(12.0),
        "pair" => Some(2.0),
        word => spelt_number(word).filter(|number| *number <= 12.0),
    };
    let value = line.number(at).or_else(spelt)?;
    (value > 0.0 && value <= MOST_PIECES).then_some(value)
}

const PIECES: [&str; 26] = [
    "pc", "pcs", "pce", "piece", "pieces", "ct", "count", "stick", "sticks", "skewer", "skewers",
    "rolls", "roll", "ea", "each", "wings", "slices", "slice", "links", "strips", "scoop",
    "scoops", "balls", "pk", "pack", "piezas",
];

/// `6 pc`, `(4)`, `x3`, `half a dozen`, `two scoops`, `3` before a food.
pub(super) fn count(line: &mut Lexed<'_>, at: usize, serving: &mut ServingWords) -> Option<usize> {
    let (value, next, sets) = counted(line, at)?;
    if is_held(line, at) {
        line.claim(PhraseRole::Filler, at - 2, at);
    }
    if sets {
        if serving.count.is_none() {
            serving.count = Some(value);
        }
        serving.counts.push(value);
    }
    line.claim(PhraseRole::Count, at, next);
    if counts_for_price(line, next) {
        line.claim(PhraseRole::Filler, next, next + 1);
        return Some(next + 1);
    }
    Some(next)
}

/// A count at `at`: the number, the token behind, and whether it counts the dish itself.
fn counted(line: &Lexed<'_>, at: usize) -> Option<(f64, usize, bool)> {
    if let Some(next) = line.longest(at, &["half a dozen", "half dozen", "a half dozen"]) {
        return Some((6.0, next, true));
    }
    if let Some(next) = line.longest(at, &["a dozen", "one dozen"]) {
        return Some((12.0, next, true));
    }
    if line.is(at, "dozen") && at > 0 && (line.claimed(at - 1) || line.ends(at + 1)) {
        return Some((12.0, at + 1, false));
    }
    // `single scoop`.
    if line.any(at, &["single", "double", "triple"])
        && line.any(at + 1, &["scoop", "scoops", "dip"])
    {
        let value = match line.word(at) {
            "single" => 1.0,
            "double" => 2.0,
            _ => 3.0,
        };
        return Some((value, at + 2, true));
    }
    if line.any(at, &["x"]) || line.is_mark(at, &['\u{d7}']) {
        let value = counting(line, at + 1).filter(|_| line.number(at + 1).is_some())?;
        return line.ends(at + 2).then_some((value, at + 2, true));
    }
    figure(line, at)
}

/// `bucket of 20 wings`: the number counts what the ware at the beginning of the line holds.
fn is_held(line: &Lexed<'_>, at: usize) -> bool {
    at == 2 && line.is(1, "of") && line.any(0, &HOLDS_PIECES) && line.is_word(at + 1)
}

/// As [`counted`], for a number at `at`.
fn figure(line: &Lexed<'_>, at: usize) -> Option<(f64, usize, bool)> {
    let value = counting(line, at)?;
    let first = at == 0 || is_held(line, at);
    if is_fraction(line, at) || line.number(at).is_some_and(|n| n.fract() != 0.0) {
        return None;
    }
    let next = at + 1;
    if is_bracket_of_counts(line, at) || counts_for_price(line, next) {
        return Some((value, next, true));
    }
    if line.any(next, &["dozen"]) {
        return Some((value * 12.0, next + 1, true));
    }
    if let Some(found) = pieces(line, at, value) {
        return Some(found);
    }
    if at > 0
        && value == 1.0
        && line.any(next, &["portion", "serving", "order"])
        && line.ends(next + 1)
    {
        return Some((value, next + 1, false));
    }
    if line.is(next, "x") && line.is_word(next + 1) {
        return Some((value, next + 1, first));
    }
    if is_listed_count(line, at) {
        return Some((value, next, true));
    }
    // A number before a food: `three beef tacos`.
    let food = line.is_word(next)
        && !line.claimed(next)
        && unit_at(line, next).is_none()
        && line.mark(next).is_none()
        && !line.any(
            next,
            &[
                "sides", "side", "toppings", "fillings", "in", "way", "ways", "course", "layer",
                "cheese", "bean", "spice", "alarm", "star", "grain", "times", "and", "or",
            ],
        );
    let starts = line.begins(at)
        || line.any(
            at - 1,
            &[
                "with", "and", "of", "con", "mit", "avec", "over", "on", "of", "the", "plus", "add",
            ],
        );
    (food && starts).then_some((value, next, first))
}

/// `6 pc`, `8-piece`, `two scoops`.
fn pieces(line: &Lexed<'_>, at: usize, value: f64) -> Option<(f64, usize, bool)> {
    let next = at + 1;
    let first = at == 0 || is_held(line, at);
    let hyphen =
        usize::from(line.is_mark(next, &['-']) && line.glued(next) && line.glued(next + 1));
    if line.any(next + hyphen, &PIECES)
        && !(hyphen == 1 && line.is_word(next + 2) && line.number(at).is_none())
    {
        let end = next + hyphen + 1;
        // `10 wings` at the beginning: the wings are the dish.
        let dish = [
            "wings", "rolls", "roll", "links", "strips", "balls", "skewer", "skewers",
        ];
        if first && (line.any(next + hyphen, &dish) || !line.is_word(end)) {
            return Some((value, next, true));
        }
        // `a slice of pizza and 12 wings`: another dish, with a count of its own.
        let joined = !first
            && (line.any(at - 1, &["and", "with", "plus"]) || line.is_mark(at - 1, &['&', '+']));
        if joined && line.any(next + hyphen, &dish) {
            return Some((value, next, false));
        }
        // `4 slices white toast` counts what follows, `pizza, 2 slices` the dish before.
        let whole = !first
            || line.any(
                next + hyphen,
                &[
                    "pc", "pcs", "piece", "pieces", "ct", "count", "scoop", "scoops",
                ],
            );
        return Some((value, end, whole));
    }
    None
}

/// `8 or 12`, at the end of a part: two counts to choose from.
fn is_listed_count(line: &Lexed<'_>, at: usize) -> bool {
    line.number(at).is_some()
        && ((line.is(at + 1, "or") && line.number(at + 2).is_some() && line.ends(at + 3))
            || (at >= 2
                && line.is(at - 1, "or")
                && line.number(at - 2).is_some()
                && line.ends(at + 1)))
}
