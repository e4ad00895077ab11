//! The command line: arguments become validated requests, requests become answers, and
//! only here is anything printed.

mod arguments;
mod audit;
mod cautions;
mod command;
mod compare;
mod day;
mod day_sheet;
mod diner;
mod diner_overview;
mod diner_set;
mod diner_shown;
mod diner_values;
mod dish;
mod fit;
mod food;
mod food_match;
mod handout;
mod handout_args;
mod input;
mod kitchen;
mod log;
mod look_back;
mod meal;
mod menu;
mod menu_args;
mod menu_held;
mod menu_sink;
mod menu_summary;
mod out_file;
mod outcome;
mod plate;
mod plated;
mod rows;
mod standard;
mod swap;
mod today;
mod whose;

// What a person says that words mean.
mod ask;
mod corrections;

use crate::pages::escape::terminal;
use clap::{CommandFactory, Parser};
use command::{Arguments, Command};
use outcome::{Failure, Outcome, note, print, print_done, warn};
use std::io::Write;
use std::process::ExitCode;

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
        Command::Cautions => cautions::run(),
        Command::Audit(args) => audit::run(&args),
        Command::Fit(args) => fit::run(&args),
        Command::Compare(args) => compare::run(&args),
        Command::Diner(command) => diner::run(command),
        Command::Day(command) => day::run(command),
        Command::Dish(command) => dish::run(command),
        Command::Food(command) => food::run(command),
        Command::Handout(args) => handout::run(&args),
        Command::Menu(args) => menu::run(&args),
        Command::Swap(args) => swap::run(&args),
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
