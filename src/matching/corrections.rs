//! What a person has said that words mean: looked up before any matching.
//!
//! Kept as CSV with the columns `words,code,food,date`, so that it can be read and mended by
//! hand. The code decides; the food's name stands there for the reader.

use crate::reading::is_formula;
use crate::words::{line_of, words};
use jiff::civil::Date;
use std::collections::HashMap;

/// The columns, in order.
const COLUMNS: [&str; 4] = ["words", "code", "food", "date"];
/// Stands for the food where no food of the catalogue is meant.
const NO_FOOD: &str = "none";

/// Words and the food they mean.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Correction {
    /// The words as first written.
    pub words: String,
    /// USDA code of the food; `None` when the words mean no food of the catalogue.
    pub code: Option<String>,
    /// The food's name when the correction was made; `none` without a food.
    pub food: String,
    /// The day it was made.
    pub date: Date,
}

impl Correction {
    /// Words that mean no food of the catalogue.
    #[must_use]
    pub(crate) fn to_no_food(words: &str, date: Date) -> Self {
        Self {
            words: words.to_owned(),
            code: None,
            food: NO_FOOD.to_owned(),
            date,
        }
    }

    /// One line on why the food is taken.
    #[must_use]
    pub(crate) fn why(&self) -> String {
        let none = if self.code.is_none() {
            ": no food of the catalogue"
        } else {
            ""
        };
        format!("corrected by you on {}{none}", self.date)
    }
}

/// What is wrong with a row of the file.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum RowFault {
    /// The row breaks off or has fields too many.
    #[error("does not have the 4 fields `words,code,food,date` but {found}")]
    Fields {
        /// How many there are.
        found: usize,
    },
    /// No words to correct.
    #[error("says no words")]
    NoWords,
    /// Neither a code nor `none`.
    #[error("says no food code; `none` as the food and no code mean that no food fits")]
    NoCode,
    /// The date is none.
    #[error("`{given}` is no date; write it like 2026-11-25")]
    Date {
        /// As written.
        given: String,
    },
    /// Another row speaks of the same words.
    #[error("speaks of the same words as line {first}; keep one of them")]
    Twice {
        /// Line of the other row.
        first: u64,
    },
    /// No CSV at all.
    #[error("is no CSV text: {detail}")]
    Csv {
        /// What the reader says.
        detail: String,
    },
}

/// Why a text holds no corrections that can be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CorrectionsError {
    /// The first line is not the header.
    #[error("line 1 is `{found}` where the header `words,code,food,date` belongs")]
    Header {
        /// As written.
        found: String,
    },
    /// A row cannot be used.
    #[error("line {line} {fault}")]
    Row {
        /// Its line, from 1.
        line: u64,
        /// What is wrong with it.
        fault: RowFault,
    },
}

/// A person's corrections, in the order they were made; one for the same words.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Corrections {
    list: Vec<Correction>,
    /// Words in base form to the place in the list.
    places: HashMap<String, usize>,
}

/// The words in base form: letter case, accents, plural and spelling do not matter.
fn key(text: &str) -> String {
    words(text).join(" ")
}

impl Corrections {
    /// Reads the text of a corrections file; an empty one holds none.
    ///
    /// Fails on the first line that cannot be used, so that nothing is passed over unsaid.
    pub fn parse(text: &str) -> Result<Self, CorrectionsError> {
        let mut corrections = Self::default();
        let text = text.trim_start_matches('\u{feff}');
        if text.trim().is_empty() {
            return Ok(corrections);
        }
        let mut lines: HashMap<String, u64> = HashMap::new();
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .flexible(true)
            .trim(csv::Trim::All)
            .from_reader(text.as_bytes());
        for (number, record) in reader.records().enumerate() {
            let record = record.map_err(|e| csv_fault(text, &e))?;
            if number == 0 {
                header(&record)?;
                continue;
            }
            let line = line_of(text, record.position());
            let at = |fault| CorrectionsError::Row { line, fault };
            let correction = row(&record).map_err(at)?;
            if let Some(first) = lines.insert(key(&correction.words), line) {
                return Err(at(RowFault::Twice { first }));
            }
            corrections.add(correction);
        }
        Ok(corrections)
    }

    /// The text of a corrections file.
    #[must_use]
    pub fn to_text(&self) -> String {
        let mut text = COLUMNS.join(",") + "\n";
        for c in &self.list {
            let code = c.code.as_deref().unwrap_or_default();
            let date = c.date.to_string();
            let fields = [c.words.as_str(), code, &c.food, &date];
            text.push_str(&fields.map(field).join(","));
            text.push('\n');
        }
        text
    }

    /// The correction for some words.
    #[must_use]
    pub(crate) fn get(&self, words: &str) -> Option<&Correction> {
        if self.list.is_empty() {
            return None;
        }
        Some(&self.list[*self.places.get(&key(words))?])
    }

    /// Adds a correction, in place of an older one for the same words.
    pub(crate) fn add(&mut self, correction: Correction) {
        let key = key(&correction.words);
        if let Some(at) = self.places.get(&key) {
            self.list[*at] = correction;
        } else {
            self.places.insert(key, self.list.len());
            self.list.push(correction);
        }
    }

    /// Takes the correction for some words away.
    pub(crate) fn remove(&mut self, words: &str) -> Option<Correction> {
        let at = self.places.remove(&key(words))?;
        for place in self.places.values_mut().filter(|place| **place > at) {
            *place -= 1;
        }
        Some(self.list.remove(at))
    }

    /// All of them, oldest first.
    #[must_use]
    pub(crate) fn list(&self) -> &[Correction] {
        &self.list
    }
}

