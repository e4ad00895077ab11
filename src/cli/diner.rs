//! `trencher diner ...`: whose day it is.

use super::arguments::{Format, Pulses};
use super::ask::agreed;
use super::diner_shown::{page_of, show, show_kept};
use super::diner_values::{BodyArgs, Said, group_portions, lasting, said_conditions};
use super::{Failure, Outcome, log, print, print_done};
use crate::daylog::{ExportForm, LogError};
use crate::ledger::Group;
use crate::pages::csv_table::csv_table;
use crate::pages::diner_page::list;
use crate::pages::escape::cell as guard;
use crate::pages::text::visible;
use crate::people::units::energy;
use crate::people::{Activity, Aim, Diner, Equation, MealShares, ProteinAim, day_target};
use clap::{Args, Subcommand};
use jiff::civil::Date;
use std::io::Write as _;

/// `diner ...`.
#[derive(Debug, Subcommand)]
#[command(defer = true)]
#[allow(clippy::large_enum_variant)] // one value per run
pub(crate) enum DinerCommand {
    /// Add a person whose day is counted
    Add(AddArgs),
    /// Change some of a person's details, such as the weight; all else stays, the log too
    Set(super::diner_set::SetArgs),
    /// Who there is
    List {
        /// Output format
        #[arg(long, value_enum, default_value = "text")]
        format: Format,
    },
    /// How everybody's last days stand, a line each
    Overview(super::diner_overview::OverviewArgs),
    /// A person's day: energy, allowances, meals, fluid
    Show {
        /// The name; may be left out when there is just one diner
        name: Option<String>,
        /// Show the arithmetic
        #[arg(long)]
        why: bool,
        /// Output format
        #[arg(long, value_enum, default_value = "text")]
        format: Format,
    },
    /// Remove a person and everything logged for them
    Remove {
        /// The name
        name: String,
        /// Do not ask
        #[arg(long)]
        yes: bool,
    },
    /// Everything kept of a person, as JSON
    Export {
        /// The name; may be left out when there is just one diner
        name: Option<String>,
    },
}

// `diner add`.
#[derive(Debug, Args)]
#[command(after_help = ACTIVITIES)]
pub(crate) struct AddArgs {
    /// How the person is called here
    name: String,
    #[command(flatten)]
    body: BodyArgs,
    /// inactive, low active, active or very active; see below
    #[arg(long)]
    activity: Option<Activity>,
    /// keep, lose or gain weight
    #[arg(long, default_value = "keep")]
    aim: Aim,
    /// The day's energy itself, such as "2000 kcal" or "8400 kJ"; the aim is not applied on top
    #[arg(long, value_parser = energy)]
    energy: Option<f64>,
    /// Equation for the need: eer-2023, eer-2005 or mifflin
    #[arg(long, default_value = "eer-2023")]
    equation: Equation,
    /// Pregnant or nursing
    #[arg(long)]
    pregnant_or_nursing: bool,
    /// Conditions that set what the person eats, with commas between: insulin, warfarin, kidney
    /// disease, heart failure, eating disorder, allergy, weak immunity
    #[arg(long, value_name = "LIST", value_parser = said_conditions)]
    conditions: Option<Said>,
    /// A standard by name, or a file of your own [without it: us-style]
    #[arg(long, value_name = "NAME|FILE")]
    standard: Option<String>,
    /// Count beans, peas and lentils as
    #[arg(long, value_enum, default_value = "vegetables")]
    pulses: Pulses,
    /// Portions a day of a group set by the coach, such as "vegetables=4"; repeat for each
    #[arg(long, value_name = "GROUP=PORTIONS", value_parser = group_portions)]
    portions: Vec<(Group, f64)>,
    /// Protein to reach, such as "110 g" a day or "1.6 g/kg" [without it: 0.8 g/kg]
    #[arg(long, value_name = "G|G/KG")]
    protein: Option<ProteinAim>,
    /// Planned share of each meal [without it: breakfast 30%, lunch 30%, dinner 30%, snack 10%]
    #[arg(long, value_name = "MEAL SHARE, ...")]
    meals: Option<MealShares>,
    /// Time zone, such as `America/New_York` [without it: this machine's]
    #[arg(long)]
    zone: Option<String>,
    /// Put these details in the place of a diner's of that name; their log stays
    #[arg(long)]
    replace: bool,
    /// Show the arithmetic
    #[arg(long)]
    why: bool,
    /// Output format
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
}

/// The four categories in plain words, after [`Activity::example`].
const ACTIVITIES: &str = "\
Activity, on an ordinary day:
  inactive     getting through the day: half an hour on foot, some light housework
  low active   that, and a brisk walk of 60 to 80 minutes
  active       that, and about two hours of brisk walking, easy cycling or tennis
  very active  that, and about two hours that include hard effort, such as running

An estimate for adults. Under 19, pregnant or nursing, or with a condition that sets
what to eat: a doctor or registered dietitian says what is right.";

