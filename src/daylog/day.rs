//! The sum of a day, and what is left of it.

use std::collections::BTreeMap;
use std::sync::Arc;

use jiff::civil::Date;
use serde::Serialize;

use super::entry::{ENERGY_KEY, Entry};
use crate::ledger::{Allowances, Amounts, EnergyNutrient, Group, Ledger, LedgerLine, Subject};
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
    /// Protein, carbohydrate, fat and fibre by their key, g.
    pub energy_nutrients: BTreeMap<String, Total>,
    /// ml.
    pub fluid_ml: f64,
}

impl DayTotal {
    /// Sums entries, taken to be of one diner and date, as [`crate::quantity::sum`] sums the
    /// components of a dish. What the components of one dish have in common (a generous
    /// kitchen) is in each entry's range already; the doubts of different entries are taken
    /// as independent, so that they partly cancel. A single entry's range stays as it is.
    #[must_use]
    pub(crate) fn of<'e>(date: Date, entries: impl IntoIterator<Item = &'e Entry>) -> Self {
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
    /// The likely amounts; what is not known counts for nothing.
    pub(crate) fn amounts(&self) -> Amounts {
        let mut all = Amounts::default();
        for subject in Subject::all() {
            all.set(subject, Some(self.range(subject).likely));
        }
        all
    }

    /// The day against what it allows.
    pub(crate) fn ledger(&self, allowances: &Arc<Allowances>) -> Ledger {
        let amount = |subject| Some(Estimate::from_range(self.range(subject)));
        let pulses = self.range(Group::Pulses.into());
        let counted = |subject: Subject| {
            // So it holds also for days logged when pulses counted elsewhere.
            let pulses = pulses.times(allowances.pulses().per_cup(subject));
            Some(Estimate::from_range(together(&[
                self.range(subject),
                pulses,
            ])))
        };
        Ledger::of_amounts(Estimate::default(), amount, counted, allowances)
    }

    /// Entries whose figure of a subject is missing: the true sum is higher.
    pub(crate) fn missing(&self, subject: Subject) -> usize {
        match subject {
            Subject::Limit(limit) => self.limits.get(limit.key()).map_or(0, |sum| sum.missing),
            Subject::Nutrient(nutrient) => {
                let total = self.energy_nutrients.get(nutrient.key());
                total.map_or(0, |sum| sum.missing)
            }
            Subject::Group(_) => 0,
        }
    }

    /// The sum of the known figures of a subject, in its unit.
    fn range(&self, subject: Subject) -> Range {
        let key = subject.key();
        let amount = match subject {
            Subject::Limit(_) => self.limits.get(key).map(|sum| sum.amount),
            Subject::Group(_) => self.groups.get(key).map(|sum| sum.amount),
            Subject::Nutrient(_) => self.energy_nutrients.get(key).map(|sum| sum.amount),
        };
        amount.unwrap_or_default()
    }
}

