//! Whose day a request is about.

use super::Fault;
use crate::ledger::{PulsesAs, Standard};
pub(super) use crate::people::whose::Whose;
use crate::people::whose::{GENERAL_ENERGY, USUAL_STANDARD};
use crate::people::{Diner, day_target};
use crate::reading::UnitSystem;
use jiff::ZonedDateTime;
use serde::Deserialize;

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
        if let Some(diner) = &self.diner {
            return of_diner(diner, &self.now());
        }
        let standard = embedded(USUAL_STANDARD)?;
        let mut whose = Whose::anybody(standard, GENERAL_ENERGY, PulsesAs::default());
        whose.notes.push(
            "2,000 kcal a day is used for general advice; under My day you can set your own"
                .to_owned(),
        );
        Ok(whose)
    }
}

fn embedded(name: &str) -> Result<Standard, Fault> {
    Standard::embedded(name).ok_or_else(|| Fault::of(format!("no standard is called `{name}`")))
}

fn of_diner(diner: &Diner, now: &ZonedDateTime) -> Result<Whose, Fault> {
    let target = day_target(diner, now.date()).map_err(Fault::of)?;
    let named = diner.standard.as_deref().unwrap_or(USUAL_STANDARD);
    let known = Standard::embedded(named);
    // A coach's own file stays with the coach.
    let foreign = known.is_none().then(|| {
        format!(
            "the standard `{named}` is a file on another machine; the {USUAL_STANDARD} pattern \
             stands in for it"
        )
    });
    let standard = known.map_or_else(|| embedded(USUAL_STANDARD), Ok)?;
    let mut whose = Whose::of_diner(diner.clone(), &target, standard);
    whose.notes.extend(foreign);
    Ok(whose)
}
