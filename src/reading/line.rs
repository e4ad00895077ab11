//! Component lines: one food and, mostly, its amount.

use super::amount::Amount;
use super::bounds;
use super::error::{ErrorKind, Place, ReadingError};
use super::parts::read;
use super::share::ShareOf;
use super::units::UnitSystem;
use super::whole_amount::parse_amount;

/// A component as read, before anything is known of the food.
#[derive(Debug, Clone, PartialEq)]
pub struct ComponentLine {
    /// As written, without list marks and space around it.
    pub text: String,
    /// The words for the food.
    pub food: String,
    /// How much of it, if said.
    pub amount: Option<Amount>,
    /// Asides such as `on the side`.
    pub note: Option<String>,
    /// How it is served, where it was weighed: `2 slices` beside `60 g`.
    pub served_as: Option<Amount>,
    /// Whether it goes along with the rest and is not eaten by itself: oil for the griddle, a
    /// marinade.
    pub goes_along: bool,
    /// Where the text starts.
    pub place: Place,
    /// Its share of a plate or bowl, if said that way.
    pub share: Option<ShareOf>,
    /// The chance that it is eaten, where it is one of several to choose from; `None` for what
    /// comes with the dish.
    pub chance: Option<f64>,
}

/// Reads one component. `place` is where `text` starts.
///
/// Fails when there is no food in it, or an amount that cannot be right, or a character that
/// cannot be seen.
pub fn parse_component(
    text: &str,
    place: Place,
    units: UnitSystem,
) -> Result<ComponentLine, ReadingError> {
    component(text, place, units)
}

fn component(
    text: &str,
    mut place: Place,
    units: UnitSystem,
) -> Result<ComponentLine, ReadingError> {
    let start = list_mark(text);
    let read = read(text, start, units, false)
        .and_then(|read| read.require_food(text, start))
        .map_err(|problem| problem.at(text, &place))?;
    let body = text[start..].trim();
    place.column += text[..start].chars().count();
    Ok(ComponentLine {
        text: body.to_owned(),
        food: read.food,
        amount: read.amount,
        served_as: aside_amount(read.note.as_deref(), units),
        goes_along: false,
        note: read.note,
        place,
        share: read.share,
        chance: None,
    })
}

/// The amount that an aside is: `bread, 60 g (2 slices)`.
fn aside_amount(aside: Option<&str>, units: UnitSystem) -> Option<Amount> {
    parse_amount(aside?, units).ok()
}

/// Reads component lines: one a line; `#` starts a comment at the start of a line or after a
/// space; blank lines are skipped. Returns what could be read and what could not.
#[must_use]
pub fn parse_lines(
    source_name: &str,
    text: &str,
    units: UnitSystem,
) -> (Vec<ComponentLine>, Vec<ReadingError>) {
    let source: std::sync::Arc<str> = source_name.into();
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.len() > bounds::TEXT_BYTES {
        let kind = ErrorKind::TextTooLarge(text.len());
        return (Vec::new(), vec![ReadingError::of_source(kind, source_name)]);
    }
    let mut components = Vec::new();
    let mut errors = Vec::new();
    for (index, line) in text.lines().enumerate() {
        let line = without_comment(line);
        if line.trim().is_empty() {
            continue;
        }
        match component(line, Place::new(source.clone(), index + 1, 1), units) {
            Ok(component) => components.push(component),
            Err(error) => errors.push(error),
        }
    }
    if components.is_empty() && errors.is_empty() {
        errors.push(ReadingError::of_source(ErrorKind::Empty, source_name));
    }
    (components, errors)
}

/// The line up to its comment. A numbered scoop, `#8 scoop`, is no comment.
pub(super) fn without_comment(line: &str) -> &str {
    let mut before = ' ';
    for (at, letter) in line.char_indices() {
        if letter == '#' && before.is_whitespace() {
            let after = line[at + 1..].trim_start_matches(|c: char| c.is_ascii_digit());
            let scoop = after.len() < line.len() - at - 1
                && (after.trim_start().starts_with("scoop")
                    || after.trim_start().starts_with("disher"));
            if !scoop {
                return &line[..at];
            }
        }
        before = letter;
    }
    line
}

/// Bytes of space, bullet, check box and numbering before a component. `1.5 oz` is none.
pub(super) fn list_mark(text: &str) -> usize {
    let mut rest = text.trim_start();
    if let Some(after) = rest.strip_prefix(['•', '‣', '·', '▪', '◦', '●', '*']) {
        rest = after.trim_start();
    } else if let Some(after) = rest.strip_prefix(['-', '–', '—', '+'])
        && !after
            .starts_with(|c: char| c.is_ascii_digit() || c == '.' || c == '-' || c.is_numeric())
    {
        rest = after.trim_start();
    }
    for check_box in ["[ ]", "[x]", "[X]", "☐", "☑", "✓"] {
        if let Some(after) = rest.strip_prefix(check_box) {
            rest = after.trim_start();
        }
    }
    let digits = rest.bytes().take_while(u8::is_ascii_digit).count();
    if (1..=3).contains(&digits)
        && let Some(after) = rest[digits..].strip_prefix(['.', ')'])
        && after.starts_with(char::is_whitespace)
        && !after.trim().is_empty()
    {
        rest = after.trim_start();
    }
    text.len() - rest.len()
}
