//! What a dish is offered with: one of several to choose from, and what can be had on top.

use super::line::ComponentLine;
use super::menu_line::{Choice, PartKind};

/// Several components of which some are eaten.
#[derive(Debug, Clone, PartialEq)]
pub struct DishChoice {
    /// What is chosen, such as `side`, if the dish says so.
    pub name: Option<String>,
    /// How many of the options are eaten; fewer than there are.
    pub take: u8,
    /// The options, each with the amount that is served of it.
    pub options: Vec<ComponentLine>,
}

/// What a dish is offered with.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Offered {
    /// Choices that nobody has made yet.
    pub choices: Vec<DishChoice>,
    /// What can be had on top, and is not counted.
    pub add_ons: Vec<ComponentLine>,
}

impl DishChoice {
    /// The chance of each option, as long as nobody chooses.
    pub(super) fn chance(&self) -> f64 {
        f64::from(self.take) / self.options.len().max(1) as f64
    }

    /// As a line of a menu has it.
    pub(super) fn as_on_a_menu(&self) -> Choice {
        Choice {
            options: self.options.iter().map(|line| line.food.clone()).collect(),
            eaten: self.take,
            what: Some(PartKind::Named),
            said: true,
            behind: String::new(),
        }
    }
}
