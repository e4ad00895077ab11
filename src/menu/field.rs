//! Figures of a row that people can name, for filters and for sorting.

use super::item::PrintedIs;
use super::row::Row;
use crate::ledger::{EnergyNutrient, Group, Limit, Subject};
use crate::matching::Certainty;

/// A figure of a row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Field {
    /// Portions of a group.
    Portions(Group),
    /// Amount of a limit, in its unit.
    Amount(Limit),
    /// Amount of an energy nutrient, g.
    Nutrient(EnergyNutrient),
    /// Share of the day of a group or limit, 1 being all of it.
    Share(Subject),
    /// Edible grams as served.
    Grams,
    /// Part of the dish that fits the meal, 0 to 1.
    Fitted,
    /// How well it fits the rest of a day: for the order only.
    Rest,
    /// Energy that the restaurant prints, kcal; the lower one of several.
    Printed,
    /// Where the printed energy lies: -1 below the range, 0 in it, 1 above.
    PrintedIs,
    /// Certainty, from 0 (none) to 3 (sure).
    Certainty,
}

impl Field {
    /// The field of these words: `energy`, `saturated fat`, `grains share`, `fitted share`.
    pub(crate) fn from_words(words: &str) -> Option<Self> {
        let words = words.trim().to_lowercase().replace(['_', '-'], " ");
        let (name, share) = match words.strip_suffix(" share") {
            Some(name) => (name.trim(), true),
            None => (words.as_str(), false),
        };
        let name = name.strip_suffix(" portions").unwrap_or(name);
        if let Some(group) = Group::from_words(name) {
            return Some(if share {
                Field::Share(group.into())
            } else {
                Field::Portions(group)
            });
        }
        if let Some(limit) = Limit::from_words(name).or(match name {
            "kcal" | "energy kcal" | "calories" => Some(Limit::Energy),
            _ => None,
        }) {
            return Some(if share {
                Field::Share(limit.into())
            } else {
                Field::Amount(limit)
            });
        }
        if let Some(nutrient) = EnergyNutrient::from_words(name).filter(|_| !share) {
            return Some(Field::Nutrient(nutrient));
        }
        match (name, share) {
            ("fitted", _) => Some(Field::Fitted),
            ("grams" | "weight", false) => Some(Field::Grams),
            ("printed" | "printed energy" | "printed kcal", false) => Some(Field::Printed),
            ("certainty", false) => Some(Field::Certainty),
            _ => None,
        }
    }

    /// Unit of the figure, where it has one.
    pub(crate) fn unit(self) -> &'static str {
        match self {
            Field::Portions(_) => "portions",
            Field::Amount(limit) => limit.unit(),
            Field::Grams | Field::Nutrient(_) => "g",
            Field::Printed => "kcal",
            _ => "",
        }
    }

    /// The figure of a row; nothing when it is not known.
    #[must_use]
    pub(crate) fn of(self, row: &Row) -> Option<f64> {
        let line = |subject: Subject| row.ledger.line(subject);
        match self {
            Field::Portions(group) => line(group.into()).portions(),
            Field::Amount(limit) => line(limit.into()).likely(),
            Field::Nutrient(nutrient) => line(nutrient.into()).likely(),
            Field::Share(subject) => line(subject).share(),
            Field::Grams => Some(row.ledger.grams().likely),
            Field::Fitted => row.fitted.map(|f| f.share),
            // What is not counted whole or only guessed at is not held up as fitting.
            Field::Rest if !row.is_whole() || row.certainty < Certainty::Likely => None,
            Field::Rest => row.choice.as_ref().map(|choice| choice.rank),
            Field::Printed => row.printed.map(|p| p.0),
            Field::PrintedIs => row.printed_is.map(Self::printed_figure),
            Field::Certainty => Some(Self::certainty_figure(row.certainty)),
        }
    }

    pub(super) fn printed_figure(is: PrintedIs) -> f64 {
        match is {
            PrintedIs::Below => -1.0,
            PrintedIs::Within => 0.0,
            PrintedIs::Above => 1.0,
        }
    }

    pub(super) fn certainty_figure(certainty: Certainty) -> f64 {
        match certainty {
            Certainty::None => 0.0,
            Certainty::Guess => 1.0,
            Certainty::Likely => 2.0,
            Certainty::Sure => 3.0,
        }
    }
}
