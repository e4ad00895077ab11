//! A dish as written down.

use super::menu_line::{AddOn, Choice};
use super::offered::Offered;
use super::phrase::Reading;
use super::served::Served;

/// What a line of a menu offers and warns of beside the dish.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LineNotes {
    /// Choices that are open.
    pub choices: Vec<Choice>,
    /// What can be had on top, and is not counted.
    pub add_ons: Vec<AddOn>,
    /// Allergen notes as written.
    pub allergens: Vec<String>,
}

/// A dish and its components; `C` says how far these have been worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct Dish<C> {
    /// What it is called.
    pub name: Option<String>,
    /// What sort of dish it is: `salad`, `soup`.
    pub kind: Option<String>,
    /// The whole plate, if known.
    pub served: Option<Served>,
    /// Its components, in order.
    pub components: Vec<C>,
    /// Where the figures come from.
    pub source: Option<String>,
    /// How many servings it was written down for; the components are those of one.
    pub makes: Option<f64>,
    /// Anything else.
    pub note: Option<String>,
    /// What each stretch of the text it was read from says; `None` for dishes not read from a text.
    pub read: Option<Reading>,
    /// What it is offered with, as long as nobody has chosen.
    pub offered: Offered,
    /// What is offered beside it, told.
    pub line: LineNotes,
}

impl<C> Default for Dish<C> {
    fn default() -> Self {
        Self {
            name: None,
            kind: None,
            served: None,
            components: Vec::new(),
            source: None,
            makes: None,
            note: None,
            read: None,
            offered: Offered::default(),
            line: LineNotes::default(),
        }
    }
}

impl<C> Dish<C> {
    /// The same dish with every component put through `work`.
    pub(crate) fn map<D>(self, work: impl FnMut(C) -> D) -> Dish<D> {
        Dish {
            name: self.name,
            kind: self.kind,
            served: self.served,
            components: self.components.into_iter().map(work).collect(),
            source: self.source,
            makes: self.makes,
            note: self.note,
            read: self.read,
            offered: self.offered,
            line: self.line,
        }
    }
}
