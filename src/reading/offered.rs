//! What a dish is offered with: one of several to choose from, and what can be had on top.

use super::dish::Dish;
use super::line::ComponentLine;
use super::menu_line::{AddOn, Choice, PartKind};

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
    fn chance(&self) -> f64 {
        f64::from(self.take) / self.options.len().max(1) as f64
    }

    /// As a line of a menu has it.
    fn as_on_a_menu(&self) -> Choice {
        Choice {
            options: self.options.iter().map(|line| line.food.clone()).collect(),
            eaten: self.take,
            what: Some(PartKind::Named),
            said: true,
            behind: String::new(),
        }
    }
}

/// Place of the component that is called so, else of the first whose words hold `wanted`.
fn named(list: &[ComponentLine], wanted: &str) -> Option<usize> {
    let exact = list.iter().position(|c| c.food.to_lowercase() == wanted);
    exact.or_else(|| {
        list.iter()
            .position(|c| c.food.to_lowercase().contains(wanted))
    })
}

impl Dish<ComponentLine> {
    /// Takes the option that holds `text`, and leaves the others; says whether there was one.
    pub(crate) fn choose(&mut self, text: &str) -> bool {
        let wanted = text.trim().to_lowercase();
        let choices = &mut self.offered.choices;
        let place = |choice: &DishChoice| named(&choice.options, &wanted);
        let found = choices
            .iter()
            .enumerate()
            .find_map(|(at, choice)| Some((at, place(choice)?)));
        let Some((at, option)) = found.filter(|_| !wanted.is_empty()) else {
            return false;
        };
        let choice = &mut choices[at];
        self.components.push(choice.options.remove(option));
        choice.take = choice.take.saturating_sub(1);
        if choice.take == 0 {
            choices.remove(at);
        }
        true
    }

    /// Puts the add-on that holds `text` on the dish; says whether there was one.
    pub(crate) fn with_add_on(&mut self, text: &str) -> bool {
        let wanted = text.trim().to_lowercase();
        let at = named(&self.offered.add_ons, &wanted).filter(|_| !wanted.is_empty());
        let taken = at.map(|at| self.offered.add_ons.remove(at));
        let any = taken.is_some();
        self.components.extend(taken);
        any
    }

    /// The same dish with the options of its open choices among the components, each with its
    /// chance, and what is offered beside it told.
    pub(crate) fn with_choices_open(mut self) -> Self {
        let offered = std::mem::take(&mut self.offered);
        let choices = offered.choices.iter().map(DishChoice::as_on_a_menu);
        self.line.choices.extend(choices);
        let add_ons = offered.add_ons.into_iter().map(|line| AddOn {
            text: line.food,
            price: None,
        });
        self.line.add_ons.extend(add_ons);
        for choice in offered.choices {
            let chance = Some(choice.chance());
            let options = choice.options.into_iter();
            self.components
                .extend(options.map(|line| ComponentLine { chance, ..line }));
        }
        self
    }
}