/// The parts of a day's sums, by key; a range is only told once all parts are known.
#[derive(Default)]
struct Sums {
    entries: usize,
    groups: BTreeMap<String, (String, Vec<Range>, Vec<Range>)>,
    limits: BTreeMap<String, (String, Vec<Range>, usize)>,
    nutrients: BTreeMap<String, (f64, usize)>,
    energy_nutrients: BTreeMap<String, (String, Vec<Range>, usize)>,
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
        for nutrient in EnergyNutrient::ALL {
            let sums = &mut self.energy_nutrients;
            let sum = sums.entry(nutrient.key().to_owned()).or_default();
            "g".clone_into(&mut sum.0);
            match entry.energy_nutrient(*nutrient) {
                Some(amount) => sum.1.push(amount),
                None => sum.2 += 1,
            }
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
        let nutrients = self.energy_nutrients.into_iter();
        let nutrients = nutrients.map(|(key, sum)| (key, limit(sum)));
        DayTotal {
            date,
            entries: self.entries,
            groups: groups.collect(),
            limits: limits.collect(),
            nutrients: self.nutrients,
            energy_nutrients: nutrients.collect(),
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

/// What is left of a day of one limit or group.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Left {
    /// What was eaten so far, against the day.
    pub line: LedgerLine,
    /// Entries whose figure is missing: less is left than it says.
    pub missing: usize,
}

impl Left {
    /// Eaten so far, in the subject's unit.
    pub(crate) fn eaten(&self) -> Range {
        self.line.range().unwrap_or_default()
    }

    /// What is left, in the subject's unit, below 0 when it is passed.
    pub(crate) fn left(&self) -> Range {
        self.line.left().unwrap_or_default()
    }

    /// Likely eaten over allowance.
    pub(crate) fn share(&self) -> f64 {
        self.line.share().unwrap_or_default()
    }
}

/// Protein, carbohydrate, fat and fibre of a day, grams; only protein has an allowance, where
/// the person has a target.
pub(crate) fn nutrients(total: &DayTotal, allowances: &Arc<Allowances>) -> Vec<Left> {
    let row = |line: LedgerLine| Left {
        line,
        missing: total.missing(line.subject),
    };
    total.ledger(allowances).nutrients().map(row).collect()
}

/// What is left of a day after a total, of whatever the day allows some of: limits, then
/// groups.
pub(crate) fn left(total: &DayTotal, allowances: &Arc<Allowances>) -> Vec<Left> {
    let left = |line: LedgerLine| Left {
        line,
        missing: total.missing(line.subject),
    };
    total.ledger(allowances).allowed().map(left).collect()
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::super::entry::tests::sample;
    use super::*;
    use crate::ledger::{Day, Limit, PulsesAs, Standard};

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

    fn allowances(pulses: PulsesAs) -> Arc<Allowances> {
        let standard = Standard::embedded("us-style").unwrap();
        Arc::new(Allowances::of(Day {
            standard: &standard,
            energy_kcal: 2000.0,
            pulses,
            protein_g: None,
        }))
    }

    fn of(rows: &[Left], subject: impl Into<Subject>) -> Left {
        let subject = subject.into();
        *rows.iter().find(|r| r.line.subject == subject).unwrap()
    }

    #[test]
    fn left_is_the_allowance_less_what_was_eaten() {
        let day = date(2026, 5, 1);
        let entry = sample(day, "rice", 1500.0);
        let total = DayTotal::of(day, [&entry, &entry]);
        let rows = left(&total, &allowances(PulsesAs::Vegetables));
        let energy = of(&rows, Limit::Energy);
        assert!(close(energy.left().likely, -1000.0) && close(energy.share(), 1.5));
        let Range { low, likely, high } = energy.left();
        assert!(low < likely && likely < high);
        // 6 ounce-equivalents a day at 2,000 kcal (Dietary Guidelines 2020-2025, table A3-2).
        let (grains, eaten) = (of(&rows, Group::Grains), 2.0 * 2.0 / 3.0);
        assert!(close(grains.eaten().likely, eaten) && close(grains.left().likely, 6.0 - eaten));
        let dairy = of(&rows, Group::Dairy);
        assert!(close(dairy.left().likely, 3.0) && close(dairy.share(), 0.0));
        let sodium = of(&rows, Limit::Sodium);
        assert_eq!((sodium.missing, sodium.eaten()), (2, Range::default()));
        // No official figure, no row; limits come first.
        let solid = Subject::from(Limit::SolidFats);
        assert!(!rows.iter().any(|r| r.line.subject == solid));
        assert_eq!(rows[0].line.subject, Subject::ENERGY);
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
        let mut put = |key: &str, amount| entry.groups.insert(key.to_owned(), amount);
        put("vegetables", group("cup-eq", 1.0));
        put("pulses", group("cup-eq", 0.5));
        let total = DayTotal::of(day, [&entry]);
        let eaten = |pulses, group: Group| of(&left(&total, &allowances(pulses)), group).eaten();
        let (vegetables, protein) = (Group::Vegetables, Group::ProteinFoods);
        assert!(close(eaten(PulsesAs::Vegetables, vegetables).likely, 1.5));
        assert!(close(eaten(PulsesAs::ProteinFoods, vegetables).likely, 1.0));
        assert!(close(eaten(PulsesAs::ProteinFoods, protein).likely, 2.0));
        assert!(close(
            eaten(PulsesAs::Vegetables, Group::Pulses).likely,
            0.5
        ));
    }

    #[test]
    fn a_day_without_entries_says_so() {
        let total = DayTotal::of(date(2026, 5, 1), []);
        assert_eq!((total.entries, total.energy()), (0, None));
    }
}
