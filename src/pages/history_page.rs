//! Weeks of the log, group by group: a small plot, JSON, CSV.

use super::escape::cell as guard;
use super::number::share;
use super::text::{visible, wrap};
use crate::daylog::{Allowance, DayTotal, Left, PlotColumn, PlotDay, left, plot};
use serde::Serialize;

/// Version of the JSON layout.
pub const VERSION: u32 = 1;
/// Columns of a terminal.
const WIDTH: usize = 80;

/// What is plotted, with the sign of its bar: told apart by word and texture.
const COLUMNS: [(&str, char); 8] = [
    ("energy", '#'),
    ("fruits", 'o'),
    ("vegetables", '%'),
    ("grains", '='),
    ("protein_foods", 'x'),
    ("dairy", '~'),
    ("oils", ':'),
    ("sodium", '+'),
];

/// Days of one person, held against their allowances as they are today.
#[derive(Debug)]
pub struct HistoryPage<'p> {
    /// Whose days.
    pub diner: &'p str,
    /// Oldest first; days without an entry are among them.
    pub days: &'p [DayTotal],
    /// What a day allows.
    pub allowances: &'p [Allowance],
}

impl HistoryPage<'_> {
    /// The answer in three lines, then a line a day.
    #[must_use]
    pub fn text(&self) -> String {
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
            shares.map(|row| row.share).sum::<f64>() / logged.len() as f64
        };
        let shares = first
            .iter()
            .enumerate()
            .map(|(at, row)| (&row.allowance, mean(at)));
        let shares: Vec<_> = shares.filter(|(a, _)| a.can_be_passed()).collect();
        let most = shares
            .iter()
            .filter(|(a, s)| *s > 1.005 && a.key != "energy");
        let most = most.max_by(|a, b| a.1.total_cmp(&b.1));
        let least = shares.iter().filter(|(a, _)| a.is_group);
        let least = least.min_by(|a, b| a.1.total_cmp(&b.1));
        let energy = shares
            .iter()
            .find(|(a, _)| a.key == "energy" && !a.is_group);
        let mut parts = Vec::new();
        if let Some((_, s)) = energy {
            parts.push(format!("energy {}", share(*s)));
        }
        if let Some((a, s)) = most {
            parts.push(format!("most beyond {} {}", a.label(), share(*s)));
        }
        if let Some((a, s)) = least {
            parts.push(format!("least {} {}", a.label(), share(*s)));
        }
        format!("A logged day on average: {}", parts.join(", "))
    }

    fn plotted(&self) -> Vec<(&Allowance, char)> {
        let found = COLUMNS.iter().filter_map(|(key, texture)| {
            let allowance = self.allowances.iter().find(|a| a.key == *key)?;
            Some((allowance, *texture))
        });
        found.collect()
    }

    fn columns(&self) -> Vec<PlotColumn> {
        let column = |(allowance, texture): (&Allowance, char)| PlotColumn {
            name: match allowance.key.as_str() {
                // Cut by words, not by signs.
                "vegetables" => "veg".to_owned(),
                "protein_foods" => "protein".to_owned(),
                _ => allowance.label().to_owned(),
            },
            texture,
        };
        self.plotted().into_iter().map(column).collect()
    }

    fn plot_days(&self) -> Vec<PlotDay> {
        let plotted: Vec<Allowance> = self.plotted().into_iter().map(|(a, _)| a.clone()).collect();
        let day = |day: &DayTotal| PlotDay {
            date: day.date,
            shares: (day.entries > 0).then(|| {
                let rows = left(day, &plotted);
                // A sum that lacks an entry's figure is no share to show.
                let known = |row: &Left| (row.missing == 0).then_some(row.share);
                rows.iter().map(known).collect()
            }),
        };
        self.days.iter().map(day).collect()
    }

    /// JSON, version 1: each day's sums and what was left.
    pub fn json(&self) -> Result<String, serde_json::Error> {
        #[derive(Serialize)]
        struct Day<'d> {
            total: &'d DayTotal,
            left: Vec<Left>,
        }
        #[derive(Serialize)]
        struct Page<'d> {
            version: u32,
            diner: &'d str,
            days: Vec<Day<'d>>,
        }
        let day = |total| Day {
            total,
            left: left(total, self.allowances),
        };
        let page = Page {
            version: VERSION,
            diner: self.diner,
            days: self.days.iter().map(day).collect(),
        };
        crate::pages::escape::json(&page)
    }

    /// CSV: a row a day and group or limit; days without an entry have none.
    pub fn csv(&self) -> Result<String, csv::Error> {
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
                    if row.allowance.is_group {
                        "group"
                    } else {
                        "limit"
                    }
                    .to_owned(),
                    row.allowance.key.clone(),
                    row.allowance.unit.clone(),
                    format!("{:.3}", row.eaten.likely),
                    format!("{:.3}", row.allowance.amount),
                    format!("{:.3}", row.share),
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
