//! `trencher day ...`: what a person ate on which day, and what is left.

mod eat;

use super::arguments::{DayArgs, Format};
use super::today::{Standing, standing_on};
use super::{Failure, Outcome, log, print, print_done, warn, whose};
use crate::daylog::entry::YEARS;
use crate::daylog::{DayTotal, ExportForm, LogError, parse_at};
use crate::pages::day_page::{DayPage, dish as in_words};
use crate::pages::history_page::HistoryPage;
use crate::people::fluid::adequate_intake;
use crate::people::{Diner, NoTarget, day_target};
use clap::{Args, Subcommand, ValueEnum};
use jiff::ZonedDateTime;
use jiff::civil::Date;
use std::io::{IsTerminal, Read as _, Write as _};
use std::path::{Path, PathBuf};

/// `day ...`.
#[derive(Debug, Subcommand)]
#[allow(clippy::large_enum_variant)] // one value per run
pub(crate) enum DayCommand {
    /// Log something eaten or drunk
    Eat(eat::EatArgs),
    /// What was eaten on a day, and how it stands
    Show(LookArgs),
    /// What is left of a day
    Left(LookArgs),
    /// Take back the entry that was logged last
    Undo {
        /// Whose; may be left out when there is just one diner
        #[arg(long, value_name = "NAME")]
        diner: Option<String>,
    },
    /// Look back, group by group
    History {
        /// Whose; may be left out when there is just one diner
        #[arg(long, value_name = "NAME")]
        diner: Option<String>,
        /// How many weeks, up to and with today
        #[arg(long, default_value_t = 2, value_parser = clap::value_parser!(u32).range(1..=520))]
        weeks: u32,
        /// Output format
        #[arg(long, value_enum, default_value = "text")]
        format: Format,
    },
    /// Everything logged, for other programs and for `day import`
    Export {
        /// Whose [without it: everybody's]
        #[arg(long, value_name = "NAME")]
        diner: Option<String>,
        /// JSON holds the diners too; CSV is the entries alone
        #[arg(long, value_enum, default_value = "json")]
        format: ExportFormat,
    },
    /// Bring an export back; what is here already stays as it is
    Import {
        /// A file written by `day export` or `diner export`
        file: PathBuf,
    },
}

/// How an export is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum ExportFormat {
    /// Everything, diners included
    Json,
    /// The entries as a table
    Csv,
}

/// `day show`, `day left`.
#[derive(Debug, Args)]
pub(crate) struct LookArgs {
    /// Whose; may be left out when there is just one diner
    #[arg(long, value_name = "NAME")]
    diner: Option<String>,
    /// Which day, such as 2026-03-01, yesterday or monday [without it: today]
    #[arg(long)]
    date: Option<String>,
    /// Output format
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
}

pub(super) fn run(command: DayCommand) -> Result<Outcome, Failure> {
    match command {
        DayCommand::Eat(args) => eat::eat(&args),
        DayCommand::Show(args) => look(&args, true),
        DayCommand::Left(args) => look(&args, false),
        DayCommand::Undo { diner } => undo(diner.as_deref()),
        DayCommand::History {
            diner,
            weeks,
            format,
        } => history(diner.as_deref(), weeks, format),
        DayCommand::Export { diner, format } => export(diner.as_deref(), format),
        DayCommand::Import { file } => import(&file),
    }
}

