//! What can be wrong with text, and how it is told.

use std::fmt::Write as _;
use std::sync::Arc;

use unicode_width::UnicodeWidthStr as _;

use super::bounds::{self, Bound};
use crate::words::is_hidden;

/// Where a text stood, counted from one.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Place {
    /// File name, `standard input`, or an option's name.
    pub source: Arc<str>,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
}

impl Place {
    /// A place in `source`; `line` and `column` count from one.
    #[must_use]
    pub fn new(source: impl Into<Arc<str>>, line: usize, column: usize) -> Self {
        Self {
            source: source.into(),
            line,
            column,
        }
    }
}

/// What is wrong.
#[derive(Debug, Clone, PartialEq)]
pub enum ErrorKind {
    /// Nothing to read.
    Empty,
    /// The line has this many characters.
    LineTooLong(usize),
    /// The text has this many bytes.
    TextTooLarge(usize),
    /// A character that cannot be seen.
    HiddenCharacter(char),
    /// Digits that make no number.
    UnreadableNumber,
    /// A fraction over nothing.
    DivisionByZero,
    /// An amount below zero.
    Negative,
    /// A figure outside its bounds.
    OutOfBounds {
        /// The figure, in the bound's unit.
        figure: f64,
        /// What was expected.
        bound: &'static Bound,
    },
    /// A range whose end is below its start.
    RangeBackwards,
    /// A unit that measures nothing here; the unit to use in its place.
    UnknownUnit(&'static str),
    /// A number without a unit where one is needed.
    NoUnit,
    /// An amount, but of what?
    NoFood,
    /// Text where an amount was expected.
    NotAnAmount,
    /// Words left over beside an amount.
    WordsBesideAmount,
    /// Two amounts that cannot both be true: the other one.
    Contradiction(Box<str>),
    /// An amount that belongs to the words after it only.
    TwoFoods,
    /// Something said to be missing from the plate.
    Absent,
    /// Text where a weight, volume or vessel was expected.
    NotServed,
    /// Not valid TOML, in the parser's words.
    Toml(Box<str>),
    /// A key that dish files do not have.
    UnknownKey {
        /// The nearest known key.
        nearest: Option<&'static str>,
        /// All known keys there.
        known: &'static [&'static str],
    },
    /// A key that must be there.
    MissingKey(&'static str),
    /// A value of another type than expected.
    WrongType(Wanted),
    /// A choice of fewer than two.
    NoChoice,
}

/// What a value of a dish file should be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Wanted {
    /// Text in quotes.
    Text,
    /// True or false.
    Truth,
    /// How many servings the amounts are for.
    Servings,
    /// How many options are eaten.
    Taken,
    /// An array of tables under this name.
    Tables(&'static str),
}

impl Wanted {
    fn told(self) -> String {
        match self {
            Self::Text => "text".into(),
            Self::Truth => "`true` or `false`".into(),
            Self::Servings => "a number of servings, such as `makes = 6`".into(),
            Self::Taken => {
                "a whole number from 1 to one less than there are options, such as `take = 1`"
                    .into()
            }
            Self::Tables(name) => format!("`[[{name}]]` tables"),
        }
    }

    fn cure(self) -> String {
        match self {
            Self::Text => "Put text in quotes: `amount = \"120 g\"`.".into(),
            Self::Truth => "Write `true` or `false`, without quotes.".into(),
            Self::Servings => "Write a bare number: `makes = 6`.".into(),
            Self::Taken => "Write a bare whole number: `take = 1`.".into(),
            Self::Tables(_) => {
                format!(
                    "Write {}, each key on a line of its own below.",
                    self.told()
                )
            }
        }
    }
}

/// Something in the text that could not be read: what, where, and how to mend it.
///
/// `Display` shows the line with the place marked. Characters that cannot be seen are
/// written out.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{}", render(self))]
pub struct ReadingError {
    /// What is wrong.
    pub kind: Box<ErrorKind>,
    /// Where it starts.
    pub place: Place,
    /// The line it stands in, cut near the place when very long; empty if there is none.
    pub line: Box<str>,
    /// Bytes of `line` that are wrong, from.
    pub from: usize,
    /// Bytes of `line` that are wrong, to (exclusive).
    pub to: usize,
}

/// An error that knows its bytes in the text being read, but not yet its place.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Problem {
    pub kind: ErrorKind,
    pub start: usize,
    pub end: usize,
}

