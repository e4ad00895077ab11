//! A page of lines and tables to print or send: a day, weeks, all clients.

use super::handout::{Options, PageError, rendered};
use super::layout::visible;
use super::tables::Table;
use minijinja::{Value, context};

/// The page.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Report {
    /// Whose or what it is about.
    pub title: String,
    /// When, and how it was counted.
    pub under: String,
    /// The answer: what is asked, and what is said to it.
    pub answers: Vec<Answer>,
    /// The tables, in order; those without rows are left out.
    pub tables: Vec<Table>,
    /// Remarks, a sentence each.
    pub remarks: Vec<String>,
    /// Cautions, a sentence each.
    pub cautions: Vec<String>,
}

/// One part of the answer.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Answer {
    /// What it answers, such as `Left of the day`.
    pub of: String,
    /// The answer.
    pub says: String,
    /// Whether it goes beyond a limit.
    pub beyond: bool,
}

impl Answer {
    /// An answer within all limits.
    pub(super) fn new(of: &str, says: impl Into<String>) -> Self {
        Self {
            of: of.to_owned(),
            says: says.into(),
            beyond: false,
        }
    }
}

/// The page as one file, without scripts, in the style of the handouts.
pub(super) fn html(report: &Report, options: &Options) -> Result<String, PageError> {
    let lines = |list: &[String]| -> Vec<String> { list.iter().map(|l| visible(l)).collect() };
    let answers: Vec<Value> = report
        .answers
        .iter()
        .map(|a| context! { of => a.of.as_str(), says => visible(&a.says), beyond => a.beyond })
        .collect();
    let tables = report.tables.iter().filter(|table| !table.rows.is_empty());
    let content = context! {
        report => context! {
            under => visible(&report.under),
            answers,
            tables => tables.map(Table::value).collect::<Vec<_>>(),
            remarks => lines(&report.remarks),
            cautions => lines(&report.cautions),
        },
    };
    // The title names the client.
    let mut options = options.clone();
    options.signed.client = None;
    rendered("report.html", &visible(&report.title), &options, content)
}

#[cfg(test)]
mod tests {
    use super::super::tables::{Cell, Column};
    use super::*;

    #[test]
    fn a_page_is_whole_and_harmless() {
        let share = |text: &str, share, beyond| Cell {
            text: text.to_owned(),
            share: Some(share),
            beyond,
        };
        let page = html(
            &Report {
                title: "<script>Ana".to_owned(),
                under: "Wed 25 Nov 2026".to_owned(),
                answers: vec![Answer::new("Left of the day", "about 800 of 2,000 kcal")],
                tables: vec![
                    Table {
                        title: "Limits and groups".to_owned(),
                        columns: vec![Column::words("", 20), Column::figures("of the day", 10)],
                        rows: vec![
                            vec!["sodium".into(), share("130 %", 1.3, true)],
                            vec!["fruits".into(), share("40 %", 0.4, false)],
                        ],
                    },
                    Table::default(),
                ],
                remarks: vec!["one entry has no figure".to_owned()],
                cautions: vec!["These are estimates.".to_owned()],
            },
            &Options::default(),
        )
        .expect("renders");
        let parsed = scraper::Html::parse_document(&page);
        assert!(parsed.errors.is_empty(), "{:?}", parsed.errors);
        assert!(!page.contains("<script"), "{page}");
        let count = |selector: &str| {
            let selector = scraper::Selector::parse(selector).expect("a selector");
            parsed.select(&selector).count()
        };
        assert_eq!((count("table"), count("tbody th[scope=row]")), (1, 2));
        assert_eq!((count("td .length"), count("td .sign")), (2, 1));
        html(&Report::default(), &Options::default()).expect("renders when empty");
    }
}
