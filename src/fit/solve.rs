//! Chooses the amounts with a mixed-integer linear programme and describes the plate.

use microlp::{ComparisonOp, OptimizationDirection, Problem, SolveOptions, Variable};

use super::explain;
use super::model::{self, Choice, Row};
use super::plate::{Budget, Item, Plate, Portion, Unfit, Use, part};
use super::{GAP, SOFT_KEEPS};

/// Branches tried before the best plate so far is taken. Real dishes need far fewer; a
/// bound on nodes, unlike one on time, keeps the answer the same on every machine.
const MOST_NODES: u64 = 20_000;

/// The right-sized plate of a dish under a budget; see the module's text for what is
/// minimised.
///
/// Fails when a figure is not usable, when no energy is left and when not one step of any
/// component fits.
pub fn fit(items: &[Item], budget: &Budget) -> Result<Plate, Unfit> {
    model::check(items, budget)?;
    let rows = model::rows(items, budget);
    let firm: Vec<&Row> = rows.iter().filter(|row| row.firm).collect();
    let chosen = least(items, &firm)?;
    let all: Vec<&Row> = rows.iter().collect();
    let chosen = match soft(items, &all, &chosen)? {
        Some(softer) => softer,
        None => chosen,
    };
    if chosen.levels.iter().all(|level| *level == 0) {
        return Err(Unfit::Nothing {
            reasons: explain::alone(items, budget, &rows, &chosen),
        });
    }
    Ok(describe(items, budget, &rows, &chosen))
}

/// The chosen level of each component.
#[derive(Debug, Clone)]
pub(super) struct Chosen {
    pub choices: Vec<Choice>,
    pub levels: Vec<usize>,
    pub gap: Option<f64>,
}

impl Chosen {
    pub fn grams(&self) -> Vec<f64> {
        self.choices
            .iter()
            .zip(&self.levels)
            .map(|(c, level)| c.grams(*level))
            .collect()
    }

    fn cost(&self) -> f64 {
        self.choices
            .iter()
            .zip(&self.levels)
            .map(|(c, level)| c.cost(*level))
            .sum()
    }
}

/// The plate that keeps the soft caps too, when it leaves enough and is needed.
fn soft(items: &[Item], all: &[&Row], firm: &Chosen) -> Result<Option<Chosen>, Unfit> {
    let grams = firm.grams();
    if all.iter().all(|row| row.allows(row.sum(&grams))) {
        return Ok(None);
    }
    let softer = least(items, all)?;
    let kept: f64 = softer.grams().iter().sum();
    let enough = kept > 0.0 && kept >= SOFT_KEEPS * grams.iter().sum::<f64>();
    Ok(enough.then_some(softer))
}

/// The levels of least cost that keep these rows.
fn least(items: &[Item], rows: &[&Row]) -> Result<Chosen, Unfit> {
    let choices = model::choices(items, rows);
    let top: Vec<usize> = choices.iter().map(|c| c.top).collect();
    let at_top = Chosen {
        levels: top,
        choices,
        gap: Some(0.0),
    };
    let grams = at_top.grams();
    if rows.iter().all(|row| row.allows(row.sum(&grams))) {
        return Ok(at_top);
    }
    let program = Program::new(&at_top.choices, rows);
    let (levels, gap) = program.solve()?;
    let chosen = Chosen {
        levels,
        gap,
        choices: at_top.choices,
    };
    let grams = chosen.grams();
    if rows.iter().all(|row| row.allows(row.sum(&grams))) {
        Ok(chosen)
    } else {
        Err(Unfit::Solver("the solver's plate passes a cap".to_owned()))
    }
}

/// The variables of one component: whole steps, and whether the rest is eaten too.
struct Vars {
    steps: Variable,
    rest: Option<Variable>,
    segments: Vec<Variable>,
}

/// The programme in the solver's terms.
struct Program<'c> {
    problem: Problem,
    vars: Vec<Option<Vars>>,
    choices: &'c [Choice],
}

impl<'c> Program<'c> {
    fn new(choices: &'c [Choice], rows: &[&Row]) -> Self {
        let mut problem = Problem::new(OptimizationDirection::Minimize);
        let vars: Vec<Option<Vars>> = choices.iter().map(|c| component(&mut problem, c)).collect();
        let mut program = Self {
            problem,
            vars,
            choices,
        };
        for row in rows {
            program.hold(row);
        }
        program
    }

    /// Adds a row, scaled to 1. What could never make a difference is taken off the most
    /// instead, so that coefficients stay within a range the solver likes.
    fn hold(&mut self, row: &Row) {
        // Components that hold any of a spent measure have been bounded to nothing.
        if row.most <= 0.0 {
            return;
        }
        let mut terms = Vec::new();
        let mut most = 1.0;
        let mut whole = 0.0;
        for ((vars, choice), each) in self.vars.iter().zip(self.choices).zip(&row.per_gram) {
            let Some(vars) = vars else { continue };
            let share = each / row.most;
            let served = share * choice.grams(choice.top);
            whole += served;
            if served < 1e-5 {
                most -= served;
                continue;
            }
            terms.push((vars.steps, share * choice.step));
            if let Some(rest) = vars.rest {
                terms.push((rest, share * choice.rest));
            }
        }
        if whole > 1.0 && !terms.is_empty() {
            self.problem.add_constraint(terms, ComparisonOp::Le, most);
        }
    }

