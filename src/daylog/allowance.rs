//! What a day allows, thing by thing.

use serde::Serialize;

use crate::ledger::{Day, Group, Limit, PulsesAs};

/// Ounce-equivalents of protein foods that a cup-equivalent of pulses is, as FPED
/// 2017-2020 has it (a quarter cup of cooked beans is one).
const PULSES_OZ_PER_CUP: f64 = 4.0;

/// What a day allows of one food group or limit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Allowance {
    /// The group's or the limit's key.
    pub key: String,
    /// Whether the key is a food group's or a limit's.
    pub is_group: bool,
    /// Unit of `amount`: `cup-eq`, `kcal`, `mg`, ...
    pub unit: String,
    /// For one day; above 0.
    pub amount: f64,
    /// The lower end, where the standard gives a range.
    pub minimum: Option<f64>,
    /// One portion of the standard, in the unit; 1 for limits.
    pub portion: f64,
    /// How much of the unit a cup-equivalent of beans, peas and lentils counts for here,
    /// beside their own row; 0 where they do not count.
    pub pulses: f64,
}

impl Allowance {
    /// Whether passing it is worth a word: a seventh of the pulses of a week is no mark to
    /// go beyond.
    #[must_use]
    pub fn can_be_passed(&self) -> bool {
        self.key != Group::Pulses.key()
    }

    /// The words people read.
    #[must_use]
    pub fn label(&self) -> &str {
        let group = || Group::from_words(&self.key).map(Group::label);
        let limit = || Limit::from_words(&self.key).map(Limit::label);
        let label = if self.is_group { group() } else { limit() };
        label.unwrap_or(&self.key)
    }
}

/// What a day allows: its food groups, then its limits, energy first among them; only those
/// with a figure above 0.
#[must_use]
pub fn allowances(day: Day<'_>) -> Vec<Allowance> {
    let level_kcal = day.standard.level(day.energy_kcal).level_kcal;
    let groups = Group::ALL.iter().filter_map(|group| {
        let found = day.standard.allowance(level_kcal, *group, day.pulses)?;
        Some(Allowance {
            key: group.key().to_owned(),
            is_group: true,
            unit: group.unit().word().to_owned(),
            amount: found.amount,
            minimum: found.minimum,
            portion: day.standard.portion(*group),
            pulses: pulses_in(*group, day.pulses),
        })
    });
    let limits = Limit::ALL.iter().filter_map(|limit| {
        // Energy is held against the need itself, everything else against the level's row.
        let amount = match limit {
            Limit::Energy => Some(day.energy_kcal),
            other => day.standard.limit_allowance(level_kcal, *other),
        };
        Some(Allowance {
            key: limit.key().to_owned(),
            is_group: false,
            unit: limit.unit().to_owned(),
            amount: amount?,
            minimum: None,
            portion: 1.0,
            pulses: 0.0,
        })
    });
    groups.chain(limits).filter(|a| a.amount > 0.0).collect()
}

fn pulses_in(group: Group, pulses: PulsesAs) -> f64 {
    match (group, pulses) {
        (Group::Vegetables, PulsesAs::Vegetables) => 1.0,
        (Group::ProteinFoods, PulsesAs::ProteinFoods) => PULSES_OZ_PER_CUP,
        _ => 0.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ledger::Standard;

    #[test]
    fn a_days_allowances_are_those_of_the_audit() {
        let standard = Standard::embedded("us-style").unwrap();
        let day = |pulses| Day {
            standard: &standard,
            energy_kcal: 2150.0,
            pulses,
        };
        let list = allowances(day(PulsesAs::Vegetables));
        let of = |key: &str| list.iter().find(|a| a.key == key).unwrap().clone();
        assert_eq!(of("energy").amount, 2150.0);
        assert_eq!((of("grains").amount, of("grains").label()), (6.0, "grains"));
        assert_eq!(
            (of("vegetables").pulses, of("protein_foods").pulses),
            (1.0, 0.0)
        );
        assert_eq!(of("sodium").unit, "mg");
        assert!(!of("pulses").can_be_passed() && of("pulses").label().contains("lentils"));
        // No official figure, no row.
        assert!(!list.iter().any(|a| a.key == "solid_fats"));
        let other = allowances(day(PulsesAs::ProteinFoods));
        let protein = other.iter().find(|a| a.key == "protein_foods").unwrap();
        assert_eq!(protein.pulses, 4.0);
    }
}
