//! Meals told in sentences: `For lunch I had two slices of pizza and a small cola.`
//!
//! Sentences are cut into the foods with what is said of each, and the frame around them:
//! who ate, when, with whom, how good it was. Each food is then read as a component line is.

mod cut;
mod foods;
mod piece;
mod recognized;
#[cfg(test)]
mod tests;
mod words;

use super::amount::{Amount, Measure};
use super::error::{ErrorKind, Place, Problem, ReadingError};
use super::line::{ComponentLine, parse_component, parse_lines, without_comment};
use super::number::Reader;
use super::parts::read;
use super::phrase::{PhraseRole, Reading};
use super::tokens::tokens;
use super::units::UnitSystem;
use cut::cut;
use piece::Piece;

/// What sentences come to.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Told {
    /// The foods that were told, in their order.
    pub components: Vec<ComponentLine>,
    /// What could not be read.
    pub errors: Vec<ReadingError>,
    /// The role of every stretch of the text.
    pub read: Reading,
}

/// Whether `text` tells a meal in sentences, rather than naming a dish or a component.
#[must_use]
pub fn is_told(text: &str) -> bool {
    // Most lines are none, and the letter is there in all that are.
    if text.len() < 8 {
        return false;
    }
    let Ok(tokens) = tokens(text) else {
        return false;
    };
    let reader = reader(text, &tokens, UnitSystem::Us);
    recognized::is_told(&reader)
}

/// Reads a text in which some lines are components and others sentences. Returns what could be
/// read and what could not.
#[must_use]
pub(crate) fn parse_text(
    source_name: &str,
    text: &str,
    units: UnitSystem,
) -> (Vec<ComponentLine>, Vec<ReadingError>) {
    if !text.lines().any(is_told) {
        return parse_lines(source_name, text, units);
    }
    let source: std::sync::Arc<str> = source_name.into();
    let (mut components, mut errors) = (Vec::new(), Vec::new());
    for (index, line) in text.lines().enumerate() {
        let line = without_comment(line);
        if line.trim().is_empty() {
            continue;
        }
        let place = Place::new(source.clone(), index + 1, 1);
        if is_told(line) {
            let told = parse_told(line, &place, units);
            components.extend(told.components);
            errors.extend(told.errors);
        } else {
            match parse_component(line, place, units) {
                Ok(component) => components.push(component),
                Err(error) => errors.push(error),
            }
        }
    }
    (components, errors)
}

/// Reads sentences. `place` is where `text` starts.
#[must_use]
pub fn parse_told(text: &str, place: &Place, units: UnitSystem) -> Told {
    let tokens = match tokens(text) {
        Ok(tokens) => tokens,
        Err(problem) => {
            return Told {
                errors: vec![problem.at(text, place)],
                ..Told::default()
            };
        }
    };
    let reader = reader(text, &tokens, units);
    let mut told = Told::default();
    let all = cut(&reader);
    told.read = roles(&reader, &all);
    let mut pieces: Vec<Piece> = Vec::new();
    for piece in all {
        let read = component(&reader, &piece, place);
        // `a bagel. It was a serving size of 4 oz`: an amount of the food before it.
        let only_amount =
            matches!(&read, Err(problem) if matches!(problem.kind, ErrorKind::NoFood));
        if only_amount && let (Some(last), Some(line)) = (pieces.last(), told.components.last()) {
            let both = last.joined(&piece);
            if line.amount.as_ref().is_none_or(is_bare)
                && let Ok(line) = component(&reader, &both, place)
            {
                told.components.pop();
                told.components.push(line);
            }
            continue;
        }
        match read {
            Ok(line) => {
                told.components.push(line);
                pieces.push(piece);
            }
            Err(problem) => told.errors.push(problem.at(text, place)),
        }
    }
    told
}

/// Amounts and foods by their places; all words between them are filler.
fn roles(reader: &Reader<'_>, pieces: &[Piece]) -> Reading {
    let mut reading = Reading::of(reader.text);
    let mut done = 0;
    for piece in pieces {
        let Some(piece) = piece.behind(reader, done) else {
            continue;
        };
        let (start, end) = piece.span(reader);
        fill(&mut reading, done, start);
        let food = match piece.amount(reader) {
            Some((role, amount_end, food)) => {
                reading.push(role, start, amount_end);
                fill(&mut reading, amount_end, food);
                food
            }
            None => start,
        };
        if food < end {
            reading.push(PhraseRole::Component, food, end);
        }
        done = end;
    }
    fill(&mut reading, done, reader.text.len());
    reading.in_order()
}

/// The words between two foods, if there are any.
fn fill(reading: &mut Reading, from: usize, to: usize) {
    let Some(text) = reading.text.get(from..to) else {
        return;
    };
    let start = from + (text.len() - text.trim_start().len());
    let end = start + text.trim().len();
    if start < end {
        reading.push(PhraseRole::Filler, start, end);
    }
}

/// A count of the food itself, which says no measure.
fn is_bare(amount: &Amount) -> bool {
    matches!(amount.measure, Measure::Count { unit: None, .. })
}

fn reader<'a>(text: &'a str, tokens: &'a [super::tokens::Token], units: UnitSystem) -> Reader<'a> {
    Reader {
        text,
        tokens,
        units,
        amount_only: false,
    }
}

/// One food with what is said of it, as a component.
fn component(reader: &Reader<'_>, piece: &Piece, place: &Place) -> Result<ComponentLine, Problem> {
    let (start, end) = piece.span(reader);
    let here = |kind| Problem::new(kind, start, end);
    // A number further in belongs to a part of the food: `burger with two patties`.
    let line = read(&piece.words(reader), 0, reader.units, false)
        .or_else(|problem| {
            let plain = piece.without_inner_numbers(reader).words(reader);
            read(&plain, 0, reader.units, false).map_err(|_| problem)
        })
        .map_err(|problem| here(problem.kind))?;
    if line.first_word.is_none() {
        return Err(here(ErrorKind::NoFood));
    }
    let mut place = place.clone();
    place.column += reader.text[..start].chars().count();
    Ok(ComponentLine {
        text: reader.text[start..end].to_owned(),
        food: line.food,
        amount: line.amount,
        note: line.note,
        served_as: None,
        goes_along: false,
        place,
        share: line.share,
        chance: None,
    })
}
