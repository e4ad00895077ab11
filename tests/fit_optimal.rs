//! The right-sized plate against an independent solver: the documented objective as a
//! mixed-integer linear programme for `microlp` (simplex with branch and bound), and against
//! trying every combination. The program itself uses another crate and another method.

use fastrand::Rng;
use microlp::{ComparisonOp, OptimizationDirection, Problem, SolveOptions};
use trencher::fit::{Budget, Item, KEEP_FIRST, Plate, Unfit, fit};

#[path = "support/random_dishes.rs"]
mod random_dishes;

/// The documented weights, their sum 1.
fn weights(items: &[Item]) -> Vec<f64> {
    let grams: f64 = items.iter().map(|i| i.served_grams).sum();
    let weight = |i: &Item| {
        let base = 0.5 / items.len() as f64 + 0.5 * i.served_grams / grams;
        if i.keep_first {
            base * KEEP_FIRST
        } else {
            base
        }
    };
    let total: f64 = items.iter().map(weight).sum();
    items.iter().map(|i| weight(i) / total).collect()
}

/// The documented objective at these grams.
fn objective(items: &[Item], grams: &[f64]) -> f64 {
    let left = |(i, g): (&Item, &f64)| 1.0 - g / i.served_grams;
    let squares = items.iter().zip(grams).map(left).map(|left| left * left);
    weights(items).iter().zip(squares).map(|(w, s)| w * s).sum()
}

/// The servable parts of what was served, 0 to 1.
fn levels(item: &Item) -> Vec<f64> {
    let step = item.unit.grams_each * item.unit.step / item.served_grams;
    let mut all: Vec<f64> = (0..100_000)
        .map(|k| f64::from(k) * step)
        .take_while(|part| *part < 1.0 - 1e-6)
        .collect();
    // Less than half a step is not left over.
    if all.len() > 1 && 1.0 - all[all.len() - 1] < step / 2.0 {
        all.pop();
    }
    all.push(1.0);
    all
}

/// Energy and every cap as `sum of coefficient x part <= 1`.
fn rows(items: &[Item], budget: &Budget) -> Vec<Vec<f64>> {
    let energy = items
        .iter()
        .map(|i| i.energy_kcal_per_g * i.served_grams / budget.energy_kcal);
    let mut rows = vec![energy.collect::<Vec<f64>>()];
    for (at, cap) in budget.caps.iter().enumerate() {
        rows.push(
            items
                .iter()
                .map(|i| i.per_gram[at] * i.served_grams / cap.most)
                .collect(),
        );
    }
    rows
}

/// The least objective over servable amounts, proven within a thousandth.
///
/// One variable a step between 0 and 1, cheaper from step to step, and their number an
/// integer; the last, shorter step is a choice of its own, only after all others.
fn independent(items: &[Item], budget: &Budget) -> f64 {
    let mut problem = Problem::new(OptimizationDirection::Minimize);
    // The cost of eating nothing is 1: with it the solver's gap is one of the objective.
    problem.add_var(1.0, (1.0, 1.0));
    let mut terms = vec![Vec::new(); budget.caps.len() + 1];
    let rows = rows(items, budget);
    for (at, (item, weight)) in items.iter().zip(weights(items)).enumerate() {
        let levels = levels(item);
        let saved = |from: f64, to: f64| weight * ((1.0 - to).powi(2) - (1.0 - from).powi(2));
        let steps: Vec<(f64, f64)> = levels.windows(2).map(|w| (w[0], w[1])).collect();
        let (last, whole) = steps.split_last().expect("something was served");
        let count = problem.add_integer_var(0.0, (0, i32::try_from(whole.len()).unwrap()));
        let mut sum = vec![(count, -1.0)];
        let mut add = |variable, from: f64, to: f64| {
            for (row, terms) in rows.iter().zip(&mut terms) {
                terms.push((variable, row[at] * (to - from)));
            }
        };
        for (from, to) in whole {
            let step = problem.add_var(saved(*from, *to), (0.0, 1.0));
            sum.push((step, 1.0));
            add(step, *from, *to);
        }
        let rest = problem.add_binary_var(saved(last.0, last.1));
        add(rest, last.0, last.1);
        if let Some((step, _)) = sum.get(whole.len()).filter(|_| !whole.is_empty()) {
            problem.add_constraint([(rest, 1.0), (*step, -1.0)], ComparisonOp::Le, 0.0);
        }
        problem.add_constraint(sum, ComparisonOp::Eq, 0.0);
    }
    for terms in terms {
        problem.add_constraint(terms, ComparisonOp::Le, 1.0);
    }
    let mut options = SolveOptions::default();
    options.mip_gap = 0.001;
    let outcome = problem
        .solve_with(options)
        .expect("eating nothing is possible");
    outcome
        .into_solution()
        .expect("no limit was set")
        .objective()
}

