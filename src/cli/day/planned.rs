//! `trencher day plan`.

use super::super::{Failure, Outcome};
use super::entries::{WhatArgs, put};
use crate::daylog::ChangeKind;
use clap::Args;

// `day plan`.
#[derive(Debug, Args)]
pub(crate) struct PlanArgs {
    /// What is to be eaten
    #[command(flatten)]
    what: WhatArgs,
    /// When, such as 19:00, "tomorrow 19:00", "next friday 20:00" or "in 2 hours"
    #[arg(long, value_name = "TIME")]
    at: String,
}

pub(super) fn plan(args: &PlanArgs) -> Result<Outcome, Failure> {
    put(&args.what, Some(&args.at), ChangeKind::Planned)
}
