//! Whose day a request is about.

use super::Fault;
use crate::ledger::{Allowances, Day, Group, PulsesAs, Standard};
use crate::people::{Caution, DayTarget, Diner, day_target};
use crate::quantity::number::kcal;
use crate::reading::UnitSystem;
use jiff::ZonedDateTime;
use serde::Deserialize;
use std::sync::Arc;

/// Energy need when none is given: the reference of US menu labelling (21 CFR 101.11), for
/// general advice.
const GENERAL_ENERGY: f64 = 2000.0;
/// The standard when none is named.
const USUAL_STANDARD: &str = "us-style";

/// Cups, spoons and senses of words.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Units {
    #[default]
    Us,
    Metric,
}

/// What comes with a request about a plate or a day.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Setting {
    #[serde(default)]
    units: Units,
    /// The moment where the person is, such as `2026-03-29T12:30:00+02:00[Europe/Berlin]`.
    now: ZonedDateTime,
    /// Whose day; nobody's in particular without.
    #[serde(default)]
    diner: Option<Diner>,
    /// What that diner logged, the entries of the day at hand among them.
    #[serde(default)]
    pub records: Vec<crate::daylog::Record>,
}

impl Setting {
    pub fn units(&self) -> UnitSystem {
        match self.units {
            Units::Us => UnitSystem::Us,
            Units::Metric => UnitSystem::Metric,
        }
    }

    /// Now, in the diner's own zone where one is known.
    pub fn now(&self) -> ZonedDateTime {
        let zone = self.diner.as_ref().and_then(|diner| diner.zone.as_deref());
        let zoned = zone.and_then(|zone| self.now.in_tz(zone).ok());
        zoned.unwrap_or_else(|| self.now.clone())
    }

    /// Whose day it is. Fails with a plain sentence where a figure could do harm.
    pub fn whose(&self) -> Result<Whose, Fault> {
        match &self.diner {
            Some(diner) => of_diner(diner, &self.now()),
            None => Ok(Whose {
                diner: None,
                standard: embedded(USUAL_STANDARD)?,
                energy_kcal: GENERAL_ENERGY,
                pulses: PulsesAs::default(),
                notes: vec![
                    "2,000 kcal a day is used for general advice; under My day you can set your \
                     own"
                    .to_owned(),
                ],
            }),
        }
    }
}

/// The day that dishes are held against.
#[derive(Debug)]
pub(super) struct Whose {
    /// Nobody in particular without.
    pub diner: Option<Diner>,
    /// With what a coach set for the diner.
    pub standard: Standard,
    /// kcal to plan the day by.
    pub energy_kcal: f64,
    pub pulses: PulsesAs,
    /// What to say along with the figures, a sentence each.
    pub notes: Vec<String>,
}

impl Whose {
    pub fn day(&self) -> Day<'_> {
        Day {
            standard: &self.standard,
            energy_kcal: self.energy_kcal,
            pulses: self.pulses,
            protein_g: None,
        }
    }

    pub fn allowances(&self) -> Arc<Allowances> {
        Arc::new(Allowances::of(self.day()))
    }

    /// `a day of 2,000 kcal`, or whose.
    pub fn words(&self) -> String {
        let kcal = kcal(self.energy_kcal);
        match &self.diner {
            Some(diner) => format!("{}’s day of {kcal} kcal", diner.name),
            None => format!("a day of {kcal} kcal"),
        }
    }
}

fn embedded(name: &str) -> Result<Standard, Fault> {
    Standard::embedded(name).ok_or_else(|| Fault::of(format!("no standard is called `{name}`")))
}

fn of_diner(diner: &Diner, now: &ZonedDateTime) -> Result<Whose, Fault> {
    let target = day_target(diner, now.date()).map_err(Fault::of)?;
    let mut notes = vec![format!(
        "shares are of {}'s day, {} kcal",
        diner.name,
        kcal(target.target_kcal)
    )];
    notes.extend(cautions(&target));
    let named = diner.standard.as_deref().unwrap_or(USUAL_STANDARD);
    let known = Standard::embedded(named);
    if known.is_none() {
        // A coach's own file stays with the coach.
        notes.push(format!(
            "the standard `{named}` is a file on another machine; the {USUAL_STANDARD} pattern \
             stands in for it"
        ));
    }
    let standard = known.map_or_else(|| embedded(USUAL_STANDARD), Ok)?;
    let own = diner.group_portions.iter();
    let own = own.filter_map(|(key, portions)| Some((Group::from_words(key)?, *portions)));
    Ok(Whose {
        standard: standard
            .for_a_man(diner.sex == Some(crate::people::Sex::Male))
            .for_person(own, f64::from(target.lowest_level_kcal)),
        energy_kcal: target.target_kcal,
        pulses: diner.pulses_as,
        notes,
        diner: Some(diner.clone()),
    })
}

/// The cautions to say with every figure. That a stated energy is an adult's is among the
/// usual cautions of every page already.
fn cautions(target: &DayTarget) -> impl Iterator<Item = String> + '_ {
    let worth = |caution: &&Caution| !matches!(caution, Caution::AgeUnknown);
    target
        .cautions
        .iter()
        .filter(worth)
        .map(ToString::to_string)
}
