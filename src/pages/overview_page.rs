//! How all clients stand, a line each: text for 80 columns, a page, JSON, CSV.

use super::csv_table::{csv_table, figure};
use super::escape::cell as guard;
use super::handout::Options;
use super::handout::PageError;
use super::history_page::AverageJson;
use super::layout::wrap;
use super::number::share;
use super::report_page::{Report, html};
use super::tables::{Cell, Column, Table};
use crate::daylog::Average;
use crate::ledger::{Kind, Subject, Verdict, usual_cautions};
use jiff::civil::Date;
use serde::Serialize;

/// Version of the JSON layout.
const VERSION: u32 = 1;

/// One client.
#[derive(Debug)]
pub(crate) struct Client {
    /// Their name.
    pub name: String,
    /// Days on which something was logged.
    pub logged: usize,
    /// Their averages; or that no figure is given to them.
    pub averages: Option<Vec<Average>>,
    /// The last of these days on which something was logged.
    pub last: Option<Date>,
}

/// All clients.
#[derive(Debug)]
pub(crate) struct OverviewPage<'p> {
    /// By name.
    pub clients: &'p [Client],
    /// How many days are looked back on.
    pub days: usize,
}

/// A group or limit with its share of the plan.
type Told = (Subject, f64);

impl Client {
    /// The shares of the plan of what stands alone in a summary.
    fn shares(&self) -> impl Iterator<Item = (Told, Verdict)> + '_ {
        let all = self.averages.iter().flatten();
        all.filter_map(|a| Some(((a.subject, a.share()?), a.verdict()?)))
            .filter(|((subject, _), _)| subject.stands_alone())
    }

    fn energy(&self) -> Option<(f64, Verdict)> {
        let mut shares = self.shares();
        let found = shares.find(|((subject, _), _)| *subject == Subject::ENERGY);
        found.map(|((_, share), verdict)| (share, verdict))
    }

    /// The group that is furthest from being reached.
    fn shortest(&self) -> Option<Told> {
        let short = self.shares().filter(|((subject, _), verdict)| {
            subject.kind() == Kind::ToReach && *verdict == Verdict::Short
        });
        short
            .map(|(told, _)| told)
            .min_by(|a, b| a.1.total_cmp(&b.1))
    }

    /// The limit that is furthest beyond.
    fn beyond(&self) -> Option<Told> {
        let past = self.shares().filter(|((subject, _), verdict)| {
            *subject != Subject::ENERGY && *verdict == Verdict::Beyond
        });
        past.map(|(told, _)| told)
            .max_by(|a, b| a.1.total_cmp(&b.1))
    }
}

fn words(told: Option<Told>) -> String {
    told.map_or(String::new(), |(subject, of_plan)| {
        format!("{} {}", subject.label(), share(of_plan))
    })
}

