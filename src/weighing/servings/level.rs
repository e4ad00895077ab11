//! How a kitchen serves beside others: learned from what is known of some of its dishes, for
//! the rest of its menu.
//!
//! Chains differ in what they serve under one name. What a kitchen prints, or what was weighed
//! there, tells how far it lies from what is estimated; the more alike two dishes are (kind,
//! words, section, size), the more one tells of the other. It is a Gaussian process over the
//! errors, each in standard deviations of its own range, so that few dishes move little and a
//! dish unlike any that is known is left as it was. How much dishes of one kitchen have in
//! common was measured on restaurants left out of the fit (`serving_likeness.csv`).

use super::said::{Said, ServingText};
use crate::memo::TextHasher;
use crate::quantity::Estimate;
use crate::words::rows;
use serde::Deserialize;
use std::collections::HashSet;
use std::hash::Hasher;
use std::sync::LazyLock;

/// Dishes of one kitchen that are learned from at most: more narrow nothing further.
pub(crate) const MOST_DISHES: usize = 192;
/// Errors beyond this many standard deviations are slips (a figure per piece, for a family) and
/// count as this (own choice).
const SLIP: f64 = 2.0;
/// How many dishes the usual size of errors counts for beside those of the kitchen: where
/// several kitchens stand in one menu its errors are as large as ever, and no range narrows.
const USUAL_ERRORS: f64 = 10.0;
/// Least spread that errors are told in, standard deviation of the logarithm: nothing on a plate
/// is known more closely than that (own choice).
const LEAST_SPREAD: f64 = 0.1;
/// Further doubt of a dish that was weighed and not analysed, in standard deviations: what it
/// holds to the gram is as uncertain as before (own choice).
const WEIGHED: f64 = 0.5;

#[derive(Debug, Deserialize)]
struct Row {
    alike: String,
    variance: f64,
}

/// What two dishes of one kitchen may have in common.
pub const ALIKE: [&str; 6] = [
    "kitchen",
    "food or drink",
    "family of kinds",
    "kind",
    "words",
    "section",
];
/// What they have in common with none.
const OWN: &str = "own";
/// The most that a range may widen: a kitchen whose figures are all over the place.
const MOST_LEFT: f64 = 1.3;

/// Share of the variance of errors that dishes of one kitchen have in common, in the order of
/// [`ALIKE`], and the share of their own.
struct Likeness {
    common: [f64; ALIKE.len()],
    own: f64,
}

static LIKENESS: LazyLock<Likeness> = LazyLock::new(|| {
    let table: Vec<Row> = rows(include_str!("../tables/serving_likeness.csv"));
    let of = |alike: &str| {
        let row = table.iter().find(|row| row.alike == alike);
        row.map_or(0.0, |row| row.variance)
    };
    Likeness {
        common: ALIKE.map(of),
        own: of(OWN),
    }
});

/// What of a dish's words makes it like another.
#[derive(Debug, Clone, PartialEq)]
pub struct Traits {
    /// Kinds from the outermost in.
    kinds: Vec<&'static str>,
    /// Hashes of the words, sorted: many dishes are compared with each other.
    words: Vec<u64>,
    section: Vec<u64>,
}

impl Traits {
    /// Those of a dish whose words are read.
    #[must_use]
    pub fn of(said: Said) -> Self {
        let Said {
            kind,
            name,
            section,
            ..
        } = said;
        let mut kinds: Vec<&'static str> = kind.within().map(|kind| kind.name.as_str()).collect();
        kinds.reverse();
        let mut words = hashes(&name);
        words.sort_unstable();
        words.dedup();
        Self {
            kinds,
            words,
            section: hashes(&section),
        }
    }

    /// What two dishes have in common, in the order of [`ALIKE`].
    #[must_use]
    pub fn alike(&self, other: &Self) -> [f64; ALIKE.len()] {
        let within = |depth: usize| {
            let kind = |traits: &Self| traits.kinds.get(depth).copied();
            f64::from(kind(self).is_some() && kind(self) == kind(other))
        };
        let kind = f64::from(self.kinds == other.kinds);
        let section = !self.section.is_empty() && self.section == other.section;
        [
            1.0,
            within(1),
            within(2),
            kind,
            overlap(&self.words, &other.words),
            f64::from(section),
        ]
    }

