//! Tables that several commands print.

use super::Failure;
use super::arguments::Format;
use crate::pages::escape::{cell, json};
use tabled::builder::Builder;
use tabled::settings::object::Columns;
use tabled::settings::{Alignment, Modify, Padding, Style, Width};

/// A table of text in the asked format: one shared order of columns for all formats.
pub(super) fn rows(
    header: &[&str],
    rows: &[Vec<String>],
    widths: &[usize],
    format: Format,
) -> Result<String, Failure> {
    let failed = |e: &dyn std::fmt::Display| Failure::File(e.to_string());
    match format {
        Format::Text => {
            let mut table = Builder::default();
            table.push_record(header.iter().copied());
            for row in rows {
                table.push_record(row.clone());
            }
            let mut table = table.build();
            table.with(Style::blank()).with(Padding::new(0, 1, 0, 0));
            for (column, width) in widths.iter().enumerate() {
                table.with(
                    Modify::new(Columns::one(column)).with(Width::wrap(*width).keep_words(true)),
                );
                let numeric = rows
                    .iter()
                    .all(|r| r[column].starts_with(|c: char| c.is_ascii_digit() || c == '-'));
                if numeric && !rows.is_empty() {
                    table.with(Modify::new(Columns::one(column)).with(Alignment::right()));
                }
            }
            Ok(table
                .to_string()
                .lines()
                .map(|l| l.trim_end().to_owned() + "\n")
                .collect())
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
            json(&list).map_err(|e| failed(&e))
        }
        Format::Csv => {
            let mut writer = csv::Writer::from_writer(Vec::new());
            writer.write_record(header).map_err(|e| failed(&e))?;
            for row in rows {
                let own = |text: &str| text == "-" || text.parse::<f64>().is_ok();
                let cells = row
                    .iter()
                    .map(|text| if own(text) { text.clone() } else { cell(text) });
                writer.write_record(cells).map_err(|e| failed(&e))?;
            }
            Ok(String::from_utf8_lossy(&writer.into_inner().map_err(|e| failed(&e))?).into_owned())
        }
    }
}
