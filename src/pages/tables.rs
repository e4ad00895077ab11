//! One model of a table, and its two forms: text for 80 columns, and a page.

use super::layout::{grid, shortened, visible, wrap};
use minijinja::{Value, context};
use tabled::builder::Builder;

/// A cell.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Cell {
    /// What it says.
    pub text: String,
    /// A part of a whole (1 for all of it) that a page draws as a bar.
    pub share: Option<f64>,
    /// Whether it is beyond a limit: a page marks it with a sign.
    pub beyond: bool,
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        Self {
            text,
            ..Self::default()
        }
    }
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        Self::from(text.to_owned())
    }
}

/// A table whose first column names the row.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Table {
    /// What stands above it; may be empty.
    pub title: String,
    /// The columns.
    pub columns: Vec<Column>,
    /// The rows.
    pub rows: Vec<Vec<Cell>>,
}

/// A column.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Column {
    /// Its heading.
    pub name: String,
    /// Columns of a terminal that it takes at most.
    pub width: usize,
    /// Whether it holds figures, set to the right.
    pub figures: bool,
    /// Whether what is wider is cut on a terminal, so that a row stays one line.
    pub cut: bool,
}

impl Column {
    /// A column of words.
    pub(super) fn words(name: &str, width: usize) -> Self {
        Self {
            name: name.to_owned(),
            width,
            ..Self::default()
        }
    }

    /// A column of names, cut on a terminal.
    pub(super) fn names(name: &str, width: usize) -> Self {
        Self {
            cut: true,
            ..Self::words(name, width)
        }
    }

    /// A column of figures.
    pub(super) fn figures(name: &str, width: usize) -> Self {
        Self {
            figures: true,
            ..Self::words(name, width)
        }
    }
}

impl Table {
    /// For a terminal: the title, then the grid. Nothing without rows.
    pub(super) fn text(&self) -> String {
        if self.rows.is_empty() {
            return String::new();
        }
        let mut table = Builder::default();
        table.push_record(self.columns.iter().map(|column| column.name.as_str()));
        for row in &self.rows {
            let cells = row.iter().zip(&self.columns);
            table.push_record(cells.map(|(cell, column)| match visible(&cell.text) {
                text if column.cut => shortened(&text, column.width),
                text => text,
            }));
        }
        let widths: Vec<usize> = self.columns.iter().map(|column| column.width).collect();
        let figures = self.columns.iter().enumerate();
        let figures = figures.filter(|(_, column)| column.figures);
        let right: Vec<usize> = figures.map(|(at, _)| at).collect();
        let title = if self.title.is_empty() {
            String::new()
        } else {
            wrap(&self.title)
        };
        format!("{title}{}", grid(table, &widths, &right))
    }

    /// For a template.
    pub(super) fn value(&self) -> Value {
        let columns: Vec<Value> = self.columns.iter().map(column_value).collect();
        let rows: Vec<Vec<Value>> = self
            .rows
            .iter()
            .map(|row| row.iter().map(cell_value).collect())
            .collect();
        context! { title => self.title.as_str(), columns, rows }
    }
}

fn column_value(column: &Column) -> Value {
    context! { name => column.name.as_str(), figures => column.figures }
}

fn cell_value(cell: &Cell) -> Value {
    // A whole bar is all of it; what goes beyond is said by its sign and figure.
    let percent = cell
        .share
        .filter(|share| share.is_finite())
        .map(|share| (share.clamp(0.0, 1.0) * 100.0).round());
    context! { text => visible(&cell.text), percent, beyond => cell.beyond }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_is_narrow_as_text_and_marked_on_a_page() {
        let table = Table {
            title: "What was eaten".to_owned(),
            columns: vec![Column::words("food", 20), Column::figures("kcal", 6)],
            rows: vec![vec![
                "rice\u{1b}[31m".into(),
                Cell {
                    text: "1,200".to_owned(),
                    share: Some(1.4),
                    beyond: true,
                },
            ]],
        };
        let text = table.text();
        assert!(text.starts_with("What was eaten\n"), "{text}");
        assert!(!text.contains('\u{1b}'), "{text}");
        let value = table.value();
        let cell = value.get_attr("rows").unwrap();
        let cell = cell.get_item_by_index(0).unwrap();
        let cell = cell.get_item_by_index(1).unwrap();
        assert_eq!(cell.get_attr("percent").unwrap().to_string(), "100.0");
        assert!(cell.get_attr("beyond").unwrap().is_true());
        assert_eq!(Table::default().text(), "");
    }
}
