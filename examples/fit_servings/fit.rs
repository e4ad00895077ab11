//! A ridge regression on the logarithm of energy, restaurants as a random effect, robust
//! against rows that are per piece without saying so.
//!
//! Each effect is drawn towards nothing the more, the fewer items speak for it; the effect of
//! a kind is shared with the kinds that it lies within, so that a rare kind is estimated
//! as its family is (partial pooling).

use crate::data::Item;
use std::collections::{BTreeMap, BTreeSet};
use trencher::weighing::servings::What;

/// Words, pairs and words of sections speak only when this many restaurants use them.
const LEAST_RESTAURANTS: usize = 3;
/// How much a restaurant with many items counts beside one with few: each item is worth its
/// number to the power of minus this.
const CROWD: f64 = 0.4;
/// What was eaten or weighed counts this much beside what is printed: eaten is not served.
const SURVEYED: f64 = 0.3;
/// Errors beyond this (log scale) count by their size, not by its square (Huber).
const ROBUST: f64 = 0.5;
/// Rounds of reweighting, and steps of the solver in each.
const ROUNDS: usize = 6;
const STEPS: usize = 150;

/// One thing that speaks, with who says it.
pub struct Column {
    pub what: What,
    pub of: String,
    pub items: usize,
    pub restaurants: usize,
}

/// Items as rows of figures.
pub struct Rows {
    pub columns: Vec<Column>,
    figures: Vec<Vec<(usize, f64)>>,
    logs: Vec<f64>,
    restaurants: Vec<usize>,
    weights: Vec<f64>,
}

/// An effect for each column.
pub struct Fit {
    pub effects: Vec<f64>,
}

/// Standard deviation that effects of this sort are expected to have, relative to others;
/// found by leaving restaurants out.
fn scale(what: What, of: &str, drink: bool) -> f64 {
    match (what, of) {
        (What::Word, _) if drink => 0.8,
        (What::Serving, _) => 30.0,
        (What::Kind | What::LogStated, _)
        | (What::Parts, "log density" | "log energy of several") => 1.5,
        (What::Word | What::Size, _) => 1.3,
        (What::WordBeside, _) => 0.5,
        (
            What::Pair
            | What::WordOfKind
            | What::SectionKind
            | What::SectionOfKind
            | What::SectionWord,
            _,
        ) => 0.7,
        (What::Parts, "log energy") => 2.6,
        _ => 1.0,
    }
}

/// The same of restaurants.
const RESTAURANT_SCALE: f64 = 0.5;

impl Fit {
    /// The fit with every serving `level` times as large.
    pub fn raised(mut self, rows: &Rows, level: f64) -> Self {
        let serving = rows.columns.iter().position(|c| c.what == What::Serving);
        if let Some(at) = serving {
            self.effects[at] += level.ln();
        }
        self
    }
}

impl Rows {
    /// Rows of energy.
    pub fn of(items: &[&Item]) -> Self {
        let energy: Vec<f64> = items.iter().map(|i| i.kcal.ln()).collect();
        Self::telling(items, energy, &|_| true)
    }

    /// Rows of what drinks hold, by kind, size and measure alone.
    pub fn of_cups(items: &[&Item]) -> Self {
        let held: Vec<&Item> = items
            .iter()
            .copied()
            .filter(|i| i.cup_grams.is_some())
            .collect();
        let grams = held
            .iter()
            .filter_map(|i| i.cup_grams)
            .map(f64::ln)
            .collect();
        // What is stated is known: it must not tell for the kind whose size it states.
        let by = |what| {
            matches!(
                what,
                What::Serving | What::Kind | What::Size | What::SizeOfKind | What::SectionKind
            )
        };
        Self::telling(&held, grams, &by)
    }

    fn telling(items: &[&Item], logs: Vec<f64>, by: &dyn Fn(What) -> bool) -> Self {
        let mut seen: BTreeMap<(What, &str), (usize, BTreeSet<&str>)> = BTreeMap::new();
        for item in items {
            for (what, of, _) in item.features.iter().filter(|f| by(f.0)) {
                let entry = seen.entry((*what, of)).or_default();
                entry.0 += 1;
                entry.1.insert(&item.restaurant);
            }
        }
        let least = |what: What| {
            if what.is_of_words() {
                LEAST_RESTAURANTS
            } else {
                1
            }
        };
        seen.retain(|(what, _), (_, who)| who.len() >= least(*what));
        let places: BTreeMap<(What, &str), usize> = seen
            .keys()
            .enumerate()
            .map(|(at, key)| (*key, at))
            .collect();
        let names: BTreeSet<&str> = items.iter().map(|i| i.restaurant.as_str()).collect();
        let names: Vec<&str> = names.into_iter().collect();
        let restaurants: Vec<usize> = items
            .iter()
            .filter_map(|i| names.binary_search(&i.restaurant.as_str()).ok())
            .collect();
        let mut crowds = vec![0.0; names.len()];
        for at in &restaurants {
            crowds[*at] += 1.0;
        }
        let weights: Vec<f64> = restaurants
            .iter()
            .zip(items)
            .map(|(r, item)| {
                let own = if item.surveyed { SURVEYED } else { 1.0 };
                own * f64::powf(crowds[*r], -CROWD)
            })
            .collect();
        let mean = weights.iter().sum::<f64>() / weights.len() as f64;
        let row = |item: &&Item| {
            let known = item.features.iter();
            known
                .filter_map(|(what, of, figure)| {
                    Some((*places.get(&(*what, of.as_str()))?, *figure))
                })
                .collect()
        };
        Self {
            figures: items.iter().map(row).collect(),
            logs,
            weights: weights.iter().map(|w| w / mean).collect(),
            restaurants,
            columns: seen
                .into_iter()
                .map(|((what, of), (items, who))| Column {
                    what,
                    of: of.to_owned(),
                    items,
                    restaurants: who.len(),
                })
                .collect(),
        }
    }

