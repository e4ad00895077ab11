//! The sum of a day, and what is left of it.

use std::collections::BTreeMap;

use jiff::civil::Date;
use serde::Serialize;

use super::allowance::Allowance;
use super::entry::{ENERGY_KEY, Entry};
use crate::ledger::{Group, Limit};
use crate::quantity::{Estimate, Range, Term, sum};

/// A sum, and how many entries had no figure for it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Total {
    /// Unit of `amount`.
    pub unit: String,
    /// Sum of the known figures.
    pub amount: Range,
    /// Entries whose figure is missing: the true sum is higher.
    pub missing: usize,
}

/// The sum of one food group.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GroupTotal {
    /// Unit of `amount`.
    pub unit: String,
    /// In that unit.
    pub amount: Range,
    /// In portions of the standard the entries were logged under.
    pub portions: Range,
}

/// Everything eaten on one day.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DayTotal {
    /// The diner's local date.
    pub date: Date,
    /// How many entries are in the sums; nothing may be logged although something was eaten.
    pub entries: usize,
    /// By the group's key.
    pub groups: BTreeMap<String, GroupTotal>,
    /// By the limit's key; energy is `energy`.
    pub limits: BTreeMap<String, Total>,
    /// By the nutrient's key; likely amounts and how many entries had none.
    pub nutrients: BTreeMap<String, (f64, usize)>,
    /// ml.
    pub fluid_ml: f64,
}

impl DayTotal {
    /// Sums entries, taken to be of one diner and date, as [`crate::quantity::sum`] sums the
    /// components of a dish. What the components of one dish have in common (a generous
    /// kitchen) is in each entry's range already; the doubts of different entries are taken
    /// as independent, so that they partly cancel. A single entry's range stays as it is.
    #[must_use]
    pub fn of<'e>(date: Date, entries: impl IntoIterator<Item = &'e Entry>) -> Self {
        let mut sums = Sums::default();
        for entry in entries {
            sums.add(entry);
        }
        sums.total(date)
    }

    /// Energy, kcal, with the entries whose energy is not known.
    #[must_use]
    pub fn energy(&self) -> Option<&Total> {
        self.limits.get(ENERGY_KEY)
    }
}

impl DayTotal {
    /// The likely amounts as the right-sized plate asks for them; what is not known counts
    /// for nothing.
    #[must_use]
    pub fn eaten(&self) -> crate::fit::Eaten {
        let groups = self.groups.iter();
        let limits = self.limits.iter();
        crate::fit::Eaten {
            energy_kcal: self.energy().map_or(0.0, |total| total.amount.likely),
            groups: groups
                .filter_map(|(key, sum)| Some((Group::from_words(key)?, sum.amount.likely)))
                .collect(),
            limits: limits
                .filter_map(|(key, sum)| Some((Limit::from_words(key)?, sum.amount.likely)))
                .collect(),
        }
    }
}

/// The parts of a day's sums, by key; a range is only told once all parts are known.
#[derive(Default)]
struct Sums {
    entries: usize,
    groups: BTreeMap<String, (String, Vec<Range>, Vec<Range>)>,
    limits: BTreeMap<String, (String, Vec<Range>, usize)>,
    nutrients: BTreeMap<String, (f64, usize)>,
    fluid_ml: f64,
}

impl Sums {
    fn add(&mut self, entry: &Entry) {
        self.entries += 1;
        self.fluid_ml += entry.fluid_ml;
        for (key, eaten) in &entry.groups {
            let sum = self.groups.entry(key.clone()).or_default();
            sum.0.clone_from(&eaten.unit);
            sum.1.push(eaten.amount);
            sum.2.push(eaten.portions);
        }
        for (key, eaten) in &entry.limits {
            let sum = self.limits.entry(key.clone()).or_default();
            sum.0.clone_from(&eaten.unit);
            match eaten.amount {
                Some(amount) => sum.1.push(amount),
                None => sum.2 += 1,
            }
        }
        for (key, amount) in &entry.nutrients {
            let sum = self.nutrients.entry(key.clone()).or_default();
            sum.0 += amount.unwrap_or(0.0);
            sum.1 += usize::from(amount.is_none());
        }
    }

