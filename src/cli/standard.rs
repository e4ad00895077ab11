//! `trencher standard ...`.

use super::arguments::StandardCommand;
use super::input;
use super::{Failure, Outcome, print};
use crate::ledger::{Group, Limit, Standard, Subgroup};
use crate::pages::number::{grams, portions, thousands};
use crate::pages::text::wrap;
use std::fmt::Write as _;
use tabled::builder::Builder;
use tabled::settings::{Padding, Style};

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

fn show(standard: &Standard, energy: Option<f64>, pulses: crate::ledger::PulsesAs) -> String {
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

fn block(standard: &Standard, levels: &[f64], pulses: crate::ledger::PulsesAs) -> String {
    let mut table = Builder::default();
    let mut head = vec!["kcal a day".to_owned(), String::new()];
    head.extend(levels.iter().map(|l| thousands(*l)));
    table.push_record(head);
    for group in Group::ALL {
        let portion = standard.portion(*group);
        let unit = if (portion - 1.0).abs() < 1e-9 {
            group.unit().word().to_owned()
        } else {
            format!("x {portion} {}", group.unit().word())
        };
        let mut row = vec![group.label().to_owned(), unit];
        row.extend(levels.iter().map(|level| {
            let allowance = standard.allowance(*level, *group, pulses);
            allowance.map_or("-".to_owned(), |a| match a.minimum {
                Some(minimum) if minimum < a.amount => {
                    format!(
                        "{}-{}",
                        portions(minimum / portion),
                        portions(a.amount / portion)
                    )
                }
                _ => portions(a.amount / portion),
            })
        }));
        table.push_record(row);
        for part in Subgroup::of(*group) {
            let own: Vec<_> = levels
                .iter()
                .map(|l| standard.subgroup_allowance(*l, *group, *part))
                .collect();
            if own.iter().any(Option::is_some) {
                let mut row = vec![format!("  {}", part.label()), String::new()];
                row.extend(own.into_iter().map(|a| a.map_or("-".to_owned(), portions)));
                table.push_record(row);
            }
        }
    }
    for limit in Limit::ALL.iter().filter(|l| **l != Limit::Energy) {
        let own: Vec<_> = levels
            .iter()
            .map(|l| standard.limit_allowance(*l, *limit))
            .collect();
        if own.iter().any(Option::is_some) {
            let mut row = vec![
                format!("at most: {}", limit.label()),
                limit.unit().to_owned(),
            ];
            let format = |a: f64| {
                if *limit == Limit::Sodium {
                    thousands(a)
                } else {
                    grams(a)
                }
            };
            row.extend(own.into_iter().map(|a| a.map_or("-".to_owned(), format)));
            table.push_record(row);
        }
    }
    let mut table = table.build();
    table.with(Style::blank()).with(Padding::new(0, 1, 0, 0));
    table
        .to_string()
        .lines()
        .map(|l| l.trim_end().to_owned() + "\n")
        .collect()
}
