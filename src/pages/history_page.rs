//! Weeks of the log, group by group: a small plot, JSON, CSV.

use super::csv_page::row_kind;
use super::day_lines::LeftJson;
use super::escape::cell as guard;
use super::layout::{visible, wrap};
use super::number::share;
use crate::daylog::{DayTotal, Left, PlotColumn, PlotDay, left, plot};
use crate::ledger::{Allowances, Group, Kind, Limit, Subject, Verdict, verdict};
use serde::Serialize;
use std::sync::Arc;

/// Version of the JSON layout.
pub(crate) const VERSION: u32 = 1;
/// Columns of a terminal.
const WIDTH: usize = 80;

/// What is plotted, its name in a narrow column and the sign of its bar: told apart by word and texture.
const COLUMNS: [(Subject, &str, char); 8] = [
    (Subject::ENERGY, "energy", '#'),
    (Subject::Limit(Limit::Sodium), "sodium", '+'),
    (Subject::Group(Group::Fruits), "fruits", 'o'),
    (Subject::Group(Group::Vegetables), "veg", '%'),
    (Subject::Group(Group::Grains), "grains", '='),
    (Subject::Group(Group::ProteinFoods), "protein", 'x'),
    (Subject::Group(Group::Dairy), "dairy", '~'),
    (Subject::Group(Group::Oils), "oils", ':'),
];

/// Days of one person, held against their allowances as they are today.
#[derive(Debug)]
pub(crate) struct HistoryPage<'p> {
    /// Whose days.
    pub diner: &'p str,
    /// Oldest first; days without an entry are among them.
    pub days: &'p [DayTotal],
    /// What a day allows.
    pub allowances: &'p Arc<Allowances>,
}

impl HistoryPage<'_> {
    /// The answer in three lines, then a line a day.
    pub(crate) fn text(&self) -> String {
        let logged: Vec<Vec<Left>> = self
            .logged()
            .map(|day| left(day, self.allowances))
            .collect();
        let mut text = wrap(&format!(
            "{}, {}: something logged on {} of {} days",
            visible(self.diner),
            self.span(),
            logged.len(),
            self.days.len()
        ));
        text.push_str(&wrap(&Self::on_average(&logged)));
        text.push('\n');
        text.push_str(&plot(&self.columns(), &self.plot_days(), WIDTH));
        text.push_str(&wrap(
            "Percent of the day as planned today; a full bar is all of it, + is beyond.",
        ));
        text
    }

    fn logged(&self) -> impl Iterator<Item = &DayTotal> {
        self.days.iter().filter(|day| day.entries > 0)
    }

    fn span(&self) -> String {
        match (self.days.first(), self.days.last()) {
            (Some(first), Some(last)) => format!(
                "{} to {}",
                first.date.strftime("%-d %b %Y"),
                last.date.strftime("%-d %b %Y")
            ),
            _ => "no days".to_owned(),
        }
    }

    /// Mean shares of the days with entries: energy, what is most beyond, what is least.
    fn on_average(logged: &[Vec<Left>]) -> String {
        let Some(first) = logged.first() else {
            return "Nothing to look back on yet: log with `trencher day eat DISH`".to_owned();
        };
        let mean = |at: usize| {
            let shares = logged.iter().filter_map(|rows| rows.get(at));
            shares.map(Left::share).sum::<f64>() / logged.len() as f64
        };
        let shares = first.iter().enumerate();
        let shares: Vec<(Subject, f64)> = shares
            .map(|(at, row)| (row.line.subject, mean(at)))
            .filter(|(subject, _)| subject.stands_alone())
            .collect();
        let most = shares.iter().filter(|(subject, share)| {
            *subject != Subject::ENERGY && verdict(subject.kind(), *share) == Verdict::Beyond
        });
        let most = most.max_by(|a, b| a.1.total_cmp(&b.1));
        let groups = shares.iter().filter(|(s, _)| s.kind() == Kind::ToReach);
        let least = groups.min_by(|a, b| a.1.total_cmp(&b.1));
        let energy = shares.iter().find(|(s, _)| *s == Subject::ENERGY);
        let mut parts = Vec::new();
        if let Some((_, s)) = energy {
            parts.push(format!("energy {}", share(*s)));
        }
        if let Some((subject, s)) = most {
            parts.push(format!("most beyond {} {}", subject.label(), share(*s)));
        }
        if let Some((subject, s)) = least {
            parts.push(format!("least {} {}", subject.label(), share(*s)));
        }
        format!("A logged day on average: {}", parts.join(", "))
    }

    fn columns(&self) -> Vec<PlotColumn> {
        let allowed = COLUMNS
            .iter()
            .filter(|(subject, _, _)| self.allowances.get(*subject).is_some());
        let column = |(_, name, texture): &(Subject, &str, char)| PlotColumn {
            name: (*name).to_owned(),
            texture: *texture,
        };
        allowed.map(column).collect()
    }

    fn plot_days(&self) -> Vec<PlotDay> {
        let day = |day: &DayTotal| PlotDay {
            date: day.date,
            shares: (day.entries > 0).then(|| {
                let ledger = day.ledger(self.allowances);
                let columns = COLUMNS.iter().map(|(subject, _, _)| *subject);
                // A sum that lacks an entry's figure is no share to show.
                let share = |subject| {
                    let whole = day.missing(subject) == 0;
                    ledger.line(subject).share().filter(|_| whole)
                };
                let allowed = columns.filter(|s| self.allowances.get(*s).is_some());
                allowed.map(share).collect()
            }),
        };
        self.days.iter().map(day).collect()
    }

    /// JSON, version 1: each day's sums and what was left.
    pub(crate) fn json(&self) -> Result<String, serde_json::Error> {
        #[derive(Serialize)]
        struct Day<'d> {
            total: &'d DayTotal,
            left: Vec<LeftJson>,
        }
        #[derive(Serialize)]
        struct Page<'d> {
            version: u32,
            diner: &'d str,
            days: Vec<Day<'d>>,
        }
        let day = |total| Day {
            total,
            left: LeftJson::all(&left(total, self.allowances)),
        };
        let page = Page {
            version: VERSION,
            diner: self.diner,
            days: self.days.iter().map(day).collect(),
        };
        crate::pages::escape::json(&page)
    }

    /// CSV: a row a day and group or limit; days without an entry have none.
    pub(crate) fn csv(&self) -> Result<String, csv::Error> {
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer.write_record([
            "diner", "date", "entries", "row", "name", "unit", "eaten", "a_day", "share", "missing",
        ])?;
        for day in self.logged() {
            for row in left(day, self.allowances) {
                writer.write_record([
                    guard(self.diner),
                    day.date.to_string(),
                    day.entries.to_string(),
                    row_kind(row.line.subject).to_owned(),
                    row.line.subject.key().to_owned(),
                    row.line.subject.unit().to_owned(),
                    format!("{:.3}", row.eaten().likely),
                    format!("{:.3}", row.line.allowed().unwrap_or_default()),
                    format!("{:.3}", row.share()),
                    row.missing.to_string(),
                ])?;
            }
        }
        let bytes = writer
            .into_inner()
            .map_err(|e| csv::Error::from(e.into_error()))?;
        Ok(String::from_utf8_lossy(&bytes).into_owned())
    }
}