impl Problem {
    pub(super) fn new(kind: ErrorKind, start: usize, end: usize) -> Self {
        Self { kind, start, end }
    }

    /// The problem in `text`, which begins at `place`.
    pub(super) fn at(self, text: &str, place: &Place) -> ReadingError {
        let before = text[..self.start].chars().count();
        let (line, from, to) = cut(text, self.start, self.end);
        ReadingError {
            kind: Box::new(self.kind),
            place: Place {
                column: place.column + before,
                ..place.clone()
            },
            line: line.into(),
            from,
            to,
        }
    }
}

impl ReadingError {
    /// An error about a whole source, without a line to show.
    #[must_use]
    pub(crate) fn of_source(kind: ErrorKind, source: &str) -> Self {
        Self {
            kind: Box::new(kind),
            place: Place::new(source, 1, 1),
            line: "".into(),
            from: 0,
            to: 0,
        }
    }
}

/// Characters shown before the marked part, of the marked part, and after it.
const SHOWN: [usize; 3] = [48, 40, 24];

/// `text` cut to what is worth showing around the bytes `start..end`, and where these are in it.
fn cut(text: &str, start: usize, end: usize) -> (String, usize, usize) {
    let before = &text[..start];
    let kept = before
        .char_indices()
        .rev()
        .nth(SHOWN[0])
        .map_or(0, |(at, letter)| at + letter.len_utf8());
    let mut line = String::new();
    if kept > 0 {
        line.push('…');
    }
    line.push_str(&before[kept..]);
    let from = line.len();
    push_limited(&mut line, &text[start..end], SHOWN[1]);
    let to = line.len();
    push_limited(&mut line, &text[end..], SHOWN[2]);
    (line, from, to)
}

fn push_limited(line: &mut String, text: &str, limit: usize) {
    match text.char_indices().nth(limit) {
        Some((at, _)) => {
            line.push_str(&text[..at]);
            line.push('…');
        }
        None => line.push_str(text),
    }
}

/// `text` with characters that cannot be seen written out as `\u{202e}`, tabs as spaces.
#[must_use]
pub(crate) fn visible(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    for letter in text.chars() {
        if letter == '\t' {
            shown.push(' ');
        } else if is_hidden(letter) {
            shown.extend(letter.escape_unicode());
        } else {
            shown.push(letter);
        }
    }
    shown
}

fn render(error: &ReadingError) -> String {
    let wrong = visible(&error.line[error.from..error.to]);
    let mut out = headline(&error.kind, &wrong);
    let place = &error.place;
    let source = visible(&place.source);
    let number = place.line.to_string();
    let gutter = " ".repeat(number.len());
    if error.line.is_empty() {
        let _ = write!(out, "\n{gutter} --> {source}");
    } else {
        let before = visible(&error.line[..error.from]);
        let after = visible(&error.line[error.to..]);
        let margin = " ".repeat(before.width());
        let carets = "^".repeat(wrong.width().max(1));
        let label = label(&error.kind);
        let _ = write!(
            out,
            "\n{gutter} --> {source}:{number}:{column}\n{gutter}  |\n {number} | {before}{wrong}{after}\n{gutter}  | {margin}{carets} {label}",
            column = place.column,
        );
    }
    let _ = write!(out, "\n{gutter}  = {}", cure(&error.kind));
    out
}

