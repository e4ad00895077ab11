//! Rows of a CSV menu: the header, and cells into an item.

use super::item::{Item, RowFault, printed_energy, push_line};
use csv_core::{ReadRecordResult, Reader, ReaderBuilder};

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Column {
    Name,
    Section,
    Description,
    Components,
    Served,
    Energy,
    Restaurant,
    Unused,
}

const COLUMNS: [(&str, Column); 7] = [
    ("item", Column::Name),
    ("section", Column::Section),
    ("description", Column::Description),
    ("components", Column::Components),
    ("served", Column::Served),
    ("energy_kcal", Column::Energy),
    ("restaurant", Column::Restaurant),
];

/// Longest header, bytes.
const MOST_HEADER: usize = 64 << 10;

/// The columns of a CSV menu.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Header {
    columns: Vec<Column>,
    /// The row as written.
    pub raw: Vec<u8>,
    /// Columns that are not used, as written.
    pub unused: Vec<String>,
    /// What parts the cells.
    pub delimiter: u8,
}

/// Why a header can not be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum HeaderFault {
    /// No header at all.
    #[error("the menu is empty: its first line names the columns, `item` among them")]
    Empty,
    /// Not text.
    #[error("the header is not text: save the menu as UTF-8")]
    NotText,
    /// A header longer than any.
    #[error("the header holds {bytes} bytes, more than {MOST_HEADER}: is it one?")]
    TooLong {
        /// Its length.
        bytes: usize,
    },
    /// No column says what is ordered.
    #[error(
        "no column is called `item`; there are: {found}\n  = name the columns item, section, description, components, served, energy_kcal"
    )]
    NoItem {
        /// The columns there are.
        found: String,
    },
    /// A column that means something is there twice.
    #[error("two columns are called `{name}` (columns {first} and {second}): rename one")]
    Twice {
        /// The name.
        name: String,
        /// Place of the first, from 1.
        first: usize,
        /// Place of the second.
        second: usize,
    },
}

/// Delimiter of a header: a tab when it has tabs and no comma.
#[cfg(feature = "cli")]
pub(crate) fn delimiter_of(header: &[u8]) -> u8 {
    let line = header
        .split(|b| matches!(b, b'\n' | b'\r'))
        .next()
        .unwrap_or_default();
    if line.contains(&b'\t') && !line.contains(&b',') {
        b'\t'
    } else {
        b','
    }
}

impl Header {
    /// Reads the header row. Names are taken in any case, with spaces or underscores.
    pub fn parse(row: &[u8], delimiter: u8) -> Result<Self, HeaderFault> {
        if row.len() > MOST_HEADER {
            return Err(HeaderFault::TooLong { bytes: row.len() });
        }
        let mut cells = Cells::new(delimiter);
        cells.read(row).map_err(|_| HeaderFault::NotText)?;
        let mut header = Self {
            columns: Vec::new(),
            raw: row.strip_prefix(b"\xef\xbb\xbf").unwrap_or(row).to_vec(),
            unused: Vec::new(),
            delimiter,
        };
        for at in 0..cells.len() {
            let written = cells.get(at).trim().trim_start_matches('\u{feff}').trim();
            let plain = written.to_lowercase().replace([' ', '-'], "_");
            let known = COLUMNS.iter().find(|(name, _)| *name == plain);
            let column = known.map_or(Column::Unused, |(_, column)| *column);
            if column == Column::Unused {
                header.unused.push(written.to_owned());
            } else if let Some(first) = header.columns.iter().position(|c| *c == column) {
                return Err(HeaderFault::Twice {
                    name: written.to_owned(),
                    first: first + 1,
                    second: at + 1,
                });
            }
            header.columns.push(column);
        }
        if !header.columns.contains(&Column::Name) {
            return Err(HeaderFault::NoItem {
                found: header.unused.join(", "),
            });
        }
        Ok(header)
    }

    /// Whether a column holds energy that is printed or a weight that is served.
    #[cfg(feature = "cli")]
    pub(crate) fn has_figures(&self) -> bool {
        let figure = |column: &Column| matches!(column, Column::Energy | Column::Served);
        self.columns.iter().any(figure)
    }
}

/// The cells of one row, in memory that is used again for the next.
#[derive(Debug)]
pub struct Cells {
    reader: Reader,
    text: Vec<u8>,
    ends: Vec<usize>,
    used: usize,
}

impl Cells {
    /// Room for the cells of rows parted by `delimiter`.
    #[must_use]
    pub fn new(delimiter: u8) -> Self {
        Self {
            reader: ReaderBuilder::new().delimiter(delimiter).build(),
            text: vec![0; 1024],
            ends: vec![0; 16],
            used: 0,
        }
    }

