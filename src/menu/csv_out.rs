//! Rows as CSV: one row an item, one column a figure, nothing where nothing is known.

use super::figures::push;
use super::item::PrintedIs;
use super::row::Row;
use crate::fit::Measured;
use crate::ledger::{EnergyNutrient, Group, Limit};
use crate::matching::Catalogue;
use crate::pages::escape::cell as guard;
use crate::quantity::Range;
use crate::reading::visible;

/// The columns in order.
pub(crate) fn columns() -> Vec<String> {
    let mut list: Vec<String> = [
        "item",
        "certainty",
        "over",
        "fitted_share",
        "held_by",
        "sodium_passes",
        "grams_low",
        "grams",
        "grams_high",
        "energy_kcal_low",
        "energy_kcal",
        "energy_kcal_high",
        "energy_share",
        "printed_kcal",
        "printed",
    ]
    .map(str::to_owned)
    .to_vec();
    for group in Group::ALL {
        let unit = group.unit().word().replace('-', "_");
        list.push(format!("{}_{unit}", group.key()));
        list.push(format!("{}_portions", group.key()));
        list.push(format!("{}_share", group.key()));
    }
    for limit in Limit::ALL.iter().skip(1) {
        let unit = limit.unit().replace('-', "_");
        list.push(format!("{}_{unit}", limit.key()));
        list.push(format!("{}_share", limit.key()));
    }
    for nutrient in EnergyNutrient::ALL {
        let key = nutrient.key();
        list.extend([
            format!("{key}_g_low"),
            format!("{key}_g"),
            format!("{key}_g_high"),
        ]);
    }
    list.extend(["components", "unmatched", "without_amount", "not_plausible"].map(str::to_owned));
    list
}

/// Columns more, where rows are held against the rest of a day.
const OF_REST: [&str; 2] = ["brings_of_short", "beyond_left"];

/// Writes rows into memory, one batch at a time.
pub(crate) struct CsvRows<'c, 'o> {
    catalogue: &'c Catalogue,
    /// Whether they are held against the rest of a day.
    rest: bool,
    writer: csv::Writer<&'o mut Vec<u8>>,
    cell: Vec<u8>,
}

impl<'c, 'o> CsvRows<'c, 'o> {
    /// A writer whose rows end with a line feed.
    pub(crate) fn new(catalogue: &'c Catalogue, rest: bool, out: &'o mut Vec<u8>) -> Self {
        Self {
            catalogue,
            rest,
            writer: csv::Writer::from_writer(out),
            cell: Vec::new(),
        }
    }

    /// The header row.
    pub(crate) fn header(&mut self) -> csv::Result<()> {
        let rest = OF_REST
            .iter()
            .filter(|_| self.rest)
            .map(ToString::to_string);
        self.writer.write_record(columns().into_iter().chain(rest))
    }

    /// One row. Fails only when memory does.
    pub(crate) fn row(&mut self, row: &Row) -> csv::Result<()> {
        self.writer.write_field(guard(&row.item).as_bytes())?;
        self.word(row.certainty.word())?;
        self.joined(row.ledger.over().map(Limit::key))?;
        self.number(row.fitted.map(|f| f.share), 2)?;
        let held = row.fitted.and_then(|f| f.limited_by);
        self.word(held.map_or("", Measured::key))?;
        let passes = row.fitted.is_some_and(|f| f.passes_sodium);
        self.word(if passes { "yes" } else { "" })?;
        self.range(Some(row.ledger.grams()), 1)?;
        self.range(row.energy(), 0)?;
        self.number(row.ledger.line(Limit::Energy).share(), 2)?;
        self.printed(row)?;
        for group in row.ledger.groups() {
            self.number(group.amount.map(|a| a.mean), 2)?;
            self.number(group.portions(), 2)?;
            self.number(group.share(), 2)?;
        }
        for limit in row.ledger.limits().skip(1) {
            self.number(limit.likely(), 1)?;
            self.number(limit.share(), 2)?;
        }
        for nutrient in row.ledger.nutrients() {
            self.range(nutrient.range(), 1)?;
        }
        self.components(row)?;
        self.joined(row.unmatched.iter().map(String::as_str))?;
        self.joined(row.without_amount.iter().map(String::as_str))?;
        self.joined(row.not_plausible.iter().map(String::as_str))?;
        if self.rest {
            self.choice(row)?;
        }
        self.writer.write_record(None::<&[u8]>)
    }

    /// `vegetables 0.63; grains 1.20`, then `sodium 380 mg`.
    fn choice(&mut self, row: &Row) -> csv::Result<()> {
        let choice = row.choice.iter();
        let brings = choice.clone().flat_map(|choice| &choice.brings);
        let brings = brings.map(|(subject, part)| format!("{} {part:.2}", subject.key()));
        let beyond = choice.flat_map(|choice| &choice.beyond);
        let beyond = beyond.map(|(subject, held, room)| {
            format!("{} {:.0} {}", subject.key(), held - room, subject.unit())
        });
        self.word(&brings.collect::<Vec<_>>().join("; "))?;
        self.word(&beyond.collect::<Vec<_>>().join("; "))
    }

    /// Hands everything to the memory it is written into.
    pub(crate) fn finish(mut self) -> csv::Result<()> {
        Ok(self.writer.flush()?)
    }

    fn components(&mut self, row: &Row) -> csv::Result<()> {
        self.cell.clear();
        for c in &row.components {
            let Some(id) = c.food else { continue };
            if !self.cell.is_empty() {
                self.cell.extend_from_slice(b"; ");
            }
            if let Some(weight) = c.weight {
                push(&mut self.cell, weight.mean, 0);
                self.cell.extend_from_slice(b" g ");
            }
            let name = self.catalogue.food(id).name();
            if self.cell.is_empty() {
                self.cell.extend_from_slice(guard(name).as_bytes());
            } else {
                self.cell.extend_from_slice(visible(name).as_bytes());
            }
        }
        self.writer.write_field(&self.cell)
    }

    fn printed(&mut self, row: &Row) -> csv::Result<()> {
        self.cell.clear();
        if let Some((low, high)) = row.printed {
            push(&mut self.cell, low, 0);
            if high > low {
                self.cell.push(b'-');
                push(&mut self.cell, high, 0);
            }
        }
        self.writer.write_field(&self.cell)?;
        self.word(row.printed_is.map_or("", PrintedIs::word))
    }

    fn range(&mut self, range: Option<Range>, decimals: u32) -> csv::Result<()> {
        self.number(range.map(|r| r.low), decimals)?;
        self.number(range.map(|r| r.likely), decimals)?;
        self.number(range.map(|r| r.high), decimals)
    }

    fn number(&mut self, value: Option<f64>, decimals: u32) -> csv::Result<()> {
        self.cell.clear();
        if let Some(value) = value {
            push(&mut self.cell, value, decimals);
        }
        self.writer.write_field(&self.cell)
    }

    fn word(&mut self, word: &str) -> csv::Result<()> {
        self.writer.write_field(word)
    }

    /// Texts in one cell; what a spreadsheet would run as a formula is made text.
    fn joined<'t>(&mut self, list: impl Iterator<Item = &'t str>) -> csv::Result<()> {
        self.cell.clear();
        for text in list {
            if self.cell.is_empty() {
                self.cell.extend_from_slice(guard(text).as_bytes());
            } else {
                self.cell.extend_from_slice(b"; ");
                self.cell.extend_from_slice(visible(text).as_bytes());
            }
        }
        self.writer.write_field(&self.cell)
    }
}
