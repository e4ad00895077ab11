//! Says in words what the figures of a plate do not say by themselves.

use std::fmt;

use super::model::Row;
use super::plate::{Budget, Item, Use};
use super::solve::{Chosen, naming};

/// A remark on a plate; its text is made by `Display`.
#[derive(Debug, Clone, PartialEq)]
pub enum Remark {
    /// The dish fits as served.
    Whole,
    /// One component as served is by itself over a cap.
    AloneOver {
        /// The component.
        item: String,
        /// What it is over: the cap that it is over the most.
        cap: String,
        /// Unit of the figures.
        unit: String,
        /// What the component holds as served.
        served: f64,
        /// The most.
        most: f64,
        /// What that is the share of.
        of: String,
    },
    /// Even the smallest amount a person can serve is over a cap.
    StepOver {
        /// The component.
        item: String,
        /// That amount in kitchen units.
        step: String,
        /// What it is over.
        cap: String,
        /// Unit of the figures.
        unit: String,
        /// What that amount holds.
        holds: f64,
        /// The most.
        most: f64,
        /// What that is the share of.
        of: String,
    },
    /// Some would fit by itself, but the rest of the dish keeps more without it.
    LeftOut {
        /// The component.
        item: String,
        /// What it competes for.
        caps: Vec<String>,
    },
    /// A soft cap is passed.
    SoftPassed {
        /// The cap.
        cap: String,
        /// Unit of the figures.
        unit: String,
        /// On the right-sized plate.
        eaten: f64,
        /// The most.
        most: f64,
        /// What that is the share of.
        of: String,
    },
}

impl fmt::Display for Remark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Remark::Whole => f.write_str("the dish fits as served"),
            Remark::AloneOver {
                item,
                cap,
                unit,
                served,
                most,
                of,
            } => write!(
                f,
                "the {item} alone {} over the {cap} of {of}: {} {unit} served, {} {unit} allowed",
                if several(item) { "are" } else { "is" },
                figure(*served),
                figure(*most)
            ),
            Remark::StepOver {
                item,
                step,
                cap,
                unit,
                holds,
                most,
                of,
            } => write!(
                f,
                "no {item}: {step} already has {} {unit} of {cap}, {of} allows {} {unit}",
                figure(*holds),
                figure(*most)
            ),
            Remark::LeftOut { item, caps } => write!(
                f,
                "no {item}: without it more of the rest fits within {}",
                list(caps)
            ),
            Remark::SoftPassed {
                cap,
                unit,
                eaten,
                most,
                of,
            } => write!(
                f,
                "{cap} stays over that of {of}, {} {unit} of {} {unit}: keeping to it would \
                 leave less than half of this plate",
                figure(*eaten),
                figure(*most)
            ),
        }
    }
}

/// Hundreds without a decimal, the rest with one or two.
fn figure(value: f64) -> String {
    match value {
        v if v >= 100.0 => crate::people::whole(v),
        v if v >= 1.0 || v <= 0.0 => format!("{v:.1}"),
        v => format!("{v:.2}"),
    }
}

/// Whether a name is in the plural: `fries`, `beans`; not `swiss`.
#[must_use]
pub fn several(name: &str) -> bool {
    let head = name.split(',').next().unwrap_or(name).trim_end();
    let head = head.split(" with ").next().unwrap_or(head);
    head.ends_with('s') && !["ss", "us", "is"].iter().any(|end| head.ends_with(end))
}

fn list(names: &[String]) -> String {
    match names {
        [] => "the share".to_owned(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

/// All remarks on a plate, in the order of components and then caps.
pub(super) fn remarks(
    items: &[Item],
    budget: &Budget,
    rows: &[Row],
    chosen: &Chosen,
    uses: &[Use],
) -> Vec<Remark> {
    let whole = chosen
        .choices
        .iter()
        .zip(&chosen.levels)
        .all(|(c, level)| *level == c.last());
    let mut all = if whole {
        vec![Remark::Whole]
    } else {
        alone(items, budget, rows, chosen)
    };
    all.extend(
        uses.iter()
            .filter(|u| u.passed)
            .map(|u| Remark::SoftPassed {
                cap: u.name.clone(),
                unit: u.unit.clone(),
                eaten: u.eaten,
                most: u.most,
                of: u.of.clone(),
            }),
    );
    all
}

/// One remark for each component that goes or that no plate could hold as served.
pub(super) fn alone(items: &[Item], budget: &Budget, rows: &[Row], chosen: &Chosen) -> Vec<Remark> {
    items
        .iter()
        .enumerate()
        .filter_map(|(at, item)| of(at, item, budget, rows, chosen))
        .collect()
}

fn of(at: usize, item: &Item, budget: &Budget, rows: &[Row], chosen: &Chosen) -> Option<Remark> {
    let (choice, level) = (&chosen.choices[at], chosen.levels[at]);
    if level == choice.last() {
        return None;
    }
    let first = choice.grams(1);
    if let Some((row, _)) = worst_over(at, rows, first) {
        let (cap, unit, of) = naming(budget, row);
        return Some(Remark::StepOver {
            item: item.name.clone(),
            step: if choice.last() == 1 {
                "what was served".into()
            } else {
                item.unit.say(first)
            },
            cap: cap.to_owned(),
            unit: unit.to_owned(),
            holds: rows[row].per_gram[at] * first,
            most: rows[row].most,
            of: of.to_owned(),
        });
    }
    if let Some((row, served)) = worst_over(at, rows, item.served_grams) {
        let (cap, unit, of) = naming(budget, row);
        return Some(Remark::AloneOver {
            item: item.name.clone(),
            cap: cap.to_owned(),
            unit: unit.to_owned(),
            served,
            most: rows[row].most,
            of: of.to_owned(),
        });
    }
    (level == 0).then(|| {
        let grams = chosen.grams();
        let tight = (0..rows.len()).filter(|row| {
            let (row, sum) = (&rows[*row], rows[*row].sum(&grams));
            row.allows(sum) && !row.allows(sum + row.per_gram[at] * first)
        });
        Remark::LeftOut {
            item: item.name.clone(),
            caps: tight.map(|row| naming(budget, row).0.to_owned()).collect(),
        }
    })
}

/// The firm row that these grams of one component pass the most, and what they hold.
fn worst_over(at: usize, rows: &[Row], grams: f64) -> Option<(usize, f64)> {
    let over = |row: &Row| row.per_gram[at] * grams / row.most.max(f64::MIN_POSITIVE);
    rows.iter()
        .enumerate()
        .filter(|(_, row)| row.firm && !row.allows(row.per_gram[at] * grams))
        .max_by(|(_, a), (_, b)| over(a).total_cmp(&over(b)))
        .map(|(index, row)| (index, row.per_gram[at] * grams))
}
