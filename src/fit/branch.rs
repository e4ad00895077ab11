//! Branch and bound over servable amounts, with the prices of the relaxed programme.

use super::GAP;
use super::model::Table;
use super::relax::Relaxed;

/// Branches tried before the best plate so far is taken. Real dishes need far fewer; a
/// bound on branches, unlike one on time, keeps the answer the same on every machine.
const MOST_BRANCHES: usize = 400_000;

/// The plate found.
#[derive(Debug, Clone)]
pub(super) struct Found {
    /// Level of each component.
    pub levels: Vec<usize>,
    /// The proven most by which its cost exceeds the least, as a part of that: up to [`GAP`],
    /// or more when the search ended before.
    pub gap: f64,
}

/// Finds levels whose cost is proven to be within [`GAP`] of the least.
pub(super) fn search(table: &Table, relaxed: &Relaxed) -> Found {
    let first = improved(table, rounded(table, relaxed));
    let cost = cost(table, &first);
    let priced = Priced::new(table, &relaxed.prices);
    let mut search = Search {
        table,
        priced: &priced,
        at: vec![0; table.len()],
        best: first,
        best_cost: cost,
        ceiling: 0.0,
        branches: 0,
        sums: vec![vec![0.0; table.takes.len()]; table.len() + 1],
        order: priced.order(),
        least_takes: Vec::new(),
    };
    // Near the bound first: a good plate found early spares most of the rest, and a round
    // that ends proves that nothing below its ceiling is better than the best plate.
    let mut proven = priced.bound;
    for part in [0.3, 0.5, 0.7, 0.85, 1.0] {
        search.ceiling = search.room() * part;
        search.least_takes = search.least_takes();
        search.descend(0, 0.0);
        search.best = improved(table, std::mem::take(&mut search.best));
        search.best_cost = self::cost(table, &search.best);
        if search.branches >= MOST_BRANCHES {
            break;
        }
        proven = proven.max(priced.bound + search.ceiling.min(search.room()));
    }
    let gap = search.best_cost / proven - 1.0;
    Found {
        levels: search.best,
        gap: gap.max(0.0),
    }
}

/// The highest levels at or below the relaxed parts: less of everything keeps every row.
fn rounded(table: &Table, relaxed: &Relaxed) -> Vec<usize> {
    let below = |(parts, part): (&Vec<f64>, &f64)| {
        parts.partition_point(|level| *level <= part + 1e-7).max(1) - 1
    };
    let levels: Vec<usize> = table.parts.iter().zip(&relaxed.parts).map(below).collect();
    if keeps(&sums(table, &levels)) {
        levels
    } else {
        vec![0; levels.len()]
    }
}

/// Raises levels, alone or against another's fall, while that lowers the cost.
fn improved(table: &Table, mut levels: Vec<usize>) -> Vec<usize> {
    while let Some(moves) = best_move(table, &levels) {
        for (at, level) in moves {
            levels[at] = level;
        }
    }
    levels
}

/// A component and its new level.
type Move = (usize, usize);

/// The moves that lower the cost most and keep every row: one component up to two levels
/// higher, with or without another up to two lower.
fn best_move(table: &Table, levels: &[usize]) -> Option<Vec<Move>> {
    let taken = sums(table, levels);
    let mut best = None;
    let mut least = -1e-12;
    let mut weigh = |moves: &[Move]| {
        let gain = |(at, level): &Move| table.costs[*at][*level] - table.costs[*at][levels[*at]];
        let gain: f64 = moves.iter().map(gain).sum();
        let fits = |row: usize| {
            let take = |(at, level): &Move| {
                table.take(row, *at, *level) - table.take(row, *at, levels[*at])
            };
            taken[row] + moves.iter().map(take).sum::<f64>() <= Table::MOST
        };
        if gain < least && (0..taken.len()).all(fits) {
            (least, best) = (gain, Some(moves.to_vec()));
        }
    };
    for up in 0..levels.len() {
        let top = table.parts[up].len() - 1;
        for raised in (levels[up] + 1..=top).take(2) {
            weigh(&[(up, raised)]);
            for down in (0..levels.len()).filter(|down| *down != up) {
                for lowered in (0..levels[down]).rev().take(2) {
                    weigh(&[(up, raised), (down, lowered)]);
                }
            }
        }
    }
    best
}

fn cost(table: &Table, levels: &[usize]) -> f64 {
    levels
        .iter()
        .zip(&table.costs)
        .map(|(level, costs)| costs[*level])
        .sum()
}

