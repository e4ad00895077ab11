//! Standards: food groups, portion sizes and daily allowances by energy level.

mod fault;
mod file;

pub(crate) use fault::StandardError;

use super::{Group, Limit, PulsesAs, Subgroup};
use crate::quantity::number::thousands;
use file::{GroupFile, LimitsFile};
use std::collections::BTreeMap;

/// Grams of added sugars in a teaspoon-equivalent (FPED 2017-2020 methodology).
const GRAMS_PER_TSP_EQ: f64 = 4.2;
/// Energy of sugars and of fat, kcal per g (Atwater general factors).
const SUGARS_KCAL_PER_G: f64 = 4.0;
const FAT_KCAL_PER_G: f64 = 9.0;
/// Cup-equivalents of pulses that are one ounce-equivalent of protein foods (USDA protein
/// foods chart: a quarter cup of cooked beans).
const PULSES_CUP_PER_OZ: f64 = 0.25;
/// Days that a weekly amount is spread over.
const DAYS: f64 = 7.0;

/// A set of food groups, portion sizes and daily allowances.
#[derive(Debug)]
pub struct Standard {
    /// Short name for the command line.
    pub id: String,
    /// Full name.
    pub name: String,
    /// Publication, year, table.
    pub source: String,
    /// How far the figures have been seen in a copy of the publication.
    pub status: String,
    levels: Vec<f64>,
    adults_from_kcal: f64,
    vegetables_include_pulses: bool,
    groups: BTreeMap<Group, GroupFile>,
    limits: LimitsFile,
    own_portions: BTreeMap<Group, f64>,
    lowest_level_kcal: f64,
}

/// What a day allows of a group, in the group's unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Allowance {
    /// The amount shares are taken of.
    pub amount: f64,
    /// The lower end, where the standard gives a range.
    pub minimum: Option<f64>,
}

/// The energy level that serves an energy need.
#[derive(Debug, Clone, PartialEq)]
pub struct LevelChoice {
    /// The level, kcal.
    pub level_kcal: f64,
    /// Whether the need is a level itself.
    pub exact: bool,
    /// What to say about the choice.
    pub note: Option<String>,
}

/// Whose day a dish is held against.
#[derive(Debug, Clone, Copy)]
pub struct Day<'s> {
    /// The standard.
    pub standard: &'s Standard,
    /// Energy need, kcal a day.
    pub energy_kcal: f64,
    /// Where beans, peas and lentils count.
    pub pulses: PulsesAs,
}

const EMBEDDED: [(&str, &str); 4] = [
    ("us-style", include_str!("standards/us-style.toml")),
    ("vegetarian", include_str!("standards/vegetarian.toml")),
    (
        "mediterranean",
        include_str!("standards/mediterranean.toml"),
    ),
    ("dash", include_str!("standards/dash.toml")),
];

