//! The commands, each with its arguments.

use super::arguments::{AuditArgs, DishCommand, FoodCommand, StandardCommand};
use clap::{Parser, Subcommand};
use std::path::PathBuf;

/// What is on the plate, in food groups, and what share of a day it is.
#[derive(Debug, Parser)]
#[command(name = "trencher", version, about, max_term_width = 100)]
#[command(after_help = "Estimates for learning, not a medical or allergen service.")]
pub(crate) struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
    /// A table of foods of your own (CSV, figures of 100 g), used beside the catalogue
    #[arg(long, value_name = "FILE", global = true, help_heading = "Foods")]
    pub catalogue: Option<PathBuf>,
}

/// The commands.
#[derive(Debug, Subcommand)]
// The arguments of the one command that is asked for are made, here and in its own commands: all of
// them would take a good part of a short run. Clap then prints what a doc comment says of a struct
// of arguments as the command's own help, so these have plain comments.
#[command(defer = true)]
#[allow(clippy::large_enum_variant)] // one value per run
pub(crate) enum Command {
    /// What is on the plate, and what share of the day it is
    Audit(AuditArgs),
    /// The right-sized plate: how much of each component to eat
    Fit(super::fit::FitArgs),
    /// Plates side by side: foods, groups and shares facing each other
    Compare(super::compare::CompareArgs),
    /// Diners: whose day it is
    #[command(subcommand)]
    Diner(super::diner::DinerCommand),
    /// Every item of a menu, and what the menu comes to
    Menu(Box<super::menu_args::MenuArgs>),
    /// The day log: what was eaten, and what is left
    #[command(subcommand)]
    Day(super::day::DayCommand),
    /// The dish library
    #[command(subcommand)]
    Dish(DishCommand),
    /// The food catalogue
    #[command(subcommand)]
    Food(FoodCommand),
    /// A page to print or send: the plate to scale, its shares of a day, what to eat
    Handout(super::handout_args::HandoutArgs),
    /// What changes when the kitchen serves something else, or what to ask it for
    Swap(super::swap::SwapArgs),
    /// The standards: food groups, portions and daily allowances
    #[command(subcommand)]
    Standard(StandardCommand),
    /// The cautions in full: whom these estimates do not serve, and what to mind
    Cautions,
    /// Print a completion script for a shell
    Completions {
        /// Which shell
        shell: clap_complete::Shell,
    },
    /// Print the manual page
    Man,
}
