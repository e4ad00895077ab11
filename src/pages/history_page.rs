//! Weeks of the log: averages against the plan, days met, the meals furthest beyond it, and a
//! small plot of the days. Text for 80 columns, a page, JSON, CSV.

use super::csv_page::row_kind;
use super::csv_table::{csv_table, figure};
use super::day_lines::LeftJson;
use super::day_words::dish;
use super::escape::cell as guard;
use super::handout::Options;
use super::handout::PageError;
use super::layout::{visible, wrap};
use super::number::{amount, share};
use super::report_page::{Answer, Report, html};
use super::tables::{Cell, Column, Table};
use crate::daylog::{
    Average, DayTotal, Left, MealBeyond, PlotColumn, PlotDay, averages, left, nutrients, plot,
};
use crate::ledger::{Allowances, Group, Kind, Limit, Subject, Verdict, usual_cautions};
use serde::Serialize;
use std::sync::Arc;

/// Version of the JSON layout.
pub(crate) const VERSION: u32 = 1;
/// Columns of a terminal.
const WIDTH: usize = 80;
/// Days of a week.
const WEEK: usize = 7;
/// The sign that every bar is drawn with.
const FILL: char = '#';

/// What is plotted, and its name in a narrow column.
const COLUMNS: [(Subject, &str); 8] = [
    (Subject::ENERGY, "energy"),
    (Subject::Limit(Limit::Sodium), "sodium"),
    (Subject::Group(Group::Fruits), "fruits"),
    (Subject::Group(Group::Vegetables), "veg"),
    (Subject::Group(Group::Grains), "grains"),
    (Subject::Group(Group::ProteinFoods), "protein"),
    (Subject::Group(Group::Dairy), "dairy"),
    (Subject::Group(Group::Oils), "oils"),
];

/// Days of one person, held against their allowances as they are today.
#[derive(Debug)]
pub(crate) struct HistoryPage<'p> {
    /// Whose days.
    pub diner: &'p str,
    /// Oldest first; days without an entry are among them.
    pub days: &'p [DayTotal],
    /// The last seven days, and the seven before.
    pub weeks: [&'p [DayTotal]; 2],
    /// The meals furthest beyond their part of the day.
    pub beyond: &'p [MealBeyond],
    /// What a day allows.
    pub allowances: &'p Arc<Allowances>,
}

