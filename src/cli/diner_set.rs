//! `trencher diner set`: some of a diner's details changed, all else kept.

use super::arguments::{Format, Pulses};
use super::diner_shown::{page_of, show_kept};
use super::diner_values::{BodyArgs, Said, group_portions, lasting, said_conditions};
use super::{Failure, Outcome, log, note, print_done};
use crate::daylog::LogError;
use crate::ledger::Group;
use crate::pages::diner_page::DinerPage;
use crate::pages::number::kcal;
use crate::pages::text::{visible, wrap};
use crate::people::units::energy;
use crate::people::{Activity, Aim, Diner, Equation, MealShares, ProteinAim};
use clap::Args;
use jiff::civil::Date;
use std::collections::BTreeMap;

// `diner set`.
#[derive(Debug, Clone, Args)]
pub(crate) struct SetArgs {
    /// Whose details
    name: String,
    /// Another name for the person here
    #[arg(long, value_name = "NAME")]
    rename: Option<String>,
    #[command(flatten)]
    body: BodyArgs,
    /// inactive, low active, active or very active
    #[arg(long)]
    activity: Option<Activity>,
    /// keep, lose or gain weight
    #[arg(long)]
    aim: Option<Aim>,
    /// The day's energy itself, such as "2000 kcal" or "8400 kJ"
    #[arg(long, value_parser = energy, conflicts_with = "estimated_energy")]
    energy: Option<f64>,
    /// Go by the estimated need again, no longer by a stated energy
    #[arg(long)]
    estimated_energy: bool,
    /// Equation for the need: eer-2023, eer-2005 or mifflin
    #[arg(long)]
    equation: Option<Equation>,
    /// Pregnant or nursing: yes or no
    #[arg(long, value_name = "YES|NO", value_parser = yes_or_no)]
    pregnant_or_nursing: Option<bool>,
    /// Conditions that set what the person eats, in place of those said before: insulin,
    /// warfarin, kidney disease, heart failure, eating disorder, allergy, weak immunity; or none
    #[arg(long, value_name = "LIST", value_parser = said_conditions)]
    conditions: Option<Said>,
    /// A standard by name, or a file of your own
    #[arg(long, value_name = "NAME|FILE")]
    standard: Option<String>,
    /// Count beans, peas and lentils as
    #[arg(long, value_enum)]
    pulses: Option<Pulses>,
    /// Portions a day of a group, such as "vegetables=4", or "vegetables=usual" for the
    /// standard's own; repeat for each
    #[arg(long, value_name = "GROUP=PORTIONS", value_parser = portions)]
    portions: Vec<(Group, Option<f64>)>,
    /// Protein to reach, such as "110 g" a day or "1.6 g/kg"; "usual" for 0.8 g/kg
    #[arg(long, value_name = "G|G/KG", value_parser = protein)]
    protein: Option<Protein>,
    /// Planned share of each meal
    #[arg(long, value_name = "MEAL SHARE, ...")]
    meals: Option<MealShares>,
    /// Time zone, such as `America/New_York`
    #[arg(long)]
    zone: Option<String>,
    /// Show the arithmetic
    #[arg(long)]
    why: bool,
    /// Output format
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
}

/// Protein to reach; none for the recommended allowance.
#[derive(Debug, Clone, Copy)]
struct Protein(Option<ProteinAim>);

fn protein(text: &str) -> Result<Protein, String> {
    if text.trim().eq_ignore_ascii_case("usual") {
        return Ok(Protein(None));
    }
    let aim = text.parse::<ProteinAim>().map_err(|e| e.to_string())?;
    Ok(Protein(Some(aim)))
}

fn yes_or_no(text: &str) -> Result<bool, String> {
    match text.trim().to_lowercase().as_str() {
        "yes" | "y" => Ok(true),
        "no" | "n" => Ok(false),
        _ => Err("write yes or no".to_owned()),
    }
}

/// Portions of a group; none for as many as the standard allows.
fn portions(text: &str) -> Result<(Group, Option<f64>), String> {
    match text.split_once(['=', ':']) {
        Some((group, usual)) if usual.trim().eq_ignore_ascii_case("usual") => {
            group_portions(&format!("{group}=1")).map(|(group, _)| (group, None))
        }
        _ => group_portions(text).map(|(group, portions)| (group, Some(portions))),
    }
}

