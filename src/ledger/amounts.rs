//! How much a gram of a food, a component or a plate holds of every subject: likely amounts.

use super::subject::SUBJECTS;
use super::{Group, Limit, PulsesAs, Subgroup, Subject};
use crate::foods::{Equivalent, Food, Nutrient};

/// Ounce-equivalents of protein foods that a cup-equivalent of pulses is (FPED 2017-2020: a
/// quarter cup of cooked beans is one).
pub(crate) const PULSES_OZ_PER_CUP: f64 = 4.0;

/// A likely amount of every subject, each in its unit; nothing where a figure is not published.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Amounts([Option<f64>; SUBJECTS]);

impl Default for Amounts {
    fn default() -> Self {
        Self([Some(0.0); SUBJECTS])
    }
}

impl Amounts {
    /// What a gram of a food holds. Beans, peas and lentils stand in their own group only.
    #[must_use]
    pub(crate) fn per_gram(food: &Food<'_>) -> Self {
        let mut all = Self::default();
        for subject in Subject::all() {
            all.0[subject.at()] = subject.per_gram(food);
        }
        all
    }

    /// The amount of one subject, pulses in their own group only.
    #[must_use]
    pub(crate) fn get(&self, subject: impl Into<Subject>) -> Option<f64> {
        self.0[subject.into().at()]
    }

    /// The amount of one subject, with pulses in the group where they are to count.
    pub(crate) fn counted(&self, subject: impl Into<Subject>, pulses: PulsesAs) -> Option<f64> {
        let subject = subject.into();
        match pulses.per_cup(subject) {
            0.0 => self.get(subject),
            per_cup => Some(self.get(subject)? + per_cup * self.get(Group::Pulses)?),
        }
    }

    /// Sets the amount of one subject.
    pub(crate) fn set(&mut self, subject: Subject, amount: Option<f64>) {
        self.0[subject.at()] = amount;
    }

    /// All of them times a factor.
    pub(crate) fn times(self, factor: f64) -> Self {
        Self(self.0.map(|amount| amount.map(|a| a * factor)))
    }

    /// The sum; what is missing on one side is missing in it.
    pub(crate) fn plus(mut self, other: &Self) -> Self {
        for (own, more) in self.0.iter_mut().zip(other.0) {
            *own = own.zip(more).map(|(a, b)| a + b);
        }
        self
    }
}

impl FromIterator<(Subject, f64)> for Amounts {
    /// The amounts given, nothing of all others.
    fn from_iter<I: IntoIterator<Item = (Subject, f64)>>(given: I) -> Self {
        let mut all = Self::default();
        for (subject, amount) in given {
            all.set(subject, Some(amount));
        }
        all
    }
}

impl PulsesAs {
    /// How much of a subject's unit a cup-equivalent of beans, peas and lentils counts for
    /// beside their own group: 0 where they do not count.
    pub(crate) fn per_cup(self, subject: Subject) -> f64 {
        match (subject, self) {
            (Subject::Group(Group::Vegetables), Self::Vegetables) => 1.0,
            (Subject::Group(Group::ProteinFoods), Self::ProteinFoods) => PULSES_OZ_PER_CUP,
            _ => 0.0,
        }
    }
}

impl Subject {
    /// How much of it a gram of a food holds, in its unit, beans, peas and lentils in their
    /// own group only; nothing when nobody published it.
    #[must_use]
    pub(crate) fn per_gram(self, food: &Food<'_>) -> Option<f64> {
        match self {
            Self::Limit(limit) => limit.per_gram(food),
            Self::Group(group) => Some(group.per_gram(food)),
            Self::Nutrient(nutrient) => {
                let per_100g = food.per_100g(nutrient.nutrient());
                per_100g.map(|amount| amount / 100.0)
            }
        }
    }

    /// The same with beans, peas and lentils where they are to count.
    pub(crate) fn counted_per_gram(self, food: &Food<'_>, pulses: PulsesAs) -> Option<f64> {
        match pulses.per_cup(self) {
            0.0 => self.per_gram(food),
            per_cup => Some(self.per_gram(food)? + per_cup * Group::Pulses.per_gram(food)),
        }
    }
}

