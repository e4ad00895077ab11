//! A person's own foods, from a table of theirs: beside the catalogue's, and in the place of
//! those with the same name.

use super::columns::{Equivalent, Nutrient};
use super::rows::{FoodRow, MeasureRow};
use crate::words::{line_of, words};
use std::collections::{HashMap, HashSet};

/// Columns beside those of nutrients and food-group equivalents.
const WORDS: [&str; 6] = ["name", "aliases", "like", "family", "measures", "source"];
/// Most energy of 100 g, kcal: pure fat has 902 (USDA SR).
const MOST_KCAL: f32 = 902.0;
/// Most of 100 g that parts of it may weigh, for figures that were rounded, g.
const MOST_GRAMS: f32 = 101.0;
/// Most of a mineral or vitamin in 100 g, in its unit; salt holds 38,758 mg of sodium.
const MOST_MILLIGRAMS: f32 = 100_000.0;
/// Most food-group equivalents of 100 g, in any unit.
const MOST_EQUIVALENTS: f32 = 100.0;
/// Heaviest household measure, g.
const HEAVIEST_G: f32 = 10_000.0;
/// Longest name, signs.
const LONGEST_NAME: usize = 120;
/// Most foods of one table.
const MOST_FOODS: usize = 20_000;

/// What is wrong with a cell, a row or the header.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum OwnFault {
    /// No text at all, or a header without rows.
    #[error("there is no food: write a header such as `name,like,energy_kcal` and a line a food")]
    Empty,
    /// No CSV.
    #[error("is no CSV text: {0}")]
    Csv(String),
    /// More cells than columns.
    #[error("{found} cells for {columns} columns; put quotes around a cell with a comma in it")]
    Cells {
        /// Cells of the row.
        found: usize,
        /// Columns of the header.
        columns: usize,
    },
    /// More foods than a person's own table has.
    #[error("more than {MOST_FOODS} foods; take out those that are not needed")]
    TooMany,
    /// A column that means nothing here.
    #[error(
        "there is no column `{0}`; known are name, aliases, like, family, measures, source and \
         the figures of 100 g, such as energy_kcal, sodium_mg, vegetables_cup, grains_oz"
    )]
    UnknownColumn(String),
    /// The same column twice.
    #[error("the column `{0}` stands there twice")]
    ColumnTwice(String),
    /// A column that must be there.
    #[error("the column `{0}` is missing")]
    MissingColumn(&'static str),
    /// A cell that must be filled.
    #[error("says nothing; a food needs it")]
    Blank,
    /// No name that can be looked up, or a very long one.
    #[error("`{0}` is no name: words of up to 120 signs are wanted")]
    Name(String),
    /// The name of an earlier row.
    #[error("`{name}` stands in line {first} already")]
    Twice {
        /// As written.
        name: String,
        /// Line of the first.
        first: u64,
    },
    /// No number, or one that 100 g of a food cannot have.
    #[error("`{given}` cannot be; for 100 g a number from 0 to {most} is wanted")]
    Figure {
        /// As written.
        given: String,
        /// The most there can be.
        most: f32,
    },
    /// The parts of 100 g weigh more.
    #[error("protein, fat, carbohydrate, alcohol and water come to {0:.0} g of 100 g")]
    TooMuch(f32),
    /// A measure that is none.
    #[error("`{0}` is no measure; write words and grams such as `1 cup = 244; 1 slice = 30`")]
    Measure(String),
    /// A family that no food of the catalogue has.
    #[error("no food of the catalogue is of the family `{0}`; known are: {1}")]
    Family(String, String),
    /// A like food that the catalogue does not have.
    #[error("no food of the catalogue is surely `{given}`; nearest is `{nearest}`")]
    Like {
        /// As written.
        given: String,
        /// What comes nearest.
        nearest: String,
    },
    /// Nothing is said of its food groups.
    #[error("no food group is given: name a food it is like, or give its family and a group")]
    NoGroups,
}

/// Why a table of foods cannot be used: the first fault in it.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("line {line}{}: {fault}", .column.as_ref().map_or_else(String::new, |(at, name)| format!(", column {at} (`{name}`)")))]
pub struct OwnFoodsError {
    /// The line, from 1.
    pub line: u64,
    /// The column, from 1, and its name; `None` where the row as a whole is at fault.
    pub column: Option<(usize, String)>,
    /// What is wrong.
    pub fault: OwnFault,
}

/// A food as its row gives it, before what it is like is looked up.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct OwnFood {
    /// Name and figures; `NaN` where nothing is given.
    pub row: FoodRow,
    /// The food whose groups, family and measures hold where none are given.
    pub like: String,
    /// Its line.
    pub line: u64,
}

