//! Tables laid out as the program reads them: cells parted by tabs, phrases in the forms that
//! texts are compared in. The program need not parse a table nor take a thousand phrases apart
//! at every start.

use crate::words::words;
use std::path::Path;

/// Tables below `src`, and which of their columns hold phrases, parted by semicolons.
pub const TABLES: [(&str, &[&str]); 18] = [
    ("foods/tables/families.csv", &[]),
    ("ledger/tables/raw.csv", &[]),
    ("matching/tables/companions.csv", &["words", "around"]),
    ("weighing/tables/compound_ends.csv", &[]),
    ("weighing/tables/dish_kinds.csv", &["words"]),
    ("weighing/tables/dish_names.csv", &["names"]),
    ("weighing/tables/hidden_fat.csv", &["words", "unless_named"]),
    ("weighing/tables/list_kinds.csv", &[]),
    ("weighing/tables/menu_words.csv", &["words"]),
    ("weighing/tables/refuse.csv", &["words"]),
    ("weighing/tables/serving_kinds.csv", &["words"]),
    ("weighing/tables/shared_dishes.csv", &["words"]),
    ("weighing/tables/size_words.csv", &["words"]),
    ("weighing/tables/swelling.csv", &["words"]),
    ("weighing/tables/usual_amounts.csv", &["words"]),
    ("weighing/tables/vessels.csv", &["words"]),
    ("weighing/tables/wares.csv", &[]),
    ("weighing/tables/yields.csv", &["words"]),
];

/// The rows of the table `text`, heading first, with a cell `NAME_base` behind the others for
/// each of `columns`: its phrases in base forms, words parted by spaces. Fails where a column is
/// missing, a row does not read, or a cell holds what parts cells or rows.
pub fn laid_out(text: &str, columns: &[&str]) -> Result<String, Box<dyn std::error::Error>> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let mut head = reader.headers()?.clone();
    let place = |column: &&str| {
        let at = head.iter().position(|name| name == *column);
        at.ok_or_else(|| format!("no column `{column}`"))
    };
    let places: Vec<usize> = columns.iter().map(place).collect::<Result<_, _>>()?;
    for column in columns {
        head.push_field(&format!("{column}_base"));
    }
    let mut laid_out = line(&head)?;
    for row in reader.records() {
        let mut row = row?;
        for at in &places {
            let base = in_base_forms(&row[*at]);
            row.push_field(&base);
        }
        laid_out += &line(&row)?;
    }
    Ok(laid_out)
}

fn line(row: &csv::StringRecord) -> Result<String, String> {
    let cells: Vec<&str> = row.iter().collect();
    match cells.iter().find(|cell| cell.contains(['\t', '\n', '\r'])) {
        Some(cell) => Err(format!("a tab or a line end in `{cell}`")),
        None => Ok(cells.join("\t") + "\n"),
    }
}

fn in_base_forms(cell: &str) -> String {
    let phrases = cell.split(';').map(|phrase| words(phrase).join(" "));
    phrases.collect::<Vec<_>>().join(";")
}

/// The name of a table once it is laid out, below the folder of what is built.
pub fn prepared_name(table: &str) -> Option<&str> {
    Path::new(table).file_name()?.to_str()
}
