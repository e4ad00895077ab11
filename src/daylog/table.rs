//! Entries as a CSV table that a spreadsheet opens and that reads back without loss.
//!
//! Fixed columns first; then, as far as they occur, `group NAME (UNIT) low|likely|high`,
//! `portions NAME low|likely|high`, `limit NAME (UNIT) low|likely|high`, `nutrient NAME`. An
//! empty cell: not part of this entry; `unknown`: part of it, but no figure is published.
//! Components and what was not counted stand as JSON in one cell each.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Display;
use std::io::{Read, Write};
use std::str::FromStr;

use csv::StringRecord;

use super::entry::{Entry, GroupAmount, LimitAmount, Moment};
use super::record::{BadCell, ReadError, Record};
use crate::quantity::Range;
use crate::reading::{json_escaped, visible};

const FIXED: [&str; 19] = [
    "diner",
    "date",
    "time",
    "utc_offset_seconds",
    "zone",
    "meal",
    "dish",
    "share",
    "grams low",
    "grams likely",
    "grams high",
    "fluid_ml",
    "catalogue",
    "standard",
    "undone",
    "uid",
    "uncounted",
    "components",
    "layout",
];
/// Columns that tables of layout 1 have not.
const SINCE_2: [&str; 2] = ["number", "planned"];
/// Stands in the column `layout`, for readers to come.
const LAYOUT: &str = "2";
/// The layouts that are read.
const LAYOUTS: [&str; 2] = ["1", LAYOUT];
const UNKNOWN: &str = "unknown";
const ENDS: [&str; 3] = ["low", "likely", "high"];

/// A column beyond the fixed ones, by what it holds.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum Block {
    Group { key: String, unit: String },
    Portions { key: String },
    Limit { key: String, unit: String },
    Nutrient { key: String },
    Energy { key: String, unit: String },
}

impl Block {
    fn headings(&self) -> Vec<String> {
        let three = |stem: String| ENDS.iter().map(|end| format!("{stem} {end}")).collect();
        match self {
            Self::Group { key, unit } => three(format!("group {key} ({unit})")),
            Self::Portions { key } => three(format!("portions {key}")),
            Self::Limit { key, unit } => three(format!("limit {key} ({unit})")),
            Self::Nutrient { key } => vec![format!("nutrient {key}")],
            Self::Energy { key, unit } => three(format!("range {key} ({unit})")),
        }
    }

    /// From the heading of the block's first column.
    fn read(heading: &str) -> Option<Self> {
        let (kind, rest) = heading.split_once(' ')?;
        if kind == "nutrient" {
            let key = rest.to_owned();
            return Some(Self::Nutrient { key });
        }
        let stem = rest.strip_suffix(" low")?;
        if kind == "portions" {
            let key = stem.to_owned();
            return Some(Self::Portions { key });
        }
        let (key, unit) = stem.strip_suffix(')')?.rsplit_once(" (")?;
        let (key, unit) = (key.to_owned(), unit.to_owned());
        match kind {
            "group" => Some(Self::Group { key, unit }),
            "limit" => Some(Self::Limit { key, unit }),
            "range" => Some(Self::Energy { key, unit }),
            _ => None,
        }
    }
}

/// The table with its heading.
pub(super) fn write(records: &[Record]) -> String {
    let mut blocks = Blocks::default();
    for record in records {
        blocks.add(&record.entry);
    }
    let mut bytes = Vec::new();
    // Writing to memory fails on nothing but rows of unequal length, which these are not.
    let _ = TableOut::begin(&mut bytes, blocks, false).and_then(|mut out| {
        records.iter().try_for_each(|record| out.entry(record))?;
        out.end()
    });
    String::from_utf8(bytes).unwrap_or_default()
}

/// The columns beyond the fixed ones that some entries need.
#[derive(Debug, Default)]
pub(super) struct Blocks(BTreeSet<Block>);

impl Blocks {
    /// Makes room for an entry.
    pub(super) fn add(&mut self, entry: &Entry) {
        for (key, eaten) in &entry.groups {
            let (key, unit) = (key.clone(), eaten.unit.clone());
            self.0.insert(Block::Portions { key: key.clone() });
            self.0.insert(Block::Group { key, unit });
        }
        for (key, eaten) in &entry.limits {
            let (key, unit) = (key.clone(), eaten.unit.clone());
            self.0.insert(Block::Limit { key, unit });
        }
        for key in entry.nutrients.keys().cloned() {
            self.0.insert(Block::Nutrient { key });
        }
        for (key, eaten) in &entry.energy_nutrients {
            let (key, unit) = (key.clone(), eaten.unit.clone());
            self.0.insert(Block::Energy { key, unit });
        }
    }
}

