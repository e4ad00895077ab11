//! What is counted: limits and food groups as one list.

use super::{EnergyNutrient, Group, Limit};

/// How many subjects there are.
pub(crate) const SUBJECTS: usize = Limit::ALL.len() + Group::ALL.len() + EnergyNutrient::ALL.len();

/// A limit or a food group: whatever has an amount, a day's allowance and a verdict.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Subject {
    /// A limit, to be stayed within.
    Limit(Limit),
    /// A food group, to be reached.
    Group(Group),
    /// An energy nutrient; only protein can have a target to reach.
    Nutrient(EnergyNutrient),
}

/// What a day's allowance of a subject asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    /// An amount to reach: more of it is information, not a fault (Dietary Guidelines for
    /// Americans 2020-2025, chapter 1).
    ToReach,
    /// An amount to stay within.
    StayWithin,
}

impl Subject {
    /// Energy.
    pub(crate) const ENERGY: Self = Self::Limit(Limit::Energy);

    /// All of them in the order in which they are shown: limits, food groups, then
    /// energy nutrients.
    #[must_use]
    pub(crate) fn all() -> impl DoubleEndedIterator<Item = Self> + Clone {
        let limits = Limit::ALL.iter().map(|l| Self::Limit(*l));
        let groups = Group::ALL.iter().map(|g| Self::Group(*g));
        let nutrients = EnergyNutrient::ALL.iter().map(|n| Self::Nutrient(*n));
        limits.chain(groups).chain(nutrients)
    }

    /// Its place in that order.
    pub(crate) const fn at(self) -> usize {
        match self {
            Self::Limit(limit) => limit as usize,
            Self::Group(group) => Limit::ALL.len() + group as usize,
            Self::Nutrient(nutrient) => Limit::ALL.len() + Group::ALL.len() + nutrient as usize,
        }
    }

    /// The stable key used in files.
    #[must_use]
    pub(crate) fn key(self) -> &'static str {
        match self {
            Self::Limit(limit) => limit.key(),
            Self::Group(group) => group.key(),
            Self::Nutrient(nutrient) => nutrient.key(),
        }
    }

    /// The words people read.
    #[must_use]
    pub(crate) fn label(self) -> &'static str {
        match self {
            Self::Limit(limit) => limit.label(),
            Self::Group(group) => group.label(),
            Self::Nutrient(nutrient) => nutrient.label(),
        }
    }

    /// Unit of its amounts: `kcal`, `g`, `tsp-eq`, `mg`, `drinks`, `cup-eq`, `oz-eq`.
    #[must_use]
    pub(crate) fn unit(self) -> &'static str {
        match self {
            Self::Limit(limit) => limit.unit(),
            Self::Group(group) => group.unit().word(),
            Self::Nutrient(_) => "g",
        }
    }

    /// Whether it is to be reached or to be stayed within.
    #[must_use]
    pub(crate) const fn kind(self) -> Kind {
        match self {
            Self::Limit(_) => Kind::StayWithin,
            Self::Group(_) | Self::Nutrient(_) => Kind::ToReach,
        }
    }

    /// Whether it stands by itself in a summary. Beans, peas and lentils do not: they are
    /// part of the group in whose share they count.
    pub(crate) fn stands_alone(self) -> bool {
        self != Self::Group(Group::Pulses)
    }
}

impl From<Limit> for Subject {
    fn from(limit: Limit) -> Self {
        Self::Limit(limit)
    }
}

impl From<Group> for Subject {
    fn from(group: Group) -> Self {
        Self::Group(group)
    }
}

impl From<EnergyNutrient> for Subject {
    fn from(nutrient: EnergyNutrient) -> Self {
        Self::Nutrient(nutrient)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn limits_come_first_and_every_place_is_its_own() {
        let all: Vec<Subject> = Subject::all().collect();
        assert_eq!((all.len(), all[0]), (SUBJECTS, Subject::ENERGY));
        assert!(all.iter().enumerate().all(|(at, s)| s.at() == at));
        assert!(
            Group::ALL
                .iter()
                .all(|g| Group::from_words(g.key()) == Some(*g)
                    && Group::from_words(g.label()) == Some(*g))
        );
    }
}
