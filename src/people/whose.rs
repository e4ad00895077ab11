//! Whose day dishes are held against: a diner's, or anybody's.

use super::{Caution, DayTarget, Diner, ProteinTarget, Sex, protein_of};
use crate::ledger::{Allowances, Day, Group, PulsesAs, Standard};
use crate::quantity::number::kcal;
use std::sync::Arc;

/// Energy need when none is given, kcal: the reference of US menu labelling (21 CFR 101.11), for
/// general advice.
pub(crate) const GENERAL_ENERGY: f64 = 2000.0;
/// The standard when none is named.
pub(crate) const USUAL_STANDARD: &str = "us-style";

/// The day that dishes are held against.
#[derive(Debug)]
pub(crate) struct Whose {
    /// The diner, where one was named: what is left of their day is in the day log.
    pub diner: Option<Diner>,
    /// The standard, with what a coach set for the diner.
    pub standard: Standard,
    /// kcal to plan the day by.
    pub energy_kcal: f64,
    /// Where beans, peas and lentils count.
    pub pulses: PulsesAs,
    /// Protein to reach in a day, where it can be told.
    pub protein: Option<ProteinTarget>,
    /// The cautions that belong to the person's figures, a sentence each.
    pub cautions: Vec<String>,
    /// What to say along with the figures, a sentence each.
    pub notes: Vec<String>,
}

impl Whose {
    /// A day of so much energy, in kcal, that is no diner's.
    pub(crate) fn anybody(standard: Standard, energy_kcal: f64, pulses: PulsesAs) -> Self {
        Self {
            diner: None,
            standard,
            energy_kcal,
            pulses,
            protein: None,
            cautions: Vec::new(),
            notes: Vec::new(),
        }
    }

    /// A diner's day by their target and the standard they follow, in which no level lies under
    /// their floor.
    pub(crate) fn of_diner(diner: Diner, target: &DayTarget, standard: Standard) -> Self {
        let own = diner.group_portions.iter();
        let own = own.filter_map(|(key, portions)| Some((Group::from_words(key)?, *portions)));
        let standard = standard
            .for_a_man(diner.sex == Some(Sex::Male))
            .for_person(own, f64::from(target.lowest_level_kcal));
        let shares = format!(
            "shares are of {}'s day, {} kcal",
            diner.name,
            kcal(target.target_kcal)
        );
        let cautions = spoken(target);
        Self {
            standard,
            energy_kcal: target.target_kcal,
            pulses: diner.pulses_as,
            protein: protein_of(&diner, target.target_kcal),
            notes: std::iter::once(shares).chain(cautions.clone()).collect(),
            cautions,
            diner: Some(diner),
        }
    }

    /// The day for an audit.
    pub(crate) fn day(&self) -> Day<'_> {
        Day {
            standard: &self.standard,
            energy_kcal: self.energy_kcal,
            pulses: self.pulses,
            protein_g: self.protein.as_ref().map(|protein| protein.grams),
        }
    }

    /// What the day allows.
    pub(crate) fn allowances(&self) -> Arc<Allowances> {
        Arc::new(Allowances::of(self.day()))
    }

    /// `a day of 2,000 kcal`, or whose.
    pub(crate) fn words(&self) -> String {
        let kcal = kcal(self.energy_kcal);
        match &self.diner {
            Some(diner) => format!("{}’s day of {kcal} kcal", diner.name),
            None => format!("a day of {kcal} kcal"),
        }
    }
}

/// The cautions to say with every figure. That a stated energy is an adult's is among the
/// usual cautions of every page already.
pub(crate) fn spoken(target: &DayTarget) -> Vec<String> {
    let worth = |caution: &&Caution| !matches!(caution, Caution::AgeUnknown);
    let cautions = target.cautions.iter().filter(worth);
    cautions.map(ToString::to_string).collect()
}
