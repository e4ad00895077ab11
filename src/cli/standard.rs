//! `trencher standard ...`.

use super::arguments::StandardCommand;
use super::input;
use super::{Failure, Outcome, print};
use crate::ledger::{Allowance, Group, Limit, PulsesAs, Standard, Subgroup};
use crate::pages::layout::grid;
use crate::pages::number::{grams, portions, thousands};
use crate::pages::text::wrap;
use std::fmt::Write as _;
use tabled::builder::Builder;

pub(super) fn run(command: StandardCommand) -> Result<Outcome, Failure> {
    match command {
        StandardCommand::List => list(),
        StandardCommand::Show {
            standard,
            energy,
            pulses,
        } => {
            let standard = input::standard(&standard)?;
            print(&show(&standard, energy, pulses.into()))
        }
    }
}

fn list() -> Result<Outcome, Failure> {
    let mut text = String::new();
    for standard in Standard::embedded_ids().filter_map(Standard::embedded) {
        let _ = writeln!(text, "{:14} {}", standard.id, standard.name);
    }
    print(&text)
}

fn show(standard: &Standard, energy: Option<f64>, pulses: PulsesAs) -> String {
    let mut text = wrap(&standard.name);
    text.push_str(&wrap(&format!(
        "Source: {}. {}",
        standard.source, standard.status
    )));
    text.push('\n');
    let levels: Vec<f64> = match energy {
        Some(energy) => {
            let choice = standard.level(energy);
            if let Some(note) = &choice.note {
                text.push_str(&wrap(&format!("note: {note}")));
            }
            vec![choice.level_kcal]
        }
        None => standard.levels().to_vec(),
    };
    // Six levels fit side by side in 80 columns.
    for some in levels.chunks(6) {
        text.push_str(&block(standard, some, pulses));
        text.push('\n');
    }
    text.push_str(&wrap(
        "Portions a day; a portion is 1 of the unit unless it says otherwise. Parts of a group \
         that are set by the week are shown as a seventh.",
    ));
    text
}

fn block(standard: &Standard, levels: &[f64], pulses: PulsesAs) -> String {
    let mut table = Builder::default();
    let head = levels.iter().map(|level| Some(thousands(*level)));
    add_row(&mut table, "kcal a day", "", head);
    for group in Group::ALL {
        let portion = standard.portion(*group);
        let unit = match group.unit().word() {
            word if (portion - 1.0).abs() < 1e-9 => word.to_owned(),
            word => format!("x {portion} {word}"),
        };
        let amount = |allowance: Allowance| match allowance.minimum {
            Some(least) if least < allowance.amount => {
                let most = portions(allowance.amount / portion);
                format!("{}-{most}", portions(least / portion))
            }
            _ => portions(allowance.amount / portion),
        };
        let own = levels
            .iter()
            .map(|level| standard.allowance(*level, *group, pulses).map(amount));
        add_row(&mut table, group.label(), &unit, own);
        for part in Subgroup::of(*group) {
            let of = |level: &f64| standard.subgroup_allowance(*level, *group, *part);
            let own = levels.iter().map(|level| of(level).map(portions)).collect();
            add_known_row(&mut table, &format!("  {}", part.label()), "", own);
        }
    }
    for limit in Limit::ALL.iter().filter(|l| **l != Limit::Energy) {
        let format = if *limit == Limit::Sodium {
            thousands
        } else {
            grams
        };
        let of = |level: &f64| standard.limit_allowance(*level, *limit).map(format);
        let label = format!("at most: {}", limit.label());
        add_known_row(
            &mut table,
            &label,
            limit.unit(),
            levels.iter().map(of).collect(),
        );
    }
    let other = levels
        .iter()
        .map(|level| standard.other_uses_kcal(*level).map(thousands));
    add_known_row(&mut table, "left for other uses", "kcal", other.collect());
    grid(table, &[], &[])
}

fn add_row(
    table: &mut Builder,
    label: &str,
    unit: &str,
    cells: impl Iterator<Item = Option<String>>,
) {
    let cells = cells.map(|cell| cell.unwrap_or("-".to_owned()));
    table.push_record([label.to_owned(), unit.to_owned()].into_iter().chain(cells));
}

/// The same where the standard says something on any of the levels.
fn add_known_row(table: &mut Builder, label: &str, unit: &str, cells: Vec<Option<String>>) {
    if cells.iter().any(Option::is_some) {
        add_row(table, label, unit, cells.into_iter());
    }
}
