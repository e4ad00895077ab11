//! What printed servings tell: the tables that `examples/fit_servings` writes.

use super::features::{Parts, What, features};
use super::kinds::ServingKind;
use super::said::{Known, Said};
use crate::memo::Quick;
use crate::quantity::Estimate;
use serde::Deserialize;
use std::collections::HashMap;
use std::sync::LazyLock;

#[derive(Debug, Deserialize)]
struct Row {
    served: String,
    what: String,
    of: String,
    log_energy: f64,
}

#[derive(Debug, Deserialize)]
struct WeightRow {
    what: String,
    of: String,
    log_grams: f64,
}

#[derive(Debug, Deserialize)]
struct SaltRow {
    kind: String,
    mg_per_kcal: f64,
}

#[derive(Debug, Deserialize)]
struct SpreadRow {
    served: String,
    known: String,
    log_sd: f64,
}

#[derive(Debug, Deserialize)]
struct KindSpreadRow {
    served: String,
    kind: String,
    factor: f64,
}

/// Effects on the logarithm of the energy by what is said.
type Effects = HashMap<Box<str>, f64, Quick>;

static FOODS: LazyLock<Vec<Effects>> = LazyLock::new(|| table("food"));
static DRINKS: LazyLock<Vec<Effects>> = LazyLock::new(|| table("drink"));
static CUPS: LazyLock<Vec<Effects>> = LazyLock::new(|| {
    let text = include_str!("../tables/drink_weights.csv");
    let list = crate::words::rows::<WeightRow>(text).into_iter();
    by_what(list.map(|row| (row.what, row.of, row.log_grams)))
});
static SALT: LazyLock<HashMap<String, f64>> = LazyLock::new(|| {
    let text = include_str!("../tables/serving_salt.csv");
    let list = crate::words::rows::<SaltRow>(text).into_iter();
    list.map(|row| (row.kind, row.mg_per_kcal)).collect()
});
static SPREADS: LazyLock<Vec<SpreadRow>> =
    LazyLock::new(|| crate::words::rows(include_str!("../tables/serving_spreads.csv")));

/// How much wider ranges of a kind are, of foods and of drinks.
static KIND_SPREADS: LazyLock<[HashMap<String, f64>; 2]> = LazyLock::new(|| {
    let text = include_str!("../tables/serving_kind_spreads.csv");
    let list = crate::words::rows::<KindSpreadRow>(text);
    [false, true].map(|drink| {
        let own = list.iter().filter(|row| row.served == served_as(drink));
        own.map(|row| (row.kind.clone(), row.factor)).collect()
    })
});

/// How much wider the range of a serving is than that of others of which as much is known: of
/// its kind, else of the nearest that it lies within.
fn kind_spread(said: &Said) -> f64 {
    let table = &KIND_SPREADS[usize::from(said.drink)];
    let mut kinds = said.kind.within();
    kinds
        .find_map(|kind| table.get(&kind.name).copied())
        .unwrap_or(1.0)
}

fn table(served: &str) -> Vec<Effects> {
    let text = include_str!("../tables/serving_effects.csv");
    let list = crate::words::rows::<Row>(text).into_iter();
    let own = list.filter(|row| row.served == served);
    by_what(own.map(|row| (row.what, row.of, row.log_energy)))
}

fn by_what(rows: impl Iterator<Item = (String, String, f64)>) -> Vec<Effects> {
    let mut table = vec![Effects::default(); What::ALL.len()];
    for (word, of, effect) in rows {
        if let Some(what) = What::ALL.iter().find(|what| what.word() == word) {
            table[*what as usize].insert(of.into(), effect);
        }
    }
    table
}

/// What a table says of a serving: the logarithm.
fn told(table: &[Effects], said: &Said, parts: Option<Parts>) -> f64 {
    let mut log = 0.0;
    features(said, parts, |what, of, figure| {
        if let Some(effect) = table[what as usize].get(of) {
            log += effect * figure;
        }
    });
    log
}

/// What such a drink weighs with its ice left out, g; `None` for what is eaten.
#[must_use]
pub(crate) fn served_grams(said: &Said) -> Option<f64> {
    said.drink.then(|| told(&CUPS, said, None).exp())
}

/// Sodium that such servings hold, mg to a kcal: of the kind, else of the nearest that it lies
/// within.
#[must_use]
pub(crate) fn salt_of(kind: &ServingKind) -> Option<f64> {
    kind.within().find_map(|kind| SALT.get(&kind.name).copied())
}

/// Whether menus of enough restaurants print energy beside this word, or a kind of that name is
/// fitted.
#[must_use]
pub(in super::super) fn is_printed(word: &str) -> bool {
    let known = |what: What| FOODS[what as usize].contains_key(word);
    known(What::Word) || known(What::Kind)
}

/// Which of the two fits holds for it.
#[must_use]
pub fn served_as(drink: bool) -> &'static str {
    if drink { "drink" } else { "food" }
}

/// The energy of one serving, kcal, from its words and what its parts come to; `None` when
/// the words name no kind of serving.
#[must_use]
pub(crate) fn served_energy(said: &Said, parts: Option<Parts>) -> Option<Estimate> {
    let known = said.known();
    if known == Known::Nothing && parts.is_none() {
        return None;
    }
    let table = if said.drink { &*DRINKS } else { &*FOODS };
    let spread = SPREADS
        .iter()
        .find(|row| row.served == served_as(said.drink) && row.known == known.word())?;
    let log_sd = spread.log_sd * kind_spread(said);
    Some(Estimate::new(told(table, said, parts).exp(), log_sd))
}

#[cfg(test)]
mod tests {
    use super::super::said::ServingText;
    use super::*;

    #[test]
    fn every_row_reads() {
        let text = include_str!("../tables/serving_effects.csv");
        let lines = text.lines().skip(1).filter(|l| !l.is_empty()).count();
        let held: usize = FOODS.iter().chain(DRINKS.iter()).map(HashMap::len).sum();
        assert_eq!(held, lines);
        assert_eq!(SPREADS.len(), 2 * Known::ALL.len());
        assert!(SPREADS.iter().all(|row| (0.1..1.5).contains(&row.log_sd)));
    }

    #[test]
    fn more_is_more() {
        let energy = |name: &str| {
            let said = Said::read(ServingText {
                name,
                ..ServingText::default()
            });
            served_energy(&said, None).map_or(0.0, |e| e.mean)
        };
        assert!(energy("Large fries") > 1.3 * energy("Small fries"));
        assert!(energy("Chicken wings (12 pc)") > 1.5 * energy("Chicken wings (6 pc)"));
        assert!(energy("Double cheeseburger") > energy("Hamburger"));
        assert!(energy("Diet cola") < 0.95 * energy("Cola"));
        assert!(energy("Cup of tomato soup") < energy("Bowl of tomato soup"));
    }
}
