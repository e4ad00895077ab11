//! What asking the kitchen would change, and like-for-like swaps.

use super::kitchen_units::KitchenUnit;
use super::model::{self, Row};
use super::plate::{Budget, CapKind, Item, Plate, Unfit};
use super::solve::naming;

/// Part of a sauce that is eaten when it comes on the side (common practice: half stays in
/// the cup).
const ON_THE_SIDE: f64 = 0.5;

/// A component kept at most this far is worth asking for a half of. Own choice.
const HALF_WHEN_KEPT: f64 = 0.75;

/// Swaps shown for one component.
const SWAPS_EACH: usize = 3;

/// What to ask the kitchen for.
#[derive(Debug, Clone, PartialEq)]
pub enum AskWhat {
    /// The sauce on the side; half of it is reckoned to be eaten.
    OnTheSide,
    /// Half of it.
    Half,
    /// The dish without it.
    LeaveOut,
    /// Another food instead.
    Swap {
        /// That food.
        with: String,
        /// How much of it, in kitchen units.
        amount: String,
    },
}

/// One request and what it changes in the dish as served.
#[derive(Debug, Clone, PartialEq)]
pub struct Ask {
    /// The component.
    pub item: String,
    /// The request.
    pub what: AskWhat,
    /// Energy saved, kcal.
    pub kcal_saved: f64,
    /// The cap (or `energy`) that the dish as served passes the most.
    pub worst: String,
    /// How many times its most the dish holds, before.
    pub worst_before: f64,
    /// The same after.
    pub worst_after: f64,
}

/// A food that could stand in for a component.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// Its name.
    pub name: String,
    /// Energy, kcal in a gram.
    pub energy_kcal_per_g: f64,
    /// What a gram holds of each cap's measure, in the order of [`Budget::caps`].
    pub per_gram: Vec<f64>,
    /// How it is served.
    pub unit: KitchenUnit,
}

/// A like-for-like swap: as much of the component's main food group from another food.
#[derive(Debug, Clone, PartialEq)]
pub struct Swap {
    /// The component.
    pub item: String,
    /// The food instead.
    pub with: String,
    /// How much of it, in kitchen units.
    pub amount: String,
    /// The same in grams.
    pub grams: f64,
    /// The group that stays the same.
    pub group: String,
    /// Energy saved against the component as served, kcal.
    pub kcal_saved: f64,
    /// How many times its most the dish holds of what it passes the most, before.
    pub worst_before: f64,
    /// The same after.
    pub worst_after: f64,
}

/// What asking the kitchen would change, largest effect first: by how far the most passed
/// cap comes down, then by energy.
///
/// Only components that the right-sized plate reduces are asked about, each in the way a
/// kitchen would do it: a sauce on the side, half of what is kept to three quarters or
/// less, nothing of what is not kept at all; and the best of its swaps, where it has one.
/// Fails as [`super::fit()`] does on figures that cannot be used.
pub fn asks(
    items: &[Item],
    budget: &Budget,
    plate: &Plate,
    candidates: &[Candidate],
) -> Result<Vec<Ask>, Unfit> {
    model::check(items, budget)?;
    let rows = model::rows(items, budget);
    let served: Vec<f64> = items.iter().map(|i| i.served_grams).collect();
    let (row, before) = worst(&rows, &served);
    let mut all = Vec::new();
    for (at, item) in items.iter().enumerate() {
        let Some(portion) = plate.portions.get(at).filter(|p| p.box_grams > 0.0) else {
            continue;
        };
        let mut push = |what, grams: f64| {
            let mut after = served.clone();
            after[at] = grams;
            all.push(Ask {
                item: item.name.clone(),
                what,
                kcal_saved: item.energy_kcal_per_g * (item.served_grams - grams),
                worst: naming(budget, row).0.to_owned(),
                worst_before: before,
                worst_after: worst(&rows, &after).1,
            });
        };
        if item.sauce {
            push(AskWhat::OnTheSide, item.served_grams * ON_THE_SIDE);
        } else if portion.eat_grams <= 0.0 {
            push(AskWhat::LeaveOut, 0.0);
        } else if portion.eat_grams <= HALF_WHEN_KEPT * item.served_grams {
            push(AskWhat::Half, item.served_grams / 2.0);
        }
        if let Some(swap) = swaps(items, at, candidates, budget)?.into_iter().next() {
            all.push(Ask {
                item: swap.item,
                what: AskWhat::Swap {
                    with: swap.with,
                    amount: swap.amount,
                },
                kcal_saved: swap.kcal_saved,
                worst: naming(budget, row).0.to_owned(),
                worst_before: swap.worst_before,
                worst_after: swap.worst_after,
            });
        }
    }
    all.sort_by(|a, b| {
        let effect = |ask: &Ask| (ask.worst_after * 100.0).round();
        effect(a)
            .total_cmp(&effect(b))
            .then(b.kcal_saved.total_cmp(&a.kcal_saved))
    });
    Ok(all)
}

