//! What a whole menu comes to, for people: plain data, and its text for a terminal.

use super::handout::{Options, PageError, rendered};
use super::layout::{LINE_WIDTH, set_in, shortened, visible, wrap};
use super::number::{kcal, thousands};
use minijinja::{Value, context};
use std::fmt::Write;
use unicode_width::UnicodeWidthStr;

/// Longest bar of a distribution, characters.
const BAR: u64 = 32;
/// Room for an item's name.
const NAME: usize = 34;

/// The report of a menu.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct MenuReport {
    /// What the menu is called.
    pub title: String,
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
    /// Energy and protein with their range, printed energy and where it lies, the largest share of a day,
    /// how much of it fits the meal, how sure the foods are.
    pub cells: [String; 6],
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

/// The report as a page, in the style of the handouts: one file, no network, no scripts.
pub(crate) fn html(report: &MenuReport) -> Result<String, PageError> {
    let many = |n: u64| thousands(n as f64);
    let named = |list: &[ReportItem]| -> Vec<Value> {
        let row = |i: &ReportItem| {
            context! { name => visible(&i.name), words => i.words.as_str(), more => i.more.as_deref() }
        };
        list.iter().map(row).collect()
    };
    let over: Vec<Value> = report
        .over
        .iter()
        .map(|(label, count)| {
            context! { name => label, words => format!("{} ({})", many(*count), part(*count, report.items)) }
        })
        .collect();
    let unread_rows: Vec<Value> = report
        .unread_rows
        .iter()
        .map(|(line, reason)| context! { name => format!("line {line}"), words => visible(reason) })
        .collect();
    let listed: Vec<Value> = report
        .listed
        .iter()
        .map(|item| context! { name => visible(&item.name), cells => item.cells.to_vec() })
        .collect();
    let more = report.items.saturating_sub(report.listed.len() as u64);
    let content = context! {
        report => context! {
            items => many(report.items),
            chosen => report.chosen.as_ref().map(|c| format!("items {c}")),
            against => report.against.as_str(),
            most_over => report.over.first().map(|(label, n)| format!("{label}, {} of {}", many(*n), many(report.items))),
            printed => report.printed.map(|[below, within, above]| {
                format!("in the range {}, below {}, above {}", many(within), many(below), many(above))
            }),
            unread => (report.unread + report.incomplete > 0).then(|| not_counted(report)),
            best => named(&report.best),
            best_title => visible(&report.best_title),
            beyond => named(&report.beyond),
            over,
            plots => report.plots.iter().filter(|p| !p.bars.is_empty()).map(plot_value).collect::<Vec<_>>(),
            unread_rows,
            listed,
            listed_more => (more > 0).then(|| many(more)),
            cautions => report.cautions.clone(),
        },
    };
    rendered("menu.html", &report.title, Options::default(), content)
}

