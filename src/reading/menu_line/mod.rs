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
mod marks;
mod prices;
mod serving;
mod shares;
mod sizes;
#[cfg(test)]
mod tests;
mod tidy;
mod units;

pub(crate) use serving::{Section, ServingWords, SizeWord};

use super::phrase::Reading;

/// A line of a menu.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MenuLine {
    /// The line without prices, tags and other marks.
    pub text: String,
    /// The dish's name where the line goes on to describe it (`Cobb: egg, avocado, bacon`);
    /// else empty.
    pub name: String,
    /// The description behind a name; empty where there is none.
    pub description: String,
    /// Everything before the first side or change: `grilled chicken cobb with avocado`.
    pub main: String,
    /// What is ordered, before the first `with` or comma: `grilled chicken cobb`.
    pub head: String,
    /// The rest, in the order written.
    pub parts: Vec<MenuPart>,
    /// What is one of several.
    pub choices: Vec<Choice>,
    /// What can be had on top, and is not counted.
    pub add_ons: Vec<AddOn>,
    /// Allergen notes as written.
    pub allergens: Vec<String>,
    /// Energy that the line prints, kcal: low and high.
    pub printed: Option<(f64, f64)>,
    /// What it says of the size of what is served.
    pub serving: ServingWords,
    /// The line as written and the role of each phrase.
    pub reading: Reading,
}

/// Something that a menu line names beside its head.
#[derive(Debug, Clone, PartialEq)]
pub struct MenuPart {
    /// The words, without the joining words around them.
    pub text: String,
    /// What the line does with it.
    pub what: PartKind,
}

/// What a menu line does with a part.
#[derive(Debug, Clone, PartialEq)]
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
    /// A share of it is eaten: `used a third` is a third.
    Portion(f64),
    /// In place of something else; of the usual side when nothing is named: `sub fries`.
    InsteadOf(Option<String>),
}

/// One of several that is eaten.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// The options as written; a single one where the line does not name them (`two sides`).
    pub options: Vec<String>,
    /// How many of them are eaten.
    pub eaten: u8,
    /// What the chosen one does with the dish; `None` where it is the dish.
    pub what: Option<PartKind>,
    /// Whether the line says that it is a choice, not only by `or`.
    pub said: bool,
    /// Words of the head that stand behind the options: `burrito` of `chicken or beef burrito`.
    pub behind: String,
}

/// What can be had on top for a price.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AddOn {
    /// What it is.
    pub text: String,
    /// Its price as printed.
    pub price: Option<String>,
}

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

    /// The same line in a part of the menu.
    #[must_use]
    #[allow(dead_code)] // the rows of a menu name their section next
    pub(crate) fn in_section(mut self, heading: &str) -> Self {
        let section = Section::of(heading);
        if section != Section::Unsaid {
            self.serving.section = section;
        }
        self
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

    /// What the dish is called: its name, or the line where that is all there is.
    #[must_use]
    pub(crate) fn title(&self) -> &str {
        if self.name.is_empty() {
            &self.text
        } else {
            &self.name
        }
    }

    /// Whether it names a dish and neither chooses, adds nor describes anything.
    #[must_use]
    pub(crate) fn is_plain(&self) -> bool {
        self.parts.is_empty() && self.choices.is_empty() && self.name.is_empty()
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
    assemble::assemble(line, serving, printed)
}