    /// Share of the variance of errors that two dishes have in common.
    fn in_common(&self, other: &Self) -> f64 {
        let alike = self.alike(other);
        alike.iter().zip(&LIKENESS.common).map(|(a, b)| a * b).sum()
    }
}

fn hashes(words: &[String]) -> Vec<u64> {
    let hash = |word: &String| {
        let mut hasher = TextHasher::default();
        hasher.write(word.as_bytes());
        hasher.finish()
    };
    words.iter().map(hash).collect()
}

/// Words that two sorted lists share, over the geometric mean of their lengths.
fn overlap(a: &[u64], b: &[u64]) -> f64 {
    if a.is_empty() || b.is_empty() {
        return 0.0;
    }
    let both = a.iter().filter(|word| b.contains(word)).count();
    both as f64 / ((a.len() * b.len()) as f64).sqrt()
}

/// A dish of a kitchen of which somebody says what it holds or weighs.
#[derive(Debug, Clone)]
pub struct KnownDish {
    traits: Traits,
    /// The same for the same words.
    key: u64,
    /// How far what is known lies from what is told, in standard deviations of that.
    error: f64,
    /// Further doubt about it, in those.
    doubt: f64,
}

impl KnownDish {
    /// A dish whose energy is printed, both in kcal. `None` where either says nothing.
    #[must_use]
    pub fn printed(text: ServingText<'_>, told: Estimate, kcal: f64) -> Option<Self> {
        Self::new(text, told, kcal, 0.0)
    }

    /// A dish that was weighed, both in g. `None` where either says nothing.
    #[must_use]
    pub fn weighed(text: ServingText<'_>, told: Estimate, grams: f64) -> Option<Self> {
        Self::new(text, told, grams, WEIGHED)
    }

    fn new(text: ServingText<'_>, told: Estimate, truth: f64, doubt: f64) -> Option<Self> {
        if told.mean <= 0.0 || truth <= 0.0 || told.is_exact() {
            return None;
        }
        let off = (truth / told.mean).ln() / told.log_sd.max(LEAST_SPREAD);
        Some(Self {
            traits: Traits::of(Said::read(text)),
            key: key(text),
            error: off.clamp(-SLIP, SLIP),
            doubt,
        })
    }
}

/// The same for the same words.
fn key(text: ServingText<'_>) -> u64 {
    let mut hasher = TextHasher::default();
    for part in [text.name, text.section, text.description] {
        hasher.write(part.trim().to_lowercase().as_bytes());
        hasher.write_u8(0);
    }
    hasher.finish()
}

/// How a kitchen serves a dish beside others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Level {
    /// By how many standard deviations of its range a dish holds more than is told.
    pub moved: f64,
    /// The spread that is left, as a factor.
    pub left: f64,
    /// Dishes of the kitchen that are known.
    pub dishes: usize,
}

impl Level {
    /// What is told of a dish, as this kitchen serves it.
    #[must_use]
    pub fn of(self, told: Estimate) -> Estimate {
        let factor = (self.moved * told.log_sd).exp();
        let moved = told.times(factor);
        Estimate {
            log_sd: told.log_sd * self.left,
            ..moved
        }
    }
}

/// What is known of a kitchen.
#[derive(Debug, Clone)]
pub struct Kitchen {
    dishes: Vec<KnownDish>,
    /// Inverse of the variances of their errors, row by row.
    inverse: Vec<f64>,
    /// It times the errors.
    pulls: Vec<f64>,
    /// How large the errors are beside those of other kitchens, squared.
    size: f64,
}

