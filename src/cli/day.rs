//! `trencher day ...`: what a person ate on which day, and what is left.

mod backup;
mod eat;
mod entries;
pub(super) mod look;
mod mend;
mod planned;
mod undo;

use super::{Failure, Outcome, log, print};
use clap::Subcommand;

/// `day ...`.
#[derive(Debug, Subcommand)]
#[command(defer = true)]
#[allow(clippy::large_enum_variant)] // one value per run
pub(crate) enum DayCommand {
    /// Log something eaten or drunk, or what was planned
    Eat(eat::EatArgs),
    /// Plan something to eat: it counts once it is eaten
    Plan(planned::PlanArgs),
    /// What was eaten on a day, and how it stands
    Show(look::LookArgs),
    /// What is left of a day, and what is left if you eat as planned
    Left(look::LookArgs),
    /// Change an entry: its share, time, meal or dish
    Edit(mend::EditArgs),
    /// Remove entries
    Remove(mend::RemoveArgs),
    /// Log again what an entry holds
    Repeat(mend::RepeatArgs),
    /// Take back what was done last: logged, planned, changed or removed; again, the step before
    Undo(undo::UndoArgs),
    /// What was done to the log, the last first
    Changes(undo::ChangesArgs),
    /// Look back: averages against the plan, days met, and the days one by one
    History(look::HistoryArgs),
    /// Everything logged, for other programs and for `day import`
    Export(backup::ExportArgs),
    /// Bring an export back; what is here already stays as it is
    Import(backup::ImportArgs),
}

pub(super) fn run(command: DayCommand) -> Result<Outcome, Failure> {
    match command {
        DayCommand::Eat(args) => eat::eat(&args),
        DayCommand::Plan(args) => planned::plan(&args),
        DayCommand::Show(args) => look::look(&args, true),
        DayCommand::Left(args) => look::look(&args, false),
        DayCommand::Edit(args) => mend::edit(&args),
        DayCommand::Remove(args) => mend::remove(&args),
        DayCommand::Repeat(args) => mend::repeat(&args),
        DayCommand::Undo(args) => undo::undo(&args),
        DayCommand::Changes(args) => undo::changes(&args),
        DayCommand::History(args) => look::history(&args),
        DayCommand::Export(args) => backup::export(&args),
        DayCommand::Import(args) => backup::import(&args),
    }
}
