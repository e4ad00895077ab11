//! What asking the kitchen would change, and like-for-like swaps.

use super::kitchen_units::KitchenUnit;
use super::model::{self, Row};
use super::plate::naming;
use super::plate::{Budget, CapKind, Item, Unfit};

/// Part of a sauce that is eaten when it comes on the side (common practice: half stays in
/// the cup).
const ON_THE_SIDE: f64 = 0.5;

/// A component kept at most this far is worth asking for a half of. Own choice.
const HALF_WHEN_KEPT: f64 = 0.75;

/// A request must save this much energy, or as much of an overrun, to be worth a word: kcal,
/// and part of a cap. Own choice.
const WORTH_KCAL: f64 = 25.0;
const WORTH_PART: f64 = 0.05;

/// Requests about one component.
const ASKS_EACH: usize = 2;

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

/// What a request lowers of the cap that it helps the most.
#[derive(Debug, Clone, PartialEq)]
pub struct Helps {
    /// The cap, or `energy`.
    pub name: String,
    /// Unit of the figures.
    pub unit: String,
    /// In the dish as served.
    pub before: f64,
    /// With the request.
    pub after: f64,
    /// The most.
    pub most: f64,
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
    /// What it helps the most; nothing when no cap is passed that it lowers.
    pub helps: Option<Helps>,
    /// By how much the dish passes its firm caps and its energy, as parts of each, added up:
    /// as served.
    pub over_before: f64,
    /// The same with the request.
    pub over_after: f64,
}

/// A food that could stand in for a component.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Candidate {
    /// Its name.
    pub name: String,
    /// Energy, kcal in a gram.
    pub energy_kcal_per_g: f64,
    /// What a gram holds of each cap's measure, in the order of [`Budget::caps`].
    pub per_gram: Vec<f64>,
    /// How it is served.
    pub unit: KitchenUnit,
    /// Grams a kitchen would serve of it; without them as much as gives the same amount of
    /// the component's main food group.
    pub grams: Option<f64>,
}

/// What is known of a component for asking about it.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Asked {
    /// The part of it that the right-sized plate keeps, 0 to 1.
    pub kept: f64,
    /// A kitchen can leave it off and the dish is still the dish: bacon, cheese, butter.
    pub topping: bool,
    /// What could stand in for it.
    pub candidates: Vec<Candidate>,
}

/// A like-for-like swap: as much of the component's main food group from another food.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Swap {
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
}

/// What asking the kitchen would change, largest effect first: by how far the dish comes
/// back within what it passes, then by energy.
///
/// Only components that the right-sized plate reduces are asked about (`asked` tells, one for
/// each item), each in the way a kitchen would do it: a sauce on the side, no topping, half
/// of what is kept to three quarters or less, nothing of what is not kept at all, another
/// food instead. At most two requests for one component. Fails as [`super::fit()`] does on
/// figures that cannot be used.
pub(crate) fn asks(items: &[Item], budget: &Budget, asked: &[Asked]) -> Result<Vec<Ask>, Unfit> {
    model::check(items, budget)?;
    let dish = Dish::of(items, budget);
    let mut all: Vec<Ask> = Vec::new();
    for (at, asked) in asked.iter().enumerate().take(items.len()) {
        if asked.kept < 1.0 - 1e-9 {
            let mut own = dish.about(at, asked);
            rank(&mut own);
            own.truncate(ASKS_EACH);
            all.append(&mut own);
        }
    }
    rank(&mut all);
    Ok(all)
}

fn rank(asks: &mut [Ask]) {
    let left = |ask: &Ask| (ask.over_after * 100.0).round();
    asks.sort_by(|a, b| {
        left(a)
            .total_cmp(&left(b))
            .then(b.kcal_saved.total_cmp(&a.kcal_saved))
    });
}

