//! A CSV table in memory: what every page of rows is written with.

/// The table of a header (`name,unit,amount`) and its rows. Cells that hold words of others go
/// through [`cell`](super::escape::cell) first.
///
/// Fails only when memory does, or on a row of another length than the header.
pub(crate) fn csv_table<R>(
    header: &str,
    rows: impl IntoIterator<Item = R>,
) -> Result<String, csv::Error>
where
    R: IntoIterator<Item: AsRef<[u8]>>,
{
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(header.split(','))?;
    for row in rows {
        writer.write_record(row)?;
    }
    written(writer)
}

/// The text of a table that was written into memory.
pub(crate) fn written(writer: csv::Writer<Vec<u8>>) -> Result<String, csv::Error> {
    let bytes = writer
        .into_inner()
        .map_err(csv::IntoInnerError::into_error)?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// A figure as a cell; empty where it is not known.
pub(crate) fn figure(value: impl Into<Option<f64>>) -> String {
    value.into().map(|v| format!("{v:.3}")).unwrap_or_default()
}
