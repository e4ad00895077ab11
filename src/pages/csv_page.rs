//! The audit as CSV: one row a component, then one a group, then one a limit. Missing
//! figures are empty cells.

use super::escape::cell as guard;
use super::today::Today;
use crate::ledger::Audit;
use crate::matching::Catalogue;
use crate::quantity::Range;

/// The column names.
const HEADER: [&str; 13] = [
    "row",
    "name",
    "text",
    "food_id",
    "certainty",
    "basis",
    "unit",
    "low",
    "likely",
    "high",
    "portions",
    "allowance",
    "share",
];

/// The audit as CSV text. Fails only when memory does.
pub fn audit(audit: &Audit, catalogue: &Catalogue) -> Result<String, csv::Error> {
    audit_for(audit, catalogue, None)
}

/// The same, with a row `left` for each group and limit of a person's day: what is left of it
/// in `likely`, the dish's part of that in `share`.
pub fn audit_for(
    audit: &Audit,
    catalogue: &Catalogue,
    today: Option<&Today>,
) -> Result<String, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(HEADER)?;
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
        ])?;
    }
    for g in &audit.groups {
        let [low, likely, high] = cells(Some(g.amount));
        writer.write_record([
            "group",
            g.group.key(),
            "",
            "",
            "",
            "",
            g.group.unit().word(),
            &low,
            &likely,
            &high,
            &cell(Some(g.portions)),
            &cell(g.allowance),
            &cell(g.share),
        ])?;
    }
    for l in &audit.limits {
        let [low, likely, high] = cells(l.amount);
        writer.write_record([
            "limit",
            l.limit.key(),
            "",
            "",
            "",
            "",
            l.limit.unit(),
            &low,
            &likely,
            &high,
            "",
            &cell(l.allowance),
            &cell(l.share),
        ])?;
    }
    for row in today.iter().flat_map(|today| &today.left) {
        let (left, share) = (cell(Some(row.left)), cell(row.share));
        writer.write_record([
            "left", &row.key, "", "", "", "", &row.unit, "", &left, "", "", "", &share,
        ])?;
    }
    let bytes = writer
        .into_inner()
        .map_err(|e| csv::Error::from(e.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

fn cell(value: Option<f64>) -> String {
    value.map(|v| format!("{v:.3}")).unwrap_or_default()
}

fn cells(range: Option<Range>) -> [String; 3] {
    let of = |pick: fn(Range) -> f64| cell(range.map(pick));
    [of(|r| r.low), of(|r| r.likely), of(|r| r.high)]
}
