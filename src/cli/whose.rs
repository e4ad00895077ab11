//! Whose day a request is about: a diner's, a stated energy's, or anybody's.

use super::arguments::DayArgs;
use super::{Failure, input, log};
use crate::ledger::{Allowances, Day, Group, PulsesAs, Standard};
use crate::pages::number::kcal;
use crate::people::allowance::stated_target;
use crate::people::{
    Caution, DayTarget, Diner, NoTarget, ProteinTarget, Sex, day_target, protein_of,
};
use std::sync::Arc;

/// Highest energy need that a day is computed for without a diner, kcal.
const MOST_ENERGY: f64 = 6000.0;
/// Energy need when none is given: the reference of US menu labelling (21 CFR 101.11), for
/// general advice.
const GENERAL_ENERGY: f64 = 2000.0;
/// The standard when none is named.
const USUAL_STANDARD: &str = "us-style";

/// The day that dishes are held against.
#[derive(Debug)]
pub(super) struct Whose {
    /// The diner, where one was named: what is left of their day is in the day log.
    pub diner: Option<Diner>,
    /// The standard, with what a coach set for the diner.
    pub standard: Standard,
    /// kcal to plan the day by.
    pub energy_kcal: f64,
    /// Where beans, peas and lentils count.
    pub pulses: PulsesAs,
    /// Protein to reach in a day, where it can be told.
    pub protein: Option<ProteinTarget>,
    /// The cautions that belong to the person's figures, a sentence each.
    pub cautions: Vec<String>,
    /// What to say along with the figures, a sentence each.
    pub notes: Vec<String>,
}

impl Whose {
    /// The day for an audit.
    pub(super) fn day(&self) -> Day<'_> {
        Day {
            standard: &self.standard,
            energy_kcal: self.energy_kcal,
            pulses: self.pulses,
            protein_g: self.protein.as_ref().map(|protein| protein.grams),
        }
    }

    /// What the day allows.
    pub(super) fn allowances(&self) -> Arc<Allowances> {
        Arc::new(Allowances::of(self.day()))
    }
}

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
        return Ok(Whose {
            diner: None,
            standard,
            energy_kcal: GENERAL_ENERGY,
            pulses,
            protein: None,
            cautions: Vec::new(),
            notes: vec![
                "2,000 kcal a day is used for general advice; give --diner or --energy for one \
                 person's need"
                    .to_owned(),
            ],
        });
    };
    if energy_kcal > MOST_ENERGY {
        return Err(Failure::Request(format!(
            "--energy {energy_kcal} lies above {MOST_ENERGY} kcal a day\n  = for a need beyond that see a clinician or registered dietitian"
        )));
    }
    let target = stated_target(energy_kcal, None, None)?;
    Ok(Whose {
        diner: None,
        standard: standard.for_person([], f64::from(target.lowest_level_kcal)),
        energy_kcal,
        pulses,
        protein: None,
        cautions: spoken(&target),
        notes: spoken(&target),
    })
}

/// The day of a known diner; options on the command line go before what is stored.
pub(super) fn of_diner(diner: Diner, args: &DayArgs) -> Result<Whose, Failure> {
    let target = day_target(&diner, log::today(&diner)?)?;
    let pulses = args.pulses.map_or(diner.pulses_as, Into::into);
    Ok(Whose {
        standard: standard_of(&diner, args.standard.as_deref(), target.lowest_level_kcal)?,
        energy_kcal: target.target_kcal,
        pulses,
        protein: protein_of(&diner, target.target_kcal),
        cautions: spoken(&target),
        notes: std::iter::once(format!(
            "shares are of {}'s day, {} kcal",
            diner.name,
            kcal(target.target_kcal)
        ))
        .chain(spoken(&target))
        .chain(
            diner
                .conditions
                .iter()
                .map(|condition| format!("{}: {}", condition.word(), condition.advice())),
        )
        .collect(),
        diner: Some(diner),
    })
}

/// The diner's standard with the portions that a coach set, and no level under the floor.
fn standard_of(
    diner: &Diner,
    asked: Option<&str>,
    lowest_level_kcal: u32,
) -> Result<Standard, Failure> {
    let name = asked.or(diner.standard.as_deref());
    let standard =
        input::standard(name.unwrap_or(USUAL_STANDARD)).map_err(|error| match asked {
            Some(_) => error,
            None => Failure::Request(format!("the standard of `{}`: {error}", diner.name)),
        })?;
    let own = diner.group_portions.iter();
    let own = own.filter_map(|(key, portions)| Some((Group::from_words(key)?, *portions)));
    let is_man = diner.sex == Some(Sex::Male);
    let standard = standard.for_a_man(is_man);
    Ok(standard.for_person(own, f64::from(lowest_level_kcal)))
}

/// The cautions to say with every figure. That a stated energy is an adult's is among the
/// usual cautions of every page already.
fn spoken(target: &DayTarget) -> Vec<String> {
    let worth = |caution: &&Caution| !matches!(caution, Caution::AgeUnknown);
    let cautions = target.cautions.iter().filter(worth);
    cautions.map(ToString::to_string).collect()
}
