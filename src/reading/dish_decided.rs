//! What a person decides of a dish: one option of a choice, an add-on; and what is left open.

use super::dish::Dish;
use super::line::ComponentLine;
use super::menu_line::AddOn;
use super::offered::DishChoice;

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
        // What was served was the middle of all options.
        self.served = None;
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
        if any {
            self.served = None;
        }
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
