//! The audit as text for a terminal of 80 columns.

use super::number::{grams, kcal, portions, share, span, thousands};
use super::today::Today;
use crate::ledger::{Audit, AuditedComponent, AuditedGroup, AuditedLimit, Group, Limit};
use crate::matching::{Catalogue, Certainty};
pub use crate::reading::visible;
use crate::weighing::Basis;
use tabled::builder::Builder;
use tabled::settings::object::{Columns, Object, Rows};
use tabled::settings::{Alignment, Modify, Padding, Style, Width};

/// How the text is shown.
#[derive(Debug, Clone, Copy, Default)]
pub struct Look {
    /// Mark "beyond" with the accent as well as with the word.
    pub accent: bool,
    /// Show where each figure comes from.
    pub why: bool,
}

/// Columns of a line.
pub(super) const LINE_WIDTH: usize = 79;
/// Word beside everything that goes beyond a day's allowance.
const BEYOND: &str = "beyond";

/// The whole audit.
#[must_use]
pub fn audit(audit: &Audit, catalogue: &Catalogue, look: Look) -> String {
    audit_for(audit, catalogue, look, None)
}

/// The whole audit, held against a person's day as it stands.
#[must_use]
pub fn audit_for(
    audit: &Audit,
    catalogue: &Catalogue,
    look: Look,
    today: Option<&Today>,
) -> String {
    let mut page = headline(audit, today);
    if let Some(today) = today {
        page.push('\n');
        page.push_str(&today.table());
    }
    page.push('\n');
    page.push_str(&components(audit, catalogue));
    page.push('\n');
    page.push_str(&groups(audit));
    page.push('\n');
    page.push_str(&limits(audit));
    if look.why {
        page.push('\n');
        page.push_str(&reasons(audit, catalogue));
    }
    page.push('\n');
    for unmatched in &audit.unmatched {
        page.push_str(&wrap(&format!(
            "not counted, no such food: {}",
            visible(unmatched)
        )));
    }
    for note in &audit.notes {
        page.push_str(&wrap(&format!("note: {}", visible(note))));
    }
    for caution in &audit.cautions {
        page.push_str(&wrap(caution));
    }
    if look.accent { accented(&page) } else { page }
}

/// The answer in three lines: what dish and how much of it, how far beyond what, how sure;
/// for a person, whether it fits the meal comes second.
fn headline(audit: &Audit, today: Option<&Today>) -> String {
    let mut lines = vec![dish_line(audit)];
    lines.extend(today.and_then(Today::meal_line));
    lines.extend([beyond_line(audit), sure_line(audit)]);
    lines.join(
        "
",
    ) + "
"
}

/// The dish, its weight and its energy; a long name is cut short.
fn dish_line(audit: &Audit) -> String {
    let energy = audit
        .limits
        .iter()
        .find(|l| l.limit == Limit::Energy)
        .and_then(|l| l.amount)
        .map_or_else(
            || "energy not known for every component".to_owned(),
            |e| format!("{} kcal (80 % range {})", kcal(e.likely), span(e, kcal)),
        );
    let figures = format!(": about {} g, {energy}", grams(audit.served_grams.likely));
    let name = visible(audit.name.as_deref().unwrap_or("This plate"));
    format!(
        "{}{figures}",
        shortened(&name, LINE_WIDTH - width(&figures))
    )
}

/// What goes beyond a day, most first, as many as the line holds; else what takes most of it.
fn beyond_line(audit: &Audit) -> String {
    let mut shares: Vec<(&str, f64)> = audit
        .groups
        .iter()
        .filter(|g| g.group != Group::Pulses)
        .filter_map(|g| Some((g.group.label(), g.share?)))
        .chain(
            audit
                .limits
                .iter()
                .filter_map(|l| Some((l.limit.label(), l.share?))),
        )
        .collect();
    shares.sort_by(|a, b| b.1.total_cmp(&a.1));
    let day = format!("({} kcal a day)", thousands(audit.level_kcal));
    let over: Vec<String> = shares
        .iter()
        .take_while(|(_, s)| *s > 1.005)
        .map(|(label, s)| format!("{label} {}", share(*s)))
        .collect();
    let told = |many: usize| {
        let more = if many < over.len() { ", ..." } else { "" };
        format!(
            "Goes {BEYOND} a day: {}{more} {day}",
            over[..many].join(", ")
        )
    };
    match (over.len(), shares.first()) {
        (0, Some((label, s))) => {
            format!(
                "Nothing goes {BEYOND} a day; most of a day: {label} {} {day}",
                share(*s)
            )
        }
        (0, None) => "Nothing to hold against a day".to_owned(),
        (all, _) => (1..=all)
            .rev()
            .map(told)
            .find(|line| width(line) <= LINE_WIDTH)
            .unwrap_or_else(|| told(1)),
    }
}