impl Limit {
    fn per_gram(self, food: &Food<'_>) -> Option<f64> {
        let nutrient = |n| food.per_100g(n);
        let equivalent = |e| Some(food.equivalent_per_100g(e));
        let per_100g = match self {
            Self::Energy => nutrient(Nutrient::EnergyKcal),
            Self::SaturatedFat => nutrient(Nutrient::SaturatedFatG),
            Self::Sodium => nutrient(Nutrient::SodiumMg),
            Self::AddedSugars => equivalent(Equivalent::AddedSugarsTsp),
            Self::SolidFats => equivalent(Equivalent::SolidFatsG),
            Self::Alcohol => equivalent(Equivalent::AlcoholDrinks),
        };
        per_100g.map(|amount| amount / 100.0)
    }
}

impl Group {
    /// How much of it a gram of a food holds, in its unit; pulses in their own group only.
    #[must_use]
    pub(crate) fn per_gram(self, food: &Food<'_>) -> f64 {
        let equivalent = match self {
            Self::Fruits => Equivalent::Fruits,
            Self::Vegetables => Equivalent::Vegetables,
            Self::Pulses => Equivalent::Pulses,
            Self::Grains => Equivalent::Grains,
            Self::ProteinFoods => Equivalent::Protein,
            Self::Dairy => Equivalent::Dairy,
            Self::Oils => Equivalent::OilsG,
        };
        food.equivalent_per_100g(equivalent) / 100.0
    }
}

impl Subgroup {
    /// How much of it a gram of a food holds, in the group's unit.
    #[must_use]
    pub(crate) fn per_gram(self, food: &Food<'_>) -> f64 {
        let parts: &[Equivalent] = match self {
            Self::DarkGreen => &[Equivalent::DarkGreen],
            Self::RedOrange => &[Equivalent::RedOrange],
            Self::Starchy => &[Equivalent::Starchy],
            Self::OtherVegetables => &[Equivalent::VegetablesOther],
            Self::WholeGrains => &[Equivalent::WholeGrains],
            Self::RefinedGrains => &[Equivalent::RefinedGrains],
            Self::MeatPoultryEggs => &[
                Equivalent::Meat,
                Equivalent::CuredMeat,
                Equivalent::OrganMeat,
                Equivalent::Poultry,
                Equivalent::Eggs,
            ],
            Self::Seafood => &[Equivalent::SeafoodHighOmega3, Equivalent::SeafoodLowOmega3],
            Self::NutsSeedsSoy => &[Equivalent::NutsSeeds, Equivalent::Soy],
        };
        let sum: f64 = parts.iter().map(|e| food.equivalent_per_100g(*e)).sum();
        sum / 100.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::matching::Catalogue;

    /// FPED 2017-2020 counts the same beans as vegetables by the cup and as protein foods by
    /// the ounce: four of these to one of those, to the last digit published.
    #[test]
    fn a_cup_of_pulses_is_four_ounces_in_every_published_row() {
        let catalogue = Catalogue::embedded().expect("catalogue");
        let published = |food: &Food<'_>| food.basis() == "fndds+fped";
        for food in catalogue.foods().filter(published) {
            let cups = food.equivalent_per_100g(Equivalent::Pulses);
            let ounces = food.equivalent_per_100g(Equivalent::PulsesAsProtein);
            assert!(
                (cups * PULSES_OZ_PER_CUP - ounces).abs() <= 0.0251,
                "{}: {cups} and {ounces}",
                food.name()
            );
        }
    }

    #[test]
    fn what_is_missing_on_one_side_is_missing_in_the_sum() {
        let mut one = Amounts::default();
        one.set(Subject::ENERGY, None);
        one.set(Group::Pulses.into(), Some(0.5));
        one.set(Group::Vegetables.into(), Some(1.0));
        let sum = Amounts::default().plus(&one).times(2.0);
        assert_eq!(sum.get(Subject::ENERGY), None);
        assert_eq!(sum.get(Group::Vegetables), Some(2.0));
        assert_eq!(
            sum.counted(Group::Vegetables, PulsesAs::Vegetables),
            Some(3.0)
        );
        assert_eq!(
            sum.counted(Group::ProteinFoods, PulsesAs::ProteinFoods),
            Some(4.0)
        );
    }
}
