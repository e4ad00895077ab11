//! `trencher day eat`.

use super::super::arguments::DayArgs;
use super::super::{Failure, Outcome, whose};
use super::entries::{WhatArgs, meal_of, put, tell};
use super::log;
use crate::daylog::{ChangeKind, Moment, Sense, parse_at_on};
use clap::Args;

// `day eat`.
#[derive(Debug, Args)]
pub(crate) struct EatArgs {
    /// What was eaten
    #[command(flatten)]
    what: WhatArgs,
    /// When, such as 12:30, "yesterday 19:00", "last friday 20:00" or "2 hours ago" [without it:
    /// now]
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
    /// A planned entry by its number: it was eaten
    #[arg(long, value_name = "N", conflicts_with_all = ["dishes", "items", "fit", "served", "printed"])]
    planned: Option<u32>,
}

pub(super) fn eat(args: &EatArgs) -> Result<Outcome, Failure> {
    match args.planned {
        Some(number) => as_planned(args, number),
        None => put(&args.what, args.at.as_deref(), ChangeKind::Eaten),
    }
}

/// What was planned was eaten: at the planned time, or now where that has not come.
fn as_planned(args: &EatArgs, number: u32) -> Result<Outcome, Failure> {
    if args.what.diner.len() > 1 {
        return Err(Failure::Request(
            "--planned is an entry of one diner: name just one".to_owned(),
        ));
    }
    let (mut store, diner) = log::diner_of(args.what.diner.first().map(String::as_str))?;
    let was = store.entry(&diner.name, number)?;
    if !was.planned {
        return Err(Failure::Request(format!(
            "entry {number} is not planned: it was eaten already\n  = log it once more with `trencher day repeat {number}`"
        )));
    }
    let mut entry = was.entry.clone();
    match args.what.share.as_slice() {
        [] => {}
        [share] => entry = entry.with_share(*share),
        _ => return Err(Failure::Request("--share is given twice".to_owned())),
    }
    let now = log::now(diner.zone.as_deref())?;
    let planned_for = entry.at.instant().unwrap_or_else(|| now.timestamp());
    if let Some(text) = &args.at {
        let at = parse_at_on(text, entry.at.date, &now, Sense::Eaten)
            .map_err(|e| Failure::Request(e.to_string()))?;
        entry.at = Moment::from(&at);
    } else if planned_for > now.timestamp() {
        entry.at = Moment::from(&now);
    }
    if let Some(name) = &args.what.meal {
        entry.meal = meal_of(&diner, Some(name), &now)?;
    }
    let whose = whose::of_diner(diner, &DayArgs::default())?;
    let record = store.replace(&was, &entry, ChangeKind::Fulfilled)?;
    tell(&store, &[&whose], vec![record], args.what.format)
}
