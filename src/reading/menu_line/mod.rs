//! A line of a menu taken apart: what is ordered, what comes on it and beside it, and what
//! the line adds or takes away.
//!
//! Only the text is looked at here; nothing is known of foods yet.

mod changes;
mod described;
mod joints;
#[cfg(test)]
mod tests;

use changes::{change, part};
use described::{Described, described, is_amount, joined};
use joints::{Joint, parted_by_and, pieces};

/// A line of a menu.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct MenuLine {
    /// The line as written, trimmed.
    pub text: String,
    /// The dish's name where the line goes on to describe it (`Cobb: egg, avocado, bacon`);
    /// else empty.
    pub name: String,
    /// Everything before the first side or change: `grilled chicken cobb with avocado`.
    pub main: String,
    /// What is ordered, before the first `with` or comma: `grilled chicken cobb`.
    pub head: String,
    /// The rest, in the order written.
    pub parts: Vec<MenuPart>,
}

/// Something that a menu line names beside its head.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MenuPart {
    /// The words, without the joining words around them.
    pub text: String,
    /// What the line does with it.
    pub what: PartKind,
}

/// What a menu line does with a part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PartKind {
    /// Named as part of the dish: `with avocado`.
    Named,
    /// What the dish lies on: `on rye`, `over rice`.
    Under,
    /// Comes beside it: `; garlic bread on the side`, `served with fries`.
    Side,
    /// Added to the usual dish: `add shrimp`.
    Added,
    /// Taken off the usual dish: `no croutons`.
    Removed,
    /// Twice the usual amount: `double meat`.
    Doubled,
    /// More than usual: `extra cheese`.
    Extra,
    /// Less than usual: `light mayo`.
    Light,
    /// In place of something else; of the usual side when nothing is named: `sub fries`.
    InsteadOf(Option<String>),
}

/// Longest line taken apart, bytes; longer ones are one head.
const LONGEST: usize = 2_000;

/// Largest bare number that counts pieces; a larger one is a price or an energy.
const MOST_PIECES: u8 = 30;

impl MenuLine {
    /// A line of a name and its description, however the two are printed: in two columns of
    /// a table, or as `Name: description`.
    #[must_use]
    pub fn described(name: &str, description: &str) -> Self {
        Self {
            name: tidy(name),
            ..without_name(&joined(name, description))
        }
    }

    /// The description by itself, under the dish's name. `None` for a line without one.
    #[must_use]
    pub fn by_description(&self) -> Option<Self> {
        if self.name.is_empty() {
            return None;
        }
        let tail = self.text.strip_prefix(self.name.as_str())?;
        let tail = tail.trim_start_matches(|c: char| !c.is_alphanumeric());
        (!tail.is_empty()).then(|| Self {
            name: self.name.clone(),
            ..without_name(tail)
        })
    }

    /// What the dish is called: its name, or the line where that is all there is.
    #[must_use]
    pub fn title(&self) -> &str {
        if self.name.is_empty() {
            &self.text
        } else {
            &self.name
        }
    }

    /// The name by itself, with what the description adds, takes away and puts beside the
    /// dish, but not what it lists as part of it. `None` where the description says how many
    /// or how much.
    #[must_use]
    pub fn by_name(&self) -> Option<Self> {
        let mut plain = without_name(&self.name);
        if self.head.starts_with(char::is_numeric) && self.head != plain.head {
            return None;
        }
        let own = plain.parts.len();
        let listed = |p: &&MenuPart| matches!(p.what, PartKind::Named | PartKind::Under);
        let more = self.parts.iter().skip(own).filter(|p| !listed(p)).cloned();
        plain.parts.extend(more);
        plain.name.clone_from(&self.name);
        Some(plain)
    }
}

/// Takes a menu line apart. Never fails: what cannot be parted is the head.
///
/// `Name: description`, `Name - description` and `Name (a, b, c)` are a name and its
/// description, as [`MenuLine::described`] has them.
#[must_use]
pub fn parse_menu_line(text: &str) -> MenuLine {
    if text.len() > LONGEST {
        return without_name(text);
    }
    match described(text) {
        Some(Described::Both(name, description)) => MenuLine {
            text: tidy(text),
            ..MenuLine::described(&name, &description)
        },
        Some(Described::Sized(line)) => MenuLine {
            text: tidy(text),
            ..without_name(&line)
        },
        None => without_name(text),
    }
}

