//! What a whole menu comes to, in memory that does not grow with it.

use super::fitted::Fitted;
use super::item::{Item, PrintedIs};
use super::row::Row;
use crate::ledger::{Choice, EnergyNutrient, Limit};
use crate::matching::Certainty;
use crate::quantity::Range;
use std::collections::BTreeMap;

/// Items named at each end.
pub(crate) const NAMED: usize = 8;
/// Items named as fitting, where they are ranked for the rest of a day.
pub(crate) const RANKED: usize = 20;
/// Items listed one by one.
pub(crate) const LISTED: usize = 500;
/// Unread rows named.
pub(crate) const BAD_NAMED: usize = 8;
/// Bins of a distribution; the last takes everything above.
pub(crate) const BINS: usize = 200;
/// Width of a bin of energy, kcal.
pub(crate) const ENERGY_BIN: f64 = 50.0;
/// Width of a bin of sodium, mg.
pub(crate) const SODIUM_BIN: f64 = 100.0;

/// What the summary needs of a row.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Brief {
    /// What is ordered.
    pub item: String,
    /// Energy and its 80 % range, kcal.
    pub energy: Option<Range>,
    /// Energy that the restaurant prints, kcal: from and to.
    pub printed: Option<(f64, f64)>,
    /// Protein and its 80 % range, g.
    pub protein: Option<Range>,
    /// Sodium, mg.
    pub sodium: Option<f64>,
    /// How much of it fits the meal.
    pub fitted: Option<Fitted>,
    /// How it fits the rest of a day, where that is asked for.
    pub choice: Option<Choice>,
    /// The limit of which the largest share of a day is used, and that share.
    pub most: Option<(Limit, f64)>,
    /// The limits that are beyond a day.
    pub over: Vec<Limit>,
    /// Certainty of the least sure component.
    pub certainty: Certainty,
    /// Where the printed energy lies.
    pub printed_is: Option<PrintedIs>,
    /// Whether all of it counts.
    pub whole: bool,
    /// What of it is not counted, as written.
    pub not_counted: Vec<String>,
    /// The item as read, where it may be drawn.
    pub item_read: Option<Box<Item>>,
}

impl Brief {
    /// The brief of a row; `item_read` where it may be drawn.
    #[must_use]
    pub(crate) fn of(row: Row, item_read: Option<Box<Item>>) -> Self {
        let share = |limit: &Limit| Some((*limit, row.ledger.line(*limit).share()?));
        let shares = Limit::ALL.iter().filter_map(share);
        Self {
            energy: row.energy(),
            printed: row.printed,
            protein: row.ledger.line(EnergyNutrient::Protein).range(),
            sodium: row.ledger.line(Limit::Sodium).likely(),
            fitted: row.fitted,
            whole: row.is_whole(),
            choice: row.choice,
            most: shares.reduce(|a, b| if b.1 > a.1 { b } else { a }),
            over: row.ledger.over().collect(),
            certainty: row.certainty,
            printed_is: row.printed_is,
            not_counted: [row.unmatched, row.without_amount].concat(),
            item: row.item,
            item_read,
        }
    }
}

/// Counts in bins of one width.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Histogram {
    /// Width of a bin.
    pub width: f64,
    /// How many in each; the last bin takes everything above.
    pub counts: Vec<u64>,
    /// How many whose figure is not known.
    pub unknown: u64,
}

impl Histogram {
    fn new(width: f64) -> Self {
        Self {
            width,
            counts: vec![0; BINS],
            unknown: 0,
        }
    }

    fn add(&mut self, value: Option<f64>) {
        match value {
            Some(value) => {
                let bin = (value / self.width).max(0.0) as usize;
                self.counts[bin.min(BINS - 1)] += 1;
            }
            None => self.unknown += 1,
        }
    }

    /// How many in all.
    pub(crate) fn total(&self) -> u64 {
        self.counts.iter().sum()
    }

    /// The value that so large a part (0 to 1) of the items does not pass, to a bin's width;
    /// nothing when there are none.
    pub(crate) fn quantile(&self, part: f64) -> Option<f64> {
        let total = self.total();
        let mut left = part * total as f64;
        for (bin, count) in self.counts.iter().enumerate().filter(|(_, c)| **c > 0) {
            if left <= *count as f64 {
                return Some((bin as f64 + left / *count as f64) * self.width);
            }
            left -= *count as f64;
        }
        None
    }

    /// The same in at most `most` wider bins of a round width, empty ends left off: lower
    /// bound, upper bound (nothing for the last bin of all), count.
    pub(crate) fn coarse(&self, most: usize) -> Vec<(f64, Option<f64>, u64)> {
        let Some(last) = self.counts.iter().rposition(|c| *c > 0) else {
            return Vec::new();
        };
        let first = self.counts.iter().position(|c| *c > 0).unwrap_or(0);
        let fold = [1, 2, 4, 10, 20, 40, 100, 200]
            .into_iter()
            .find(|fold| last / fold - first / fold < most)
            .unwrap_or(BINS);
        (first / fold..=last / fold)
            .map(|at| {
                let (from, to) = (at * fold, ((at + 1) * fold).min(BINS));
                let count = self.counts[from..to].iter().sum();
                let upper = (to < BINS).then_some(to as f64 * self.width);
                (from as f64 * self.width, upper, count)
            })
            .collect()
    }
}

/// An item named in the summary.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct NamedItem {
    /// Its place in the menu, which decides between equals.
    pub at: u64,
    /// Its brief.
    pub brief: Brief,
}

