//! Prices: what a menu asks for, wherever it stands.

use super::lexer::Lexed;
use crate::reading::phrase::PhraseRole;
use crate::words::spelt_number;

const SIGNS: [char; 9] = [
    '$', '\u{a3}', '\u{20ac}', '\u{a5}', '\u{20b9}', '\u{20a9}', '\u{20ab}', '\u{20b1}', '\u{20ba}',
];
const CODES: [&str; 22] = [
    "usd", "eur", "gbp", "chf", "cad", "aud", "nzd", "sek", "nok", "dkk", "inr", "jpy", "mxn",
    "kr", "fr", "rs", "zl", "ft", "kc", "php", "aed", "euro",
];

/// Claims prices that say so: by a sign, a currency, two decimals, leaders, `MP`.
pub(super) fn claim_prices(line: &mut Lexed<'_>) {
    let mut at = 0;
    while at < line.len() {
        if line.claimed(at) {
            at += 1;
            continue;
        }
        let Some((from, to)) = plain_price(line, at) else {
            at += 1;
            continue;
        };
        let to = with_more(line, to);
        line.claim(PhraseRole::Price, from, to);
        at = to;
    }
    claim_bare(line);
}

/// A price at `at` that needs nothing beside it.
fn plain_price(line: &Lexed<'_>, at: usize) -> Option<(usize, usize)> {
    if line.is_mark(at, &SIGNS) && line.number(at + 1).is_some() {
        return Some((at, at + 2));
    }
    if line.any(at, &CODES) && line.number(at + 1).is_some() && !line.claimed(at + 1) && at > 0 {
        return Some((at, at + 2));
    }
    if line.slice(at, at + 1) == "MP" || line.slice(at, at + 1) == "M.P" {
        return Some((at, at + 1));
    }
    if let Some(next) = line.longest(at, &["market price", "price on request", "ask for price"]) {
        return Some((at, next));
    }
    if spelt_number(line.word(at)).is_some() {
        let money = line.any(at + 1, &["dollars", "dollar", "euros", "pounds", "bucks"]);
        let led = at > 1
            && line.is_mark(at - 1, &['.', '\u{2026}', '-', '\u{2013}'])
            && at + 1 >= line.len();
        return (money || led).then_some((at, at + 1 + usize::from(money)));
    }
    line.number(at)?;
    let text = line.slice(at, at + 1);
    if line.is_mark(at + 1, &SIGNS) || (line.any(at + 1, &CODES) && line.ends(at + 2)) {
        return Some((at, at + 2));
    }
    // `12.50`, `12,50`, and no unit behind it: no amount is said to the hundredth. In `.75` the
    // point belongs to the figure.
    let hundredths = text.len() > 2 && matches!(text.as_bytes()[text.len() - 3], b'.' | b',');
    let part = hundredths && !is_measured(line, at) && at > 0;
    part.then_some((at, at + 1))
}

/// What belongs to a price behind it: `each`, `.-`, `/ 13`.
fn with_more(line: &Lexed<'_>, next: usize) -> usize {
    let mut next = next;
    if line.is_mark(next, &['.']) && line.is_mark(next + 1, &['-', '\u{2013}']) {
        next += 2;
    }
    while line.is_mark(next, &['/'])
        && line.glued(next)
        && line.glued(next + 1)
        && line.number(next + 1).is_some()
        && !is_measured(line, next + 1)
    {
        next += 2;
    }
    if line.any(next, &["each", "ea"]) {
        next += 1;
    }
    next
}

/// Whether a unit, a count word or a food stands behind the number, so that it counts or weighs.
pub(super) fn is_measured(line: &Lexed<'_>, number: usize) -> bool {
    let hyphen = usize::from(
        line.is_mark(number + 1, &['-']) && line.glued(number + 1) && line.glued(number + 2),
    );
    let next = number + 1 + hyphen;
    if line.claimed(next) {
        return false;
    }
    if line.is_mark(next, &['"', '\u{2033}', '\u{201d}', '%', '\u{d7}']) {
        return true;
    }
    line.is_word(next)
        && !line.any(
            next,
            &[
                "add",
                "extra",
                "each",
                "ea",
                "with",
                "or",
                "and",
                "per",
                "make",
                "plus",
                "upgrade",
                "additional",
            ],
        )
        && !size_follows(line, next)
}

/// `9 bottle 34`: a size that has a price of its own.
fn size_follows(line: &Lexed<'_>, at: usize) -> bool {
    super::serving::SIZES.contains(&line.word(at))
        && (line.number(at + 1).is_some() || line.is_mark(at + 1, &SIGNS))
        || line.is(at, "bowl") && line.is(at + 1, "of")
}

