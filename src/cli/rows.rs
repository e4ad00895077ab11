//! Tables that several commands print.

use super::Failure;
use super::arguments::Format;
use crate::pages::csv_table::csv_table;
use crate::pages::escape::{cell, json};
use crate::pages::layout::grid;
use tabled::builder::Builder;

/// A table of text in the asked format: one shared order of columns for all formats.
pub(super) fn rows(
    header: &[&str],
    rows: &[Vec<String>],
    widths: &[usize],
    format: Format,
) -> Result<String, Failure> {
    match format {
        Format::Text => {
            let mut table = Builder::default();
            table.push_record(header.iter().copied());
            for row in rows {
                table.push_record(row.clone());
            }
            let numeric = |column: &usize| {
                let figure =
                    |cell: &str| cell.starts_with(|c: char| c.is_ascii_digit() || c == '-');
                !rows.is_empty() && rows.iter().all(|row| figure(&row[*column]))
            };
            let right: Vec<usize> = (0..widths.len()).filter(numeric).collect();
            Ok(grid(table, widths, &right))
        }
        Format::Json => {
            let list: Vec<_> = rows
                .iter()
                .map(|row| {
                    let pairs = header
                        .iter()
                        .zip(row)
                        .map(|(k, v)| ((*k).replace(' ', "_"), v.clone().into()));
                    serde_json::Value::Object(pairs.collect())
                })
                .collect();
            Ok(json(&list)?)
        }
        Format::Csv => {
            let own = |text: &str| text == "-" || text.parse::<f64>().is_ok();
            let guarded = |text: &String| if own(text) { text.clone() } else { cell(text) };
            let rows = rows.iter().map(|row| row.iter().map(guarded));
            Ok(csv_table(&header.join(","), rows)?)
        }
    }
}
