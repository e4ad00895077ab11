//! What `trencher handout` is asked, and where its pages go.

use super::arguments::{DayArgs, DishArgs, Units};
use super::meal::MealArgs;
use super::out_file::write_whole;
use super::{Failure, log, note};
use crate::daylog::parse_day;
use crate::pages::handout::{Options, Paper, Signed};
use crate::people::Diner;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// What the file is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum HandoutFormat {
    /// A page for screen and printer
    Html,
    /// The plates alone, as a drawing
    Svg,
    /// The plates alone, as a picture
    Png,
    /// A day sheet for a terminal or a message
    Text,
}

/// Paper to print on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum PaperArg {
    /// 210 by 297 mm
    A4,
    /// 8.5 by 11 inches
    Letter,
}

// How a page is set, and who hands it out.
#[derive(Debug, Clone, Args)]
pub(crate) struct PageArgs {
    /// Paper to print on
    #[arg(long, value_enum, default_value = "a4")]
    pub paper: PaperArg,
    /// Who hands it out: stands at the head of every page
    #[arg(long = "from", value_name = "NAME")]
    pub coach: Option<String>,
}

// A page and the day it is handed out.
#[derive(Debug, Clone, Args)]
pub(crate) struct DatedPageArgs {
    #[command(flatten)]
    pub page: PageArgs,
    /// The day it is handed out, such as `today` or `2026-03-01`: stands at the head of every page
    #[arg(long, value_name = "DAY")]
    pub date: Option<String>,
}

// `handout`.
#[derive(Debug, Clone, Args)]
#[allow(clippy::struct_excessive_bools)] // switches of a command line
pub(crate) struct HandoutArgs {
    /// Which dishes
    #[command(flatten)]
    pub dish: DishArgs,
    /// File to write; `-` for standard output
    #[arg(short, long, value_name = "FILE")]
    pub output: PathBuf,
    /// What to write; without it the end of FILE's name decides
    #[arg(long, value_enum)]
    pub format: Option<HandoutFormat>,
    /// Two dishes facing each other on one page
    #[arg(long, group = "form")]
    pub two: bool,
    /// A contents page, then a page for each dish; the whole library when no dish is named
    #[arg(long, group = "form")]
    pub booklet: bool,
    /// For teaching: guess the amounts of each plate, then turn the page
    #[arg(long, group = "form")]
    pub quiz: bool,
    /// A picture for a phone, 1080 by 1920: the plate, four shares of the day, what to eat
    #[arg(long, group = "form")]
    pub card: bool,
    /// For teaching: the plate at life size over several sheets to cut and join, or as one .svg
    #[arg(long, group = "form")]
    pub life_size: bool,
    /// A day to tick off instead of dishes: portions as boxes, what a portion is, best foods
    #[arg(long = "day", group = "form", conflicts_with_all = ["dishes", "items", "title"])]
    pub day_sheet: bool,
    /// Of a day sheet: seven days side by side
    #[arg(long, requires = "day_sheet", conflicts_with = "by_meal")]
    pub week: bool,
    /// Of a day sheet: the boxes spread over the planned meals
    #[arg(long, requires = "day_sheet")]
    pub by_meal: bool,
    /// Title of a booklet or quiz
    #[arg(long, value_name = "TEXT")]
    pub title: Option<String>,
    /// Larger letters; a dish then takes up to two printed pages
    #[arg(long)]
    pub large_print: bool,
    /// Write over a file that is there already
    #[arg(long)]
    pub force: bool,
    /// The diner it is for: the same as --diner
    #[arg(long = "for", value_name = "NAME", conflicts_with_all = ["diner", "energy"])]
    pub for_diner: Option<String>,
    /// Paper, names and date
    #[command(flatten)]
    pub page: DatedPageArgs,
    /// Which meal
    #[command(flatten)]
    pub meal: MealArgs,
    /// Whose day
    #[command(flatten)]
    pub day: DayArgs,
    /// Cups, spoons and word senses
    #[arg(long, value_enum, default_value = "us")]
    pub units: Units,
}

/// Writes a page to where it was asked for.
pub(super) fn write(args: &HandoutArgs, bytes: &[u8]) -> Result<(), Failure> {
    if args.output.as_os_str() == "-" {
        use std::io::Write;
        std::io::stdout().lock().write_all(bytes)?;
        return Ok(());
    }
    write_whole(&args.output, bytes, args.force)?;
    note(&format!("wrote `{}`", args.output.display()));
    Ok(())
}

pub(super) fn day_args(args: &HandoutArgs) -> DayArgs {
    let mut day = args.day.clone();
    day.diner = args.for_diner.clone().or(day.diner);
    day
}

/// As asked for, or as the file's name ends.
pub(super) fn format(args: &HandoutArgs) -> HandoutFormat {
    args.format.unwrap_or_else(|| {
        let end = args
            .output
            .extension()
            .map(std::ffi::OsStr::to_ascii_lowercase);
        match end.as_ref().and_then(|e| e.to_str()) {
            Some("svg") => HandoutFormat::Svg,
            Some("png") => HandoutFormat::Png,
            Some("txt") => HandoutFormat::Text,
            _ => HandoutFormat::Html,
        }
    })
}

impl PageArgs {
    /// What it is printed on.
    pub(super) const fn paper(&self) -> Paper {
        match self.paper {
            PaperArg::A4 => Paper::A4,
            PaperArg::Letter => Paper::Letter,
        }
    }

    /// How a page for a client is set.
    pub(super) fn options(&self, client: Option<&Diner>) -> Options {
        Options {
            paper: self.paper(),
            large_print: false,
            signed: Signed {
                client: client.map(|diner| diner.name.clone()),
                coach: self.coach.clone(),
                date: None,
            },
        }
    }
}

impl DatedPageArgs {
    /// How a page for a client is set, with the day by the client's clock.
    pub(super) fn options(&self, client: Option<&Diner>) -> Result<Options, Failure> {
        let mut options = self.page.options(client);
        if let Some(text) = &self.date {
            let zone = client.and_then(|diner| diner.zone.as_deref());
            let day = parse_day(text, &log::now(zone)?).ok_or_else(|| {
                Failure::Request(format!(
                    "`{text}` is no day known here; write for example `2026-03-01` or `today`"
                ))
            })?;
            options.signed.date = Some(day.strftime("%-d %b %Y").to_string());
        }
        Ok(options)
    }
}
