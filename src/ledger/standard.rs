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
    for_a_man: bool,
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
    /// Protein to reach, g a day, where the person has a target.
    pub protein_g: Option<f64>,
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
            for_a_man: false,
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

    /// The same standard for a man: as many alcoholic drinks as it allows men who drink.
    #[must_use]
    pub(crate) fn for_a_man(mut self, is_man: bool) -> Self {
        self.for_a_man = is_man;
        self
    }

    /// Portions a day of a group that a coach set, if any.
    #[must_use]
    pub(crate) fn own_portions(&self, group: Group) -> Option<f64> {
        self.own_portions.get(&group).copied()
    }

    /// Kinds of a group's foods (`fish`, `meat`; the words of the table of everyday foods) that
    /// the standard has none of.
    pub(crate) fn leaves_out(&self, group: Group) -> &[String] {
        self.groups
            .get(&group)
            .map_or(&[], |g| g.leaves_out.as_slice())
    }

    /// The energy levels, kcal, rising.
    #[must_use]
    pub fn levels(&self) -> &[f64] {
        &self.levels
    }

    /// The level for an adult's energy need: the need itself, or the level nearest to it (the
    /// lower of two as near), said so. No level that the standard draws for children, and none
    /// below that of the person it was made for, is ever taken: then it is the lowest other
    /// one, said so as well.
    #[must_use]
    pub fn level(&self, energy_kcal: f64) -> LevelChoice {
        let lowest = self.lowest_level();
        let usable = self.levels.iter().copied().filter(|l| *l >= lowest);
        let far = |level: f64| (level - energy_kcal).abs();
        let nearest = usable.fold(lowest, |best, level| {
            if far(level) < far(best) - 1e-9 {
                level
            } else {
                best
            }
        });
        let exact = far(nearest) < 1e-9;
        LevelChoice {
            level_kcal: nearest,
            exact,
            note: (!exact).then(|| self.why_level(energy_kcal, nearest)),
        }
    }

    /// Why an energy need is held against this level.
    fn why_level(&self, energy_kcal: f64, level_kcal: f64) -> String {
        let (energy, level) = (thousands(energy_kcal), thousands(level_kcal));
        let first = self.levels.first().copied().unwrap_or(0.0);
        let why = if energy_kcal >= level_kcal || level_kcal > self.lowest_level() {
            "is the nearest"
        } else if level_kcal > first && level_kcal <= self.adults_from_kcal {
            "is the lowest for adults, the smaller ones are drawn for children"
        } else {
            "is the lowest used"
        };
        format!(
            "food groups are held against the {level} kcal level, which {why}; limits against \
             {energy} kcal"
        )
    }

    /// The lowest level that may be used for an adult.
    fn lowest_level(&self) -> f64 {
        let from = self.lowest_level_kcal.max(self.adults_from_kcal);
        let high_enough = |l: &&f64| **l >= from - 1e-9;
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
        self.limit_of_day(level_kcal, level_kcal, limit)
    }

    /// The same for a day of another energy than its level's: limits that are a share of the
    /// energy are a share of the day's own.
    pub(super) fn limit_of_day(
        &self,
        level_kcal: f64,
        energy_kcal: f64,
        limit: Limit,
    ) -> Option<f64> {
        let row = self.row(level_kcal);
        let percent =
            |p: Option<f64>, kcal_per_unit: f64| Some(p? / 100.0 * energy_kcal / kcal_per_unit);
        match limit {
            Limit::Energy => Some(energy_kcal),
            Limit::SaturatedFat => percent(self.limits.saturated_fat_percent, FAT_KCAL_PER_G),
            Limit::AddedSugars => self.limits.added_sugars_tsp.get(row).copied().or_else(|| {
                percent(
                    self.limits.added_sugars_percent,
                    SUGARS_KCAL_PER_G * GRAMS_PER_TSP_EQ,
                )
            }),
            Limit::Sodium => self.limits.sodium_mg,
            Limit::SolidFats => self.limits.solid_fats_g.get(row).copied(),
            Limit::Alcohol => {
                let men = self.limits.alcohol_drinks_men.filter(|_| self.for_a_man);
                men.or(self.limits.alcohol_drinks)
            }
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
