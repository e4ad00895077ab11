//! Conditions that set what a person eats, more than any table does. The program cannot see
//! them: a diner says them, or nobody does.

use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::measure::MeasureError;
use super::source::{Source, Standing};

/// A condition, or a medicine that stands for one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Condition {
    /// Insulin, or another medicine that lowers blood sugar.
    Insulin,
    /// Warfarin.
    Warfarin,
    /// Kidney disease.
    Kidney,
    /// Heart failure.
    Heart,
    /// An eating disorder, now or in the past.
    EatingDisorder,
    /// Food allergy or coeliac disease.
    Allergy,
    /// An immune system that is weak or held down by a medicine.
    WeakImmunity,
}

const REMEMBERED: Source = Source {
    citation: "usual clinical advice",
    standing: Standing::FromMemory,
};

const VITAMIN_K: Source = Source {
    citation: "patient guidance on warfarin and vitamin K",
    standing: Standing::Checked,
};

/// High-risk groups of food-borne illness.
pub(crate) const RAW_SOURCE: Source = Source {
    citation: "FDA Food Code 2022, 3-603.11 and 3-801.11",
    standing: Standing::FromMemory,
};

impl Condition {
    /// All of them, in the order shown.
    pub(crate) const ALL: [Self; 7] = [
        Self::Insulin,
        Self::Warfarin,
        Self::Kidney,
        Self::Heart,
        Self::EatingDisorder,
        Self::Allergy,
        Self::WeakImmunity,
    ];

    /// The word it is given with: `insulin`, `eating disorder`.
    #[must_use]
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Self::Insulin => "insulin",
            Self::Warfarin => "warfarin",
            Self::Kidney => "kidney disease",
            Self::Heart => "heart failure",
            Self::EatingDisorder => "eating disorder",
            Self::Allergy => "allergy",
            Self::WeakImmunity => "weak immunity",
        }
    }

    /// Who has it, in words.
    #[must_use]
    pub(crate) const fn who(self) -> &'static str {
        match self {
            Self::Insulin => "insulin or another medicine that lowers blood sugar",
            Self::Warfarin => "warfarin",
            Self::Kidney => "kidney disease",
            Self::Heart => "heart failure",
            Self::EatingDisorder => "an eating disorder, now or in the past",
            Self::Allergy => "food allergy or coeliac disease",
            Self::WeakImmunity => "a weak immune system",
        }
    }

    /// What to know or whom to ask; no full stop.
    #[must_use]
    pub(crate) const fn advice(self) -> &'static str {
        match self {
            Self::Insulin => {
                "restaurant estimates are no basis for a dose; ask your clinician before changing \
                 how much carbohydrate you eat"
            }
            Self::Warfarin => {
                "keep leafy greens about the same from day to day; ask before a large change"
            }
            Self::Kidney => {
                "protein, potassium, phosphorus, sodium and fluid are set for you by your clinic"
            }
            Self::Heart => "fluid and sodium are set for you by your clinic",
            Self::EatingDisorder => {
                "counting can do harm; use figures only as agreed with your care team"
            }
            Self::Allergy => {
                "what is in a dish is estimated here; ask the kitchen, and do not rely on this"
            }
            Self::WeakImmunity => "leave raw and undercooked fish, meat and eggs",
        }
    }

    /// Where the advice comes from, and how far it was checked.
    #[must_use]
    pub(crate) const fn source(self) -> Source {
        match self {
            Self::Warfarin => VITAMIN_K,
            Self::WeakImmunity => RAW_SOURCE,
            _ => REMEMBERED,
        }
    }

    /// Whether a clinic sets how much such a person drinks.
    #[must_use]
    pub(crate) const fn sets_fluid(self) -> bool {
        matches!(self, Self::Kidney | Self::Heart)
    }
}

impl FromStr for Condition {
    type Err = MeasureError;

    fn from_str(text: &str) -> Result<Self, MeasureError> {
        let word = text.trim().to_lowercase().replace(['-', '_'], " ");
        let long = match word.as_str() {
            "diabetes medicine" | "diabetes medication" => "insulin",
            "kidney" => "kidney disease",
            "heart" => "heart failure",
            "coeliac" | "celiac" | "coeliac disease" | "celiac disease" | "food allergy" => {
                "allergy"
            }
            other => other,
        };
        let found = Self::ALL.into_iter().find(|c| c.word() == long);
        found.ok_or_else(|| MeasureError::UnknownWord {
            what: "condition",
            text: text.trim().to_owned(),
            known: "insulin, warfarin, kidney disease, heart failure, eating disorder, allergy, \
                    weak immunity",
        })
    }
}

/// Conditions with commas between; `none` for none. Sorted, each once.
pub(crate) fn conditions(text: &str) -> Result<Vec<Condition>, MeasureError> {
    if text.trim().eq_ignore_ascii_case("none") {
        return Ok(Vec::new());
    }
    let parts = text
        .split([',', ';'])
        .filter(|part| !part.trim().is_empty());
    let mut all: Vec<Condition> = parts.map(str::parse).collect::<Result<_, _>>()?;
    all.sort_unstable();
    all.dedup();
    Ok(all)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_reads_back_and_an_unknown_one_names_the_known() {
        for condition in Condition::ALL {
            assert_eq!(condition.word().parse(), Ok(condition));
            assert!(!condition.advice().ends_with('.') && !condition.who().is_empty());
        }
        let read = conditions("Warfarin; kidney-disease, warfarin").unwrap();
        assert_eq!(read, [Condition::Warfarin, Condition::Kidney]);
        assert_eq!(conditions("none"), Ok(Vec::new()));
        let said = conditions("gout").unwrap_err().to_string();
        assert!(
            said.contains("`gout`") && said.contains("warfarin"),
            "{said}"
        );
    }
}
