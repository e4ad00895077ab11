//! Meals told in sentences: `For lunch I had two slices of pizza and a small cola.`
//!
//! Sentences are cut into the foods with what is said of each, and the frame around them:
//! who ate, when, with whom, how good it was. Each food is then read as a component line is.

mod cut;
#[cfg(test)]
mod tests;
mod words;

use super::error::{ErrorKind, Place, Problem, ReadingError};
use super::line::ComponentLine;
use super::number::Reader;
use super::parts::read;
use super::tokens::tokens;
use super::units::UnitSystem;
use cut::{Piece, cut};

/// What sentences come to.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Told {
    /// The foods that were told, in their order.
    pub components: Vec<ComponentLine>,
    /// What could not be read.
    pub errors: Vec<ReadingError>,
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
    cut::is_told(&reader)
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
    for piece in cut(&reader) {
        match component(&reader, &piece, place) {
            Ok(line) => told.components.push(line),
            Err(problem) => told.errors.push(problem.at(text, place)),
        }
    }
    told
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
    let (first, last) = (piece.first(), piece.last());
    let start = reader.tokens.get(first).map_or(0, |token| token.start);
    let end = reader.tokens.get(last).map_or(start, |token| token.end);
    let here = |kind| Problem::new(kind, start, end);
    let told = piece.words(reader);
    let line = read(&told, 0, reader.units, false).map_err(|problem| here(problem.kind))?;
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
        place,
        share: line.share,
    })
}
