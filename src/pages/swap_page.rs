//! What changes in a dish when something else stands in for one of its components, as text,
//! JSON and CSV; and which single changes bring it nearest to a meal.

use super::csv_table::{csv_table, figure};
use super::layout::{grid, set_in, visible, wrap};
use super::number::{amount, kcal};
use crate::ledger::{Audit, Kind, Ledger, LedgerLine, Limit, Verdict};
use crate::quantity::{Estimate, Range};
use serde::Serialize;
use tabled::builder::Builder;

/// Version of the JSON layout.
const VERSION: u32 = 1;

/// Standard deviations between the mean and the end of an 80 % range of a difference, which is
/// taken as normal: it may lie on either side of 0.
const Z_10: f64 = 1.281_6;

/// A dish before and after a change.
#[derive(Debug)]
pub(crate) struct SwapPage<'p> {
    /// What is said to the kitchen.
    pub wish: String,
    /// The change in words: `side salad instead of the fries`.
    pub change: String,
    /// The dish as served and as changed.
    pub audits: [&'p Audit; 2],
    /// What the change takes away, and what it brings.
    pub parts: [&'p Audit; 2],
    /// Protein of all four, in the same order.
    pub protein: [Option<Estimate>; 4],
    /// What was assumed, a sentence each.
    pub notes: &'p [String],
    /// The cautions that the page ends with.
    pub closing: &'p [String],
}

/// One line of the table.
#[derive(Debug, Serialize)]
struct Row {
    name: &'static str,
    label: &'static str,
    unit: &'static str,
    before: Option<f64>,
    after: Option<f64>,
    change: Option<Signed>,
    /// Whether it is a limit that the changed dish still passes.
    beyond: bool,
}

/// A change and its 80 % range; any of the three may lie below 0.
#[derive(Debug, Clone, Copy, Serialize)]
struct Signed {
    low: f64,
    likely: f64,
    high: f64,
}

impl SwapPage<'_> {
    fn rows(&self) -> Vec<Row> {
        let ledgers = self.audits.map(|audit| &audit.ledger);
        let parts = self.parts.map(|audit| &audit.ledger);
        let all = |ledger: &Ledger| ledger.lines().collect::<Vec<_>>();
        let (before, after) = (all(ledgers[0]), all(ledgers[1]));
        let (goes, comes) = (all(parts[0]), all(parts[1]));
        let mut rows = Vec::new();
        for (at, line) in before.iter().enumerate() {
            rows.push(row(line, &after[at], &goes[at], &comes[at]));
            if line.subject == Limit::Energy.into() {
                rows.push(self.protein());
            }
        }
        rows
    }

    fn protein(&self) -> Row {
        let mean = |at: usize| self.protein[at].map(|e| e.mean);
        Row {
            name: "protein",
            label: "protein",
            unit: "g",
            before: mean(0),
            after: mean(1),
            change: self.protein[2].zip(self.protein[3]).map(difference),
            beyond: false,
        }
    }

    /// The page for a terminal of 80 columns.
    pub(crate) fn text(&self) -> String {
        let name = visible(self.audits[0].name.as_deref().unwrap_or("This plate"));
        let mut page = wrap(&format!("{name}: {}", visible(&self.change)));
        page.push_str(&wrap(&self.energy()));
        page.push('\n');
        let mut table = Builder::default();
        table.push_record(["", "as served", "then", "change", "80 % range", ""]);
        for row in self.rows().iter().filter(|row| row.is_worth_showing()) {
            table.push_record(row.cells());
        }
        page.push_str(&grid(table, &[20, 14, 9, 9, 18, 7], &[1, 2, 3, 4]));
        page.push('\n');
        page.push_str(&wrap(&format!("Say: \"{}\"", visible(&self.wish))));
        for note in self.notes {
            page.push_str(&wrap(&format!("note: {}", visible(note))));
        }
        let own = self.audits[1].own_cautions.iter();
        for caution in own.chain(self.closing) {
            page.push_str(&wrap(caution));
        }
        page
    }

    fn energy(&self) -> String {
        let rows = self.rows();
        let Some((energy, before, after, change)) = rows
            .first()
            .and_then(|row| Some((row, row.before?, row.after?, row.change?)))
        else {
            return "The energy is not known for every component".to_owned();
        };
        let (less, more) = (change.likely <= 0.0, change.likely.abs());
        let ends = if less {
            [change.high, change.low]
        } else {
            [change.low, change.high]
        };
        let word = if less { "less" } else { "more" };
        // An end beyond 0 is said as such: `40 more to 120 less`.
        let end = |value: f64| {
            let turned = (value > 0.0) == less && kcal(value.abs()) != "0";
            let other = if less { " more" } else { " less" };
            format!("{}{}", kcal(value.abs()), if turned { other } else { "" })
        };
        format!(
            "About {} {} instead of {}, {} {word} (80 % range {} to {} {word})",
            kcal(after),
            energy.unit,
            kcal(before),
            kcal(more),
            end(ends[0]),
            end(ends[1])
        )
    }

    /// JSON, version 1.
    pub(crate) fn json(&self) -> Result<String, serde_json::Error> {
        let cautions = self.audits[1].all_cautions();
        crate::pages::escape::json(&serde_json::json!({
            "version": VERSION,
            "dish": self.audits[0].name,
            "change": self.change,
            "say": self.wish,
            "rows": self.rows(),
            "notes": self.notes,
            "cautions": cautions,
        }))
    }

    /// The table as CSV.
    pub(crate) fn csv(&self) -> Result<String, csv::Error> {
        let row = |row: Row| {
            let change = |end: fn(&Signed) -> f64| figure(row.change.as_ref().map(end));
            [
                row.name.to_owned(),
                row.unit.to_owned(),
                figure(row.before),
                figure(row.after),
                change(|c| c.likely),
                change(|c| c.low),
                change(|c| c.high),
            ]
        };
        let header = "name,unit,before,after,change,change_low,change_high";
        csv_table(header, self.rows().into_iter().map(row))
    }
}

