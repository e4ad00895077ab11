//! `trencher day show`, `day left`, `day history`.

use super::super::arguments::DayArgs;
use super::super::handout_args::{DatedPageArgs, PageArgs};
use super::super::look_back::LookBack;
use super::super::today::{standing_on, unheld_on};
use super::super::{Failure, Outcome, whose};
use super::{log, print};
use crate::daylog::entry::YEARS;
use crate::daylog::{furthest_beyond, parse_day};
use crate::pages::day_page::DayPage;
use crate::pages::history_page::HistoryPage;
use crate::people::fluid;
use crate::people::{Diner, NoTarget, day_target};
use clap::{Args, ValueEnum};
use jiff::ZonedDateTime;
use jiff::civil::Date;

/// Meals named that went furthest beyond their part of the day.
const BEYOND: usize = 3;

/// How a page of days looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum PageFormat {
    /// Tables for people
    Text,
    /// JSON for programs
    Json,
    /// CSV for spreadsheets
    Csv,
    /// A page to print or send
    Html,
}

// `day show`, `day left`.
#[derive(Debug, Args)]
pub(crate) struct LookArgs {
    /// Whose; may be left out when there is just one diner
    #[arg(long, value_name = "NAME")]
    diner: Option<String>,
    /// Which day, such as 2026-03-01, yesterday, tomorrow or "last monday" [without it: today]
    #[arg(long)]
    date: Option<String>,
    /// Output format
    #[arg(long, value_enum, default_value = "text")]
    format: PageFormat,
    /// Of a page: paper and who hands it out; its day is at its head
    #[command(flatten)]
    page: PageArgs,
}

// `day history`.
#[derive(Debug, Args)]
pub(crate) struct HistoryArgs {
    /// Whose; may be left out when there is just one diner
    #[arg(long, value_name = "NAME")]
    diner: Option<String>,
    /// How many weeks, up to and with today
    #[arg(long, default_value_t = 2, value_parser = clap::value_parser!(u32).range(1..=520))]
    weeks: u32,
    /// Output format
    #[arg(long, value_enum, default_value = "text")]
    format: PageFormat,
    /// Of a page: paper, names and date
    #[command(flatten)]
    page: DatedPageArgs,
}

pub(super) fn look(args: &LookArgs, show: bool) -> Result<Outcome, Failure> {
    let (store, diner) = log::diner_of(args.diner.as_deref())?;
    let now = log::now(diner.zone.as_deref())?;
    let date = match &args.date {
        Some(text) => date_of(text, &now)?,
        None => now.date(),
    };
    let refusal = refusal(&diner, now.date())?;
    let fluid = fluid::of_diner(&diner, date).filter(|_| refusal.is_none());
    let fluid_ml = fluid.map(|f| f.beverages_ml);
    let standing = match refusal {
        None => standing_on(
            &store,
            &whose::of_diner(diner.clone(), &DayArgs::default())?,
            date,
        )?,
        Some(_) => unheld_on(&store, &diner.name, date)?,
    };
    let page = DayPage {
        diner: &diner.name,
        date,
        records: &standing.records,
        planned: &standing.planned,
        total: &standing.total,
        left: match &refusal {
            None => Ok(&standing.left),
            Some(sentence) => Err(sentence),
        },
        left_if: &standing.left_if,
        nutrients: &standing.nutrients,
        nutrients_if: &standing.nutrients_if,
        meals: &diner.meals,
        fluid_ml,
    };
    match (args.format, show) {
        (PageFormat::Text, true) => print(&page.shown()),
        (PageFormat::Text, false) => print(&page.left()),
        (PageFormat::Json, _) => print(&page.json()?),
        (PageFormat::Csv, _) => print(&page.csv()?),
        (PageFormat::Html, _) => print(&page.html(show, &args.page.options(Some(&diner)))?),
    }
}

/// The sentence that stands in for figures, if any.
fn refusal(diner: &Diner, today: Date) -> Result<Option<String>, Failure> {
    match day_target(diner, today) {
        Ok(_) => Ok(None),
        Err(NoTarget::Refused(sentence)) => Ok(Some(sentence.to_string())),
        Err(other) => Err(other.into()),
    }
}

/// A day as people say it.
fn date_of(text: &str, now: &ZonedDateTime) -> Result<Date, Failure> {
    let date = parse_day(text, now).ok_or_else(|| {
        Failure::Request(format!(
            "`{text}` is no day known here; write for example `2026-03-01`, `yesterday` or `monday`"
        ))
    })?;
    let year = date.year();
    if !YEARS.contains(&year) {
        return Err(Failure::Request(format!(
            "`{text}` is of the year {year}, of which nothing is logged; give {} to {}",
            YEARS.start(),
            YEARS.end()
        )));
    }
    Ok(date)
}

pub(super) fn history(args: &HistoryArgs) -> Result<Outcome, Failure> {
    let (store, diner) = log::diner_of(args.diner.as_deref())?;
    let today = log::today(&diner)?;
    let meals = diner.meals.clone();
    let whose = whose::of_diner(diner, &DayArgs::default())?;
    let name = whose.diner.as_ref().map_or("", |diner| &diner.name);
    let span = LookBack::of(&store, name, today, args.weeks)?;
    let allowances = whose.allowances();
    let beyond = furthest_beyond(span.records(), &allowances, &meals, BEYOND);
    let page = HistoryPage {
        diner: name,
        days: span.days(),
        weeks: span.weeks(),
        beyond: &beyond,
        allowances: &allowances,
    };
    match args.format {
        PageFormat::Text => print(&page.text()),
        PageFormat::Json => print(&page.json()?),
        PageFormat::Csv => print(&page.csv()?),
        PageFormat::Html => print(&page.html(&args.page.options(whose.diner.as_ref())?)?),
    }
}
