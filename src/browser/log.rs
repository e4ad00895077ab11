//! Logging: a plate as an entry, an entry changed, how a day stands, the weeks before.

use super::plate::{PlateAsk, meal};
use super::standing;
use super::whose::{Setting, Whose};
use super::{Engine, Fault};
use crate::daylog::{DayTotal, Eaten, Entry, Left, Moment, Record, Sense, left, parse_at};
use crate::ledger::{Audit, Kind, audit};
use crate::quantity::Range;
use jiff::civil::Date;
use jiff::{ToSpan, ZonedDateTime};
use serde::{Deserialize, Serialize};

/// Days of the history.
const DAYS: i64 = 14;

#[derive(Debug, Deserialize)]
pub(super) struct EatAsk {
    #[serde(flatten)]
    plate: PlateAsk,
    /// Names the entry in every copy; made by the page.
    uid: String,
    /// How much of what is eaten: 1 for all of it, 2 for two servings.
    #[serde(default = "whole")]
    share: f64,
    /// When, such as `12:30` or `yesterday 19:00`; now without.
    #[serde(default)]
    at: Option<String>,
    /// Log also what can hardly be so.
    #[serde(default)]
    sure: bool,
}

fn whole() -> f64 {
    1.0
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum Logged {
    /// To be kept.
    Record(Box<Record>),
    /// What can hardly be so: ask the person first.
    NotPlausible(Vec<String>),
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct EditAsk {
    setting: Setting,
    record: Record,
    #[serde(default)]
    share: Option<f64>,
    #[serde(default)]
    meal: Option<String>,
    #[serde(default)]
    at: Option<String>,
    #[serde(default)]
    undone: Option<bool>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct DayAsk {
    setting: Setting,
    /// Today without.
    #[serde(default)]
    date: Option<Date>,
}

/// How a day stands.
#[derive(Debug, Serialize)]
pub(super) struct DayAnswer {
    date: Date,
    diner: Option<String>,
    energy_kcal: f64,
    entries: Vec<EntryLine>,
    rows: Vec<DayRow>,
    fluid_ml: f64,
    meals: Vec<MealLine>,
    /// Oldest first.
    history: Vec<PastDay>,
    notes: Vec<String>,
}

#[derive(Debug, Serialize)]
struct EntryLine {
    uid: String,
    time: String,
    meal: Option<String>,
    dish: String,
    share: f64,
    /// Not eaten yet, and in no sum.
    planned: bool,
    energy_kcal: Option<Range>,
    /// Components that are not in the figures.
    uncounted: Vec<String>,
}

#[derive(Debug, Serialize)]
struct DayRow {
    key: &'static str,
    label: &'static str,
    is_group: bool,
    unit: &'static str,
    eaten: Range,
    allowed: f64,
    left: f64,
    share: f64,
    verdict: Option<&'static str>,
    /// Entries whose figure is missing.
    missing: usize,
}

#[derive(Debug, Serialize)]
struct MealLine {
    name: String,
    share: f64,
    energy_kcal: f64,
}

#[derive(Debug, Serialize)]
struct PastDay {
    date: Date,
    entries: usize,
    energy_kcal: Option<Range>,
    /// Share of the day by key.
    shares: Vec<(&'static str, f64)>,
}

impl Engine {
    pub(super) fn eat(&self, ask: &EatAsk) -> Result<Logged, Fault> {
        let setting = &ask.plate.setting;
        let whose = setting.whose()?;
        let diner = whose
            .diner
            .as_ref()
            .ok_or_else(|| Fault::of("say first whose day it is"))?;
        let laid = self.lay(&ask.plate.dish, setting.units())?;
        let audit = audit(laid.eaten(), &self.catalogue, whose.day());
        if !audit.not_plausible.is_empty() && !ask.sure {
            return Ok(Logged::NotPlausible(audit.not_plausible));
        }
        let at = moment(ask.at.as_deref(), &setting.now())?;
        let meal = meal(&whose, ask.plate.meal.as_deref(), at.hour())?;
        let counted = |c: &crate::ledger::AuditedComponent| c.food.is_some() && c.grams.is_some();
        if !audit.components.iter().any(counted) {
            return Err(Fault::of(
                "nothing of this dish could be counted, so nothing was logged",
            ));
        }
        let mut dish = named(&audit);
        if laid.eaten.is_some() {
            dish.push_str(", a part of it");
        }
        let eaten = Eaten {
            at: Moment::from(&at),
            meal: meal.map(|meal| meal.name),
            dish,
            share: ask.share,
        };
        let entry = Entry::from_audit(&audit, &self.catalogue, eaten);
        kept(Record {
            uid: ask.uid.clone(),
            diner: diner.name.clone(),
            // The page numbers what it keeps.
            number: 0,
            planned: false,
            undone: false,
            entry,
        })
    }
}

/// A record as it can be stored and read back.
fn kept(record: Record) -> Result<Logged, Fault> {
    record.entry.check().map_err(Fault::of)?;
    Ok(Logged::Record(Box::new(record)))
}

fn moment(text: Option<&str>, now: &ZonedDateTime) -> Result<ZonedDateTime, Fault> {
    match text.map(str::trim).filter(|text| !text.is_empty()) {
        Some(text) => parse_at(text, now, Sense::Eaten).map_err(Fault::of),
        None => Ok(now.clone()),
    }
}

/// The dish's name, or its first two components.
fn named(audit: &Audit) -> String {
    let plain = |text: &str| {
        let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let signs = words.chars().filter(|c| !c.is_control());
        signs.take(200).collect::<String>()
    };
    if let Some(name) = &audit.name {
        return plain(name);
    }
    let all = &audit.components;
    let first: Vec<String> = all.iter().take(2).map(|c| plain(&c.text)).collect();
    match all.len().saturating_sub(2) {
        0 => first.join(", "),
        more => format!("{}, {more} more", first.join(", ")),
    }
}

/// Another part eaten changes every figure in proportion.
pub(super) fn edit(ask: &EditAsk) -> Result<Logged, Fault> {
    let whose = ask.setting.whose()?;
    let mut record = ask.record.clone();
    if let Some(share) = ask.share {
        if !(share.is_finite() && share > 0.0) {
            return Err(Fault::of(format!("{share} is no part of a dish")));
        }
        record.entry = record.entry.with_share(share);
    }
    if let Some(text) = &ask.at {
        let at = moment(Some(text), &ask.setting.now())?;
        record.entry.at = Moment::from(&at);
    }
    if let Some(name) = ask.meal.as_deref() {
        let planned = meal(&whose, Some(name), 0)?;
        record.entry.meal = planned.map(|meal| meal.name);
    }
    if let Some(undone) = ask.undone {
        record.undone = undone;
    }
    kept(record)
}

pub(super) fn day(ask: &DayAsk) -> Result<DayAnswer, Fault> {
    let whose = ask.setting.whose()?;
    let date = ask.date.unwrap_or_else(|| ask.setting.now().date());
    let standing = standing::on(&ask.setting, &whose, date);
    let meals = whose.diner.iter().flat_map(|diner| diner.meals.meals());
    Ok(DayAnswer {
        date,
        diner: whose.diner.as_ref().map(|diner| diner.name.clone()),
        energy_kcal: whose.energy_kcal,
        entries: entries(&ask.setting, date),
        rows: standing.left.iter().map(DayRow::of).collect(),
        fluid_ml: standing.total.fluid_ml,
        meals: meals
            .map(|meal| MealLine {
                name: meal.name.clone(),
                share: meal.share,
                energy_kcal: whose.energy_kcal * meal.share,
            })
            .collect(),
        history: history(&ask.setting, &whose, date)?,
        notes: whose.notes,
    })
}

fn entries(setting: &Setting, date: Date) -> Vec<EntryLine> {
    let on_date = |record: &&Record| !record.undone && record.entry.at.date == date;
    let mut records: Vec<&Record> = setting.records.iter().filter(on_date).collect();
    records.sort_by_key(|record| record.entry.at.time);
    let line = |record: &Record| EntryLine {
        uid: record.uid.clone(),
        time: record.entry.at.time.strftime("%H:%M").to_string(),
        meal: record.entry.meal.clone(),
        dish: record.entry.dish.clone(),
        share: record.entry.share,
        planned: record.planned,
        energy_kcal: record.entry.energy_kcal(),
        uncounted: record.entry.uncounted.clone(),
    };
    records.into_iter().map(line).collect()
}

impl DayRow {
    fn of(left: &Left) -> Self {
        let subject = left.line.subject;
        Self {
            key: subject.key(),
            label: subject.label(),
            is_group: subject.kind() == Kind::ToReach,
            unit: subject.unit(),
            eaten: left.eaten(),
            allowed: left.line.allowed().unwrap_or_default(),
            left: left.left().likely,
            share: left.share(),
            verdict: left.line.verdict().map(crate::ledger::Verdict::word),
            missing: left.missing,
        }
    }
}

fn history(setting: &Setting, whose: &Whose, until: Date) -> Result<Vec<PastDay>, Fault> {
    let allowances = whose.allowances();
    let mut days = Vec::new();
    for back in (0..DAYS).rev() {
        let date = until.checked_sub(back.days()).map_err(Fault::of)?;
        let counts = |record: &&Record| !record.undone && !record.planned;
        let on_date = |record: &&Record| counts(record) && record.entry.at.date == date;
        let entries = setting.records.iter().filter(on_date);
        let total = DayTotal::of(date, entries.map(|record| &record.entry));
        let rows = left(&total, &allowances);
        days.push(PastDay {
            date,
            entries: total.entries,
            energy_kcal: total.energy().map(|energy| energy.amount),
            shares: rows
                .iter()
                .map(|row| (row.line.subject.key(), row.share()))
                .collect(),
        });
    }
    Ok(days)
}
