//! Components on their way from words to grams: matched, then weighed.

use super::finds::Finds;
use super::usual::{Usual, usual};
use super::weigh::{Basis, Weight, weigh};
use crate::foods::{FoodId, Nutrient};
use crate::matching::{Catalogue, Certainty, Context};
use crate::quantity::{Estimate, Term, sum};
use crate::reading::{Amount, ComponentLine, Dish, Measure};
use crate::words::words;
use std::borrow::Cow;

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

/// Why a component has no weight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unweighed {
    /// No food fits its words.
    NoFood,
    /// Nobody said how much it is, and nothing says how much is usual.
    NoAmount,
    /// It is the main part of a dish, and no food fits its words: the dish has no total.
    UnknownMain,
}

/// A component with its weight, or the reason why it has none.
#[derive(Debug, Clone, PartialEq)]
pub struct WeighedComponent {
    /// The component as matched.
    pub matched: MatchedComponent,
    /// What it weighs.
    pub weight: Result<Weight, Unweighed>,
}

impl WeighedComponent {
    /// Edible grams as served; `None` without a weight.
    #[must_use]
    pub fn grams(&self) -> Option<Estimate> {
        self.weight.as_ref().ok().map(|weight| weight.grams)
    }

    /// How the weight is known; `None` without one.
    #[must_use]
    pub fn basis(&self) -> Option<Basis> {
        self.weight.as_ref().ok().map(|weight| weight.basis)
    }

    /// Whether its weight was neither said nor worked out yet.
    #[must_use]
    pub(crate) fn is_open(&self) -> bool {
        self.weight == Err(Unweighed::NoAmount)
    }

    /// Whether it is the main part of a dish, and nobody knows what that is.
    #[must_use]
    pub fn is_unknown_main(&self) -> bool {
        self.weight == Err(Unweighed::UnknownMain)
    }

    /// What the weight rests on, step by step.
    #[must_use]
    pub fn rests_on(&self) -> String {
        match &self.weight {
            Ok(weight) => weight.steps.join("; "),
            Err(Unweighed::NoFood) => "no food".to_owned(),
            Err(Unweighed::UnknownMain) => "main dish unknown".to_owned(),
            Err(Unweighed::NoAmount) => "no amount".to_owned(),
        }
    }

    /// How much of it is usual.
    pub(super) fn usual(&self, catalogue: &Catalogue) -> &'static Usual {
        let food = self.matched.food.map(|id| catalogue.food(id));
        usual(&self.matched.line.food, food)
    }

    /// Its term in sums of what a gram holds; `None` without a weight.
    #[must_use]
    pub(crate) fn term(&self) -> Option<Term> {
        Some(Term::new(self.grams()?, food_doubt(self.matched.certainty)))
    }

    /// The same term, were the weight's spread `times` as wide.
    pub(super) fn term_widened(&self, times: f64) -> Option<Term> {
        let grams = self.grams()?;
        let widened = Estimate {
            log_sd: grams.log_sd * times,
            ..grams
        };
        Some(Term::new(widened, food_doubt(self.matched.certainty)))
    }

    /// Leaves `part` (not negative) of the weight, if there is one.
    pub(crate) fn scale(&mut self, part: f64) {
        if let Ok(weight) = &mut self.weight {
            weight.grams = weight.grams.times(part);
        }
    }

    /// Changes the weight, if there is one, and says why.
    pub(super) fn change(&mut self, told: String, change: impl FnOnce(Estimate) -> Estimate) {
        if let Ok(weight) = &mut self.weight {
            weight.grams = change(weight.grams);
            weight.steps.push(told);
        }
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

/// The energy of weighed components, kcal; components without a food, a weight or a
/// published figure are left out.
#[must_use]
pub fn energy(list: &[WeighedComponent], catalogue: &Catalogue) -> Estimate {
    sum(list
        .iter()
        .filter_map(|c| Some((c.term()?, kcal_per_g(c, catalogue)?))))
}

/// Energy of a gram of a component's food, kcal.
pub(super) fn kcal_per_g(c: &WeighedComponent, catalogue: &Catalogue) -> Option<f64> {
    let food = catalogue.food(c.matched.food?);
    Some(food.per_100g(Nutrient::EnergyKcal)? / 100.0)
}

/// Matches every component of a dish. The dish's name and the other components make general
/// words exact.
#[must_use]
pub fn match_dish(
    dish: Dish<ComponentLine>,
    catalogue: &Catalogue,
    british: bool,
) -> Dish<MatchedComponent> {
    match_with(dish, british, &Finds::new(catalogue))
}

/// As [`match_dish`], with words looked up in `finds`.
pub(super) fn match_with(
    dish: Dish<ComponentLine>,
    british: bool,
    finds: &Finds<'_>,
) -> Dish<MatchedComponent> {
    let dish = dish.with_choices_open();
    let name = dish.name.clone();
    let all: Vec<String> = dish.components.iter().map(|c| c.food.clone()).collect();
    let mut at = 0;
    dish.map(|line| {
        let around = || {
            let others = all.iter().enumerate().filter(|(other, _)| *other != at);
            let texts = name.iter().chain(others.map(|(_, food)| food));
            // What it is served in may say what it is: a can of iced tea.
            let own = line.amount.as_ref().map(|amount| &amount.text);
            texts.chain(own).flat_map(|text| words(text)).collect()
        };
        let found = finds.find(&line.food, british, around);
        at += 1;
        let mut line = line;
        if let Cow::Owned(ours) = in_our_words(&line.food, british, finds.catalogue()) {
            line.food = ours;
        }
        MatchedComponent {
            line,
            food: found.food,
            certainty: found.certainty,
            alternatives: found.alternatives.iter().map(|(id, _)| *id).collect(),
            why: found.why.clone(),
        }
    })
}

/// Weighs every component whose amount was said.
#[must_use]
pub fn weigh_dish(dish: Dish<MatchedComponent>, catalogue: &Catalogue) -> Dish<WeighedComponent> {
    dish.map(|matched| WeighedComponent {
        weight: stated(&matched, catalogue),
        matched,
    })
}

/// British words for a food as the tables have them (`chips` are fries), so that what is usual of it
/// is that of what is meant.
fn in_our_words<'w>(food: &'w str, british: bool, catalogue: &Catalogue) -> Cow<'w, str> {
    if !british {
        return Cow::Borrowed(food);
    }
    let context = Context {
        british,
        ..Context::default()
    };
    catalogue.in_our_words(food, &context)
}

fn stated(matched: &MatchedComponent, catalogue: &Catalogue) -> Result<Weight, Unweighed> {
    let food = catalogue.food(matched.food.ok_or(Unweighed::NoFood)?);
    let amount = matched.line.amount.as_ref().ok_or(Unweighed::NoAmount)?;
    weigh(&food, amount, &matched.line.food).ok_or(Unweighed::NoAmount)
}
