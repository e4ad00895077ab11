//! `trencher diner overview`.

use super::arguments::DayArgs;
use super::day::look::PageFormat;
use super::handout_args::DatedPageArgs;
use super::look_back::LookBack;
use super::{Failure, Outcome, log, print, warn, whose};
use crate::daylog::{Store, averages};
use crate::pages::overview_page::{Client, OverviewPage};
use crate::people::{Diner, NoTarget, day_target};
use clap::Args;

// `diner overview`.
#[derive(Debug, Args)]
pub(crate) struct OverviewArgs {
    /// How many weeks, up to and with today
    #[arg(long, default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..=520))]
    weeks: u32,
    /// Output format
    #[arg(long, value_enum, default_value = "text")]
    format: PageFormat,
    /// Of a page: paper, names and date
    #[command(flatten)]
    page: DatedPageArgs,
}

pub(super) fn run(args: &OverviewArgs) -> Result<Outcome, Failure> {
    let mut clients = Vec::new();
    if let Some(store) = log::open_if_any()? {
        for diner in store.diners()? {
            clients.push(client(&store, diner, args.weeks)?);
        }
    }
    let page = OverviewPage {
        clients: &clients,
        days: args.weeks as usize * 7,
    };
    match args.format {
        PageFormat::Text => print(&page.text()),
        PageFormat::Json => print(&page.json()?),
        PageFormat::Csv => print(&page.csv()?),
        PageFormat::Html => print(&page.html(&args.page.options(None)?)?),
    }
}

/// How one client's last weeks stand; without figures where none is given to them.
fn client(store: &Store, diner: Diner, weeks: u32) -> Result<Client, Failure> {
    let today = log::today(&diner)?;
    let name = diner.name.clone();
    let span = LookBack::of(store, &name, today, weeks)?;
    let averages = match day_target(&diner, today) {
        Err(NoTarget::Refused(_)) => None,
        _ => match whose::of_diner(diner, &DayArgs::default()) {
            Ok(whose) => Some(averages(span.days(), &whose.allowances())),
            // The others are shown all the same.
            Err(failure) => {
                warn(&format!("{name}: {failure}"));
                None
            }
        },
    };
    let mut logged = span.days().iter().filter(|day| day.entries > 0);
    Ok(Client {
        logged: logged.clone().count(),
        last: logged.next_back().map(|day| day.date),
        averages,
        name,
    })
}
