//! `trencher day edit`, `day remove`, `day repeat`.

use super::super::arguments::{DayArgs, DishArgs, Format, Units, share_of_dish};
use super::super::plate::plates;
use super::super::today::standing_on;
use super::super::whose::{self, Whose};
use super::super::{Failure, Outcome, corrections, print_done};
use super::entries::{entry_from, meal_of, plausible, tell};
use super::log;
use crate::daylog::{
    ChangeKind, Eaten, Entry, Moment, Record, Sense, Store, parse_at, parse_at_on,
};
use crate::pages::day_words::{changed, removed};
use crate::people::Diner;
use clap::Args;
use std::path::PathBuf;

// `day edit`.
#[derive(Debug, Args)]
pub(crate) struct EditArgs {
    /// The entry by its number, as `day show` lists it
    number: u32,
    /// How much of the dish, such as 1/2, 40% or 2 for two servings
    #[arg(long, value_parser = share_of_dish)]
    share: Option<f64>,
    /// When; a time alone is of the entry's day
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
    /// The planned meal it belongs to
    #[arg(long, value_name = "NAME")]
    meal: Option<String>,
    /// Another dish in its place
    #[arg(long, value_name = "DISH")]
    dish: Option<String>,
    /// Components in its place, such as "2 cups romaine"; repeat for each
    #[arg(long = "item", value_name = "COMPONENT", conflicts_with = "dish")]
    items: Vec<String>,
    /// Folder of dish files to use beside the built-in library
    #[arg(long, value_name = "DIR")]
    library: Option<PathBuf>,
    /// Cups, spoons and word senses
    #[arg(long, value_enum, default_value = "us")]
    units: Units,
    /// Take also what can hardly be so, without asking
    #[arg(long)]
    yes: bool,
    /// Whose; may be left out when there is just one diner
    #[arg(long, value_name = "NAME")]
    diner: Option<String>,
    /// Output format
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
}

// `day remove`.
#[derive(Debug, Args)]
pub(crate) struct RemoveArgs {
    /// Entries by their numbers, as `day show` lists them
    #[arg(required = true)]
    numbers: Vec<u32>,
    /// Whose; may be left out when there is just one diner
    #[arg(long, value_name = "NAME")]
    diner: Option<String>,
}

// `day repeat`.
#[derive(Debug, Args)]
pub(crate) struct RepeatArgs {
    /// The entry by its number, as `day show` lists it
    number: u32,
    /// How much of the dish [without it: as much as before]
    #[arg(long, value_parser = share_of_dish)]
    share: Option<f64>,
    /// When [without it: now]
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
    /// The planned meal it belongs to [without it: the usual one at that hour]
    #[arg(long, value_name = "NAME")]
    meal: Option<String>,
    /// Whose; may be left out when there is just one diner
    #[arg(long, value_name = "NAME")]
    diner: Option<String>,
    /// Output format; CSV is a table as `day export` writes it
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
}

pub(super) fn edit(args: &EditArgs) -> Result<Outcome, Failure> {
    let anything = args.share.is_some()
        || args.at.is_some()
        || args.meal.is_some()
        || args.dish.is_some()
        || !args.items.is_empty();
    if !anything {
        return Err(Failure::Request(
            "nothing to change\n  = give --share, --at, --meal or --dish".to_owned(),
        ));
    }
    let (mut store, diner) = log::diner_of(args.diner.as_deref())?;
    let was = store.entry(&diner.name, args.number)?;
    let whose = whose::of_diner(diner.clone(), &DayArgs::default())?;
    let (entry, complete) = edited(args, &was, &diner, &whose)?;
    let now = store.replace(&was, &entry, ChangeKind::Edited)?;
    let done = format!("entry {} is changed", args.number);
    let text = match args.format {
        Format::Text => {
            let standing = standing_on(&store, &whose, now.entry.at.date)?;
            let left = if now.planned {
                &standing.left_if
            } else {
                &standing.left
            };
            changed(&was, &now, left)
        }
        Format::Json => crate::pages::escape::json(&now)?,
        Format::Csv => crate::daylog::Export::of(Vec::new(), vec![now]).to_csv(),
    };
    print_done(&done, &text)?;
    Ok(Outcome::done_if(complete && entry.uncounted.is_empty()))
}

