//! From arguments to dishes, standards and days.

use super::arguments::{Pulses, Units};
pub(super) use super::whose::day;
use super::{Failure, note, warn};
use crate::ledger::{PulsesAs, Standard};
use crate::reading::{
    ComponentLine, Dish, MenuLine, Place, UnitSystem, is_told, parse_component, parse_dish_file,
    parse_lines, parse_menu_line, parse_told,
};
use crate::store::{Hit, Holds, Library, read_text, read_text_of};
use std::io::Read;
use std::path::Path;

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
    pub dish: Dish<ComponentLine>,
    pub complete: bool,
    /// A menu line, when the argument is neither a file nor a dish of the library.
    pub line: Option<MenuLine>,
    /// A dish that comes with the program: its amounts are those of a typical kitchen.
    pub built_in: bool,
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

/// A dish from one argument: `-`, a file, a library name.
pub(super) fn dish(
    argument: &str,
    library: Option<&Path>,
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
    if is_told(argument) {
        return told(argument, units);
    }
    from_library(argument, library, units)
}

/// A meal told in sentences.
fn told(text: &str, units: UnitSystem) -> Result<Read_, Failure> {
    let told = parse_told(text, &Place::new("sentence", 1, 1), units);
    for error in &told.errors {
        warn(&error.to_string());
    }
    finish(
        Dish {
            components: told.components,
            ..Dish::default()
        },
        told.errors.is_empty(),
    )
}

fn from_library(name: &str, library: Option<&Path>, units: UnitSystem) -> Result<Read_, Failure> {
    let library = Library::with_folder(library)?;
    let line = parse_menu_line(name);
    let hit = match library.find(name) {
        Hit::Exact(entry) => Hit::Exact(entry),
        // A price, a tag or a mark behind a dish changes nothing.
        _ => library.find(&line.text),
    };
    let entry = match hit {
        Hit::Exact(entry) => entry,
        // A line that changes a dish is more than a dish's name misspelt.
        Hit::Near(entry) if line.parts.is_empty() && line.is_plain() => {
            note(&format!(
                "`{name}` is taken for the library's `{}`",
                entry.name
            ));
            entry
        }
        Hit::Near(_) | Hit::None => {
            return Ok(Read_ {
                dish: Dish::default(),
                complete: true,
                line: Some(line),
                built_in: false,
            });
        }
    };
    let origin = entry
        .path
        .as_ref()
        .map_or(format!("dishes/{}.toml", entry.slug), |p| {
            p.display().to_string()
        });
    let dish = parse_dish_file(&origin, &entry.text, units)
        .map_err(|e| Failure::Request(e.to_string()))?;
    let read = finish(dish, true)?;
    Ok(Read_ {
        built_in: entry.path.is_none(),
        ..read
    })
}

fn lines(origin: &str, text: &str, units: UnitSystem) -> Result<Read_, Failure> {
    let (components, errors) = parse_lines(origin, text, units);
    for error in &errors {
        warn(&error.to_string());
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
        return Err(Failure::Request(if complete {
            "there is no component to count\n  = write one a line, such as `2 cups romaine`"
                .to_owned()
        } else {
            "no component could be read".to_owned()
        }));
    }
    Ok(Read_ {
        dish,
        complete,
        line: None,
        built_in: false,
    })
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

/// Dishes of the library for menu lines: exact names only, so that a line is not taken for
/// a dish it merely resembles.
pub(super) fn known(
    folder: Option<&Path>,
    units: UnitSystem,
) -> Result<impl Fn(&str) -> Option<Dish<ComponentLine>>, Failure> {
    let library = Library::with_folder(folder)?;
    Ok(move |name: &str| match library.find(name) {
        Hit::Exact(entry) => parse_dish_file(&entry.slug, &entry.text, units).ok(),
        Hit::Near(_) | Hit::None => None,
    })
}
