//! Says in words what the figures of a plate do not say by themselves.

use super::model::{Chosen, Row};
use super::plate::{Budget, Item, Use, naming};
use super::remark::Remark;

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
            .zip(rows)
            .filter(|(u, row)| u.passed && !row.firm)
            .map(|(u, _)| Remark::SoftPassed {
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
            holds: rows[row].held[at] * first,
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
            let (row, sum) = (&rows[*row], rows[*row].held_sum(&grams));
            row.allows(sum) && !row.allows(sum + row.held[at] * first)
        });
        Remark::LeftOut {
            item: item.name.clone(),
            caps: tight.map(|row| naming(budget, row).0.to_owned()).collect(),
        }
    })
}

/// The firm row that these grams of one component pass the most, and what they hold.
fn worst_over(at: usize, rows: &[Row], grams: f64) -> Option<(usize, f64)> {
    let over = |row: &Row| row.held[at] * grams / row.most.max(f64::MIN_POSITIVE);
    rows.iter()
        .enumerate()
        .filter(|(_, row)| row.firm && !row.allows(row.held[at] * grams))
        .max_by(|(_, a), (_, b)| over(a).total_cmp(&over(b)))
        .map(|(index, row)| (index, row.held[at] * grams))
}