impl OverviewPage<'_> {
    /// A line a client.
    pub(crate) fn text(&self) -> String {
        if self.clients.is_empty() {
            return wrap("There is no diner yet: add one with `trencher diner add NAME`");
        }
        let mut text = wrap(&format!("Clients over the {}", self.span()));
        text.push_str(&self.table().text());
        text.push_str(&wrap(NOTE));
        text
    }

    /// The same as a page to print or send.
    ///
    /// Fails only on a fault in the template.
    pub(crate) fn html(&self, options: &Options) -> Result<String, PageError> {
        html(
            &Report {
                title: "Clients".to_owned(),
                under: format!("Over the {}", self.span()),
                tables: vec![self.table()],
                remarks: vec![NOTE.to_owned()],
                cautions: usual_cautions(),
                ..Report::default()
            },
            options,
        )
    }

    fn span(&self) -> String {
        format!("last {} days", self.days)
    }

    fn table(&self) -> Table {
        let row = |client: &Client| -> Vec<Cell> {
            let energy = match (&client.averages, client.energy()) {
                (None, _) => "no figure".into(),
                (_, None) => Cell::default(),
                (_, Some((of_plan, verdict))) => Cell {
                    text: share(of_plan),
                    share: Some(of_plan),
                    beyond: verdict == Verdict::Beyond,
                },
            };
            let beyond = client.beyond();
            vec![
                client.name.as_str().into(),
                format!("{} of {}", client.logged, self.days).into(),
                energy,
                words(client.shortest()).into(),
                Cell {
                    beyond: beyond.is_some(),
                    ..words(beyond).into()
                },
                client
                    .last
                    .map_or("-".to_owned(), |date| {
                        date.strftime("%a %-d %b").to_string()
                    })
                    .into(),
            ]
        };
        Table {
            title: String::new(),
            columns: vec![
                Column::names("client", 15),
                Column::figures("days", 7),
                Column::figures("energy", 9),
                Column::words("shortest of", 17),
                Column::words("furthest beyond", 16),
                Column::words("last", 10),
            ],
            rows: self.clients.iter().map(row).collect(),
        }
    }

    /// JSON, version 1.
    pub(crate) fn json(&self) -> Result<String, serde_json::Error> {
        #[derive(Serialize)]
        struct Row<'c> {
            name: &'c str,
            days_logged: usize,
            last: Option<Date>,
            averages: Option<Vec<AverageJson>>,
        }
        #[derive(Serialize)]
        struct Page<'c> {
            version: u32,
            days: usize,
            clients: Vec<Row<'c>>,
        }
        let clients = self.clients.iter().map(|client| Row {
            name: &client.name,
            days_logged: client.logged,
            last: client.last,
            averages: client.averages.as_deref().map(AverageJson::all),
        });
        super::escape::json(&Page {
            version: VERSION,
            days: self.days,
            clients: clients.collect(),
        })
    }

    /// CSV: a row a client.
    pub(crate) fn csv(&self) -> Result<String, csv::Error> {
        let key = |told: Option<Told>| told.map_or("", |(subject, _)| subject.key()).to_owned();
        let share = |told: Option<Told>| figure(told.map(|(_, share)| share));
        let row = |client: &Client| {
            [
                guard(&client.name),
                client.logged.to_string(),
                self.days.to_string(),
                figure(client.energy().map(|(share, _)| share)),
                key(client.shortest()),
                share(client.shortest()),
                key(client.beyond()),
                share(client.beyond()),
                client.last.map_or(String::new(), |date| date.to_string()),
            ]
        };
        csv_table(
            "name,days_logged,days,energy_share,shortest,shortest_share,beyond,beyond_share,last",
            self.clients.iter().map(row),
        )
    }
}

/// Beneath the list.
const NOTE: &str = "A logged day on average, percent of the day as planned today.";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ledger::{Group, Limit};

    fn average(subject: impl Into<Subject>, mean: f64) -> Average {
        Average {
            subject: subject.into(),
            mean,
            allowed: Some(100.0),
            met: 1,
            days: 2,
        }
    }

    #[test]
    fn a_client_takes_one_line_and_odd_names_do_no_harm() {
        let clients = [
            Client {
                name: "=Ana\u{202e}".to_owned(),
                logged: 5,
                averages: Some(vec![
                    average(Limit::Energy, 96.0),
                    average(Limit::Sodium, 131.0),
                    average(Group::ProteinFoods, 60.0),
                    average(Group::Fruits, 95.0),
                ]),
                last: Some(jiff::civil::date(2026, 11, 25)),
            },
            Client {
                name: "Bo".to_owned(),
                logged: 0,
                averages: None,
                last: None,
            },
        ];
        let page = OverviewPage {
            clients: &clients,
            days: 7,
        };
        let text = page.text();
        assert!(text.lines().all(|line| line.len() < 80), "{text}");
        let line = text.lines().find(|line| line.contains("Ana")).unwrap();
        for part in [
            "5 of 7",
            "96 %",
            "protein foods",
            "sodium 131 %",
            "Wed 25 Nov",
        ] {
            assert!(line.contains(part) || text.contains(part), "{text}");
        }
        assert!(text.contains("no figure"), "{text}");
        assert!(page.csv().unwrap().contains("'=Ana"));
        assert!(!page.html(&Options::default()).unwrap().contains('\u{202e}'));
        page.json().unwrap();
    }
}