    /// Takes one row, without its line break, into cells.
    ///
    /// Fails when it is not UTF-8, holds a NUL byte, or is more than one row.
    pub fn read(&mut self, row: &[u8]) -> Result<(), RowFault> {
        check_text(row)?;
        self.reader.reset();
        let (mut from, mut text, mut ends) = (0, 0, 0);
        loop {
            let (result, read, written, ended) = self.reader.read_record(
                &row[from..],
                &mut self.text[text..],
                &mut self.ends[ends..],
            );
            from += read;
            text += written;
            ends += ended;
            match result {
                ReadRecordResult::OutputFull => self.text.resize(self.text.len() * 2, 0),
                ReadRecordResult::OutputEndsFull => self.ends.resize(self.ends.len() * 2, 0),
                // The input is the whole row: an empty rest tells that it ends here.
                ReadRecordResult::InputEmpty => {}
                ReadRecordResult::Record => break,
                ReadRecordResult::End => {
                    self.used = 0;
                    return Ok(());
                }
            }
        }
        if from < row.len() {
            return Err(RowFault::OpenQuote);
        }
        self.used = ends;
        Ok(())
    }

    /// How many cells.
    pub(crate) fn len(&self) -> usize {
        self.used
    }

    /// A cell; empty beyond the last.
    pub(crate) fn get(&self, at: usize) -> &str {
        if at >= self.used {
            return "";
        }
        let start = if at == 0 { 0 } else { self.ends[at - 1] };
        let bytes = self.text.get(start..self.ends[at]).unwrap_or_default();
        // The row is UTF-8 and cells are cut at ASCII: a cell is UTF-8 as well.
        std::str::from_utf8(bytes).unwrap_or_default()
    }
}

/// UTF-8 without NUL bytes.
pub(super) fn check_text(row: &[u8]) -> Result<&str, RowFault> {
    if let Some(at) = memchr::memchr(0, row) {
        return Err(RowFault::Nul { at: at + 1 });
    }
    std::str::from_utf8(row).map_err(|e| RowFault::NotText {
        at: e.valid_up_to() + 1,
    })
}

/// Takes a row of cells into an item.
///
/// Fails when a filled cell has no column, when nothing says what is ordered, or when the
/// printed energy is no figure. Missing cells at the end are empty.
pub fn to_item(header: &Header, cells: &Cells, item: &mut Item) -> Result<(), RowFault> {
    item.clear();
    let named = header.columns.len();
    if (named..cells.len()).any(|at| !cells.get(at).trim().is_empty()) {
        return Err(RowFault::Cells {
            found: cells.len(),
            named,
        });
    }
    for (at, column) in header.columns.iter().enumerate() {
        let cell = cells.get(at).trim();
        match column {
            Column::Name => push_line(&mut item.name, cell),
            Column::Section => push_line(&mut item.section, cell),
            Column::Description => push_line(&mut item.description, cell),
            Column::Components => push_line(&mut item.components, cell),
            Column::Served => push_line(&mut item.served, cell),
            Column::Energy => item.printed = printed_energy(cell)?,
            Column::Restaurant => push_line(&mut item.restaurant, cell),
            Column::Unused => {}
        }
    }
    if item.name.is_empty() {
        return Err(RowFault::NoName);
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn item(header: &str, row: &str) -> Result<Item, RowFault> {
        let header = Header::parse(header.as_bytes(), b',').expect("header");
        let mut cells = Cells::new(b',');
        cells.read(row.as_bytes())?;
        let mut item = Item::default();
        to_item(&header, &cells, &mut item).map(|()| item)
    }

    #[test]
    fn columns_come_in_any_order_and_case() {
        let found = item(
            "\u{feff}Energy kcal,price,ITEM,components",
            "640,9.50,\" Bowl, large \",\"1 cup rice; \"\"firm\"\" tofu\"",
        )
        .expect("reads");
        assert_eq!(found.name, "Bowl, large");
        assert_eq!(found.components, "1 cup rice; \"firm\" tofu");
        assert_eq!(found.printed, Some((640.0, 640.0)));
    }

    #[test]
    fn headers_that_cannot_be_understood_are_refused() {
        let parse = |text: &str| Header::parse(text.as_bytes(), b',');
        assert_eq!(
            parse("item,served,Item").err(),
            Some(HeaderFault::Twice {
                name: "Item".to_owned(),
                first: 1,
                second: 3
            })
        );
        assert!(matches!(
            parse("dish,kcal"),
            Err(HeaderFault::NoItem { .. })
        ));
        let fine = parse("item,price,price").expect("unused columns may repeat");
        assert_eq!(fine.unused, ["price", "price"]);
    }

    #[test]
    fn short_rows_are_filled_and_long_ones_refused() {
        assert_eq!(item("item,served", "Soup").expect("reads").served, "");
        assert!(item("item,served", "Soup,12 fl oz,,").is_ok());
        assert_eq!(
            item("item,served", "Soup,with bread,12 fl oz"),
            Err(RowFault::Cells { found: 3, named: 2 })
        );
        assert_eq!(item("item", "  "), Err(RowFault::NoName));
        assert_eq!(item("item", "a\0b"), Err(RowFault::Nul { at: 2 }));
    }

    #[test]
    fn more_cells_than_there_was_room_for() {
        let header = format!("item{}", ",x".repeat(100));
        let row = format!("Soup{}", ",yy".repeat(100));
        assert_eq!(item(&header, &row).expect("reads").name, "Soup");
    }
}
