//! A person's day from a form: the guard rails of `trencher diner add`, refusals included.

use super::Fault;
use crate::ledger::Standard;
use crate::people::units::{energy, height, weight};
use crate::people::{Age, AgeYears, Diner, NoTarget, day_target};
use crate::quantity::number::kcal;
use jiff::ZonedDateTime;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PersonAsk {
    now: ZonedDateTime,
    form: Form,
    /// Who it was before: what the form does not show stays.
    #[serde(default)]
    before: Option<Diner>,
}

/// As typed; what is left empty is not said.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
struct Form {
    name: String,
    sex: String,
    /// Completed years, a year of birth or a date of birth.
    age: String,
    height: String,
    weight: String,
    activity: String,
    aim: String,
    energy: String,
    pregnant_or_nursing: bool,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum Person {
    /// Nobody is kept: a figure could do harm. The sentence says whom to see.
    Refused(String),
    Kept(Box<Kept>),
}

#[derive(Debug, Serialize)]
pub(super) struct Kept {
    diner: Diner,
    energy_kcal: f64,
    /// What the figure is, in a sentence.
    told: String,
    /// The level of the pattern that serves it, kcal.
    level_kcal: f64,
    cautions: Vec<String>,
    /// The arithmetic, a line a step.
    working: Vec<String>,
}

pub(super) fn person(ask: &PersonAsk) -> Result<Person, Fault> {
    let today = ask.now.date();
    let diner = ask.form.diner(ask.before.clone(), &ask.now)?;
    let target = match day_target(&diner, today) {
        Err(NoTarget::Refused(sentence)) => return Ok(Person::Refused(sentence.to_string())),
        other => other.map_err(Fault::of)?,
    };
    let faults = diner.faults(today);
    if let Some(fault) = faults.first() {
        return Err(Fault::of(fault));
    }
    let standard = diner.standard.as_deref().and_then(Standard::embedded);
    let standard = standard.or_else(|| Standard::embedded("us-style"));
    let level = standard.map_or(0.0, |standard| {
        let own = standard.for_person([], f64::from(target.lowest_level_kcal));
        own.level(target.target_kcal).level_kcal
    });
    let figure = kcal(target.target_kcal);
    let told = match (diner.stated_energy_kcal, target.need_kcal()) {
        (None, Some(need)) => match diner.aim {
            crate::people::Aim::Keep => {
                format!("{figure} kcal a day: the estimated need, to keep the weight")
            }
            crate::people::Aim::Lose => {
                format!(
                    "{figure} kcal a day, to lose weight; the estimated need is {}",
                    kcal(need)
                )
            }
            crate::people::Aim::Gain => {
                format!(
                    "{figure} kcal a day, to gain weight; the estimated need is {}",
                    kcal(need)
                )
            }
        },
        _ => format!("{figure} kcal a day, as stated"),
    };
    let need = target.need.iter().flat_map(|need| &need.working);
    Ok(Person::Kept(Box::new(Kept {
        energy_kcal: target.target_kcal,
        told,
        level_kcal: level,
        cautions: target
            .cautions
            .iter()
            .map(ToString::to_string)
            .chain(target.level_note.map(ToOwned::to_owned))
            .collect(),
        working: need.chain(&target.working).cloned().collect(),
        diner,
    })))
}

impl Form {
    fn diner(&self, before: Option<Diner>, now: &ZonedDateTime) -> Result<Diner, Fault> {
        let named =
            |what: &str, fault: &dyn std::fmt::Display| Fault::of(format!("{what}: {fault}"));
        let mut diner = before.unwrap_or_else(|| Diner::named(""));
        self.name.trim().clone_into(&mut diner.name);
        diner.sex = said(&self.sex, str::parse).map_err(|e| named("sex", &e))?;
        diner.age = said(&self.age, |text| age(text, now.date())).map_err(|e| named("age", &e))?;
        diner.height_cm = said(&self.height, height).map_err(|e| named("height", &e))?;
        diner.weight_kg = said(&self.weight, weight).map_err(|e| named("weight", &e))?;
        diner.activity = said(&self.activity, str::parse).map_err(|e| named("activity", &e))?;
        let aim = said(&self.aim, str::parse).map_err(|e| named("aim", &e))?;
        diner.aim = aim.unwrap_or_default();
        diner.stated_energy_kcal = said(&self.energy, energy).map_err(|e| named("energy", &e))?;
        diner.pregnant_or_nursing = self.pregnant_or_nursing;
        diner.zone = diner
            .zone
            .or_else(|| now.time_zone().iana_name().map(ToOwned::to_owned));
        Ok(diner)
    }
}

/// What a field says; nothing where it is empty.
fn said<T, E>(text: &str, read: impl FnOnce(&str) -> Result<T, E>) -> Result<Option<T>, E> {
    let text = text.trim();
    if text.is_empty() {
        Ok(None)
    } else {
        read(text).map(Some)
    }
}

/// Completed years, a year of birth (taken as its last day, so that nobody counts as older
/// than they are), or a date.
fn age(text: &str, today: Date) -> Result<Age, String> {
    let form = || "write the years, such as 34, or a date of birth, such as 1991-04-02".to_owned();
    if let Ok(born) = text.parse::<Date>() {
        return Ok(Age::Born(born));
    }
    let number: f64 = text.parse().map_err(|_| form())?;
    if text.len() == 4 && (1800.0..=2200.0).contains(&number) {
        let born = Date::new(number as i16, 12, 31);
        return born.map(Age::Born).map_err(|_| form());
    }
    let years = AgeYears::new(number).map_err(|e| e.to_string())?;
    Ok(Age::Stated {
        years,
        noted_on: today,
    })
}
