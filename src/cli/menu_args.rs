//! What people type after `trencher menu`.

use super::arguments::{DayArgs, Serves, Units};
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// How a menu is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum MenuInput {
    /// A header with the column `item`, then an item a row
    Csv,
    /// One JSON object a line with the same fields
    Ndjson,
    /// A menu as web pages publish it (schema.org)
    Jsonld,
}

/// How the answer is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum MenuFormat {
    /// What the whole menu comes to, for people
    Text,
    /// The same as a page to print or send
    Html,
    /// One row an item
    Csv,
    /// One JSON object an item, a line each
    Ndjson,
    /// One row an item, for data engines
    #[cfg(feature = "parquet")]
    Parquet,
}

// `menu`.
#[derive(Debug, Clone, Args)]
#[command(after_help = "\
Examples:
  trencher menu lunch.csv                           what the menu comes to
  trencher menu lunch.csv -o audited.csv            a row for every item
  trencher menu chain.ndjson.gz -o out.ndjson.gz --rejects bad.ndjson
  trencher menu page.jsonld --where 'energy below 700 and vegetables at least 1'
  trencher menu lunch.csv --left --diner Ana        what fits the rest of Ana's day best
  trencher menu lunch.csv --sort sodium --falling --top 10 --format csv
  gzip -dc big.csv.gz | trencher menu - --format ndjson | less")]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a switch of the command line"
)]
pub(crate) struct MenuArgs {
    /// The menu: a file, gzipped or not, or `-` for standard input
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// Write the rows to a file, packed when its name ends in .gz; `-` for standard output
    #[arg(short, long, value_name = "OUT")]
    pub output: Option<PathBuf>,
    /// Form of the answer [default: by OUT's ending; on a terminal text, else as the menu]
    #[arg(long, value_enum)]
    pub format: Option<MenuFormat>,
    /// Form of the menu [default: by FILE's ending, else by its first bytes]
    #[arg(long, value_enum, value_name = "FORM")]
    pub input: Option<MenuInput>,
    /// Only items that meet an expression, such as 'energy below 700 and not contains "pork"'
    #[arg(long = "where", value_name = "EXPRESSION")]
    pub filter: Option<String>,
    /// Sort by a figure, smallest first, such as energy, "saturated fat" or "grains share"
    #[arg(long, value_name = "FIGURE")]
    pub sort: Option<String>,
    /// Largest first
    #[arg(long, requires = "sort")]
    pub falling: bool,
    /// Only the first so many of the sorted items
    #[arg(long, value_name = "N", requires = "sort")]
    pub top: Option<usize>,
    /// Rank by how well an item fits what is left of the diner's day: groups still short count
    /// for it, limits that it takes beyond what is left count against
    #[arg(long, requires = "diner", conflicts_with_all = ["sort", "keyed", "resume"])]
    pub left: bool,
    /// Write rows that cannot be used to a file, unchanged
    #[arg(long, value_name = "FILE")]
    pub rejects: Option<PathBuf>,
    /// Carry the field `key` of each row through, and write rows that cannot be used among the
    /// others, with `reason`; of NDJSON to NDJSON
    #[arg(long, conflicts_with = "sort")]
    pub keyed: bool,
    /// Write over files that are there already
    #[arg(long)]
    pub force: bool,
    /// Leave out the first N rows, done by an earlier run that was stopped
    #[arg(long, value_name = "N", conflicts_with = "sort")]
    pub resume: Option<u64>,
    /// Part of the day that one meal takes, such as 35%, or a meal by name, such as lunch
    /// [without it: a third of the day, or the main meal of a diner's plan]
    #[arg(long, value_name = "SHARE|MEAL")]
    pub meal: Option<String>,
    /// Write what the whole menu comes to, to a file
    #[arg(long, value_name = "FILE")]
    pub summary: Option<PathBuf>,
    /// Workers [default: one a core]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=256))]
    pub threads: Option<u16>,
    /// Folder of dish files to use beside the built-in library
    #[arg(long, value_name = "DIR")]
    pub library: Option<PathBuf>,
    /// Leave out fat and coating that only cooking words imply
    #[arg(long)]
    pub as_written: bool,
    /// How the restaurant serves, where that is known: full-service restaurants serve more
    #[arg(long, value_enum, value_name = "HOW")]
    pub service: Option<Serves>,
    /// Whose day
    #[command(flatten)]
    pub day: DayArgs,
    /// Cups, spoons and word senses
    #[arg(long, value_enum, default_value = "us")]
    pub units: Units,
}