fn headline(kind: &ErrorKind, wrong: &str) -> String {
    match kind {
        ErrorKind::Empty => "nothing to read".into(),
        ErrorKind::LineTooLong(characters) => format!("line of {characters} characters"),
        ErrorKind::TextTooLarge(bytes) => format!("text of {bytes} bytes"),
        ErrorKind::HiddenCharacter(_) => format!("hidden character `{wrong}`"),
        ErrorKind::UnreadableNumber => format!("cannot read the number `{wrong}`"),
        ErrorKind::DivisionByZero => format!("`{wrong}` divides by zero"),
        ErrorKind::Negative => format!("negative amount `{wrong}`"),
        ErrorKind::OutOfBounds { bound, .. } => format!("`{wrong}` is no {}", bound.label),
        ErrorKind::RangeBackwards => format!("range `{wrong}` runs backwards"),
        ErrorKind::UnknownUnit(_) => format!("unknown unit `{wrong}`"),
        ErrorKind::NoUnit => format!("`{wrong}` has no unit"),
        ErrorKind::NoFood => format!("`{wrong}` of what?"),
        ErrorKind::NotAnAmount => format!("`{wrong}` is no amount"),
        ErrorKind::WordsBesideAmount => format!("`{wrong}` is not part of an amount"),
        ErrorKind::Contradiction(other) => {
            format!("`{}` and `{wrong}` contradict each other", visible(other))
        }
        ErrorKind::TwoFoods => format!("`{wrong}` in the middle of two foods"),
        ErrorKind::Absent => format!("`{wrong}` is not on the plate"),
        ErrorKind::NotServed => format!("cannot tell how much `{wrong}` is"),
        ErrorKind::Toml(message) => format!("not a dish file: {}", visible(message)),
        ErrorKind::UnknownKey { .. } => format!("unknown key `{wrong}`"),
        ErrorKind::MissingKey(key) => format!("`{key}` is missing"),
        ErrorKind::WrongType(_) => format!("`{wrong}` is of the wrong type"),
        ErrorKind::NoChoice => "nothing to choose from".into(),
    }
}

/// The few words under the marked part.
fn label(kind: &ErrorKind) -> String {
    match kind {
        ErrorKind::Empty | ErrorKind::LineTooLong(_) => "here".into(),
        ErrorKind::TextTooLarge(_) => String::new(),
        ErrorKind::HiddenCharacter(_) => "cannot be seen".into(),
        ErrorKind::UnreadableNumber => "not a number".into(),
        ErrorKind::DivisionByZero => "division by zero".into(),
        ErrorKind::Negative => "below zero".into(),
        ErrorKind::OutOfBounds { figure, bound } => {
            format!("{} {}", plain_figure(*figure), bound.unit)
        }
        ErrorKind::RangeBackwards => "ends below its start".into(),
        ErrorKind::UnknownUnit(_) => "not a unit for food on a plate".into(),
        ErrorKind::NoUnit => "grams? ounces? pieces?".into(),
        ErrorKind::NoFood => "no food named".into(),
        ErrorKind::NotAnAmount => "not an amount".into(),
        ErrorKind::Contradiction(_) => "second amount".into(),
        ErrorKind::TwoFoods => "belongs to the words after it".into(),
        ErrorKind::Absent => "said to be left out".into(),
        ErrorKind::NotServed => "not a weight, a volume or a vessel".into(),
        ErrorKind::WordsBesideAmount | ErrorKind::Toml(_) => "not understood".into(),
        ErrorKind::UnknownKey { .. } => "not a key of a dish file".into(),
        ErrorKind::MissingKey(_) => "belongs here".into(),
        ErrorKind::WrongType(wanted) => format!("expected {}", wanted.told()),
        ErrorKind::NoChoice => "fewer than two options".into(),
    }
}

