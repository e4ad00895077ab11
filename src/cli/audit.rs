//! `trencher audit`.

use super::arguments::{AuditArgs, Format, Units};
use super::input::{self, Read_};
use super::{Failure, Outcome, print};
use crate::catalogue::Catalogue;
use crate::estimate::{match_dish, weigh_dish};
use crate::groups::{Audit, Day, audit};
use crate::pages::{csv_page, json, text};
use std::io::IsTerminal;

pub(super) fn run(args: &AuditArgs) -> Result<Outcome, Failure> {
    let units = args.common.units.into();
    let standard = input::standard(&args.day.standard)?;
    let (day, general) = input::day(&args.day, &standard)?;
    let mut dishes = Vec::new();
    if !args.items.is_empty() {
        dishes.push(input::items(&args.items, units)?);
    }
    for argument in &args.dishes {
        dishes.push(input::dish(argument, args.library.as_deref(), units)?);
    }
    if dishes.is_empty() {
        return Err(Failure::Request(
            "nothing to audit\n  = name a dish, a file, `-` for standard input, or give --item"
                .to_owned(),
        ));
    }
    let catalogue = Catalogue::embedded()?;
    let mut outcome = Outcome::Done;
    for (at, read) in dishes.into_iter().enumerate() {
        if at > 0 && args.common.format == Format::Text {
            print("\n")?;
        }
        let complete = read.complete;
        let mut result = of(read, &catalogue, day, args.common.units == Units::Metric);
        result.notes.extend(general.clone());
        print(&render(&result, &catalogue, args)?)?;
        if !complete || !result.unmatched.is_empty() {
            outcome = Outcome::Partly;
        }
    }
    Ok(outcome)
}

fn of(read: Read_, catalogue: &Catalogue, day: Day<'_>, british: bool) -> Audit {
    let matched = match_dish(read.dish, catalogue, british);
    audit(&weigh_dish(matched, catalogue), catalogue, day)
}

fn render(result: &Audit, catalogue: &Catalogue, args: &AuditArgs) -> Result<String, Failure> {
    let failed = |e: &dyn std::fmt::Display| Failure::File(format!("cannot write: {e}"));
    match args.common.format {
        Format::Text => {
            let accent = std::env::var_os("NO_COLOR").is_none() && std::io::stdout().is_terminal();
            Ok(text::audit(
                result,
                catalogue,
                text::Look {
                    accent,
                    why: args.common.why,
                },
            ))
        }
        Format::Json => json::audit(result, catalogue).map_err(|e| failed(&e)),
        Format::Csv => csv_page::audit(result, catalogue).map_err(|e| failed(&e)),
    }
}
