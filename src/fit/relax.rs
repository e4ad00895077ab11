//! The programme without steps: a convex quadratic programme and the prices of its caps.

use clarabel::algebra::CscMatrix;
use clarabel::solver::{DefaultSettings, DefaultSolver, IPSolver, NonnegativeConeT, SolverStatus};

use super::model::Table;
use super::plate::Unfit;

/// The best plate when any amount could be served.
#[derive(Debug, Clone)]
pub(super) struct Relaxed {
    /// Part of each component, 0 to 1.
    pub parts: Vec<f64>,
    /// What one whole row is worth in cost; not below 0.
    pub prices: Vec<f64>,
}

/// Minimises `sum of weight x (1 - part)^2` over parts between 0 and the highest level,
/// each row at most 1.
///
/// Fails when the solver does.
pub(super) fn relax(table: &Table) -> Result<Relaxed, Unfit> {
    let n = table.len();
    let rows = table.takes.len();
    let failed = |e: &dyn std::fmt::Display| Unfit::Solver(e.to_string());
    let twice: Vec<f64> = table.weights.iter().map(|w| 2.0 * w).collect();
    let linear: Vec<f64> = twice.iter().map(|w| -w).collect();
    let square = CscMatrix::new(n, n, (0..=n).collect(), (0..n).collect(), twice);
    let (limits, most) = limits(table);
    let cones = [NonnegativeConeT(rows + 2 * n)];
    let settings = DefaultSettings {
        verbose: false,
        ..DefaultSettings::default()
    };
    let mut solver = DefaultSolver::new(&square, &linear, &limits, &most, &cones, settings)
        .map_err(|e| failed(&e))?;
    solver.solve();
    let solution = &solver.solution;
    match solution.status {
        SolverStatus::Solved | SolverStatus::AlmostSolved => Ok(Relaxed {
            parts: solution.x.clone(),
            prices: solution.z[..rows]
                .iter()
                .map(|price| price.max(0.0))
                .collect(),
        }),
        other => Err(failed(&format!("{other:?}"))),
    }
}

/// Rows, then `part <= top` and `-part <= 0` of each component, by columns; and their most.
fn limits(table: &Table) -> (CscMatrix<f64>, Vec<f64>) {
    let n = table.len();
    let rows = table.takes.len();
    let (mut starts, mut at, mut values) = (vec![0], Vec::new(), Vec::new());
    for i in 0..n {
        for (row, takes) in table.takes.iter().enumerate().filter(|(_, t)| t[i] > 0.0) {
            at.push(row);
            values.push(takes[i]);
        }
        at.extend([rows + i, rows + n + i]);
        values.extend([1.0, -1.0]);
        starts.push(at.len());
    }
    let tops = table
        .parts
        .iter()
        .map(|parts| parts.last().copied().unwrap_or(0.0));
    let most = std::iter::repeat_n(1.0, rows)
        .chain(tops)
        .chain(std::iter::repeat_n(0.0, n))
        .collect();
    (CscMatrix::new(rows + 2 * n, n, starts, at, values), most)
}