/// Foods of a person's own table.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct OwnFoods {
    pub(crate) list: Vec<OwnFood>,
    header: Vec<String>,
}

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Column {
    Word(&'static str),
    Nutrient(usize, f32),
    Equivalent(usize),
}

fn column(name: &str) -> Option<Column> {
    let most = |n: &Nutrient| match n {
        Nutrient::EnergyKcal => MOST_KCAL,
        _ if n.column().ends_with("_g") => 100.0,
        _ => MOST_MILLIGRAMS,
    };
    let word = WORDS.iter().find(|w| **w == name).map(|w| Column::Word(w));
    let nutrient = || {
        let at = Nutrient::ALL.iter().position(|n| n.column() == name)?;
        Some(Column::Nutrient(at, most(&Nutrient::ALL[at])))
    };
    let equivalent = || {
        let at = Equivalent::ALL.iter().position(|e| e.column() == name)?;
        Some(Column::Equivalent(at))
    };
    word.or_else(nutrient).or_else(equivalent)
}

impl OwnFoods {
    /// Reads a CSV table with a header; a food a row, figures of 100 g. Columns in any order:
    /// `name` and `energy_kcal` must be there, `aliases`, `like`, `family`, `measures`,
    /// `source` and every other figure of the catalogue may. What is left blank is unknown,
    /// not 0.
    ///
    /// Fails on the first cell that cannot be used, with its line and column.
    pub fn parse(text: &str) -> Result<Self, OwnFoodsError> {
        let text = text.trim_start_matches('\u{feff}');
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .flexible(true)
            .trim(csv::Trim::All)
            .from_reader(text.as_bytes());
        let mut own = Self::default();
        let mut columns = Vec::new();
        let mut seen = HashMap::new();
        for record in reader.records() {
            let record = record.map_err(|e| OwnFoodsError {
                line: line_of(text, e.position()),
                column: None,
                fault: OwnFault::Csv(e.to_string()),
            })?;
            let line = line_of(text, record.position());
            if own.header.is_empty() {
                own.header = record.iter().map(str::to_lowercase).collect();
                columns = header(&own.header, line)?;
                continue;
            }
            let cells = Cells {
                line,
                columns: &columns,
                header: &own.header,
                record: &record,
            };
            let food = cells.food()?;
            if own.list.len() == MOST_FOODS {
                return Err(cells.whole(OwnFault::TooMany));
            }
            cells.only_once(&food, &mut seen)?;
            own.list.push(food);
        }
        if own.list.is_empty() {
            return Err(OwnFoodsError {
                line: 1,
                column: None,
                fault: OwnFault::Empty,
            });
        }
        Ok(own)
    }

    /// How many foods.
    #[must_use]
    pub(crate) fn len(&self) -> usize {
        self.list.len()
    }

    /// Whether there are none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// A fault of a food's cell.
    pub(crate) fn fault(&self, food: &OwnFood, column: &str, fault: OwnFault) -> OwnFoodsError {
        let at = self.header.iter().position(|name| name == column);
        OwnFoodsError {
            line: food.line,
            column: at.map(|at| (at + 1, column.to_owned())),
            fault,
        }
    }

    /// Names and other names in base form.
    pub(crate) fn keys(&self) -> HashSet<String> {
        self.list.iter().flat_map(|food| keys(&food.row)).collect()
    }
}

/// A name in base form.
pub(crate) fn key(name: &str) -> String {
    words(name).join(" ")
}

fn keys(row: &FoodRow) -> impl Iterator<Item = String> {
    std::iter::once(&row.name)
        .chain(&row.aliases)
        .map(|name| key(name))
}

fn header(names: &[String], line: u64) -> Result<Vec<Column>, OwnFoodsError> {
    let fail = |at: Option<usize>, fault| OwnFoodsError {
        line,
        column: at.map(|at| (at + 1, names[at].clone())),
        fault,
    };
    let mut columns: Vec<Column> = Vec::new();
    for (at, name) in names.iter().enumerate() {
        let found =
            column(name).ok_or_else(|| fail(Some(at), OwnFault::UnknownColumn(name.clone())))?;
        if columns.contains(&found) {
            return Err(fail(Some(at), OwnFault::ColumnTwice(name.clone())));
        }
        columns.push(found);
    }
    for needed in ["name", "energy_kcal"] {
        if !names.iter().any(|name| name == needed) {
            return Err(fail(None, OwnFault::MissingColumn(needed)));
        }
    }
    Ok(columns)
}

/// One row.
struct Cells<'r> {
    line: u64,
    columns: &'r [Column],
    header: &'r [String],
    record: &'r csv::StringRecord,
}

