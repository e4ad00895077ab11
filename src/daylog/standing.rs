//! Where a diner stands in their day: what was eaten, what is planned, and what the next dish
//! may take of what is left.

use super::{DayTotal, Entry, Left, Record, left, nutrients};
use crate::fit::{Hold, Room};
use crate::ledger::{Allowances, Day, Rest};
use crate::people::MealShares;
use crate::people::meals::Meal;
use jiff::civil::Date;
use std::sync::Arc;

/// A day of a diner.
#[derive(Debug)]
pub(crate) struct Standing {
    /// What was eaten on it, by its time.
    pub records: Vec<Record>,
    /// What is planned for it and not eaten yet.
    pub planned: Vec<Record>,
    /// The sum of what was eaten.
    pub total: DayTotal,
    /// What is left of it.
    pub left: Vec<Left>,
    /// What is left if it is eaten as planned.
    pub left_if: Vec<Left>,
    /// Protein, carbohydrate, fat and fibre of what was eaten.
    pub nutrients: Vec<Left>,
    /// The same with what is planned.
    pub nutrients_if: Vec<Left>,
}

/// What a room is called that the day leaves, not the meal.
pub(crate) const LEFT_TODAY: &str = "what is left of today";

impl Standing {
    /// A day held against nothing: of somebody no figure is given to.
    pub(crate) fn of(date: Date, records: Vec<Record>, planned: Vec<Record>) -> Self {
        Self {
            total: DayTotal::of(date, records.iter().map(|record| &record.entry)),
            planned,
            records,
            left: Vec::new(),
            left_if: Vec::new(),
            nutrients: Vec::new(),
            nutrients_if: Vec::new(),
        }
    }

    /// The same day held against what it allows.
    pub(crate) fn against(self, allowances: &Arc<Allowances>) -> Self {
        let planned = self.with_planned(None);
        Self {
            left: left(&self.total, allowances),
            left_if: left(&planned, allowances),
            nutrients: nutrients(&self.total, allowances),
            nutrients_if: nutrients(&planned, allowances),
            ..self
        }
    }

    fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.records.iter().map(|record| &record.entry)
    }

    /// The sum of what was logged for a meal.
    pub(crate) fn of_meal(&self, name: &str) -> DayTotal {
        let of_meal = |entry: &&Entry| entry.meal.as_deref() == Some(name);
        DayTotal::of(self.total.date, self.entries().filter(of_meal))
    }

    /// What is planned, but for a meal that is being chosen for.
    pub(crate) fn planned_besides(&self, chosen: Option<&str>) -> impl Iterator<Item = &Record> {
        let other =
            move |record: &&Record| chosen.is_none() || record.entry.meal.as_deref() != chosen;
        self.planned.iter().filter(other)
    }

    /// The sum of what was eaten and of what is planned besides a meal that is being chosen for.
    pub(crate) fn with_planned(&self, chosen: Option<&str>) -> DayTotal {
        let planned = self.planned_besides(chosen).map(|record| &record.entry);
        DayTotal::of(self.total.date, self.entries().chain(planned))
    }

    /// The part of the day that meals after one are planned to take, as far as nothing is logged
    /// or planned for them yet.
    pub(crate) fn kept_for_others(&self, meal: &Meal, plan: &MealShares) -> f64 {
        let done = |name: &str| {
            let mut all = self.records.iter().chain(&self.planned);
            all.any(|record| record.entry.meal.as_deref() == Some(name))
        };
        let after = plan.meals().iter().skip_while(|m| m.name != meal.name);
        let to_come = after.skip(1).filter(|m| !done(&m.name));
        to_come.map(|m| m.share).sum()
    }

    /// What the rest of the day asks of a dish for a meal, other meals eaten as planned and
    /// `others` of the day kept for those to come.
    pub(crate) fn rest(
        &self,
        meal: Option<&Meal>,
        allowances: &Arc<Allowances>,
        others: f64,
    ) -> Rest {
        let used = self.with_planned(meal.map(|meal| meal.name.as_str()));
        Rest::of(&used.ledger(allowances), others)
    }

    /// What a dish for a meal may take of what is left of the day, when other meals are eaten as
    /// planned and `others` of the day is kept for those to come.
    pub(crate) fn room_left(
        &self,
        meal: Option<&Meal>,
        day: Day<'_>,
        others: f64,
        hold: Hold,
    ) -> Room {
        let used = self.with_planned(meal.map(|meal| meal.name.as_str()));
        let mut room = Room::left(day, &used.amounts(), LEFT_TODAY, hold);
        room.keep_for_others(day, others, hold);
        room
    }

    /// What a dish may still hold: a meal's share of the day less what was logged for it, and no
    /// more than is left of the day, other meals eaten as planned; without a meal just that.
    pub(crate) fn room(&self, meal: Option<&Meal>, day: Day<'_>, hold: Hold) -> Room {
        let left = self.room_left(meal, day, 0.0, hold);
        let Some(meal) = meal else { return left };
        let mut room = Room::of_day(day, meal.share, &meal.name, hold);
        room.take(&self.of_meal(&meal.name).amounts());
        room.within(&left)
    }

    /// The same, called what is left of the meal where something was logged for it.
    pub(crate) fn room_named(&self, meal: Option<&Meal>, day: Day<'_>, hold: Hold) -> Room {
        let mut room = self.room(meal, day, hold);
        let of_meal = meal.filter(|meal| room.of == meal.name);
        if let Some(meal) = of_meal.filter(|meal| self.of_meal(&meal.name).entries > 0) {
            room.of = format!("what is left of {}", meal.name);
        }
        room
    }
}