/// Writes a table, an entry at a time.
pub(super) struct TableOut<'o> {
    writer: csv::Writer<&'o mut dyn Write>,
    blocks: Blocks,
    /// For a terminal: what cannot be seen stands there as its code.
    shown: bool,
}

impl<'o> TableOut<'o> {
    pub(super) fn begin(out: &'o mut dyn Write, blocks: Blocks, shown: bool) -> csv::Result<Self> {
        let mut writer = csv::Writer::from_writer(out);
        let fixed = FIXED.iter().chain(&SINCE_2).map(ToString::to_string);
        writer.write_record(fixed.chain(blocks.0.iter().flat_map(Block::headings)))?;
        Ok(Self {
            writer,
            blocks,
            shown,
        })
    }

    pub(super) fn entry(&mut self, record: &Record) -> csv::Result<()> {
        let mut cells = fixed_cells(record);
        for block in &self.blocks.0 {
            cells.extend(block_cells(&record.entry, block));
        }
        if self.shown {
            for cell in &mut cells {
                *cell = visible(cell);
            }
        }
        self.writer.write_record(cells)
    }

    pub(super) fn end(mut self) -> csv::Result<()> {
        Ok(self.writer.flush()?)
    }
}

fn fixed_cells(record: &Record) -> Vec<String> {
    let entry = &record.entry;
    let json = |result: serde_json::Result<String>| json_escaped(result.unwrap_or_default());
    vec![
        guarded(&record.diner),
        entry.at.date.to_string(),
        entry.at.time.to_string(),
        entry.at.utc_offset_seconds.to_string(),
        guarded(&entry.at.zone),
        entry.meal.as_deref().map(guarded).unwrap_or_default(),
        guarded(&entry.dish),
        entry.share.to_string(),
        entry.grams.low.to_string(),
        entry.grams.likely.to_string(),
        entry.grams.high.to_string(),
        entry.fluid_ml.to_string(),
        guarded(&entry.catalogue),
        guarded(&entry.standard),
        record.undone.to_string(),
        record.uid.clone(),
        json(serde_json::to_string(&entry.uncounted)),
        json(serde_json::to_string(&entry.components)),
        LAYOUT.to_owned(),
        record.number.to_string(),
        record.planned.to_string(),
    ]
}

fn block_cells(entry: &Entry, block: &Block) -> Vec<String> {
    let three = |range: Option<Range>| match range {
        Some(range) => [range.low, range.likely, range.high]
            .map(|f| f.to_string())
            .to_vec(),
        None => vec![String::new(); 3],
    };
    match block {
        Block::Group { key, unit } => {
            let group = entry.groups.get(key).filter(|group| group.unit == *unit);
            three(group.map(|group| group.amount))
        }
        Block::Portions { key } => three(entry.groups.get(key).map(|group| group.portions)),
        Block::Limit { key, unit } | Block::Energy { key, unit } => {
            let all = match block {
                Block::Limit { .. } => &entry.limits,
                _ => &entry.energy_nutrients,
            };
            match all.get(key).filter(|limit| limit.unit == *unit) {
                Some(LimitAmount { amount: None, .. }) => vec![UNKNOWN.to_owned(); 3],
                limit => three(limit.and_then(|limit| limit.amount)),
            }
        }
        Block::Nutrient { key } => vec![match entry.nutrients.get(key) {
            Some(Some(amount)) => amount.to_string(),
            Some(None) => UNKNOWN.to_owned(),
            None => String::new(),
        }],
    }
}

/// Keeps a spreadsheet from taking a name for a formula: an apostrophe goes before the signs
/// that start one (and before an apostrophe, so that [`unguarded`] can take it away).
fn guarded(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@', '\'']) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}

fn unguarded(text: &str) -> String {
    text.strip_prefix('\'').unwrap_or(text).to_owned()
}

/// Bad cells that are named.
const MOST_NAMED: usize = 100;

/// Reads a table, an entry at a time, as long as `take` wants more; columns may stand in any
/// order, the three of a range side by side or not.
pub(super) fn read_each(
    from: impl Read,
    take: &mut dyn FnMut(Record) -> bool,
) -> Result<(), ReadError> {
    let broken = |error: csv::Error| ReadError::Table {
        detail: error.to_string(),
    };
    let mut reader = csv::Reader::from_reader(from);
    let headings = reader.headers().map_err(broken)?.clone();
    let layout = Columns::of(&headings)?;
    let mut bad = Vec::new();
    let mut row = StringRecord::new();
    while bad.len() < MOST_NAMED && reader.read_record(&mut row).map_err(broken)? {
        let mut cells = Cells {
            columns: &layout,
            line: row.position().map_or(0, csv::Position::line),
            row: &row,
            bad: &mut bad,
        };
        if let Some(record) = cells.record()
            && !take(record)
        {
            break;
        }
    }
    if bad.is_empty() {
        Ok(())
    } else {
        Err(ReadError::Cells(bad))
    }
}

