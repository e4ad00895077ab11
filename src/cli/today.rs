//! Where a diner stands in their day: what was logged, and what is left.

use super::whose::Whose;
use super::{Failure, log};
use crate::daylog::{DayTotal, LEFT_TODAY, Standing, Store};
use crate::fit::{Hold, Room};
use crate::ledger::Rest;
use crate::pages::number::kcal;
use crate::pages::today as page;
use crate::people::Diner;
use crate::people::meals::Meal;
use jiff::civil::Date;

/// How a diner's day stands on a date.
pub(super) fn standing_on(store: &Store, whose: &Whose, date: Date) -> Result<Standing, Failure> {
    let name = whose.diner.as_ref().map_or("", |diner| &diner.name);
    Ok(unheld_on(store, name, date)?.against(&whose.allowances()))
}

/// The same held against nothing, for somebody no figure is given to.
pub(super) fn unheld_on(store: &Store, diner: &str, date: Date) -> Result<Standing, Failure> {
    let planned = store.planned(diner, date, date)?;
    Ok(Standing::of(date, store.day(diner, date)?, planned))
}

/// What a page needs to hold dishes against the diner's day as it stands now, and against
/// the meal asked for or the usual one at this hour. Nothing without a diner.
pub(super) fn now_for_page(
    whose: &Whose,
    meal: Option<&str>,
    for_rest: bool,
) -> Result<Option<page::Standing>, Failure> {
    let Some(diner) = &whose.diner else {
        return Ok(None);
    };
    let now = log::now(diner.zone.as_deref())?;
    let (store, _) = log::diner_of(Some(&diner.name))?;
    let standing = standing_on(&store, whose, now.date())?;
    let meal = meal_at(diner, meal, now.hour())?;
    // Protein, where the person has a target, stands below the groups.
    let protein = standing.nutrients.clone().into_iter();
    let protein = protein.filter(|row| row.line.allowed().is_some());
    Ok(Some(page::Standing {
        diner: diner.name.clone(),
        date: now.date(),
        entries: standing.records.len(),
        meal: meal.map(|meal| of_meal(meal, &standing, whose, for_rest)),
        rest: for_rest.then(|| rest_of(meal, &standing, whose)),
        left: standing.left.into_iter().chain(protein).collect(),
    }))
}

/// The meal asked for, which must be planned; else the usual one at an hour.
fn meal_at<'d>(
    diner: &'d Diner,
    asked: Option<&str>,
    hour: i8,
) -> Result<Option<&'d Meal>, Failure> {
    let Some(name) = asked else {
        return Ok(diner.meals.usual_at(hour));
    };
    let found = diner.meals.named(name);
    Ok(Some(found.ok_or_else(|| no_meal(diner, name))?))
}

fn of_meal(meal: &Meal, day: &Standing, whose: &Whose, for_rest: bool) -> page::MealStanding {
    page::MealStanding {
        name: meal.name.clone(),
        share: meal.share,
        entries: day.of_meal(&meal.name).entries,
        room: if for_rest {
            room_left(Some(meal), day, whose, Hold::Usual)
        } else {
            day.room(Some(meal), whose.day(), Hold::Usual)
        },
        of_left: for_rest,
    }
}

/// The part of the day that meals after one are planned to take, as far as nothing is logged
/// or planned for them yet.
fn others(meal: Option<&Meal>, day: &Standing, whose: &Whose) -> f64 {
    let (Some(meal), Some(diner)) = (meal, &whose.diner) else {
        return 0.0;
    };
    day.kept_for_others(meal, &diner.meals)
}

/// What the rest of the day asks of a dish for a meal, other meals eaten as planned.
fn rest_of(meal: Option<&Meal>, day: &Standing, whose: &Whose) -> Rest {
    day.rest(meal, &whose.allowances(), others(meal, day, whose))
}

/// What a dish for a meal may take of what is left of the day, when other meals are eaten as
/// planned and those to come keep their share.
fn room_left(meal: Option<&Meal>, day: &Standing, whose: &Whose, hold: Hold) -> Room {
    day.room_left(meal, whose.day(), others(meal, day, whose), hold)
}

