//! Whose day a command is about: a diner's, a stated energy's, or anybody's.

use super::arguments::DayArgs;
use super::{Failure, input, log};
use crate::ledger::{PulsesAs, Standard};
use crate::people::allowance::stated_target;
pub(super) use crate::people::whose::Whose;
use crate::people::whose::{GENERAL_ENERGY, USUAL_STANDARD, spoken};
use crate::people::{Diner, NoTarget, day_target};

/// Highest energy need that a day is computed for without a diner, kcal.
const MOST_ENERGY: f64 = 6000.0;

impl From<NoTarget> for Failure {
    fn from(error: NoTarget) -> Self {
        Failure::Request(error.to_string())
    }
}

/// Whose day: that of the diner named, of the energy given, or of nobody in particular.
///
/// Fails on a diner nobody knows, and with a plain sentence where a figure could do harm.
pub(super) fn day(args: &DayArgs) -> Result<Whose, Failure> {
    if let Some(name) = &args.diner {
        let (_, diner) = log::diner_of(Some(name))?;
        return of_diner(diner, args);
    }
    let standard = input::standard(args.standard.as_deref().unwrap_or(USUAL_STANDARD))?;
    let pulses = args.pulses.map_or(PulsesAs::default(), Into::into);
    let Some(energy_kcal) = args.energy else {
        let mut whose = Whose::anybody(standard, GENERAL_ENERGY, pulses);
        whose.notes.push(
            "2,000 kcal a day is used for general advice; give --diner or --energy for one \
             person's need"
                .to_owned(),
        );
        return Ok(whose);
    };
    if energy_kcal > MOST_ENERGY {
        return Err(Failure::Request(format!(
            "--energy {energy_kcal} lies above {MOST_ENERGY} kcal a day\n  = for a need beyond that see a clinician or registered dietitian"
        )));
    }
    let target = stated_target(energy_kcal, None, None)?;
    let standard = standard.for_person([], f64::from(target.lowest_level_kcal));
    let said = spoken(&target);
    Ok(Whose {
        cautions: said.clone(),
        notes: said,
        ..Whose::anybody(standard, energy_kcal, pulses)
    })
}

/// The day of a known diner; options on the command line go before what is stored.
pub(super) fn of_diner(diner: Diner, args: &DayArgs) -> Result<Whose, Failure> {
    let target = day_target(&diner, log::today(&diner)?)?;
    let standard = standard_of(&diner, args.standard.as_deref())?;
    let conditions: Vec<String> = diner
        .conditions
        .iter()
        .map(|condition| format!("{}: {}", condition.word(), condition.advice()))
        .collect();
    let mut whose = Whose::of_diner(diner, &target, standard);
    whose.notes.extend(conditions);
    if let Some(pulses) = args.pulses {
        whose.pulses = pulses.into();
    }
    Ok(whose)
}

/// The standard asked for, or the diner's own.
fn standard_of(diner: &Diner, asked: Option<&str>) -> Result<Standard, Failure> {
    let name = asked.or(diner.standard.as_deref());
    input::standard(name.unwrap_or(USUAL_STANDARD)).map_err(|error| match asked {
        Some(_) => error,
        None => Failure::Request(format!("the standard of `{}`: {error}", diner.name)),
    })
}
