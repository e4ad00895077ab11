//! A line cut into numbers, words and marks, each knowing where it stood.

use super::bounds;
use super::error::{ErrorKind, Problem};
use crate::words::is_hidden;

/// What a token is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Kind {
    /// Digits: `6`, `1.5`, `1,240`.
    Number(f64),
    /// One sign for a fraction: `½`.
    Vulgar(f64),
    /// Letters.
    Word,
    /// Anything else that is not a space.
    Mark(char),
}

/// A token and its place in bytes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Token {
    pub kind: Kind,
    pub start: usize,
    pub end: usize,
    /// No space between this token and the one before.
    pub glued: bool,
}

/// A short word in lower-case ASCII, held without allocating. Longer words, and words with
/// other letters, are no unit, size or piece word.
pub(super) struct Key {
    bytes: [u8; Key::LONGEST],
    length: usize,
}

impl Key {
    const LONGEST: usize = 16;

    pub(super) fn of(word: &str) -> Option<Self> {
        let length = word.len();
        if length > Self::LONGEST || !word.is_ascii() {
            return None;
        }
        let mut bytes = [0; Self::LONGEST];
        bytes[..length].copy_from_slice(word.as_bytes());
        bytes[..length].make_ascii_lowercase();
        Some(Self { bytes, length })
    }

    pub(super) fn as_str(&self) -> &str {
        std::str::from_utf8(&self.bytes[..self.length]).unwrap_or("")
    }
}

/// Cuts `text` into tokens. Fails on hidden characters and on numbers nobody can read.
pub(super) fn tokens(text: &str) -> Result<Vec<Token>, Problem> {
    check_length(text)?;
    let mut tokens: Vec<Token> = Vec::with_capacity(text.len() / 4 + 2);
    let mut at = 0;
    let mut glued = false;
    while let Some(letter) = text[at..].chars().next() {
        if is_hidden(letter) {
            let kind = ErrorKind::HiddenCharacter(letter);
            return Err(Problem::new(kind, at, at + letter.len_utf8()));
        }
        if letter.is_whitespace() {
            at += letter.len_utf8();
            glued = false;
            continue;
        }
        let (kind, end) = next_token(text, at, letter, glued)?;
        tokens.push(Token {
            kind,
            start: at,
            end,
            glued,
        });
        at = end;
        glued = true;
    }
    Ok(tokens)
}

/// Cuts any `text` into tokens: what a strict reader refuses is a mark here, or a word.
pub(super) fn tokens_of_anything(text: &str) -> Vec<Token> {
    let mut tokens: Vec<Token> = Vec::with_capacity(text.len() / 4 + 2);
    let mut at = 0;
    let mut glued = false;
    while let Some(letter) = text[at..].chars().next() {
        let end = at + letter.len_utf8();
        if letter.is_whitespace() && letter != '\n' {
            at = end;
            glued = false;
            continue;
        }
        let hidden = is_hidden(letter) || letter == '\n';
        let (kind, end) = if hidden {
            (Kind::Mark(letter), end)
        } else {
            next_token(text, at, letter, glued).unwrap_or((Kind::Mark(letter), end))
        };
        tokens.push(Token {
            kind,
            start: at,
            end,
            glued,
        });
        at = end;
        glued = letter != '\n';
    }
    tokens
}

/// Nobody writes a line this long; a text that is no line is cut before.
fn check_length(text: &str) -> Result<(), Problem> {
    if text.len() <= bounds::LINE_CHARACTERS {
        return Ok(());
    }
    let characters = text.chars().count();
    if characters <= bounds::LINE_CHARACTERS {
        return Ok(());
    }
    Err(Problem::new(
        ErrorKind::LineTooLong(characters),
        0,
        text.len(),
    ))
}

fn next_token(text: &str, at: usize, letter: char, glued: bool) -> Result<(Kind, usize), Problem> {
    let bytes = text.as_bytes();
    // `(.4 oz)` is less than half an ounce, not four.
    let opens = !glued || at > 0 && matches!(bytes[at - 1], b'(' | b'[');
    let leading_point = letter == '.' && opens && bytes.get(at + 1).is_some_and(u8::is_ascii_digit);
    if letter.is_ascii_digit() || leading_point {
        let end = number_end(bytes, at);
        if let Some(end) = exponent_end(bytes, end) {
            return Err(Problem::new(ErrorKind::UnreadableNumber, at, end));
        }
        return match number_value(&text[at..end]) {
            Some(value) => Ok((Kind::Number(value), end)),
            None => Err(Problem::new(ErrorKind::UnreadableNumber, at, end)),
        };
    }
    let end = at + letter.len_utf8();
    if let Some(value) = vulgar_fraction(letter) {
        return Ok((Kind::Vulgar(value), end));
    }
    if letter.is_numeric() {
        return Err(Problem::new(ErrorKind::UnreadableNumber, at, end));
    }
    if letter.is_alphabetic() {
        return Ok((Kind::Word, word_end(text, at)));
    }
    Ok((Kind::Mark(letter), end))
}

