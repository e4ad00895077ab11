//! Looking back: averages of days against the plan, days met, meals furthest beyond it.

use std::collections::BTreeMap;
use std::sync::Arc;

use jiff::ToSpan;
use jiff::civil::Date;

use super::day::{DayTotal, Left, left, nutrients};
use super::entry::Entry;
use super::record::Record;
use crate::ledger::{Allowances, Kind, Limit, Subject, Verdict, verdict};
use crate::people::MealShares;

/// Limits that a meal is held to when it is looked back on, and whether to its part of the day
/// or to all of it, as a right-sized plate is: no restaurant dish keeps sodium and saturated
/// fat meal by meal.
const OF_A_MEAL: [(Limit, bool); 4] = [
    (Limit::Energy, true),
    (Limit::AddedSugars, true),
    (Limit::SaturatedFat, false),
    (Limit::Sodium, false),
];

/// The totals of every day from one date to another, both within, oldest first; days without
/// an entry are there with none.
pub(crate) fn totals(records: &[Record], from: Date, until: Date) -> Vec<DayTotal> {
    let mut by_date: BTreeMap<Date, Vec<&Entry>> = BTreeMap::new();
    for record in records {
        by_date
            .entry(record.entry.at.date)
            .or_default()
            .push(&record.entry);
    }
    let days = from.series(1.day()).take_while(|date| *date <= until);
    let of = |date| by_date.get(&date).into_iter().flatten().copied();
    days.map(|date| DayTotal::of(date, of(date))).collect()
}

/// One group, limit or nutrient over several days.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Average {
    /// Which.
    pub subject: Subject,
    /// Mean of the likely amounts, in the subject's unit.
    pub mean: f64,
    /// What the plan has for a day; nothing where it has none.
    pub allowed: Option<f64>,
    /// Days on which a group was reached, or a limit kept.
    pub met: usize,
    /// Days that have a figure: those on which an entry's is missing are left out.
    pub days: usize,
}

impl Average {
    /// The mean over what the plan has for a day.
    pub(crate) fn share(&self) -> Option<f64> {
        let allowed = self.allowed.filter(|allowed| *allowed > 0.0)?;
        Some(self.mean / allowed)
    }

    /// What the share means.
    pub(crate) fn verdict(&self) -> Option<Verdict> {
        Some(verdict(self.subject.kind(), self.share()?))
    }
}

/// The averages of the days on which something was logged, in the order of a day's lines.
/// Nothing for what no day has a figure of.
pub(crate) fn averages(days: &[DayTotal], allowances: &Arc<Allowances>) -> Vec<Average> {
    let mut all: Vec<Average> = Vec::new();
    for day in days.iter().filter(|day| day.entries > 0) {
        for row in lines(day, allowances) {
            let at = all.iter().position(|a| a.subject == row.line.subject);
            let at = at.unwrap_or_else(|| {
                all.push(Average {
                    subject: row.line.subject,
                    mean: 0.0,
                    allowed: row.line.allowed(),
                    met: 0,
                    days: 0,
                });
                all.len() - 1
            });
            if row.missing == 0 {
                let average = &mut all[at];
                average.mean += row.eaten().likely;
                average.days += 1;
                average.met += usize::from(is_met(&row));
            }
        }
    }
    all.retain(|average| average.days > 0);
    for average in &mut all {
        average.mean /= average.days as f64;
    }
    all
}

/// A day's limits and groups, then protein, carbohydrate, fat and fibre.
fn lines(day: &DayTotal, allowances: &Arc<Allowances>) -> Vec<Left> {
    let nutrients = nutrients(day, allowances);
    left(day, allowances).into_iter().chain(nutrients).collect()
}

/// Least share of the day's energy that counts as the day met: less is no success, and may
/// only be a day that was not logged whole (own choice).
const ENERGY_FROM: f64 = 0.8;

