//! Sizes within a menu line, and the order in which sizes, counts, parts and amounts are claimed.

use crate::quantity::units::INCH_CM;
use crate::reading::phrase::PhraseRole;

use super::counts::count;
use super::lexer::Lexed;

use super::serving::{SIZES, ServingWords, SizeWord};
use super::shares::part;
use super::units::amount;

/// Sizes that come before the name of a dish.
const BEFORE: [&str; 33] = [
    "extra large",
    "x large",
    "xl",
    "mini",
    "small",
    "sm",
    "medium",
    "med",
    "regular",
    "reg",
    "large",
    "lg",
    "lrg",
    "kids",
    "kid's",
    "child's",
    "children's",
    "junior",
    "jr",
    "personal",
    "individual",
    "single",
    "double",
    "triple",
    "tall",
    "short stack",
    "full stack",
    "foot long",
    "footlong",
    "petite",
    "giant",
    "jumbo",
    "family size",
];

/// Vessels that come before `of`.
const VESSELS: [&str; 13] = [
    "cup",
    "bowl",
    "pint",
    "quart",
    "glass",
    "bottle",
    "can",
    "mug",
    "pitcher",
    "carafe",
    "shot",
    "half pint",
    "large bowl",
];

/// Words that a size word describes instead of the dish.
const NO_SIZE_OF: [&str; 37] = [
    "rare",
    "well",
    "plates",
    "plate",
    "bites",
    "chocolate",
    "berry",
    "fudge",
    "decker",
    "dipped",
    "stuffed",
    "crust",
    "cream",
    "caramel",
    "meat",
    "cheese",
    "protein",
    "patty",
    "shot",
    "menu",
    "meal",
    "cheddar",
    "citrus",
    "ginger",
    "glazed",
    "heat",
    "spicy",
    "hot",
    "curd",
    "grain",
    "baked",
    "smoked",
    "cooked",
    "batch",
    "gloucester",
    "layer",
    "bacon",
];

/// Claims sizes, counts, parts and amounts; says what they mean for the serving.
pub(super) fn claim_sizes(line: &mut Lexed<'_>, serving: &mut ServingWords) {
    let mut at = 0;
    while at < line.len() {
        if line.claimed(at) {
            at += 1;
            continue;
        }
        let next = inches(line, at, serving)
            .or_else(|| count(line, at, serving))
            .or_else(|| part(line, at, serving))
            .or_else(|| amount(line, at))
            .or_else(|| size(line, at, serving));
        at = next.unwrap_or(at + 1);
    }
}

/// `12"`, `12-inch`, `30 cm`.
fn inches(line: &mut Lexed<'_>, at: usize, serving: &mut ServingWords) -> Option<usize> {
    let value = line.number(at)?;
    let unit = at + 1 + usize::from(line.is_mark(at + 1, &['-']) && line.glued(at + 1));
    let sign = line.is_mark(unit, &['"', '\u{2033}', '\u{201d}']);
    let short = line.is(unit, "in") && line.mark(unit + 1) == Some('.');
    let each = if sign || short || line.any(unit, &["inch", "inches"]) {
        1.0
    } else if line.is(unit, "cm") {
        1.0 / INCH_CM
    } else {
        return None;
    };
    if !(1.0..=40.0).contains(&(value * each)) {
        return None;
    }
    serving.inches.get_or_insert(value * each);
    line.claim(PhraseRole::Size, at, unit + 1);
    Some(unit + 1)
}

/// Size words: before a dish, behind it as a part of their own, or before a price.
fn size(line: &mut Lexed<'_>, at: usize, serving: &mut ServingWords) -> Option<usize> {
    let next = size_at(line, at)?;
    let last = next - 1;
    let word = SizeWord::of(line.word(at)).or_else(|| SizeWord::of(line.word(last)));
    let word = if line.is(at, "extra") || line.is(at, "x") {
        Some(SizeWord::ExtraLarge)
    } else {
        word
    };
    if let Some(word) = word {
        serving.add(word);
    }
    line.claim(PhraseRole::Size, at, next);
    Some(next)
}

/// Whether a price or an energy stands at `at`.
fn is_priced(line: &Lexed<'_>, at: usize) -> bool {
    matches!(
        line.role(at),
        Some(PhraseRole::Price | PhraseRole::PrintedEnergy)
    )
}

