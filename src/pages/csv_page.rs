//! The audit as CSV: one row a component, then one a limit, one a group, one an energy
//! nutrient. Missing
//! figures are empty cells.

use super::csv_table::{figure, written};
use super::escape::cell as guard;
use super::today::Today;
use crate::ledger::{Audit, Subject, Verdict};
use crate::matching::Catalogue;
use crate::quantity::{Estimate, Range};

/// The column names.
const HEADER: &str = "row,name,text,food_id,certainty,basis,unit,low,likely,high,portions,allowance,share,verdict,\
     pulses_counted";

/// The same, with a row `left` for each group and limit of a person's day: what is left of it
/// in `likely`, the dish's part of that in `share`.
pub(crate) fn audit_for(
    audit: &Audit,
    catalogue: &Catalogue,
    today: Option<&Today>,
) -> Result<String, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(HEADER.split(','))?;
    for c in &audit.components {
        let food = c.food.map(|id| catalogue.food(id));
        let [low, likely, high] = cells(c.grams);
        writer.write_record([
            "component",
            &guard(food.map_or("", |f| f.name())),
            &guard(&c.text),
            &guard(food.map_or("", |f| f.code())),
            c.certainty.word(),
            c.basis.map_or("", crate::weighing::Basis::word),
            "g",
            &low,
            &likely,
            &high,
            "",
            "",
            "",
            "",
            "",
        ])?;
    }
    for line in audit.ledger.lines().chain(audit.ledger.nutrients()) {
        let [low, likely, high] = cells(line.amount.map(Estimate::range));
        let is_group = matches!(line.subject, Subject::Group(_));
        writer.write_record([
            row_kind(line.subject),
            line.subject.key(),
            "",
            "",
            "",
            "",
            line.subject.unit(),
            &low,
            &likely,
            &high,
            &figure(line.portions().filter(|_| is_group)),
            &figure(line.allowed_portions()),
            &figure(line.share()),
            line.verdict().map_or("", Verdict::word),
            if line.has_pulses() { "yes" } else { "" },
        ])?;
    }
    for row in today.iter().flat_map(|today| &today.left) {
        let (left, share) = (figure(Some(row.left)), figure(row.share));
        writer.write_record([
            "left", row.key, "", "", "", "", row.unit, "", &left, "", "", "", &share, "", "",
        ])?;
    }
    written(writer)
}

/// What a row of a group or limit is called.
pub(super) const fn row_kind(subject: Subject) -> &'static str {
    match subject {
        Subject::Group(_) => "group",
        Subject::Limit(_) => "limit",
        Subject::Nutrient(_) => "nutrient",
    }
}

fn cells(range: Option<Range>) -> [String; 3] {
    let of = |pick: fn(Range) -> f64| figure(range.map(pick));
    [of(|r| r.low), of(|r| r.likely), of(|r| r.high)]
}
