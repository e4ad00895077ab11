//! What is said of a diner on the command line.

use super::{Failure, input};
use crate::ledger::Group;
use crate::people::condition::conditions;
use crate::people::units::{height, weight};
use crate::people::{Age, AgeYears, Condition, HeightCm, Sex, WeightKg};
use clap::Args;
use jiff::civil::Date;
use std::path::Path;

// What is said of a person's body, in `diner add` and `diner set` alike.
#[derive(Debug, Clone, Args)]
pub(crate) struct BodyArgs {
    /// female or male, as the equations are split
    #[arg(long)]
    pub(super) sex: Option<Sex>,
    /// Age in completed years
    #[arg(long, value_name = "YEARS", value_parser = age, conflicts_with = "born")]
    age: Option<AgeYears>,
    /// Year of birth, or its date such as 1991-04-02
    #[arg(long, value_name = "YEAR|DATE", value_parser = born)]
    born: Option<Date>,
    /// Height, such as "5 ft 10 in" or "178 cm"
    #[arg(long, value_parser = height)]
    pub(super) height: Option<HeightCm>,
    /// Weight, such as "154 lb" or "70 kg"
    #[arg(long, value_parser = weight)]
    pub(super) weight: Option<WeightKg>,
}

impl BodyArgs {
    /// The age stated today, or by the birth.
    pub(super) fn age(&self, today: Date) -> Option<Age> {
        let stated = self.age.map(|years| Age::Stated {
            years,
            noted_on: today,
        });
        stated.or(self.born.map(Age::Born))
    }
}

fn age(text: &str) -> Result<AgeYears, String> {
    let years: f64 = text
        .trim()
        .parse()
        .map_err(|_| "write the completed years as a number, such as 34".to_owned())?;
    AgeYears::new(years).map_err(|e| e.to_string())
}

/// A date of birth; a bare year is taken as its last day, so that nobody counts as older
/// than they are.
fn born(text: &str) -> Result<Date, String> {
    let text = text.trim();
    let year = text.parse::<i16>().ok().filter(|_| text.len() == 4);
    match year {
        Some(year) => Date::new(year, 12, 31).map_err(|e| e.to_string()),
        None => text
            .parse()
            .map_err(|_| "write a year such as 1991, or a date such as 1991-04-02".to_owned()),
    }
}

/// Conditions in one argument; clap would take a bare list for one value each.
#[derive(Debug, Clone)]
pub(super) struct Said(pub(super) Vec<Condition>);

pub(super) fn said_conditions(text: &str) -> Result<Said, String> {
    conditions(text).map(Said).map_err(|e| e.to_string())
}

pub(super) fn group_portions(text: &str) -> Result<(Group, f64), String> {
    let form = || "write a group and portions a day, such as `vegetables=4`".to_owned();
    let (group, portions) = text.split_once(['=', ':']).ok_or_else(form)?;
    let group = Group::said(group).ok_or_else(|| {
        let known: Vec<_> = Group::ALL.iter().map(|g| g.key()).collect();
        format!("no food group `{group}`: use one of {}", known.join(", "))
    })?;
    let portions = portions.trim().parse().map_err(|_| form())?;
    Ok((group, portions))
}

/// A standard's file by its full path, so that it is found from any folder.
pub(super) fn lasting(name: &str) -> Result<String, Failure> {
    input::standard(name)?;
    let path = Path::new(name);
    if !path.is_file() {
        return Ok(name.to_owned());
    }
    let full = path
        .canonicalize()
        .map_err(|e| Failure::File(format!("cannot find `{name}`: {e}")))?;
    Ok(full.display().to_string())
}
