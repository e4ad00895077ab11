//! Rows as a Parquet file: the columns of the CSV form, figures as numbers, nothing as null.

use super::csv_out::columns;
use parquet::basic::{Compression, ConvertedType, Repetition, Type as Physical};
use parquet::data_type::{ByteArray, ByteArrayType, DoubleType};
use parquet::errors::ParquetError;
use parquet::file::properties::WriterProperties;
use parquet::file::writer::SerializedFileWriter;
use parquet::schema::types::Type;
use std::fs::File;
use std::sync::Arc;

/// Rows of a row group: enough to pack well, few enough to hold.
const GROUP_ROWS: usize = 8192;

/// Columns that hold text; all others hold figures.
const TEXTS: [&str; 10] = [
    "item",
    "certainty",
    "over",
    "held_by",
    "sodium_passes",
    "printed",
    "components",
    "unmatched",
    "without_amount",
    "not_plausible",
];
/// A figure, or two when the restaurant prints several: text as well.
const PRINTED: &str = "printed_kcal";

/// Writes rows that come as CSV into a Parquet file, a row group at a time.
pub(crate) struct ParquetRows {
    writer: SerializedFileWriter<File>,
    columns: Vec<Column>,
    rows: usize,
}

/// A column of the row group under way.
enum Column {
    Text(Vec<ByteArray>, Vec<i16>),
    Figure(Vec<f64>, Vec<i16>),
}

impl ParquetRows {
    /// A new file.
    pub(crate) fn new(file: File) -> std::io::Result<Self> {
        let names = columns();
        let is_text = |name: &str| TEXTS.contains(&name) || name == PRINTED;
        let fields = names
            .iter()
            .map(|name| field(name, is_text(name)).map(Arc::new))
            .collect::<Result<Vec<_>, _>>()
            .map_err(failed)?;
        let schema = Type::group_type_builder("menu")
            .with_fields(fields)
            .build()
            .map_err(failed)?;
        let properties = WriterProperties::builder()
            .set_compression(Compression::SNAPPY)
            .build();
        let columns = names.iter().map(|name| {
            if is_text(name) {
                Column::Text(Vec::new(), Vec::new())
            } else {
                Column::Figure(Vec::new(), Vec::new())
            }
        });
        Ok(Self {
            writer: SerializedFileWriter::new(file, Arc::new(schema), Arc::new(properties))
                .map_err(failed)?,
            columns: columns.collect(),
            rows: 0,
        })
    }

    /// Takes whole rows of CSV without a header.
    pub(crate) fn rows(&mut self, csv: &[u8]) -> std::io::Result<()> {
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .from_reader(csv);
        let mut record = csv::ByteRecord::new();
        while reader
            .read_byte_record(&mut record)
            .map_err(std::io::Error::from)?
        {
            for (column, cell) in self.columns.iter_mut().zip(&record) {
                column.push(cell);
            }
            self.rows += 1;
            if self.rows >= GROUP_ROWS {
                self.end_group()?;
            }
        }
        Ok(())
    }

    fn end_group(&mut self) -> std::io::Result<()> {
        if self.rows == 0 {
            return Ok(());
        }
        let mut group = self.writer.next_row_group().map_err(failed)?;
        for column in &mut self.columns {
            let Some(mut out) = group.next_column().map_err(failed)? else {
                break;
            };
            match column {
                Column::Text(values, there) => {
                    let typed = out.typed::<ByteArrayType>();
                    typed
                        .write_batch(values, Some(there), None)
                        .map_err(failed)?;
                    values.clear();
                    there.clear();
                }
                Column::Figure(values, there) => {
                    let typed = out.typed::<DoubleType>();
                    typed
                        .write_batch(values, Some(there), None)
                        .map_err(failed)?;
                    values.clear();
                    there.clear();
                }
            }
            out.close().map_err(failed)?;
        }
        group.close().map_err(failed)?;
        self.rows = 0;
        Ok(())
    }

    /// Writes what is left and the file's end: without it a Parquet file cannot be read.
    pub(crate) fn finish(mut self) -> std::io::Result<()> {
        self.end_group()?;
        self.writer.close().map_err(failed)?;
        Ok(())
    }
}

impl Column {
    fn push(&mut self, cell: &[u8]) {
        let there = i16::from(!cell.is_empty());
        match self {
            Column::Text(values, levels) => {
                levels.push(there);
                if there == 1 {
                    values.push(ByteArray::from(cell.to_vec()));
                }
            }
            Column::Figure(values, levels) => {
                let figure: Option<f64> =
                    std::str::from_utf8(cell).ok().and_then(|t| t.parse().ok());
                levels.push(i16::from(figure.is_some()));
                values.extend(figure);
            }
        }
    }
}

fn field(name: &str, text: bool) -> Result<Type, ParquetError> {
    let kind = if text {
        Physical::BYTE_ARRAY
    } else {
        Physical::DOUBLE
    };
    let builder = Type::primitive_type_builder(name, kind).with_repetition(Repetition::OPTIONAL);
    let builder = if text {
        builder.with_converted_type(ConvertedType::UTF8)
    } else {
        builder
    };
    builder.build()
}

fn failed(error: ParquetError) -> std::io::Error {
    match error {
        ParquetError::External(inner) => match inner.downcast::<std::io::Error>() {
            Ok(error) => *error,
            Err(other) => std::io::Error::other(other),
        },
        other => std::io::Error::other(other),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use parquet::file::reader::{FileReader, SerializedFileReader};
    use parquet::record::Field;

    #[test]
    fn what_is_written_is_read_again() {
        let file = tempfile::tempfile().expect("a file");
        let mut rows = ParquetRows::new(file.try_clone().expect("clones")).expect("begins");
        let many = columns().len();
        let line = |item: &str, figure: &str| {
            let mut cells = vec![""; many];
            (cells[0], cells[6]) = (item, figure);
            cells.join(",") + "\n"
        };
        for at in 0..GROUP_ROWS + 10 {
            let figure = if at % 3 == 0 {
                String::new()
            } else {
                format!("{at}.5")
            };
            rows.rows(line(&format!("Bowl {at}"), &figure).as_bytes())
                .expect("takes");
        }
        rows.finish().expect("finishes");
        let reader = SerializedFileReader::new(file).expect("reads");
        assert_eq!(
            reader.metadata().file_metadata().num_rows() as usize,
            GROUP_ROWS + 10
        );
        let second = reader
            .get_row_iter(None)
            .expect("rows")
            .nth(1)
            .expect("a row")
            .expect("reads");
        let all: Vec<(String, Field)> = second
            .get_column_iter()
            .map(|(n, f)| (n.clone(), f.clone()))
            .collect();
        assert_eq!(all[0], ("item".to_owned(), Field::Str("Bowl 1".to_owned())));
        assert_eq!(all[6], ("grams_low".to_owned(), Field::Double(1.5)));
        assert_eq!(all[1].1, Field::Null);
    }
}
