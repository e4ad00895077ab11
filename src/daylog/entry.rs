//! One thing eaten or drunk, with every figure as it stood then.

use std::collections::BTreeMap;

use jiff::civil::{Date, Time};
use jiff::tz::{Offset, TimeZone};
use jiff::{Timestamp, ZonedDateTime};
use serde::{Deserialize, Serialize};

use crate::ledger::EnergyNutrient;
use crate::quantity::Range;

/// When, by the clock on the wall where the diner was.
///
/// Date and time are kept as that clock showed them, with the offset and the zone's name
/// beside them: a later change of a zone's rules moves no meal to another day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Moment {
    /// The diner's local date: the day this entry belongs to.
    pub date: Date,
    /// Local time, whole seconds.
    pub time: Time,
    /// Local time minus universal time, seconds.
    pub utc_offset_seconds: i32,
    /// IANA name of the zone, or an offset such as `+02:00` where the zone has none.
    pub zone: String,
}

impl Moment {
    /// The instant on the world's clock; `None` when the parts make none.
    #[must_use]
    pub(crate) fn instant(&self) -> Option<Timestamp> {
        let offset = Offset::from_seconds(self.utc_offset_seconds).ok()?;
        offset.to_timestamp(self.date.to_datetime(self.time)).ok()
    }
}

impl From<&ZonedDateTime> for Moment {
    fn from(zoned: &ZonedDateTime) -> Self {
        let time = zoned.time();
        let offset = zoned.offset();
        let zone = zoned.time_zone().iana_name();
        Self {
            date: zoned.date(),
            time: Time::constant(time.hour(), time.minute(), time.second(), 0),
            utc_offset_seconds: offset.seconds(),
            zone: zone.map_or_else(|| written(offset), ToOwned::to_owned),
        }
    }
}

/// `+02:00`.
fn written(offset: Offset) -> String {
    Timestamp::UNIX_EPOCH
        .to_zoned_datetime(TimeZone::fixed(offset))
        .strftime("%:z")
        .to_string()
}

/// How much of a food group was eaten.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GroupAmount {
    /// Unit of `amount`: `cup-eq`, `oz-eq`, `g`.
    pub unit: String,
    /// In that unit; beans, peas and lentils only in their own group.
    pub amount: Range,
    /// In portions of the standard, pulses counted where the diner counts them.
    pub portions: Range,
}

/// How much of something limited was eaten.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LimitAmount {
    /// `kcal`, `g`, `mg`, `tsp-eq`, `drinks`.
    pub unit: String,
    /// In that unit; nothing where a component's figure is not published.
    pub amount: Option<Range>,
}

/// One component, as it stood.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EatenComponent {
    /// As written.
    pub text: String,
    /// Name of the food it was taken for.
    pub food: Option<String>,
    /// Its source with the code there.
    pub source: Option<String>,
    /// How sure the food is: `sure`, `likely`, `guess`, `none`.
    pub certainty: String,
    /// Edible grams eaten; nothing when unsized.
    pub grams: Option<Range>,
    /// How the weight is known.
    pub basis: Option<String>,
    /// Whether it counted for nothing in this amount.
    pub free: bool,
    /// Likely amount of each group eaten, in the group's unit.
    pub groups: BTreeMap<String, f64>,
    /// Likely energy eaten, kcal.
    pub energy_kcal: Option<f64>,
    /// The note written beside it.
    pub note: Option<String>,
}

/// One thing eaten or drunk. All amounts are of the part that was eaten, not of the dish.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    /// When it was eaten.
    pub at: Moment,
    /// The meal it belongs to, where said.
    pub meal: Option<String>,
    /// Name of the dish, or what was drunk.
    pub dish: String,
    /// The part of the dish that was eaten: 1 for all of it; above 0, at most [`MOST_SHARE`].
    pub share: f64,
    /// Edible grams eaten.
    pub grams: Range,
    /// By the group's key.
    pub groups: BTreeMap<String, GroupAmount>,
    /// By the limit's key; energy is `energy`, in kcal.
    pub limits: BTreeMap<String, LimitAmount>,
    /// Likely amounts by the nutrient's key, whose ending is the unit (`protein_g`); nothing
    /// where a component's figure is not published.
    pub nutrients: BTreeMap<String, Option<f64>>,
    /// Protein, carbohydrate, fat and fibre by their key, g with range; nothing for entries of
    /// before these were kept.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub energy_nutrients: BTreeMap<String, LimitAmount>,
    /// Water drunk or in drinks, ml; 0 to [`MOST_FLUID_ML`].
    pub fluid_ml: f64,
    /// Version of the catalogue the figures are from.
    pub catalogue: String,
    /// Name of the standard the portions are of.
    pub standard: String,
    /// The components.
    pub components: Vec<EatenComponent>,
    /// Components as written that no food fits, or without an amount: not in the figures.
    pub uncounted: Vec<String>,
}

