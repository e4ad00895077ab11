//! `trencher food corrections ...`, and the catalogue with a person's corrections in it.

use super::arguments::{CorrectionsCommand, Format};
use super::rows::rows;
use super::{Failure, Outcome, note, print};
use crate::foods::{Food, OwnFoods};
use crate::matching::{Catalogue, Correction, WithOwnError};
use crate::store::place::PlaceError;
use crate::store::{CorrectionsFile, CorrectionsFileError, Holds, read_text_of};
use jiff::civil::Date;
use std::collections::HashSet;
use std::fmt::Write as _;
use std::path::PathBuf;
use std::sync::OnceLock;

impl From<CorrectionsFileError> for Failure {
    fn from(error: CorrectionsFileError) -> Self {
        match error {
            CorrectionsFileError::Place(error) => error.into(),
            error => Failure::File(error.to_string()),
        }
    }
}

/// The catalogue as this person means it: with their corrections, where there are any.
pub(super) fn catalogue() -> Result<Catalogue, Failure> {
    let catalogue = with_own_foods(Catalogue::embedded()?)?;
    let file = match CorrectionsFile::own() {
        Ok(file) => file,
        // Without a folder for them there are none.
        Err(PlaceError::NoFolder { .. }) => return Ok(catalogue),
        Err(error) => return Err(error.into()),
    };
    let catalogue = catalogue.corrected_by(file.load()?);
    for correction in unknown(&catalogue) {
        note(&format!(
            "your correction of `{}` is not used: the catalogue has no food {} (`{}`)",
            correction.words,
            correction.code.as_deref().unwrap_or_default(),
            correction.food
        ));
    }
    Ok(catalogue)
}

/// The table of the person's own foods, said once for the whole run.
static OWN_FOODS: OnceLock<PathBuf> = OnceLock::new();

/// Has every command use a person's own foods.
pub(super) fn use_own_foods(file: PathBuf) {
    // Said once, before any command runs.
    let _ = OWN_FOODS.set(file);
}

fn with_own_foods(catalogue: Catalogue) -> Result<Catalogue, Failure> {
    let Some(path) = OWN_FOODS.get() else {
        return Ok(catalogue);
    };
    let at = |e: &dyn std::fmt::Display| Failure::Request(format!("{}: {e}", path.display()));
    let own = OwnFoods::parse(&read_text_of(path, Holds::Foods)?).map_err(|e| at(&e))?;
    catalogue.with_own(&own).map_err(|error| match error {
        WithOwnError::Table(error) => at(&error),
        WithOwnError::Catalogue(error) => error.into(),
    })
}

/// Corrections to foods that the catalogue does not hold.
fn unknown(catalogue: &Catalogue) -> Vec<&Correction> {
    let list = catalogue.corrections().list();
    if list.is_empty() {
        return Vec::new();
    }
    let codes: HashSet<&str> = catalogue.foods().map(|food| food.code()).collect();
    let known = |c: &Correction| c.code.as_deref().is_none_or(|code| codes.contains(code));
    list.iter().filter(|c| !known(c)).collect()
}

/// Today, where the person sits.
pub(super) fn today() -> Result<Date, Failure> {
    Ok(super::log::now(None)?.date())
}

/// That `words` mean a food, or none at all.
pub(super) fn correction(words: &str, food: Option<Food<'_>>, date: Date) -> Correction {
    match food {
        None => Correction::to_no_food(words, date),
        Some(food) => Correction {
            words: words.to_owned(),
            code: Some(food.code().to_owned()),
            food: food.name().to_owned(),
            date,
        },
    }
}

/// Keeps corrections for next time.
pub(super) fn keep(corrections: &[Correction]) -> Result<(), Failure> {
    CorrectionsFile::own()?.change(|kept| {
        for correction in corrections {
            kept.add(correction.clone());
        }
    })?;
    Ok(())
}

pub(super) fn run(command: &CorrectionsCommand) -> Result<Outcome, Failure> {
    let file = CorrectionsFile::own()?;
    match command {
        CorrectionsCommand::List { format } => list(&file, *format),
        CorrectionsCommand::Remove { words } => remove(&file, &words.join(" ")),
    }
}

fn list(file: &CorrectionsFile, format: Format) -> Result<Outcome, Failure> {
    let corrections = file.load()?;
    let text = format == Format::Text;
    if text && corrections.list().is_empty() {
        return print("No corrections. Make one with `trencher food find WORDS --correct FOOD`.\n");
    }
    let table: Vec<Vec<String>> = corrections
        .list()
        .iter()
        .map(|c| {
            let code = c.code.clone().unwrap_or_default();
            vec![c.words.clone(), c.food.clone(), code, c.date.to_string()]
        })
        .collect();
    let header = ["words", "food", "code", "date"];
    let mut page = rows(&header, &table, &[28, 30, 9, 10], format)?;
    if text {
        let _ = write!(page, "\nKept in {}\n", file.path().display());
    }
    print(&page)
}

fn remove(file: &CorrectionsFile, words: &str) -> Result<Outcome, Failure> {
    // A file without these words is left as it is.
    if file.load()?.get(words).is_none() {
        return Err(Failure::Request(format!(
            "there is no correction of `{words}`\n  = list them with `trencher food corrections list`"
        )));
    }
    match file.change(|kept| kept.remove(words))? {
        Some(gone) => print(&format!("`{}` is matched again\n", gone.words)),
        None => print(&format!("`{words}` is matched again\n")),
    }
}
