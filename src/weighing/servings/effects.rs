//! What printed servings tell: the tables that `examples/fit_servings` writes.

use super::features::{Parts, What, features};
use super::kinds::ServingKind;
use super::said::{Known, Said};
use crate::memo::Quick;
use crate::quantity::Estimate;
use crate::words::rows;
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

#[derive(Debug, PartialEq, Deserialize)]
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

/// Least spread of what a name tells of a dish: the mean errors of 50 restaurants left out of the fit differ
/// among themselves by 0.34, dishes of one kind and restaurant mostly by 0.3 or more (0.15 to 0.75 by kind),
/// as `fit_servings --program` shows them.
const LEAST_SPREAD: f64 = 0.45;

/// Effects on the logarithm of the energy by what is said.
type Effects = HashMap<Box<str>, f64, Quick>;

/// The tables that `examples/fit_servings` writes, as text.
#[derive(Debug, Clone, Copy)]
pub struct FittedText<'t> {
    /// Effects on the logarithm of the energy.
    pub effects: &'t str,
    /// Effects on the logarithm of what drinks weigh.
    pub cups: &'t str,
    /// Sodium to a kilocalorie by kind.
    pub salt: &'t str,
    /// Spreads by how closely the amount is known.
    pub spreads: &'t str,
    /// How much wider ranges of a kind are.
    pub kind_spreads: &'t str,
}

/// What was fitted on printed servings.
#[derive(Debug, PartialEq)]
pub struct Fitted {
    foods: Vec<Effects>,
    drinks: Vec<Effects>,
    cups: Vec<Effects>,
    salt: HashMap<String, f64>,
    spreads: Vec<SpreadRow>,
    /// Of foods and of drinks.
    kind_spreads: [HashMap<String, f64>; 2],
}

static BUILT_IN: LazyLock<Fitted> = LazyLock::new(|| {
    Fitted::read(FittedText {
        effects: include_str!("../tables/serving_effects.csv"),
        cups: include_str!("../tables/drink_weights.csv"),
        salt: include_str!("../tables/serving_salt.csv"),
        spreads: include_str!("../tables/serving_spreads.csv"),
        kind_spreads: include_str!("../tables/serving_kind_spreads.csv"),
    })
});

impl Fitted {
    /// Reads the tables; rows that do not read are left out.
    #[must_use]
    pub fn read(text: FittedText<'_>) -> Self {
        let effects = rows::<Row>(text.effects);
        let table = |drink: bool| {
            let own = effects.iter().filter(|row| row.served == served_as(drink));
            by_what(own.map(|row| (row.what.as_str(), row.of.as_str(), row.log_energy)))
        };
        let cups = rows::<WeightRow>(text.cups);
        let kind_spreads = rows::<KindSpreadRow>(text.kind_spreads);
        Self {
            foods: table(false),
            drinks: table(true),
            cups: by_what(
                cups.iter()
                    .map(|row| (row.what.as_str(), row.of.as_str(), row.log_grams)),
            ),
            salt: rows::<SaltRow>(text.salt)
                .into_iter()
                .map(|row| (row.kind, row.mg_per_kcal))
                .collect(),
            spreads: rows(text.spreads),
            kind_spreads: [false, true].map(|drink| {
                let own = kind_spreads
                    .iter()
                    .filter(|row| row.served == served_as(drink));
                own.map(|row| (row.kind.clone(), row.factor)).collect()
            }),
        }
    }

    /// Those that come with the program.
    #[must_use]
    pub(crate) fn built_in() -> &'static Self {
        &BUILT_IN
    }

    /// How much wider the range of a serving is than that of others of which as much is known: of
    /// its kind, else of the nearest that it lies within.
    fn kind_spread(&self, said: &Said) -> f64 {
        let table = &self.kind_spreads[usize::from(said.drink)];
        let mut kinds = said.kind.within();
        kinds
            .find_map(|kind| table.get(&kind.name).copied())
            .unwrap_or(1.0)
    }

    /// What such a drink weighs with its ice left out, g; `None` for what is eaten.
    #[must_use]
    pub(crate) fn served_grams(&self, said: &Said) -> Option<f64> {
        said.drink.then(|| told(&self.cups, said, None).exp())
    }

    /// Sodium that such servings hold, mg to a kcal: of the kind, else of the nearest that it lies
    /// within.
    #[must_use]
    pub(crate) fn salt_of(&self, kind: &ServingKind) -> Option<f64> {
        kind.within()
            .find_map(|kind| self.salt.get(&kind.name).copied())
    }

    /// Whether menus of enough restaurants print energy beside this word, or a kind of that name is
    /// fitted.
    #[must_use]
    pub(in super::super) fn is_printed(&self, word: &str) -> bool {
        let known = |what: What| self.foods[what as usize].contains_key(word);
        known(What::Word) || known(What::Kind)
    }

    /// The energy of one serving, kcal, from its words and what its parts come to; `None` when
    /// the words name no kind of serving.
    #[must_use]
    pub(crate) fn served_energy(&self, said: &Said, parts: Option<Parts>) -> Option<Estimate> {
        let known = said.known();
        if known == Known::Nothing && parts.is_none() {
            return None;
        }
        let table = if said.drink {
            &self.drinks
        } else {
            &self.foods
        };
        let spread = self
            .spreads
            .iter()
            .find(|row| row.served == served_as(said.drink) && row.known == known.word())?;
        let log_sd = spread.log_sd * self.kind_spread(said);
        let least = if said.drink { 0.0 } else { LEAST_SPREAD };
        let log_sd = log_sd.max(least);
        Some(Estimate::new(told(table, said, parts).exp(), log_sd))
    }
}

fn by_what<'r>(rows: impl Iterator<Item = (&'r str, &'r str, f64)>) -> Vec<Effects> {
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

/// Which of the two fits holds for it.
#[must_use]
pub fn served_as(drink: bool) -> &'static str {
    if drink { "drink" } else { "food" }
}

#[cfg(test)]
mod tests {
    use super::super::said::ServingText;
    use super::*;

    #[test]
    fn every_row_reads() {
        let text = include_str!("../tables/serving_effects.csv");
        let lines = text.lines().skip(1).filter(|l| !l.is_empty()).count();
        let fitted = Fitted::built_in();
        let both = fitted.foods.iter().chain(&fitted.drinks);
        let held: usize = both.map(HashMap::len).sum();
        assert_eq!(held, lines);
        assert_eq!(fitted.spreads.len(), 2 * Known::ALL.len());
        assert!(
            fitted
                .spreads
                .iter()
                .all(|row| (0.1..1.5).contains(&row.log_sd))
        );
    }

    #[test]
    fn more_is_more() {
        let energy = |name: &str| {
            let said = Said::read(ServingText {
                name,
                ..ServingText::default()
            });
            let fitted = Fitted::built_in();
            fitted.served_energy(&said, None).map_or(0.0, |e| e.mean)
        };
        assert!(energy("Large fries") > 1.3 * energy("Small fries"));
        assert!(energy("Chicken wings (12 pc)") > 1.5 * energy("Chicken wings (6 pc)"));
        assert!(energy("Double cheeseburger") > energy("Hamburger"));
        assert!(energy("Black coffee") < 0.8 * energy("Vanilla latte"));
        assert!(energy("Cup of tomato soup") < energy("Bowl of tomato soup"));
    }
}
