//! Sums over the components of an item: the figures of an audit without its texts.

use crate::catalogue::{Catalogue, Equivalent, Food, Nutrient};
use crate::estimate::{Part, WeighedComponent, sum};
use crate::groups::{Day, Group, Limit, PulsesAs, equivalent};
use crate::quantity::Range;

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

/// Sums whose memory is used again for the next item.
#[derive(Default)]
pub struct Tallier {
    parts: Vec<Part>,
}

/// A component that counts, as a term whose factor is still to come.
struct Counted<'c> {
    food: Food<'c>,
    part: Part,
}

impl Tallier {
    /// Adds up an item.
    pub fn tally(
        &mut self,
        components: &[WeighedComponent],
        catalogue: &Catalogue,
        allowed: &Allowances,
    ) -> Tally {
        let counted: Vec<Counted<'_>> = components
            .iter()
            .filter_map(|c| {
                Some(Counted {
                    food: catalogue.food(c.matched.food?),
                    part: c.part(1.0)?,
                })
            })
            .collect();
        self.parts.clear();
        // What the whole weighs does not depend on which foods it is made of.
        let whole = |c: &Counted<'_>| Part {
            doubt: 0.0,
            ..c.part
        };
        self.parts.extend(counted.iter().map(whole));
        let mut tally = Tally {
            grams: sum(&self.parts),
            ..Tally::default()
        };
        for (at, group) in Group::ALL.iter().enumerate() {
            let amount = self.equivalents(&counted, equivalent(*group));
            let joined = match (group, allowed.pulses) {
                (Group::Vegetables, PulsesAs::Vegetables) => Some(Equivalent::Pulses),
                (Group::ProteinFoods, PulsesAs::ProteinFoods) => Some(Equivalent::PulsesAsProtein),
                _ => None,
            };
            let pulses = joined.map_or(0.0, |e| self.equivalents(&counted, e).likely);
            let portions = (amount.likely + pulses) / allowed.portions[at];
            tally.groups[at] = GroupFigures {
                amount,
                portions,
                share: allowed.groups[at].map(|a| portions / a),
            };
        }
        for (at, limit) in Limit::ALL.iter().enumerate() {
            let amount = match limit {
                Limit::Energy => self.nutrient(&counted, Nutrient::EnergyKcal),
                Limit::SaturatedFat => self.nutrient(&counted, Nutrient::SaturatedFatG),
                Limit::Sodium => self.nutrient(&counted, Nutrient::SodiumMg),
                Limit::AddedSugars => Some(self.equivalents(&counted, Equivalent::AddedSugarsTsp)),
                Limit::SolidFats => Some(self.equivalents(&counted, Equivalent::SolidFatsG)),
                Limit::Alcohol => Some(self.equivalents(&counted, Equivalent::AlcoholDrinks)),
            };
            tally.limits[at] = LimitFigures {
                amount,
                share: amount.zip(allowed.limits[at]).map(|(m, a)| m.likely / a),
            };
        }
        tally
    }

    fn equivalents(&mut self, counted: &[Counted<'_>], equivalent: Equivalent) -> Range {
        self.sum(counted, |food| {
            Some(food.equivalent_per_100g(equivalent) / 100.0)
        })
        .unwrap_or_default()
    }

    fn nutrient(&mut self, counted: &[Counted<'_>], nutrient: Nutrient) -> Option<Range> {
        self.sum(counted, |food| Some(food.per_100g(nutrient)? / 100.0))
    }

    /// Nothing when a component's figure is missing.
    fn sum(
        &mut self,
        counted: &[Counted<'_>],
        per_gram: impl Fn(&Food<'_>) -> Option<f64>,
    ) -> Option<Range> {
        self.parts.clear();
        let mut there = false;
        for c in counted {
            let times = per_gram(&c.food)?;
            there |= times > 0.0;
            self.parts.push(Part { times, ..c.part });
        }
        Some(if there {
            sum(&self.parts)
        } else {
            Range::default()
        })
    }
}