/// What a whole menu comes to.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Summary {
    /// Items audited and kept.
    pub items: u64,
    /// Rows that could not be used.
    pub bad: u64,
    /// Items of which a component is not counted.
    pub incomplete: u64,
    /// Items that go beyond a day of each limit.
    pub over: BTreeMap<Limit, u64>,
    /// Items whose printed energy lies below, in, above the estimated range.
    pub printed: [u64; 3],
    /// Drinks with alcohol: who sells them mostly serves at tables.
    pub with_alcohol: u64,
    /// Energy, kcal.
    pub energy: Histogram,
    /// Sodium, mg.
    pub sodium: Histogram,
    /// Items of which most fits the meal, first the largest of those that fit whole.
    pub best: Vec<NamedItem>,
    /// Items furthest beyond a day, whether they fit the rest of one or not.
    beyond: Vec<NamedItem>,
    /// The first rows that could not be used: line and reason.
    pub bad_rows: Vec<(u64, String)>,
    /// The first items, in the menu's order.
    pub first: Vec<Brief>,
}

impl Default for Summary {
    fn default() -> Self {
        Self {
            items: 0,
            bad: 0,
            incomplete: 0,
            over: BTreeMap::new(),
            printed: [0; 3],
            with_alcohol: 0,
            energy: Histogram::new(ENERGY_BIN),
            sodium: Histogram::new(SODIUM_BIN),
            best: Vec::new(),
            beyond: Vec::new(),
            bad_rows: Vec::new(),
            first: Vec::new(),
        }
    }
}

impl Summary {
    /// Adds an item.
    pub(crate) fn add(&mut self, brief: &Brief) {
        let at = self.items;
        self.items += 1;
        if self.first.len() < LISTED {
            self.first.push(Brief {
                item_read: None,
                ..brief.clone()
            });
        }
        self.incomplete += u64::from(!brief.whole);
        for limit in &brief.over {
            *self.over.entry(*limit).or_default() += 1;
        }
        if let Some(is) = brief.printed_is {
            self.printed[is as usize] += 1;
        }
        self.energy.add(brief.energy.map(|e| e.likely));
        self.sodium.add(brief.sodium);
        // Only items that count whole and are not guessed at are held up as fitting, and no drink
        // for its alcohol.
        let drink = matches!(brief.most, Some((Limit::Alcohol, _)));
        self.with_alcohol += u64::from(drink);
        if brief.whole && brief.certainty >= Certainty::Likely && !drink {
            match &brief.choice {
                // What passes a whole day of something is no example of what fits.
                None if !brief.over.is_empty() => {}
                None => keep(&mut self.best, NAMED, at, brief, fits),
                Some(_) => keep(&mut self.best, RANKED, at, brief, |b| {
                    b.choice.as_ref().map(|choice| choice.rank)
                }),
            }
        }
        keep(&mut self.beyond, NAMED, at, brief, |b| {
            let most = b.most.filter(|(limit, _)| b.over.contains(limit));
            most.map(|(_, share)| share)
        });
    }

    /// Items furthest beyond a day that are not held up as fitting the rest of one.
    pub(crate) fn only_beyond(&self) -> impl Iterator<Item = &NamedItem> {
        let fits = |item: &NamedItem| self.best.iter().any(|best| best.at == item.at);
        self.beyond.iter().filter(move |item| !fits(item))
    }

    /// Adds a row that could not be used.
    pub(crate) fn add_bad(&mut self, line: u64, reason: &str) {
        self.bad += 1;
        if self.bad_rows.len() < BAD_NAMED {
            self.bad_rows.push((line, reason.to_owned()));
        }
    }
}

/// How well an item fits a meal: by the share of it that fits; among those that fit whole, by
/// how near their largest share comes to filling the meal. Sodium that passes the meal counts
/// against it.
fn fits(brief: &Brief) -> Option<f64> {
    let fitted = brief.fitted?;
    let fills = brief.most.map_or(0.0, |(_, share)| share.min(1.0));
    let whole = if fitted.limited_by.is_none() {
        fills
    } else {
        0.0
    };
    let salt = if fitted.passes_sodium { 0.5 } else { 0.0 };
    Some(fitted.share + whole - salt)
}

/// Keeps the items that rank highest, the earlier of equals first.
fn keep(
    list: &mut Vec<NamedItem>,
    most: usize,
    at: u64,
    brief: &Brief,
    rank: impl Fn(&Brief) -> Option<f64>,
) {
    let Some(own) = rank(brief) else { return };
    let place = list.partition_point(|other| rank(&other.brief).is_some_and(|r| r >= own));
    // The same dish at another branch teaches nothing new.
    if place >= most || list.iter().any(|other| other.brief.item == brief.item) {
        return;
    }
    list.insert(
        place,
        NamedItem {
            at,
            brief: brief.clone(),
        },
    );
    list.truncate(most);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn histograms_fold_into_few_round_bins() {
        let mut histogram = Histogram::new(50.0);
        for value in [120.0, 480.0, 510.0, 990.0, 1_450.0] {
            histogram.add(Some(value));
        }
        histogram.add(None);
        let bins = histogram.coarse(10);
        assert_eq!(bins.first().map(|b| (b.0, b.1)), Some((0.0, Some(200.0))));
        assert_eq!(bins.iter().map(|b| b.2).sum::<u64>(), 5);
        assert!(bins.len() <= 10);
        assert_eq!(histogram.quantile(0.5).map(|q| (q / 50.0) as u32), Some(10));
        histogram.add(Some(1e9));
        let last = *histogram.coarse(10).last().expect("bins");
        assert_eq!((last.1, last.2), (None, 1));
    }
}
