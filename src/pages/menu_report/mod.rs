//! What a whole menu comes to, for people: plain data, its text for a terminal, its page.

mod html;
mod text;

pub(crate) use html::{DRAWN, html};
pub(crate) use text::text;

use super::drawing::Picture;
use super::number::{kcal, thousands};

/// The report of a menu.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct MenuReport {
    /// What the menu is called.
    pub title: String,
    /// The file it was read from, or `-`.
    pub file: String,
    /// Whose day and which meal it is held against, a phrase.
    pub against: String,
    /// Items audited.
    pub items: u64,
    /// Which items these are, where not all of the menu; a phrase.
    pub chosen: Option<String>,
    /// Rows that could not be read.
    pub unread: u64,
    /// Items of which a component is not counted.
    pub incomplete: u64,
    /// What stands above the items that fit best.
    pub best_title: String,
    /// Items that fit the meal best, best first.
    pub best: Vec<ReportItem>,
    /// Items furthest beyond a day, furthest first.
    pub beyond: Vec<ReportItem>,
    /// What goes beyond a day most often: label, items.
    pub over: Vec<(String, u64)>,
    /// Items whose printed energy lies below, in and above the estimated range.
    pub printed: Option<[u64; 3]>,
    /// Distributions.
    pub plots: Vec<Plot>,
    /// Rows that could not be read: line and reason.
    pub unread_rows: Vec<(u64, String)>,
    /// The items themselves, in the menu's order; at most some hundreds (the page shows them,
    /// the terminal does not).
    pub listed: Vec<ListedItem>,
    /// Cautions.
    pub cautions: Vec<String>,
}

/// A row of the list of all items.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct ListedItem {
    /// Its name.
    pub name: String,
    /// What of it is not counted, as written; empty where all of it is.
    pub not_counted: String,
    /// Energy with its range, kcal.
    pub energy: String,
    /// Protein with its range, g.
    pub protein: String,
    /// Printed energy and where it lies; nothing where none is printed.
    pub printed: Option<String>,
    /// The largest share of a day.
    pub most: String,
    /// How much of it fits the meal.
    pub eat: String,
    /// How sure the foods are, a word.
    pub sure: String,
}

/// An item in the report.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct ReportItem {
    /// Its name.
    pub name: String,
    /// What there is to say of it.
    pub words: String,
    /// What more there is to say, on a line of its own.
    pub more: Option<String>,
    /// How it looks, where it is drawn.
    pub picture: Option<Picture>,
}

/// A distribution.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Plot {
    /// What is counted, such as `Energy, kcal an item`.
    pub title: String,
    /// Where the middle lies, a sentence.
    pub middle: String,
    /// Bins: range and number of items.
    pub bars: Vec<(String, u64)>,
}

impl Plot {
    /// A distribution from bins of lower bound, upper bound (nothing: no bound), count.
    pub(crate) fn new(
        title: &str,
        unit: &str,
        quantiles: Option<[f64; 3]>,
        bins: &[(f64, Option<f64>, u64)],
    ) -> Self {
        let middle = quantiles.map_or_else(
            || "not known for any item".to_owned(),
            |[low, middle, high]| {
                format!(
                    "half of the items hold {} {unit} or less; eight in ten hold {} to {}",
                    kcal(middle),
                    kcal(low),
                    kcal(high)
                )
            },
        );
        let bars = bins
            .iter()
            .map(|(low, high, count)| {
                let range = high.map_or_else(
                    || format!("{} and more", thousands(*low)),
                    |high| format!("{} to {}", thousands(*low), thousands(high)),
                );
                (range, *count)
            })
            .collect();
        Self {
            title: title.to_owned(),
            middle,
            bars,
        }
    }
}

/// A count as part of all items, in percent.
fn part(count: u64, items: u64) -> String {
    let part = count as f64 / items.max(1) as f64 * 100.0;
    if part < 1.0 {
        "<1 %".to_owned()
    } else {
        format!("{part:.0} %")
    }
}