impl HistoryPage<'_> {
    /// The answer in two lines, the averages, the meals furthest beyond, then a line a day.
    pub(crate) fn text(&self) -> String {
        let mut text = wrap(&format!("{}, {}", visible(self.diner), self.under()));
        text.push_str(&wrap(&self.on_average()));
        for table in [self.averages_table(), self.beyond_table()] {
            let table = table.text();
            if !table.is_empty() {
                text.push('\n');
                text.push_str(&table);
            }
        }
        text.push('\n');
        text.push_str(&plot(&self.columns(), &self.plot_days(), WIDTH));
        text.push_str(&wrap(PLOT_NOTE));
        text
    }

    /// The same as a page to print or send.
    ///
    /// Fails only on a fault in the template.
    pub(crate) fn html(&self, options: &Options) -> Result<String, PageError> {
        html(
            &Report {
                title: format!("{}: looking back", self.diner),
                under: self.under(),
                answers: vec![Answer::new("On average", self.on_average())],
                tables: vec![
                    self.averages_table(),
                    self.beyond_table(),
                    self.days_table(),
                ],
                remarks: vec!["Shares are of the day as planned today.".to_owned()],
                cautions: usual_cautions(),
            },
            options,
        )
    }

    fn logged(&self) -> impl Iterator<Item = &DayTotal> {
        self.days.iter().filter(|day| day.entries > 0)
    }

    /// `12 Nov 2026 to 25 Nov 2026: something logged on 5 of 14 days`.
    fn under(&self) -> String {
        let span = match (self.days.first(), self.days.last()) {
            (Some(first), Some(last)) => format!(
                "{} to {}",
                first.date.strftime("%-d %b %Y"),
                last.date.strftime("%-d %b %Y")
            ),
            _ => "no days".to_owned(),
        };
        format!(
            "{span}: something logged on {} of {} days",
            self.logged().count(),
            self.days.len()
        )
    }

    /// Mean shares of the days with entries: energy, what is most beyond, what is least.
    fn on_average(&self) -> String {
        let all = averages(self.days, self.allowances);
        let shares = all
            .iter()
            .filter_map(|a| Some((a.subject, a.share()?, a.verdict()?)));
        let shares: Vec<(Subject, f64, Verdict)> =
            shares.filter(|(s, ..)| s.stands_alone()).collect();
        if shares.is_empty() {
            return "Nothing to look back on yet: log with `trencher day eat DISH`".to_owned();
        }
        let beyond =
            |(s, _, v): &&(Subject, f64, Verdict)| *s != Subject::ENERGY && *v == Verdict::Beyond;
        let most = shares.iter().filter(beyond);
        let most = most.max_by(|a, b| a.1.total_cmp(&b.1));
        let groups = shares
            .iter()
            .filter(|(s, ..)| matches!(s, Subject::Group(_)) && s.kind() == Kind::ToReach);
        let least = groups.min_by(|a, b| a.1.total_cmp(&b.1));
        let energy = shares.iter().find(|(s, ..)| *s == Subject::ENERGY);
        let told = [("", energy), ("most beyond ", most), ("least ", least)];
        let told = told.iter().filter_map(|(how, found)| {
            let (subject, s, _) = (*found)?;
            Some(format!("{how}{} {}", subject.label(), share(*s)))
        });
        format!(
            "A logged day on average: {}",
            told.collect::<Vec<_>>().join(", ")
        )
    }

    /// Every group, limit and nutrient against the plan, this week against the one before.
    fn averages_table(&self) -> Table {
        let all = averages(self.days, self.allowances);
        let [week, before] = self.weeks.map(|days| averages(days, self.allowances));
        let longer = self.days.len() > WEEK;
        let row = |average: &Average| {
            let unit = average.subject.unit();
            let mut row: Vec<Cell> = vec![
                average.subject.label().into(),
                format!("{} {unit}", amount(unit, average.mean)).into(),
                average
                    .allowed
                    .map_or(String::new(), |a| amount(unit, a))
                    .into(),
                share_cell(Some(average)),
            ];
            let met = average
                .allowed
                .map(|_| format!("{} of {}", average.met, average.days));
            row.push(met.unwrap_or_default().into());
            let same = |other: &&Average| other.subject == average.subject;
            row.extend(longer.then(|| share_cell(week.iter().find(same))));
            row.push(share_cell(before.iter().find(same)));
            row
        };
        let mut columns = vec![
            Column::words("", 22),
            Column::figures("average", 13),
            Column::figures("plan", 7),
            Column::figures("share", 9),
            Column::figures("days met", 9),
        ];
        columns.extend(longer.then(|| Column::figures("7 days", 9)));
        columns.push(Column::figures(
            if longer { "before" } else { "week before" },
            11,
        ));
        // Alcohol is no allowance to use up: it shows once there was some.
        let alcohol = Subject::from(Limit::Alcohol);
        let shown = all
            .iter()
            .filter(|a| a.mean > 0.0 || a.allowed.is_some() && a.subject != alcohol);
        Table {
            title: "A logged day on average, against the plan".to_owned(),
            columns,
            rows: shown.map(row).collect(),
        }
    }

    /// The meals that went furthest beyond their part of the day.
    fn beyond_table(&self) -> Table {
        let row = |meal: &MealBeyond| {
            let dishes = meal.dishes.iter().map(|(name, share)| dish(name, *share));
            let figure = |(subject, held, part): &(Subject, f64, f64)| {
                let unit = subject.unit();
                format!(
                    "{} {} of {} {unit}",
                    subject.label(),
                    amount(unit, *held),
                    amount(unit, *part)
                )
            };
            let figures: Vec<String> = meal.beyond.iter().take(2).map(figure).collect();
            let name = meal.meal.as_deref().unwrap_or("");
            vec![
                format!("{} {name}", meal.date.strftime("%a %-d %b"))
                    .trim_end()
                    .into(),
                dishes.collect::<Vec<_>>().join("; ").into(),
                figures.join(", ").into(),
            ]
        };
        Table {
            title: "Meals furthest beyond their part of the day".to_owned(),
            columns: vec![
                Column::words("meal", 20),
                Column::words("eaten", 27),
                Column::words("beyond", 28),
            ],
            rows: self.beyond.iter().map(row).collect(),
        }
    }

    /// The days as a table of shares, for a page.
    fn days_table(&self) -> Table {
        let columns = self.columns();
        let row = |day: PlotDay| {
            let mut row: Vec<Cell> = vec![day.date.strftime("%a %-d %b").to_string().into()];
            let shares = day.shares.unwrap_or_else(|| vec![None; columns.len()]);
            let subjects = self.plotted().map(|(subject, _)| subject);
            row.extend(subjects.zip(shares).map(|(subject, found)| Cell {
                text: found.map_or_else(|| "-".to_owned(), share),
                share: found,
                beyond:
                    found.is_some_and(|s| {
                        crate::ledger::verdict(subject.kind(), s) == Verdict::Beyond
                    }),
            }));
            row
        };
        let mut headings = vec![Column::words("day", 10)];
        headings.extend(
            self.plotted()
                .map(|(subject, _)| Column::figures(subject.label(), 9)),
        );
        Table {
            title: "The days".to_owned(),
            columns: headings,
            rows: self.plot_days().into_iter().map(row).collect(),
        }
    }

    /// What is plotted: what the day allows some of.
    fn plotted(&self) -> impl Iterator<Item = (Subject, &'static str)> + '_ {
        let allowed = |(subject, _): &(Subject, &str)| self.allowances.get(*subject).is_some();
        COLUMNS.into_iter().filter(allowed)
    }

    fn columns(&self) -> Vec<PlotColumn> {
        let column = |(_, name): (Subject, &str)| PlotColumn {
            name: name.to_owned(),
            texture: FILL,
        };
        self.plotted().map(column).collect()
    }

    fn plot_days(&self) -> Vec<PlotDay> {
        let day = |day: &DayTotal| PlotDay {
            date: day.date,
            shares: (day.entries > 0).then(|| {
                let ledger = day.ledger(self.allowances);
                // A sum that lacks an entry's figure is no share to show.
                let share = |subject| {
                    let whole = day.missing(subject) == 0;
                    ledger.line(subject).share().filter(|_| whole)
                };
                self.plotted().map(|(subject, _)| share(subject)).collect()
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
            energy_nutrients: Vec<LeftJson>,
        }
        #[derive(Serialize)]
        struct Page<'d> {
            version: u32,
            diner: &'d str,
            averages: Vec<AverageJson>,
            week: Vec<AverageJson>,
            week_before: Vec<AverageJson>,
            meals_beyond: Vec<MealJson<'d>>,
            days: Vec<Day<'d>>,
        }
        let day = |total| Day {
            total,
            left: LeftJson::all(&left(total, self.allowances)),
            energy_nutrients: LeftJson::all(&nutrients(total, self.allowances)),
        };
        let page = Page {
            version: VERSION,
            diner: self.diner,
            averages: AverageJson::all(&averages(self.days, self.allowances)),
            week: AverageJson::all(&averages(self.weeks[0], self.allowances)),
            week_before: AverageJson::all(&averages(self.weeks[1], self.allowances)),
            meals_beyond: self.beyond.iter().map(MealJson::of).collect(),
            days: self.days.iter().map(day).collect(),
        };
        crate::pages::escape::json(&page)
    }

    /// CSV: a row a day and group or limit; days without an entry have none.
    pub(crate) fn csv(&self) -> Result<String, csv::Error> {
        let of_day = |day: &DayTotal| {
            let nutrients = nutrients(day, self.allowances);
            let all = left(day, self.allowances).into_iter().chain(nutrients);
            let row = |row: Left| {
                [
                    guard(self.diner),
                    day.date.to_string(),
                    day.entries.to_string(),
                    row_kind(row.line.subject).to_owned(),
                    row.line.subject.key().to_owned(),
                    row.line.subject.unit().to_owned(),
                    figure(row.eaten().likely),
                    figure(row.line.allowed().unwrap_or_default()),
                    figure(row.share()),
                    row.missing.to_string(),
                ]
            };
            all.map(row).collect::<Vec<_>>()
        };
        let header = "diner,date,entries,row,name,unit,eaten,a_day,share,missing";
        csv_table(header, self.logged().flat_map(of_day))
    }
}

/// Beneath the plot.
const PLOT_NOTE: &str =
    "Percent of the day as planned today; a full bar is all of it, + is beyond.";

/// An average's share of the plan, as a page draws it.
fn share_cell(average: Option<&Average>) -> Cell {
    let Some(of_plan) = average.and_then(Average::share) else {
        return Cell::default();
    };
    Cell {
        text: share(of_plan),
        share: Some(of_plan),
        beyond: average.and_then(Average::verdict) == Some(Verdict::Beyond),
    }
}

/// An average as JSON: keys are stable.
#[derive(Debug, Serialize)]
pub(super) struct AverageJson {
    key: &'static str,
    unit: &'static str,
    mean: f64,
    a_day: Option<f64>,
    share: Option<f64>,
    verdict: Option<&'static str>,
    days_met: usize,
    days: usize,
}

impl AverageJson {
    pub(super) fn all(list: &[Average]) -> Vec<Self> {
        let of = |average: &Average| Self {
            key: average.subject.key(),
            unit: average.subject.unit(),
            mean: average.mean,
            a_day: average.allowed,
            share: average.share(),
            verdict: average.verdict().map(Verdict::word),
            days_met: average.met,
            days: average.days,
        };
        list.iter().map(of).collect()
    }
}

/// A meal beyond its part of the day as JSON: keys are stable.
#[derive(Debug, Serialize)]
struct MealJson<'m> {
    date: jiff::civil::Date,
    meal: Option<&'m str>,
    dishes: Vec<&'m str>,
    beyond: Vec<BeyondJson>,
}

#[derive(Debug, Serialize)]
struct BeyondJson {
    key: &'static str,
    unit: &'static str,
    amount: f64,
    of_meal: f64,
}

impl<'m> MealJson<'m> {
    fn of(meal: &'m MealBeyond) -> Self {
        let beyond = |(subject, held, part): &(Subject, f64, f64)| BeyondJson {
            key: subject.key(),
            unit: subject.unit(),
            amount: *held,
            of_meal: *part,
        };
        Self {
            date: meal.date,
            meal: meal.meal.as_deref(),
            dishes: meal.dishes.iter().map(|(name, _)| name.as_str()).collect(),
            beyond: meal.beyond.iter().map(beyond).collect(),
        }
    }
}