impl Kitchen {
    /// Learns from dishes, of several with the same words the first; from an even pick where
    /// there are more than [`MOST_DISHES`]. `None` when there is none.
    #[must_use]
    pub fn learn(mut dishes: Vec<KnownDish>) -> Option<Self> {
        let mut seen = HashSet::new();
        dishes.retain(|dish| seen.insert(dish.key));
        let every = dishes.len().div_ceil(MOST_DISHES).max(1);
        let dishes: Vec<KnownDish> = dishes.into_iter().step_by(every).collect();
        let count = dishes.len();
        let mut variances = Vec::with_capacity(count * count);
        for (at, a) in dishes.iter().enumerate() {
            for (other, b) in dishes.iter().enumerate() {
                let own = if at == other {
                    LIKENESS.own + a.doubt * a.doubt
                } else {
                    0.0
                };
                variances.push(a.traits.in_common(&b.traits) + own);
            }
        }
        let inverse = inverse(variances, count).filter(|_| count > 0)?;
        let errors: Vec<f64> = dishes.iter().map(|dish| dish.error).collect();
        let pulls: Vec<f64> = inverse.chunks(count).map(|row| dot(row, &errors)).collect();
        let errors = dot(&errors, &pulls);
        let size = (USUAL_ERRORS + errors) / (USUAL_ERRORS + count as f64);
        Some(Self {
            dishes,
            inverse,
            pulls,
            size,
        })
    }

    /// Dishes that it was learned from.
    #[must_use]
    pub fn dishes(&self) -> usize {
        self.dishes.len()
    }

    /// How it serves a dish: by what is known of all others, for a figure is no witness for
    /// itself. `None` when no other is known.
    #[must_use]
    pub fn level(&self, text: ServingText<'_>) -> Option<Level> {
        let own = key(text);
        let traits = Traits::of(Said::read(text));
        let count = self.dishes.len();
        let itself = self.dishes.iter().position(|dish| dish.key == own);
        let known = count - usize::from(itself.is_some());
        if known == 0 {
            return None;
        }
        let common: Vec<f64> = self
            .dishes
            .iter()
            .map(|dish| traits.in_common(&dish.traits))
            .collect();
        let row = |at: usize| &self.inverse[at * count..(at + 1) * count];
        let mut moved = dot(&self.pulls, &common);
        let mut told: f64 = (0..count)
            .map(|at| common[at] * dot(row(at), &common))
            .sum();
        if let Some(at) = itself {
            // Leaving one out of an inverse is a step of elimination.
            let through = dot(row(at), &common);
            moved -= through * self.pulls[at] / row(at)[at];
            told -= through * through / row(at)[at];
        }
        let all = traits.in_common(&traits) + LIKENESS.own;
        let left = ((all - told) / all).clamp(0.0, 1.0) * self.size;
        Some(Level {
            moved,
            left: left.sqrt().min(MOST_LEFT),
            dishes: known,
        })
    }
}

/// The sum of products, in several sums side by side: one after the other each waits for the last.
fn dot(row: &[f64], other: &[f64]) -> f64 {
    const SIDE_BY_SIDE: usize = 8;
    let (row, row_rest) = row.as_chunks::<SIDE_BY_SIDE>();
    let (other, other_rest) = other.as_chunks::<SIDE_BY_SIDE>();
    let mut sums = [0.0; SIDE_BY_SIDE];
    for (a, b) in row.iter().zip(other) {
        for (sum, (a, b)) in sums.iter_mut().zip(a.iter().zip(b)) {
            *sum += a * b;
        }
    }
    let rest: f64 = row_rest.iter().zip(other_rest).map(|(a, b)| a * b).sum();
    sums.iter().sum::<f64>() + rest
}

