//! Components on their way from words to grams: matched, then weighed.

use super::weigh::{Basis, weigh};
use crate::catalogue::{Catalogue, Certainty, Context, FoodId, words};
use crate::quantity::Range;
use crate::reading::{ComponentLine, Dish};

/// A component whose words have been matched to a food.
#[derive(Debug, Clone, PartialEq)]
pub struct MatchedComponent {
    /// The line as read.
    pub line: ComponentLine,
    /// The food, unless nothing fits.
    pub food: Option<FoodId>,
    /// How sure that is.
    pub certainty: Certainty,
    /// Other foods that fit, best first.
    pub alternatives: Vec<FoodId>,
    /// Why the food was taken.
    pub why: String,
}

/// A component with its weight.
#[derive(Debug, Clone, PartialEq)]
pub struct WeighedComponent {
    /// The component as matched.
    pub matched: MatchedComponent,
    /// Edible grams as served; `None` when nobody can say.
    pub grams: Option<Range>,
    /// How the weight is known.
    pub basis: Option<Basis>,
    /// What the weight rests on.
    pub rests_on: String,
}

/// Alternatives kept for each component.
const ALTERNATIVES: usize = 3;

/// Matches every component of a dish. The dish's name and the other components lean each
/// choice.
#[must_use]
pub fn match_dish(
    dish: Dish<ComponentLine>,
    catalogue: &Catalogue,
    british: bool,
) -> Dish<MatchedComponent> {
    let name = dish.name.as_deref().map(words::words).unwrap_or_default();
    let all: Vec<Vec<String>> = dish
        .components
        .iter()
        .map(|c| words::words(&c.food))
        .collect();
    let mut at = 0;
    dish.map(|line| {
        let around = all.iter().enumerate().filter(|(other, _)| *other != at);
        let mut context = Context {
            words: name.clone(),
            british,
        };
        context
            .words
            .extend(around.flat_map(|(_, w)| w.iter().cloned()));
        at += 1;
        let found = catalogue.find(&line.food, &context, ALTERNATIVES + 1);
        MatchedComponent {
            line,
            food: found.food,
            certainty: found.certainty,
            alternatives: found.alternatives.iter().map(|(id, _)| *id).collect(),
            why: found.why,
        }
    })
}

/// Weighs every component whose amount was said.
#[must_use]
pub fn weigh_dish(dish: Dish<MatchedComponent>, catalogue: &Catalogue) -> Dish<WeighedComponent> {
    dish.map(|matched| {
        let weight = matched
            .food
            .zip(matched.line.amount.as_ref())
            .and_then(|(food, amount)| weigh(&catalogue.food(food), amount, &matched.line.food));
        match weight {
            Some(weight) => WeighedComponent {
                matched,
                grams: Some(weight.grams),
                basis: Some(weight.basis),
                rests_on: weight.rests_on,
            },
            None => WeighedComponent {
                matched,
                grams: None,
                basis: None,
                rests_on: "no amount".to_owned(),
            },
        }
    })
}
