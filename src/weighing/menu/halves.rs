//! Parts of an order or of a rack: the whole is told, and a share of it is served.

use crate::reading::{MenuLine, parse_menu_line};
use crate::weighing::servings::ServingKind;
use crate::words::words_of;

/// What a share is said with.
const SHARES: [&str; 4] = ["half", "1/2", "\u{bd}", "quarter"];
/// What an order is called, of which a share is served.
const ORDERS: [&str; 3] = ["order", "portion", "serving"];
/// What ribs hang together in. A rack by itself may be a part of one; what a share is taken of is a full one.
const RACKS: [&str; 2] = ["rack", "slab"];

/// Words that join another food.
const JOINTS: [&str; 6] = ["and", "&", "+", "with", "w/", "plus"];

/// The share that a line says is served of an order or a rack, and the line that names the whole.
pub(super) fn share_of_an_order(line: &MenuLine) -> Option<(f64, MenuLine)> {
    let serving = &line.serving;
    let several = serving.shares.len() > 1;
    let share = serving.share.filter(|share| *share < 1.0 && !several)?;
    if !serving.share_of_order {
        return None;
    }
    let text = &line.text;
    let words: Vec<(usize, &str)> = words(text).collect();
    let is = |word: &str, list: &[&str]| list.iter().any(|one| word.eq_ignore_ascii_case(one));
    let (pair, whole) = words.windows(2).find_map(|pair| match pair[1].1 {
        _ if !is(pair[0].1, &SHARES) => None,
        unit if is(unit, &ORDERS) => Some((pair, "")),
        unit if is(unit, &RACKS) => Some((pair, "full rack")),
        _ => None,
    })?;
    let behind = &text[pair[1].0 + pair[1].1.len()..];
    let before = &text[..pair[0].0];
    // `Sirloin 6 oz and half a rack`: of what lies beside the dish.
    if is(
        before.split_whitespace().next_back().unwrap_or_default(),
        &JOINTS,
    ) {
        return None;
    }
    // `Half rack of ribs & shrimp`: the shrimp are no half.
    if !whole.is_empty() && words_in(behind).any(|word| is(word, &JOINTS)) {
        return None;
    }
    let behind = if whole.is_empty() {
        behind.trim_start().strip_prefix("of ").unwrap_or(behind)
    } else {
        behind
    };
    let whole = parse_menu_line(&format!("{before}{whole}{behind}"));
    (!whole.head.is_empty()).then_some((share, whole))
}

/// Kinds of dishes that a kitchen puts together and sells by the half: half a chicken is a piece.
const HALVED: [&str; 5] = ["sandwich", "salad", "pasta", "bowl", "pizza"];

/// `Chicken salad - half`, `BLT (half)`: the share that stands behind the name of a dish, and the line
/// without it.
pub(super) fn half_behind(line: &MenuLine) -> Option<(f64, MenuLine)> {
    let serving = &line.serving;
    let share = serving.share.filter(|share| *share < 1.0)?;
    if serving.share_of_order || serving.shares.len() > 1 {
        return None;
    }
    let (start, last) = words(&line.text).last()?;
    let said = SHARES.iter().any(|share| last.eq_ignore_ascii_case(share));
    let name = line.text[..start].trim_end_matches(|c: char| !c.is_alphanumeric());
    let kind = ServingKind::named_last(&words_of(name)).filter(|_| said)?;
    kind.lies_within(&HALVED)
        .then(|| (share, parse_menu_line(name)))
}

/// The words of a text.
fn words_in(text: &str) -> impl Iterator<Item = &str> {
    words(text).map(|(_, word)| word)
}

/// The words of a text with the places where they begin.
fn words(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let parts = |c: char| c.is_whitespace() || ",;()-–".contains(c);
    let mut at = 0;
    text.split(parts).filter_map(move |word| {
        let start = at;
        // What parts two words is one letter, of one byte or more.
        at += word.len()
            + text[at + word.len()..]
                .chars()
                .next()
                .map_or(0, char::len_utf8);
        (!word.is_empty()).then_some((start, word))
    })
}
