//! From arguments to dishes, standards and days.

use super::arguments::{Pulses, Units};
use super::{Failure, note, warn};
use crate::ledger::{PulsesAs, Standard};
use crate::reading::{
    ComponentLine, Dish, Place, UnitSystem, parse_component, parse_dish_file, parse_text,
};
use crate::store::{Holds, KnownDishes, Meaning, read_text, read_text_of};
use std::io::Read;
use std::path::Path;

/// Most components of one plate, so that none takes long to weigh.
const MOST_COMPONENTS: usize = 500;
/// Longest words for one dish, bytes.
const LONGEST_WORDS: usize = 4_000;
/// Largest text taken from standard input, bytes.
const LARGEST_INPUT: u64 = 8 << 20;

impl From<Units> for UnitSystem {
    fn from(units: Units) -> Self {
        match units {
            Units::Us => UnitSystem::Us,
            Units::Metric => UnitSystem::Metric,
        }
    }
}

/// A dish as read, and whether everything in it could be read.
#[derive(Clone)]
pub(super) struct Read_ {
    pub meaning: Meaning,
    pub complete: bool,
}

/// Components given one by one with `--item`.
pub(super) fn items(items: &[String], units: UnitSystem) -> Result<Read_, Failure> {
    let mut components = Vec::new();
    let mut complete = true;
    for (at, item) in items.iter().enumerate() {
        let place = Place::new(format!("--item {}", at + 1), 1, 1);
        match parse_component(item, place, units) {
            Ok(line) => components.push(line),
            Err(error) => {
                warn(&error.to_string());
                complete = false;
            }
        }
    }
    finish(
        Dish {
            components,
            ..Dish::default()
        },
        complete,
    )
}

/// A dish from one argument: `-`, a file, a library name, a line of a menu.
pub(super) fn dish(
    argument: &str,
    known: &KnownDishes,
    units: UnitSystem,
) -> Result<Read_, Failure> {
    if argument == "-" {
        return lines("standard input", &standard_input()?, units);
    }
    let path = Path::new(argument);
    if path.is_dir() {
        return Err(Failure::File(format!(
            "`{argument}` is a folder: name a file in it"
        )));
    }
    // `burger w/ fries` and `1/2 pizza` are no paths.
    let words = argument.contains(char::is_whitespace);
    let is_path = (argument.contains(['/', '\\']) && !words)
        || path.extension().is_some_and(|e| e == "toml" || e == "txt");
    if path.is_file() || is_path {
        let text = read_text(path)?;
        if path.extension().is_some_and(|e| e == "toml") {
            let dish = parse_dish_file(argument, &text, units)
                .map_err(|e| Failure::Request(e.to_string()))?;
            return finish(dish, true);
        }
        return lines(argument, &text, units);
    }
    if argument.len() > LONGEST_WORDS {
        return Err(Failure::Request(format!(
            "{} bytes for one dish, more than {LONGEST_WORDS}: say it in fewer words",
            argument.len()
        )));
    }
    let meaning = known
        .meaning(argument, "", units)
        .map_err(|e| Failure::Request(e.to_string()))?;
    understood(argument, meaning)
}

/// Says what a text was taken for, and what of it could not be read.
fn understood(text: &str, meaning: Meaning) -> Result<Read_, Failure> {
    let Meaning::Dish {
        dish,
        taken_for,
        unread,
        ..
    } = &meaning
    else {
        return Ok(Read_ {
            meaning,
            complete: true,
        });
    };
    if let Some(name) = taken_for {
        note(&format!("`{text}` is taken for the library's `{name}`"));
    }
    for error in unread {
        warn(&error.to_string());
    }
    let complete = unread.is_empty();
    if dish.components.is_empty() {
        return Err(nothing_to_count(complete));
    }
    Ok(Read_ { meaning, complete })
}

fn lines(origin: &str, text: &str, units: UnitSystem) -> Result<Read_, Failure> {
    let (components, errors) = parse_text(origin, text, units);
    for error in &errors {
        warn(&error.to_string());
    }
    if text.trim().is_empty() {
        return Err(nothing_to_count(true));
    }
    finish(
        Dish {
            components,
            ..Dish::default()
        },
        errors.is_empty(),
    )
}

fn finish(dish: Dish<ComponentLine>, complete: bool) -> Result<Read_, Failure> {
    if dish.components.is_empty() {
        return Err(nothing_to_count(complete));
    }
    let listed = dish.components.len();
    if listed > MOST_COMPONENTS {
        return Err(Failure::Request(format!(
            "{listed} components, more than {MOST_COMPONENTS}: a plate has fewer\n  = give the dishes one by one"
        )));
    }
    Ok(Read_ {
        meaning: Meaning::listed(dish),
        complete,
    })
}

fn nothing_to_count(complete: bool) -> Failure {
    if complete {
        let told = "there is no component to count\n  = write one a line, such as `2 cups romaine`";
        return Failure::Request(told.to_owned());
    }
    Failure::Unusable("nothing was understood: no component could be read".to_owned())
}

pub(super) fn standard_input() -> Result<String, Failure> {
    let mut bytes = Vec::new();
    std::io::stdin()
        .lock()
        .take(LARGEST_INPUT + 1)
        .read_to_end(&mut bytes)
        .map_err(|e| Failure::File(format!("cannot read standard input: {e}")))?;
    if bytes.len() as u64 > LARGEST_INPUT {
        return Err(Failure::Request(
            "standard input is larger than 8 MB: split it".to_owned(),
        ));
    }
    String::from_utf8(bytes).map_err(|e| {
        Failure::Request(format!(
            "standard input is not UTF-8 text (first wrong byte at {})\n  = save it as UTF-8",
            e.utf8_error().valid_up_to()
        ))
    })
}

/// A standard by name, or from a file.
pub(super) fn standard(name: &str) -> Result<Standard, Failure> {
    if let Some(standard) = Standard::embedded(name) {
        return Ok(standard);
    }
    let path = Path::new(name);
    // What is there but cannot be looked at is told by reading it.
    let missing = |e: std::io::Error| e.kind() == std::io::ErrorKind::NotFound;
    if path.metadata().is_err_and(missing) {
        let known = Standard::embedded_ids().collect::<Vec<_>>().join(", ");
        return Err(Failure::Request(format!(
            "no standard and no file is called `{name}`\n  = built in are: {known}"
        )));
    }
    Standard::parse(&read_text_of(path, Holds::Standard)?)
        .map_err(|e| Failure::Request(format!("{name}: {e}")))
}

impl From<Pulses> for PulsesAs {
    fn from(pulses: Pulses) -> Self {
        match pulses {
            Pulses::Vegetables => PulsesAs::Vegetables,
            Pulses::Protein => PulsesAs::ProteinFoods,
        }
    }
}
