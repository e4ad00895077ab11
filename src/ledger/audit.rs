//! The audit of a dish: portions of each food group, limits and nutrients, and their share
//! of a day.

use super::cautions::cautions;
use super::free_food::is_free;
use super::{Group, Limit, PulsesAs, Standard, Subgroup};
use crate::foods::{Equivalent, Food, FoodId, Nutrient};
use crate::matching::{Catalogue, Certainty};
use crate::quantity::{Estimate, Range, Term, sum};
use crate::reading::Dish;
use crate::weighing::{Basis, WeighedComponent};

/// Whose day a dish is held against.
#[derive(Debug, Clone, Copy)]
pub struct Day<'s> {
    /// The standard.
    pub standard: &'s Standard,
    /// Energy need, kcal a day.
    pub energy_kcal: f64,
    /// Where beans, peas and lentils count.
    pub pulses: PulsesAs,
}

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
    /// Whether it counts for nothing in this amount.
    pub free: bool,
    /// Likely amount of each group, in the group's unit.
    pub groups: Vec<(Group, f64)>,
    /// Likely energy, kcal; `None` when unmatched, unsized or unpublished.
    pub energy_kcal: Option<f64>,
    /// The note written beside it.
    pub note: Option<String>,
}

/// One food group in the audit.
#[derive(Debug, Clone, PartialEq)]
pub struct AuditedGroup {
    /// The group.
    pub group: Group,
    /// How much is on the plate, in the group's unit. Pulses are only here, not in
    /// vegetables or protein foods.
    pub amount: Range,
    /// The same with pulses counted where they were asked to count.
    pub counted: Range,
    /// Likely amount in portions of the standard, pulses counted where they were asked
    /// to count.
    pub portions: f64,
    /// One portion, in the group's unit.
    pub portion: f64,
    /// Portions allowed in a day; `None` when the standard names none.
    pub allowance: Option<f64>,
    /// Portions over allowance.
    pub share: Option<f64>,
    /// Likely amounts of the subgroups that occur, in the group's unit.
    pub subgroups: Vec<(Subgroup, f64)>,
}

/// One limit in the audit.
#[derive(Debug, Clone, PartialEq)]
pub struct AuditedLimit {
    /// The limit.
    pub limit: Limit,
    /// How much is on the plate, in the limit's unit; `None` when a figure is missing.
    pub amount: Option<Range>,
    /// Allowed in a day; `None` when the standard names none.
    pub allowance: Option<f64>,
    /// Amount over allowance.
    pub share: Option<f64>,
}

/// The audit of a dish.
#[derive(Debug, Clone, PartialEq)]
pub struct Audit {
    /// Name of the dish.
    pub name: Option<String>,
    /// Edible grams as served, of the components that have a weight.
    pub served_grams: Range,
    /// The components in order.
    pub components: Vec<AuditedComponent>,
    /// All groups, in fixed order.
    pub groups: Vec<AuditedGroup>,
    /// All limits, in fixed order.
    pub limits: Vec<AuditedLimit>,
    /// Likely totals; `None` where a component's figure is missing.
    pub nutrients: Vec<(Nutrient, Option<f64>)>,
    /// Components as written that no food fits.
    pub unmatched: Vec<String>,
    /// Components as written whose amount nobody said and nobody could estimate.
    pub without_amount: Vec<String>,
    /// The energy level that serves the day.
    pub level_kcal: f64,
    /// Name of the standard.
    pub standard: String,
    /// Remarks on what was assumed.
    pub notes: Vec<String>,
    /// The usual cautions.
    pub cautions: Vec<String>,
}

