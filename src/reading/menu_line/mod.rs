//! A line of a menu taken apart: what is ordered, what comes on it and beside it, what can be
//! chosen or had on top, and what the line adds or takes away.
//!
//! Text -> tokens -> phrases with a role each -> [`MenuLine`]. Only the text is looked at here; nothing
//! is known of foods yet.

mod assemble;
mod changes;
mod choices;
mod chosen;
mod cooking;
mod counts;
mod decide;
mod head;
mod heading;
mod items;
mod joints;
mod lexer;
mod line;
mod marks;
mod offers;
mod prices;
mod serving;
mod shares;
mod sizes;
#[cfg(test)]
mod tests;
mod tidy;
mod units;

pub(crate) use heading::is_heading;
pub(crate) use line::{AddOn, Offer};
pub use line::{Choice, MenuLine, MenuPart, PartKind};
pub(crate) use offers::PLAIN;
pub(crate) use serving::{Feeds, ServingWords, SizeWord};

use super::phrase::Reading;

/// Longest line taken apart, bytes; longer ones are one head.
const LONGEST: usize = 2_000;

impl MenuLine {
    /// A line of a name and its description in two columns of a table.
    #[must_use]
    pub fn described(name: &str, description: &str) -> Self {
        if description.trim().is_empty() {
            return parse_menu_line(name);
        }
        parse_menu_line(&format!("{}\n{}", one_line(name), one_line(description)))
    }

    /// The description by itself, under the dish's name. `None` for a line without one.
    #[must_use]
    pub(crate) fn by_description(&self) -> Option<Self> {
        if self.name.is_empty() || self.description.is_empty() {
            return None;
        }
        let own = parse_menu_line(&self.description);
        Some(Self {
            name: self.name.clone(),
            description: self.description.clone(),
            ..own
        })
    }

    /// The name by itself, with what the description adds, takes away and puts beside the
    /// dish, but not what it lists as part of it. `None` where the description says how many
    /// or how much.
    #[must_use]
    pub fn by_name(&self) -> Option<Self> {
        let mut plain = parse_menu_line(&self.name);
        if self.head.starts_with(char::is_numeric) && self.head != plain.head {
            return None;
        }
        let own = plain.parts.len();
        let listed = |p: &&MenuPart| matches!(p.what, PartKind::Named | PartKind::Under);
        let more = self.parts.iter().skip(own).filter(|p| !listed(p)).cloned();
        plain.parts.extend(more);
        plain.name.clone_from(&self.name);
        plain.serving.clone_from(&self.serving);
        Some(plain)
    }
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Takes a menu line apart. Never fails: what cannot be parted is the head.
///
/// `Name: description`, `Name - description`, `Name (a, b, c)` and a name and a description on two
/// lines are a name and what it means.
#[must_use]
pub fn parse_menu_line(text: &str) -> MenuLine {
    parse(text, true)
}

/// As [`parse_menu_line`]; `offered` says whether several sizes are read one by one.
fn parse(text: &str, offered: bool) -> MenuLine {
    if text.len() > LONGEST {
        let text = one_line(text);
        return MenuLine {
            main: text.clone(),
            head: text.clone(),
            reading: Reading::of(&text),
            text,
            ..MenuLine::default()
        };
    }
    let mut line = lexer::Lexed::of(text);
    let printed = marks::claim_marks(&mut line);
    let mut serving = ServingWords::default();
    prices::claim_prices(&mut line);
    sizes::claim_sizes(&mut line, &mut serving);
    let mut offers = Vec::new();
    if offered {
        for (said, text) in offers::offers(&line) {
            let line = parse(&text, false);
            offers.push(Offer { said, line });
        }
    }
    MenuLine {
        offers,
        ..assemble::assemble(line, serving, printed)
    }
}
