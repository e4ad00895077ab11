//! The command line: arguments become validated requests, requests become answers, and
//! only here is anything printed.

mod arguments;
mod audit;
mod compare;
mod day;
mod diner;
mod diner_set;
mod dish;
mod fit;
mod food;
mod food_match;
mod handout;
mod input;
mod log;
mod meal;
mod menu;
mod menu_args;
mod menu_sink;
mod menu_summary;
mod out_file;
mod plate;
mod plated;
mod standard;
mod today;
mod whose;

// What a person says that words mean.
mod ask;
mod corrections;

use crate::pages::escape::terminal;
use arguments::{Arguments, Command};
use clap::{CommandFactory, Parser};
use std::io::Write;
use std::process::ExitCode;

/// How a run ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Outcome {
    /// Everything was used.
    Done,
    /// Done, but some input could not be used; all of it is listed.
    Partly,
}

/// Why a run fails.
#[derive(Debug, thiserror::Error)]
enum Failure {
    /// The request itself is wrong: exit code 2.
    #[error("{0}")]
    Request(String),
    /// Nothing of what was given could be used: exit code 1.
    #[error("{0}")]
    Unusable(String),
    /// A file or database failed: exit code 3.
    #[error("{0}")]
    File(String),
    /// Whoever reads the output has gone: quiet, exit code 0.
    #[error("output closed")]
    Closed,
}

impl From<std::io::Error> for Failure {
    fn from(error: std::io::Error) -> Self {
        if error.kind() == std::io::ErrorKind::BrokenPipe {
            Failure::Closed
        } else {
            Failure::File(format!("cannot write: {error}"))
        }
    }
}

impl From<crate::store::LibraryError> for Failure {
    fn from(error: crate::store::LibraryError) -> Self {
        Failure::File(error.to_string())
    }
}

impl From<crate::store::target::TargetError> for Failure {
    fn from(error: crate::store::target::TargetError) -> Self {
        if error.is_of_the_system() {
            Failure::File(error.to_string())
        } else {
            Failure::Request(error.to_string())
        }
    }
}

impl From<crate::foods::CatalogueError> for Failure {
    fn from(error: crate::foods::CatalogueError) -> Self {
        Failure::File(error.to_string())
    }
}

impl From<csv::Error> for Failure {
    fn from(error: csv::Error) -> Self {
        Failure::File(format!("cannot write: {error}"))
    }
}

impl From<serde_json::Error> for Failure {
    fn from(error: serde_json::Error) -> Self {
        Failure::File(format!("cannot write: {error}"))
    }
}

/// Runs the program and returns its exit code: 0 done, 1 some input not used, 2 wrong
/// request, 3 a file failed.
#[must_use]
pub fn run() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => {
            complain(&error);
            return ExitCode::from(if error.use_stderr() { 2 } else { 0 });
        }
    };
    if let Some(file) = arguments.catalogue {
        corrections::use_own_foods(file);
    }
    match dispatch(arguments.command) {
        Ok(Outcome::Done) | Err(Failure::Closed) => ExitCode::SUCCESS,
        Ok(Outcome::Partly) => ExitCode::from(1),
        Err(failure) => {
            warn(&failure.to_string());
            ExitCode::from(match failure {
                Failure::File(_) => 3,
                Failure::Unusable(_) => 1,
                Failure::Request(_) | Failure::Closed => 2,
            })
        }
    }
}

fn dispatch(command: Command) -> Result<Outcome, Failure> {
    match command {
        Command::Audit(args) => audit::run(&args),
        Command::Fit(args) => fit::run(&args),
        Command::Compare(args) => compare::run(&args),
        Command::Diner(command) => diner::run(command),
        Command::Day(command) => day::run(command),
        Command::Dish(command) => dish::run(command),
        Command::Food(command) => food::run(command),
        Command::Handout(args) => handout::run(&args),
        Command::Menu(args) => menu::run(&args),
        Command::Standard(command) => standard::run(command),
        Command::Completions { shell } => {
            let mut bytes = Vec::new();
            clap_complete::generate(shell, &mut Arguments::command(), "trencher", &mut bytes);
            print(&String::from_utf8_lossy(&bytes))
        }
        Command::Man => {
            let mut bytes = Vec::new();
            clap_mangen::Man::new(Arguments::command()).render(&mut bytes)?;
            print(&String::from_utf8_lossy(&bytes))
        }
    }
}

/// Says what is wrong with a request. What was typed may hold anything, and is shown plain
/// then, without the colours that would go with it.
fn complain(error: &clap::Error) {
    let text = error.render().to_string();
    let shown = terminal(&text);
    if shown == text.as_str() {
        let _ = error.print();
    } else {
        let _ = std::io::stderr().write_all(shown.as_bytes());
    }
}

/// Prints to standard output in one go, safe for a terminal.
fn print(text: &str) -> Result<Outcome, Failure> {
    let mut out = std::io::stdout().lock();
    out.write_all(terminal(text).as_bytes())?;
    out.flush()?;
    Ok(Outcome::Done)
}

/// Prints what was done. When that fails it is done all the same, and the failure says so.
fn print_done(done: &str, text: &str) -> Result<Outcome, Failure> {
    print(text).map_err(|failure| match failure {
        Failure::File(told) => {
            Failure::File(format!("{done}, but the answer was not shown: {told}"))
        }
        other => other,
    })
}

/// The text of a CSV table written in memory.
fn written(writer: csv::Writer<Vec<u8>>) -> Result<String, Failure> {
    let bytes = writer
        .into_inner()
        .map_err(|e| csv::Error::from(e.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// Reports something that could not be used, on standard error.
fn warn(text: &str) {
    let _ = writeln!(std::io::stderr(), "error: {}", terminal(text));
}

/// Tells something on standard error that is not an error.
fn note(text: &str) {
    let _ = writeln!(std::io::stderr(), "note: {}", terminal(text));
}
