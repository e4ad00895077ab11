//! What a day allows of every limit and food group.

use super::subject::SUBJECTS;
use super::{Allowance, Day, EnergyNutrient, Group, Limit, PulsesAs, Subject};

/// What a day allows of every subject, looked up once.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Allowances {
    amounts: [Option<Allowance>; SUBJECTS],
    portions: [f64; SUBJECTS],
    pulses: PulsesAs,
    level_kcal: f64,
}

impl Allowances {
    /// The allowances of a day; energy and limits that are a share of it are held against the
    /// need itself, everything else against the row of the energy level.
    #[must_use]
    pub(crate) fn of(day: Day<'_>) -> Self {
        let level_kcal = day.standard.level(day.energy_kcal).level_kcal;
        let mut all = Self {
            amounts: [None; SUBJECTS],
            portions: [1.0; SUBJECTS],
            pulses: day.pulses,
            level_kcal,
        };
        let plain = |amount: f64| Allowance {
            amount,
            minimum: None,
        };
        for subject in Subject::all() {
            all.amounts[subject.at()] = match subject {
                Subject::Limit(Limit::Energy) => Some(plain(day.energy_kcal)),
                Subject::Limit(limit) => {
                    let energy_kcal = day.energy_kcal;
                    let amount = day.standard.limit_of_day(level_kcal, energy_kcal, limit);
                    amount.map(plain)
                }
                Subject::Group(group) => {
                    all.portions[subject.at()] = day.standard.portion(group);
                    day.standard.allowance(level_kcal, group, day.pulses)
                }
                Subject::Nutrient(EnergyNutrient::Protein) => day.protein_g.map(plain),
                Subject::Nutrient(_) => None,
            };
        }
        all
    }

    /// What the day allows of a subject, in its unit; nothing when the standard names none.
    #[must_use]
    pub(crate) fn get(&self, subject: impl Into<Subject>) -> Option<Allowance> {
        self.amounts[subject.into().at()]
    }

    /// One portion of the standard, in the subject's unit; 1 for limits.
    pub(super) fn portion(&self, subject: Subject) -> f64 {
        self.portions[subject.at()]
    }

    /// Where beans, peas and lentils count.
    pub(crate) const fn pulses(&self) -> PulsesAs {
        self.pulses
    }

    /// The row of the standard that serves the day, kcal.
    pub(crate) const fn level_kcal(&self) -> f64 {
        self.level_kcal
    }

    /// The group in whose share beans, peas and lentils count.
    pub(super) const fn takes_pulses(&self) -> Group {
        match self.pulses {
            PulsesAs::Vegetables => Group::Vegetables,
            PulsesAs::ProteinFoods => Group::ProteinFoods,
        }
    }
}
