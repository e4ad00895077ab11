//! A day of the log, and what is left of it: text for 80 columns, JSON, CSV.

use super::answer::{self, mark, name};
use super::csv_page::row_kind;
use super::day_lines::{LeftJson, is_open_group};
use super::escape::cell as guard;
use super::layout::{grid, visible, wrap};
use super::number::{amount, kcal, share, span, thousands};
use crate::daylog::{DayTotal, Left, Record};
use crate::ledger::{Limit, Subject, Verdict};
use crate::people::MealShares;
use jiff::civil::Date;
use serde::Serialize;
use std::fmt::Write as _;
use tabled::builder::Builder;

/// Version of the JSON layout.
pub(crate) const VERSION: u32 = 1;

/// A day of one person.
#[derive(Debug)]
pub(crate) struct DayPage<'p> {
    /// Whose day.
    pub diner: &'p str,
    /// Their local date.
    pub date: Date,
    /// What was logged, by time.
    pub records: &'p [Record],
    /// Its sum.
    pub total: &'p DayTotal,
    /// What is left; or the sentence that says why no figure is given.
    pub left: Result<&'p [Left], &'p str>,
    /// The planned meals.
    pub meals: &'p MealShares,
    /// Water to drink in a day, ml, where known.
    pub fluid_ml: Option<u32>,
}