/// Whether a day reached a group, or kept a limit; of energy, whether it came near the plan.
fn is_met(row: &Left) -> bool {
    if row.line.subject == Subject::ENERGY && row.share() < ENERGY_FROM {
        return false;
    }
    match row.line.verdict() {
        Some(verdict) => match row.line.subject.kind() {
            Kind::ToReach => verdict.is_reached(),
            Kind::StayWithin => verdict != Verdict::Beyond,
        },
        None => false,
    }
}

/// A meal that went beyond its part of the day.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct MealBeyond {
    /// Its date.
    pub date: Date,
    /// Its name, where one was said.
    pub meal: Option<String>,
    /// What was eaten: dish and share.
    pub dishes: Vec<(String, f64)>,
    /// Limits that it went beyond: which, how much it held, how much its part of the day is;
    /// the largest excess first.
    pub beyond: Vec<(Subject, f64, f64)>,
    /// The excesses together, each as a part of the day's limit.
    excess: f64,
}

/// The meals that went furthest beyond their part of the day, the furthest first; at most so
/// many. A meal that the plan does not name is held to the largest that it does.
pub(crate) fn furthest_beyond(
    records: &[Record],
    allowances: &Arc<Allowances>,
    meals: &MealShares,
    most: usize,
) -> Vec<MealBeyond> {
    let mut by_meal: BTreeMap<(Date, Option<&str>), Vec<&Entry>> = BTreeMap::new();
    for record in records {
        let entry = &record.entry;
        let key = (entry.at.date, entry.meal.as_deref());
        by_meal.entry(key).or_default().push(entry);
    }
    let largest = meals.meals().iter().map(|meal| meal.share);
    let largest = largest.fold(0.0, f64::max);
    let of_meal = |((date, meal), entries): ((Date, Option<&str>), Vec<&Entry>)| {
        let share = meal
            .and_then(|name| meals.share_of(name))
            .unwrap_or(largest);
        beyond(date, meal, &entries, share, allowances)
    };
    let mut all: Vec<MealBeyond> = by_meal.into_iter().filter_map(of_meal).collect();
    all.sort_by(|a, b| b.excess.total_cmp(&a.excess).then(a.date.cmp(&b.date)));
    all.truncate(most);
    all
}