fn not_counted(report: &MenuReport) -> String {
    format!(
        "{} could not be read; {} hold a component that is not counted",
        counted(report.unread, "row", "rows"),
        counted(report.incomplete, "item", "items")
    )
}

fn counted(n: u64, one: &str, more: &str) -> String {
    format!(
        "{} {}",
        thousands(n as f64),
        if n == 1 { one } else { more }
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use unicode_width::UnicodeWidthStr;

    fn report() -> MenuReport {
        MenuReport {
            title: "lunch".to_owned(),
            file: "lunch.csv".to_owned(),
            against: "a meal of 30 % of a 2,000 kcal day".to_owned(),
            items: 1_200,
            unread: 10,
            incomplete: 1,
            best: vec![ReportItem {
                name: "A very long name of a dish that nobody will ever order\u{1b}[31m".to_owned(),
                words: "all of it".to_owned(),
                ..ReportItem::default()
            }],
            over: vec![("sodium".to_owned(), 4)],
            printed: Some([1, 2, 3]),
            plots: vec![Plot::new(
                "Energy, kcal an item",
                "kcal",
                Some([210.0, 640.0, 1_300.0]),
                &[(0.0, Some(500.0), 2), (500.0, None, 80)],
            )],
            unread_rows: vec![(7, "a NUL byte".to_owned())],
            ..MenuReport::default()
        }
    }

    #[test]
    fn a_report_is_narrow_and_harmless() {
        let page = text(&report());
        assert!(page.lines().all(|l| l.width() <= 80), "{page}");
        assert!(!page.contains('\u{1b}'));
        assert!(page.starts_with("lunch.csv: 1,200 items audited"), "{page}");
        assert!(
            page.contains("sodium                   4 items (<1 %)"),
            "{page}"
        );
        assert!(page.contains("and 9 more"), "{page}");
        assert!(page.contains("500 and more |################################ 80"));
    }

    #[test]
    fn the_page_is_whole_and_harmless() {
        let mut report = report();
        report.best[0].name = "<script>alert(1)</script>".to_owned();
        let page = html(&report).expect("renders");
        let parsed = scraper::Html::parse_document(&page);
        assert!(parsed.errors.is_empty(), "{:?}", parsed.errors);
        assert!(!page.contains("<script"), "{page}");
        assert!(page.contains("1,200 items, held against"), "{page}");
        assert!(page.contains("sodium, 4 of 1,200"), "{page}");
        html(&MenuReport::default()).expect("renders when empty");
    }

    #[test]
    fn the_page_lists_the_items_and_says_how_many_more_there_are() {
        let mut report = report();
        report.listed = vec![ListedItem {
            name: "Soup & roll".to_owned(),
            not_counted: "zzyzx".to_owned(),
            energy: "350 (280 to 425)".to_owned(),
            printed: Some("330, in the range".to_owned()),
            ..ListedItem::default()
        }];
        let page = html(&report).expect("renders");
        let parsed = scraper::Html::parse_document(&page);
        let cells = scraper::Selector::parse(".every tbody td").expect("a selector");
        let found: Vec<String> = parsed.select(&cells).map(|c| c.inner_html()).collect();
        assert_eq!(found.len(), 6, "{page}");
        assert_eq!(found[0], "350 (280 to 425)");
        assert!(page.contains("Soup &amp; roll"), "{page}");
        assert!(page.contains("not counted: <bdi>zzyzx</bdi>"), "{page}");
        report.listed[0].printed = None;
        let without = html(&report).expect("renders");
        assert!(!without.contains("Printed kcal"), "{without}");
        assert!(page.contains("And 1,199 more"), "{page}");
    }

    #[test]
    fn an_empty_menu_makes_an_empty_report() {
        let page = text(&MenuReport::default());
        assert!(page.contains("0 items"), "{page}");
    }
}