/// Nutrients that the audit reports.
pub const REPORTED: [Nutrient; 9] = [
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

/// Audits a weighed dish.
#[must_use]
pub fn audit(dish: &Dish<WeighedComponent>, catalogue: &Catalogue, day: Day<'_>) -> Audit {
    let choice = day.standard.level(day.energy_kcal);
    let sized: Vec<Sized<'_>> = dish
        .components
        .iter()
        .filter_map(|c| Sized::of(c, catalogue))
        .collect();
    let mut notes: Vec<String> = choice.note.clone().into_iter().collect();
    let components: Vec<AuditedComponent> = dish
        .components
        .iter()
        .map(|c| component(c, catalogue))
        .collect();
    let without_amount = dish
        .components
        .iter()
        .filter(|c| c.is_open())
        .map(|c| c.matched.line.text.clone())
        .collect::<Vec<_>>();
    if amount_of(&sized, Equivalent::Pulses).likely > 0.005 {
        let taker = match day.pulses {
            PulsesAs::Vegetables => Group::Vegetables,
            PulsesAs::ProteinFoods => Group::ProteinFoods,
        };
        notes.push(format!(
            "beans, peas and lentils are counted in the share of {}, not in its amount",
            taker.label()
        ));
    }
    if !without_amount.is_empty() {
        notes.push(format!(
            "not counted for want of an amount: {}",
            without_amount.join("; ")
        ));
    }
    Audit {
        name: dish.name.clone(),
        served_grams: sum(sized.iter().map(|s| (s.term.plain(), 1.0))).range(),
        unmatched: dish
            .components
            .iter()
            .filter(|c| c.matched.food.is_none())
            .map(|c| c.matched.line.text.clone())
            .collect(),
        groups: Group::ALL
            .iter()
            .map(|g| group(*g, &sized, day, choice.level_kcal))
            .collect(),
        limits: Limit::ALL
            .iter()
            .map(|l| limit(*l, &sized, day, choice.level_kcal))
            .collect(),
        nutrients: REPORTED.iter().map(|n| (*n, total(&sized, *n))).collect(),
        components,
        without_amount,
        level_kcal: choice.level_kcal,
        standard: day.standard.name.clone(),
        notes,
        cautions: cautions().iter().map(ToString::to_string).collect(),
    }
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
}

fn component(c: &WeighedComponent, catalogue: &Catalogue) -> AuditedComponent {
    let food = c.matched.food.map(|id| catalogue.food(id));
    let grams = c.grams().map(|g| g.mean);
    let of = |nutrient| Some(food?.per_100g(nutrient)? * grams? / 100.0);
    let energy_kcal = of(Nutrient::EnergyKcal);
    let free = match (energy_kcal, of(Nutrient::CarbohydrateG)) {
        (Some(energy), Some(carbohydrate)) => is_free(energy, carbohydrate),
        _ => false,
    };
    let groups = match (food, grams) {
        (Some(food), Some(grams)) => Group::ALL
            .iter()
            .map(|g| (*g, food.equivalent_per_100g(equivalent(*g)) * grams / 100.0))
            .filter(|(_, amount)| *amount > 0.0)
            .collect(),
        _ => Vec::new(),
    };
    AuditedComponent {
        text: c.matched.line.text.clone(),
        food: c.matched.food,
        certainty: c.matched.certainty,
        alternatives: c.matched.alternatives.clone(),
        why: c.matched.why.clone(),
        grams: c.grams().map(Estimate::range),
        basis: c.basis(),
        rests_on: c.rests_on(),
        free,
        groups,
        energy_kcal,
        note: c.matched.line.note.clone(),
    }
}

/// The equivalent that measures a group. Pulses are left out of vegetables and of protein
/// foods.
#[must_use]
pub fn equivalent(group: Group) -> Equivalent {
    match group {
        Group::Fruits => Equivalent::Fruits,
        Group::Vegetables => Equivalent::Vegetables,
        Group::Pulses => Equivalent::Pulses,
        Group::Grains => Equivalent::Grains,
        Group::ProteinFoods => Equivalent::Protein,
        Group::Dairy => Equivalent::Dairy,
        Group::Oils => Equivalent::OilsG,
    }
}

fn amount_of(sized: &[Sized<'_>], equivalent: Equivalent) -> Range {
    amount_by(sized, |food| food.equivalent_per_100g(equivalent))
}

fn amount_of_both(sized: &[Sized<'_>], one: Equivalent, other: Equivalent) -> Range {
    amount_by(sized, |food| {
        food.equivalent_per_100g(one) + food.equivalent_per_100g(other)
    })
}

fn amount_by(sized: &[Sized<'_>], per_100g: impl Fn(&Food<'_>) -> f64) -> Range {
    sum(sized.iter().map(|s| (s.term, per_100g(&s.food) / 100.0))).range()
}

fn group(group: Group, sized: &[Sized<'_>], day: Day<'_>, level: f64) -> AuditedGroup {
    let amount = amount_of(sized, equivalent(group));
    // Pulses are counted once: with vegetables by the cup, or with protein foods by the
    // ounce, as asked.
    let counted = match (group, day.pulses) {
        (Group::Vegetables, PulsesAs::Vegetables) => {
            amount_of_both(sized, equivalent(group), Equivalent::Pulses)
        }
        (Group::ProteinFoods, PulsesAs::ProteinFoods) => {
            amount_of_both(sized, equivalent(group), Equivalent::PulsesAsProtein)
        }
        _ => amount,
    };
    let portions = counted.likely / day.standard.portion(group);
    let allowance = day
        .standard
        .allowance(level, group, day.pulses)
        .map(|a| a.amount / day.standard.portion(group));
    AuditedGroup {
        group,
        amount,
        counted,
        portions,
        portion: day.standard.portion(group),
        allowance,
        share: allowance.filter(|a| *a > 0.0).map(|a| portions / a),
        subgroups: Subgroup::of(group)
            .iter()
            .map(|s| (*s, subgroup_amount(sized, *s)))
            .filter(|(_, amount)| *amount > 0.0)
            .collect(),
    }
}

fn subgroup_amount(sized: &[Sized<'_>], subgroup: Subgroup) -> f64 {
    subgroup_equivalents(subgroup)
        .iter()
        .map(|e| amount_of(sized, *e).likely)
        .sum()
}

/// The equivalents that add up to a subgroup.
fn subgroup_equivalents(subgroup: Subgroup) -> &'static [Equivalent] {
    match subgroup {
        Subgroup::DarkGreen => &[Equivalent::DarkGreen],
        Subgroup::RedOrange => &[Equivalent::RedOrange],
        Subgroup::Starchy => &[Equivalent::Starchy],
        Subgroup::OtherVegetables => &[Equivalent::VegetablesOther],
        Subgroup::WholeGrains => &[Equivalent::WholeGrains],
        Subgroup::RefinedGrains => &[Equivalent::RefinedGrains],
        Subgroup::MeatPoultryEggs => &[
            Equivalent::Meat,
            Equivalent::CuredMeat,
            Equivalent::OrganMeat,
            Equivalent::Poultry,
            Equivalent::Eggs,
        ],
        Subgroup::Seafood => &[Equivalent::SeafoodHighOmega3, Equivalent::SeafoodLowOmega3],
        Subgroup::NutsSeedsSoy => &[Equivalent::NutsSeeds, Equivalent::Soy],
    }
}

fn limit(limit: Limit, sized: &[Sized<'_>], day: Day<'_>, level: f64) -> AuditedLimit {
    let amount = match limit {
        Limit::Energy => nutrient_range(sized, Nutrient::EnergyKcal),
        Limit::SaturatedFat => nutrient_range(sized, Nutrient::SaturatedFatG),
        Limit::Sodium => nutrient_range(sized, Nutrient::SodiumMg),
        Limit::AddedSugars => Some(amount_of(sized, Equivalent::AddedSugarsTsp)),
        Limit::SolidFats => Some(amount_of(sized, Equivalent::SolidFatsG)),
        Limit::Alcohol => Some(amount_of(sized, Equivalent::AlcoholDrinks)),
    };
    // Energy is held against the need itself, everything else against the level's row.
    let allowance = match limit {
        Limit::Energy => Some(day.energy_kcal),
        other => day.standard.limit_allowance(level, other),
    };
    let share = amount
        .zip(allowance.filter(|a| *a > 0.0))
        .map(|(m, a)| m.likely / a);
    AuditedLimit {
        limit,
        amount,
        allowance,
        share,
    }
}

/// The range of a nutrient; `None` when any component's figure is missing.
fn nutrient_range(sized: &[Sized<'_>], nutrient: Nutrient) -> Option<Range> {
    let parts: Option<Vec<(Term, f64)>> = sized
        .iter()
        .map(|s| Some((s.term, s.food.per_100g(nutrient)? / 100.0)))
        .collect();
    Some(sum(parts?).range())
}

fn total(sized: &[Sized<'_>], nutrient: Nutrient) -> Option<f64> {
    sized
        .iter()
        .map(|s| Some(s.food.per_100g(nutrient)? * s.term.mean / 100.0))
        .sum()
}