/// The end of `e3` or `e-5` behind a number: nobody measures food so.
fn exponent_end(bytes: &[u8], at: usize) -> Option<usize> {
    let sign = usize::from(matches!(bytes.get(at + 1), Some(b'+' | b'-')));
    let digits = at + 1 + sign;
    let written = matches!(bytes.get(at), Some(b'e' | b'E'))
        && bytes.get(digits).is_some_and(u8::is_ascii_digit);
    written.then(|| number_end(bytes, digits))
}

/// The end of a run of digits with points or commas between digits.
fn number_end(bytes: &[u8], start: usize) -> usize {
    let digit = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_digit);
    let mut at = start;
    while digit(at) || (matches!(bytes.get(at), Some(b'.' | b',')) && digit(at + 1)) {
        at += 1;
    }
    at
}

/// Reads `12`, `1.5`, `.5`, `1,240`, `1,240.5` and, where it can be nothing else, a decimal
/// comma: `0,5`, `11,91`.
fn number_value(run: &str) -> Option<f64> {
    let (whole, decimals) = match run.split_once('.') {
        Some((_, rest)) if rest.contains(['.', ',']) => return None,
        Some((whole, decimals)) => (whole, Some(decimals)),
        None => (run, None),
    };
    let mut groups = whole.split(',');
    let first = groups.next()?;
    if !whole.contains(',') {
        return run.parse().ok();
    }
    let thousands = matches!(first.len(), 1..=3)
        && !first.starts_with('0')
        && groups.clone().all(|group| group.len() == 3);
    if thousands {
        let mut digits = whole.replace(',', "");
        if let Some(decimals) = decimals {
            digits.push('.');
            digits.push_str(decimals);
        }
        return digits.parse().ok();
    }
    if groups.count() == 1 && decimals.is_none() {
        return whole.replace(',', ".").parse().ok();
    }
    None
}

fn vulgar_fraction(letter: char) -> Option<f64> {
    Some(match letter {
        '¼' => 0.25,
        '½' => 0.5,
        '¾' => 0.75,
        '⅐' => 1.0 / 7.0,
        '⅑' => 1.0 / 9.0,
        '⅒' => 0.1,
        '⅓' => 1.0 / 3.0,
        '⅔' => 2.0 / 3.0,
        '⅕' => 0.2,
        '⅖' => 0.4,
        '⅗' => 0.6,
        '⅘' => 0.8,
        '⅙' => 1.0 / 6.0,
        '⅚' => 5.0 / 6.0,
        '⅛' => 0.125,
        '⅜' => 0.375,
        '⅝' => 0.625,
        '⅞' => 0.875,
        _ => return None,
    })
}

/// The end of a word: letters, accents on them, and apostrophes between letters.
fn word_end(text: &str, start: usize) -> usize {
    let mut letters = text[start..].char_indices().peekable();
    while let Some((offset, letter)) = letters.next() {
        let inside = letter.is_alphabetic()
            || unicode_normalization::char::is_combining_mark(letter)
            || (matches!(letter, '\'' | '\u{2019}')
                && offset > 0
                && letters.peek().is_some_and(|(_, next)| next.is_alphabetic()));
        if !inside {
            return start + offset;
        }
    }
    text.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kinds(text: &str) -> Vec<Kind> {
        tokens(text)
            .unwrap()
            .into_iter()
            .map(|token| token.kind)
            .collect()
    }

    #[test]
    fn numbers_in_all_their_spellings() {
        for (text, value) in [
            ("6", 6.0),
            ("1.5", 1.5),
            (".5", 0.5),
            ("1,240", 1240.0),
            ("1,240.5", 1240.5),
            ("1,234,567", 1_234_567.0),
            ("0,5", 0.5),
            ("0,500", 0.5),
            ("11,91", 11.91),
            ("007", 7.0),
        ] {
            assert_eq!(kinds(text), [Kind::Number(value)], "{text}");
        }
    }

    #[test]
    fn unreadable_numbers_are_refused() {
        for text in ["1.2.3", "1,2,3", "1.240,5", "٣", "²"] {
            let problem = tokens(text).unwrap_err();
            assert_eq!(problem.kind, ErrorKind::UnreadableNumber, "{text}");
        }
    }

    #[test]
    fn a_point_after_a_number_is_a_mark() {
        assert_eq!(
            kinds("1. 5"),
            [Kind::Number(1.0), Kind::Mark('.'), Kind::Number(5.0)]
        );
    }

    #[test]
    fn words_keep_apostrophes_and_accents() {
        assert_eq!(kinds("shepherd's"), [Kind::Word]);
        assert_eq!(kinds("jalapen\u{303}o"), [Kind::Word]);
        assert_eq!(kinds("6oz"), [Kind::Number(6.0), Kind::Word]);
    }

    #[test]
    fn hidden_characters_are_refused_where_they_stand() {
        for (text, start) in [
            ("a\0b", 1),
            ("rice\u{202e}x", 4),
            ("\u{200b}", 0),
            ("a\r", 1),
        ] {
            let problem = tokens(text).unwrap_err();
            assert!(matches!(problem.kind, ErrorKind::HiddenCharacter(_)));
            assert_eq!(problem.start, start, "{text:?}");
        }
    }
}