/// Most servings in one entry: more is a slip.
pub(crate) const MOST_SHARE: f64 = 50.0;
/// Most fluid in one entry, ml: more is a slip.
pub(crate) const MOST_FLUID_ML: f64 = 20_000.0;
/// First and last year that an entry may be of: anything else is a slip.
pub(crate) const YEARS: std::ops::RangeInclusive<i16> = 1900..=2200;
/// Longest name of a dish, signs.
pub(crate) const DISH_SIGNS: usize = 500;
/// Key of energy among the limits.
pub(crate) const ENERGY_KEY: &str = "energy";

/// What is wrong with an entry.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum EntryFault {
    /// No name, or one too long, or with control signs.
    #[error(
        "the dish name `{name}` cannot be logged; 1 to {DISH_SIGNS} signs without control signs"
    )]
    Dish {
        /// As given.
        name: String,
    },
    /// The share is out of bounds.
    #[error(
        "a share of {share} of `{dish}` cannot be logged; give above 0 to {MOST_SHARE}, such as 1/2"
    )]
    Share {
        /// The dish.
        dish: String,
        /// As given.
        share: f64,
    },
    /// The fluid is out of bounds.
    #[error("{ml} ml of fluid in `{dish}` cannot be logged; give 0 to {MOST_FLUID_ML} ml")]
    Fluid {
        /// The dish.
        dish: String,
        /// As given.
        ml: f64,
    },
    /// A figure is negative, not a number, or a range upside down.
    #[error("the figure `{what}` of `{dish}` is no amount: {figure}")]
    Figure {
        /// The dish.
        dish: String,
        /// Which figure.
        what: String,
        /// As given.
        figure: String,
    },
    /// A year that nobody logs in.
    #[error(
        "`{dish}` would be of the year {year}, which cannot be logged; give {} to {}",
        YEARS.start(), YEARS.end()
    )]
    Year {
        /// The dish.
        dish: String,
        /// Its year.
        year: i16,
    },
    /// Date, time and offset make no moment.
    #[error(
        "the moment of `{dish}` is none: {date} {time} at {offset} seconds from universal time"
    )]
    Moment {
        /// The dish.
        dish: String,
        /// Its date.
        date: Date,
        /// Its time.
        time: Time,
        /// Its offset, seconds.
        offset: i32,
    },
}

impl Entry {
    /// Water, plain or infused: fluid and nothing else.
    #[must_use]
    pub fn water(at: Moment, name: &str, ml: f64, catalogue: &str, standard: &str) -> Self {
        let mut limits = BTreeMap::new();
        let energy = LimitAmount {
            unit: "kcal".to_owned(),
            amount: Some(Range::exact(0.0)),
        };
        limits.insert(ENERGY_KEY.to_owned(), energy);
        Self {
            at,
            meal: None,
            dish: name.to_owned(),
            share: 1.0,
            grams: Range::exact(ml),
            groups: BTreeMap::new(),
            limits,
            nutrients: BTreeMap::new(),
            energy_nutrients: BTreeMap::new(),
            fluid_ml: ml,
            catalogue: catalogue.to_owned(),
            standard: standard.to_owned(),
            components: Vec::new(),
            uncounted: Vec::new(),
        }
    }

    /// The same, had another part of the dish been eaten: every amount in proportion.
    pub(crate) fn with_share(&self, share: f64) -> Self {
        let part = share / self.share;
        let mut other = self.clone();
        other.share = share;
        other.grams = self.grams.times(part);
        other.fluid_ml *= part;
        for group in other.groups.values_mut() {
            group.amount = group.amount.times(part);
            group.portions = group.portions.times(part);
        }
        let nutrients = other.energy_nutrients.values_mut();
        for limit in other.limits.values_mut().chain(nutrients) {
            limit.amount = limit.amount.map(|amount| amount.times(part));
        }
        for amount in other.nutrients.values_mut().flatten() {
            *amount *= part;
        }
        for component in &mut other.components {
            component.grams = component.grams.map(|grams| grams.times(part));
            component.energy_kcal = component.energy_kcal.map(|kcal| kcal * part);
            for amount in component.groups.values_mut() {
                *amount *= part;
            }
        }
        other
    }

    /// Energy eaten, kcal; nothing where a component's figure is missing.
    #[must_use]
    pub fn energy_kcal(&self) -> Option<Range> {
        self.limits.get(ENERGY_KEY)?.amount
    }