/// Where each column stands.
struct Columns {
    at: BTreeMap<String, usize>,
    blocks: Vec<Block>,
}

impl Columns {
    fn of(headings: &StringRecord) -> Result<Self, ReadError> {
        let table = |detail: String| ReadError::Table { detail };
        let mut at = BTreeMap::new();
        for (place, heading) in headings.iter().enumerate() {
            if at.insert(heading.to_owned(), place).is_some() {
                return Err(table(format!("the column `{heading}` occurs twice")));
            }
        }
        let blocks: Vec<Block> = headings.iter().filter_map(Block::read).collect();
        let of_blocks: Vec<String> = blocks.iter().flat_map(Block::headings).collect();
        let needed = FIXED.iter().map(ToString::to_string).chain(of_blocks);
        let needed: BTreeSet<String> = needed.collect();
        if let Some(missing) = needed.iter().find(|heading| !at.contains_key(*heading)) {
            return Err(table(format!("the column `{missing}` is missing")));
        }
        let known =
            |heading: &&String| needed.contains(*heading) || SINCE_2.contains(&heading.as_str());
        if let Some(other) = at.keys().find(|heading| !known(heading)) {
            return Err(table(format!("the column `{other}` is not known here")));
        }
        Ok(Self { at, blocks })
    }
}

/// One line being read; what cannot be read is noted and the rest goes on, to find all.
struct Cells<'r> {
    columns: &'r Columns,
    row: &'r StringRecord,
    line: u64,
    bad: &'r mut Vec<BadCell>,
}

