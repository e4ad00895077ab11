//! Items out of rows, in memory that is used again.

use super::csv_rows::{Cells, Header, to_item};
use super::item::{Item, RowFault};
use super::json_rows::{from_line, from_menu_item};
use super::split::Cut;

/// Bytes of a row that is still taken for an item.
const MOST_ROW: usize = 1 << 20;

/// How items are made of rows.
#[derive(Clone, Copy)]
pub(crate) enum RowForm<'h> {
    /// Cells under a header.
    Csv(&'h Header),
    /// One JSON object.
    Line,
    /// A schema.org `MenuItem`.
    MenuItem,
}

/// Makes items of rows, one at a time.
pub(crate) struct ItemReader<'h> {
    form: RowForm<'h>,
    cells: Cells,
    /// The item that was read last.
    pub item: Item,
}

impl<'h> ItemReader<'h> {
    pub(crate) fn new(form: RowForm<'h>) -> Self {
        let delimiter = match form {
            RowForm::Csv(header) => header.delimiter,
            _ => b',',
        };
        Self {
            form,
            cells: Cells::new(delimiter),
            item: Item::default(),
        }
    }

    /// The item of a row as it was cut.
    pub(crate) fn read(&mut self, cut: Cut, bytes: &[u8]) -> Result<&Item, RowFault> {
        match cut {
            Cut::OpenQuote => return Err(RowFault::OpenQuote),
            Cut::BrokenOff => return Err(RowFault::CutOff),
            Cut::Piece | Cut::Rest => return Err(too_long(bytes)),
            Cut::Whole if bytes.len() > MOST_ROW => return Err(too_long(bytes)),
            Cut::Whole => {}
        }
        match self.form {
            RowForm::Csv(header) => {
                self.cells.read(bytes)?;
                to_item(header, &self.cells, &mut self.item)?;
            }
            RowForm::Line => from_line(bytes, &mut self.item)?,
            RowForm::MenuItem => from_menu_item(bytes, &mut self.item)?,
        }
        self.item.check()?;
        Ok(&self.item)
    }
}

fn too_long(bytes: &[u8]) -> RowFault {
    RowFault::TooLong {
        bytes: bytes.len(),
        most: MOST_ROW,
    }
}
