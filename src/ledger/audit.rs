//! The audit of a dish: portions of each food group, limits and nutrients, and their share
//! of a day.

use super::cautions::{self, usual_cautions};
use super::free_food::{counts_nowhere, is_free};
use super::lines::{Holding, Ledger, LedgerLine};
use super::plausible::{Weighed as PlausiblePart, not_plausible};
use super::sureness::Sureness;
use super::{Allowances, Amounts, Day, Group, Limit, Subgroup};
use crate::foods::{Food, FoodId, Nutrient};
use crate::matching::{Catalogue, Certainty};
use crate::quantity::{Estimate, Range, Term};
use crate::reading::{Dish, LineNotes, Reading};
use crate::weighing::{Basis, WeighedComponent};
use std::sync::Arc;

/// One component in the audit.
#[derive(Debug, Clone, PartialEq)]
pub struct AuditedComponent {
    /// As written.
    pub text: String,
    /// The food it was taken for.
    pub food: Option<FoodId>,
    /// How sure that is.
    pub certainty: Certainty,
    /// Other foods that fit.
    pub alternatives: Vec<FoodId>,
    /// Why the food was taken.
    pub why: String,
    /// Edible grams; `None` when unsized.
    pub grams: Option<Range>,
    /// How the weight is known.
    pub basis: Option<Basis>,
    /// What the weight rests on.
    pub rests_on: String,
    /// Whether it counts for nothing in this amount: hardly any energy, and less than a tenth
    /// of a portion of every group.
    pub free: bool,
    /// Likely amounts of every limit and group; `None` when unmatched or unsized.
    pub amounts: Option<Amounts>,
    /// The note written beside it.
    pub note: Option<String>,
}

/// The audit of a dish.
#[derive(Debug, Clone, PartialEq)]
pub struct Audit {
    /// Name of the dish.
    pub name: Option<String>,
    /// The components in order.
    pub components: Vec<AuditedComponent>,
    /// Limits and food groups against the day.
    pub ledger: Ledger,
    /// Likely amounts of the parts of groups that occur, in the group's unit.
    pub subgroups: Vec<(Subgroup, f64)>,
    /// Likely totals; `None` where a component's figure is missing.
    pub nutrients: Vec<(Nutrient, Option<f64>)>,
    /// What can hardly be so, a sentence each; said before anything else.
    pub not_plausible: Vec<String>,
    /// Components as written that no food fits.
    pub unmatched: Vec<String>,
    /// Components as written whose amount nobody said and nobody could estimate.
    pub without_amount: Vec<String>,
    /// Name of the standard.
    pub standard: String,
    /// Remarks on what was assumed.
    pub notes: Vec<String>,
    /// What this dish adds to the usual cautions: raw food, alcohol, conditions with which
    /// something of it matters.
    pub own_cautions: Vec<String>,
    /// The usual cautions.
    pub cautions: Vec<String>,
    /// The main dish, where nobody knows what it is: then there is no total.
    pub unknown_main: Option<String>,
    /// What each stretch of the text says.
    pub read: Option<Reading>,
    /// Open choices, add-ons and allergen notes of a line of a menu.
    pub line: LineNotes,
}

/// Nutrients that the audit reports.
pub(crate) const REPORTED: [Nutrient; 9] = [
    Nutrient::EnergyKcal,
    Nutrient::ProteinG,
    Nutrient::FatG,
    Nutrient::CarbohydrateG,
    Nutrient::FibreG,
    Nutrient::SugarsG,
    Nutrient::SaturatedFatG,
    Nutrient::SodiumMg,
    Nutrient::AlcoholG,
];

impl AuditedComponent {
    /// Likely amount of each group there is any of, in the group's unit.
    pub(crate) fn groups(&self) -> impl Iterator<Item = (Group, f64)> + '_ {
        let of = |group: &Group| Some((*group, self.amounts?.get(*group)?));
        Group::ALL.iter().filter_map(of).filter(|(_, a)| *a > 0.0)
    }

    /// Likely energy, kcal; `None` when unmatched, unsized or unpublished.
    pub(crate) fn energy_kcal(&self) -> Option<f64> {
        self.amounts?.get(Limit::Energy)
    }
}

impl Audit {
    /// How sure the whole answer is.
    #[must_use]
    pub(crate) fn sureness(&self) -> Sureness {
        let whole = self.unmatched.is_empty() && self.without_amount.is_empty();
        Sureness::of(self.ledger.energy(), whole)
    }

    /// Edible grams as served, of the components that have a weight.
    #[must_use]
    pub(crate) fn served_grams(&self) -> Range {
        self.ledger.grams()
    }

    /// The subgroups of a group that occur, with their likely amounts in its unit.
    pub(crate) fn subgroups_of(&self, group: Group) -> impl Iterator<Item = (Subgroup, f64)> + '_ {
        let of = move |part: &Subgroup| Subgroup::of(group).contains(part);
        self.subgroups.iter().copied().filter(move |(s, _)| of(s))
    }
}

