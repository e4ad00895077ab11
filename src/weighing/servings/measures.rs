//! Weights, volumes, lengths and counts that a name states.

use crate::quantity::units::{FLUID_OUNCE_ML, OUNCE_G, POUND_G};
use crate::words::spelt_number;
use std::iter::Peekable;
use std::str::Chars;

/// What a name states of its serving; the first of each sort.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Stated {
    /// Weight, oz.
    pub ounces: Option<f64>,
    /// Volume, US fl oz.
    pub fluid_ounces: Option<f64>,
    /// Length or diameter, in.
    pub inches: Option<f64>,
    /// Pieces.
    pub count: Option<f64>,
}

/// A bare number above this counts no pieces of a serving.
const MOST_PIECES: f64 = 60.0;

#[derive(Debug, Clone, PartialEq)]
enum Token {
    Number(f64),
    Word(String),
    Sign(char),
}

/// Reads what a name states: `12 oz`, `1/2 lb`, `16 fl. oz.`, `6"`, `10 pc`, `(3)`, `two`.
#[must_use]
pub(crate) fn stated(name: &str) -> Stated {
    let list = tokens(name);
    let mut found = Stated::default();
    for (at, token) in list.iter().enumerate() {
        let number = match token {
            Token::Number(number) if *number > 0.0 => *number,
            Token::Word(word) => {
                if let Some(number) = number_word(word) {
                    found.count.get_or_insert(number);
                }
                continue;
            }
            _ => continue,
        };
        let before = at.checked_sub(1).map(|b| &list[b]);
        if before == Some(&Token::Sign('#')) {
            continue;
        }
        let mut after = list[at + 1..].iter();
        let mut next = after.next();
        if matches!(next, Some(Token::Sign('-' | '.'))) {
            next = after.next();
        }
        put(&mut found, number, before, next);
    }
    found
}

/// Puts a number where the unit after it, or what stands around it, says.
fn put(found: &mut Stated, number: f64, before: Option<&Token>, next: Option<&Token>) {
    let word = match next {
        Some(Token::Word(word)) => word.as_str(),
        Some(Token::Sign('"' | '\u{201d}')) => "inch",
        Some(Token::Sign(')')) if before == Some(&Token::Sign('(')) => "piece",
        Some(Token::Sign('%' | '+' | '$')) => return,
        _ => "",
    };
    match word {
        "fl" | "fluid" => keep(&mut found.fluid_ounces, number),
        "oz" | "ounce" | "ounces" => keep(&mut found.ounces, number),
        "lb" | "lbs" | "pound" | "pounds" | "pounder" => {
            keep(&mut found.ounces, number * POUND_G / OUNCE_G);
        }
        "g" | "gram" | "grams" => keep(&mut found.ounces, number / OUNCE_G),
        "l" | "liter" | "litre" | "liters" => {
            keep(&mut found.fluid_ounces, number * 1000.0 / FLUID_OUNCE_ML);
        }
        "inch" | "inches" | "in" => keep(&mut found.inches, number),
        "pc" | "pcs" | "piece" | "pieces" | "ct" | "count" | "ea" | "each" | "wing" | "wings"
        | "roll" | "rolls" | "scoop" | "scoops" | "strips" | "tenders" | "slice" | "slices"
        | "link" | "links" | "egg" | "eggs" => keep(&mut found.count, number),
        _ => {
            let begins = before.is_none_or(|b| *b == Token::Sign(','));
            let counts = begins && !word.is_empty() && number <= MOST_PIECES;
            if counts && number.fract() == 0.0 {
                keep(&mut found.count, number);
            }
        }
    }
}

/// The first figure of a sort is the one that counts.
fn keep(place: &mut Option<f64>, number: f64) {
    place.get_or_insert(number);
}

fn number_word(word: &str) -> Option<f64> {
    match word {
        "dozen" => Some(12.0),
        _ => spelt_number(word).filter(|number| *number > 1.0),
    }
}

fn tokens(name: &str) -> Vec<Token> {
    let mut list = Vec::new();
    let mut rest = name.chars().peekable();
    while let Some(c) = rest.peek().copied() {
        if c.is_ascii_digit() {
            list.push(Token::Number(number(&mut rest)));
        } else if c.is_alphabetic() {
            let mut word = String::new();
            while let Some(c) = rest.next_if(|c| c.is_alphabetic() || *c == '\'') {
                word.extend(c.to_lowercase());
            }
            list.push(Token::Word(word));
        } else {
            rest.next();
            match c {
                '\u{bd}' => list.push(Token::Number(0.5)),
                '\u{bc}' => list.push(Token::Number(0.25)),
                c if c.is_whitespace() => {}
                c => list.push(Token::Sign(c)),
            }
        }
    }
    list
}

/// A number that begins here: `12`, `5.25`, `1/2`.
fn number(rest: &mut Peekable<Chars<'_>>) -> f64 {
    let whole = digits(rest);
    let mut ahead = rest.clone();
    let sign = ahead.next();
    let follows = ahead.peek().is_some_and(char::is_ascii_digit);
    let text = match sign {
        Some('.') if follows => {
            *rest = ahead;
            format!("{whole}.{}", digits(rest))
        }
        Some('/') if follows => {
            *rest = ahead;
            let below: f64 = digits(rest).parse().unwrap_or(0.0);
            let above: f64 = whole.parse().unwrap_or(0.0);
            return if below > 0.0 { above / below } else { 0.0 };
        }
        _ => whole,
    };
    text.parse().unwrap_or(0.0)
}

fn digits(rest: &mut Peekable<Chars<'_>>) -> String {
    std::iter::from_fn(|| rest.next_if(char::is_ascii_digit)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn measures_and_counts_are_told_apart() {
        let of = stated;
        assert_eq!(of("Sirloin 8 oz").ounces, Some(8.0));
        assert_eq!(of("1/2 lb wings").ounces, Some(8.0));
        assert_eq!(of("Beer - 16 fl. oz.").fluid_ounces, Some(16.0));
        assert_eq!(of("Wine, 5.25oz").ounces, Some(5.25));
        assert_eq!(of("Sub, 8\" French bread").inches, Some(8.0));
        assert_eq!(of("Nuggets (5 pc.)").count, Some(5.0));
        assert_eq!(of("Fried strips (3)").count, Some(3.0));
        assert_eq!(of("6 Coconut Shrimp").count, Some(6.0));
        assert_eq!(of("Two eggs").count, Some(2.0));
        assert_eq!(of("Milk (2%)"), Stated::default());
        assert_eq!(of("#12 Beach Club"), Stated::default());
        assert_eq!(of("Sundae, 3 Scoop").count, Some(3.0));
        assert_eq!(of(""), Stated::default());
    }
}
