//! Plates side by side as CSV: one row for each food, group or limit of each side.

use super::json::{kind, round};
use super::{Comparison, Row};
use crate::pages::csv_table::csv_table;
use crate::pages::escape::cell as guard;

const HEADER: &str = "row,name,unit,side,kind,title,low,likely,high,share,size,difference";

/// The comparison as CSV text. Fails only when memory does.
pub(crate) fn csv(comparison: &Comparison) -> Result<String, csv::Error> {
    let foods = comparison.foods.iter().map(|row| ("component", row));
    let amounts = comparison.amounts.iter().map(|row| ("amount", row));
    let rows = foods.chain(amounts);
    csv_table(
        HEADER,
        rows.flat_map(|(what, row)| sides(comparison, what, row)),
    )
}

/// A row for each side.
fn sides<'c>(
    comparison: &'c Comparison,
    what: &'c str,
    row: &'c Row,
) -> impl Iterator<Item = [String; 12]> + 'c {
    let sides = comparison.sides.iter().zip(&row.cells);
    sides.map(move |(side, cell)| {
        let figure = |value: Option<f64>| value.map_or(String::new(), |v| round(v).to_string());
        let amount = cell.as_ref().map(|c| c.amount);
        let size = cell.as_ref().and_then(|c| c.size.clone());
        [
            what.to_owned(),
            guard(&row.name),
            row.unit.clone(),
            guard(&side.letter),
            kind(side.kind).to_owned(),
            guard(&side.title),
            figure(amount.map(|a| a.low)),
            figure(amount.map(|a| a.likely)),
            figure(amount.map(|a| a.high)),
            figure(cell.as_ref().and_then(|c| c.share)),
            size.unwrap_or_default(),
            guard(&row.difference),
        ]
    })
}
