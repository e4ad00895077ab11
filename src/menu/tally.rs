//! Sums over the components of an item: the figures of an audit without its texts.

use super::held::Held;
use crate::foods::{Equivalent, Food, Nutrient};
use crate::ledger::{Day, Group, Limit, PulsesAs, equivalent};
use crate::matching::Catalogue;
use crate::quantity::{Range, Term, sum};

/// How many groups there are.
pub const GROUPS: usize = Group::ALL.len();
/// How many limits there are.
pub const LIMITS: usize = Limit::ALL.len();

/// One food group of an item.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct GroupFigures {
    /// On the plate, in the group's unit; pulses stand only in their own row.
    pub amount: Range,
    /// Portions of the standard, pulses counted where they were asked to count.
    pub portions: f64,
    /// Share of the day's allowance; `None` when the standard names none.
    pub share: Option<f64>,
}

/// One limit of an item.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct LimitFigures {
    /// On the plate, in the limit's unit; `None` when a component's figure is missing.
    pub amount: Option<Range>,
    /// Share of the day's allowance; `None` when the standard names none.
    pub share: Option<f64>,
}

/// What one day allows, looked up once for a whole menu.
#[derive(Debug, Clone, Copy)]
pub struct Allowances {
    /// Portions of each group in a day.
    groups: [Option<f64>; GROUPS],
    /// One portion of each group, in its unit.
    portions: [f64; GROUPS],
    limits: [Option<f64>; LIMITS],
    pulses: PulsesAs,
}

impl Allowances {
    /// The allowances of a day.
    #[must_use]
    pub fn of(day: Day<'_>) -> Self {
        let level = day.standard.level(day.energy_kcal).level_kcal;
        let mut all = Self {
            groups: [None; GROUPS],
            portions: [1.0; GROUPS],
            limits: [None; LIMITS],
            pulses: day.pulses,
        };
        for (at, group) in Group::ALL.iter().enumerate() {
            let portion = day.standard.portion(*group);
            let allowed = day.standard.allowance(level, *group, day.pulses);
            all.portions[at] = portion;
            all.groups[at] = allowed.map(|a| a.amount / portion).filter(|a| *a > 0.0);
        }
        for (at, limit) in Limit::ALL.iter().enumerate() {
            // Energy is held against the need itself, everything else against the level's row.
            let allowed = match limit {
                Limit::Energy => Some(day.energy_kcal),
                other => day.standard.limit_allowance(level, *other),
            };
            all.limits[at] = allowed.filter(|a| *a > 0.0);
        }
        all
    }
}

/// The figures of an item.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Tally {
    /// Edible grams as served, of the components that have a weight.
    pub grams: Range,
    /// In the order of [`Group::ALL`].
    pub groups: [GroupFigures; GROUPS],
    /// In the order of [`Limit::ALL`].
    pub limits: [LimitFigures; LIMITS],
}

/// A component that counts.
#[derive(Clone, Copy)]
struct Counted<'c> {
    food: Food<'c>,
    weight: Term,
}

impl Tally {
    /// Adds up an item.
    #[must_use]
    pub fn of(components: &[Held], catalogue: &Catalogue, allowed: &Allowances) -> Self {
        let counted: Vec<Counted<'_>> = components
            .iter()
            .filter_map(|c| {
                Some(Counted {
                    food: catalogue.food(c.food?),
                    weight: c.weight?,
                })
            })
            .collect();
        // What the whole weighs does not depend on which foods it is made of.
        let plain = |c: &Counted<'_>| (c.weight.plain(), 1.0);
        let mut tally = Tally {
            grams: sum(counted.iter().map(plain)).range(),
            ..Tally::default()
        };
        for (at, group) in Group::ALL.iter().enumerate() {
            let amount = equivalents(&counted, equivalent(*group));
            let joined = match (group, allowed.pulses) {
                (Group::Vegetables, PulsesAs::Vegetables) => Some(Equivalent::Pulses),
                (Group::ProteinFoods, PulsesAs::ProteinFoods) => Some(Equivalent::PulsesAsProtein),
                _ => None,
            };
            let pulses = joined.map_or(0.0, |e| equivalents(&counted, e).likely);
            let portions = (amount.likely + pulses) / allowed.portions[at];
            tally.groups[at] = GroupFigures {
                amount,
                portions,
                share: allowed.groups[at].map(|a| portions / a),
            };
        }
        for (at, limit) in Limit::ALL.iter().enumerate() {
            let amount = match limit {
                Limit::Energy => nutrient(&counted, Nutrient::EnergyKcal),
                Limit::SaturatedFat => nutrient(&counted, Nutrient::SaturatedFatG),
                Limit::Sodium => nutrient(&counted, Nutrient::SodiumMg),
                Limit::AddedSugars => Some(equivalents(&counted, Equivalent::AddedSugarsTsp)),
                Limit::SolidFats => Some(equivalents(&counted, Equivalent::SolidFatsG)),
                Limit::Alcohol => Some(equivalents(&counted, Equivalent::AlcoholDrinks)),
            };
            tally.limits[at] = LimitFigures {
                amount,
                share: amount.zip(allowed.limits[at]).map(|(m, a)| m.likely / a),
            };
        }
        tally
    }
}

fn equivalents(counted: &[Counted<'_>], equivalent: Equivalent) -> Range {
    total(counted, |food| food.equivalent_per_100g(equivalent) / 100.0)
}

/// Nothing when a component's figure is missing.
fn nutrient(counted: &[Counted<'_>], nutrient: Nutrient) -> Option<Range> {
    let missing = |c: &Counted<'_>| c.food.per_100g(nutrient).is_none();
    if counted.iter().any(missing) {
        return None;
    }
    Some(total(counted, |food| {
        food.per_100g(nutrient).unwrap_or(0.0) / 100.0
    }))
}

fn total(counted: &[Counted<'_>], per_gram: impl Fn(&Food<'_>) -> f64 + Copy) -> Range {
    let there = counted.iter().any(|c| per_gram(&c.food) > 0.0);
    if !there {
        return Range::default();
    }
    sum(counted.iter().map(|c| (c.weight, per_gram(&c.food)))).range()
}
