//! `trencher fit`.

use super::arguments::{Common, DayArgs, DishArgs, Format};
use super::plate::{Plate, plates};
use super::today::{MealRoom, left_now, room_for_meal};
use super::whose::Whose;
use super::{Failure, Outcome, cautions, meal, print, whose};
use crate::fit::{Hold, Room, Unfit, plate_for, requests, right_size};
use crate::ledger::audit;
use crate::matching::Catalogue;
use crate::pages::fitted::{self, Against, Answer, Fitted};
use crate::people::guard::floor_kcal;
use clap::Args;

/// `--energy` below this is a plate's, not a day's, kcal.
const DAY_FROM_KCAL: f64 = 1000.0;

/// Less energy than this is no plate to fit, kcal.
const PLATE_FROM_KCAL: f64 = 50.0;

// `fit`.
#[derive(Debug, Clone, Args)]
pub(crate) struct FitArgs {
    /// Which dishes
    #[command(flatten)]
    dish: DishArgs,
    /// The meal it is for: its planned share of the day, less what a diner has logged for it
    /// today [without any: a third of the day, or the main meal of a diner's plan]
    #[arg(long, value_name = "NAME", conflicts_with = "share")]
    meal: Option<String>,
    /// Share of the day it is for, such as 1/3 or 30%
    #[arg(long, value_name = "SHARE", value_parser = meal::share_of_day, conflicts_with = "left")]
    share: Option<f64>,
    /// Hold it against what is left of the diner's day; with --meal, what meals after that one
    /// are to have is kept for them
    #[arg(long, requires = "diner")]
    left: bool,
    /// Hold every group and limit to the meal's share, sodium too
    #[arg(long)]
    strict: bool,
    /// Whose day; --energy under 1,000 kcal is this plate's
    #[command(flatten)]
    day: DayArgs,
    /// Shared options
    #[command(flatten)]
    common: Common,
}

pub(super) fn run(args: &FitArgs) -> Result<Outcome, Failure> {
    let (whose, plate_kcal) = whose(args)?;
    let MealRoom { room, share, note } = room(args, &whose, plate_kcal)?;
    let catalogue = super::corrections::catalogue()?;
    let mut outcome = Outcome::Done;
    let all = plates(&args.dish, args.common.units, &catalogue)?;
    let last = all.len().saturating_sub(1);
    for (at, plate) in all.into_iter().enumerate() {
        if at > 0 && args.common.format == Format::Text {
            print("\n")?;
        }
        let text = args.common.format == Format::Text;
        let closing = if text && at == last {
            cautions::closing()
        } else {
            Vec::new()
        };
        let request = Request {
            args,
            closing: &closing,
            whose: &whose,
            room: &room,
            share,
            logged: note.as_deref(),
            catalogue: &catalogue,
        };
        print(&request.page(&plate)?)?;
        let food = |c: &crate::weighing::WeighedComponent| c.matched.food.is_some();
        if !plate.complete || !plate.dish.components.iter().all(food) {
            outcome = Outcome::Partly;
        }
    }
    Ok(outcome)
}

/// Whose day, and this plate's energy where it was given.
fn whose(args: &FitArgs) -> Result<(Whose, Option<f64>), Failure> {
    let said = args.meal.is_some() || args.share.is_some() || args.left;
    let Some(energy) = args.day.energy.filter(|e| *e < DAY_FROM_KCAL) else {
        return Ok((whose::day(&args.day)?, None));
    };
    if said {
        return Err(Failure::Request(format!(
            "--energy {energy} is no day's energy: adults are not planned for under {} kcal a day\n  = leave out --meal and --share to make it this plate's energy",
            crate::pages::number::thousands(floor_kcal(None))
        )));
    }
    if energy < PLATE_FROM_KCAL {
        return Err(Failure::Request(format!(
            "--energy {energy} is too little for a plate\n  = give {PLATE_FROM_KCAL} kcal or more, or a share of the day with --share"
        )));
    }
    let day = DayArgs {
        energy: None,
        ..args.day.clone()
    };
    Ok((whose::day(&day)?, Some(energy)))
}

/// What the plate may take, and which share of the day that is.
fn room(args: &FitArgs, whose: &Whose, plate_kcal: Option<f64>) -> Result<MealRoom, Failure> {
    let hold = if args.strict {
        Hold::Strict
    } else {
        Hold::Usual
    };
    if args.left {
        let left = left_now(whose, args.meal.as_deref(), true, hold)?;
        return Ok(MealRoom {
            room: left.room,
            share: None,
            note: left.note,
        });
    }
    if let (Some(name), Some(diner)) = (&args.meal, &whose.diner)
        && let Some(meal) = diner.meals.named(name)
    {
        return room_for_meal(meal, diner, whose, hold);
    }
    let (share, of) = match (plate_kcal, &args.meal, args.share) {
        (Some(kcal), ..) => (kcal / whose.energy_kcal, "this plate".to_owned()),
        (None, Some(name), _) => (meal::planned(name, whose)?, name.trim().to_lowercase()),
        (None, None, share) => (
            share.unwrap_or_else(|| meal::usual(whose)),
            "this meal".to_owned(),
        ),
    };
    Ok(MealRoom {
        room: Room::of_day(whose.day(), share, &of, hold),
        share: Some(share),
        note: None,
    })
}

/// All that one run needs for each dish.
struct Request<'r> {
    args: &'r FitArgs,
    /// The cautions that the page ends with.
    closing: &'r [String],
    whose: &'r Whose,
    room: &'r Room,
    share: Option<f64>,
    /// What was logged already and leaves less room.
    logged: Option<&'r str>,
    catalogue: &'r Catalogue,
}

impl Request<'_> {
    fn page(&self, plate: &Plate) -> Result<String, Failure> {
        let (dish, day) = (&plate.dish, self.whose.day());
        let fitting = plate_for(dish, self.catalogue, self.room);
        let sized = match right_size(dish, self.catalogue, self.room) {
            Err(error) if !matches!(error, Unfit::Nothing { .. } | Unfit::Spent { .. }) => {
                return Err(Failure::Request(error.to_string()));
            }
            answer => answer,
        };
        let eaten = sized
            .as_ref()
            .ok()
            .map(|s| audit(&s.eaten(dish), self.catalogue, day));
        let parts = sized.as_ref().map(|s| s.parts(dish)).unwrap_or_default();
        let asked = match &sized {
            Err(Unfit::Spent { .. }) => crate::fit::Requests::default(),
            _ => requests(dish, self.catalogue, self.room, &parts)
                .map_err(|e| Failure::Request(e.to_string()))?,
        };
        let notes: Vec<String> = plate
            .notes
            .iter()
            .chain(&self.whose.notes)
            .map(String::as_str)
            .chain(self.logged)
            .map(str::to_owned)
            .collect();
        let served = audit(dish, self.catalogue, day);
        let page = Fitted {
            dish,
            served: &served,
            fitting: &fitting,
            room: self.room,
            against: Against {
                day,
                share: self.share,
                hold: if self.args.strict {
                    Hold::Strict
                } else {
                    Hold::Usual
                },
            },
            outcome: match (&sized, &eaten) {
                (Ok(sized), Some(eaten)) => Ok(Answer { sized, eaten }),
                (Ok(_), None) => Err(&Unfit::Empty),
                (Err(unfit), _) => Err(unfit),
            },
            requests: &asked,
            notes: &notes,
        };
        match self.args.common.format {
            Format::Text => Ok(fitted::text(&page, self.args.common.why, self.closing)),
            Format::Json => Ok(fitted::json(&page)?),
            Format::Csv => Ok(fitted::csv(&page)?),
        }
    }
}