/// What is left of a diner's day for the next dish.
pub(super) struct LeftNow {
    /// What it may take.
    pub room: Room,
    /// What it is asked for.
    pub rest: Rest,
    /// The meal it is for.
    pub meal: Option<String>,
    /// What is kept for others, where anything is.
    pub note: Option<String>,
}

/// What is left of a diner's day now, for the meal asked for or the usual one at this hour;
/// with `any_meal`, for no meal in particular unless one is asked for.
pub(super) fn left_now(
    whose: &Whose,
    asked: Option<&str>,
    any_meal: bool,
    hold: Hold,
) -> Result<LeftNow, Failure> {
    let Some(diner) = &whose.diner else {
        return Err(Failure::Request(
            "--left is of a diner's day
  = name the diner with --diner"
                .to_owned(),
        ));
    };
    let now = log::now(diner.zone.as_deref())?;
    let (store, _) = log::diner_of(Some(&diner.name))?;
    let day = standing_on(&store, whose, now.date())?;
    let meal = match asked {
        None if any_meal => None,
        asked => meal_at(diner, asked, now.hour())?,
    };
    Ok(LeftNow {
        room: room_left(meal, &day, whose, hold),
        rest: rest_of(meal, &day, whose),
        meal: meal.map(|meal| meal.name.clone()),
        note: kept_for_others(meal, &day, whose),
    })
}

/// What of the rest of the day is not for the meal at hand; nothing where all of it is.
fn kept_for_others(meal: Option<&Meal>, day: &Standing, whose: &Whose) -> Option<String> {
    let mut kept = Vec::new();
    let chosen = meal.map(|meal| meal.name.as_str());
    if day.planned_besides(chosen).next().is_some() {
        kept.push("what is planned".to_owned());
    }
    let others = others(meal, day, whose);
    if others > 0.0 {
        let part = kcal(whose.energy_kcal * others);
        kept.push(format!("{part} kcal for those to come"));
    }
    let kept = (!kept.is_empty()).then(|| kept.join(", "));
    kept.map(|kept| format!("kept for other meals of today: {kept}"))
}

/// What a meal of a diner may still take today.
pub(super) struct MealRoom {
    /// The room.
    pub room: Room,
    /// The meal's share of the day, where the room is all of it.
    pub share: Option<f64>,
    /// What was logged already and makes it less.
    pub note: Option<String>,
}

/// The room for a planned meal as the diner's day stands now.
pub(super) fn room_for_meal(
    meal: &Meal,
    diner: &Diner,
    whose: &Whose,
    hold: Hold,
) -> Result<MealRoom, Failure> {
    let (store, _) = log::diner_of(Some(&diner.name))?;
    let day = standing_on(&store, whose, log::today(diner)?)?;
    let room = day.room_named(Some(meal), whose.day(), hold);
    let of_meal = day.of_meal(&meal.name);
    let energy = |of: &DayTotal| of.energy().map_or(0.0, |total| total.amount.likely);
    let planned = kcal(whose.energy_kcal * meal.share);
    let note = |entries: usize, eaten: f64, of: &str| {
        let is = if entries == 1 { "entry" } else { "entries" };
        format!(
            "{entries} {is} of {} kcal for {of}: less is left than the {planned} kcal planned for {}",
            kcal(eaten),
            meal.name
        )
    };
    let (share, note) = if room.of == LEFT_TODAY {
        // What is planned for other meals leaves less as well.
        let used = day.with_planned(Some(&meal.name));
        let of = match used.entries - day.records.len() {
            0 => "today",
            _ => "today, with what is planned",
        };
        (None, Some(note(used.entries, energy(&used), of)))
    } else if of_meal.entries > 0 {
        let eaten = energy(&of_meal);
        (None, Some(note(of_meal.entries, eaten, &meal.name)))
    } else {
        (Some(meal.share), None)
    };
    Ok(MealRoom { room, share, note })
}

/// The error for a meal nobody planned.
pub(super) fn no_meal(diner: &Diner, name: &str) -> Failure {
    let planned: Vec<_> = diner
        .meals
        .meals()
        .iter()
        .map(|m| m.name.as_str())
        .collect();
    Failure::Request(format!(
        "no meal `{name}` is planned for {}\n  = planned are: {}",
        diner.name,
        planned.join(", ")
    ))
}
