//! Where a diner stands in their day, for the page.

use super::whose::{Setting, Whose};
use crate::daylog::{Record, Standing};
use crate::fit::Hold;
use crate::pages::today as page;
use crate::people::meals::Meal;
use jiff::civil::Date;

/// The day of a date as it stands; the page plans nothing.
pub(super) fn on(setting: &Setting, whose: &Whose, date: Date) -> Standing {
    let counts = |record: &&Record| !record.undone && !record.planned;
    let all = setting.records.iter().filter(counts);
    let of_date = all.filter(|record| record.entry.at.date == date);
    let mut records: Vec<Record> = of_date.cloned().collect();
    records.sort_by_key(|record| record.entry.at.time);
    Standing::of(date, records, Vec::new()).against(&whose.allowances())
}

/// What a page needs to hold a dish against the day, and against the meal at hand.
pub(super) fn page(day: &Standing, whose: &Whose, meal: Option<&Meal>) -> Option<page::Standing> {
    let diner = whose.diner.as_ref()?;
    Some(page::Standing {
        diner: diner.name.clone(),
        date: day.total.date,
        entries: day.records.len(),
        meal: meal.map(|meal| page::MealStanding {
            name: meal.name.clone(),
            share: meal.share,
            entries: day.of_meal(&meal.name).entries,
            room: day.room_named(Some(meal), whose.day(), Hold::Usual),
            of_left: false,
        }),
        rest: None,
        left: day.left.clone(),
    })
}