impl Cells<'_> {
    fn fail(&self, at: usize, fault: OwnFault) -> OwnFoodsError {
        let name = self.header.get(at).cloned().unwrap_or_default();
        OwnFoodsError {
            line: self.line,
            column: Some((at + 1, name)),
            fault,
        }
    }

    /// A fault of the row as a whole.
    fn whole(&self, fault: OwnFault) -> OwnFoodsError {
        OwnFoodsError {
            line: self.line,
            column: None,
            fault,
        }
    }

    fn place(&self, name: &str) -> Option<usize> {
        self.header.iter().position(|own| own == name)
    }

    fn word(&self, name: &str) -> &str {
        let at = self.place(name);
        at.and_then(|at| self.record.get(at)).unwrap_or_default()
    }

    fn food(&self) -> Result<OwnFood, OwnFoodsError> {
        if self.record.len() > self.columns.len() {
            return Err(self.whole(OwnFault::Cells {
                found: self.record.len(),
                columns: self.columns.len(),
            }));
        }
        let name = self.name()?;
        let mut row = FoodRow {
            code: format!("own:{}", key(&name).replace(' ', "-")),
            name,
            aliases: list(self.word("aliases")),
            family: self.word("family").to_lowercase(),
            source: self.word("source").to_owned(),
            basis: "yours".to_owned(),
            refuse_pct: f32::NAN,
            nutrients: vec![f32::NAN; Nutrient::ALL.len()],
            equivalents: vec![f32::NAN; Equivalent::ALL.len()],
            measures: self.measures()?,
        };
        if row.source.is_empty() {
            row.source = format!("your table, line {}", self.line);
        }
        for (at, column) in self.columns.iter().enumerate() {
            let text = self.record.get(at).unwrap_or_default();
            match column {
                Column::Nutrient(which, most) => {
                    row.nutrients[*which] = self.figure(at, text, *most)?;
                }
                Column::Equivalent(which) => {
                    row.equivalents[*which] = self.figure(at, text, MOST_EQUIVALENTS)?;
                }
                Column::Word(_) => {}
            }
        }
        let energy = self.place("energy_kcal").unwrap_or_default();
        if row.nutrients[Nutrient::EnergyKcal as usize].is_nan() {
            return Err(self.fail(energy, OwnFault::Blank));
        }
        self.weighs_no_more(&row)?;
        let like = self.word("like").to_owned();
        let groups = row.equivalents.iter().any(|e| !e.is_nan());
        if like.is_empty() && (row.family.is_empty() || !groups) {
            return Err(self.whole(OwnFault::NoGroups));
        }
        let line = self.line;
        Ok(OwnFood { row, like, line })
    }

    fn name(&self) -> Result<String, OwnFoodsError> {
        let at = self.place("name").unwrap_or_default();
        let name = self.word("name");
        if name.is_empty() {
            return Err(self.fail(at, OwnFault::Blank));
        }
        let usable = |name: &str| {
            !key(name).is_empty()
                && name.chars().count() <= LONGEST_NAME
                && !name.contains(char::is_control)
        };
        let all = std::iter::once((at, name.to_owned()));
        let others = self.place("aliases").into_iter();
        let others =
            others.flat_map(|at| list(self.word("aliases")).into_iter().map(move |a| (at, a)));
        for (at, name) in all.chain(others) {
            if !usable(&name) {
                return Err(self.fail(at, OwnFault::Name(name)));
            }
        }
        Ok(name.to_owned())
    }

    fn figure(&self, at: usize, text: &str, most: f32) -> Result<f32, OwnFoodsError> {
        if text.is_empty() {
            return Ok(f32::NAN);
        }
        match text.parse::<f32>() {
            Ok(value) if (0.0..=most).contains(&value) => Ok(value),
            _ => {
                let given = text.to_owned();
                Err(self.fail(at, OwnFault::Figure { given, most }))
            }
        }
    }

    fn weighs_no_more(&self, row: &FoodRow) -> Result<(), OwnFoodsError> {
        let parts = [
            Nutrient::ProteinG,
            Nutrient::FatG,
            Nutrient::CarbohydrateG,
            Nutrient::AlcoholG,
            Nutrient::WaterG,
        ];
        let given = parts.iter().map(|n| row.nutrients[*n as usize]);
        let sum: f32 = given.filter(|g| !g.is_nan()).sum();
        if sum <= MOST_GRAMS {
            return Ok(());
        }
        Err(self.whole(OwnFault::TooMuch(sum)))
    }

    fn measures(&self) -> Result<Vec<MeasureRow>, OwnFoodsError> {
        let at = self.place("measures").unwrap_or_default();
        let one = |text: String| {
            let read = text.rsplit_once('=').and_then(|(words, grams)| {
                let grams = grams.trim().trim_end_matches('g').trim_end();
                let grams = grams.parse::<f32>().ok()?;
                let words = words.trim().to_owned();
                let usable = !words.is_empty() && grams > 0.0 && grams <= HEAVIEST_G;
                usable.then_some(MeasureRow { text: words, grams })
            });
            read.ok_or_else(|| self.fail(at, OwnFault::Measure(text)))
        };
        list(self.word("measures")).into_iter().map(one).collect()
    }

    /// Fails when a name of the food stands in an earlier row.
    fn only_once(
        &self,
        food: &OwnFood,
        seen: &mut HashMap<String, u64>,
    ) -> Result<(), OwnFoodsError> {
        let names = std::iter::once(("name", &food.row.name));
        let aliases = food.row.aliases.iter().map(|alias| ("aliases", alias));
        for (column, name) in names.chain(aliases) {
            match seen.insert(key(name), self.line) {
                Some(first) if first != self.line => {
                    let at = self.place(column).unwrap_or_default();
                    let name = name.clone();
                    return Err(self.fail(at, OwnFault::Twice { name, first }));
                }
                _ => {}
            }
        }
        Ok(())
    }
}

