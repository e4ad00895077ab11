//! Adequate intake of water: what the day log's fluids are held against.

use serde::Serialize;

use jiff::civil::Date;

use super::body::{AgeYears, Sex};
use super::diner::Diner;
use super::source::{Source, Standing};

/// Adequate intake for a day. Not a requirement: it covers nearly everyone, and thirst, heat
/// and activity change it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub(crate) struct FluidIntake {
    /// Water from food and drink together, ml a day.
    pub total_ml: u32,
    /// The part of it that is drunk, any beverage and water, ml a day (rounded in the source).
    pub beverages_ml: u32,
    /// The publication.
    pub source: Source,
}

const SOURCE: Source = Source {
    citation: "National Academies, Dietary Reference Intakes for Water, Potassium, Sodium, \
               Chloride, and Sulfate, 2004, adequate intakes of total water",
    standing: Standing::Checked,
};

/// What is said wherever a fluid target stands.
pub(crate) const CAUTION: &str = "With heart failure or kidney disease a clinic sets how much to drink; then follow that, not \
     this figure.";

/// The adequate intake of a diner on a date; nothing where sex or age are not known, and
/// nothing where a clinic sets how much they drink.
#[must_use]
pub(crate) fn of_diner(diner: &Diner, today: Date) -> Option<FluidIntake> {
    if diner.conditions.iter().any(|c| c.sets_fluid()) {
        return None;
    }
    adequate_intake(diner.sex?, diner.age_on(today)?, diner.pregnant_or_nursing)
}

/// The adequate intake by sex and age; nothing under 1 year, and nothing in pregnancy or
/// nursing, where the intakes differ and a clinician should say.
#[must_use]
pub(crate) fn adequate_intake(
    sex: Sex,
    age: AgeYears,
    pregnant_or_nursing: bool,
) -> Option<FluidIntake> {
    if pregnant_or_nursing {
        return None;
    }
    let (total_ml, beverages_ml) = match (age.get(), sex) {
        (0, _) => return None,
        (1..=3, _) => (1300, 900),
        (4..=8, _) => (1700, 1200),
        (9..=13, Sex::Female) => (2100, 1600),
        (9..=13, Sex::Male) => (2400, 1800),
        (14..=18, Sex::Female) => (2300, 1800),
        (14..=18, Sex::Male) => (3300, 2600),
        (_, Sex::Female) => (2700, 2200),
        (_, Sex::Male) => (3700, 3000),
    };
    Some(FluidIntake {
        total_ml,
        beverages_ml,
        source: SOURCE,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn drink(sex: Sex, age: f64) -> Option<(u32, u32)> {
        let intake = adequate_intake(sex, AgeYears::new(age).unwrap(), false)?;
        Some((intake.total_ml, intake.beverages_ml))
    }

    #[test]
    fn adults_and_children_by_the_2004_report() {
        assert_eq!(drink(Sex::Male, 19.0), Some((3700, 3000)));
        assert_eq!(drink(Sex::Female, 80.0), Some((2700, 2200)));
        assert_eq!(drink(Sex::Male, 18.0), Some((3300, 2600)));
        assert_eq!(drink(Sex::Female, 9.0), Some((2100, 1600)));
        assert_eq!(drink(Sex::Female, 8.0), drink(Sex::Male, 4.0));
        assert_eq!(drink(Sex::Male, 0.0), None);
    }

    #[test]
    fn no_figure_in_pregnancy_or_nursing() {
        let age = AgeYears::new(30.0).unwrap();
        assert_eq!(adequate_intake(Sex::Female, age, true), None);
    }
}
