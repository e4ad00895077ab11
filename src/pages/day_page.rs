//! A day of the log, and what is left of it: text for 80 columns, JSON, CSV.

use super::answer::{mark, name};
use super::csv_page::row_kind;
use super::csv_table::{csv_table, figure};
use super::day_lines::{LeftJson, is_open_group};
use super::day_words::{dish, energy_left, energy_row, part, stands};
use super::escape::cell as guard;
use super::handout::Options;
use super::handout::PageError;
use super::layout::{visible, wrap};
use super::number::{amount, kcal, share, span, thousands};
use super::report_page::{Answer, Report, html};
use super::tables::{Cell, Column, Table};
use crate::daylog::{DayTotal, Left, Record};
use crate::ledger::{Limit, Subject, Verdict, usual_cautions};
use crate::people::MealShares;
use jiff::civil::Date;
use serde::Serialize;

/// Version of the JSON layout.
pub(crate) const VERSION: u32 = 1;

/// A day of one person.
#[derive(Debug)]
pub(crate) struct DayPage<'p> {
    /// Whose day.
    pub diner: &'p str,
    /// Their local date.
    pub date: Date,
    /// What was eaten, by time.
    pub records: &'p [Record],
    /// What is planned and not eaten yet, by time.
    pub planned: &'p [Record],
    /// The sum of what was eaten.
    pub total: &'p DayTotal,
    /// What is left; or the sentence that says why no figure is given.
    pub left: Result<&'p [Left], &'p str>,
    /// What is left if it is eaten as planned.
    pub left_if: &'p [Left],
    /// Protein, carbohydrate, fat and fibre of what was eaten.
    pub nutrients: &'p [Left],
    /// The same with what is planned.
    pub nutrients_if: &'p [Left],
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
                text.push_str(&self.lists(false));
                return text;
            }
        };
        let mut text = wrap(&format!(
            "{name}, {}: {}{}",
            self.day(),
            self.entries(),
            self.eaten_words(left)
        ));
        text.push_str(&stands(left));
        text.push_str(&wrap(&Self::left_line(left)));
        text.push_str(&wrap(&self.nutrients_line()));
        text.push_str(&wrap(&self.fluid_line()));
        text.push_str(&self.if_line());
        text.push_str(&self.lists(true));
        if !self.records.is_empty() {
            text.push('\n');
            text.push_str(&eaten_table(left, self.nutrients).text());
        }
        text.push_str(&self.remarks_text(left));
        text
    }

    /// `, 1,200 of 2,000 kcal (80 % range ...)`; nothing where nothing was eaten.
    fn eaten_words(&self, left: &[Left]) -> String {
        let energy = energy_row(left).filter(|_| !self.records.is_empty());
        let energy = energy.map(|row| {
            format!(
                ", {} of {} kcal (80 % range {})",
                kcal(row.eaten().likely),
                kcal(row.line.allowed().unwrap_or_default()),
                span(row.eaten(), kcal)
            )
        });
        energy.unwrap_or_default()
    }

    /// What is left.
    pub(crate) fn left(&self) -> String {
        let name = visible(self.diner);
        let left = match self.left {
            Ok(left) => left,
            Err(sentence) => return wrap(&format!("{name}: {sentence}")),
        };
        let energy = energy_row(left).map_or(String::new(), |row| energy_left(row, " of"));
        let mut text = wrap(&format!(
            "Left of {name}'s day, {}: {energy}, {}",
            self.day(),
            self.after()
        ));
        text.push_str(&stands(left));
        text.push_str(&wrap(&Self::left_line(left)));
        text.push_str(&wrap(&self.nutrients_line()));
        text.push_str(&wrap(&self.fluid_line()));
        text.push_str(&self.if_line());
        text.push('\n');
        text.push_str(&self.left_table(left).text());
        if let Some(line) = self.meals_to_come() {
            text.push('\n');
            text.push_str(&wrap(&line));
        }
        text.push_str(&self.remarks_text(left));
        text
    }

    fn after(&self) -> String {
        match self.records.len() {
            0 => "nothing logged yet".to_owned(),
            _ => format!("after {}", self.entries()),
        }
    }

    fn left_table(&self, left: &[Left]) -> Table {
        // Of the nutrients only what has a target can be left.
        let targets = |rows: &[Left]| -> Vec<Left> {
            let target = |row: &&Left| row.line.allowed().is_some();
            rows.iter().filter(target).copied().collect()
        };
        let left = [left, &targets(self.nutrients)].concat();
        if self.planned.is_empty() {
            left_table(&left)
        } else {
            let left_if = [self.left_if, &targets(self.nutrients_if)].concat();
            if_table(&left, &left_if)
        }
    }

    /// What is left if what is planned is eaten; nothing where nothing is planned.
    fn if_words(&self) -> Option<String> {
        let planned = self.planned.iter().map(|record| {
            let entry = &record.entry;
            let energy = entry
                .energy_kcal()
                .map_or("energy not known".to_owned(), |e| {
                    format!("{} kcal", kcal(e.likely))
                });
            let time = entry.at.time.strftime("%H:%M");
            format!("{time} {}, {energy}", dish(&entry.dish, entry.share))
        });
        let planned: Vec<String> = planned.collect();
        let row = energy_row(self.left_if).filter(|_| !planned.is_empty())?;
        let left = energy_left(row, " of");
        Some(format!(
            "{left} left if you eat as planned ({})",
            planned.join("; ")
        ))
    }

    fn if_line(&self) -> String {
        let mut words = self.if_words().unwrap_or_default();
        if let Some(first) = words.get_mut(..1) {
            first.make_ascii_uppercase();
        }
        if words.is_empty() {
            words
        } else {
            wrap(&words)
        }
    }

    /// The day as a page to print or send: what was eaten, or what is left.
    ///
    /// Fails only on a fault in the template.
    pub(crate) fn html(&self, show: bool, options: &Options) -> Result<String, PageError> {
        let under = format!(
            "{}: {}",
            self.date.strftime("%A, %-d %B %Y"),
            self.entries()
        );
        let title = if show {
            format!("{}'s day", self.diner)
        } else {
            format!("What is left of {}'s day", self.diner)
        };
        let mut report = Report {
            title,
            under,
            cautions: usual_cautions(),
            ..Report::default()
        };
        let left = match self.left {
            Ok(left) => left,
            Err(sentence) => {
                report.remarks.push(sentence.to_owned());
                report.tables = self.entry_tables(false);
                return html(&report, options);
            }
        };
        report.answers = self.answers(left);
        report.tables = self.entry_tables(true);
        report.tables.push(if show {
            eaten_table(left, self.nutrients)
        } else {
            self.left_table(left)
        });
        report.remarks.push(self.nutrients_line());
        report.remarks.push(self.fluid_line());
        report
            .remarks
            .extend(self.meals_to_come().filter(|_| !show));
        report.remarks.extend(self.remarks(left));
        html(&report, options)
    }

    fn answers(&self, left: &[Left]) -> Vec<Answer> {
        let stands = stands(left);
        let stands: Vec<&str> = stands.split_whitespace().collect();
        let beyond = |row: &Left| row.line.verdict() == Some(Verdict::Beyond);
        let energy = energy_row(left).map_or(String::new(), |row| energy_left(row, " of"));
        let groups = Self::left_line(left).replacen("Left: ", "", 1);
        let mut answers = vec![
            Answer::new("Left of the day", energy),
            Answer {
                beyond: left.iter().any(beyond),
                ..Answer::new("Limits and groups", stands.join(" "))
            },
            Answer::new("Groups to come", groups),
        ];
        let planned = self.if_words();
        answers.extend(planned.map(|words| Answer::new("As planned", words)));
        answers
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

    /// `Eaten: protein 62 of 110 g, carbohydrate 150 g, fat 40 g, fibre 12 g`.
    fn nutrients_line(&self) -> String {
        let words = self.nutrients.iter().map(|row| {
            let unit = row.line.subject.unit();
            let eaten = amount(unit, row.eaten().likely);
            let target = row.line.allowed();
            let of = target.map_or(String::new(), |all| format!(" of {}", amount(unit, all)));
            format!("{} {eaten}{of} {unit}", row.line.subject.label())
        });
        format!("Eaten: {}", words.collect::<Vec<_>>().join(", "))
    }

    fn fluid_line(&self) -> String {
        let drunk = thousands((self.total.fluid_ml / 10.0).round() * 10.0);
        match self.fluid_ml {
            Some(ml) => format!(
                "Fluid: {drunk} ml drunk of about {} ml (heart or kidney disease: ask the clinic)",
                thousands(f64::from(ml))
            ),
            None => format!("Fluid: {drunk} ml drunk"),
        }
    }

    /// What was eaten, then what is planned.
    fn lists(&self, figures: bool) -> String {
        let mut all = String::new();
        for text in self.entry_tables(figures).iter().map(Table::text) {
            if !text.is_empty() {
                all.push('\n');
                all.push_str(&text);
            }
        }
        all
    }

    fn entry_tables(&self, figures: bool) -> Vec<Table> {
        let planned = "Planned and not eaten yet";
        vec![
            entries_table("", self.records, figures),
            entries_table(planned, self.planned, figures),
        ]
    }

    /// Meals of the plan for the day that nothing was logged for.
    fn meals_to_come(&self) -> Option<String> {
        let logged = |name: &str| {
            let mut records = self.records.iter().chain(self.planned);
            records.any(|record| record.entry.meal.as_deref() == Some(name))
        };
        let day = self
            .left
            .ok()
            .and_then(energy_row)
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
        (!to_come.is_empty()).then(|| format!("Meals not logged yet: {}", to_come.join(", ")))
    }

    /// What the figures leave out, a sentence each.
    fn remarks(&self, left: &[Left]) -> Vec<String> {
        let missing = left.iter().filter(|row| row.missing > 0).map(|row| {
            format!(
                "note: {} is not known for {}: less is left than it says",
                row.line.subject.label(),
                match row.missing {
                    1 => "1 entry".to_owned(),
                    many => format!("{many} entries"),
                }
            )
        });
        let uncounted = self
            .records
            .iter()
            .flat_map(|record| &record.entry.uncounted);
        let uncounted: Vec<String> = uncounted.map(|text| visible(text)).collect();
        let uncounted =
            (!uncounted.is_empty()).then(|| format!("not counted: {}", uncounted.join("; ")));
        missing.chain(uncounted).collect()
    }

    fn remarks_text(&self, left: &[Left]) -> String {
        let remarks = self.remarks(left);
        if remarks.is_empty() {
            return String::new();
        }
        let lines: String = remarks.iter().map(|remark| wrap(remark)).collect();
        format!("\n{lines}")
    }

    /// JSON, version 1. Where no figure is given to the person, entries come without theirs.
    pub(crate) fn json(&self) -> Result<String, serde_json::Error> {
        let bare = |record: &Record| {
            let Record {
                uid, entry, number, ..
            } = record;
            serde_json::json!({"uid": uid, "number": number, "entry": {"at": entry.at, "meal": entry.meal, "dish": entry.dish}})
        };
        let entries = |records: &[Record]| match self.left {
            Ok(_) => serde_json::to_value(records),
            Err(_) => Ok(records.iter().map(bare).collect()),
        };
        let page = Json {
            version: VERSION,
            diner: self.diner,
            date: self.date,
            refusal: self.left.err(),
            entries: entries(self.records)?,
            planned: entries(self.planned)?,
            total: self.left.is_ok().then_some(self.total),
            left: self.left.ok().map(LeftJson::all),
            left_if: self
                .left
                .ok()
                .filter(|_| !self.planned.is_empty())
                .map(|_| LeftJson::all(self.left_if)),
            energy_nutrients: self.left.ok().map(|_| LeftJson::all(self.nutrients)),
            fluid_drunk_ml: self.total.fluid_ml,
            fluid_ml: self.fluid_ml,
            meals: self.meals,
        };
        crate::pages::escape::json(&page)
    }

    /// The sums as CSV, one row a group or limit.
    pub(crate) fn csv(&self) -> Result<String, csv::Error> {
        let row = |row: &Left| {
            let (eaten, left) = (row.eaten(), row.left());
            [
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
            ]
        };
        let left = self.left.ok().into_iter().flatten();
        let nutrients = self.nutrients.iter().filter(|_| self.left.is_ok());
        csv_table(
            "diner,date,row,name,unit,eaten_low,eaten_likely,eaten_high,a_day,share,left_low,\
             left_likely,left_high,missing",
            left.chain(nutrients).map(row),
        )
    }
}

