//! The program's own tables, read once.

use csv::StringRecord;
use serde::de::DeserializeOwned;

/// The text of a table that the build prepared: a line for each row, a tab between cells, and a column
/// `NAME_base` of base forms behind the others for each column of phrases.
macro_rules! prepared {
    ($name:literal) => {
        include_str!(concat!(env!("OUT_DIR"), "/", $name))
    };
}
pub(crate) use prepared;

/// The rows of a table in CSV, by its heading. A row that does not read is left out; each
/// table has a test that none is.
pub(crate) fn rows<R: DeserializeOwned>(text: &str) -> Vec<R> {
    let reader = csv::Reader::from_reader(text.as_bytes());
    reader.into_deserialize().flatten().collect()
}

/// As [`rows`], of a table that the build prepared: a start of the program reads a dozen of them.
pub(crate) fn prepared_rows<R: DeserializeOwned>(text: &str) -> Vec<R> {
    let mut lines = text.lines();
    let head: StringRecord = lines.next().unwrap_or_default().split('\t').collect();
    let mut row = StringRecord::new();
    let read = lines.filter_map(|line| {
        row.clear();
        row.extend(line.split('\t'));
        row.deserialize(Some(&head)).ok()
    });
    read.collect()
}