    /// An energy nutrient eaten, g; nothing where a component's figure is missing. An entry of
    /// before ranges were kept has as much doubt about it as about its energy.
    #[must_use]
    pub(crate) fn energy_nutrient(&self, nutrient: EnergyNutrient) -> Option<Range> {
        if let Some(kept) = self.energy_nutrients.get(nutrient.key()) {
            return kept.amount;
        }
        let likely = match self.nutrients.get(nutrient.nutrient().column()) {
            Some(amount) => (*amount)?,
            None => 0.0,
        };
        let energy = self.energy_kcal().filter(|energy| energy.likely > 0.0);
        Some(energy.map_or(Range::exact(likely), |energy| {
            energy.times(likely / energy.likely)
        }))
    }

    /// Fails on the first thing that cannot be stored and read back as it is.
    pub fn check(&self) -> Result<(), EntryFault> {
        let dish = || self.dish.clone();
        if self.dish.trim().is_empty()
            || self.dish.chars().count() > DISH_SIGNS
            || self.dish.contains(char::is_control)
        {
            return Err(EntryFault::Dish { name: dish() });
        }
        if !(self.share > 0.0 && self.share <= MOST_SHARE) {
            let share = self.share;
            return Err(EntryFault::Share {
                dish: dish(),
                share,
            });
        }
        if !(0.0..=MOST_FLUID_ML).contains(&self.fluid_ml) {
            let ml = self.fluid_ml;
            return Err(EntryFault::Fluid { dish: dish(), ml });
        }
        let year = self.at.date.year();
        if !YEARS.contains(&year) {
            return Err(EntryFault::Year { dish: dish(), year });
        }
        if self.at.instant().is_none() || self.at.time.subsec_nanosecond() != 0 {
            return Err(EntryFault::Moment {
                dish: dish(),
                date: self.at.date,
                time: self.at.time,
                offset: self.at.utc_offset_seconds,
            });
        }
        match self.bad_figure() {
            Some((what, figure)) => Err(EntryFault::Figure {
                dish: dish(),
                what,
                figure,
            }),
            None => Ok(()),
        }
    }

    fn bad_figure(&self) -> Option<(String, String)> {
        let mut ranges: Vec<(String, Range)> = vec![("grams".to_owned(), self.grams)];
        for (group, eaten) in &self.groups {
            ranges.push((group.clone(), eaten.amount));
            ranges.push((format!("{group} portions"), eaten.portions));
        }
        let known = |(limit, eaten): (&String, &LimitAmount)| Some((limit.clone(), eaten.amount?));
        let limited = self.limits.iter().chain(&self.energy_nutrients);
        ranges.extend(limited.filter_map(known));
        let mut single: Vec<(String, f64)> = Vec::new();
        let known = |(name, amount): (&String, &Option<f64>)| Some((name.clone(), (*amount)?));
        single.extend(self.nutrients.iter().filter_map(known));
        for part in &self.components {
            ranges.extend(part.grams.map(|grams| (part.text.clone(), grams)));
            single.extend(part.energy_kcal.map(|kcal| (part.text.clone(), kcal)));
            single.extend(
                part.groups
                    .values()
                    .map(|&amount| (part.text.clone(), amount)),
            );
        }
        let bad_range = ranges
            .into_iter()
            .find(|(_, range)| !is_amount(*range))
            .map(|(what, range)| (what, format!("{range:?}")));
        bad_range.or_else(|| {
            let bad = |(_, amount): &(String, f64)| !(amount.is_finite() && *amount >= 0.0);
            let (what, amount) = single.into_iter().find(bad)?;
            Some((what, amount.to_string()))
        })
    }
}

fn is_amount(range: Range) -> bool {
    [range.low, range.likely, range.high]
        .iter()
        .all(|figure| figure.is_finite())
        && range.low >= 0.0
        && range.likely >= 0.0
        && range.low <= range.high
}

#[cfg(test)]
pub(super) mod tests {
    use jiff::civil::{date, time};

    use super::*;