fn header(record: &csv::StringRecord) -> Result<(), CorrectionsError> {
    if record.iter().eq(COLUMNS) {
        return Ok(());
    }
    Err(CorrectionsError::Header {
        found: record.iter().collect::<Vec<_>>().join(","),
    })
}

fn row(record: &csv::StringRecord) -> Result<Correction, RowFault> {
    let [words, code, food, date] = [0, 1, 2, 3].map(|at| record.get(at).unwrap_or_default());
    let [words, code, food] = [words, code, food].map(unguarded);
    if record.len() != COLUMNS.len() {
        return Err(RowFault::Fields {
            found: record.len(),
        });
    }
    if key(words).is_empty() {
        return Err(RowFault::NoWords);
    }
    if code.is_empty() && food != NO_FOOD {
        return Err(RowFault::NoCode);
    }
    let date = date.parse().map_err(|_| RowFault::Date {
        given: date.to_owned(),
    })?;
    Ok(Correction {
        words: words.to_owned(),
        code: (!code.is_empty()).then(|| code.to_owned()),
        food: food.to_owned(),
        date,
    })
}

fn csv_fault(text: &str, error: &csv::Error) -> CorrectionsError {
    CorrectionsError::Row {
        line: line_of(text, error.position()),
        fault: RowFault::Csv {
            detail: error.to_string(),
        },
    }
}

/// Keeps a spreadsheet from taking words for a formula: an apostrophe goes before them (one
/// more where they begin with apostrophes and such a sign), which [`unguarded`] takes away.
fn guarded(text: &str) -> String {
    if is_formula(text.trim_start_matches('\'')) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}

fn unguarded(text: &str) -> &str {
    match text.strip_prefix('\'') {
        Some(rest) if is_formula(rest.trim_start_matches('\'')) => rest,
        _ => text,
    }
}

/// A field of CSV, quoted where it must be; a line break would split the row for whoever
/// reads it by lines.
fn field(text: &str) -> String {
    let text = guarded(&text.replace(['\r', '\n'], " "));
    if text.contains([',', '"']) || text.starts_with([' ', '#']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;
    use proptest::prelude::*;

    fn correction(words: &str, code: &str) -> Correction {
        Correction {
            words: words.to_owned(),
            code: Some(code.to_owned()),
            food: format!("food, \"{code}\""),
            date: date(2026, 11, 25),
        }
    }

    #[test]
    fn words_meet_whatever_their_case_number_and_spelling() {
        let mut corrections = Corrections::default();
        assert_eq!(corrections.get("chips"), None);
        corrections.add(correction("Crispy  Shallots", "1"));
        for same in ["crispy shallot", "CRISPY SHALLOTS", "crispy, shallots"] {
            assert!(corrections.get(same).is_some(), "{same}");
        }
        assert!(corrections.get("shallots").is_none());
        assert!(corrections.get("shallots crispy").is_none());
    }

    #[test]
    fn a_later_one_replaces_and_removal_keeps_the_others() {
        let mut corrections = Corrections::default();
        for (words, code) in [("a", "1"), ("b", "2"), ("c", "3"), ("B", "4")] {
            corrections.add(correction(words, code));
        }
        let code = |c: &Corrections, words: &str| c.get(words).and_then(|c| c.code.clone());
        assert_eq!(corrections.list().len(), 3);
        assert_eq!(code(&corrections, "b").as_deref(), Some("4"));
        assert_eq!(corrections.remove("a").map(|c| c.words), Some("a".into()));
        assert_eq!(corrections.remove("a"), None);
        assert_eq!(code(&corrections, "b").as_deref(), Some("4"));
        assert_eq!(code(&corrections, "c").as_deref(), Some("3"));
    }

    #[test]
    fn damage_is_told_by_line() {
        let head = "words,code,food,date\n";
        let good = "chips,71201015,potato chips,2026-11-25\n";
        for (text, line, part) in [
            ("chips,71201015\n".to_owned(), 1, "header"),
            (format!("{head}{good}fries,7140"), 3, "but 2"),
            (format!("{head}{good},1,x,2026-11-25"), 3, "no words"),
            (format!("{head}{good}\nx,,y,2026-11-25"), 4, "no food code"),
            (format!("{head}x,1,y,2026-13-01"), 2, "2026-13-01"),
            (format!("{head}{good}Chip,1,y,2026-11-25"), 3, "line 2"),
        ] {
            let error = Corrections::parse(&text).unwrap_err().to_string();
            assert!(error.starts_with(&format!("line {line} ")), "{error}");
            assert!(error.contains(part), "{error}");
        }
    }

    #[test]
    fn no_food_is_kept_as_such() {
        let mut corrections = Corrections::default();
        corrections.add(Correction::to_no_food("table flowers", date(2026, 1, 2)));
        let text = corrections.to_text();
        assert_eq!(
            text,
            "words,code,food,date\ntable flowers,,none,2026-01-02\n"
        );
        let read = Corrections::parse(&text).unwrap();
        assert_eq!(read, corrections);
        let why = read.get("table flower").unwrap().why();
        assert_eq!(
            why,
            "corrected by you on 2026-01-02: no food of the catalogue"
        );
    }

    proptest! {
        #[test]
        fn what_is_written_is_read_again(list in prop::collection::vec(("\\PC{1,20}", "[0-9]{5,8}"), 0..8)) {
            let mut corrections = Corrections::default();
            for (words, code) in &list {
                let words = words.trim();
                if !key(words).is_empty() {
                    corrections.add(correction(words, code));
                }
            }
            let read = Corrections::parse(&corrections.to_text());
            prop_assert_eq!(read, Ok(corrections));
        }

        #[test]
        fn any_text_is_answered(text in "\\PC{0,80}") {
            let _ = Corrections::parse(&format!("words,code,food,date\n{text}"));
        }
    }
}