/// Claims bare numbers: one that ends a part of the line, or stands before another price.
fn claim_bare(line: &mut Lexed<'_>) {
    for at in (1..line.len()).rev() {
        if line.claimed(at) || line.number(at).is_none() || !is_bare_price(line, at) {
            continue;
        }
        let slashed = line.is_mark(at - 1, &['/']) && line.glued(at) && line.glued(at - 1);
        let first = (slashed && at > 2 && line.number(at - 2).is_some() && !line.claimed(at - 2))
            .then(|| at - 2);
        let from = first.unwrap_or(at);
        let to = with_more(line, at + 1);
        line.claim(PhraseRole::Price, from, to);
    }
}

/// `6 for 18`: whether `for` at `at` stands between a count and its price.
pub(super) fn counts_for_price(line: &Lexed<'_>, at: usize) -> bool {
    at > 0
        && line.is(at, "for")
        && line.number(at - 1).is_some()
        && line.number(at + 1).is_some()
        && !line.any(at + 2, &["people", "persons", "person", "guests"])
}

/// `(4)`, `(6, 12 or 18)`: nothing but figures around the one at `at`.
pub(super) fn is_bracket_of_counts(line: &Lexed<'_>, at: usize) -> bool {
    let parts = |at: usize| {
        line.number(at).is_some() || line.is_mark(at, &[',', '/']) || line.any(at, &["or", "and"])
    };
    let end = (at..line.len()).find(|next| !parts(*next));
    let start = (0..at).rev().find(|before| !parts(*before));
    end.is_some_and(|end| line.is_mark(end, &[')', ']']))
        && start.is_some_and(|start| line.is_mark(start, &['(', '[']))
}

fn is_bare_price(line: &Lexed<'_>, at: usize) -> bool {
    let before = at - 1;
    // `(4)`, `(25 ea)`, `x 6`, `no. 7`, `#4`, `2 or 3`: they count or number.
    let each = line.any(at + 1, &["ea", "each"]) && line.is_mark(at + 2, &[')', ']']);
    let bracketed = line.is_mark(before, &['(', '[']) && (each || is_bracket_of_counts(line, at));
    if counts_for_price(line, before) {
        return true;
    }
    let numbered = line.any(
        before,
        &[
            "x", "no", "number", "combo", "or", "for", "and", "to", "of", "route", "style",
        ],
    ) || line.any(before, &["meal", "plate"]) && line.begins(before)
        || line.is_mark(before, &['#', '\u{d7}', '"'])
        || (line.is_mark(before, &['.']) && before > 0 && line.is(before - 1, "no"));
    // `10" 12`: the quotation mark is one of inches.
    let inches = line.is_mark(before, &['"']) && line.glued(before) && !line.glued(at);
    let numbered = numbered && !inches;
    let glued =
        line.glued(at) && !line.is_mark(before, &['+', '.', '\u{2026}', '|', '/', '(', '-', ':']);
    if bracketed || numbered || glued || is_measured(line, at) || is_fraction(line, at) {
        return false;
    }
    // `1 or 2`, `3-4`: a range of counts.
    if line.is_mark(at + 1, &['-', '\u{2013}'])
        && line.glued(at + 1)
        && line.glued(at + 2)
        && line.number(at + 2).is_some()
    {
        return false;
    }
    if line.is(at + 1, "or") && line.number(at + 2).is_some() {
        return false;
    }
    let dozens = line.any(at + 1, &["dozen", "dz"]);
    // A list that begins with a number: `Dim sum: 4 pork dumplings`.
    let leads = at + 1 >= line.len()
        || line.ends(at + 1)
        || line.is_mark(at + 1, &['+', '*', '/'])
        || line.is_word(at + 1);
    leads && !dozens
}

/// `1/4`, `2/3`: a part of a whole, no two prices.
pub(super) fn is_fraction(line: &Lexed<'_>, at: usize) -> bool {
    let pair = |top: usize, bottom: usize| {
        let (Some(a), Some(b)) = (line.number(top), line.number(bottom)) else {
            return false;
        };
        let slash =
            line.is_mark(top + 1, &['/', '\u{2044}']) && line.glued(top + 1) && line.glued(bottom);
        slash && a < b && [2.0, 3.0, 4.0, 8.0].contains(&b)
    };
    pair(at, at + 2) || (at >= 2 && pair(at - 2, at))
}
