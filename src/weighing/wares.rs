//! What serving ware holds when nothing says how much: a glass, a can, a scoop, a bowl.

use crate::foods::Food;
use crate::words::{prepared, prepared_rows, words_of};
use serde::Deserialize;
use std::cell::LazyCell;
use std::sync::LazyLock;

#[derive(Debug, Deserialize)]
struct Row {
    ware: String,
    families: String,
    millilitres: Option<f64>,
    grams: Option<f64>,
    log_sd: f64,
    source: String,
}

/// How much there is in a piece of ware.
#[derive(Debug, Clone, Copy)]
pub(super) enum Content {
    /// Millilitres as served.
    Millilitres(f64),
    /// Grams as eaten.
    Grams(f64),
}

impl Content {
    /// Grams of a food that weighs so much a millilitre.
    pub(super) fn grams(self, per_ml: f64) -> f64 {
        match self {
            Self::Millilitres(ml) => ml * per_ml,
            Self::Grams(grams) => grams,
        }
    }
}

impl std::fmt::Display for Content {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Millilitres(ml) => write!(f, "{ml:.0} ml"),
            Self::Grams(grams) => write!(f, "{grams:.0} g"),
        }
    }
}

/// What one piece of ware holds of some foods.
#[derive(Debug)]
pub(super) struct Ware {
    name: String,
    /// Families with, where only some of a family are meant, words of the food's name in base
    /// form; empty for all foods.
    of: Vec<(String, Option<Vec<String>>)>,
    /// How much there is in it.
    pub content: Content,
    /// Spread of the log of that.
    pub log_sd: f64,
    /// Where the figure comes from.
    pub source: String,
}

/// How a row says that it holds for every food.
const ANY: &str = "*";

/// In the order of the table: what is said of some foods stands before what is said of all.
static TABLE: LazyLock<Vec<Ware>> = LazyLock::new(|| {
    let list = prepared_rows::<Row>(prepared!("wares.csv")).into_iter();
    list.filter_map(|row| {
        let ml = row.millilitres.map(Content::Millilitres);
        Some(Ware {
            of: families(&row.families),
            name: row.ware,
            content: ml.or(row.grams.map(Content::Grams))?,
            log_sd: row.log_sd,
            source: row.source,
        })
    })
    .collect()
});

fn families(cell: &str) -> Vec<(String, Option<Vec<String>>)> {
    if cell == ANY {
        return Vec::new();
    }
    cell.split(';')
        .map(|part| match part.split_once(':') {
            Some((family, named)) => (family.to_owned(), Some(words_of(named).to_vec())),
            None => (part.to_owned(), None),
        })
        .collect()
}

impl Ware {
    /// Whether it is told of this very sort of food, not of a family or of all foods.
    pub(super) fn is_exact(&self) -> bool {
        self.of.iter().any(|(_, word)| word.is_some())
    }
}

/// What a piece of ware holds of `food`, written as `said`.
pub(super) fn ware(name: &str, food: &Food<'_>, said: &[String]) -> Option<&'static Ware> {
    let own = LazyCell::new(|| words_of(food.name()));
    // A glass of a mixed drink is no measure of the spirit in it: spirits come by the shot.
    let has = |text: &str| food.measures().any(|m| m.text == text);
    let mixed = || has("1 drink") && !has("1 shot");
    let family = food.family();
    let is = |(of, named): &(String, Option<Vec<String>>)| {
        let all_said = |named: &Vec<String>| {
            let said = |w: &String| own.contains(w) || said.contains(w);
            !mixed() && named.iter().all(said)
        };
        of == family && named.as_ref().is_none_or(all_said)
    };
    TABLE
        .iter()
        .find(|ware| ware.name == name && (ware.of.is_empty() || ware.of.iter().any(is)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_reads_and_has_a_source() {
        let rows = prepared_rows::<Row>(prepared!("wares.csv"));
        assert!(TABLE.len() > 20 && TABLE.len() == rows.len());
        for ware in TABLE.iter() {
            assert!(
                ware.content.grams(1.0) > 0.0 && ware.log_sd > 0.0,
                "{ware:?}"
            );
            assert!(ware.source.len() > 5, "{ware:?}");
        }
    }

    /// A row that holds for all foods hides the rows of the same ware below it.
    #[test]
    fn no_row_is_hidden() {
        for (at, ware) in TABLE.iter().enumerate() {
            let below = TABLE.iter().skip(at + 1);
            assert!(
                !(ware.of.is_empty() && below.clone().any(|other| other.name == ware.name)),
                "{ware:?}"
            );
        }
    }
}
