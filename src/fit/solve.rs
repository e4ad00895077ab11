//! Chooses the amounts and describes the plate.

use super::branch;
use super::explain;
use super::model::{self, Chosen, Row, Table};
use super::plate::{Budget, Item, Plate, Portion, Unfit, Use, naming, part};
use super::relax;
use super::{FIRST_GIVES_WAY_BELOW, GIVES_WAY_BELOW};

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

/// The plate that keeps the soft caps too, when it leaves enough and is needed.
fn soft(items: &[Item], all: &[&Row], firm: &Chosen) -> Result<Option<Chosen>, Unfit> {
    let grams = firm.grams();
    if all.iter().all(|row| row.keeps(&grams)) {
        return Ok(None);
    }
    let kept = least(items, all)?;
    let left = kept.grams();
    let sum = |grams: &[f64], first: bool| -> f64 {
        let all = items.iter().zip(grams);
        all.filter(|(item, _)| item.keep_first || !first)
            .map(|(_, g)| g)
            .sum()
    };
    let enough = sum(&left, false) > 0.0
        && sum(&left, false) >= GIVES_WAY_BELOW * sum(&grams, false)
        && sum(&left, true) >= FIRST_GIVES_WAY_BELOW * sum(&grams, true);
    Ok(enough.then_some(kept))
}

/// The levels of least cost that keep these rows.
fn least(items: &[Item], rows: &[&Row]) -> Result<Chosen, Unfit> {
    let choices = model::choices(items, rows);
    let top: Vec<usize> = choices.iter().map(|c| c.top).collect();
    let at_top = Chosen {
        levels: top,
        choices,
        gap: 0.0,
    };
    let grams = at_top.grams();
    if rows.iter().all(|row| row.keeps(&grams)) {
        return Ok(at_top);
    }
    let table = Table::new(&at_top.choices, rows);
    let relaxed = relax::relax(&table)?;
    let found = branch::search(&table, &relaxed);
    Ok(Chosen {
        levels: found.levels,
        gap: found.gap,
        choices: at_top.choices,
    })
}

fn describe(items: &[Item], budget: &Budget, rows: &[Row], chosen: &Chosen) -> Plate {
    let grams = chosen.grams();
    let served: Vec<f64> = items.iter().map(|i| i.served_grams).collect();
    let limiting: Vec<Vec<usize>> = (0..items.len())
        .map(|at| limited_by(at, rows, chosen, &grams))
        .collect();
    let used = |(at, row): (usize, &Row)| {
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
            binds: limiting.iter().any(|rows| rows.contains(&at)),
        }
    };
    let uses: Vec<Use> = rows.iter().enumerate().map(used).collect();
    let eat_kcal = rows[0].sum(&grams);
    let mut portions = portions(items, chosen, &grams, eat_kcal);
    for (portion, rows) in portions.iter_mut().zip(&limiting) {
        let names = rows.iter().map(|row| naming(budget, *row).0.to_owned());
        portion.limited_by = names.collect();
    }
    Plate {
        portions,
        remarks: explain::remarks(items, budget, rows, chosen, &uses),
        uses,
        served_grams: served.iter().sum(),
        eat_grams: grams.iter().sum(),
        served_kcal: rows[0].sum(&served),
        eat_kcal,
        distance: chosen.cost(),
        gap: chosen.gap,
    }
}

/// What to eat and to box of each component; what limits it is not said yet.
fn portions(items: &[Item], chosen: &Chosen, grams: &[f64], eat_kcal: f64) -> Vec<Portion> {
    let eat_grams: f64 = grams.iter().sum();
    let portion = |(at, item): (usize, &Item)| {
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
            boxable: item.boxable,
            energy_kcal,
            share_by_weight: part(grams[at], eat_grams),
            share_by_energy: part(energy_kcal, eat_kcal),
            limited_by: Vec::new(),
        }
    };
    items.iter().enumerate().map(portion).collect()
}

/// The rows that forbid one level more of a component.
fn limited_by(at: usize, rows: &[Row], chosen: &Chosen, grams: &[f64]) -> Vec<usize> {
    let (choice, level) = (&chosen.choices[at], chosen.levels[at]);
    if level == choice.last() {
        return Vec::new();
    }
    let more = choice.grams(level + 1) - choice.grams(level);
    let forbids = |row: &&(usize, &Row)| {
        let sum = row.1.held_sum(grams);
        row.1.allows(sum) && !row.1.allows(sum + row.1.held[at] * more)
    };
    let rows: Vec<(usize, &Row)> = rows.iter().enumerate().collect();
    rows.iter().filter(forbids).map(|(row, _)| *row).collect()
}