    /// How many restaurants there are, and whose each row is.
    pub fn restaurants(&self) -> (usize, &[usize]) {
        let count = self.restaurants.iter().max().map_or(0, |last| last + 1);
        (count, &self.restaurants)
    }

    /// Fits the rows of the restaurants that are `used`.
    pub fn fit(&self, drink: bool, used: &dyn Fn(usize) -> bool) -> Fit {
        let strength = if drink { 24.0 } else { 13.0 };
        let own = self.columns.iter().map(|c| scale(c.what, &c.of, drink));
        let count = self.restaurants().0;
        let penalties: Vec<f64> = own
            .chain(std::iter::repeat_n(RESTAURANT_SCALE, count))
            .map(|scale| strength / (scale * scale))
            .collect();
        let at: Vec<usize> = (0..self.figures.len())
            .filter(|at| used(self.restaurants[*at]))
            .collect();
        let mut weights: Vec<f64> = at.iter().map(|i| self.weights[*i]).collect();
        let mut effects = vec![0.0; penalties.len()];
        for _ in 0..ROUNDS {
            self.solve(&at, &weights, &penalties, &mut effects);
            for (weight, i) in weights.iter_mut().zip(&at) {
                let off = (self.logs[*i] - self.row_sum(*i, &effects)).abs();
                *weight = self.weights[*i] * (ROBUST / off.max(1e-9)).min(1.0);
            }
        }
        effects.truncate(self.columns.len());
        Fit { effects }
    }

    /// What a fit says of a row of a restaurant that it does not know: the logarithm.
    pub fn told(&self, at: usize, fit: &Fit) -> f64 {
        self.figures[at]
            .iter()
            .map(|(c, x)| x * fit.effects[*c])
            .sum()
    }

    fn row_sum(&self, at: usize, effects: &[f64]) -> f64 {
        let own: f64 = self.figures[at].iter().map(|(c, x)| x * effects[*c]).sum();
        own + effects[self.columns.len() + self.restaurants[at]]
    }

    /// Conjugate gradients on the normal equations, each scaled by its diagonal.
    fn solve(&self, at: &[usize], weights: &[f64], penalties: &[f64], effects: &mut [f64]) {
        let times = |x: &[f64]| -> Vec<f64> {
            let mut y: Vec<f64> = x.iter().zip(penalties).map(|(x, p)| x * p).collect();
            for (i, weight) in at.iter().zip(weights) {
                self.add_row(*i, weight * self.row_sum(*i, x), &mut y);
            }
            y
        };
        let mut diagonal = penalties.to_vec();
        let mut wanted = vec![0.0; penalties.len()];
        for (i, weight) in at.iter().zip(weights) {
            self.add_row(*i, weight * self.logs[*i], &mut wanted);
            for (c, x) in &self.figures[*i] {
                diagonal[*c] += weight * x * x;
            }
            diagonal[self.columns.len() + self.restaurants[*i]] += weight;
        }
        let now = times(effects);
        let mut residual: Vec<f64> = wanted.iter().zip(&now).map(|(a, b)| a - b).collect();
        let scaled =
            |r: &[f64]| -> Vec<f64> { r.iter().zip(&diagonal).map(|(r, d)| r / d).collect() };
        let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
        let mut z = scaled(&residual);
        let mut direction = z.clone();
        let mut rz = dot(&residual, &z);
        for _ in 0..STEPS {
            if rz < 1e-10 {
                break;
            }
            let image = times(&direction);
            let step = rz / dot(&direction, &image);
            for at in 0..effects.len() {
                effects[at] += step * direction[at];
                residual[at] -= step * image[at];
            }
            z = scaled(&residual);
            let next = dot(&residual, &z);
            let keep = next / rz;
            rz = next;
            for (d, z) in direction.iter_mut().zip(&z) {
                *d = z + keep * *d;
            }
        }
    }

    fn add_row(&self, at: usize, times: f64, to: &mut [f64]) {
        for (c, x) in &self.figures[at] {
            to[*c] += x * times;
        }
        to[self.columns.len() + self.restaurants[at]] += times;
    }
}