fn sure_line(audit: &Audit) -> String {
    let count = |c: Certainty| audit.components.iter().filter(|a| a.certainty == c).count();
    let mut parts = Vec::new();
    for certainty in [
        Certainty::Sure,
        Certainty::Likely,
        Certainty::Guess,
        Certainty::None,
    ] {
        let many = count(certainty);
        if many > 0 {
            parts.push(format!("{many} {}", certainty.word()));
        }
    }
    let typical = audit
        .components
        .iter()
        .filter(|c| matches!(c.basis, Some(Basis::Typical | Basis::Hidden)))
        .count();
    let estimated = match typical {
        0 => String::new(),
        1 => ", 1 amount estimated".to_owned(),
        many => format!(", {many} amounts estimated"),
    };
    let sure = format!("How sure: foods {}{estimated}", parts.join(", "));
    let weight = format!("; {} g as served", span(audit.served_grams, grams));
    if width(&sure) + width(&weight) <= LINE_WIDTH {
        sure + &weight
    } else {
        sure
    }
}

fn components(audit: &Audit, catalogue: &Catalogue) -> String {
    let mut table = Builder::default();
    table.push_record(["component", "taken for", "grams", "portions", "kcal"]);
    for c in &audit.components {
        let food = c.food.map_or("no such food".to_owned(), |id| {
            let mark = match c.certainty {
                Certainty::Sure | Certainty::None => "",
                Certainty::Likely => " (likely)",
                Certainty::Guess => " (guess)",
            };
            format!("{}{mark}", catalogue.food(id).name())
        });
        let weight = match (c.grams, c.basis) {
            (Some(g), Some(Basis::Vessel | Basis::Typical | Basis::Hidden)) => {
                format!("~{}", grams(g.likely))
            }
            (Some(g), _) => grams(g.likely),
            (None, _) => "?".to_owned(),
        };
        let energy = c.energy_kcal.map_or("?".to_owned(), kcal);
        table.push_record([visible(&c.text), food, weight, portions_of(c), energy]);
    }
    grid(table, &[26, 26, 5, 12, 5], &[2, 4])
}

/// Portions of a component, largest first, groups by their first word.
fn portions_of(c: &AuditedComponent) -> String {
    if c.free {
        return "free".to_owned();
    }
    let short = |g: Group| match g {
        Group::Fruits => "fruit",
        Group::Vegetables => "veg",
        Group::Pulses => "pulses",
        Group::Grains => "grain",
        Group::ProteinFoods => "protein",
        Group::Dairy => "dairy",
        Group::Oils => "g oil",
    };
    c.groups
        .iter()
        .filter(|(_, amount)| *amount >= 0.05)
        .map(|(group, amount)| format!("{} {}", portions(*amount), short(*group)))
        .collect::<Vec<_>>()
        .join("\n")
}

fn groups(audit: &Audit) -> String {
    let mut table = Builder::default();
    table.push_record([
        "food group",
        "on the plate",
        "80 % range",
        "a day",
        "share",
        "",
    ]);
    for g in &audit.groups {
        table.push_record(group_row(g));
        if g.subgroups.len() > 1 {
            for (part, amount) in &g.subgroups {
                table.push_record([
                    format!("  {}", part.label()),
                    portions(*amount),
                    String::new(),
                    String::new(),
                    String::new(),
                    String::new(),
                ]);
            }
        }
    }
    grid(table, &[22, 14, 14, 7, 10, 7], &[1, 2, 3, 4])
}

/// Plate and day in the same unit, whatever the standard's portion is. A seventh of a
/// weekly amount is no mark to go beyond, so pulses never do.
fn group_row(g: &AuditedGroup) -> [String; 6] {
    let beyond = g.group != Group::Pulses && g.share.is_some_and(|s| s > 1.005);
    [
        g.group.label().to_owned(),
        format!("{} {}", portions(g.amount.likely), g.group.unit().word()),
        span(g.amount, portions),
        g.allowance
            .map_or("-".to_owned(), |a| portions(a * g.portion)),
        g.share.map_or("-".to_owned(), share),
        if beyond {
            BEYOND.to_owned()
        } else {
            String::new()
        },
    ]
}

