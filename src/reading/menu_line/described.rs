//! Lines that print a name and what it means: `Name: description`, `Name - description`,
//! `Name (a, b, c)`.

use super::super::amount::parse_amount;
use super::super::units::UnitSystem;
use super::only_cooking;

/// What stands between a name and its description.
const BETWEEN: [&str; 4] = [": ", " - ", " \u{2013} ", " \u{2014} "];
/// Longest name, words; more is a sentence.
const LONGEST_NAME: usize = 10;
/// Words a description may begin with that join it to the name without a comma.
const JOINING: [&str; 5] = ["with ", "on ", "over ", "served ", "topped "];

/// A line taken apart into name and description, or put together again.
pub(super) enum Described {
    /// Name, and what stands for it.
    Both(String, String),
    /// The name with only an amount, a size or a way to cook it behind it (`salmon - 6 oz`,
    /// `fries - large`), as one line.
    Sized(String),
}

/// Name and description, where a line has both.
pub(super) fn described(text: &str) -> Option<Described> {
    if !text.contains([':', '-', '\u{2013}', '\u{2014}', '(']) {
        return None;
    }
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let first = text.split([';', '|', '\u{2022}']).next()?;
    let bracket = first.find('(');
    let between = BETWEEN
        .iter()
        .filter_map(|mark| first.find(mark).map(|at| (at, mark.len())))
        .min()
        .filter(|(at, _)| bracket.is_none_or(|open| *at < open));
    let (name, description) = match (between, bracket) {
        (Some((at, long)), _) => (&text[..at], &text[at + long..]),
        (None, Some(open)) => (&text[..open], bracketed(&text[open..])?),
        (None, None) => return None,
    };
    let (name, description) = (name.trim(), description.trim());
    let says = |t: &str| t.contains(char::is_alphabetic);
    if !says(name) || !says(description) || name.split(' ').count() > LONGEST_NAME {
        return None;
    }
    Some(if is_amount(description) || only_cooking(description) {
        Described::Sized(format!("{name}, {description}"))
    } else {
        Described::Both(name.to_owned(), description.to_owned())
    })
}

/// The list in brackets that ends a line.
fn bracketed(text: &str) -> Option<&str> {
    let inner = text.trim_end_matches(['.', ' ']).strip_prefix('(')?;
    let inner = inner.strip_suffix(')')?;
    (inner.contains(',') && !inner.contains(['(', ')'])).then_some(inner)
}

/// Name and description as one line.
pub(super) fn joined(name: &str, description: &str) -> String {
    let lower = description.to_lowercase();
    let joint = if JOINING.iter().any(|with| lower.starts_with(with)) {
        " "
    } else {
        ", "
    };
    format!("{name}{joint}{description}")
}

/// Whether words are an amount and name no food: `6 oz`, `10 pieces`.
pub(super) fn is_amount(text: &str) -> bool {
    text.starts_with(|c: char| c.is_numeric()) && parse_amount(text, UnitSystem::Us).is_ok()
}