/// What to do next.
fn cure(kind: &ErrorKind) -> String {
    match kind {
        ErrorKind::Empty => "Write one component a line, such as `2 cups romaine`.".into(),
        ErrorKind::LineTooLong(_) => format!(
            "Write one component a line, in at most {} characters.",
            bounds::LINE_CHARACTERS
        ),
        ErrorKind::TextTooLarge(_) => format!(
            "Split it: at most {} bytes are read at once.",
            bounds::TEXT_BYTES
        ),
        ErrorKind::HiddenCharacter(_) => "Delete it and type the line afresh.".into(),
        ErrorKind::UnreadableNumber => "Write `1240`, `1,240`, `1.5` or `1 1/2`.".into(),
        ErrorKind::DivisionByZero => "Write a fraction such as `1/2`.".into(),
        ErrorKind::Negative => {
            "Write the amount without a sign; a list dash needs a space after it: `- 3 oz`.".into()
        }
        ErrorKind::OutOfBounds { bound, .. } => format!(
            "Expected more than {} and at most {} {}.",
            plain_figure(bound.above),
            plain_figure(bound.up_to),
            bound.unit
        ),
        ErrorKind::RangeBackwards => "Write the smaller figure first: `1-2 cups`.".into(),
        ErrorKind::UnknownUnit(instead) => format!("Did you mean `{instead}`?"),
        ErrorKind::NoUnit => "Write the unit: `120 g`, `4 oz`, `2 slices`.".into(),
        ErrorKind::NoFood => "Add the food: `2 slices rye bread`.".into(),
        ErrorKind::NotAnAmount | ErrorKind::WordsBesideAmount => {
            "Write a weight, a volume or a count: `120 g`, `1 1/2 cups`, `2 slices`.".into()
        }
        ErrorKind::Contradiction(_) => {
            "Keep the one that is right, or write two lines if they are two foods.".into()
        }
        ErrorKind::TwoFoods => "Write one component a line, each with its own amount.".into(),
        ErrorKind::Absent => "Leave the line out.".into(),
        ErrorKind::NotServed => {
            "Write `450 g`, `1 lb`, `32 fl oz bowl, full` or `12 in plate`.".into()
        }
        ErrorKind::Toml(_) => {
            "A dish file is TOML: `name = \"...\"`, then `[[component]]` tables.".into()
        }
        ErrorKind::UnknownKey {
            nearest: Some(key), ..
        } => format!("Did you mean `{key}`?"),
        ErrorKind::UnknownKey { known, .. } => {
            format!("Known here: `{}`.", known.join("`, `"))
        }
        ErrorKind::MissingKey(key) => format!("Add a line `{key} = \"...\"`."),
        ErrorKind::WrongType(wanted) => wanted.cure(),
        ErrorKind::NoChoice => {
            "Give a `[[choice.option]]` table for each option, two or more; what comes with the dish is a `[[component]]`, what can be had on top an `[[add_on]]`.".into()
        }
    }
}

/// A figure without a tail of noughts; far too large ones by their power of ten.
fn plain_figure(figure: f64) -> String {
    if figure.abs() >= 1e12 {
        return format!("{figure:e}");
    }
    let rounded = (figure * 1000.0).round() / 1000.0;
    rounded.to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(kind: ErrorKind, text: &str, start: usize, end: usize, line: usize) -> String {
        Problem::new(kind, start, end)
            .at(text, &Place::new("plate.txt", line, 1))
            .to_string()
    }

    #[test]
    fn the_place_is_marked_under_the_line() {
        assert_eq!(
            shown(ErrorKind::UnknownUnit("cups"), "3 bushels spinach", 2, 9, 3),
            "unknown unit `bushels`
  --> plate.txt:3:3
   |
 3 | 3 bushels spinach
   |   ^^^^^^^ not a unit for food on a plate
   = Did you mean `cups`?"
        );
    }

    #[test]
    fn carets_follow_the_display_width() {
        let text = "寿司 0 g";
        let told = shown(ErrorKind::Negative, text, 7, 8, 12);
        let lines: Vec<&str> = told.lines().collect();
        assert_eq!(lines[1], "   --> plate.txt:12:4");
        assert_eq!(lines[3], " 12 | 寿司 0 g");
        // Two wide letters take four columns.
        assert_eq!(lines[4], "    |      ^ below zero");
    }

    #[test]
    fn hidden_characters_are_written_out() {
        let told = shown(
            ErrorKind::HiddenCharacter('\u{202e}'),
            "rice\u{202e}x",
            4,
            7,
            1,
        );
        assert!(told.starts_with("hidden character `\\u{202e}`"));
        assert!(told.contains("rice\\u{202e}x"));
        assert!(!told.contains('\u{202e}'));
    }

    #[test]
    fn a_long_line_is_cut_around_the_place() {
        let text = format!("{}0 g{}", "a".repeat(5000), "b".repeat(5000));
        let told = shown(ErrorKind::Negative, &text, 5000, 5001, 1);
        assert!(told.contains("plate.txt:1:5001"));
        assert!(
            told.lines().all(|line| line.chars().count() < 120),
            "{told}"
        );
    }
}
