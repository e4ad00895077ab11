//! The command line as people type it. Nothing below `cli/` knows these types.

use crate::daylog::entry::MOST_SHARE;
use crate::quantity::parse_share;
use crate::weighing::Service;
use clap::{Args, Subcommand, ValueEnum};
use std::path::PathBuf;

/// How output looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Format {
    /// Tables for people
    Text,
    /// JSON for programs
    Json,
    /// CSV for spreadsheets
    Csv,
}

/// Which measures volumes and sizes are in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Units {
    /// US customary cups and spoons, American senses of words
    Us,
    /// 250 ml cups, British senses of words
    Metric,
}

/// How a restaurant serves its guests.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Serves {
    /// At a table, to be paid after the meal
    Table,
    /// At a counter, to be paid first
    Counter,
}

impl From<Serves> for Service {
    fn from(serves: Serves) -> Self {
        match serves {
            Serves::Table => Self::Table,
            Serves::Counter => Self::Counter,
        }
    }
}

/// Where beans, peas and lentils count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Pulses {
    /// As vegetables, by the cup
    Vegetables,
    /// As protein foods, by the ounce
    Protein,
}

// Options that several commands share.
#[derive(Debug, Clone, Args)]
pub(crate) struct Common {
    /// Output format
    #[arg(long, value_enum, default_value = "text")]
    pub format: Format,
    /// Cups, spoons and word senses
    #[arg(long, value_enum, default_value = "us")]
    pub units: Units,
    /// Show where each figure comes from
    #[arg(long)]
    pub why: bool,
}

// Whose day the dish is held against.
#[derive(Debug, Clone, Default, Args)]
pub(crate) struct DayArgs {
    /// A diner added with `diner add`; their energy, standard and pulses are used
    #[arg(long, value_name = "NAME")]
    pub diner: Option<String>,
    /// Energy need in kcal a day, of an adult [without it: 2,000, for general advice]
    #[arg(long, value_name = "KCAL", conflicts_with = "diner")]
    pub energy: Option<f64>,
    /// A standard by name, or a file of your own [without it: the diner's, or us-style]
    #[arg(long, value_name = "NAME|FILE")]
    pub standard: Option<String>,
    /// Count beans, peas and lentils as [without it: the diner's way, or vegetables]
    #[arg(long, value_enum)]
    pub pulses: Option<Pulses>,
}

// Which dishes, and what is known of them.
#[derive(Debug, Clone, Args)]
pub(crate) struct DishArgs {
    /// A dish: `-` for component lines on standard input, a file, a library name, or a menu line
    #[arg(value_name = "DISH")]
    pub dishes: Vec<String>,
    /// One component, such as "2 cups romaine"; repeat for each
    #[arg(long = "item", value_name = "COMPONENT")]
    pub items: Vec<String>,
    /// What the whole serving weighs or fills, such as "450 g" or "32 fl oz bowl, full"
    #[arg(long, value_name = "AMOUNT")]
    pub served: Option<String>,
    /// Of a dish that offers a choice, what is taken, such as "soup"; repeat for each
    #[arg(long, value_name = "OPTION")]
    pub choose: Vec<String>,
    /// An add-on of the dish that is had, such as "egg"; repeat for each
    #[arg(long = "with", value_name = "ADD-ON")]
    pub with_add_on: Vec<String>,
    /// Leave out fat and coating that only cooking words imply
    #[arg(long)]
    pub as_written: bool,
    /// How the restaurant serves, where that is known: full-service restaurants serve more
    #[arg(long, value_enum, value_name = "HOW")]
    pub service: Option<Serves>,
    /// Energy that the restaurant prints for the dish, kcal
    #[arg(long, value_name = "KCAL", value_parser = printed)]
    pub printed: Option<f64>,
    /// What is known of the place that serves it: a menu with `energy_kcal`, or a weight
    /// under `served`, for some of its items
    #[arg(long, value_name = "FILE")]
    pub kitchen: Option<PathBuf>,
    /// Folder of dish files to use beside the built-in library
    #[arg(long, value_name = "DIR")]
    pub library: Option<PathBuf>,
}

// `audit`.
#[derive(Debug, Clone, Args)]
pub(crate) struct AuditArgs {
    /// Which dishes
    #[command(flatten)]
    pub dish: DishArgs,
    /// Ask which food is meant wherever that is not sure
    #[arg(long)]
    pub interactive: bool,
    /// Whose day
    #[command(flatten)]
    pub day: DayArgs,
    /// How much of it, such as 1/2, 40% or 2 for two servings [without it: all of it]
    #[arg(long, value_parser = share_of_dish)]
    pub share: Option<f64>,
    /// The diner's planned meal it is for [without it: the usual one at this hour]
    #[arg(long, value_name = "NAME", requires = "diner")]
    pub meal: Option<String>,
    /// Hold it against what is left of the diner's day: which groups that are still short it
    /// brings, which limits it takes beyond what is left
    #[arg(long, requires = "diner")]
    pub left: bool,
    /// Bars beside the shares of a day
    #[arg(long, value_enum, value_name = "WHEN", default_value = "auto")]
    pub bars: Bars,
    /// Shared options
    #[command(flatten)]
    pub common: Common,
}

/// When shares are shown as bars too.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Bars {
    /// On a terminal that is wide enough (90 columns are) and not `dumb`
    Auto,
    /// On lines of up to 100 columns, wherever they go
    Always,
    /// Not at all: for a screen reader
    Never,
}

