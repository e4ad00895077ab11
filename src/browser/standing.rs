//! Where a diner stands in their day, for the page.

use super::whose::{Setting, Whose};
use crate::daylog::{DayTotal, Entry, Left, left};
use crate::fit::{Hold, Room};
use crate::pages::today as page;
use crate::people::meals::Meal;
use jiff::civil::Date;

/// A day of a diner.
pub(super) struct Standing<'s> {
    /// What counts on it, by the time it was eaten.
    pub entries: Vec<&'s Entry>,
    /// Its sum.
    pub total: DayTotal,
    /// What is left of it.
    pub left: Vec<Left>,
}

/// The day of a date as it stands.
pub(super) fn on<'s>(setting: &'s Setting, whose: &Whose, date: Date) -> Standing<'s> {
    let all = setting.records.iter();
    let counts = all.filter(|record| !record.undone && !record.planned);
    let mut entries: Vec<&Entry> = counts
        .map(|record| &record.entry)
        .filter(|entry| entry.at.date == date)
        .collect();
    entries.sort_by_key(|entry| entry.at.time);
    let total = DayTotal::of(date, entries.iter().copied());
    Standing {
        left: left(&total, &whose.allowances()),
        total,
        entries,
    }
}

impl Standing<'_> {
    fn of_meal(&self, name: &str) -> DayTotal {
        let entries = self.entries.iter().copied();
        let of_meal = entries.filter(|entry| entry.meal.as_deref() == Some(name));
        DayTotal::of(self.total.date, of_meal)
    }

    /// What a dish may still hold: a meal's share of the day less what was logged for it, and
    /// no more than is left of the day; without a meal just that.
    pub fn room(&self, meal: Option<&Meal>, whose: &Whose) -> Room {
        let eaten = self.total.amounts();
        let left = Room::left(whose.day(), &eaten, "what is left of today", Hold::Usual);
        let Some(meal) = meal else { return left };
        let mut room = Room::of_day(whose.day(), meal.share, &meal.name, Hold::Usual);
        let of_meal = self.of_meal(&meal.name);
        room.take(&of_meal.amounts());
        let mut room = room.within(&left);
        if room.of == meal.name && of_meal.entries > 0 {
            room.of = format!("what is left of {}", meal.name);
        }
        room
    }

    /// What a page needs to hold a dish against the day, and against the meal at hand.
    pub fn page(&self, whose: &Whose, meal: Option<&Meal>) -> Option<page::Standing> {
        let diner = whose.diner.as_ref()?;
        Some(page::Standing {
            diner: diner.name.clone(),
            date: self.total.date,
            entries: self.entries.len(),
            meal: meal.map(|meal| page::MealStanding {
                name: meal.name.clone(),
                share: meal.share,
                entries: self.of_meal(&meal.name).entries,
                room: self.room(Some(meal), whose),
                of_left: false,
            }),
            rest: None,
            left: self.left.clone(),
        })
    }
}
