//! What the items of a menu are held against: a meal's part of the day, or what is left of it.

use super::menu_args::MenuArgs;
use super::today::left_now;
use super::whose::Whose;
use super::{Failure, meal};
use crate::fit::{Hold, Room};
use crate::ledger::Rest;
use crate::pages::number;

/// What the items of a menu are held against.
pub(super) struct HeldAgainst {
    /// What one meal may take.
    pub room: Room,
    /// A phrase for it.
    pub words: String,
    /// What the rest of a diner's day asks for, where items are ranked for it.
    pub rest: Option<Rest>,
    /// What is to be said of it.
    pub note: Option<String>,
}

/// What is asked for: a meal, or with `--left` the rest of a diner's day.
pub(super) fn held_against(args: &MenuArgs, whose: &Whose) -> Result<HeldAgainst, Failure> {
    if args.left {
        let left = left_now(whose, args.meal.as_deref(), false, Hold::Usual)?;
        let meal = left
            .meal
            .unwrap_or_else(|| "the rest of the day".to_owned());
        return Ok(HeldAgainst {
            words: format!(
                "what is left for {meal}, {} of {} kcal",
                number::kcal(left.room.energy_kcal.max(0.0)),
                number::kcal(whose.energy_kcal)
            ),
            room: left.room,
            rest: Some(left.rest),
            note: left.note,
        });
    }
    let meal = meal(args.meal.as_deref(), whose)?;
    Ok(HeldAgainst {
        room: Room::of_day(whose.day(), meal, "this meal", Hold::Usual),
        words: format!(
            "a meal of {}, {} kcal",
            meal::words(meal),
            number::thousands(whose.energy_kcal)
        ),
        rest: None,
        note: None,
    })
}

/// The part of the day that a meal takes: a figure, or a meal of the diner's day.
fn meal(text: Option<&str>, whose: &Whose) -> Result<f64, Failure> {
    match text.map(|text| (text, meal::share_of_day(text))) {
        None => Ok(meal::usual(whose)),
        Some((_, Ok(share))) => Ok(share),
        Some((name, Err(_))) => meal::planned(name, whose),
    }
}
