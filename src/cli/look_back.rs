//! The days of some weeks up to today, with the week before the last.

use super::Failure;
use crate::daylog::{DayTotal, Record, Store, totals};
use jiff::ToSpan;
use jiff::civil::Date;

/// Days of a week.
const WEEK: usize = 7;

/// What was eaten in some weeks; two weeks are always there, to hold one against the other.
pub(super) struct LookBack {
    records: Vec<Record>,
    totals: Vec<DayTotal>,
    days: usize,
    from: Date,
}

impl LookBack {
    /// So many weeks of days up to and with a date. Dates before the calendar's first are left
    /// out.
    pub(super) fn of(store: &Store, diner: &str, until: Date, weeks: u32) -> Result<Self, Failure> {
        let weeks = weeks.max(1);
        let back = |weeks: u32| {
            let days = i64::from(weeks) * 7 - 1;
            until.checked_sub(days.days()).unwrap_or(Date::MIN)
        };
        let earliest = back(weeks.max(2));
        let records = store.between(diner, earliest, until)?;
        Ok(Self {
            totals: totals(&records, earliest, until),
            records,
            days: weeks as usize * WEEK,
            from: back(weeks),
        })
    }

    /// The days asked for, oldest first.
    pub(super) fn days(&self) -> &[DayTotal] {
        &self.totals[self.totals.len().saturating_sub(self.days)..]
    }

    /// The last seven days, and the seven before.
    pub(super) fn weeks(&self) -> [&[DayTotal]; 2] {
        let all = self.totals.len();
        let (week, two) = (all.saturating_sub(WEEK), all.saturating_sub(2 * WEEK));
        [&self.totals[week..], &self.totals[two..week]]
    }

    /// What was eaten on the days asked for, by its time.
    pub(super) fn records(&self) -> &[Record] {
        let first = self
            .records
            .partition_point(|r| r.entry.at.date < self.from);
        &self.records[first..]
    }
}