fn look(args: &LookArgs, show: bool) -> Result<Outcome, Failure> {
    let (store, diner) = log::diner_of(args.diner.as_deref())?;
    let now = log::now(diner.zone.as_deref())?;
    let date = match &args.date {
        Some(text) => date_of(text, &now)?,
        None => now.date(),
    };
    let refusal = refusal(&diner, now.date())?;
    let fluid_ml = match (diner.sex, diner.age_on(date)) {
        (Some(sex), Some(age)) if refusal.is_none() => {
            adequate_intake(sex, age, diner.pregnant_or_nursing).map(|f| f.beverages_ml)
        }
        _ => None,
    };
    let standing = match refusal {
        None => standing_on(
            &store,
            &whose::of_diner(diner.clone(), &DayArgs::default())?,
            date,
        )?,
        Some(_) => Standing::without_figures(&store, &diner, date)?,
    };
    let page = DayPage {
        diner: &diner.name,
        date,
        records: &standing.records,
        total: &standing.total,
        left: match &refusal {
            None => Ok(&standing.left),
            Some(sentence) => Err(sentence),
        },
        meals: &diner.meals,
        fluid_ml,
    };
    match (args.format, show) {
        (Format::Text, true) => print(&page.shown()),
        (Format::Text, false) => print(&page.left()),
        (Format::Json, _) => print(&page.json()?),
        (Format::Csv, _) => print(&page.csv()?),
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

/// A day as people say it: a date, `today`, `yesterday`, a weekday.
fn date_of(text: &str, now: &ZonedDateTime) -> Result<Date, Failure> {
    // Noon is on no zone's list of times that the clock skips.
    let at = parse_at(&format!("{} 12:00", text.trim()), now);
    let at = at.map_err(|_| {
        Failure::Request(format!(
            "`{text}` is no day known here; write for example `2026-03-01`, `yesterday` or `monday`"
        ))
    })?;
    let year = at.year();
    if !YEARS.contains(&year) {
        return Err(Failure::Request(format!(
            "`{text}` is of the year {year}, of which nothing is logged; give {} to {}",
            YEARS.start(),
            YEARS.end()
        )));
    }
    Ok(at.date())
}

fn undo(name: Option<&str>) -> Result<Outcome, Failure> {
    let (mut store, diner) = log::diner_of(name)?;
    match store.undo(&diner.name)? {
        Some(record) => {
            let entry = &record.entry;
            let text = format!(
                "Taken back for {}: {}, {} {}\n",
                record.diner,
                in_words(&entry.dish, entry.share),
                entry.at.date.strftime("%a %-d %b"),
                entry.at.time.strftime("%H:%M")
            );
            print_done("the last entry is taken back", &text)
        }
        None => print(&format!("Nothing is logged for {}\n", diner.name)),
    }
}

fn history(name: Option<&str>, weeks: u32, format: Format) -> Result<Outcome, Failure> {
    let (store, diner) = log::diner_of(name)?;
    let today = log::today(&diner)?;
    let whose = whose::of_diner(diner, &DayArgs::default())?;
    let name = whose.diner.as_ref().map_or("", |diner| &diner.name);
    let days: Vec<DayTotal> = store.history(name, today, weeks)?;
    let allowances = whose.allowances();
    let page = HistoryPage {
        diner: name,
        days: &days,
        allowances: &allowances,
    };
    match format {
        Format::Text => print(&page.text()),
        Format::Json => print(&page.json()?),
        Format::Csv => print(&page.csv()?),
    }
}

fn export(name: Option<&str>, format: ExportFormat) -> Result<Outcome, Failure> {
    let (store, name) = match (name, log::open_if_any()?) {
        (Some(name), _) => {
            let (store, diner) = log::diner_of(Some(name))?;
            (store, Some(diner.name))
        }
        (None, Some(store)) => (store, None),
        (None, None) => {
            return Err(Failure::Request(
                "nothing is kept here yet, so there is nothing to export".to_owned(),
            ));
        }
    };
    let out = std::io::stdout();
    let form = match format {
        ExportFormat::Json => ExportForm::Json,
        ExportFormat::Csv => ExportForm::Table {
            shown: out.is_terminal(),
        },
    };
    let mut out = std::io::BufWriter::new(out.lock());
    store.export_to(name.as_deref(), form, &mut out)?;
    out.flush()?;
    Ok(Outcome::Done)
}

/// Most that is taken from a pipe or a device, which has no size to go by, bytes.
const MOST_PIPED: u64 = 1 << 30;

/// An export, which is read more than once: a pipe goes through a file without a name.
fn opened(file: &Path) -> Result<std::fs::File, Failure> {
    let failed =
        |e: std::io::Error| Failure::File(format!("cannot read `{}`: {e}", file.display()));
    let mut from = std::fs::File::open(file).map_err(failed)?;
    let about = from.metadata().map_err(failed)?;
    if about.is_dir() {
        return Err(Failure::File(format!(
            "`{}` is a folder: name a file in it",
            file.display()
        )));
    }
    if about.is_file() {
        return Ok(from);
    }
    let mut kept = tempfile::tempfile().map_err(failed)?;
    let read = std::io::copy(&mut (&mut from).take(MOST_PIPED + 1), &mut kept);
    if read.map_err(failed)? > MOST_PIPED {
        return Err(Failure::Request(format!(
            "`{}` gives more than 1 GB\n  = name a file, which may be larger",
            file.display()
        )));
    }
    Ok(kept)
}

fn import(file: &Path) -> Result<Outcome, Failure> {
    let mut from = opened(file)?;
    let report = log::open()?.import_from(&mut from, log::now(None)?.date());
    let report = report.map_err(|error| match error {
        LogError::Read(error) => Failure::Request(format!("`{}`: {error}", file.display())),
        error => error.into(),
    })?;
    let many = |count: usize, one: &str, more: &str| match count {
        1 => format!("1 {one}"),
        _ => format!("{count} {more}"),
    };
    let (diners, entries) = (
        many(report.diners_added, "diner", "diners"),
        many(report.entries_added, "entry", "entries"),
    );
    let here = many(report.entries_present, "entry", "entries");
    let done = format!("Brought back {diners} and {entries}; here already: {here}\n");
    print_done("the export is brought back", &done)?;
    for name in &report.diners_differing {
        warn(&format!(
            "the diner `{name}` is here with other details, which were kept"
        ));
    }
    for entry in &report.entries_differing {
        warn(&format!(
            "`{entry}` is here with other figures, which were kept"
        ));
    }
    let same = report.diners_differing.is_empty() && report.entries_differing.is_empty();
    Ok(if same { Outcome::Done } else { Outcome::Partly })
}
