//! How much the errors on dishes of one kitchen have in common, by what is alike in the dishes:
//! the variances with which the errors of restaurants left out are likeliest (marginal
//! likelihood of a Gaussian process, one for each restaurant).

use crate::judged::LeftOut;
use trencher::weighing::servings::{ALIKE, Traits};

/// A variance of what is alike.
pub struct Variance {
    pub alike: &'static str,
    pub variance: f64,
}

/// What was learned, from how much.
pub struct Likeness {
    pub variances: Vec<Variance>,
    pub items: usize,
    pub restaurants: usize,
}

/// Dishes of a restaurant that are looked at, evenly picked: the cost grows with the cube.
const MOST: usize = 80;
/// Fewest.
const LEAST: usize = 8;
/// Errors beyond this many standard deviations count as this.
const SLIP: f64 = 2.0;
const PARTS: usize = ALIKE.len();

/// Dishes of one restaurant: what each two have in common, and the errors.
struct Group {
    alike: Vec<[f64; PARTS]>,
    errors: Vec<f64>,
}

/// Learns from restaurants left out; `sd` is the spread told of each item.
pub fn learn(list: &[LeftOut], sd: &dyn Fn(&LeftOut) -> f64) -> Likeness {
    let mut names: Vec<&str> = list
        .iter()
        .filter(|i| i.beverage.is_some())
        .map(|i| i.restaurant.as_str())
        .collect();
    names.sort_unstable();
    names.dedup();
    let groups: Vec<Group> = names
        .iter()
        .filter_map(|name| {
            let own: Vec<&LeftOut> = list.iter().filter(|i| i.restaurant == *name).collect();
            let every = own.len().div_ceil(MOST).max(1);
            let own: Vec<&LeftOut> = own.into_iter().step_by(every).collect();
            (own.len() >= LEAST).then(|| group(&own, sd))
        })
        .collect();
    let mut logs = [0.05, 0.15, 0.02, 0.1, 0.35, 0.15, 0.2].map(f64::ln);
    let mut best = evidence(&groups, &logs);
    // Each in turn, in ever smaller steps.
    for step in [0.7, 0.35, 0.15] {
        for _ in 0..2 {
            for at in 0..=PARTS {
                for change in [step, -step] {
                    let mut tried = logs;
                    tried[at] = (tried[at] + change).max(f64::ln(0.005));
                    let found = evidence(&groups, &tried);
                    if found > best {
                        (best, logs) = (found, tried);
                    }
                }
            }
        }
    }
    let names = ALIKE.into_iter().chain(["own"]);
    Likeness {
        variances: names
            .zip(logs)
            .map(|(alike, log)| Variance {
                alike,
                variance: log.exp(),
            })
            .collect(),
        items: groups.iter().map(|g| g.errors.len()).sum(),
        restaurants: groups.len(),
    }
}

fn group(own: &[&LeftOut], sd: &dyn Fn(&LeftOut) -> f64) -> Group {
    let traits: Vec<&Traits> = own.iter().map(|i| &i.traits).collect();
    let pairs = traits
        .iter()
        .flat_map(|a| traits.iter().map(|b| a.alike(b)));
    let error = |i: &&LeftOut| ((i.truth / i.told).ln() / sd(i)).clamp(-SLIP, SLIP);
    Group {
        alike: pairs.collect(),
        errors: own.iter().map(error).collect(),
    }
}

/// The logarithm of how likely the errors are, but for a constant.
fn evidence(groups: &[Group], logs: &[f64; PARTS + 1]) -> f64 {
    let own = logs[PARTS].exp();
    let of = |alike: &[f64; PARTS]| -> f64 {
        alike.iter().zip(logs).map(|(x, log)| x * log.exp()).sum()
    };
    groups
        .iter()
        .map(|group| {
            let count = group.errors.len();
            let mut matrix: Vec<f64> = group.alike.iter().map(of).collect();
            for at in 0..count {
                matrix[at * count + at] += own;
            }
            likelihood(matrix, &group.errors)
        })
        .sum()
}

/// By Cholesky's decomposition.
fn likelihood(mut matrix: Vec<f64>, errors: &[f64]) -> f64 {
    let count = errors.len();
    let mut solved: Vec<f64> = Vec::with_capacity(count);
    let mut log = 0.0;
    for row in 0..count {
        for column in 0..=row {
            let dot: f64 = (0..column)
                .map(|k| matrix[row * count + k] * matrix[column * count + k])
                .sum();
            let left = matrix[row * count + column] - dot;
            matrix[row * count + column] = if row == column {
                left.max(1e-9).sqrt()
            } else {
                left / matrix[column * count + column]
            };
        }
        let dot: f64 = (0..row).map(|k| matrix[row * count + k] * solved[k]).sum();
        let own = matrix[row * count + row];
        solved.push((errors[row] - dot) / own);
        log -= own.ln();
    }
    log - solved.iter().map(|x| x * x).sum::<f64>() / 2.0
}