impl DayPage<'_> {
    /// What was eaten, and how the day stands.
    pub(crate) fn shown(&self) -> String {
        let name = visible(self.diner);
        let left = match self.left {
            Ok(left) => left,
            Err(sentence) => {
                let mut text = wrap(&format!("{name}, {}: {}", self.day(), self.entries()));
                text.push_str(&wrap(sentence));
                text.push_str(&self.list(false));
                return text;
            }
        };
        let energy = energy(left).filter(|_| !self.records.is_empty());
        let energy = energy.map(|row| {
            format!(
                ", {} of {} kcal (80 % range {})",
                kcal(row.eaten().likely),
                kcal(row.line.allowed().unwrap_or_default()),
                span(row.eaten(), kcal)
            )
        });
        let mut text = wrap(&format!(
            "{name}, {}: {}{}",
            self.day(),
            self.entries(),
            energy.unwrap_or_default()
        ));
        text.push_str(&answer(left));
        text.push_str(&wrap(&Self::left_line(left)));
        text.push_str(&wrap(&self.fluid_line()));
        text.push_str(&self.list(true));
        if !self.records.is_empty() {
            text.push('\n');
            text.push_str(&table(left, true));
        }
        text.push_str(&self.remarks(left));
        text
    }

    /// What is left.
    pub(crate) fn left(&self) -> String {
        let name = visible(self.diner);
        let left = match self.left {
            Ok(left) => left,
            Err(sentence) => return wrap(&format!("{name}: {sentence}")),
        };
        let energy = energy(left).map_or(String::new(), |row| energy_left(row, " of"));
        let mut text = wrap(&format!(
            "Left of {name}'s day, {}: {energy}, {}",
            self.day(),
            match self.records.len() {
                0 => "nothing logged yet".to_owned(),
                _ => format!("after {}", self.entries()),
            }
        ));
        text.push_str(&answer(left));
        text.push_str(&wrap(&Self::left_line(left)));
        text.push_str(&wrap(&self.fluid_line()));
        text.push('\n');
        text.push_str(&table(left, false));
        text.push_str(&self.meals_to_come());
        text.push_str(&self.remarks(left));
        text
    }

    fn day(&self) -> String {
        self.date.strftime("%a %-d %b %Y").to_string()
    }

    fn entries(&self) -> String {
        match self.records.len() {
            0 => "nothing logged".to_owned(),
            1 => "1 entry".to_owned(),
            many => format!("{many} entries"),
        }
    }

    /// The groups of which something is left; oils are in the table.
    fn left_line(left: &[Left]) -> String {
        let open = |row: &&Left| {
            let short = row.line.verdict() == Some(Verdict::Short);
            short && is_open_group(&row.line)
        };
        let words = |row: &Left| {
            let subject = row.line.subject;
            let left = amount(subject.unit(), row.left().likely);
            format!("{} {left} {}", subject.label(), subject.unit())
        };
        let parts: Vec<String> = left.iter().filter(open).map(words).collect();
        if parts.is_empty() {
            return "Left: no food group".to_owned();
        }
        format!("Left: {}", parts.join(", "))
    }

    fn fluid_line(&self) -> String {
        let drunk = thousands((self.total.fluid_ml / 10.0).round() * 10.0);
        match self.fluid_ml {
            Some(ml) => format!(
                "Fluid: {drunk} ml drunk of about {} ml",
                thousands(f64::from(ml))
            ),
            None => format!("Fluid: {drunk} ml drunk"),
        }
    }

    fn list(&self, figures: bool) -> String {
        if self.records.is_empty() {
            return String::new();
        }
        let mut table = Builder::default();
        table.push_record([
            "time",
            "meal",
            "dish",
            "eaten",
            if figures { "kcal" } else { "" },
        ]);
        for record in self.records {
            let entry = &record.entry;
            let energy = entry
                .energy_kcal()
                .map_or("?".to_owned(), |e| kcal(e.likely));
            table.push_record([
                entry.at.time.strftime("%H:%M").to_string(),
                visible(entry.meal.as_deref().unwrap_or("")),
                visible(&entry.dish),
                part(entry.share),
                if figures { energy } else { String::new() },
            ]);
        }
        format!("\n{}", grid(table, &[5, 11, 42, 9, 6], &[4]))
    }

    /// Planned meals that nothing was logged for.
    fn meals_to_come(&self) -> String {
        let logged = |name: &str| {
            let mut records = self.records.iter();
            records.any(|record| record.entry.meal.as_deref() == Some(name))
        };
        let day = self
            .left
            .ok()
            .and_then(energy)
            .and_then(|row| row.line.allowed());
        let to_come = self.meals.meals().iter().filter(|meal| !logged(&meal.name));
        let to_come: Vec<String> = to_come
            .map(|meal| {
                let energy = day.map_or(String::new(), |day| {
                    format!(" ({} kcal)", kcal(day * meal.share))
                });
                format!(
                    "{} {:.0} %{energy}",
                    visible(&meal.name),
                    meal.share * 100.0
                )
            })
            .collect();
        if to_come.is_empty() {
            return String::new();
        }
        format!(
            "\n{}",
            wrap(&format!(
                "Planned and not logged yet: {}",
                to_come.join(", ")
            ))
        )
    }

    fn remarks(&self, left: &[Left]) -> String {
        let mut text = String::new();
        for row in left.iter().filter(|row| row.missing > 0) {
            text.push_str(&wrap(&format!(
                "note: {} is not known for {}: less is left than it says",
                row.line.subject.label(),
                match row.missing {
                    1 => "1 entry".to_owned(),
                    many => format!("{many} entries"),
                }
            )));
        }
        let uncounted = self
            .records
            .iter()
            .flat_map(|record| &record.entry.uncounted);
        let uncounted: Vec<String> = uncounted.map(|text| visible(text)).collect();
        if !uncounted.is_empty() {
            text.push_str(&wrap(&format!("not counted: {}", uncounted.join("; "))));
        }
        if text.is_empty() {
            text
        } else {
            format!("\n{text}")
        }
    }

    /// JSON, version 1. Where no figure is given to the person, entries come without theirs.
    pub(crate) fn json(&self) -> Result<String, serde_json::Error> {
        let bare = |record: &Record| {
            let Record { uid, entry, .. } = record;
            serde_json::json!({"uid": uid, "entry": {"at": entry.at, "meal": entry.meal, "dish": entry.dish}})
        };
        let entries = match self.left {
            Ok(_) => serde_json::to_value(self.records)?,
            Err(_) => self.records.iter().map(bare).collect(),
        };
        let page = Json {
            version: VERSION,
            diner: self.diner,
            date: self.date,
            refusal: self.left.err(),
            entries,
            total: self.left.is_ok().then_some(self.total),
            left: self.left.ok().map(LeftJson::all),
            fluid_drunk_ml: self.total.fluid_ml,
            fluid_ml: self.fluid_ml,
            meals: self.meals,
        };
        crate::pages::escape::json(&page)
    }

    /// The sums as CSV, one row a group or limit.
    pub(crate) fn csv(&self) -> Result<String, csv::Error> {
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer.write_record([
            "diner",
            "date",
            "row",
            "name",
            "unit",
            "eaten_low",
            "eaten_likely",
            "eaten_high",
            "a_day",
            "share",
            "left_low",
            "left_likely",
            "left_high",
            "missing",
        ])?;
        let figure = |value: f64| format!("{value:.3}");
        for row in self.left.ok().into_iter().flatten() {
            let (eaten, left) = (row.eaten(), row.left());
            writer.write_record([
                guard(self.diner),
                self.date.to_string(),
                row_kind(row.line.subject).to_owned(),
                row.line.subject.key().to_owned(),
                row.line.subject.unit().to_owned(),
                figure(eaten.low),
                figure(eaten.likely),
                figure(eaten.high),
                figure(row.line.allowed().unwrap_or_default()),
                figure(row.share()),
                figure(left.low),
                figure(left.likely),
                figure(left.high),
                row.missing.to_string(),
            ])?;
        }
        let bytes = writer
            .into_inner()
            .map_err(|e| csv::Error::from(e.into_error()))?;
        Ok(String::from_utf8_lossy(&bytes).into_owned())
    }
}

#[derive(Serialize)]
struct Json<'p> {
    version: u32,
    diner: &'p str,
    date: Date,
    refusal: Option<&'p str>,
    entries: serde_json::Value,
    total: Option<&'p DayTotal>,
    left: Option<Vec<LeftJson>>,
    fluid_drunk_ml: f64,
    fluid_ml: Option<u32>,
    meals: &'p MealShares,
}

