//! Components on their way from words to grams: matched, then weighed.

use super::combine::{Part, Tie, sum};
use super::weigh::{Basis, weigh};
use crate::foods::{FoodId, Nutrient};
use crate::matching::{Catalogue, Certainty, Context, Found};
use crate::quantity::Range;
use crate::reading::{Amount, ComponentLine, Dish, Measure};
use crate::words;

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
    /// What the doubt about the weight is tied to.
    pub tie: Tie,
}

impl WeighedComponent {
    /// Its term in a sum of something that a gram holds `per_gram` of; `None` without a
    /// weight.
    #[must_use]
    pub fn part(&self, per_gram: f64) -> Option<Part> {
        Some(Part {
            amount: self.grams?,
            times: per_gram,
            tie: self.tied(),
            doubt: food_doubt(self.matched.certainty),
        })
    }

    /// The component's words without a weight that no longer holds (`180 g chickpeas` of a
    /// dish that is served larger).
    pub(super) fn drop_stated_weight(&mut self) {
        let line = &mut self.matched.line;
        let weight = |amount: &Amount| amount.measure == Measure::Grams;
        if line.amount.as_ref().is_some_and(weight) {
            line.text.clone_from(&line.food);
        }
    }

    /// What the doubt about the weight is tied to: amounts that nobody sized have a
    /// generous or a thrifty kitchen in common.
    fn tied(&self) -> Tie {
        match (self.tie, self.basis) {
            (Tie::Own, Some(Basis::Typical | Basis::Hidden)) => Tie::Common,
            (tie, _) => tie,
        }
    }
}

/// How far the true food's figures may lie from those of the food taken, one standard
/// deviation as a share of them: recipes differ within one name (energy of one restaurant
/// dish varies by about a tenth at the same weight), and guesses may be another food. Own
/// reading; held against the coverage of ranges on weighed plates.
fn food_doubt(certainty: Certainty) -> f64 {
    match certainty {
        Certainty::Sure => 0.15,
        Certainty::Likely => 0.2,
        Certainty::Guess | Certainty::None => 0.3,
    }
}

/// The energy of weighed components and its 80 % range, kcal; components without a food, a
/// weight or a published figure are left out.
#[must_use]
pub fn energy(list: &[WeighedComponent], catalogue: &Catalogue) -> Range {
    let parts: Vec<Part> = list
        .iter()
        .filter_map(|c| energy_part(c, catalogue))
        .collect();
    sum(&parts)
}

/// A component's term in the dish's energy.
pub(super) fn energy_part(c: &WeighedComponent, catalogue: &Catalogue) -> Option<Part> {
    let per_100g = catalogue
        .food(c.matched.food?)
        .per_100g(Nutrient::EnergyKcal)?;
    c.part(per_100g / 100.0)
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
    match_with(dish, british, |words, context, top| {
        catalogue.find(words, context, top)
    })
}

/// As [`match_dish`], with words looked up by `find`.
pub(super) fn match_with(
    dish: Dish<ComponentLine>,
    british: bool,
    find: impl Fn(&str, &Context, usize) -> Found,
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
        let found = find(&line.food, &context, ALTERNATIVES + 1);
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
                tie: Tie::Own,
            },
            None => WeighedComponent {
                matched,
                grams: None,
                basis: None,
                rests_on: "no amount".to_owned(),
                tie: Tie::Own,
            },
        }
    })
}