fn size_at(line: &Lexed<'_>, at: usize) -> Option<usize> {
    if !line.is_word(at) {
        return None;
    }
    let listed = SIZES.contains(&line.word(at))
        || line
            .longest(at, &["extra large", "x large", "family size"])
            .is_some();
    // `Cup of soup`.
    if let Some(next) = line
        .longest(at, &VESSELS)
        .filter(|next| line.is(*next, "of"))
    {
        let starts = line.begins(at)
            || line.any(at - 1, &["a", "and", "with", "large", "small"])
            || is_priced(line, at - 1);
        return starts.then_some(next);
    }
    let cup_of = line.any(at, &["cup", "bowl"])
        && at > 0
        && line.any(at - 1, &["and", "with"])
        && line.is_word(at + 1);
    if cup_of {
        return None;
    }
    if let Some(next) = before_a_dish(line, at) {
        return Some(next);
    }
    listed.then(|| behind_a_dish(line, at)).flatten()
}

/// `Large fries`, `Kids' burger`.
fn before_a_dish(line: &Lexed<'_>, at: usize) -> Option<usize> {
    if let Some(mut next) = line
        .longest(at, &BEFORE)
        .filter(|_| line.begins(at) || line.any(at - 1, &["a", "the"]))
    {
        // The apostrophe of `Kids'`.
        if line.is_mark(next, &['\'', '\u{2019}']) && line.glued(next) {
            next += 1;
        }
        if line.any(next, &["size", "sized", "order", "portion", "serving"]) {
            next += 1;
        }
        let double_bad =
            line.any(at, &["double", "triple", "single", "medium"]) && line.any(next, &NO_SIZE_OF);
        let plates = line.any(
            next,
            &["plates", "plate", "bites", "menu", "rare", "well", "heat"],
        );
        let foods = line.is_word(next) || line.number(next).is_some();
        if !double_bad && !plates && (foods || line.ends(next) || is_priced(line, next)) {
            return Some(next);
        }
    }
    None
}

/// `Fries, large`, `tomato soup cup 5 bowl 8`.
fn behind_a_dish(line: &Lexed<'_>, at: usize) -> Option<usize> {
    let next = line
        .longest(at, &["extra large", "x large", "family size", "half pint"])
        .unwrap_or(at + 1);
    if is_in_a_run(line, at, next) {
        return Some(next);
    }
    let stands_alone = line.ends(next)
        || line.number(next).is_some()
        || line.is(next, "and")
        || line.is(next, "or");
    let behind = at > 0
        && (line.begins(at)
            || line.is_mark(at - 1, &['/'])
            || line.any(at - 1, &["or", "and"])
                && line.role(at.wrapping_sub(2)) == Some(PhraseRole::Size));
    if behind && (stands_alone || line.is_mark(next, &['/'])) {
        return Some(next);
    }
    // `House red glass 9 bottle 34`, `Tomato soup cup 5 bowl 8`.
    if at > 0 && is_priced(line, next) && (is_priced(line, at - 1) || has_other_vessel(line, at)) {
        return Some(next);
    }
    // `Root beer large`: a size behind a name.
    let trailing = [
        "small", "medium", "large", "regular", "mini", "sm", "med", "lg", "grande", "kids",
    ];
    let after_name =
        at > 0 && line.is_word(at - 1) && !line.claimed(at - 1) && line.any(at, &trailing);
    (after_name && line.ends(next)).then_some(next)
}

/// `sm med lg` behind a name: sizes one after the other to the end of the part.
fn is_in_a_run(line: &Lexed<'_>, at: usize, next: usize) -> bool {
    let sized = |at: usize| SIZES.contains(&line.word(at));
    let before = at > 1 && line.role(at - 1) == Some(PhraseRole::Size) && sized(at - 1);
    let goes_on = |at: usize| sized(at) || line.is_mark(at, &['/']) && sized(at + 1);
    let end = (next..line.len())
        .find(|at| !goes_on(*at))
        .unwrap_or(line.len());
    at > 0 && line.ends(end) && (before || end > next)
}

/// Whether a line gives two vessels each a price.
fn has_other_vessel(line: &Lexed<'_>, at: usize) -> bool {
    let sized = |at: usize| SIZES.contains(&line.word(at));
    sized(at)
        && (0..line.len()).any(|other| {
            other != at
                && sized(other)
                && !line.is(other, line.word(at))
                && line.role(other + 1) == Some(PhraseRole::Price)
        })
}