impl Standard {
    /// Names of the built-in standards.
    pub(crate) fn embedded_ids() -> impl Iterator<Item = &'static str> {
        EMBEDDED.iter().map(|(id, _)| *id)
    }

    /// A built-in standard by name.
    #[must_use]
    pub fn embedded(id: &str) -> Option<Self> {
        let (_, text) = EMBEDDED.iter().find(|(name, _)| *name == id)?;
        Self::parse(text).ok()
    }

    /// Reads a standard from TOML text.
    ///
    /// Fails on the first fault, with its line and column.
    pub fn parse(text: &str) -> Result<Self, StandardError> {
        let (groups, file) = file::parse(text)?;
        Ok(Self {
            id: file.id,
            name: file.name,
            source: file.source,
            status: file.status,
            levels: file.levels,
            adults_from_kcal: file.adults_from_kcal,
            vegetables_include_pulses: file.vegetables_include_pulses,
            groups,
            limits: file.limits,
            own_portions: BTreeMap::new(),
            lowest_level_kcal: 0.0,
        })
    }

    /// The same standard for one person: portions a day that their coach set, whatever the
    /// energy level and wherever pulses count, and no level below `lowest_level_kcal` (the
    /// highest level where the standard has none so high).
    #[must_use]
    pub(crate) fn for_person(
        mut self,
        portions: impl IntoIterator<Item = (Group, f64)>,
        lowest_level_kcal: f64,
    ) -> Self {
        self.own_portions = portions.into_iter().collect();
        self.lowest_level_kcal = lowest_level_kcal;
        self
    }

    /// Portions a day of a group that a coach set, if any.
    #[must_use]
    pub(crate) fn own_portions(&self, group: Group) -> Option<f64> {
        self.own_portions.get(&group).copied()
    }

    /// The energy levels, kcal, rising.
    #[must_use]
    pub fn levels(&self) -> &[f64] {
        &self.levels
    }

    /// The level for an energy need: the need itself, or the next lower level, said so.
    /// Below the lowest level (of the standard, or of the person it was made for) the lowest
    /// is taken, said so as well.
    #[must_use]
    pub fn level(&self, energy_kcal: f64) -> LevelChoice {
        let lowest = self.lowest_level();
        let lower = self
            .levels
            .iter()
            .copied()
            .rfind(|l| *l <= energy_kcal + 1e-9 && *l >= lowest);
        let level_kcal = lower.unwrap_or(lowest);
        let exact = (level_kcal - energy_kcal).abs() < 1e-9;
        let mut remarks = Vec::new();
        if lower.is_none() {
            remarks.push(format!(
                "{} kcal lies below the lowest level used, {} kcal: that one is taken",
                thousands(energy_kcal),
                thousands(lowest)
            ));
        } else if !exact {
            remarks.push(format!(
                "{} kcal lies between levels or above the last: the lower one, {} kcal, is used",
                thousands(energy_kcal),
                thousands(level_kcal)
            ));
        }
        if level_kcal < self.adults_from_kcal {
            remarks.push(format!(
                "levels below {} kcal are meant for small children, not for adults",
                thousands(self.adults_from_kcal)
            ));
        }
        let note = (!remarks.is_empty()).then(|| remarks.join("; "));
        LevelChoice {
            level_kcal,
            exact,
            note,
        }
    }

    /// The lowest level that may be used.
    fn lowest_level(&self) -> f64 {
        let high_enough = |l: &&f64| **l >= self.lowest_level_kcal - 1e-9;
        let found = self.levels.iter().find(high_enough);
        found.or(self.levels.last()).copied().unwrap_or(0.0)
    }

    fn row(&self, level_kcal: f64) -> usize {
        self.levels
            .iter()
            .rposition(|l| *l <= level_kcal + 1e-9)
            .unwrap_or(0)
    }

    /// One portion of a group, in the group's unit.
    #[must_use]
    pub(crate) fn portion(&self, group: Group) -> f64 {
        self.groups.get(&group).map_or(1.0, |g| g.portion)
    }

    /// What a day at a level allows of a group. Pulses take their allowance along: counted
    /// as protein foods, they give up their part of the vegetable total (the protein total
    /// of a pattern that holds none of them stays as published); counted as vegetables, the
    /// part that a pattern holds within protein foods moves to the vegetables.
    #[must_use]
    pub(crate) fn allowance(
        &self,
        level_kcal: f64,
        group: Group,
        pulses: PulsesAs,
    ) -> Option<Allowance> {
        if let Some(portions) = self.own_portions(group) {
            return Some(Allowance {
                amount: portions * self.portion(group),
                minimum: None,
            });
        }
        let row = self.row(level_kcal);
        let found = self.groups.get(&group)?;
        let printed = *found.allowance.get(row)?;
        let own = self
            .groups
            .get(&Group::Pulses)
            .and_then(|p| p.allowance.get(row));
        let own = own.copied().unwrap_or(0.0);
        let within_oz = self.pulses_within_protein(row);
        let amount = match (group, pulses) {
            (Group::Vegetables, PulsesAs::Vegetables) => {
                let apart = if self.vegetables_include_pulses {
                    0.0
                } else {
                    own
                };
                printed + apart + within_oz * PULSES_CUP_PER_OZ
            }
            (Group::Vegetables, PulsesAs::ProteinFoods) if self.vegetables_include_pulses => {
                printed - own
            }
            (Group::ProteinFoods, PulsesAs::Vegetables) => printed - within_oz,
            (Group::ProteinFoods, PulsesAs::ProteinFoods) if within_oz > 0.0 => {
                printed + own / PULSES_CUP_PER_OZ
            }
            (Group::Pulses, _) => printed + within_oz * PULSES_CUP_PER_OZ,
            _ => printed,
        };
        Some(Allowance {
            amount,
            minimum: found.allowance_min.get(row).copied(),
        })
    }

    /// Ounce-equivalents a day of pulses that the protein total holds.
    fn pulses_within_protein(&self, row: usize) -> f64 {
        let weekly = self
            .groups
            .get(&Group::ProteinFoods)
            .map(|g| &g.pulses_within_weekly);
        weekly.and_then(|w| w.get(row)).map_or(0.0, |w| w / DAYS)
    }

    /// What a day at a level allows of a part of a group, in the group's unit: a daily
    /// figure, or the weekly one over seven days.
    #[must_use]
    pub(crate) fn subgroup_allowance(
        &self,
        level_kcal: f64,
        group: Group,
        part: Subgroup,
    ) -> Option<f64> {
        let row = self.row(level_kcal);
        let found = self.groups.get(&group)?;
        let daily = found
            .daily
            .get(part.key())
            .and_then(|r| r.get(row))
            .copied();
        daily.or_else(|| Some(found.weekly.get(part.key())?.get(row)? / DAYS))
    }

    /// What a day at a level allows of a limit, in the limit's unit. Solid fats have no
    /// official figure of their own: `None` unless a coach's file gives one.
    #[must_use]
    pub(crate) fn limit_allowance(&self, level_kcal: f64, limit: Limit) -> Option<f64> {
        let row = self.row(level_kcal);
        let percent =
            |p: Option<f64>, kcal_per_unit: f64| Some(p? / 100.0 * level_kcal / kcal_per_unit);
        match limit {
            Limit::Energy => Some(level_kcal),
            Limit::SaturatedFat => percent(self.limits.saturated_fat_percent, FAT_KCAL_PER_G),
            Limit::AddedSugars => self.limits.added_sugars_tsp.get(row).copied().or_else(|| {
                percent(
                    self.limits.added_sugars_percent,
                    SUGARS_KCAL_PER_G * GRAMS_PER_TSP_EQ,
                )
            }),
            Limit::Sodium => self.limits.sodium_mg,
            Limit::SolidFats => self.limits.solid_fats_g.get(row).copied(),
            Limit::Alcohol => self.limits.alcohol_drinks,
        }
    }

    /// Energy a level leaves for everything outside the groups, kcal.
    #[must_use]
    pub(crate) fn other_uses_kcal(&self, level_kcal: f64) -> Option<f64> {
        let of_levels = &self.limits.other_uses_kcal;
        of_levels.get(self.row(level_kcal)).copied()
    }
}

#[cfg(test)]
mod tests;