fn row(before: &LedgerLine, after: &LedgerLine, goes: &LedgerLine, comes: &LedgerLine) -> Row {
    let subject = before.subject;
    Row {
        name: subject.key(),
        label: subject.label(),
        unit: subject.unit(),
        before: before.likely(),
        after: after.likely(),
        change: goes.counted.zip(comes.counted).map(difference),
        beyond: subject.kind() == Kind::StayWithin && after.verdict() == Some(Verdict::Beyond),
    }
}

/// What comes less what goes, their doubts taken as independent: the rest of the dish is the
/// same before and after.
fn difference((goes, comes): (Estimate, Estimate)) -> Signed {
    let likely = comes.mean - goes.mean;
    let half = Z_10 * goes.sd().hypot(comes.sd());
    Signed {
        low: likely - half,
        likely,
        high: likely + half,
    }
}

impl Row {
    /// Whether a reader sees any of it, before or after.
    fn is_worth_showing(&self) -> bool {
        let any = |value: Option<f64>| value.is_none_or(|v| amount(self.unit, v) != "0");
        any(self.before) || any(self.after)
    }

    fn cells(&self) -> [String; 6] {
        let show =
            |value: Option<f64>| value.map_or("not known".to_owned(), |v| amount(self.unit, v));
        let signed = |value: f64| match amount(self.unit, value.abs()).as_str() {
            "0" | "<0.1" => "0".to_owned(),
            shown if value < 0.0 => format!("-{shown}"),
            shown => format!("+{shown}"),
        };
        let span = |change: Signed| match (signed(change.low), signed(change.high)) {
            (low, high) if low == high => low,
            (low, high) => format!("{low} to {high}"),
        };
        [
            self.label.to_owned(),
            self.before.map_or("not known".to_owned(), |v| {
                format!("{} {}", amount(self.unit, v), self.unit)
            }),
            show(self.after),
            self.change.map_or("-".to_owned(), |c| signed(c.likely)),
            self.change.map_or(String::new(), span),
            if self.beyond { "beyond" } else { "" }.to_owned(),
        ]
    }
}