fn limits(audit: &Audit) -> String {
    let mut table = Builder::default();
    table.push_record(["limit", "on the plate", "80 % range", "a day", "share", ""]);
    for l in &audit.limits {
        table.push_record(limit_row(l));
    }
    grid(table, &[22, 14, 14, 7, 10, 7], &[1, 2, 3, 4])
}

fn limit_row(l: &AuditedLimit) -> [String; 6] {
    let format: fn(f64) -> String = match l.limit {
        Limit::Energy => kcal,
        Limit::Sodium => |v| thousands((v / 10.0).round() * 10.0),
        Limit::SaturatedFat | Limit::SolidFats => grams,
        Limit::AddedSugars | Limit::Alcohol => portions,
    };
    let beyond = l.share.is_some_and(|s| s > 1.005);
    [
        l.limit.label().to_owned(),
        l.amount.map_or("not known".to_owned(), |a| {
            format!("{} {}", format(a.likely), l.limit.unit())
        }),
        l.amount.map_or(String::new(), |a| span(a, format)),
        l.allowance.map_or("-".to_owned(), format),
        l.share.map_or("-".to_owned(), share),
        if beyond {
            BEYOND.to_owned()
        } else {
            String::new()
        },
    ]
}

/// Where each component's figures come from.
fn reasons(audit: &Audit, catalogue: &Catalogue) -> String {
    let mut text = String::from("Where the figures come from\n");
    for c in &audit.components {
        let Some(food) = c.food.map(|id| catalogue.food(id)) else {
            continue;
        };
        text.push_str(&wrap(&format!(
            "{}: {}; {}; food groups: {}; {}",
            visible(&c.text),
            c.why,
            food.source(),
            food.basis(),
            c.rests_on
        )));
    }
    text.push_str(&wrap(&format!("Allowances: {}", audit.standard)));
    text
}

/// A table with columns at most `widths` wide, those in `right` set to the right.
pub(super) fn grid(table: Builder, widths: &[usize], right: &[usize]) -> String {
    let mut table = table.build();
    table.with(Style::blank()).with(Padding::new(0, 1, 0, 0));
    for (column, width) in widths.iter().enumerate() {
        table.with(Modify::new(Columns::one(column)).with(Width::wrap(*width).keep_words(true)));
    }
    for column in right {
        table.with(
            Modify::new(Columns::one(*column).intersect(Rows::new(0..))).with(Alignment::right()),
        );
    }
    let text = table.to_string();
    text.lines()
        .map(|line| line.trim_end().to_owned() + "\n")
        .collect()
}

fn width(text: &str) -> usize {
    unicode_width::UnicodeWidthStr::width(text)
}

/// Text cut to `room` columns, the cut marked.
fn shortened(text: &str, room: usize) -> String {
    if width(text) <= room {
        return text.to_owned();
    }
    let mut short = String::new();
    for c in text.chars() {
        let next = unicode_width::UnicodeWidthChar::width(c).unwrap_or(0);
        if width(&short) + next + 3 > room {
            break;
        }
        short.push(c);
    }
    format!("{}...", short.trim_end_matches([' ', ',', ';']))
}

/// Lines of at most 79 columns, continued lines indented.
#[must_use]
pub fn wrap(text: &str) -> String {
    let mut out = String::new();
    let mut column = 0;
    for word in text.split(' ').filter(|w| !w.is_empty()) {
        let width = width(word);
        if column > 0 && column + 1 + width > LINE_WIDTH {
            out.push_str("\n  ");
            column = 2;
        } else if column > 0 {
            out.push(' ');
            column += 1;
        }
        out.push_str(word);
        column += width;
    }
    out.push('\n');
    out
}

/// The accent on every "beyond" and nothing else.
fn accented(page: &str) -> String {
    page.replace(BEYOND, super::escape::ACCENTED)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_name_is_cut_to_its_room() {
        assert_eq!(shortened("short", 10), "short");
        assert_eq!(shortened("a very, long name", 10), "a very...");
        assert!(width(&shortened(&"\u{9910}".repeat(40), 20)) <= 20);
    }

    #[test]
    fn hidden_characters_show() {
        assert_eq!(visible("a\u{1b}[31m\u{202e}b"), "a\\u{1b}[31m\\u{202e}b");
    }

    #[test]
    fn lines_wrap_below_eighty_columns() {
        let text = wrap(&"word ".repeat(60));
        assert!(text.lines().all(|l| l.len() < 80));
        assert!(text.lines().nth(1).is_some_and(|l| l.starts_with("  word")));
    }
}
