//! Parts of a whole within a menu line.

use super::lexer::Lexed;
use super::prices::is_fraction;
use super::serving::ServingWords;
use super::units::unit_at;
use crate::reading::phrase::PhraseRole;
use crate::reading::tokens::Kind;

/// What a share is said of, beside the dish itself.
const OF: [&str; 14] = [
    "rack",
    "racks",
    "slab",
    "order",
    "portion",
    "size",
    "sized",
    "serving",
    "tray",
    "pan",
    "chicken rack",
    "bottle",
    "carafe",
    "dozen",
];

/// `half rack`, `quarter chicken`, `1/4`, `by the slice`.
pub(super) fn part(line: &mut Lexed<'_>, at: usize, serving: &mut ServingWords) -> Option<usize> {
    if let Some(next) = line
        .longest(at, &["by the slice", "per slice", "a slice"])
        .filter(|_| at > 0)
    {
        serving.slice = true;
        line.claim(PhraseRole::Part, at, next);
        return Some(next);
    }
    let (share, next) = share(line, at)?;
    let hyphen = usize::from(line.is_mark(next, &['-']) && line.glued(next));
    let end = if line.any(next + hyphen, &OF) {
        next + hyphen + 1
    } else {
        next
    };
    let alone = line.ends(end) || line.number(end).is_some();
    let front = line.begins(at) && (line.is_word(end) || alone);
    // `full English` names a dish, `half and half` a milk, `half the sugar` a change.
    let named = line.any(
        next,
        &[
            "and",
            "english",
            "the",
            "moon",
            "scottish",
            "irish",
            "sour",
            "welsh",
            "fat",
            "baked",
            "monty",
            "breakfast",
        ],
    );
    let described = front || alone || end > next;
    if named || !described || (share >= 1.0 && end == next && !alone) {
        return None;
    }
    serving.share.get_or_insert(share);
    serving.shares.push(share);
    serving.share_of_order |= end > next;
    line.claim(PhraseRole::Part, at, end);
    Some(end)
}

fn share(line: &Lexed<'_>, at: usize) -> Option<(f64, usize)> {
    if line.any(at, &["half", "1/2"]) {
        return Some((0.5, at + 1));
    }
    if line.is(at, "quarter") {
        return Some((0.25, at + 1));
    }
    if line.any(at, &["full", "whole"]) {
        return Some((1.0, at + 1));
    }
    match line.tokens.get(at)?.kind {
        Kind::Vulgar(value) if unit_at(line, at + 1).is_none() => return Some((value, at + 1)),
        _ => {}
    }
    let fraction = line.number(at).is_some()
        && is_fraction(line, at)
        && line.number(at + 2).is_some()
        && line.is_mark(at + 1, &['/', '\u{2044}']);
    if fraction && unit_at(line, at + 3).is_none() {
        let value = line.number(at)? / line.number(at + 2)?;
        return Some((value, at + 3));
    }
    None
}