/// The inverse of a symmetric matrix, row by row; `None` where it has none. By Gauss and Jordan,
/// without pivots, for variances are positive.
fn inverse(mut matrix: Vec<f64>, count: usize) -> Option<Vec<f64>> {
    for pivot in 0..count {
        let own = matrix[pivot * count + pivot];
        if own <= f64::EPSILON {
            return None;
        }
        let row: Vec<f64> = matrix[pivot * count..(pivot + 1) * count].to_vec();
        for at in (0..count).filter(|at| *at != pivot) {
            let times = matrix[at * count + pivot] / own;
            for (cell, of_row) in matrix[at * count..(at + 1) * count].iter_mut().zip(&row) {
                *cell -= times * of_row;
            }
            matrix[at * count + pivot] = -times;
        }
        for cell in &mut matrix[pivot * count..(pivot + 1) * count] {
            *cell /= own;
        }
        matrix[pivot * count + pivot] = 1.0 / own;
    }
    Some(matrix)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(name: &str) -> ServingText<'_> {
        ServingText {
            name,
            ..ServingText::default()
        }
    }

    fn dish(name: &str, kcal: f64) -> KnownDish {
        KnownDish::printed(text(name), Estimate::new(500.0, 0.6), kcal).expect("both are known")
    }

    #[test]
    fn an_inverse_times_its_matrix_is_one() {
        let matrix = vec![2.0, 0.5, 0.1, 0.5, 1.5, 0.3, 0.1, 0.3, 1.0];
        let found = inverse(matrix.clone(), 3).expect("has one");
        for i in 0..3 {
            for j in 0..3 {
                let sum: f64 = (0..3).map(|k| matrix[i * 3 + k] * found[k * 3 + j]).sum();
                assert!((sum - f64::from(i == j)).abs() < 1e-12);
            }
        }
    }

    #[test]
    fn a_generous_kitchen_is_generous_with_the_rest_and_most_with_what_is_alike() {
        let known = [
            "Bacon burger",
            "Cheeseburger",
            "Turkey burger",
            "Veggie burger",
        ];
        let kitchen = Kitchen::learn(known.map(|name| dish(name, 900.0)).to_vec()).expect("learns");
        let level = |name: &str| kitchen.level(text(name)).expect("others are known");
        let (burger, cake) = (level("Mushroom burger"), level("Chocolate cake"));
        assert!(
            burger.moved > cake.moved && cake.moved > 0.0,
            "{burger:?} {cake:?}"
        );
        assert!(
            burger.left < cake.left && cake.left < 1.0,
            "{burger:?} {cake:?}"
        );
        let told = Estimate::new(500.0, 0.6);
        let moved = burger.of(told);
        assert!(moved.mean > 550.0 && moved.mean < 900.0, "{moved:?}");
    }

    #[test]
    fn nothing_known_nothing_said() {
        assert!(Kitchen::learn(Vec::new()).is_none());
        assert!(KnownDish::printed(text("Soup"), Estimate::exact(0.0), 100.0).is_none());
        let alone = Kitchen::learn(vec![dish("Soup", 900.0)]).expect("learns");
        assert_eq!(alone.level(text("soup ")), None);
    }

    /// Leaving a dish out of what was learned is the same as never having learned it.
    #[test]
    fn a_figure_is_no_witness_for_itself() {
        let all = [
            ("Soup", 300.0),
            ("Chili", 800.0),
            ("Bean soup", 700.0),
            ("Salad", 450.0),
        ];
        let list: Vec<KnownDish> = all.iter().map(|(name, kcal)| dish(name, *kcal)).collect();
        let kitchen = Kitchen::learn(list.clone()).expect("learns");
        for (at, (name, _)) in all.iter().enumerate() {
            let mut others = list.clone();
            others.remove(at);
            let without = Kitchen::learn(others).expect("learns");
            let (a, b) = (kitchen.level(text(name)), without.level(text(name)));
            let (a, b) = (a.expect("known"), b.expect("known"));
            assert!((a.moved - b.moved).abs() < 1e-9, "{name}: {a:?} {b:?}");
            assert_eq!(a.dishes, b.dishes);
        }
    }

    /// A menu of several kitchens, generous and thrifty ones, narrows nothing.
    #[test]
    fn where_dishes_tell_nothing_ranges_stay() {
        let foods = [
            "burger", "salad", "soup", "pizza", "wings", "cake", "taco", "wrap",
        ];
        let mut list = Vec::new();
        for (at, food) in foods.iter().enumerate() {
            for (turn, sort) in ["red", "green", "white"].iter().enumerate() {
                let kcal = if (at + turn) % 2 == 0 { 950.0 } else { 260.0 };
                list.push(dish(&format!("{sort} {food}"), kcal));
            }
        }
        let kitchen = Kitchen::learn(list).expect("learns");
        let level = kitchen
            .level(text("yellow burger"))
            .expect("others are known");
        assert!(level.left > 0.9, "{level:?}");
        assert!(level.moved.abs() < 0.4, "{level:?}");
    }
}
