//! The sum of a day, and what is left of it.

use std::collections::BTreeMap;

use jiff::civil::Date;
use serde::Serialize;

use super::entry::{ENERGY_KEY, Entry};
use crate::quantity::Range;

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
    /// Sums entries, taken to be of one diner and date. The doubts of different entries are
    /// taken as independent, so that they partly cancel.
    #[must_use]
    pub fn of<'e>(date: Date, entries: impl IntoIterator<Item = &'e Entry>) -> Self {
        let mut total = Self {
            date,
            entries: 0,
            groups: BTreeMap::new(),
            limits: BTreeMap::new(),
            nutrients: BTreeMap::new(),
            fluid_ml: 0.0,
        };
        for entry in entries {
            total.add(entry);
        }
        total
    }

    /// Energy, kcal, with the entries whose energy is not known.
    #[must_use]
    pub fn energy(&self) -> Option<&Total> {
        self.limits.get(ENERGY_KEY)
    }

    fn add(&mut self, entry: &Entry) {
        self.entries += 1;
        self.fluid_ml += entry.fluid_ml;
        for (key, eaten) in &entry.groups {
            let sum = self
                .groups
                .entry(key.clone())
                .or_insert_with(|| GroupTotal {
                    unit: eaten.unit.clone(),
                    amount: Range::default(),
                    portions: Range::default(),
                });
            sum.amount = plus(sum.amount, eaten.amount);
            sum.portions = plus(sum.portions, eaten.portions);
        }
        for (key, eaten) in &entry.limits {
            let sum = self.limits.entry(key.clone()).or_insert_with(|| Total {
                unit: eaten.unit.clone(),
                amount: Range::default(),
                missing: 0,
            });
            match eaten.amount {
                Some(amount) => sum.amount = plus(sum.amount, amount),
                None => sum.missing += 1,
            }
        }
        for (key, amount) in &entry.nutrients {
            let sum = self.nutrients.entry(key.clone()).or_default();
            sum.0 += amount.unwrap_or(0.0);
            sum.1 += usize::from(amount.is_none());
        }
    }
}

/// Adds two ranges whose doubts are independent: each side's distance from the likely value
/// adds by squares. A single entry's range stays as it is.
fn plus(a: Range, b: Range) -> Range {
    let likely = a.likely + b.likely;
    let low = (a.likely - a.low).hypot(b.likely - b.low);
    let high = (a.high - a.likely).hypot(b.high - b.likely);
    Range::new((likely - low).max(0.0), likely, likely + high)
}

/// What a day allows of one thing.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Allowance {
    /// The group's or the limit's key.
    pub key: String,
    /// Whether the key is a food group's (in portions) or a limit's (in its unit).
    pub is_group: bool,
    /// Unit to show: `portions`, `kcal`, `mg`, ...
    pub unit: String,
    /// For one day; above 0.
    pub amount: f64,
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
        let group = total.groups.get(&allowance.key);
        (group.map(|group| group.portions), 0)
    } else {
        let limit = total.limits.get(&allowance.key);
        (
            limit.map(|limit| limit.amount),
            limit.map_or(0, |limit| limit.missing),
        )
    };
    let eaten = eaten.unwrap_or_default();
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
        // 100 kcal below and 125 above, twice, by squares.
        assert!(close(energy.low, 1000.0 - 100.0 * 2.0_f64.sqrt()));
        assert!(close(energy.high, 1000.0 + 125.0 * 2.0_f64.sqrt()));
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
            unit: if is_group { "portions" } else { "kcal" }.to_owned(),
            amount,
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
        assert!(close(rows[1].eaten.likely, 4.0) && close(rows[1].left.likely, 2.0));
        assert!(close(rows[2].left.likely, 3.0) && close(rows[2].share, 0.0));
        assert_eq!((rows[3].missing, rows[3].eaten), (2, Range::default()));
    }

    #[test]
    fn a_day_without_entries_says_so() {
        let total = DayTotal::of(date(2026, 5, 1), []);
        assert_eq!((total.entries, total.energy()), (0, None));
    }
}