/// Up to three foods that give as much of the component's main group for less energy and
/// take the dish no further over any cap, best first (by energy saved, then by name).
///
/// Nothing for a component without a food group. Fails as [`super::fit()`] does on figures
/// that cannot be used.
pub fn swaps(
    items: &[Item],
    at: usize,
    candidates: &[Candidate],
    budget: &Budget,
) -> Result<Vec<Swap>, Unfit> {
    model::check(items, budget)?;
    let Some((item, group)) = items
        .get(at)
        .and_then(|i| Some((i, main_group(i, budget)?)))
    else {
        return Ok(Vec::new());
    };
    let rows = model::rows(items, budget);
    let served: Vec<f64> = items.iter().map(|i| i.served_grams).collect();
    let mut all: Vec<Swap> = candidates
        .iter()
        .filter(|c| c.name != item.name && c.per_gram.len() == budget.caps.len())
        .filter(|c| main_of(&c.per_gram, budget) == Some(group))
        .filter_map(|c| swap(items, at, c, group, &rows, &served, budget))
        .collect();
    all.sort_by(|a, b| {
        b.kcal_saved
            .total_cmp(&a.kcal_saved)
            .then_with(|| a.with.cmp(&b.with))
    });
    all.truncate(SWAPS_EACH);
    Ok(all)
}

fn swap(
    items: &[Item],
    at: usize,
    candidate: &Candidate,
    group: usize,
    rows: &[Row],
    served: &[f64],
    budget: &Budget,
) -> Option<Swap> {
    let item = &items[at];
    let wanted = item.per_gram[group] * item.served_grams;
    let step = candidate.unit.step_grams();
    let grams = (wanted / candidate.per_gram[group] / step).round().max(1.0) * step;
    let kcal_saved =
        item.energy_kcal_per_g * item.served_grams - candidate.energy_kcal_per_g * grams;
    // The change, row by row, of the component's grams going and the candidate's coming.
    let (mut before, mut after) = (0.0_f64, 0.0_f64);
    for (index, row) in rows.iter().enumerate() {
        let sum = row.sum(served);
        let per_gram = match index.checked_sub(1) {
            None => candidate.energy_kcal_per_g,
            Some(cap) => candidate.per_gram[cap],
        };
        let changed = sum - row.per_gram[at] * item.served_grams + per_gram * grams;
        if !row.allows(changed) && changed > sum * 1.05 {
            return None;
        }
        if row.firm && row.most > 0.0 {
            before = before.max(sum / row.most);
            after = after.max(changed / row.most);
        }
    }
    (kcal_saved >= 1.0).then(|| Swap {
        item: item.name.clone(),
        with: candidate.name.clone(),
        amount: candidate.unit.say(grams),
        grams,
        group: budget.caps[group].name.clone(),
        kcal_saved,
        worst_before: before,
        worst_after: after,
    })
}

/// The group that a component is counted in most, by its share of the cap.
fn main_group(item: &Item, budget: &Budget) -> Option<usize> {
    main_of(&item.per_gram, budget)
}

fn main_of(per_gram: &[f64], budget: &Budget) -> Option<usize> {
    let share = |at: &usize| per_gram[*at] / budget.caps[*at].most;
    (0..budget.caps.len())
        .filter(|at| budget.caps[*at].kind == CapKind::Group && budget.caps[*at].most > 0.0)
        .filter(|at| per_gram[*at] > 0.0)
        // The first of equal groups, whatever the order of comparison.
        .max_by(|a, b| share(a).total_cmp(&share(b)).then(b.cmp(a)))
}

/// The firm row that is passed the most, and how many times its most.
fn worst(rows: &[Row], grams: &[f64]) -> (usize, f64) {
    let times = |row: &Row| {
        if row.most > 0.0 {
            row.sum(grams) / row.most
        } else {
            0.0
        }
    };
    rows.iter()
        .enumerate()
        .filter(|(_, row)| row.firm)
        .map(|(at, row)| (at, times(row)))
        .fold(
            (0, 0.0),
            |best, next| if next.1 > best.1 { next } else { best },
        )
}