fn beyond(
    date: Date,
    meal: Option<&str>,
    entries: &[&Entry],
    share: f64,
    allowances: &Arc<Allowances>,
) -> Option<MealBeyond> {
    let total = DayTotal::of(date, entries.iter().copied());
    let ledger = total.ledger(allowances);
    let mut beyond: Vec<(Subject, f64, f64)> = OF_A_MEAL
        .iter()
        .filter_map(|(limit, of_meal)| {
            let line = ledger.line(*limit);
            let share = if *of_meal { share } else { 1.0 };
            let (held, part) = (line.likely()?, line.allowed()? * share);
            let passed = part > 0.0 && verdict(line.subject.kind(), held / part) == Verdict::Beyond;
            passed.then_some((line.subject, held, part))
        })
        .collect();
    let excess = |(subject, held, part): &(Subject, f64, f64)| {
        let all = ledger.line(*subject).allowed().unwrap_or(*part);
        (held - part) / all.max(f64::MIN_POSITIVE)
    };
    beyond.sort_by(|a, b| excess(b).total_cmp(&excess(a)));
    let sum = beyond.iter().map(excess).sum();
    (!beyond.is_empty()).then(|| MealBeyond {
        date,
        meal: meal.map(ToOwned::to_owned),
        dishes: entries.iter().map(|e| (e.dish.clone(), e.share)).collect(),
        beyond,
        excess: sum,
    })
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::super::entry::{LimitAmount, tests::sample};
    use super::*;
    use crate::ledger::{Day, Group, PulsesAs, Standard};
    use crate::quantity::Range;

    fn allowances() -> Arc<Allowances> {
        let standard = Standard::embedded("us-style").unwrap();
        Arc::new(Allowances::of(Day {
            standard: &standard,
            energy_kcal: 2000.0,
            pulses: PulsesAs::Vegetables,
            protein_g: None,
        }))
    }

    fn record(day: Date, meal: &str, kcal: f64, sodium: Option<f64>) -> Record {
        let mut entry = sample(day, &format!("dish of {kcal}"), kcal);
        entry.meal = Some(meal.to_owned());
        let amount = LimitAmount {
            unit: "mg".to_owned(),
            amount: sodium.map(Range::exact),
        };
        entry.limits.insert("sodium".to_owned(), amount);
        Record {
            uid: String::new(),
            diner: "Ana".to_owned(),
            number: 1,
            planned: false,
            undone: false,
            entry,
        }
    }

    /// 1 to 3 May 2026; nothing is logged on the 2nd.
    fn records() -> Vec<Record> {
        vec![
            record(date(2026, 5, 1), "lunch", 1500.0, Some(1000.0)),
            record(date(2026, 5, 1), "dinner", 700.0, Some(700.0)),
            record(date(2026, 5, 3), "lunch", 1000.0, None),
            record(date(2026, 5, 3), "dinner", 800.0, Some(3000.0)),
        ]
    }

    #[test]
    fn averages_are_of_days_with_a_figure() {
        let days = totals(&records(), date(2026, 5, 1), date(2026, 5, 3));
        let entries: Vec<usize> = days.iter().map(|day| day.entries).collect();
        assert_eq!(entries, [2, 0, 2]);
        let all = averages(&days, &allowances());
        let of = |subject: Subject| *all.iter().find(|a| a.subject == subject).unwrap();
        let energy = of(Subject::ENERGY);
        assert!((energy.mean - 2000.0).abs() < 1e-9 && energy.days == 2);
        // 2,200 kcal is beyond 2,000 by more than 5 %, 1,800 is not.
        assert_eq!((energy.met, energy.verdict()), (1, Some(Verdict::At)));
        // The lunch of the 3rd has no figure for sodium, so that day has none.
        // Far too little is no day met.
        let little = [record(date(2026, 5, 4), "lunch", 900.0, Some(1.0))];
        let little = totals(&little, date(2026, 5, 4), date(2026, 5, 4));
        assert_eq!(averages(&little, &allowances())[0].met, 0);
        let sodium = of(Limit::Sodium.into());
        assert!((sodium.mean - 1700.0).abs() < 1e-9);
        assert_eq!((sodium.days, sodium.met), (1, 1));
        // 2 x 2/3 ounce-equivalents of 6 a day.
        let grains = of(Group::Grains.into());
        assert!((grains.share().unwrap() - 8.0 / 6.0 / 6.0).abs() < 1e-9);
        assert_eq!(grains.met, 0);
        assert!(averages(&days[1..2], &allowances()).is_empty());
    }

    #[test]
    fn meals_are_held_to_their_part_of_the_day() {
        let meals: MealShares = "lunch 50%, dinner 50%".parse().unwrap();
        let all = furthest_beyond(&records(), &allowances(), &meals, 3);
        let told: Vec<(i8, &str)> = all
            .iter()
            .map(|m| (m.date.day(), m.meal.as_deref().unwrap()))
            .collect();
        // Sodium of 3,000 mg is 700 beyond the day's 2,300: 30 %; 1,500 kcal are 500 beyond
        // half of 2,000: 25 % of a day.
        assert_eq!(told, [(3, "dinner"), (1, "lunch")]);
        assert_eq!(all[0].beyond, [(Limit::Sodium.into(), 3000.0, 2300.0)]);
        assert!((all[0].excess - 700.0 / 2300.0).abs() < 1e-9);
        assert_eq!(all[1].beyond, [(Subject::ENERGY, 1500.0, 1000.0)]);
        assert_eq!(
            furthest_beyond(&records(), &allowances(), &meals, 1).len(),
            1
        );
    }
}
