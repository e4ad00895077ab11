//! The audit as text for a terminal of 80 columns.

use super::answer::{self, mark, name};
use super::bars;
use super::layout::{LINE_WIDTH, grid, shortened, width};
pub(crate) use super::layout::{visible, wrap};
use super::number::{amount, amount_span, grams, kcal, portions, share, span, thousands};
use super::reading_page;
use super::today::Today;
use crate::ledger::{Audit, AuditedComponent, EnergyNutrient, Group, LedgerLine, Limit};
use crate::matching::{Catalogue, Certainty};
use crate::weighing::Basis;
use tabled::builder::Builder;

/// How the text is shown.
#[derive(Debug, Clone, Default)]
pub(crate) struct Look {
    /// Mark "beyond" with the accent as well as with the word.
    pub accent: bool,
    /// Columns of a line up to which bars may stand beside the shares of a day; nothing for
    /// none.
    pub bars: Option<usize>,
    /// Show where each figure comes from.
    pub why: bool,
    /// The cautions that the page ends with, after those of the dish itself.
    pub closing: Vec<String>,
}

/// Word beside everything that goes beyond a day's allowance.
const BEYOND: &str = "beyond";

/// The whole audit.
pub(crate) fn audit(audit: &Audit, catalogue: &Catalogue, look: &Look) -> String {
    audit_for(audit, catalogue, look, None)
}

/// The whole audit, held against a person's day as it stands.
pub(crate) fn audit_for(
    audit: &Audit,
    catalogue: &Catalogue,
    look: &Look,
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
    page.push_str(&ledger(audit, look.bars));
    if look.why {
        if let Some(read) = &audit.read {
            page.push('\n');
            page.push_str(&reading_page::table(read));
        }
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
    page.push_str(&reading_page::beside(audit));
    for note in &audit.notes {
        page.push_str(&wrap(&format!("note: {}", visible(note))));
    }
    for caution in audit.own_cautions.iter().chain(&look.closing) {
        page.push_str(&wrap(caution));
    }
    if look.accent { accented(&page) } else { page }
}

/// The answer in the first lines: what dish and how much of it, for a person whether it fits
/// the meal, which limits are beyond and which groups reached, how sure.
fn headline(audit: &Audit, today: Option<&Today>) -> String {
    if let Some(unknown) = reading_page::unknown_main(audit) {
        return unknown + "\n";
    }
    let doubts = audit.not_plausible.iter();
    let mut lines: Vec<String> = doubts
        .map(|doubt| {
            wrap(&format!("Not plausible: {}", visible(doubt)))
                .trim_end()
                .to_owned()
        })
        .collect();
    lines.push(dish_line(audit).trim_end().to_owned());
    lines.extend(today.and_then(Today::meal_line));
    lines.extend([
        answer::line(audit.ledger.lines()),
        weight_line(audit),
        sure_line(audit),
    ]);
    lines.join("\n") + "\n"
}

/// The same for a page that sets its own lines and has the dish's name above: a sentence each.
pub(crate) fn lead(audit: &Audit, today: Option<&Today>) -> Vec<String> {
    if let Some(unknown) = reading_page::unknown_main(audit) {
        let words: Vec<&str> = unknown.split_whitespace().collect();
        return vec![words.join(" ")];
    }
    let doubts = audit.not_plausible.iter();
    let mut lines: Vec<String> = doubts.map(|d| format!("Not plausible: {d}")).collect();
    lines.push(answer::portions(&audit.ledger, 2 * LINE_WIDTH));
    lines.extend(today.and_then(Today::meal_line));
    lines.extend([
        answer::line(audit.ledger.lines()),
        weight_line(audit),
        sure_line(audit),
    ]);
    lines
}

/// The dish, its portions and its share of the day's energy; a name longer than a line is cut
/// short.
fn dish_line(audit: &Audit) -> String {
    let name = visible(audit.name.as_deref().unwrap_or("This plate"));
    let name = shortened(&name, LINE_WIDTH - 1);
    let room = LINE_WIDTH.saturating_sub(width(&name) + 2);
    wrap(&format!(
        "{name}: {}",
        answer::portions(&audit.ledger, room)
    ))
}

/// Weight, energy and protein with their ranges.
fn weight_line(audit: &Audit) -> String {
    let energy = audit.ledger.energy().map_or_else(
        || "energy not known for every component".to_owned(),
        |e| format!("{} kcal (80 % range {})", kcal(e.likely), span(e, kcal)),
    );
    let protein = audit.ledger.line(EnergyNutrient::Protein).range();
    let protein = protein.map_or(String::new(), |p| {
        format!(", protein {} g ({})", grams(p.likely), span(p, grams))
    });
    let weight = grams(audit.served_grams().likely);
    format!("About {weight} g, {energy}{protein}")
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
    let sure = format!(
        "How sure: {}; foods {}{estimated}",
        audit.sureness().word(),
        parts.join(", ")
    );
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

/// Limits, food groups with their parts, energy nutrients; plate and day in the same unit, whatever the
/// standard's portion is.
fn ledger(audit: &Audit, bars: Option<usize>) -> String {
    let heading = |what: &str| {
        let heads = [what, "on the plate", "80 % range", "a day", "share", ""];
        heads.map(str::to_owned)
    };
    let grid = |table: Builder| grid(table, &[22, 13, 14, 7, 10, 8], &[1, 2, 3, 4]);
    let mut shares = vec![Vec::new(); 3];
    let mut limits = Builder::default();
    let day = audit.ledger.line(Limit::Energy).allowed();
    let day = thousands(day.unwrap_or_default());
    limits.push_record(heading(&format!("limit ({day} kcal)")));
    for line in audit.ledger.limits() {
        shares[0].push(line.share());
        limits.push_record(row(&line));
    }
    let mut groups = Builder::default();
    let level = thousands(audit.ledger.allowances().level_kcal());
    groups.push_record(heading(&format!("food group ({level})")));
    for (line, group) in audit.ledger.groups().zip(Group::ALL) {
        shares[1].push(line.share());
        groups.push_record(row(&line));
        let parts: Vec<_> = audit.subgroups_of(*group).collect();
        for (part, amount) in parts.iter().filter(|_| parts.len() > 1) {
            let cells = [format!("  {}", part.label()), portions(*amount)];
            shares[1].push(None);
            groups.push_record(
                cells
                    .into_iter()
                    .chain(std::iter::repeat_n(String::new(), 4)),
            );
        }
    }
    let mut nutrients = Builder::default();
    nutrients.push_record(heading("energy nutrient"));
    for line in audit.ledger.nutrients() {
        shares[2].push(line.share());
        nutrients.push_record(row(&line));
    }
    let tables = [limits, groups, nutrients].map(grid);
    match bars {
        Some(columns) => bars::beside(&tables, &shares, columns).join("\n"),
        None => tables.join("\n"),
    }
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

/// The accent on every "beyond" and nothing else.
fn accented(page: &str) -> String {
    page.replace(BEYOND, super::escape::ACCENTED)
}
