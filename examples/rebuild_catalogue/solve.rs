//! What one ingredient must hold, so that the survey's recipes add up.
//!
//! FNDDS lists each food's ingredients in grams and its moisture change; FPED and FNDDS
//! give the finished food's values. For an ingredient that is never published by itself
//! (raw chicken skin, cake flour) the values follow from all recipes that use it: a
//! non-negative least-squares problem per column, solved by cyclic coordinate descent
//! (convex, so the order does not matter) with outliers weighed down (the two releases
//! disagree on a few recipes). Ingredients too faint to be seen are left out.

use crate::usda::{E, Equivalents, N, Nutrients, Usda};
use std::collections::{BTreeMap, HashMap};

/// Rounds of re-weighting against outliers.
const ROUNDS: usize = 6;
/// Coordinate sweeps per round.
const SWEEPS: usize = 120;
/// Sum of squared recipe shares from which an ingredient counts as seen.
const SEEN: f64 = 0.005;
/// A recipe share from which a survey food shows an ingredient by itself.
const ALONE: f64 = 0.999;

pub struct Solved {
    /// Per 100 g, by five-digit staple code.
    pub equivalents: BTreeMap<String, Equivalents>,
    /// Per 100 g, for staples without SR Legacy values.
    pub nutrients: BTreeMap<String, [f64; N]>,
}

struct Equation {
    /// Unknown index and grams of it per gram of finished food.
    terms: Vec<(usize, f64)>,
    food: String,
}

struct System {
    unknowns: Vec<String>,
    equations: Vec<Equation>,
    /// Equations of each unknown.
    uses: Vec<Vec<(usize, f64)>>,
}

pub fn solve(usda: &Usda) -> Solved {
    let system = System::of(usda);
    let seen: Vec<bool> = system
        .uses
        .iter()
        .map(|uses| uses.iter().map(|(_, share)| share * share).sum::<f64>() >= SEEN)
        .collect();
    let mut equivalents: BTreeMap<String, Equivalents> = BTreeMap::new();
    for column in 0..E {
        let known = |food: &str| usda.equivalents.get(food).map(|v| v[column]);
        let values = system.column(usda, &known, &|_| None);
        for (unknown, value) in values.into_iter().enumerate().filter(|(u, _)| seen[*u]) {
            equivalents
                .entry(system.unknowns[unknown].clone())
                .or_insert([0.0; E])[column] = tidy(value);
        }
    }
    let mut nutrients: BTreeMap<String, [f64; N]> = BTreeMap::new();
    for column in 0..N {
        let known = |food: &str| {
            usda.survey_nutrients
                .get(food)
                .and_then(|v: &Nutrients| v[column])
        };
        let fixed = |staple: &str| {
            usda.staples
                .get(staple)
                .and_then(|s| s.nutrients)
                .and_then(|n| n[column])
        };
        let values = system.column(usda, &known, &fixed);
        for (unknown, value) in values.into_iter().enumerate().filter(|(u, _)| seen[*u]) {
            nutrients
                .entry(system.unknowns[unknown].clone())
                .or_insert([0.0; N])[column] = value.max(0.0);
        }
    }
    Solved {
        equivalents,
        nutrients,
    }
}

/// Differences between releases leave dust; below 0.004 per 100 g it is nothing.
fn tidy(value: f64) -> f64 {
    if value < 0.004 { 0.0 } else { value }
}

impl System {
    fn of(usda: &Usda) -> Self {
        let mut index: HashMap<&str, usize> = HashMap::new();
        let mut unknowns = Vec::new();
        let mut equations = Vec::new();
        for (food, recipe) in &usda.recipes {
            if !usda.equivalents.contains_key(food) {
                continue;
            }
            let mixed: f64 = recipe.ingredients.iter().map(|i| i.grams).sum();
            let finished = mixed * (1.0 + recipe.moisture_change_pct / 100.0);
            if finished <= 0.0 {
                continue;
            }
            let mut terms = Vec::new();
            for ingredient in recipe.ingredients.iter().filter(|i| i.code.len() != 8) {
                let unknown = *index.entry(&ingredient.code).or_insert_with(|| {
                    unknowns.push(ingredient.code.clone());
                    unknowns.len() - 1
                });
                terms.push((unknown, ingredient.grams / finished));
            }
            equations.push(Equation {
                terms,
                food: food.clone(),
            });
        }
        let mut uses = vec![Vec::new(); unknowns.len()];
        for (row, equation) in equations.iter().enumerate() {
            for (unknown, share) in &equation.terms {
                uses[*unknown].push((row, *share));
            }
        }
        Self {
            unknowns,
            equations,
            uses,
        }
    }

