//! A line of a menu taken apart, as data.

use super::serving::{Section, ServingWords};
use crate::reading::phrase::Reading;

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
    /// The same line once for each size that it offers, where it offers several.
    pub offers: Vec<Offer>,
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

/// One of several sizes of a dish.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// The size as written.
    pub said: String,
    /// The line as if it offered this size alone.
    pub line: MenuLine,
}

impl MenuLine {
    /// The same line in a part of the menu.
    #[must_use]
    pub(crate) fn in_section(mut self, heading: &str) -> Self {
        let section = Section::of(heading);
        if section != Section::Unsaid {
            self.serving.section = section;
        }
        self
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
}