/// Audits a weighed dish.
#[must_use]
pub fn audit(dish: &Dish<WeighedComponent>, catalogue: &Catalogue, day: Day<'_>) -> Audit {
    let sized: Vec<Sized<'_>> = dish
        .components
        .iter()
        .filter_map(|c| Sized::of(c, catalogue))
        .collect();
    let holdings: Vec<Holding> = sized.iter().map(Sized::holding).collect();
    let unknown_main = dish.components.iter().find(|c| c.is_unknown_main());
    let allowances = Arc::new(Allowances::of(day));
    let ledger = match unknown_main {
        Some(_) => Ledger::unknown(&allowances),
        None => Ledger::of(&holdings, &allowances),
    };
    let texts = |keep: fn(&WeighedComponent) -> bool| {
        let kept = dish.components.iter().filter(|c| keep(c));
        kept.map(|c| c.matched.line.text.clone())
            .collect::<Vec<_>>()
    };
    let without_amount = texts(WeighedComponent::is_open);
    let parts = dish.components.iter().filter_map(|c| part(c, catalogue));
    let not_plausible = not_plausible(
        parts,
        unknown_main.map(|c| c.matched.line.text.as_str()),
        &ledger,
    );
    let subgroups: Vec<(Subgroup, f64)> = Subgroup::ALL
        .iter()
        .map(|s| (*s, sized.iter().map(|c| s.per_gram(&c.food) * c.term.mean)))
        .map(|(s, amounts)| (s, amounts.sum()))
        .filter(|(_, amount)| *amount > 0.0)
        .collect();
    Audit {
        name: dish.name.clone(),
        components: dish
            .components
            .iter()
            .map(|c| component(c, catalogue))
            .collect(),
        own_cautions: own_cautions(dish, catalogue, &ledger, &sized, &subgroups),
        subgroups,
        nutrients: REPORTED
            .iter()
            .map(|n| (*n, total(&sized, *n).filter(|_| unknown_main.is_none())))
            .collect(),
        not_plausible,
        unmatched: texts(|c| c.matched.food.is_none()),
        standard: day.standard.name.clone(),
        notes: notes(&ledger, day, &without_amount),
        cautions: usual_cautions(),
        without_amount,
        unknown_main: unknown_main.map(|c| c.matched.line.text.clone()),
        read: dish.read.clone(),
        line: dish.line.clone(),
        ledger,
    }
}

/// What the dish adds to the usual cautions.
fn own_cautions(
    dish: &Dish<WeighedComponent>,
    catalogue: &Catalogue,
    ledger: &Ledger,
    sized: &[Sized<'_>],
    subgroups: &[(Subgroup, f64)],
) -> Vec<String> {
    let mut greens = subgroups.iter().filter(|(s, _)| *s == Subgroup::DarkGreen);
    let foods = dish.components.iter().filter_map(|c| {
        let food = catalogue.food(c.matched.food?);
        Some((food, c.matched.line.text.as_str()))
    });
    cautions::of_dish(&cautions::Dish {
        name: dish.name.as_deref(),
        parts: foods.collect(),
        ledger,
        greens_cups: greens.next().map_or(0.0, |(_, cups)| *cups),
        carbohydrate_g: total(sized, Nutrient::CarbohydrateG),
    })
}

impl Audit {
    /// All cautions, those of this dish first.
    pub(crate) fn all_cautions(&self) -> Vec<String> {
        let own = self.own_cautions.iter();
        own.chain(&self.cautions).cloned().collect()
    }
}

/// What was assumed of the day and of the counting.
fn notes(ledger: &Ledger, day: Day<'_>, without_amount: &[String]) -> Vec<String> {
    let mut notes: Vec<String> = day
        .standard
        .level(day.energy_kcal)
        .note
        .into_iter()
        .collect();
    let taker = ledger.groups().find(LedgerLine::has_pulses);
    notes.extend(taker.map(|line| {
        format!(
            "beans, peas and lentils count with {}; what there is of them stands in their own row",
            line.subject.label()
        )
    }));
    if !without_amount.is_empty() {
        notes.push(format!(
            "not counted for want of an amount: {}",
            without_amount.join("; ")
        ));
    }
    notes
}

/// A component as far as it matters for what is plausible.
fn part<'c>(c: &'c WeighedComponent, catalogue: &'c Catalogue) -> Option<PlausiblePart<'c>> {
    Some(PlausiblePart {
        text: &c.matched.line.text,
        food: catalogue.food(c.matched.food?),
        grams: c.grams()?.mean,
        said: c.basis().is_some_and(|basis| !basis.is_unsaid()),
    })
}

/// A component that can be counted.
struct Sized<'c> {
    food: Food<'c>,
    term: Term,
}

impl<'c> Sized<'c> {
    fn of(component: &'c WeighedComponent, catalogue: &'c Catalogue) -> Option<Self> {
        Some(Self {
            food: catalogue.food(component.matched.food?),
            term: component.term()?,
        })
    }

    /// Its weight, and what a gram of it holds.
    fn holding(&self) -> Holding {
        (self.term, Amounts::per_gram(&self.food))
    }
}

fn component(c: &WeighedComponent, catalogue: &Catalogue) -> AuditedComponent {
    let food = c.matched.food.map(|id| catalogue.food(id));
    let both = food.zip(c.grams().map(|g| g.mean));
    let amounts = both.map(|(food, grams)| Amounts::per_gram(&food).times(grams));
    let carbohydrate = both
        .and_then(|(food, grams)| Some(food.per_100g(Nutrient::CarbohydrateG)? * grams / 100.0));
    let energy = amounts.and_then(|a| a.get(Limit::Energy));
    AuditedComponent {
        text: c.matched.line.text.clone(),
        food: c.matched.food,
        certainty: c.matched.certainty,
        alternatives: c.matched.alternatives.clone(),
        why: c.matched.why.clone(),
        grams: c.grams().map(Estimate::range),
        basis: c.basis(),
        rests_on: c.rests_on(),
        free: energy
            .zip(carbohydrate)
            .is_some_and(|(energy, carbohydrate)| is_free(energy, carbohydrate))
            && amounts.is_some_and(|amounts| counts_nowhere(&amounts)),
        amounts,
        note: c.matched.line.note.clone(),
    }
}

fn total(sized: &[Sized<'_>], nutrient: Nutrient) -> Option<f64> {
    sized
        .iter()
        .map(|s| Some(s.food.per_100g(nutrient)? * s.term.mean / 100.0))
        .sum()
}