/// The entry as it is to be, and whether every line of another dish could be read.
fn edited(
    args: &EditArgs,
    was: &Record,
    diner: &Diner,
    whose: &Whose,
) -> Result<(Entry, bool), Failure> {
    let mut entry = was.entry.clone();
    let mut complete = true;
    if args.dish.is_some() || !args.items.is_empty() {
        (entry, complete) = with_dish(args, was, whose)?;
    }
    if let Some(share) = args.share {
        entry = entry.with_share(share);
    }
    if let Some(text) = &args.at {
        let now = log::now(diner.zone.as_deref())?;
        let sense = if was.planned {
            Sense::Planned
        } else {
            Sense::Eaten
        };
        let at = parse_at_on(text, entry.at.date, &now, sense)
            .map_err(|e| Failure::Request(e.to_string()))?;
        // What was the usual meal of its hour goes along with the hour.
        let usual = diner.meals.usual_at(entry.at.time.hour());
        if entry.meal.as_ref() == usual.map(|meal| &meal.name) {
            entry.meal = meal_of(diner, None, &at)?;
        }
        entry.at = Moment::from(&at);
    }
    if let Some(name) = &args.meal {
        let now = log::now(diner.zone.as_deref())?;
        entry.meal = meal_of(diner, Some(name), &now)?;
    }
    Ok((entry, complete))
}

/// The entry with another dish in its place, as much of it, at the same time.
fn with_dish(args: &EditArgs, was: &Record, whose: &Whose) -> Result<(Entry, bool), Failure> {
    let dish = DishArgs {
        dishes: args.dish.iter().cloned().collect(),
        items: args.items.clone(),
        served: None,
        choose: Vec::new(),
        with_add_on: Vec::new(),
        as_written: false,
        service: None,
        printed: None,
        kitchen: None,
        library: args.library.clone(),
    };
    let catalogue = corrections::catalogue()?;
    let mut all = plates(&dish, args.units, &catalogue)?;
    if !args.yes {
        plausible(&all, whose, &catalogue)?;
    }
    let plate = all.remove(0);
    let eaten = Eaten {
        at: was.entry.at.clone(),
        meal: was.entry.meal.clone(),
        dish: String::new(),
        share: was.entry.share,
    };
    let entry = entry_from(&plate, whose, &catalogue, eaten)?;
    Ok((entry, plate.complete))
}

pub(super) fn remove(args: &RemoveArgs) -> Result<Outcome, Failure> {
    let (mut store, diner) = log::diner_of(args.diner.as_deref())?;
    let gone = store.remove(&diner.name, &args.numbers)?;
    print_done("the entries are removed", &removed(&gone))
}

pub(super) fn repeat(args: &RepeatArgs) -> Result<Outcome, Failure> {
    let (mut store, diner) = log::diner_of(args.diner.as_deref())?;
    let entry = repeated(args, &store, &diner)?;
    let whose = whose::of_diner(diner.clone(), &DayArgs::default())?;
    let records = store.put(
        &[(&diner.name, std::slice::from_ref(&entry))],
        ChangeKind::Repeated,
    )?;
    tell(&store, &[&whose], records, args.format)
}

fn repeated(args: &RepeatArgs, store: &Store, diner: &Diner) -> Result<Entry, Failure> {
    let was = store.entry(&diner.name, args.number)?;
    let mut entry = match args.share {
        Some(share) => was.entry.with_share(share),
        None => was.entry,
    };
    let now = log::now(diner.zone.as_deref())?;
    let at = match &args.at {
        Some(text) => {
            parse_at(text, &now, Sense::Eaten).map_err(|e| Failure::Request(e.to_string()))?
        }
        None => now,
    };
    entry.meal = meal_of(diner, args.meal.as_deref(), &at)?;
    entry.at = Moment::from(&at);
    Ok(entry)
}