/// What these levels take of each row.
fn sums(table: &Table, levels: &[usize]) -> Vec<f64> {
    let sum = |row| {
        levels
            .iter()
            .enumerate()
            .map(|(at, l)| table.take(row, at, *l))
            .sum()
    };
    (0..table.takes.len()).map(sum).collect()
}

fn keeps(sums: &[f64]) -> bool {
    sums.iter().all(|sum| *sum <= Table::MOST)
}

/// Levels with their costs at the prices of the rows.
struct Priced {
    /// No plate costs less.
    bound: f64,
    /// For each component its levels with what they cost above the component's cheapest,
    /// cheapest first.
    levels: Vec<Vec<(usize, f64)>>,
}

impl Priced {
    fn new(table: &Table, prices: &[f64]) -> Self {
        let mut bound = -prices.iter().sum::<f64>() * Table::MOST;
        let mut levels = Vec::with_capacity(table.len());
        for at in 0..table.len() {
            let paid = |level: usize| {
                let rows = prices.iter().enumerate();
                table.costs[at][level]
                    + rows
                        .map(|(row, price)| price * table.take(row, at, level))
                        .sum::<f64>()
            };
            let mut all: Vec<(usize, f64)> = (0..table.costs[at].len())
                .map(|level| (level, paid(level)))
                .collect();
            all.sort_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0)));
            let least = all[0].1;
            bound += least;
            levels.push(
                all.into_iter()
                    .map(|(level, paid)| (level, paid - least))
                    .collect(),
            );
        }
        Self {
            bound: bound.max(1e-12),
            levels,
        }
    }

    /// Components whose second choice costs most come first: they decide soonest.
    fn order(&self) -> Vec<usize> {
        let second = |at: &usize| self.levels[*at].get(1).map_or(f64::INFINITY, |l| l.1);
        let mut order: Vec<usize> = (0..self.levels.len()).collect();
        order.sort_by(|a, b| second(b).total_cmp(&second(a)).then(a.cmp(b)));
        order
    }
}

struct Search<'t> {
    table: &'t Table,
    priced: &'t Priced,
    order: Vec<usize>,
    /// Levels chosen so far, by component.
    at: Vec<usize>,
    best: Vec<usize>,
    best_cost: f64,
    /// What may be paid above the bound in this round.
    ceiling: f64,
    branches: usize,
    /// What is taken of each row, by depth.
    sums: Vec<Vec<f64>>,
    /// The least that the components from a depth on can take of each row.
    least_takes: Vec<Vec<f64>>,
}

impl Search<'_> {
    /// What may be paid above the bound.
    fn room(&self) -> f64 {
        self.best_cost / (1.0 + GAP) - self.priced.bound
    }

    fn least_takes(&self) -> Vec<Vec<f64>> {
        let room = self.ceiling;
        let mut least = vec![vec![0.0; self.table.takes.len()]; self.order.len() + 1];
        for depth in (0..self.order.len()).rev() {
            let at = self.order[depth];
            let open = self.priced.levels[at]
                .iter()
                .filter(|(_, above)| *above < room);
            let lowest = open.map(|(level, _)| *level).min().unwrap_or(0);
            let after = least[depth + 1].clone();
            for (row, (sum, after)) in least[depth].iter_mut().zip(after).enumerate() {
                *sum = after + self.table.take(row, at, lowest);
            }
        }
        least
    }

    fn descend(&mut self, depth: usize, above: f64) {
        let Some(component) = self.order.get(depth).copied() else {
            let cost = cost(self.table, &self.at);
            if cost < self.best_cost {
                self.best_cost = cost;
                self.best.clone_from(&self.at);
            }
            return;
        };
        let priced = self.priced;
        for (level, more) in &priced.levels[component] {
            self.branches += 1;
            if above + more >= self.ceiling.min(self.room()) || self.branches >= MOST_BRANCHES {
                return;
            }
            if self.take(depth, component, *level) {
                self.at[component] = *level;
                self.descend(depth + 1, above + more);
            }
        }
    }

    /// Adds a level's takes; whether the rest can still keep every row.
    fn take(&mut self, depth: usize, component: usize, level: usize) -> bool {
        let (before, after) = self.sums.split_at_mut(depth + 1);
        let least = &self.least_takes[depth + 1];
        for (row, sum) in after[0].iter_mut().enumerate() {
            *sum = before[depth][row] + self.table.take(row, component, level);
            if *sum + least[row] > Table::MOST {
                return false;
            }
        }
        true
    }
}
