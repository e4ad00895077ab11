//! What a comparison is made of.

use crate::ledger::Verdict;
use crate::pages::handout::AmountRow;
use crate::pages::plating::Seen;
use crate::quantity::Range;

/// What stands in a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    /// A dish as served.
    Served,
    /// The right-sized plate of the dish in the column before.
    Fitted,
    /// What a day allows.
    Day,
}

/// One column.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Side {
    /// What it is.
    pub kind: Kind,
    /// How rows refer to it: `A`, `B`, `right-sized`, `a day`.
    pub letter: String,
    /// Name of the dish; whose day for a day.
    pub title: String,
    /// Edible grams; `None` for a day.
    pub grams: Option<Range>,
}

/// An amount in a column.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Cell {
    /// How much, in the row's unit.
    pub amount: Range,
    /// The household size, for foods.
    pub size: Option<String>,
    /// Part of the day's allowance, for groups and limits.
    pub share: Option<f64>,
    /// What that part means.
    pub verdict: Option<Verdict>,
}

/// A row: a food, a food group or a limit.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Row {
    /// Name for a reader, as the first side has it.
    pub name: String,
    /// Unit of the amounts.
    pub unit: String,
    /// One a side; `None` where the side has none of a food, or no figure.
    pub cells: Vec<Option<Cell>>,
    /// How the sides differ, in words.
    pub difference: String,
}

/// Plates side by side.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Comparison {
    /// The columns, two to four.
    pub sides: Vec<Side>,
    /// Whose day the shares are of.
    pub day: String,
    /// Foods in the order of their groups.
    pub foods: Vec<Row>,
    /// Limits, then food groups.
    pub amounts: Vec<Row>,
    /// What a reader must know, a sentence each.
    pub notes: Vec<String>,
}

/// One column with its figures.
pub(super) struct Column {
    pub side: Side,
    pub foods: Vec<Seen>,
    pub rows: Vec<(AmountRow, Option<Range>)>,
}
