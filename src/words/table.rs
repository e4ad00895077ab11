//! The program's own tables: CSV in its text, read once.

use serde::de::DeserializeOwned;

/// The rows of an embedded table, by its heading. A row that does not read is left out; each
/// table has a test that none is.
pub(crate) fn rows<R: DeserializeOwned>(text: &str) -> Vec<R> {
    let reader = csv::Reader::from_reader(text.as_bytes());
    reader.into_deserialize().flatten().collect()
}
