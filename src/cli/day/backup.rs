//! `trencher day export`, `trencher day import`.

use super::super::{Failure, Outcome, print_done, warn};
use super::log;
use crate::daylog::{ExportForm, LogError};
use clap::{Args, ValueEnum};
use std::io::{IsTerminal, Read as _, Write as _};
use std::path::{Path, PathBuf};

// `day export`.
#[derive(Debug, Args)]
pub(crate) struct ExportArgs {
    /// Whose [without it: everybody's]
    #[arg(long, value_name = "NAME")]
    diner: Option<String>,
    /// JSON holds the diners and the changes too; CSV is the entries alone
    #[arg(long, value_enum, default_value = "json")]
    format: ExportFormat,
}

// `day import`.
#[derive(Debug, Args)]
pub(crate) struct ImportArgs {
    /// A file written by `day export` or `diner export`
    file: PathBuf,
}

/// How an export is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum ExportFormat {
    /// Everything, diners and changes included
    Json,
    /// The entries as a table
    Csv,
}

pub(super) fn export(args: &ExportArgs) -> Result<Outcome, Failure> {
    let (store, name) = match (args.diner.as_deref(), log::open_if_any()?) {
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
    let form = match args.format {
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

pub(super) fn import(args: &ImportArgs) -> Result<Outcome, Failure> {
    let file = &args.file;
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
    Ok(Outcome::done_if(same))
}
