//! USDA's own descriptions of the catalogue's foods, matched to our names: which food each
//! description means is known by its code. Descriptions that are one of our names word for
//! word are left out: they say nothing. So are FNDDS's additional descriptions: brands, and what
//! is only counted under a code.

use super::tally::Tally;
use anyhow::{Context as _, Result};
use std::collections::{HashMap, HashSet};
use std::path::Path;
use trencher::foods::Food;
use trencher::matching::slots::hash;
use trencher::matching::{Catalogue, Certainty, Context};
use trencher::words::words;

/// What is right where the very food is, and where a food alike on the plate is as well.
#[derive(Debug, Default)]
pub struct Half {
    pub strict: Tally,
    pub alike: Tally,
}

/// The half of the foods that the sizes of doubts were fitted on (even hash of the code), the
/// other one, and the descriptions of foods that the catalogue does not hold: only `none` is
/// right there, though the nearest food may do.
pub fn tally(catalogue: &Catalogue, file: &Path, code: &str) -> Result<([Half; 2], Tally)> {
    let foods: HashMap<&str, Food<'_>> = catalogue.foods().map(|f| (f.code(), f)).collect();
    let mut known: HashSet<String> = HashSet::new();
    for food in catalogue.foods() {
        for name in std::iter::once(food.name()).chain(food.aliases()) {
            known.insert(words(name).join(" "));
        }
    }
    let mut reader = csv::Reader::from_path(file)?;
    let headers = reader.headers()?.clone();
    let column = |name: &str| headers.iter().position(|h| h == name);
    let code = column(code).with_context(|| format!("no column `{code}`"))?;
    let text = column("description").context("no column `description`")?;
    let mut halves: [Half; 2] = Default::default();
    let mut unheld = Tally::default();
    for record in reader.records() {
        let record = record?;
        let description = record.get(text).unwrap_or_default();
        if known.contains(&words(description).join(" ")) {
            continue;
        }
        let found = catalogue.find(description, &Context::default(), 2);
        let Some(food) = foods.get(record.get(code).unwrap_or_default()) else {
            unheld.add(found.certainty, found.certainty == Certainty::None);
            continue;
        };
        let first = found.food.map(|id| catalogue.food(id));
        let same = first.is_some_and(|f| f.code() == food.code());
        let half = &mut halves[(hash(food.code().as_bytes()) & 1) as usize];
        half.strict.add(found.certainty, same);
        let like = first.is_some_and(|f| same || f.is_alike(food));
        half.alike.add(found.certainty, like);
    }
    Ok((halves, unheld))
}