/// As [`parse_menu_line`], whatever the line prints between its words.
fn without_name(text: &str) -> MenuLine {
    let text = tidy(text);
    let mut line = MenuLine {
        text: text.clone(),
        ..MenuLine::default()
    };
    if text.len() > LONGEST {
        line.main.clone_from(&text);
        line.head = text;
        return line;
    }
    for (at, chunk) in text.split([';', '|', '\u{2022}']).enumerate() {
        let chunk = chunk.trim();
        if chunk.is_empty() {
            continue;
        }
        let joint = if at == 0 { Joint::Named } else { Joint::Side };
        read_chunk(chunk, joint, &mut line);
    }
    line
}

/// One kind of space, no brackets, commas followed by a space, `a la mode` and `in a bread bowl`
/// in plain words.
fn tidy(text: &str) -> String {
    let mut spaced = String::with_capacity(text.len() + 8);
    for c in text.chars() {
        match c {
            '(' | ')' | '[' | ']' | ',' => {
                spaced.truncate(spaced.trim_end().len());
                spaced.push_str(", ");
            }
            c if c.is_whitespace() || c.is_control() => spaced.push(' '),
            other => spaced.push(other),
        }
    }
    for written in [
        " a la mode",
        " \u{e0} la mode",
        " A La Mode",
        " \u{c0} La Mode",
    ] {
        spaced = spaced.replace(written, " with vanilla ice cream");
    }
    let words: Vec<&str> = spaced.split_whitespace().filter(|w| *w != ",").collect();
    // The bowl is eaten as well.
    let plain = words
        .join(" ")
        .replace(" in a bread bowl", " with bread bowl");
    plain.trim_matches([',', ' ', '.']).to_owned()
}

fn read_chunk(chunk: &str, outer: Joint, line: &mut MenuLine) {
    let mut main_open = line.head.is_empty();
    for (joint, piece) in pieces(chunk) {
        let joint = if outer == Joint::Side {
            Joint::Side
        } else {
            joint
        };
        for text in parted_by_and(&piece) {
            if line.head.is_empty() && change(&text).is_none() {
                line.head.clone_from(&text);
                continue;
            }
            // `shrimp, breaded and fried`: how the head is cooked, not a thing beside it.
            if joint == Joint::Named && only_cooking(&text) && !line.head.is_empty() {
                line.head = format!("{text} {}", line.head);
                continue;
            }
            // `samosas (2)`, `fish tacos, 3`, `ribeye, 12 oz`: how many or how much of it.
            let counts = line.parts.is_empty() && !line.head.is_empty();
            if let Some(many) = how_many(&text).filter(|_| counts) {
                line.head = format!("{many} {}", line.head);
                continue;
            }
            let part = part(&text, joint);
            main_open &= matches!(part.what, PartKind::Named | PartKind::Under);
            line.parts.push(part);
        }
        if main_open {
            line.main = main_until(chunk, &piece);
        }
    }
    if line.main.is_empty() {
        line.main.clone_from(&line.head);
    }
}

/// Words that say how something is cooked, or how large it is, and name no food.
const COOKING: [&str; 32] = [
    "grilled",
    "fried",
    "deep-fried",
    "breaded",
    "battered",
    "baked",
    "roasted",
    "steamed",
    "sauteed",
    "blackened",
    "seared",
    "pan-seared",
    "broiled",
    "crispy",
    "smoked",
    "poached",
    "braised",
    "boiled",
    "toasted",
    "pan-fried",
    "charbroiled",
    "stir-fried",
    "scrambled",
    "or",
    "rare",
    "medium",
    "medium-rare",
    "well",
    "done",
    "small",
    "large",
    "regular",
];

fn only_cooking(text: &str) -> bool {
    let lower = text.to_lowercase();
    lower.split_whitespace().all(|word| COOKING.contains(&word))
}

/// Words that only say how many of the head there are, or how much: `3`, `10 pieces`, `12 oz`.
fn how_many(text: &str) -> Option<&str> {
    let number = |text: &str| {
        text.parse::<u8>()
            .is_ok_and(|n| (1..=MOST_PIECES).contains(&n))
    };
    let bare = text.split_once(' ').filter(|(_, unit)| is_piece(unit));
    match bare {
        Some((many, _)) if number(many) => Some(many),
        _ if number(text) => Some(text),
        // A bare number beyond that is a price or an energy.
        _ if text.contains(char::is_alphabetic) && is_amount(text) => Some(text),
        _ => None,
    }
}

/// Words for one of whatever the dish is.
fn is_piece(text: &str) -> bool {
    let lower = text.to_ascii_lowercase();
    matches!(
        lower.trim_end_matches('.'),
        "piece" | "pieces" | "pc" | "pcs" | "ct" | "count"
    )
}

/// The chunk up to the end of `piece`.
fn main_until(chunk: &str, piece: &str) -> String {
    chunk.find(piece).map_or_else(
        || chunk.to_owned(),
        |at| chunk[..at + piece.len()].to_owned(),
    )
}