impl Cells<'_> {
    fn text(&self, column: &str) -> &str {
        let place = self.columns.at.get(column);
        place.and_then(|&place| self.row.get(place)).unwrap_or("")
    }

    fn note(&mut self, column: &str) {
        let text = self.text(column).chars().take(60).collect();
        self.bad.push(BadCell {
            line: self.line,
            column: column.to_owned(),
            text,
        });
    }

    fn parsed<T: FromStr>(&mut self, column: &str) -> Option<T> {
        let value = self.text(column).parse().ok();
        if value.is_none() {
            self.note(column);
        }
        value
    }

    /// What tables of layout 1 say nothing of.
    fn since_2<T: FromStr + Default>(&mut self, column: &str) -> Option<T> {
        if self.columns.at.contains_key(column) {
            self.parsed(column)
        } else {
            Some(T::default())
        }
    }

    fn json<T: serde::de::DeserializeOwned>(&mut self, column: &str) -> Option<T> {
        let value = serde_json::from_str(self.text(column)).ok();
        if value.is_none() {
            self.note(column);
        }
        value
    }

    fn range(&mut self, stem: impl Display) -> Option<Range> {
        let ends = ENDS.map(|end| self.parsed(&format!("{stem} {end}")));
        let [Some(low), Some(likely), Some(high)] = ends else {
            return None;
        };
        Some(Range::new(low, likely, high))
    }

    fn record(&mut self) -> Option<Record> {
        if !LAYOUTS.contains(&self.text("layout")) {
            self.note("layout");
            return None;
        }
        let (date, time) = (self.parsed("date"), self.parsed("time"));
        let offset = self.parsed("utc_offset_seconds");
        let (share, grams) = (self.parsed("share"), self.range("grams"));
        let (fluid, undone) = (self.parsed("fluid_ml"), self.parsed("undone"));
        let (number, planned) = (self.since_2("number"), self.since_2("planned"));
        let (uncounted, components) = (self.json("uncounted"), self.json("components"));
        let meal = Some(self.text("meal")).filter(|meal| !meal.is_empty());
        let mut entry = Entry {
            meal: meal.map(unguarded),
            dish: unguarded(self.text("dish")),
            catalogue: unguarded(self.text("catalogue")),
            standard: unguarded(self.text("standard")),
            at: Moment {
                date: date?,
                time: time?,
                utc_offset_seconds: offset?,
                zone: unguarded(self.text("zone")),
            },
            share: share?,
            grams: grams?,
            fluid_ml: fluid?,
            components: components?,
            uncounted: uncounted?,
            groups: BTreeMap::new(),
            limits: BTreeMap::new(),
            nutrients: BTreeMap::new(),
            energy_nutrients: BTreeMap::new(),
        };
        for block in &self.columns.blocks {
            self.block(block, &mut entry);
        }
        Some(Record {
            uid: self.text("uid").to_owned(),
            diner: unguarded(self.text("diner")),
            number: number?,
            planned: planned?,
            undone: undone?,
            entry,
        })
    }

    fn block(&mut self, block: &Block, entry: &mut Entry) {
        let headings = block.headings();
        if headings.iter().all(|heading| self.text(heading).is_empty()) {
            return;
        }
        let unknown = headings.iter().all(|heading| self.text(heading) == UNKNOWN);
        match block {
            Block::Group { key, unit } => {
                let amount = self.range(format!("group {key} ({unit})"));
                let portions = self.range(format!("portions {key}"));
                if let (Some(amount), Some(portions)) = (amount, portions) {
                    let unit = unit.clone();
                    let group = GroupAmount {
                        unit,
                        amount,
                        portions,
                    };
                    entry.groups.insert(key.clone(), group);
                }
            }
            Block::Portions { .. } => {} // read with its group
            Block::Limit { key, unit } | Block::Energy { key, unit } => {
                let (kind, all) = match block {
                    Block::Limit { .. } => ("limit", &mut entry.limits),
                    _ => ("range", &mut entry.energy_nutrients),
                };
                let amount = if unknown {
                    None
                } else {
                    self.range(format!("{kind} {key} ({unit})"))
                };
                let unit = unit.clone();
                all.insert(key.clone(), LimitAmount { unit, amount });
            }
            Block::Nutrient { key } => {
                let amount = if unknown {
                    None
                } else {
                    self.parsed(&headings[0])
                };
                entry.nutrients.insert(key.clone(), amount);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    fn read(text: &str) -> Result<Vec<Record>, ReadError> {
        let mut records = Vec::new();
        read_each(text.as_bytes(), &mut |record| {
            records.push(record);
            true
        })?;
        Ok(records)
    }

    use super::super::entry::tests::sample;
    use super::*;

    fn record() -> Record {
        Record {
            uid: "a1".to_owned(),
            diner: "-Ana".to_owned(),
            number: 7,
            planned: true,
            undone: false,
            entry: sample(date(2026, 3, 1), "@rice", 300.25),
        }
    }

    #[test]
    fn a_spreadsheet_sees_no_formula_and_a_reader_no_difference() {
        let text = write(&[record()]);
        assert!(
            text.contains("'-Ana,") && text.contains(",'@rice,"),
            "{text}"
        );
        assert_eq!(read(&text), Ok(vec![record()]));
        // As some spreadsheets save it.
        let saved = format!("\u{feff}{}", text.replace('\n', "\r\n"));
        // A line end inside a cell is part of the text, so it is left out of this comparison.
        let dishes: Vec<String> = read(&saved)
            .unwrap()
            .into_iter()
            .map(|r| r.entry.dish)
            .collect();
        assert_eq!(dishes, ["@rice"]);
    }

    #[test]
    fn a_table_of_layout_1_is_read() {
        let text = write(&[record()]);
        let old = text.replacen(",number,planned", "", 1);
        let old = old.replacen(",2,7,true", ",1", 1);
        assert_ne!(old, text);
        let expected = Record {
            number: 0,
            planned: false,
            ..record()
        };
        assert_eq!(read(&old), Ok(vec![expected]));
    }

    #[test]
    fn units_that_changed_between_entries_keep_apart() {
        let mut other = record();
        other.uid = "a2".to_owned();
        other.entry.groups.get_mut("grains").unwrap().unit = "g".to_owned();
        other.entry.limits.remove("sodium");
        other.entry.nutrients.remove("alcohol_g");
        let records = vec![record(), other];
        assert_eq!(read(&write(&records)), Ok(records));
    }

    #[test]
    fn every_bad_cell_is_named() {
        let text = write(&[record()])
            .replace("2026-03-01", "soon")
            .replacen(",false,", ",maybe,", 1);
        let Err(ReadError::Cells(bad)) = read(&text) else {
            panic!("read")
        };
        let columns: Vec<&str> = bad.iter().map(|cell| cell.column.as_str()).collect();
        assert_eq!(columns, ["date", "undone"]);
        assert_eq!(bad[0].to_string(), "line 2, column `date`: `soon`");
    }

    #[test]
    fn other_tables_are_refused_by_the_column() {
        let detail = |text: &str| read(text).unwrap_err().to_string();
        assert!(detail("a,b\n1,2\n").contains("column `catalogue` is missing"));
        let text = write(&[record()]);
        let more = text.replacen("diner,", "dinner,", 1);
        assert!(
            detail(&more).contains("column `diner` is missing"),
            "{}",
            detail(&more)
        );
        let short = format!("{text}x,y\n");
        assert!(detail(&short).contains("fields"), "{}", detail(&short));
        let gone = text.replacen("portions grains likely", "portions grains lately", 1);
        assert!(detail(&gone).contains("`portions grains likely` is missing"));
    }
}