    /// The levels found and the proven gap.
    fn solve(self) -> Result<(Vec<usize>, Option<f64>), Unfit> {
        let mut options = SolveOptions::default();
        options.mip_gap = GAP;
        options.node_limit = Some(MOST_NODES);
        // Eating nothing is always possible: with it the search never ends empty-handed.
        options.warm_start = Some(self.nothing());
        let failed = |e: microlp::Error| Unfit::Solver(e.to_string());
        let outcome = self.problem.solve_with(options).map_err(failed)?;
        let solution = outcome
            .into_solution()
            .map_err(|_| Unfit::Solver("the search ended without a plate".to_owned()))?;
        let whole = |variable| solution.var_value(variable).round().max(0.0) as usize;
        let level = |vars: &Option<Vars>| {
            vars.as_ref()
                .map_or(0, |v| whole(v.steps) + v.rest.map_or(0, whole))
        };
        let levels = self.vars.iter().map(level).collect();
        Ok((levels, solution.gap()))
    }

    fn nothing(&self) -> Vec<(Variable, f64)> {
        let all = |v: &Vars| {
            let whole = std::iter::once(v.steps).chain(v.rest);
            whole
                .chain(v.segments.iter().copied())
                .map(|var| (var, 0.0))
                .collect::<Vec<_>>()
        };
        self.vars.iter().flatten().flat_map(all).collect()
    }
}

/// Adds a component; nothing when it can only be left.
///
/// Its whole steps are an integer that is the sum of segments between 0 and 1, each cheaper
/// than the one before, so the least cost fills them in order. "All of it" is one more,
/// only after the last whole step.
fn component(problem: &mut Problem, choice: &Choice) -> Option<Vars> {
    if choice.top == 0 {
        return None;
    }
    let steps = choice.top.min(choice.steps);
    let saved = |level: usize| choice.cost(level + 1) - choice.cost(level);
    let count = problem.add_integer_var(0.0, (0, i32::try_from(steps).unwrap_or(i32::MAX)));
    let segments: Vec<Variable> = (0..steps)
        .map(|level| problem.add_var(saved(level), (0.0, 1.0)))
        .collect();
    let sum = segments.iter().map(|s| (*s, 1.0)).chain([(count, -1.0)]);
    problem.add_constraint(sum.collect::<Vec<_>>(), ComparisonOp::Eq, 0.0);
    let rest = (choice.top > choice.steps).then(|| {
        let rest = problem.add_binary_var(saved(choice.steps));
        if let Some(last) = segments.last() {
            problem.add_constraint([(rest, 1.0), (*last, -1.0)], ComparisonOp::Le, 0.0);
        }
        rest
    });
    Some(Vars {
        steps: count,
        rest,
        segments,
    })
}

fn describe(items: &[Item], budget: &Budget, rows: &[Row], chosen: &Chosen) -> Plate {
    let grams = chosen.grams();
    let served: Vec<f64> = items.iter().map(|i| i.served_grams).collect();
    let held: Vec<Vec<usize>> = (0..items.len())
        .map(|at| held_by(at, rows, chosen, &grams))
        .collect();
    let uses: Vec<Use> = rows
        .iter()
        .enumerate()
        .map(|(at, row)| {
            let (name, unit, of) = naming(budget, at);
            let eaten = row.sum(&grams);
            Use {
                name: name.to_owned(),
                unit: unit.to_owned(),
                of: of.to_owned(),
                served: row.sum(&served),
                eaten,
                most: row.most,
                passed: !row.allows(eaten),
                binds: held.iter().any(|h| h.contains(&at)),
            }
        })
        .collect();
    let eat_grams: f64 = grams.iter().sum();
    let eat_kcal = rows[0].sum(&grams);
    let portions = items
        .iter()
        .enumerate()
        .map(|(at, item)| {
            let energy_kcal = item.energy_kcal_per_g * grams[at];
            let whole = chosen.levels[at] == chosen.choices[at].last();
            let box_grams = if whole {
                0.0
            } else {
                item.served_grams - grams[at]
            };
            Portion {
                name: item.name.clone(),
                served_grams: item.served_grams,
                eat_grams: grams[at],
                eat: item.unit.eaten(grams[at], whole),
                box_grams,
                boxed: item.unit.left(box_grams),
                energy_kcal,
                share_by_weight: part(grams[at], eat_grams),
                share_by_energy: part(energy_kcal, eat_kcal),
                held_by: held[at]
                    .iter()
                    .map(|row| naming(budget, *row).0.to_owned())
                    .collect(),
            }
        })
        .collect();
    Plate {
        portions,
        remarks: explain::remarks(items, budget, rows, chosen, &uses),
        uses,
        served_grams: served.iter().sum(),
        eat_grams,
        served_kcal: rows[0].sum(&served),
        eat_kcal,
        distance: chosen.cost(),
        gap: chosen.gap,
    }
}

/// Name, unit and whose share of a row: energy first, then the caps.
pub(super) fn naming(budget: &Budget, row: usize) -> (&str, &str, &str) {
    match row.checked_sub(1).and_then(|at| budget.caps.get(at)) {
        Some(cap) => (&cap.name, &cap.unit, &cap.of),
        None => ("energy", "kcal", &budget.of),
    }
}

/// The rows that forbid one level more of a component.
fn held_by(at: usize, rows: &[Row], chosen: &Chosen, grams: &[f64]) -> Vec<usize> {
    let (choice, level) = (&chosen.choices[at], chosen.levels[at]);
    if level == choice.last() {
        return Vec::new();
    }
    let more = choice.grams(level + 1) - choice.grams(level);
    let forbids = |row: &&(usize, &Row)| {
        let sum = row.1.sum(grams);
        row.1.allows(sum) && !row.1.allows(sum + row.1.per_gram[at] * more)
    };
    let rows: Vec<(usize, &Row)> = rows.iter().enumerate().collect();
    rows.iter().filter(forbids).map(|(row, _)| *row).collect()
}
