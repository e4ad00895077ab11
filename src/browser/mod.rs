//! What a page in a browser asks: JSON in, JSON out.
//!
//! [`Engine::answer`] is the one door. A page keeps what a person typed and what they logged;
//! the engine keeps nothing but foods and dishes, opens no file and reads no clock: the time,
//! the diner and what they logged come with each request. Figures are those of the commands:
//! `audit` in an answer is the object of `trencher audit --format json`.

mod dish;
mod drawn;
mod exchange;
mod find;
mod log;
mod person;
mod plate;
mod shared;
mod standing;
mod whose;

use crate::foods::{CATALOGUE_VERSION, CatalogueError};
use crate::matching::Catalogue;
use crate::store::{KnownDishes, Library};
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;

/// Longest request, bytes: a backup of some years of days.
const LONGEST_REQUEST: usize = 64 << 20;

/// Foods and dishes, ready to answer.
#[derive(Debug)]
pub struct Engine {
    catalogue: Catalogue,
    library: Library,
    dishes: KnownDishes,
}

/// What can be asked.
#[derive(Debug, Deserialize)]
#[serde(tag = "ask", rename_all = "snake_case")]
enum Ask {
    /// Names of dishes, and which catalogue this is.
    Start,
    /// Dishes of the library by some words of their names.
    Dishes(find::DishesAsk),
    /// Foods that words mean, best first.
    Foods(find::FoodsAsk),
    /// A plate: drawn, with its figures, right-sized where that is asked.
    Plate(Box<plate::PlateAsk>),
    /// Two plates side by side, at one scale.
    Compare(Box<plate::CompareAsk>),
    /// A plate as it goes into a link.
    Link(Box<plate::PlateAsk>),
    /// A person's day from a form, guarded as on the command line.
    Person(Box<person::PersonAsk>),
    /// How a day stands, and the days before it.
    Day(Box<log::DayAsk>),
    /// A plate as an entry of the day log.
    Eat(Box<log::EatAsk>),
    /// An entry with another part eaten, meal or time.
    Edit(Box<log::EditAsk>),
    /// The day log as text for `trencher day import`.
    Export(Box<exchange::ExportAsk>),
    /// Such a text, read and checked.
    Import(exchange::ImportAsk),
}

/// What went wrong, in words for whoever reads the page.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
struct Fault {
    error: String,
}

impl Fault {
    fn of(error: impl std::fmt::Display) -> Self {
        Self {
            error: error.to_string(),
        }
    }
}

/// JSON that is written already.
type Written = Box<RawValue>;

fn written(text: &str) -> Result<Written, Fault> {
    RawValue::from_string(text.trim().to_owned()).map_err(Fault::of)
}

#[derive(Debug, Serialize)]
struct Start<'e> {
    catalogue: &'e str,
    dishes: usize,
}

impl Engine {
    /// An engine with the foods and dishes that come with the program. Fails only where it was
    /// built from damaged tables.
    pub fn new() -> Result<Self, CatalogueError> {
        let library = Library::built_in();
        Ok(Self {
            catalogue: Catalogue::embedded()?,
            dishes: KnownDishes::of(&library),
            library,
        })
    }

    /// Answers one request, an object whose `ask` says what is wanted. The answer is always an
    /// object; where the request could not be met it holds `error`, a sentence for the person.
    ///
    /// ```
    /// let engine = trencher::browser::Engine::new()?;
    /// let answer = engine.answer(r#"{"ask": "plate", "text": "cobb salad",
    ///     "setting": {"units": "us", "now": "2026-03-29T12:30:00+02:00[Europe/Berlin]"}}"#);
    /// let answer: serde_json::Value = serde_json::from_str(&answer)?;
    /// assert!(answer["audit"]["served_grams"]["likely"].as_f64() > Some(200.0));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn answer(&self, request: &str) -> String {
        let answered = self.answered(request).and_then(|answer| {
            // Text of other people must show as letters wherever a page sets it.
            serde_json::to_string(&answer).map_err(Fault::of)
        });
        answered.unwrap_or_else(|fault| {
            serde_json::to_string(&fault).unwrap_or_else(|_| r#"{"error":"unknown"}"#.to_owned())
        })
    }

    fn answered(&self, request: &str) -> Result<Written, Fault> {
        if request.len() > LONGEST_REQUEST {
            return Err(Fault::of("this is more than the page can take at once"));
        }
        match serde_json::from_str(request).map_err(Fault::of)? {
            Ask::Start => as_json(&Start {
                catalogue: CATALOGUE_VERSION,
                dishes: self.library.entries().len(),
            }),
            Ask::Dishes(ask) => as_json(&self.dishes_named(&ask)),
            Ask::Foods(ask) => as_json(&self.foods(&ask)),
            Ask::Plate(ask) => as_json(&self.plate(&ask)?),
            Ask::Compare(ask) => as_json(&self.compare(&ask)?),
            Ask::Link(ask) => as_json(&self.link(&ask)?),
            Ask::Person(ask) => as_json(&person::person(&ask)?),
            Ask::Day(ask) => as_json(&log::day(&ask)?),
            Ask::Eat(ask) => as_json(&self.eat(&ask)?),
            Ask::Edit(ask) => as_json(&log::edit(&ask)?),
            Ask::Export(ask) => as_json(&exchange::export(&ask)),
            Ask::Import(ask) => as_json(&exchange::import(&ask)?),
        }
    }
}

/// Written as every page of ours is: whatever text holds that cannot be seen stands as its
/// code.
fn as_json(answer: &impl Serialize) -> Result<Written, Fault> {
    written(&crate::pages::escape::json(answer).map_err(Fault::of)?)
}

#[cfg(test)]
mod tests;