/// `dish ...`.
#[derive(Debug, Subcommand)]
#[command(defer = true)]
pub(crate) enum DishCommand {
    /// Names and kinds of the library's dishes
    List {
        /// Folder of dish files to use beside the built-in library
        #[arg(long, value_name = "DIR")]
        library: Option<PathBuf>,
        /// Output format
        #[arg(long, value_enum, default_value = "text")]
        format: Format,
    },
    /// A dish as its file has it
    Show {
        /// Name of the dish, or a file
        dish: String,
        /// Folder of dish files to use beside the built-in library
        #[arg(long, value_name = "DIR")]
        library: Option<PathBuf>,
    },
    /// Hold dish files against the catalogue
    Check {
        /// Dish files or folders
        #[arg(required = true)]
        files: Vec<PathBuf>,
    },
    /// Start a dish file from component lines on standard input
    New {
        /// Name of the dish
        name: String,
        /// Kind of dish, such as "grain bowl"
        #[arg(long, default_value = "mixed plate")]
        kind: String,
        /// Folder to write the file into
        #[arg(long, value_name = "DIR", default_value = ".")]
        into: PathBuf,
    },
}

/// `food corrections ...`.
#[derive(Debug, Clone, Subcommand)]
#[command(defer = true)]
pub(crate) enum CorrectionsCommand {
    /// What you have said that words mean, and the file it is kept in
    List {
        /// Output format
        #[arg(long, value_enum, default_value = "text")]
        format: Format,
    },
    /// Take a correction away
    Remove {
        /// The words it is for
        #[arg(required = true)]
        words: Vec<String>,
    },
}

/// `food ...`.
#[derive(Debug, Subcommand)]
#[command(defer = true)]
pub(crate) enum FoodCommand {
    /// Which food some words mean
    Find {
        /// The words
        #[arg(required = true)]
        words: Vec<String>,
        /// How many candidates
        #[arg(long, default_value_t = 5)]
        top: usize,
        /// Take the words for this food from now on: its name, its code, or `none`
        #[arg(long, value_name = "FOOD")]
        correct: Option<String>,
        /// Shared options
        #[command(flatten)]
        common: Common,
    },
    /// Match the names of a CSV file to a food table
    Match(MatchArgs),
    /// What you have said that words mean
    #[command(subcommand)]
    Corrections(CorrectionsCommand),
    /// All figures of a food
    Show {
        /// Name, words or USDA code
        food: String,
        /// Shared options
        #[command(flatten)]
        common: Common,
    },
    /// A group's foods by nutrients for their energy (index NRF9.3), best first
    Rank {
        /// Food group, such as vegetables
        group: String,
        /// How many foods
        #[arg(long, default_value_t = 20)]
        top: usize,
        /// All foods of the tables, not just those commonly known as they are eaten
        #[arg(long)]
        all: bool,
        /// Shared options
        #[command(flatten)]
        common: Common,
    },
    /// Foods of which a serving counts for nothing: herbs, citrus, vinegar, plain tea ...
    Free {
        /// Shared options
        #[command(flatten)]
        common: Common,
    },
    /// As much of the same group in other foods that are eaten the same way
    Equal {
        /// An amount and a food, such as "2 corn tortillas"
        component: String,
        /// How many foods, at most ten
        #[arg(long, default_value_t = 10)]
        top: usize,
        /// Shared options
        #[command(flatten)]
        common: Common,
    },
}

// `food match`.
#[derive(Debug, Clone, Args)]
pub(crate) struct MatchArgs {
    /// CSV file with a header line; `-` for standard input
    pub queries: PathBuf,
    /// CSV file of names to match to, instead of the catalogue
    #[arg(long, value_name = "FILE")]
    pub targets: Option<PathBuf>,
    /// Column of QUERIES with the names [default: the first]
    #[arg(long, value_name = "NAME")]
    pub column: Option<String>,
    /// Column of the targets with the names [default: the first]
    #[arg(long, value_name = "NAME", requires = "targets")]
    pub target_column: Option<String>,
    /// How many matches a query
    #[arg(long, value_name = "K", default_value_t = 1)]
    pub top: usize,
    /// Matches less certain than this are left out
    #[arg(long, value_enum, default_value = "guess")]
    pub min_certainty: Sureness,
    /// Cups, spoons and word senses
    #[arg(long, value_enum, default_value = "us")]
    pub units: Units,
    /// Add a column that says which words met
    #[arg(long)]
    pub why: bool,
}

/// How certain a match has to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Sureness {
    /// As good as stated
    Sure,
    /// Most probably right
    Likely,
    /// Something fits
    Guess,
    /// Whatever comes nearest
    None,
}

/// `standard ...`.
#[derive(Debug, Subcommand)]
#[command(defer = true)]
pub(crate) enum StandardCommand {
    /// The built-in standards
    List,
    /// A standard's allowances
    Show {
        /// A standard by name, or a file of your own
        standard: String,
        /// Only the level that serves this energy need, kcal a day
        #[arg(long, value_name = "KCAL")]
        energy: Option<f64>,
        /// Count beans, peas and lentils as
        #[arg(long, value_enum, default_value = "vegetables")]
        pulses: Pulses,
    },
}

/// Reads `1,240` or `1240 kcal`; between 1 and 20,000.
fn printed(text: &str) -> Result<f64, String> {
    let bare = text
        .trim()
        .trim_end_matches("kcal")
        .trim_end()
        .replace(',', "");
    match bare.parse::<f64>() {
        Ok(kcal) if (1.0..=20_000.0).contains(&kcal) => Ok(kcal),
        _ => Err("an energy in kcal is wanted, from 1 to 20,000, such as 1,240".to_owned()),
    }
}

/// How much of a dish: above 0; a fraction, a percentage or a number of servings.
pub(super) fn share_of_dish(text: &str) -> Result<f64, String> {
    parse_share(text)
        .filter(|share| *share <= MOST_SHARE)
        .ok_or_else(|| {
            "write a part such as `1/2`, `40%` or `half`, or servings such as `2`".to_owned()
        })
}
