//! Plates side by side as CSV: one row for each food, group or limit of each side.

use super::json::{kind, round};
use super::{Comparison, Row};
use crate::pages::escape::cell as guard;

const HEADER: [&str; 12] = [
    "row",
    "name",
    "unit",
    "side",
    "kind",
    "title",
    "low",
    "likely",
    "high",
    "share",
    "size",
    "difference",
];

/// The comparison as CSV text. Fails only when memory does.
pub(crate) fn csv(comparison: &Comparison) -> Result<String, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(HEADER)?;
    let foods = comparison.foods.iter().map(|row| ("component", row));
    let amounts = comparison.amounts.iter().map(|row| ("amount", row));
    for (what, row) in foods.chain(amounts) {
        write_row(&mut writer, comparison, what, row)?;
    }
    let bytes = writer
        .into_inner()
        .map_err(csv::IntoInnerError::into_error)?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

fn write_row(
    writer: &mut csv::Writer<Vec<u8>>,
    comparison: &Comparison,
    what: &str,
    row: &Row,
) -> Result<(), csv::Error> {
    for (side, cell) in comparison.sides.iter().zip(&row.cells) {
        let figure = |value: Option<f64>| value.map_or(String::new(), |v| round(v).to_string());
        let amount = cell.as_ref().map(|c| c.amount);
        writer.write_record([
            what,
            &guard(&row.name),
            &row.unit,
            &guard(&side.letter),
            kind(side.kind),
            &guard(&side.title),
            &figure(amount.map(|a| a.low)),
            &figure(amount.map(|a| a.likely)),
            &figure(amount.map(|a| a.high)),
            &figure(cell.as_ref().and_then(|c| c.share)),
            cell.as_ref().and_then(|c| c.size.as_deref()).unwrap_or(""),
            &guard(&row.difference),
        ])?;
    }
    Ok(())
}