/// Pieces parted by semicolons.
fn list(text: &str) -> Vec<String> {
    let pieces = text.split(';').map(str::trim).filter(|p| !p.is_empty());
    pieces.map(str::to_owned).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const HEAD: &str = "name,energy_kcal,like,aliases,measures,protein_g,fat_g\n";

    fn fault(text: &str) -> String {
        OwnFoods::parse(text).unwrap_err().to_string()
    }

    #[test]
    fn blank_is_unknown_and_order_is_free() {
        let text = "Energy_kcal, name ,grains_oz,family\n262,house loaf,3.5,Bread\n";
        let own = OwnFoods::parse(text).unwrap();
        let row = &own.list[0].row;
        assert_eq!(
            (row.name.as_str(), row.family.as_str()),
            ("house loaf", "bread")
        );
        assert_eq!(row.code, "own:house-loaf");
        assert_eq!(row.nutrients[Nutrient::EnergyKcal as usize], 262.0);
        assert!(row.nutrients[Nutrient::SodiumMg as usize].is_nan());
        assert_eq!(row.equivalents[Equivalent::Grains as usize], 3.5);
    }

    #[test]
    fn every_fault_says_where() {
        let good = "loaf,262,bread,our loaf,1 slice = 40,9,1\n";
        assert_eq!(
            OwnFoods::parse(&format!("{HEAD}{good}")).map(|o| o.len()),
            Ok(1)
        );
        for (row, place, part) in [
            (
                "x,abc,rice,,,,",
                "line 3, column 2 (`energy_kcal`)",
                "`abc`",
            ),
            ("x,-1,rice,,,,", "line 3, column 2", "0 to 902"),
            ("x,NaN,rice,,,,", "line 3, column 2", "NaN"),
            ("x,,rice,,,,", "line 3, column 2", "says nothing"),
            (",1,rice,,,,", "line 3, column 1 (`name`)", "says nothing"),
            ("!!,1,rice,,,,", "line 3, column 1", "is no name"),
            ("Loaf,1,rice,,,,", "line 3, column 1", "line 2 already"),
            (
                "y,1,rice,our loaves,,,",
                "line 3, column 4 (`aliases`)",
                "line 2 already",
            ),
            (
                "x,1,rice,,cup,,",
                "line 3, column 5 (`measures`)",
                "1 cup = 244",
            ),
            ("x,1,rice,,1 cup = 0,,", "line 3, column 5", "no measure"),
            ("x,1,rice,,,60,60", "line 3: ", "120 g of 100 g"),
            ("x,1,,,,,", "line 3: ", "no food group"),
            ("x,1,rice,,,,,,", "line 3: ", "9 cells for 7"),
            ("\n\nx,abc,rice,,,,", "line 5, column 2", "`abc`"),
        ] {
            let told = fault(&format!("{HEAD}{good}{row}"));
            assert!(
                told.starts_with(place) && told.contains(part),
                "{row}: {told}"
            );
        }
        for (text, part) in [
            ("", "there is no food"),
            (HEAD, "there is no food"),
            (
                "name,energy_kcal,colour\nx,1,2",
                "line 1, column 3 (`colour`)",
            ),
            ("name,name\nx,1", "twice"),
            ("name,like\nx,rice", "`energy_kcal` is missing"),
        ] {
            let told = fault(text);
            assert!(told.contains(part), "{told}");
        }
    }

    proptest! {
        #[test]
        fn any_text_is_answered(text in "\\PC{0,80}") {
            for text in [text.clone(), format!("{HEAD}{text}")] {
                match OwnFoods::parse(&text) {
                    Ok(own) => prop_assert!(!own.is_empty()),
                    Err(fault) => prop_assert!(fault.line >= 1),
                }
            }
        }
    }
}