/// The objective of the plate, and that it keeps every firm cap and every step.
fn checked(items: &[Item], budget: &Budget, plate: &Plate) -> f64 {
    let grams: Vec<f64> = plate.portions.iter().map(|p| p.eat_grams).collect();
    for row in rows(items, budget) {
        let sum: f64 = row
            .iter()
            .zip(items)
            .zip(&grams)
            .map(|((c, i), g)| c * g / i.served_grams)
            .sum();
        assert!(sum <= 1.0 + 1e-6, "a cap is passed: {sum}");
    }
    for (item, g) in items.iter().zip(&grams) {
        let part = g / item.served_grams;
        let servable = levels(item).iter().any(|l| (l - part).abs() < 1e-9);
        assert!(servable, "{part} of {} cannot be served", item.name);
    }
    objective(items, &grams)
}

/// Every combination of servable amounts.
fn exhaustive(items: &[Item], budget: &Budget) -> f64 {
    let levels: Vec<Vec<f64>> = items.iter().map(levels).collect();
    let rows = rows(items, budget);
    let mut best = f64::INFINITY;
    let mut at = vec![0; items.len()];
    loop {
        let parts: Vec<f64> = at.iter().zip(&levels).map(|(k, l)| l[*k]).collect();
        let sum = |r: &Vec<f64>| r.iter().zip(&parts).map(|(c, x)| c * x).sum::<f64>();
        if rows.iter().all(|r| sum(r) <= 1.0 + 1e-6) {
            let grams: Vec<f64> = parts
                .iter()
                .zip(items)
                .map(|(x, i)| x * i.served_grams)
                .collect();
            best = best.min(objective(items, &grams));
        }
        let Some(next) = (0..at.len()).find(|i| at[*i] + 1 < levels[*i].len()) else {
            break;
        };
        at[next] += 1;
        at[..next].fill(0);
    }
    best
}

fn near(found: f64, least: f64, what: &str) {
    let off = (found - least).abs();
    assert!(
        off <= 0.01 * least + 1e-6,
        "{what}: {found} where {least} is the least"
    );
}

#[test]
fn a_hundred_plates_are_as_good_as_the_best_of_all_combinations() {
    let mut rng = Rng::with_seed(20_251);
    let mut reduced = 0;
    for seed in 0..100 {
        let items = random_dishes::dish(&mut rng, 2 + seed % 3);
        let budget = random_dishes::budget(0.5 + rng.f64(), true);
        let least = exhaustive(&items, &budget);
        match fit(&items, &budget) {
            Ok(plate) => near(
                checked(&items, &budget, &plate),
                least,
                &format!("dish {seed}"),
            ),
            Err(Unfit::Nothing { .. }) => near(1.0, least, &format!("dish {seed}")),
            Err(other) => panic!("dish {seed}: {other}"),
        }
        reduced += usize::from(least > 0.0);
    }
    assert!(reduced > 50, "only {reduced} dishes had anything to reduce");
}

/// The budget without its soft caps and the dish to go with it; the soft rule has tests of
/// its own.
fn firm(items: Vec<Item>, budget: &Budget) -> (Vec<Item>, Budget) {
    let kept: Vec<bool> = budget.caps.iter().map(|c| c.firm).collect();
    let mut firm = budget.clone();
    firm.caps.retain(|c| c.firm);
    let only = |mut item: Item| {
        let mut kept = kept.iter();
        item.per_gram.retain(|_| *kept.next().unwrap());
        item
    };
    (items.into_iter().map(only).collect(), firm)
}

fn against_the_independent_solver(seed: u64, dishes: usize, components: impl Fn(usize) -> usize) {
    let mut rng = Rng::with_seed(seed);
    for at in 0..dishes {
        let items = random_dishes::dish(&mut rng, components(at));
        let budget = random_dishes::budget(0.7 + 1.3 * rng.f64(), at % 2 == 0);
        let (items, budget) = firm(items, &budget);
        let plate = fit(&items, &budget).unwrap_or_else(|e| panic!("dish {at}: {e}"));
        let found = checked(&items, &budget, &plate);
        near(found, independent(&items, &budget), &format!("dish {at}"));
    }
}

#[test]
fn two_hundred_plates_are_as_good_as_an_independent_solver_finds() {
    against_the_independent_solver(7, 220, |at| 4 + at % 7);
}

#[test]
fn large_dishes_too() {
    against_the_independent_solver(8, 15, |_| 12);
}

#[test]
fn twenty_components_too_even_where_the_search_is_cut_short() {
    against_the_independent_solver(9, 8, |_| 20);
}

/// `cargo test --release --test fit_optimal -- --ignored --nocapture` counts the searches that
/// the branch limit cut short.
#[test]
#[ignore = "for measuring, not for checking"]
fn how_often_the_search_is_cut_short() {
    for components in [12, 20] {
        let mut rng = Rng::with_seed(9);
        let (mut cut, mut worst, mut searched) = (0, 0.0_f64, 0);
        for at in 0..400 {
            let items = random_dishes::dish(&mut rng, components);
            let budget = random_dishes::budget(0.7 + 1.3 * rng.f64(), at % 2 == 0);
            let (items, budget) = firm(items, &budget);
            if let Ok(plate) = fit(&items, &budget) {
                searched += 1;
                cut += usize::from(plate.gap > trencher::fit::GAP + 1e-9);
                worst = worst.max(plate.gap);
            }
        }
        println!("{components} components: {cut} of {searched} cut short, largest gap {worst:.4}");
    }
}
