//! The servable amounts of each component and the cost of leaving some.

use super::KEEP_FIRST;
use super::plate::{Budget, Item, Unfit};

/// More steps than this on one component are made coarser: nobody counts quarter cups
/// past ten cups.
const MOST_STEPS: usize = 40;

/// Relative slack when sums are held against caps, for rounding alone.
pub(super) const SLACK: f64 = 1e-6;

/// A component with its servable amounts.
#[derive(Debug, Clone)]
pub(super) struct Choice {
    /// Grams of one step.
    pub step: f64,
    /// Whole steps that leave nothing, or half a step or more, of what was served.
    pub steps: usize,
    /// Grams that "all of it" adds to the whole steps; 0 when nothing.
    pub rest: f64,
    /// The highest level whose caps this component alone keeps.
    pub top: usize,
    /// Cost of leaving all of it.
    pub weight: f64,
    /// Grams served.
    pub served: f64,
}

impl Choice {
    /// Levels are 0 (nothing) to this (all of it).
    pub(crate) fn last(&self) -> usize {
        self.steps + usize::from(self.rest > 0.0)
    }

    /// Grams at a level.
    pub(crate) fn grams(&self, level: usize) -> f64 {
        if level >= self.last() {
            self.served
        } else {
            self.step * level as f64
        }
    }

    /// Cost at a level.
    pub(crate) fn cost(&self, level: usize) -> f64 {
        let left = 1.0 - self.grams(level) / self.served;
        self.weight * left * left
    }
}

/// One thing that must not be passed: energy or a cap.
#[derive(Debug, Clone)]
pub(super) struct Row {
    /// In a gram of each component.
    pub per_gram: Vec<f64>,
    /// The same, 0 for components that hardly carry it: what is held to the most.
    pub held: Vec<f64>,
    /// The most.
    pub most: f64,
    /// Whether it must be kept.
    pub firm: bool,
}

impl Row {
    /// The sum at these grams.
    pub(crate) fn sum(&self, grams: &[f64]) -> f64 {
        let all = self.per_gram.iter().zip(grams);
        all.map(|(each, g)| each * g).sum()
    }

    /// The part of the sum that is held to the most.
    pub(crate) fn held_sum(&self, grams: &[f64]) -> f64 {
        let all = self.held.iter().zip(grams);
        all.map(|(each, g)| each * g).sum()
    }

    /// Whether these grams are within the most but for what hardly carries it.
    pub(crate) fn keeps(&self, grams: &[f64]) -> bool {
        self.allows(self.held_sum(grams))
    }

    /// Whether an amount is within the most, up to rounding.
    pub(crate) fn allows(&self, amount: f64) -> bool {
        amount <= self.most * (1.0 + SLACK) + 1e-9
    }
}

/// The programme in numbers: for each component the cost of each level and what it takes
/// of each row that could be passed, as a part of the most.
#[derive(Debug, Clone)]
pub(super) struct Table {
    /// Weight of each component.
    pub weights: Vec<f64>,
    /// Part of the served amount at each level of each component, up to the top.
    pub parts: Vec<Vec<f64>>,
    /// Cost of each of these levels.
    pub costs: Vec<Vec<f64>>,
    /// What all that was served of each component takes of each row.
    pub takes: Vec<Vec<f64>>,
}

impl Table {
    pub(crate) fn new(choices: &[Choice], rows: &[&Row]) -> Self {
        let levels = |c: &Choice| 0..=c.top;
        let take = |row: &Row| -> Vec<f64> {
            // A component that holds any of a spent measure has been bounded to nothing.
            let each = row.held.iter().zip(choices);
            each.map(|(g, c)| {
                if c.top == 0 {
                    0.0
                } else {
                    g * c.served / row.most
                }
            })
            .collect()
        };
        let could_pass = |takes: &Vec<f64>| {
            let top = |(take, c): (&f64, &Choice)| take * c.grams(c.top) / c.served;
            takes.iter().zip(choices).map(top).sum::<f64>() > 1.0
        };
        Self {
            weights: choices.iter().map(|c| c.weight).collect(),
            parts: choices
                .iter()
                .map(|c| levels(c).map(|l| c.grams(l) / c.served).collect())
                .collect(),
            costs: choices
                .iter()
                .map(|c| levels(c).map(|l| c.cost(l)).collect())
                .collect(),
            takes: rows
                .iter()
                .filter(|row| row.most > 0.0)
                .map(|row| take(row))
                .filter(could_pass)
                .collect(),
        }
    }

    /// How many components.
    pub(crate) fn len(&self) -> usize {
        self.weights.len()
    }

    /// What a level of a component takes of a row.
    pub(crate) fn take(&self, row: usize, at: usize, level: usize) -> f64 {
        self.takes[row][at] * self.parts[at][level]
    }

    /// The most of every row, with room for rounding alone.
    pub(crate) const MOST: f64 = 1.0 + SLACK;
}