    fn total(self, date: Date) -> DayTotal {
        let group = |(unit, amounts, portions): (String, Vec<Range>, Vec<Range>)| GroupTotal {
            unit,
            amount: together(&amounts),
            portions: together(&portions),
        };
        let limit = |(unit, amounts, missing): (String, Vec<Range>, usize)| Total {
            unit,
            amount: together(&amounts),
            missing,
        };
        let groups = self.groups.into_iter().map(|(key, sum)| (key, group(sum)));
        let limits = self.limits.into_iter().map(|(key, sum)| (key, limit(sum)));
        DayTotal {
            date,
            entries: self.entries,
            groups: groups.collect(),
            limits: limits.collect(),
            nutrients: self.nutrients,
            fluid_ml: self.fluid_ml,
        }
    }
}

/// The sum of independent ranges; one alone, among none that say anything, stays itself.
fn together(ranges: &[Range]) -> Range {
    let telling = |range: &&Range| range.high > 0.0;
    let telling: Vec<Range> = ranges.iter().filter(telling).copied().collect();
    match telling.as_slice() {
        [] => Range::exact(0.0),
        [one] => *one,
        several => {
            let term = |range: &Range| (Term::new(Estimate::from_range(*range), 0.0), 1.0);
            sum(several.iter().map(term)).range()
        }
    }
}

/// What is left of a day of one thing.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Left {
    /// What a day allows.
    pub allowance: Allowance,
    /// Eaten so far, in the allowance's unit.
    pub eaten: Range,
    /// Allowance less eaten; below 0 when passed. The low end belongs to the high end eaten.
    pub left: Range,
    /// Likely eaten over allowance.
    pub share: f64,
    /// Entries whose figure is missing: less is left than it says.
    pub missing: usize,
}

/// What is left of each allowance after a day's total, in the order of the allowances.
///
/// Allowances that are not above 0 are left out: no share can be told.
#[must_use]
pub fn left(total: &DayTotal, allowances: &[Allowance]) -> Vec<Left> {
    let usable = allowances.iter().filter(|allowance| allowance.amount > 0.0);
    usable.map(|allowance| left_of(total, allowance)).collect()
}

fn left_of(total: &DayTotal, allowance: &Allowance) -> Left {
    let (eaten, missing) = if allowance.is_group {
        (group_eaten(total, allowance), 0)
    } else {
        let limit = total.limits.get(&allowance.key);
        (
            limit.map(|limit| limit.amount).unwrap_or_default(),
            limit.map_or(0, |limit| limit.missing),
        )
    };
    Left {
        eaten,
        left: Range::new(
            allowance.amount - eaten.high,
            allowance.amount - eaten.likely,
            allowance.amount - eaten.low,
        ),
        share: eaten.likely / allowance.amount,
        missing,
        allowance: allowance.clone(),
    }
}