    /// Solves one column.
    fn column(
        &self,
        usda: &Usda,
        known: &dyn Fn(&str) -> Option<f64>,
        fixed: &dyn Fn(&str) -> Option<f64>,
    ) -> Vec<f64> {
        let held: Vec<Option<f64>> = self
            .unknowns
            .iter()
            .map(|code| fixed(code).or_else(|| self.alone(code, known)))
            .collect();
        let mut x: Vec<f64> = held.iter().map(|h| h.unwrap_or(0.0)).collect();
        let (mut residual, mut weight): (Vec<f64>, Vec<f64>) = self
            .equations
            .iter()
            .map(|equation| match target(usda, &equation.food, known) {
                Some(target) => {
                    let mixed: f64 = equation.terms.iter().map(|(u, s)| s * x[*u]).sum();
                    (target - mixed, 1.0)
                }
                None => (0.0, 0.0),
            })
            .unzip();
        let usable = weight.clone();
        for _ in 0..ROUNDS {
            for _ in 0..SWEEPS {
                self.sweep(&held, &weight, &mut residual, &mut x);
            }
            let spread = median(&residual, &usable).max(1e-3);
            for ((w, r), ok) in weight.iter_mut().zip(&residual).zip(&usable) {
                // Cauchy weights: a recipe that changed between releases fades out.
                *w = ok / (1.0 + (r / (3.0 * spread)).powi(2));
            }
        }
        x
    }

    fn sweep(&self, held: &[Option<f64>], weight: &[f64], residual: &mut [f64], x: &mut [f64]) {
        for (unknown, uses) in self.uses.iter().enumerate() {
            if held[unknown].is_some() {
                continue;
            }
            let (mut slope, mut curve) = (0.0, 1e-9);
            for (row, share) in uses {
                slope += weight[*row] * share * residual[*row];
                curve += weight[*row] * share * share;
            }
            let moved = (x[unknown] + slope / curve).max(0.0) - x[unknown];
            if moved.abs() > 1e-9 {
                x[unknown] += moved;
                for (row, share) in uses {
                    residual[*row] -= moved * share;
                }
            }
        }
    }

    /// The value of a staple that a survey food consists of, all by itself.
    fn alone(&self, code: &str, known: &dyn Fn(&str) -> Option<f64>) -> Option<f64> {
        let unknown = self.unknowns.iter().position(|c| c == code)?;
        let mut values: Vec<f64> = self.uses[unknown]
            .iter()
            .filter(|(row, share)| {
                self.equations[*row].terms.len() == 1 && (*share - 1.0).abs() <= 1.0 - ALONE
            })
            .filter_map(|(row, _)| known(&self.equations[*row].food))
            .collect();
        values.sort_by(f64::total_cmp);
        values.get(values.len() / 2).copied()
    }
}

/// What the staples of a food must add up to: its value less that of survey foods in it.
fn target(usda: &Usda, food: &str, known: &dyn Fn(&str) -> Option<f64>) -> Option<f64> {
    let recipe = &usda.recipes[food];
    let mixed: f64 = recipe.ingredients.iter().map(|i| i.grams).sum();
    let finished = mixed * (1.0 + recipe.moisture_change_pct / 100.0);
    let mut target = known(food)?;
    for ingredient in recipe.ingredients.iter().filter(|i| i.code.len() == 8) {
        target -= known(&ingredient.code)? * ingredient.grams / finished;
    }
    Some(target)
}

fn median(residual: &[f64], usable: &[f64]) -> f64 {
    let mut sizes: Vec<f64> = residual
        .iter()
        .zip(usable)
        .filter(|(r, ok)| **ok > 0.0 && r.abs() > 1e-6)
        .map(|(r, _)| r.abs())
        .collect();
    sizes.sort_by(f64::total_cmp);
    sizes.get(sizes.len() / 2).copied().unwrap_or(0.0)
}