/// The dish as served, and what it holds.
struct Dish<'d> {
    items: &'d [Item],
    budget: &'d Budget,
    rows: Vec<Row>,
    sums: Vec<f64>,
}

impl<'d> Dish<'d> {
    fn of(items: &'d [Item], budget: &'d Budget) -> Self {
        let rows = model::rows(items, budget);
        let served: Vec<f64> = items.iter().map(|i| i.served_grams).collect();
        Self {
            items,
            budget,
            sums: rows.iter().map(|row| row.sum(&served)).collect(),
            rows,
        }
    }

    fn about(&self, at: usize, asked: &Asked) -> Vec<Ask> {
        let item = &self.items[at];
        let mut all = Vec::new();
        if item.sauce {
            all.push(self.ask(at, AskWhat::OnTheSide, ON_THE_SIDE, None));
        } else if asked.topping || asked.kept <= 0.0 {
            all.push(self.ask(at, AskWhat::LeaveOut, 0.0, None));
        } else if asked.kept <= HALF_WHEN_KEPT {
            all.push(self.ask(at, AskWhat::Half, 0.5, None));
        }
        let swaps = asked.candidates.iter();
        let swaps = swaps.filter_map(|candidate| self.swapped(at, candidate));
        all.extend(swaps.min_by(|a, b| a.over_after.total_cmp(&b.over_after)));
        all.retain(|ask| {
            let lowers = ask.over_before - ask.over_after;
            // What only moves the trouble elsewhere is no help.
            lowers > -1e-9 && (ask.kcal_saved >= WORTH_KCAL || lowers >= WORTH_PART)
        });
        all
    }

    fn swapped(&self, at: usize, candidate: &Candidate) -> Option<Ask> {
        let grams = self.grams_instead(at, candidate)?;
        let what = AskWhat::Swap {
            with: candidate.name.clone(),
            amount: candidate.unit.say(grams),
        };
        Some(self.ask(at, what, 0.0, Some((candidate, grams))))
    }

    /// As served by the kitchen, or as much as gives the same of the main group.
    fn grams_instead(&self, at: usize, candidate: &Candidate) -> Option<f64> {
        if candidate.grams.is_some() {
            return candidate.grams;
        }
        let group = main_of(&self.items[at].per_gram, self.budget)?;
        if main_of(&candidate.per_gram, self.budget) != Some(group) {
            return None;
        }
        let wanted = self.items[at].per_gram[group] * self.items[at].served_grams;
        let step = candidate.unit.step_grams();
        Some((wanted / candidate.per_gram[group] / step).round().max(1.0) * step)
    }

    /// The ask that leaves this part of an item, with something else in its place.
    fn ask(&self, at: usize, what: AskWhat, part: f64, instead: Option<(&Candidate, f64)>) -> Ask {
        let item = &self.items[at];
        let goes = item.served_grams * (1.0 - part);
        let comes = |row: usize| {
            instead.map_or(0.0, |(candidate, grams)| match row.checked_sub(1) {
                None => candidate.energy_kcal_per_g * grams,
                Some(cap) => candidate.per_gram.get(cap).copied().unwrap_or(0.0) * grams,
            })
        };
        let after: Vec<f64> = (self.sums.iter().zip(&self.rows).enumerate())
            .map(|(row, (sum, r))| sum - r.per_gram[at] * goes + comes(row))
            .collect();
        Ask {
            item: item.name.clone(),
            what,
            kcal_saved: self.sums[0] - after[0],
            helps: self.helps(&after),
            over_before: self.over(&self.sums),
            over_after: self.over(&after),
        }
    }

    /// Firm rows only; a passed sodium share is no reason to ask for less of everything.
    fn over(&self, sums: &[f64]) -> f64 {
        let firm = self.rows.iter().zip(sums).filter(|(row, _)| row.firm);
        firm.map(|(row, sum)| passed_by(row, *sum)).sum()
    }

