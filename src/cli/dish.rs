//! `trencher dish ...`.

use super::arguments::{DishCommand, Format};
use super::{Failure, Outcome, input, print, warn};
use crate::matching::{Catalogue, Certainty};
use crate::pages::csv_table::csv_table;
use crate::pages::escape::cell as guard;
use crate::pages::number::grams;
use crate::pages::text::visible;
use crate::reading::{Dish, Served, UnitSystem, parse_dish_file, parse_lines, to_toml};
use crate::store::{Entry, Hit, Library, read_text, slug, toml_files, write_new};
use crate::weighing::{WeighedComponent, match_dish, weigh_dish};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

pub(super) fn run(command: DishCommand) -> Result<Outcome, Failure> {
    match command {
        DishCommand::List { library, format } => list(library.as_deref(), format),
        DishCommand::Show { dish, library } => show(&dish, library.as_deref()),
        DishCommand::Check { files } => check(&files),
        DishCommand::New { name, kind, into } => new(&name, &kind, &into),
    }
}

fn list(folder: Option<&Path>, format: Format) -> Result<Outcome, Failure> {
    let library = Library::with_folder(folder)?;
    let text = match format {
        Format::Text => {
            let mut rows: Vec<_> = library.entries().iter().collect();
            rows.sort_by(|a, b| (&a.kind, &a.name).cmp(&(&b.kind, &b.name)));
            let mut text = String::new();
            let mut kind = "";
            for entry in rows {
                if entry.kind != kind {
                    kind = &entry.kind;
                    let _ = writeln!(text, "{}{kind}", if text.is_empty() { "" } else { "\n" });
                }
                let _ = writeln!(text, "  {}", visible(&entry.name));
            }
            text
        }
        Format::Json => {
            let rows: Vec<_> = library
                .entries()
                .iter()
                .map(|e| serde_json::json!({"name": e.name, "kind": e.kind, "slug": e.slug}))
                .collect();
            crate::pages::escape::json(&rows)?
        }
        Format::Csv => {
            let row = |e: &Entry| [guard(&e.name), guard(&e.kind), guard(&e.slug)];
            let rows = library.entries().iter().map(row);
            csv_table("name,kind,slug", rows)?
        }
    };
    print(&text)
}

fn show(name: &str, folder: Option<&Path>) -> Result<Outcome, Failure> {
    let path = Path::new(name);
    if path.is_file() {
        return print(&read_text(path)?);
    }
    match Library::with_folder(folder)?.find(name) {
        Hit::Exact(entry) => print(&entry.text),
        Hit::Near(entry) => {
            super::note(&format!("`{name}` is taken for `{}`", entry.name));
            print(&entry.text)
        }
        Hit::None => Err(Failure::Request(format!(
            "no dish in the library is called `{name}`\n  = list them with `trencher dish list`"
        ))),
    }
}

/// Holds dish files against the catalogue: every food sure or likely, every amount known,
/// components within 5 % of the served weight.
fn check(paths: &[PathBuf]) -> Result<Outcome, Failure> {
    let catalogue = super::corrections::catalogue()?;
    let mut files = Vec::new();
    for path in paths {
        if path.is_dir() {
            files.extend(toml_files(path)?);
        } else {
            files.push(path.clone());
        }
    }
    let library = Library::built_in();
    let mut faults = 0;
    for file in &files {
        let text = read_text(file)?;
        match parse_dish_file(&file.display().to_string(), &text, UnitSystem::Us) {
            Ok(dish) => {
                let name = dish.name.clone().unwrap_or_default();
                for like in library.near_duplicates(&name) {
                    let (file, like) = (file.display(), visible(&like.name));
                    warn(&format!(
                        "{file}: nearly the name of the library's `{like}`"
                    ));
                }
                for fault in faults_of(dish, &catalogue) {
                    faults += 1;
                    warn(&format!("{}: {fault}", file.display()));
                }
            }
            Err(error) => {
                faults += 1;
                warn(&error.to_string());
            }
        }
    }
    print(&format!(
        "{} dish files checked, {faults} faults\n",
        files.len()
    ))?;
    Ok(Outcome::done_if(faults == 0))
}

/// How far components may be from the stated served weight.
const SERVED_TOLERANCE: f64 = 0.05;

fn faults_of(dish: Dish<crate::reading::ComponentLine>, catalogue: &Catalogue) -> Vec<String> {
    let served = dish.served.clone();
    let on_top = Dish {
        components: dish.offered.add_ons.clone(),
        ..Dish::default()
    };
    let on_top = weigh_dish(match_dish(on_top, catalogue, false), catalogue);
    let weighed = weigh_dish(match_dish(dish, catalogue, false), catalogue);
    let mut faults = Vec::new();
    for c in weighed.components.iter().chain(&on_top.components) {
        let words = visible(&c.matched.line.text);
        match c.matched.certainty {
            Certainty::None => faults.push(format!("`{words}`: no such food")),
            Certainty::Guess => {
                let name = c.matched.food.map_or("", |id| catalogue.food(id).name());
                faults.push(format!("`{words}`: only a guess, `{name}`"));
            }
            Certainty::Likely | Certainty::Sure => {}
        }
        if c.grams().is_none() {
            faults.push(format!("`{words}`: no amount that can be weighed"));
        }
    }
    // Of what is to be chosen, what is eaten of it on average.
    let eaten = |c: &WeighedComponent| c.matched.line.chance.unwrap_or(1.0);
    let grams_of = |c| Some(WeighedComponent::grams(c)?.mean * eaten(c));
    let sum: f64 = weighed.components.iter().filter_map(grams_of).sum();
    if let Some(Served::Weight(amount)) = served {
        let stated = amount.number.likely;
        if stated > 0.0 && (sum / stated - 1.0).abs() > SERVED_TOLERANCE {
            faults.push(format!(
                "components weigh {} g, served says {} g",
                grams(sum),
                grams(stated)
            ));
        }
    }
    faults
}

fn new(name: &str, kind: &str, into: &Path) -> Result<Outcome, Failure> {
    let slug = slug(name);
    if slug.is_empty() {
        return Err(Failure::Request(format!(
            "`{name}` has no letters to make a file name of"
        )));
    }
    let (components, errors) =
        parse_lines("standard input", &input::standard_input()?, UnitSystem::Us);
    for error in &errors {
        warn(&error.to_string());
    }
    if !errors.is_empty() || components.is_empty() {
        return Err(Failure::Request(
            "nothing was written: mend the component lines first".to_owned(),
        ));
    }
    let dish = Dish {
        name: Some(name.to_owned()),
        kind: Some(kind.to_owned()),
        components,
        source: Some("our estimate".to_owned()),
        ..Dish::default()
    };
    let library = Library::built_in();
    if let Hit::Exact(entry) | Hit::Near(entry) = library.find(name) {
        super::note(&format!("the library has a like dish: `{}`", entry.name));
    }
    let path = into.join(format!("{slug}.toml"));
    write_new(&path, &to_toml(&dish))?;
    print(&format!("wrote {}\n", path.display()))
}
