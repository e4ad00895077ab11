//! The audit as text for a terminal of 80 columns.

use super::answer;
use super::number::{amount, amount_span, grams, kcal, portions, share, span, thousands};
use super::today::Today;
use crate::ledger::{Audit, AuditedComponent, Group, LedgerLine, Verdict};
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
    page.push_str(&ledger(audit));
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

/// The answer in the first lines: what dish and how much of it, for a person whether it fits
/// the meal, which limits are beyond and which groups reached, how sure.
fn headline(audit: &Audit, today: Option<&Today>) -> String {
    let mut lines = vec![dish_line(audit)];
    lines.extend(today.and_then(Today::meal_line));
    lines.extend([answer::line(audit.ledger.lines()), sure_line(audit)]);
    lines.join("\n") + "\n"
}

/// The dish, its weight and its energy; a long name is cut short.
fn dish_line(audit: &Audit) -> String {
    let energy = audit.ledger.energy().map_or_else(
        || "energy not known for every component".to_owned(),
        |e| format!("{} kcal (80 % range {})", kcal(e.likely), span(e, kcal)),
    );
    let weight = grams(audit.served_grams().likely);
    let figures = format!(": about {weight} g, {energy}");
    let name = visible(audit.name.as_deref().unwrap_or("This plate"));
    format!(
        "{}{figures}",
        shortened(&name, LINE_WIDTH - width(&figures))
    )
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
    let weight = format!("; {} g as served", span(audit.served_grams(), grams));
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
        let energy = c.energy_kcal().map_or("?".to_owned(), kcal);
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
    c.groups()
        .filter(|(_, amount)| *amount >= 0.05)
        .map(|(group, amount)| format!("{} {}", portions(amount), short(group)))
        .collect::<Vec<_>>()
        .join("\n")
}

/// Limits, then food groups with their parts; plate and day in the same unit, whatever the
/// standard's portion is.
fn ledger(audit: &Audit) -> String {
    let heading = |what: &str| {
        let heads = [what, "on the plate", "80 % range", "a day", "share", ""];
        heads.map(str::to_owned)
    };
    let grid = |table: Builder| grid(table, &[22, 13, 14, 7, 10, 8], &[1, 2, 3, 4]);
    let mut limits = Builder::default();
    let day = audit.ledger.allowances().level_kcal();
    limits.push_record(heading(&format!("limit ({} kcal)", thousands(day))));
    for line in audit.ledger.limits() {
        limits.push_record(row(&line));
    }
    let mut groups = Builder::default();
    groups.push_record(heading("food group"));
    for (line, group) in audit.ledger.groups().zip(Group::ALL) {
        groups.push_record(row(&line));
        let parts: Vec<_> = audit.subgroups_of(*group).collect();
        for (part, amount) in parts.iter().filter(|_| parts.len() > 1) {
            let cells = [format!("  {}", part.label()), portions(*amount)];
            groups.push_record(
                cells
                    .into_iter()
                    .chain(std::iter::repeat_n(String::new(), 4)),
            );
        }
    }
    format!("{}\n{}", grid(limits), grid(groups))
}

fn row(line: &LedgerLine) -> [String; 6] {
    let unit = line.subject.unit();
    let show = |value| amount(unit, value);
    let verdict = line.verdict().filter(|_| line.subject.stands_alone());
    [
        name(line),
        line.likely()
            .map_or("not known".to_owned(), |a| format!("{} {unit}", show(a))),
        line.range().map_or(String::new(), |a| amount_span(unit, a)),
        line.allowed().map_or("-".to_owned(), show),
        line.share().map_or("-".to_owned(), share),
        verdict.map_or("", mark).to_owned(),
    ]
}

/// The words people read; with pulses where they are counted in.
pub(super) fn name(line: &LedgerLine) -> String {
    let label = line.subject.label();
    if line.has_pulses() {
        format!("{label} with pulses")
    } else {
        label.to_owned()
    }
}

/// The word beside a share in a table; nothing beside what is short or within.
pub(super) fn mark(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Short | Verdict::Within => "",
        Verdict::Met | Verdict::More => "reached",
        Verdict::At => "at it",
        Verdict::Beyond => BEYOND,
    }
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

/// Columns that a text takes.
pub(super) fn width(text: &str) -> usize {
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