fn plot_value(plot: &Plot) -> Value {
    let most = plot.bars.iter().map(|(_, c)| *c).max().unwrap_or(0).max(1);
    let bars: Vec<Value> = plot
        .bars
        .iter()
        .map(|(range, count)| {
            // Room for the figure beside the longest bar.
            let percent = (count * 80).div_ceil(most);
            context! { range, percent, count => thousands(*count as f64) }
        })
        .collect();
    context! { title => plot.title.as_str(), middle => plot.middle.as_str(), bars }
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

/// The report for a terminal.
pub(crate) fn text(report: &MenuReport) -> String {
    let mut page = String::new();
    headline(&mut page, report);
    items(&mut page, &visible(&report.best_title), &report.best);
    items(&mut page, "Furthest beyond a day", &report.beyond);
    over(&mut page, report);
    for plot in &report.plots {
        plot_text(&mut page, plot);
    }
    unread(&mut page, report);
    page.push('\n');
    for caution in &report.cautions {
        page.push_str(&wrap(caution));
    }
    page
}

fn headline(page: &mut String, report: &MenuReport) {
    let what = report.chosen.as_deref().unwrap_or("audited");
    let line = format!(
        "{}: {} {what}, held against {}",
        visible(&report.title),
        counted(report.items, "item", "items"),
        report.against
    );
    page.push_str(&wrap(&line));
    if report.unread + report.incomplete > 0 {
        page.push_str(&wrap(&not_counted(report)));
    }
    if let Some([below, within, above]) = report.printed {
        let line = format!(
            "Printed energy lies in the estimated range for {}, below it for {}, above it for {}",
            thousands(within as f64),
            thousands(below as f64),
            thousands(above as f64)
        );
        page.push_str(&wrap(&line));
    }
}

fn items(page: &mut String, title: &str, list: &[ReportItem]) {
    if list.is_empty() {
        return;
    }
    let _ = write!(page, "\n{title}\n");
    for item in list {
        let name = shortened(&visible(&item.name), NAME);
        let pad = NAME.saturating_sub(name.width());
        let line = format!("  {name}{} {}", " ".repeat(pad), item.words);
        if line.width() <= LINE_WIDTH {
            let _ = writeln!(page, "{line}");
        } else {
            // More than a line holds stands below the name.
            let _ = writeln!(page, "  {name}");
            page.push_str(&set_in(&item.words, 4));
        }
        if let Some(more) = &item.more {
            page.push_str(&set_in(more, 4));
        }
    }
}

fn over(page: &mut String, report: &MenuReport) {
    if report.over.is_empty() || report.items == 0 {
        return;
    }
    page.push_str("\nMore than a whole day of, most often first\n");
    for (label, count) in &report.over {
        let part = part(*count, report.items);
        let _ = writeln!(
            page,
            "  {label:<16} {:>9} {} ({part})",
            thousands(*count as f64),
            if *count == 1 { "item" } else { "items" }
        );
    }
}

fn plot_text(page: &mut String, plot: &Plot) {
    let most = plot.bars.iter().map(|(_, c)| *c).max().unwrap_or(0);
    if most == 0 {
        return;
    }
    let _ = write!(page, "\n{}\n", plot.title);
    page.push_str(&wrap(&format!("  {}", plot.middle)));
    for (range, count) in &plot.bars {
        let mut length = count * BAR / most;
        if *count > 0 {
            length = length.max(1);
        }
        let bar = "#".repeat(length as usize);
        let line = format!("  {range:>16} |{bar} {}", thousands(*count as f64));
        let _ = writeln!(page, "{}", line.trim_end());
    }
}

fn unread(page: &mut String, report: &MenuReport) {
    if report.unread_rows.is_empty() {
        return;
    }
    page.push_str("\nCould not be read\n");
    for (line, reason) in &report.unread_rows {
        page.push_str(&wrap(&format!("line {line}: {}", visible(reason))));
    }
    let more = report
        .unread
        .saturating_sub(report.unread_rows.len() as u64);
    if more > 0 {
        let _ = writeln!(page, "  and {} more", thousands(more as f64));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn report() -> MenuReport {
        MenuReport {
            title: "lunch.csv".to_owned(),
            against: "a meal of 30 % of a 2,000 kcal day".to_owned(),
            items: 1_200,
            unread: 10,
            incomplete: 1,
            best: vec![ReportItem {
                name: "A very long name of a dish that nobody will ever order\u{1b}[31m".to_owned(),
                words: "all of it".to_owned(),
                more: None,
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
            cells: [
                "350 (280 to 425)",
                "12 (9 to 16)",
                "330, in the range",
                "sodium 50 %",
                "all of it",
                "sure",
            ]
            .map(str::to_owned),
        }];
        let page = html(&report).expect("renders");
        let parsed = scraper::Html::parse_document(&page);
        let cells = scraper::Selector::parse(".every tbody td").expect("a selector");
        let found: Vec<String> = parsed.select(&cells).map(|c| c.inner_html()).collect();
        assert_eq!(found.len(), 6, "{page}");
        assert_eq!(found[0], "350 (280 to 425)");
        assert!(page.contains("Soup &amp; roll"), "{page}");
        assert!(page.contains("And 1,199 more"), "{page}");
    }

    #[test]
    fn an_empty_menu_makes_an_empty_report() {
        let page = text(&MenuReport::default());
        assert!(page.contains("0 items"), "{page}");
    }
}