/// A single change that is proposed.
#[derive(Debug, Clone, Serialize)]
pub(crate) struct Proposal {
    /// What is said to the kitchen.
    pub say: String,
    /// The change as the command takes it: `fries=side salad`.
    pub change: String,
    /// Energy saved, kcal.
    pub kcal_saved: f64,
    /// What it helps the most besides the energy, in words; nothing when that is the energy.
    pub helps: Option<String>,
}

/// The changes that bring a dish nearest to a meal.
#[derive(Debug)]
pub(crate) struct ProposalPage<'p> {
    /// The dish as served.
    pub served: &'p Audit,
    /// The meal: `a third of the day`.
    pub meal: &'p str,
    /// What the meal may hold, kcal.
    pub meal_kcal: f64,
    /// Nearest first.
    pub proposals: &'p [Proposal],
    /// What was assumed, a sentence each.
    pub notes: &'p [String],
    /// The cautions that the page ends with.
    pub closing: &'p [String],
}

impl ProposalPage<'_> {
    /// The page for a terminal of 80 columns.
    pub(crate) fn text(&self) -> String {
        let name = visible(self.served.name.as_deref().unwrap_or("This plate"));
        let energy = self.served.ledger.energy();
        let served = energy.map_or("energy not known".to_owned(), |e| {
            format!("about {} kcal", kcal(e.likely))
        });
        let mut page = wrap(&format!(
            "{name}: {served} as served; {} is {} kcal",
            self.meal,
            kcal(self.meal_kcal)
        ));
        page.push_str(&wrap(&match self.proposals.len() {
            0 => "It fits as served, or nothing that a kitchen could change brings it nearer"
                .to_owned(),
            1 => "One change brings it nearer".to_owned(),
            2 => "Two single changes bring it nearest, best first".to_owned(),
            _ => "Three single changes bring it nearest, best first".to_owned(),
        }));
        for (at, proposal) in self.proposals.iter().enumerate() {
            page.push('\n');
            page.push_str(&wrap(&format!(
                "{}. \"{}\"",
                at + 1,
                visible(&proposal.say)
            )));
            let after = energy.map_or(String::new(), |e| {
                format!(", {} then", kcal((e.likely - proposal.kcal_saved).max(0.0)))
            });
            let helps = proposal
                .helps
                .as_ref()
                .map_or(String::new(), |h| format!("; {h}"));
            page.push_str(&set_in(
                &format!(
                    "about {} kcal less{after}{helps}",
                    kcal(proposal.kcal_saved.max(0.0))
                ),
                3,
            ));
            page.push_str(&set_in(
                &format!("see it: add \"{}\"", visible(&proposal.change)),
                3,
            ));
        }
        page.push('\n');
        for note in self.notes {
            page.push_str(&wrap(&format!("note: {}", visible(note))));
        }
        for caution in self.served.own_cautions.iter().chain(self.closing) {
            page.push_str(&wrap(caution));
        }
        page
    }

    /// JSON, version 1.
    pub(crate) fn json(&self) -> Result<String, serde_json::Error> {
        let energy: Option<Range> = self.served.ledger.energy();
        crate::pages::escape::json(&serde_json::json!({
            "version": VERSION,
            "dish": self.served.name,
            "energy_kcal": energy.map(|e| e.likely),
            "meal": self.meal,
            "meal_kcal": self.meal_kcal,
            "proposals": self.proposals,
            "notes": self.notes,
            "cautions": self.served.all_cautions(),
        }))
    }

    /// The proposals as CSV.
    pub(crate) fn csv(&self) -> Result<String, csv::Error> {
        let row = |proposal: &Proposal| {
            [
                super::escape::cell(&proposal.change),
                figure(proposal.kcal_saved),
                super::escape::cell(&proposal.say),
            ]
        };
        csv_table("change,kcal_saved,say", self.proposals.iter().map(row))
    }
}
