//! The report for a terminal.

use super::{MenuReport, Plot, ReportItem, counted, not_counted, part};
use crate::pages::layout::{LINE_WIDTH, set_in, shortened, visible, wrap};
use crate::pages::number::thousands;
use std::fmt::Write;
use unicode_width::UnicodeWidthStr;

/// Longest bar of a distribution, characters.
const BAR: u64 = 32;
/// Room for an item's name.
const NAME: usize = 34;

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
        visible(&report.file),
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