    /// A made-up dish with every kind of figure, awkward ones among them.
    pub(in crate::daylog) fn sample(day: Date, dish: &str, kcal: f64) -> Entry {
        let at = Moment {
            date: day,
            time: time(12, 30, 0, 0),
            utc_offset_seconds: -4 * 3600,
            zone: "America/New_York".to_owned(),
        };
        let mut entry = Entry::water(at, dish, 0.0, "demo catalogue 1", "demo standard");
        entry.meal = Some("lunch".to_owned());
        entry.share = 1.0 / 3.0;
        entry.grams = Range::new(90.0, 0.1 + 0.2, 110.7);
        let grains = GroupAmount {
            unit: "oz-eq".to_owned(),
            amount: Range::new(1.0, 2.0 / 3.0, 3.000_000_000_000_001),
            portions: Range::new(1.0, 2.0, 3.0),
        };
        entry.groups.insert("grains".to_owned(), grains);
        let limit = |unit: &str, amount| LimitAmount {
            unit: unit.to_owned(),
            amount,
        };
        let energy = Range::new(kcal * 0.8, kcal, kcal * 1.25);
        entry
            .limits
            .insert(ENERGY_KEY.to_owned(), limit("kcal", Some(energy)));
        entry.limits.insert("sodium".to_owned(), limit("mg", None));
        entry.nutrients.insert("protein_g".to_owned(), Some(1e-7));
        entry.nutrients.insert("alcohol_g".to_owned(), None);
        entry.uncounted.push("something, \"odd\"; =1+1".to_owned());
        entry.components.push(EatenComponent {
            text: "2 cups rice, \"sticky\"".to_owned(),
            food: Some("Rice, white, cooked".to_owned()),
            source: Some("demo 1".to_owned()),
            certainty: "likely".to_owned(),
            grams: Some(Range::new(80.0, 100.0, 123.456_789_012_345_67)),
            basis: Some("measured".to_owned()),
            free: false,
            groups: BTreeMap::from([("grains".to_owned(), 1.1)]),
            energy_kcal: Some(kcal),
            note: Some("ligne 1\nligne 2 – ünï".to_owned()),
        });
        entry
    }

    #[test]
    fn a_moment_keeps_what_the_wall_clock_showed() {
        let zoned: ZonedDateTime = "2026-10-25T02:30:15.75+01:00[Europe/Berlin]"
            .parse()
            .unwrap();
        let moment = Moment::from(&zoned);
        assert_eq!(moment.date, date(2026, 10, 25));
        assert_eq!(moment.time, time(2, 30, 15, 0));
        assert_eq!(
            (moment.utc_offset_seconds, moment.zone.as_str()),
            (3600, "Europe/Berlin")
        );
        let instant: Timestamp = "2026-10-25T01:30:15Z".parse().unwrap();
        assert_eq!(moment.instant(), Some(instant));
        let nameless = zoned.with_time_zone(TimeZone::fixed(Offset::constant(-3)));
        assert_eq!(Moment::from(&nameless).zone, "-03:00");
    }

    #[test]
    fn another_part_of_a_dish_is_in_proportion() {
        let third = sample(date(2026, 3, 1), "rice", 300.0);
        let whole = third.with_share(1.0);
        let thrice = |part: f64, all: f64| (part * 3.0 - all).abs() < 1e-9;
        let kcal = |entry: &Entry| entry.energy_kcal().unwrap();
        assert!(thrice(kcal(&third).low, kcal(&whole).low));
        assert!(thrice(third.grams.high, whole.grams.high));
        let portions = |entry: &Entry| entry.groups["grains"].portions.likely;
        assert!(thrice(portions(&third), portions(&whole)));
        let (part, all) = (&third.components[0], &whole.components[0]);
        assert!(thrice(part.groups["grains"], all.groups["grains"]));
        assert!(thrice(part.energy_kcal.unwrap(), all.energy_kcal.unwrap()));
        assert_eq!(whole.limits["sodium"].amount, None);
        assert_eq!(whole.check(), Ok(()));
    }

    #[test]
    fn what_cannot_be_read_back_is_not_taken() {
        let good = sample(date(2026, 3, 1), "rice", 300.0);
        assert_eq!(good.check(), Ok(()));
        let mut changed = Vec::new();
        let mut with = |change: &dyn Fn(&mut Entry)| {
            let mut entry = good.clone();
            change(&mut entry);
            changed.push(entry);
        };
        with(&|entry| entry.dish = " ".to_owned());
        with(&|entry| entry.dish = "a\nb".to_owned());
        with(&|entry| entry.share = 0.0);
        with(&|entry| entry.share = f64::NAN);
        with(&|entry| entry.fluid_ml = -1.0);
        with(&|entry| entry.grams.high = f64::INFINITY);
        with(&|entry| entry.groups.get_mut("grains").unwrap().amount.low = 9.0);
        with(&|entry| {
            entry.nutrients.insert("fat_g".to_owned(), Some(f64::NAN));
        });
        with(&|entry| entry.components[0].energy_kcal = Some(-1.0));
        with(&|entry| entry.at.utc_offset_seconds = 1_000_000);
        with(&|entry| entry.at.time = time(1, 2, 3, 4));
        for entry in changed {
            assert!(entry.check().is_err(), "{entry:?}");
        }
    }

    #[test]
    fn json_brings_every_figure_back() {
        let entry = sample(date(2026, 3, 1), "rice", 1.0 / 7.0);
        let text = serde_json::to_string(&entry).unwrap();
        assert_eq!(serde_json::from_str::<Entry>(&text).unwrap(), entry);
    }
}