#[derive(Serialize)]
struct Json<'p> {
    version: u32,
    diner: &'p str,
    date: Date,
    refusal: Option<&'p str>,
    entries: serde_json::Value,
    /// Entries that are planned and not eaten yet: in none of the sums.
    planned: serde_json::Value,
    total: Option<&'p DayTotal>,
    left: Option<Vec<LeftJson>>,
    /// What is left if they are eaten; nothing where none is planned.
    left_if: Option<Vec<LeftJson>>,
    /// Protein, carbohydrate, fat and fibre; an amount a day of 0 where there is no target.
    energy_nutrients: Option<Vec<LeftJson>>,
    fluid_drunk_ml: f64,
    fluid_ml: Option<u32>,
    meals: &'p MealShares,
}

/// Entries by time; with `figures`, their energy.
fn entries_table(title: &str, records: &[Record], figures: bool) -> Table {
    let row = |record: &Record| {
        let entry = &record.entry;
        let energy = entry
            .energy_kcal()
            .map_or("?".to_owned(), |e| kcal(e.likely));
        let mut row: Vec<Cell> = vec![
            record.number.to_string().into(),
            entry.at.time.strftime("%H:%M").to_string().into(),
            entry.meal.as_deref().unwrap_or("").into(),
            entry.dish.as_str().into(),
            part(entry.share).into(),
        ];
        row.extend(figures.then(|| energy.into()));
        row
    };
    let mut columns = vec![
        Column::figures("no.", 4),
        Column::words("time", 5),
        Column::words("meal", 10),
        Column::words("dish", 39),
        Column::words("eaten", 9),
    ];
    columns.extend(figures.then(|| Column::figures("kcal", 6)));
    Table {
        title: title.to_owned(),
        columns,
        rows: records.iter().map(row).collect(),
    }
}

