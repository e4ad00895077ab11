//! The free-food rule.

use super::{Amounts, Group};

/// Energy below which a serving may be free, kcal.
pub(crate) const FREE_BELOW_KCAL: f64 = 20.0;
/// Carbohydrate up to which a serving may be free, g.
pub(crate) const FREE_UP_TO_CARBOHYDRATE_G: f64 = 5.0;

/// From this part of a portion of any food group on a serving is that group's, however few
/// kcal it has: a spoonful of broccoli is vegetables (own choice).
const COUNTS_FROM_PORTIONS: f64 = 0.1;
/// A portion of oils, g: the teaspoon of the standards that count oils in portions.
const OILS_PORTION_G: f64 = 4.5;

/// Whether amounts, each in its group's unit, are too little to count as any group's.
pub(crate) fn counts_nowhere(amounts: &Amounts) -> bool {
    Group::ALL.iter().all(|group| {
        let portion = match group {
            Group::Oils => OILS_PORTION_G,
            _ => 1.0,
        };
        let amount = amounts.get(*group).unwrap_or_default();
        amount < COUNTS_FROM_PORTIONS * portion
    })
}

/// Whether a serving counts for nothing: under 20 kcal **and** at most 5 g carbohydrate.
///
/// Source: American Diabetes Association and Academy of Nutrition and Dietetics, Choose
/// Your Foods (2008 and later editions), free foods list. Printed sources differ on "and"
/// and "or"; the stricter reading is used. Free foods with a listed amount are limited to
/// about three servings a day, spread out.
#[must_use]
pub(crate) fn is_free(energy_kcal: f64, carbohydrate_g: f64) -> bool {
    energy_kcal < FREE_BELOW_KCAL && carbohydrate_g <= FREE_UP_TO_CARBOHYDRATE_G
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ledger::Subject;

    #[test]
    fn a_tenth_of_a_portion_is_a_groups() {
        let of = |group: Group, amount: f64| {
            counts_nowhere(&Amounts::from_iter([(Subject::from(group), amount)]))
        };
        assert!(of(Group::Vegetables, 0.09) && !of(Group::Vegetables, 0.1));
        assert!(of(Group::Oils, 0.4) && !of(Group::Oils, 0.5));
    }

    #[test]
    fn both_limits_must_hold() {
        assert!(is_free(19.9, 5.0));
        assert!(!is_free(20.0, 1.0));
        assert!(!is_free(15.0, 5.1));
    }
}