pub(super) fn run(command: DinerCommand) -> Result<Outcome, Failure> {
    match command {
        DinerCommand::Add(args) => add(args),
        DinerCommand::Set(args) => super::diner_set::run(args),
        DinerCommand::List { format } => list_all(format),
        DinerCommand::Overview(args) => super::diner_overview::run(&args),
        DinerCommand::Show { name, why, format } => {
            let (_, diner) = log::diner_of(name.as_deref())?;
            show(&diner, why, format)
        }
        DinerCommand::Remove { name, yes } => remove(&name, yes),
        DinerCommand::Export { name } => {
            let (store, diner) = log::diner_of(name.as_deref())?;
            let mut out = std::io::BufWriter::new(std::io::stdout().lock());
            store.export_to(Some(&diner.name), ExportForm::Json, &mut out)?;
            out.flush()?;
            Ok(Outcome::Done)
        }
    }
}

fn add(args: AddArgs) -> Result<Outcome, Failure> {
    let (why, format, replace) = (args.why, args.format, args.replace);
    let today = log::now(args.zone.as_deref())?.date();
    let diner = as_said(args, today)?;
    let faults = diner.faults(today);
    if !faults.is_empty() {
        return Err(LogError::Diner(faults).into());
    }
    // A standard that cannot be read, or figures that no equation takes, are told before
    // anything is kept. Whoever has a log keeps it when no figure can be given any more.
    let page = page_of(&diner, today)?;
    if let (Err(sentence), false) = (&page.day, replace) {
        return Err(Failure::Request(format!(
            "{sentence}\n  = nobody was added"
        )));
    }
    let mut store = log::open()?;
    if replace {
        let known = store.diner(&diner.name)?.name;
        store.update_diner(&known, &diner, today)?;
    } else {
        store.add_diner(&diner, today).map_err(replaceable)?;
    }
    show_kept(&diner, why, format)
}

fn replaceable(error: LogError) -> Failure {
    match error {
        LogError::NameTaken { .. } => Failure::Request(format!(
            "{error}\n  = to change some details use `trencher diner set`; to put all of these in their place repeat it with --replace"
        )),
        other => other.into(),
    }
}

fn as_said(args: AddArgs, today: Date) -> Result<Diner, Failure> {
    Ok(Diner {
        sex: args.body.sex,
        age: args.body.age(today),
        height_cm: args.body.height,
        weight_kg: args.body.weight,
        activity: args.activity,
        aim: args.aim,
        equation: args.equation,
        stated_energy_kcal: args.energy,
        pregnant_or_nursing: args.pregnant_or_nursing,
        conditions: args.conditions.map(|said| said.0).unwrap_or_default(),
        standard: args.standard.map(|name| lasting(&name)).transpose()?,
        pulses_as: args.pulses.into(),
        group_portions: args
            .portions
            .into_iter()
            .map(|(group, portions)| (group.key().to_owned(), portions))
            .collect(),
        protein: args.protein,
        meals: args.meals.unwrap_or_default(),
        zone: args.zone,
        ..Diner::named(args.name.trim())
    })
}

fn list_all(format: Format) -> Result<Outcome, Failure> {
    let diners = match log::open_if_any()? {
        Some(store) => store.diners()?,
        None => Vec::new(),
    };
    let mut rows = Vec::new();
    for diner in diners {
        let target = day_target(&diner, log::today(&diner)?).ok();
        rows.push((diner, target.map(|target| target.target_kcal)));
    }
    match format {
        Format::Text if rows.is_empty() => {
            print("There is no diner yet: add one with `trencher diner add NAME`\n")
        }
        Format::Text => print(&list(&rows)),
        Format::Json => {
            let rows: Vec<_> = rows
                .iter()
                .map(|(diner, kcal)| {
                    serde_json::json!({"name": diner.name, "energy_kcal": kcal, "standard": diner.standard})
                })
                .collect();
            print(&crate::pages::escape::json(&rows)?)
        }
        Format::Csv => {
            let row = |(diner, kcal): &(Diner, Option<f64>)| {
                let kcal = kcal.map(|k| format!("{k:.0}")).unwrap_or_default();
                let standard = diner.standard.as_deref().unwrap_or_default();
                [guard(&diner.name), kcal, guard(standard)]
            };
            print(&csv_table(
                "name,energy_kcal,standard",
                rows.iter().map(row),
            )?)
        }
    }
}

fn remove(name: &str, yes: bool) -> Result<Outcome, Failure> {
    let (mut store, diner) = log::diner_of(Some(name))?;
    let name = visible(&diner.name);
    let question = format!("Remove {name} and everything logged for them?");
    if !yes && !agreed(&question)? {
        return Err(Failure::Request(format!(
            "`{}` was not removed\n  = repeat it with --yes to remove the person and everything logged for them",
            diner.name
        )));
    }
    let removed = store.remove_diner(&diner.name)?;
    let entries = match removed.entries {
        0 => "nothing was logged for them".to_owned(),
        1 => "1 entry went with them".to_owned(),
        many => format!("{many} entries went with them"),
    };
    let done = format!("{} is removed", removed.name);
    print_done(&done, &format!("Removed {}: {entries}\n", removed.name))?;
    if !removed.rewritten {
        super::note(
            "the file could not be written anew just now; what was removed is overwritten with zeros in it",
        );
    }
    super::note("exports made before are files of your own and are still there");
    Ok(Outcome::Done)
}