/// The rows to show. Alcohol is no allowance to use up: it shows once there was some.
fn shown(left: &[Left]) -> impl Iterator<Item = &Left> {
    let alcohol = Subject::from(Limit::Alcohol);
    left.iter()
        .filter(move |row| row.line.subject != alcohol || row.eaten().high > 0.0)
}

/// An amount with its unit.
fn with_unit(row: &Left, value: f64) -> String {
    let unit = row.line.subject.unit();
    format!("{} {unit}", amount(unit, value))
}

/// `1.2 to 2.4`, one figure where both ends are shown alike, nothing where there is none.
fn range_words(row: &Left, low: f64, high: f64) -> String {
    let show = |value: f64| amount(row.line.subject.unit(), value.max(0.0));
    match (show(low), show(high)) {
        (_, high) if high == "0" => String::new(),
        (low, high) if low == high => low,
        (low, high) => format!("{low} to {high}"),
    }
}

/// The share of the day that is used, as a page draws it.
fn used(row: &Left) -> Cell {
    Cell {
        text: share(row.share()),
        share: Some(row.share()),
        beyond: row.line.verdict() == Some(Verdict::Beyond),
    }
}

/// What the share means, in a word.
fn verdict_word(row: &Left) -> Cell {
    let alone = row.line.subject.stands_alone();
    let verdict = row.line.verdict().filter(|_| alone);
    verdict.map_or("", mark).into()
}

