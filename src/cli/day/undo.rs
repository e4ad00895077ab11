//! `trencher day undo`, `day changes`.

use super::super::arguments::Format;
use super::super::{Failure, Outcome, print_done};
use super::{log, print};
use crate::pages::changes_page::ChangesPage;
use crate::pages::day_words::taken_back;
use clap::Args;

// `day undo`.
#[derive(Debug, Args)]
pub(crate) struct UndoArgs {
    /// Whose; may be left out when there is just one diner; repeat for what was done together
    #[arg(long, value_name = "NAME")]
    diner: Vec<String>,
}

// `day changes`.
#[derive(Debug, Args)]
pub(crate) struct ChangesArgs {
    /// Whose; may be left out when there is just one diner
    #[arg(long, value_name = "NAME")]
    diner: Option<String>,
    /// How many
    #[arg(long, default_value_t = 20)]
    last: u32,
    /// Output format
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
}

pub(super) fn undo(args: &UndoArgs) -> Result<Outcome, Failure> {
    let (mut store, diners) = log::diners_of(&args.diner)?;
    let mut text = String::new();
    for diner in &diners {
        let undone = store.undo(&diner.name)?;
        text.push_str(&taken_back(&diner.name, &undone));
    }
    print_done("what was done last is taken back", &text)
}

pub(super) fn changes(args: &ChangesArgs) -> Result<Outcome, Failure> {
    let (store, diner) = log::diner_of(args.diner.as_deref())?;
    let zone = log::now(diner.zone.as_deref())?.time_zone().clone();
    let changes = store.changes(&diner.name, args.last)?;
    let page = ChangesPage {
        diner: &diner.name,
        changes: &changes,
        zone: &zone,
    };
    match args.format {
        Format::Text => print(&page.text()),
        Format::Json => print(&page.json()?),
        Format::Csv => print(&page.csv()?),
    }
}