/// Energy first, then the caps in their order.
pub(super) fn rows(items: &[Item], budget: &Budget) -> Vec<Row> {
    let energy: Vec<f64> = items.iter().map(|i| i.energy_kcal_per_g).collect();
    let energy = Row {
        held: energy.clone(),
        per_gram: energy,
        most: budget.energy_kcal,
        firm: true,
    };
    let caps = budget.caps.iter().enumerate().map(|(at, cap)| {
        let hardly = |item: &Item| item.per_gram[at] * item.served_grams <= cap.trace;
        let held = |item: &Item| if hardly(item) { 0.0 } else { item.per_gram[at] };
        Row {
            per_gram: items.iter().map(|i| i.per_gram[at]).collect(),
            held: items.iter().map(held).collect(),
            most: cap.most,
            firm: cap.firm,
        }
    });
    std::iter::once(energy).chain(caps).collect()
}

/// The choices of each component under these rows; a row that is not held bounds nothing.
pub(super) fn choices(items: &[Item], rows: &[&Row]) -> Vec<Choice> {
    let plate: f64 = items.iter().map(|i| i.served_grams).sum();
    let components: f64 = items.iter().map(|i| f64::from(i.components)).sum();
    let weights: Vec<f64> = items
        .iter()
        .enumerate()
        .map(|(at, item)| {
            let equal = f64::from(item.components) / components;
            let base = f64::midpoint(equal, item.served_grams / plate);
            let keep = if item.keep_first { KEEP_FIRST } else { 1.0 };
            // Breaks ties between like components: what is written first is kept.
            let earlier = 1.0 + 1e-5 * (items.len() - at) as f64;
            base * keep * earlier
        })
        .collect();
    let total: f64 = weights.iter().sum();
    let choice = |(at, item): (usize, &Item)| {
        let mut step = item.unit.step_grams();
        while item.served_grams / step > MOST_STEPS as f64 {
            step *= 2.0;
        }
        let mut steps = (item.served_grams / step + SLACK).floor();
        let mut rest = item.served_grams - step * steps;
        // Nobody boxes a crumb: what is left is at least half a step, or nothing.
        if steps >= 1.0 && rest > item.served_grams * SLACK && rest < step / 2.0 {
            steps -= 1.0;
            rest += step;
        }
        let mut choice = Choice {
            step,
            steps: steps as usize,
            rest: if rest > item.served_grams * SLACK {
                rest
            } else {
                0.0
            },
            top: 0,
            weight: weights[at] / total,
            served: item.served_grams,
        };
        let keeps = |level: &usize| {
            rows.iter()
                .all(|row| row.allows(row.held[at] * choice.grams(*level)))
        };
        choice.top = (0..=choice.last()).rev().find(keeps).unwrap_or(0);
        choice
    };
    items.iter().enumerate().map(choice).collect()
}

/// Refuses what cannot be computed with.
pub(super) fn check(items: &[Item], budget: &Budget) -> Result<(), Unfit> {
    let known = |item: &str, what, value: f64, positive: bool| {
        let good = value.is_finite() && if positive { value > 0.0 } else { value >= 0.0 };
        let range = if positive { "above 0" } else { "from 0 up" };
        let item = item.to_owned();
        if good {
            Ok(())
        } else {
            Err(Unfit::Figure {
                item,
                what,
                value,
                range,
            })
        }
    };
    if items.is_empty() {
        return Err(Unfit::Empty);
    }
    for cap in &budget.caps {
        known(&cap.name, "the most", cap.most, false)?;
        known(&cap.name, "the trace", cap.trace, false)?;
    }
    for item in items {
        if item.per_gram.len() != budget.caps.len() {
            return Err(Unfit::Length {
                item: item.name.clone(),
                figures: item.per_gram.len(),
                caps: budget.caps.len(),
            });
        }
        known(&item.name, "the served weight", item.served_grams, true)?;
        known(&item.name, "the energy", item.energy_kcal_per_g, false)?;
        known(&item.name, "the kitchen step", item.unit.step_grams(), true)?;
        let components = f64::from(item.components);
        known(&item.name, "the number of components", components, true)?;
        for each in &item.per_gram {
            known(&item.name, "a group or limit", *each, false)?;
        }
    }
    if budget.energy_kcal.is_nan() || budget.energy_kcal <= 0.0 {
        return Err(Unfit::Spent {
            of: budget.of.clone(),
        });
    }
    known("energy", "the most", budget.energy_kcal, true)
}

/// The chosen level of each component.
#[derive(Debug, Clone)]
pub(super) struct Chosen {
    pub choices: Vec<Choice>,
    pub levels: Vec<usize>,
    pub gap: f64,
}

impl Chosen {
    pub(crate) fn grams(&self) -> Vec<f64> {
        self.choices
            .iter()
            .zip(&self.levels)
            .map(|(c, level)| c.grams(*level))
            .collect()
    }

    pub(crate) fn cost(&self) -> f64 {
        self.choices
            .iter()
            .zip(&self.levels)
            .map(|(c, level)| c.cost(*level))
            .sum()
    }
}