    fn helps(&self, after: &[f64]) -> Option<Helps> {
        let lowered = |row: usize| {
            passed_by(&self.rows[row], self.sums[row]) - passed_by(&self.rows[row], after[row])
        };
        let firm = (0..self.rows.len()).filter(|row| self.rows[*row].firm);
        let best = firm.max_by(|a, b| lowered(*a).total_cmp(&lowered(*b)).then(b.cmp(a)))?;
        let (name, unit, _) = naming(self.budget, best);
        (lowered(best) > 0.0).then(|| Helps {
            name: name.to_owned(),
            unit: unit.to_owned(),
            before: self.sums[best],
            after: after[best],
            most: self.rows[best].most,
        })
    }
}

/// By how much a sum passes its most, as a part of it.
fn passed_by(row: &Row, sum: f64) -> f64 {
    if row.most > 0.0 {
        (sum / row.most - 1.0).max(0.0)
    } else {
        0.0
    }
}

/// Up to three foods that give as much of the component's main group for less energy and
/// take the dish no further over any firm cap, best first (by energy saved, then by name).
///
/// Nothing for a component without a food group. Fails as [`super::fit()`] does on figures
/// that cannot be used.
pub(crate) fn swaps(
    items: &[Item],
    at: usize,
    candidates: &[Candidate],
    budget: &Budget,
) -> Result<Vec<Swap>, Unfit> {
    model::check(items, budget)?;
    let main = |i: &Item| main_of(&i.per_gram, budget);
    let Some((item, group)) = items.get(at).and_then(|i| Some((i, main(i)?))) else {
        return Ok(Vec::new());
    };
    let dish = Dish::of(items, budget);
    let usable = |c: &&Candidate| {
        c.grams.is_none() && c.name != item.name && c.per_gram.len() == budget.caps.len()
    };
    let swap = |c: &Candidate| dish.like_for_like(at, group, c);
    let mut all: Vec<Swap> = candidates.iter().filter(usable).filter_map(swap).collect();
    all.sort_by(|a, b| {
        b.kcal_saved
            .total_cmp(&a.kcal_saved)
            .then_with(|| a.with.cmp(&b.with))
    });
    all.truncate(SWAPS_EACH);
    Ok(all)
}

impl Dish<'_> {
    fn like_for_like(&self, at: usize, group: usize, candidate: &Candidate) -> Option<Swap> {
        let grams = self.grams_instead(at, candidate)?;
        let item = &self.items[at];
        for (index, row) in self.rows.iter().enumerate().filter(|(_, row)| row.firm) {
            let sum = self.sums[index];
            let per_gram = match index.checked_sub(1) {
                None => candidate.energy_kcal_per_g,
                Some(cap) => candidate.per_gram[cap],
            };
            let changed = sum - row.per_gram[at] * item.served_grams + per_gram * grams;
            if !row.allows(changed) && changed > sum * 1.05 {
                return None;
            }
        }
        let kcal_saved =
            item.energy_kcal_per_g * item.served_grams - candidate.energy_kcal_per_g * grams;
        (kcal_saved >= WORTH_KCAL).then(|| Swap {
            item: item.name.clone(),
            with: candidate.name.clone(),
            amount: candidate.unit.say(grams),
            grams,
            group: self.budget.caps[group].name.clone(),
            kcal_saved,
        })
    }
}

/// The group that a food is counted in most, by its share of the cap.
fn main_of(per_gram: &[f64], budget: &Budget) -> Option<usize> {
    let share = |at: &usize| per_gram[*at] / budget.caps[*at].most;
    (0..budget.caps.len().min(per_gram.len()))
        .filter(|at| budget.caps[*at].kind == CapKind::Group && budget.caps[*at].most > 0.0)
        .filter(|at| per_gram[*at] > 0.0)
        // The first of equal groups, whatever the order of comparison.
        .max_by(|a, b| share(a).total_cmp(&share(b)).then(b.cmp(a)))
}