/// The lines that acknowledge what was logged, and how the day stands then.
pub(crate) fn logged(records: &[Record], left: &[Left]) -> String {
    let mut text = String::new();
    for record in records {
        let entry = &record.entry;
        let energy = entry
            .energy_kcal()
            .map_or("energy not known".to_owned(), |e| {
                format!("{} kcal (80 % range {})", kcal(e.likely), span(e, kcal))
            });
        let meal = entry
            .meal
            .as_deref()
            .map(|meal| format!(", {}", visible(meal)));
        text.push_str(&wrap(&format!(
            "Logged for {}{}, {} {}: {}, {energy}",
            visible(&record.diner),
            meal.unwrap_or_default(),
            entry.at.date.strftime("%a %-d %b"),
            entry.at.time.strftime("%H:%M"),
            dish(&entry.dish, entry.share)
        )));
        for words in &entry.uncounted {
            text.push_str(&wrap(&format!("not counted: {}", visible(words))));
        }
    }
    if let Some(row) = energy(left) {
        let kcal_left = energy_left(row, " of");
        let _ = writeln!(text, "Left of the day: {kcal_left}");
    }
    text.push_str(&answer(left));
    text
}

/// `half of Beef and broccoli`; the whole of it goes without saying.
pub(crate) fn dish(name: &str, share: f64) -> String {
    let name = visible(name);
    if (share - 1.0).abs() < 1e-9 {
        return name;
    }
    if share > 1.0 {
        return format!("{} times {name}", part(share));
    }
    format!("{} of {name}", part(share))
}

/// A share as a person says it.
fn part(share: f64) -> String {
    const SAID: [(f64, &str); 8] = [
        (1.0, "all"),
        (0.5, "half"),
        (1.0 / 3.0, "a third"),
        (2.0 / 3.0, "two thirds"),
        (0.25, "a quarter"),
        (0.75, "3/4"),
        (2.0, "2"),
        (3.0, "3"),
    ];
    let said = SAID.iter().find(|(s, _)| (s - share).abs() < 1e-6);
    match said {
        Some((_, word)) => (*word).to_owned(),
        None if share > 1.0 => format!("{share:.1}"),
        None => format!("{:.0} %", share * 100.0),
    }
}

fn energy(left: &[Left]) -> Option<&Left> {
    left.iter().find(|row| row.line.subject == Subject::ENERGY)
}

/// `about 800 of 2,000 kcal`.
fn energy_left(row: &Left, of: &str) -> String {
    let day = kcal(row.line.allowed().unwrap_or_default());
    match row.left().likely {
        left if left > 0.0 => format!("about {}{of} {day} kcal", kcal(left)),
        _ => format!("no energy{of} {day} kcal"),
    }
}

/// Limits that are beyond the day, groups that are reached.
fn answer(left: &[Left]) -> String {
    let lines = left.iter().map(|row| row.line);
    if lines.clone().all(|line| line.share() == Some(0.0)) {
        return wrap("Nothing of the day is used yet");
    }
    wrap(&answer::line(lines))
}

/// Groups and limits with what is left; with `eaten` first of all what was eaten.
fn table(left: &[Left], eaten: bool) -> String {
    let mut table = Builder::default();
    let heading = if eaten { "eaten" } else { "left" };
    table.push_record([
        "",
        heading,
        "80 % range",
        "a day",
        if eaten { "share" } else { "used" },
        if eaten { "left" } else { "" },
    ]);
    // Alcohol is no allowance to use up: it shows once there was some.
    let alcohol = Subject::from(Limit::Alcohol);
    let shown = |row: &&Left| row.line.subject != alcohol || row.eaten().high > 0.0;
    for row in left.iter().filter(shown) {
        table.push_record(cells(row, eaten));
    }
    grid(table, &[22, 13, 14, 7, 10, 9], &[1, 2, 3, 4, 5])
}

fn cells(row: &Left, eaten: bool) -> [String; 6] {
    let unit = row.line.subject.unit();
    let show = |value: f64| amount(unit, value);
    // What is passed has nothing left.
    let (left, used) = (row.left(), row.eaten());
    let rest = show(left.likely.max(0.0));
    let (first, range) = if eaten {
        (show(used.likely), used)
    } else {
        (rest.clone(), left)
    };
    let (low, high) = (show(range.low.max(0.0)), show(range.high.max(0.0)));
    let range = match (low == high, high == "0") {
        (_, true) => String::new(),
        (true, _) => low,
        (false, _) => format!("{low} to {high}"),
    };
    let verdict = row
        .line
        .verdict()
        .filter(|_| row.line.subject.stands_alone());
    [
        name(&row.line),
        format!("{first} {unit}"),
        range,
        show(row.line.allowed().unwrap_or_default()),
        share(row.share()),
        if eaten {
            rest
        } else {
            verdict.map_or("", mark).to_owned()
        },
    ]
}