/// What is passed has nothing left.
fn rest(row: &Left) -> f64 {
    row.left().likely.max(0.0)
}

/// A day's allowance.
fn a_day(row: &Left) -> Cell {
    let allowed = row.line.allowed();
    let words = allowed.map(|allowed| amount(row.line.subject.unit(), allowed));
    words.map_or_else(|| "-".into(), Cell::from)
}

/// Groups and limits with what was eaten and what is left, then nutrients.
fn eaten_table(left: &[Left], nutrients: &[Left]) -> Table {
    let row = |row: &Left| {
        let eaten = row.eaten();
        let of_day = row.line.allowed().is_some();
        let rest = amount(row.line.subject.unit(), rest(row));
        vec![
            name(&row.line).into(),
            with_unit(row, eaten.likely).into(),
            range_words(row, eaten.low, eaten.high).into(),
            a_day(row),
            if of_day { used(row) } else { "-".into() },
            if of_day { rest.into() } else { "-".into() },
        ]
    };
    Table {
        title: String::new(),
        columns: vec![
            Column::words("", 22),
            Column::figures("eaten", 13),
            Column::figures("80 % range", 14),
            Column::figures("a day", 7),
            Column::figures("share", 10),
            Column::figures("left", 9),
        ],
        rows: shown(left).chain(nutrients).map(row).collect(),
    }
}

/// Groups and limits with what is left.
fn left_table(left: &[Left]) -> Table {
    let row = |row: &Left| {
        let left = row.left();
        vec![
            name(&row.line).into(),
            with_unit(row, rest(row)).into(),
            range_words(row, left.low, left.high).into(),
            a_day(row),
            used(row),
            verdict_word(row),
        ]
    };
    Table {
        title: String::new(),
        columns: vec![
            Column::words("", 22),
            Column::figures("left", 13),
            Column::figures("80 % range", 14),
            Column::figures("a day", 7),
            Column::figures("used", 10),
            Column::figures("", 9),
        ],
        rows: shown(left).map(row).collect(),
    }
}

/// Groups and limits with what is left, now and if it is eaten as planned.
fn if_table(left: &[Left], left_if: &[Left]) -> Table {
    let now = |then: &Left| {
        left.iter()
            .find(|row| row.line.subject == then.line.subject)
    };
    let row = |then: &Left| {
        let now = now(then).unwrap_or(then);
        vec![
            name(&then.line).into(),
            with_unit(now, rest(now)).into(),
            a_day(then),
            with_unit(then, rest(then)).into(),
            used(then),
            verdict_word(then),
        ]
    };
    Table {
        title: String::new(),
        columns: vec![
            Column::words("", 22),
            Column::figures("left", 13),
            Column::figures("a day", 7),
            Column::figures("left if you do", 14),
            Column::figures("used then", 10),
            Column::figures("", 9),
        ],
        rows: shown(left_if).map(row).collect(),
    }
}