/// What was eaten of a group, pulses counted in where the allowance counts them: so it holds
/// also for days logged when they counted elsewhere.
fn group_eaten(total: &DayTotal, allowance: &Allowance) -> Range {
    let amount = |key: &str| total.groups.get(key).map(|group| group.amount);
    let own = amount(&allowance.key).unwrap_or_default();
    match amount(Group::Pulses.key()).filter(|_| allowance.pulses > 0.0) {
        Some(pulses) => together(&[own, pulses.times(allowance.pulses)]),
        None => own,
    }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::super::entry::tests::sample;
    use super::*;

    fn close(a: f64, b: f64) -> bool {
        (a - b).abs() < 1e-9
    }

    #[test]
    fn one_entry_is_its_own_total_and_doubts_partly_cancel() {
        let day = date(2026, 5, 1);
        let entry = sample(day, "rice", 500.0);
        let one = DayTotal::of(day, [&entry]);
        assert_eq!(Some(one.energy().unwrap().amount), entry.energy_kcal());
        let two = DayTotal::of(day, [&entry, &entry]);
        let energy = two.energy().unwrap().amount;
        assert!(close(energy.likely, 1000.0));
        // As the components of a dish are summed, with nothing in common.
        let eaten = entry.energy_kcal().unwrap();
        let term = Term::new(Estimate::from_range(eaten), 0.0);
        assert_eq!(energy, sum([(term, 1.0), (term, 1.0)]).range());
        let relative = |range: Range| (range.high - range.low) / range.likely;
        assert!(relative(energy) < relative(eaten) / 1.3);
        assert_eq!(two.entries, 2);
        assert_eq!(two.limits["sodium"].missing, 2);
        assert_eq!(two.nutrients["alcohol_g"], (0.0, 2));
        assert!(close(two.nutrients["protein_g"].0, 2e-7));
    }

    #[test]
    fn left_is_the_allowance_less_what_was_eaten() {
        let day = date(2026, 5, 1);
        let entry = sample(day, "rice", 1500.0);
        let total = DayTotal::of(day, [&entry, &entry]);
        let allow = |key: &str, is_group, amount| Allowance {
            key: key.to_owned(),
            is_group,
            unit: if is_group { "oz-eq" } else { "kcal" }.to_owned(),
            amount,
            minimum: None,
            portion: 1.0,
            pulses: 0.0,
        };
        let allowances = [
            allow("energy", false, 2000.0),
            allow("grains", true, 6.0),
            allow("dairy", true, 3.0),
            allow("sodium", false, 2300.0),
            allow("oils", true, 0.0),
        ];
        let rows = left(&total, &allowances);
        assert_eq!(rows.len(), 4, "no share of a zero allowance");
        assert!(close(rows[0].left.likely, -1000.0) && close(rows[0].share, 1.5));
        assert!(rows[0].left.low < rows[0].left.likely && rows[0].left.likely < rows[0].left.high);
        let grains = 2.0 * 2.0 / 3.0;
        assert!(close(rows[1].eaten.likely, grains) && close(rows[1].left.likely, 6.0 - grains));
        assert!(close(rows[2].left.likely, 3.0) && close(rows[2].share, 0.0));
        assert_eq!((rows[3].missing, rows[3].eaten), (2, Range::default()));
    }

    #[test]
    fn pulses_count_where_the_allowance_says() {
        let day = date(2026, 5, 1);
        let mut entry = sample(day, "beans and salad", 300.0);
        let group = |unit: &str, likely| super::super::GroupAmount {
            unit: unit.to_owned(),
            amount: Range::exact(likely),
            portions: Range::exact(likely),
        };
        entry
            .groups
            .insert("vegetables".to_owned(), group("cup-eq", 1.0));
        entry
            .groups
            .insert("pulses".to_owned(), group("cup-eq", 0.5));
        let total = DayTotal::of(day, [&entry]);
        let counted = |key: &str, pulses| {
            let allowance = Allowance {
                key: key.to_owned(),
                is_group: true,
                unit: "any".to_owned(),
                amount: 10.0,
                minimum: None,
                portion: 1.0,
                pulses,
            };
            left(&total, &[allowance])[0].eaten.likely
        };
        assert!(close(counted("vegetables", 1.0), 1.5) && close(counted("vegetables", 0.0), 1.0));
        assert!(close(counted("protein_foods", 4.0), 2.0));
        assert!(close(counted("pulses", 0.0), 0.5));
    }

    #[test]
    fn a_day_without_entries_says_so() {
        let total = DayTotal::of(date(2026, 5, 1), []);
        assert_eq!((total.entries, total.energy()), (0, None));
    }
}
