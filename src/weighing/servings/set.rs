//! Setting what nobody sized so that a plate comes to what such servings hold.

use super::effects::served_energy;
use super::features::Parts;
use super::said::{Said, ServingText};
use crate::matching::Catalogue;
use crate::quantity::{Estimate, Shared, sum};
use crate::reading::Measure;
use crate::weighing::component::{WeighedComponent, energy, kcal_per_g};
use crate::weighing::weigh::Basis;

/// The furthest that what nobody sized is moved, as a factor: beyond it the words speak of
/// something else than the parts (own choice).
const FURTHEST: f64 = 5.0;
/// The same of spreads.
const WIDEST: f64 = 8.0;
/// Least share of what nobody sized that is left beside what was said (own choice).
const LEAST_LEFT: f64 = 0.3;

/// Sets the components that nobody sized so that the whole holds the energy of such servings
/// and is as sure as that. What was weighed, measured or counted stays.
pub fn set_to_serving(list: &mut [WeighedComponent], text: ServingText<'_>, catalogue: &Catalogue) {
    let said = Said::read(text);
    let all = energy(list, catalogue).mean;
    let grams = list.iter().filter_map(|c| Some(c.grams()?.mean)).sum();
    let parts = (all > 0.0).then_some(Parts { kcal: all, grams });
    let Some(serving) = served_energy(&said, parts) else {
        return;
    };
    let open: Vec<usize> = (0..list.len()).filter(|at| is_open(&list[*at])).collect();
    let before = energy_of(list, &open, catalogue);
    if before.mean <= 0.0 {
        return;
    }
    let share = before.mean / all;
    let left = (serving.mean - (all - before.mean)).max(LEAST_LEFT * before.mean);
    // The more of the whole was said, the less its sort tells of the rest.
    let factor = (left / before.mean)
        .powf(share)
        .clamp(1.0 / FURTHEST, FURTHEST);
    let wanted = before.log_sd + share * (serving.log_sd - before.log_sd);
    for at in &open {
        let told = format!(
            "x {factor:.2}, as restaurants print of such servings ({}, {} known)",
            said.kind.name,
            said.known().word()
        );
        list[*at].change(told, |grams| grams.times(factor).sharing(Shared::Kitchen));
    }
    let widened = widening(list, &open, wanted, catalogue);
    for at in &open {
        if let Ok(weight) = &mut list[*at].weight {
            weight.grams.log_sd *= widened;
        }
    }
}

/// Whether nobody sized it, or only by a size word: `large fries`.
fn is_open(c: &WeighedComponent) -> bool {
    let sized = || {
        let measure = c.matched.line.amount.as_ref().map(|a| &a.measure);
        matches!(
            measure,
            Some(Measure::Count {
                unit: None,
                size: Some(_),
                inches: None,
            })
        )
    };
    match c.basis() {
        Some(Basis::Typical | Basis::Hidden) => true,
        Some(Basis::Counted) => sized(),
        _ => false,
    }
}

fn energy_of(list: &[WeighedComponent], open: &[usize], catalogue: &Catalogue) -> Estimate {
    widened_energy(list, open, 1.0, catalogue)
}

/// The energy of some components with their spreads `times` as wide.
fn widened_energy(
    list: &[WeighedComponent],
    open: &[usize],
    times: f64,
    catalogue: &Catalogue,
) -> Estimate {
    sum(open.iter().filter_map(|at| {
        let mut c = list[*at].clone();
        let kcal = kcal_per_g(&c, catalogue)?;
        if let Ok(weight) = &mut c.weight {
            weight.grams.log_sd *= times;
        }
        Some((c.term()?, kcal))
    }))
}

/// How much wider the spreads of components must be for their energy to have this spread.
fn widening(list: &[WeighedComponent], open: &[usize], log_sd: f64, catalogue: &Catalogue) -> f64 {
    let (mut low, mut high) = (1.0 / WIDEST, WIDEST);
    for _ in 0..20 {
        let middle = f64::midpoint(low, high);
        if widened_energy(list, open, middle, catalogue).log_sd > log_sd {
            high = middle;
        } else {
            low = middle;
        }
    }
    f64::midpoint(low, high)
}