pub(super) fn run(args: SetArgs) -> Result<Outcome, Failure> {
    let (why, format) = (args.why, args.format);
    let (mut store, before) = log::diner_of(Some(&args.name))?;
    let today = log::now(args.zone.as_deref().or(before.zone.as_deref()))?.date();
    let (after, changed) = applied(args, &before, today)?;
    if changed.is_empty() {
        return Err(Failure::Request(
            "there is nothing to change\n  = say what, such as `--weight \"82 kg\"`".to_owned(),
        ));
    }
    let faults = after.faults(today);
    if !faults.is_empty() {
        return Err(LogError::Diner(faults).into());
    }
    // Whatever cannot be worked out is told before anything is kept.
    let page = page_of(&after, today)?;
    // An energy or an aim that no figure may be given for is a wrong request; an age, a
    // pregnancy or a condition is so, and the diner keeps their log.
    let asked = changed.iter().any(|what| matches!(*what, "energy" | "aim"));
    if let (Err(sentence), true) = (&page.day, asked) {
        return Err(Failure::Request(format!(
            "{sentence}\n  = nothing was changed"
        )));
    }
    let lines = told(&page_of(&before, today)?, &page);
    store.update_diner(&before.name, &after, today)?;
    let name = visible(&after.name);
    let head = format!("Changed for {name}: {}", changed.join(", "));
    match format {
        Format::Text => {
            let lines = std::iter::once(head).chain(lines);
            let page: String = lines.map(|line| wrap(&line)).collect();
            print_done("the change is kept", &format!("{page}\n"))?;
        }
        Format::Json | Format::Csv => lines.iter().for_each(|line| note(line)),
    }
    show_kept(&after, why, format)
}

/// Puts what was said in its place, and notes what that is.
/// Puts what was said in its place; tells whether anything was.
fn put<T>(slot: &mut T, said: Option<T>) -> bool {
    let changes = said.is_some();
    if let Some(said) = said {
        *slot = said;
    }
    changes
}

/// Portions a day by group after a change; none said for a group is the standard's own again.
fn with_portions(
    mut all: BTreeMap<String, f64>,
    said: Vec<(Group, Option<f64>)>,
) -> BTreeMap<String, f64> {
    for (group, portions) in said {
        let key = group.key().to_owned();
        match portions {
            Some(portions) => all.insert(key, portions),
            None => all.remove(&key),
        };
    }
    all
}

/// The diner with what was said put in place, and what that is, in words.
fn applied(
    args: SetArgs,
    before: &Diner,
    today: Date,
) -> Result<(Diner, Vec<&'static str>), Failure> {
    let mut diner = before.clone();
    let age = args.body.age(today);
    let estimated = args.estimated_energy.then_some(None);
    let energy = args.energy.map(Some).or(estimated);
    let standard = args.standard.map(|name| lasting(&name)).transpose()?;
    let portions = (!args.portions.is_empty())
        .then(|| with_portions(diner.group_portions.clone(), args.portions));
    let name = args.rename.map(|name| name.trim().to_owned());
    let nursing = args.pregnant_or_nursing;
    let conditions = args.conditions.map(|said| said.0);
    let protein = args.protein.map(|Protein(aim)| aim);
    let said = [
        ("name", put(&mut diner.name, name)),
        ("sex", put(&mut diner.sex, args.body.sex.map(Some))),
        ("age", put(&mut diner.age, age.map(Some))),
        (
            "height",
            put(&mut diner.height_cm, args.body.height.map(Some)),
        ),
        (
            "weight",
            put(&mut diner.weight_kg, args.body.weight.map(Some)),
        ),
        (
            "activity",
            put(&mut diner.activity, args.activity.map(Some)),
        ),
        ("aim", put(&mut diner.aim, args.aim)),
        ("energy", put(&mut diner.stated_energy_kcal, energy)),
        ("equation", put(&mut diner.equation, args.equation)),
        (
            "pregnant or nursing",
            put(&mut diner.pregnant_or_nursing, nursing),
        ),
        ("conditions", put(&mut diner.conditions, conditions)),
        ("standard", put(&mut diner.standard, standard.map(Some))),
        (
            "pulses",
            put(&mut diner.pulses_as, args.pulses.map(Into::into)),
        ),
        ("portions", put(&mut diner.group_portions, portions)),
        ("protein", put(&mut diner.protein, protein)),
        ("meals", put(&mut diner.meals, args.meals)),
        ("time zone", put(&mut diner.zone, args.zone.map(Some))),
    ];
    let changed = said
        .into_iter()
        .filter_map(|(what, said)| said.then_some(what));
    let changed = changed.collect();
    Ok((diner, changed))
}

/// What the change does to the day's energy.
fn told(before: &DinerPage<'_>, after: &DinerPage<'_>) -> Vec<String> {
    let target = |page: &DinerPage<'_>| page.day.as_ref().ok().map(|day| day.target.target_kcal);
    let words = |kcal_a_day: Option<f64>| {
        kcal_a_day.map_or_else(
            || "no figure".to_owned(),
            |day| format!("{} kcal a day", kcal(day)),
        )
    };
    let (old, new) = (target(before), target(after));
    let mut lines = vec![if words(old) == words(new) {
        format!("Energy: {}, as before", words(new))
    } else {
        format!("Energy: {} before, {} now", words(old), words(new))
    }];
    let body = |diner: &Diner| {
        (
            diner.sex,
            diner.age,
            diner.height_cm,
            diner.weight_kg,
            diner.activity,
            diner.aim,
            diner.equation,
        )
    };
    let stated = new.is_some() && after.diner.stated_energy_kcal.is_some();
    if stated && body(before.diner) != body(after.diner) {
        lines.push(
            "The energy is the stated one; --estimated-energy goes by the estimated need again"
                .to_owned(),
        );
    }
    lines
}
