//! From what a person asks to log or plan to the entries that keep it.

use super::super::arguments::{DayArgs, DishArgs, Format, Units, share_of_dish};
use super::super::ask::agreed;
use super::super::plate::{Plate, plates};
use super::super::today::{no_meal, standing_on};
use super::super::whose::{self, Whose};
use super::super::{Failure, Outcome, corrections, print_done};
use super::log;
use crate::daylog::{ChangeKind, Eaten, Entry, Export, Moment, Record, Sense, Store, parse_at};
use crate::fit::{Hold, Room, right_size};
use crate::ledger::audit;
use crate::matching::Catalogue;
use crate::pages::day_words::{Logged, logged};
use crate::pages::text::visible;
use crate::people::Diner;
use clap::Args;
use jiff::ZonedDateTime;

// What is logged or planned, and for whom.
#[derive(Debug, Args)]
pub(crate) struct WhatArgs {
    /// Which dishes
    #[command(flatten)]
    pub(crate) dish: DishArgs,
    /// How much of it, such as 1/2, 40% or 2 for two servings [without it: all of it, or an
    /// equal part for each of several diners]; repeat for diners who ate unlike parts
    #[arg(long, value_parser = share_of_dish)]
    pub(crate) share: Vec<f64>,
    /// As much of it as fits the meal and what is left of the day, as `fit` would serve it
    #[arg(long, conflicts_with = "share")]
    pub(crate) fit: bool,
    /// The planned meal it belongs to [without it: the usual one at that hour]
    #[arg(long, value_name = "NAME")]
    pub(crate) meal: Option<String>,
    /// Whose; may be left out when there is just one diner; repeat for a dish that is shared
    #[arg(long, value_name = "NAME")]
    pub(crate) diner: Vec<String>,
    /// Log also what can hardly be so, such as ten times what is usual, without asking
    #[arg(long)]
    pub(crate) yes: bool,
    /// Cups, spoons and word senses
    #[arg(long, value_enum, default_value = "us")]
    pub(crate) units: Units,
    /// Output format; CSV is a table as `day export` writes it
    #[arg(long, value_enum, default_value = "text")]
    pub(crate) format: Format,
}

/// One who eats, with how much of it and when.
struct Eater {
    whose: Whose,
    name: String,
    share: f64,
    at: ZonedDateTime,
    meal: Option<String>,
}

/// Logs or plans what is asked, for everybody named, and says so.
pub(super) fn put(args: &WhatArgs, at: Option<&str>, kind: ChangeKind) -> Result<Outcome, Failure> {
    let (mut store, diners) = log::diners_of(&args.diner)?;
    let eaters = eaters(args, at, kind, diners)?;
    let catalogue = corrections::catalogue()?;
    let mut all = plates(&args.dish, args.units, &catalogue)?;
    let complete = all.iter().all(|plate| plate.complete);
    if args.fit {
        fit_plate(&mut all, &eaters, &store, &catalogue)?;
    }
    let mut entries: Vec<Vec<Entry>> = Vec::new();
    for (place, eater) in eaters.iter().enumerate() {
        if !args.yes && place == 0 {
            plausible(&all, &eater.whose, &catalogue)?;
        }
        let entry = |plate| entry_of(plate, eater, &catalogue);
        entries.push(all.iter().map(entry).collect::<Result<_, _>>()?);
    }
    let complete = complete && entries.iter().flatten().all(|e| e.uncounted.is_empty());
    let names = eaters.iter().map(|eater| eater.name.as_str());
    let for_each: Vec<(&str, &[Entry])> = names.zip(entries.iter().map(Vec::as_slice)).collect();
    let records = store.put(&for_each, kind)?;
    let whose: Vec<&Whose> = eaters.iter().map(|eater| &eater.whose).collect();
    tell(&store, &whose, records, args.format)?;
    Ok(Outcome::done_if(complete))
}

fn eaters(
    args: &WhatArgs,
    at: Option<&str>,
    kind: ChangeKind,
    diners: Vec<Diner>,
) -> Result<Vec<Eater>, Failure> {
    let many = diners.len();
    let share = |place: usize| match args.share.as_slice() {
        [] => Ok(1.0 / many as f64),
        [one] => Ok(*one),
        each if each.len() == many => Ok(each[place]),
        each => Err(Failure::Request(format!(
            "{} shares for {}\n  = give one --share for all of them, or one for each in the order of --diner",
            each.len(),
            if many == 1 {
                "one diner".to_owned()
            } else {
                format!("{many} diners")
            }
        ))),
    };
    let eater = |(place, diner): (usize, Diner)| {
        let at = moment(&diner, at, kind)?;
        Ok(Eater {
            share: share(place)?,
            name: diner.name.clone(),
            meal: meal_of(&diner, args.meal.as_deref(), &at)?,
            whose: whose::of_diner(diner, &DayArgs::default())?,
            at,
        })
    };
    diners.into_iter().enumerate().map(eater).collect()
}

/// When, by the diner's own clock; now where nothing is said.
fn moment(diner: &Diner, at: Option<&str>, kind: ChangeKind) -> Result<ZonedDateTime, Failure> {
    let now = log::now(diner.zone.as_deref())?;
    let Some(text) = at else { return Ok(now) };
    let sense = match kind {
        ChangeKind::Planned => Sense::Planned,
        _ => Sense::Eaten,
    };
    parse_at(text, &now, sense).map_err(|e| Failure::Request(e.to_string()))
}

/// Takes from the one dish of the one who eats what does not fit.
fn fit_plate(
    all: &mut [Plate],
    eaters: &[Eater],
    store: &Store,
    catalogue: &Catalogue,
) -> Result<(), Failure> {
    let ([plate], [eater]) = (all, eaters) else {
        return Err(Failure::Request(
            "--fit takes one dish of one diner: what is left changes with each\n  = log them one by one"
                .to_owned(),
        ));
    };
    let standing = standing_on(store, &eater.whose, eater.at.date())?;
    let diner = eater.whose.diner.as_ref();
    let meal = eater.meal.as_deref().and_then(|m| diner?.meals.named(m));
    let room = standing.room(meal, eater.whose.day(), Hold::Usual);
    right_sized(plate, catalogue, &room)
}

/// Asks before something is logged that can hardly be so; off a terminal it is refused.
pub(super) fn plausible(
    all: &[Plate],
    whose: &Whose,
    catalogue: &Catalogue,
) -> Result<(), Failure> {
    let doubts: Vec<String> = all
        .iter()
        .flat_map(|plate| audit(&plate.dish, catalogue, whose.day()).not_plausible)
        .collect();
    let told = |doubt: &String| format!("Not plausible: {}\n", visible(doubt));
    let question: String = doubts.iter().map(told).collect();
    if doubts.is_empty() || agreed(&(question + "Log it all the same?"))? {
        return Ok(());
    }
    Err(Failure::Unusable(format!(
        "not plausible: {}\n  = nothing was logged; log it all the same with --yes, or mend the amounts",
        doubts.join("; ")
    )))
}

/// Takes from a plate what does not fit, and says so in its name.
fn right_sized(plate: &mut Plate, catalogue: &Catalogue, room: &Room) -> Result<(), Failure> {
    let sized = right_size(&plate.dish, catalogue, room).map_err(|e| {
        Failure::Request(format!(
            "{e}\n  = nothing was logged; log all of it without --fit"
        ))
    })?;
    let mut eaten = sized.eaten(&plate.dish);
    let whole = |part: &Option<f64>| part.is_none_or(|part| part > 0.999);
    let less = !sized.parts(&plate.dish).iter().all(whole);
    if let Some(name) = eaten.name.as_mut().filter(|_| less) {
        name.push_str(", right-sized");
    }
    plate.dish = eaten;
    Ok(())
}

/// The meal asked for, which must be planned; or the usual one at that hour.
pub(super) fn meal_of(
    diner: &Diner,
    asked: Option<&str>,
    at: &ZonedDateTime,
) -> Result<Option<String>, Failure> {
    let Some(name) = asked else {
        let usual = diner.meals.usual_at(at.hour());
        return Ok(usual.map(|meal| meal.name.clone()));
    };
    match diner.meals.named(name) {
        Some(meal) => Ok(Some(meal.name.clone())),
        None => Err(no_meal(diner, name)),
    }
}

fn entry_of(plate: &Plate, eater: &Eater, catalogue: &Catalogue) -> Result<Entry, Failure> {
    let eaten = Eaten {
        at: Moment::from(&eater.at),
        meal: eater.meal.clone(),
        dish: String::new(),
        share: eater.share,
    };
    entry_from(plate, &eater.whose, catalogue, eaten)
}

/// The entry of a plate; where no name is given, that of the dish.
pub(super) fn entry_from(
    plate: &Plate,
    whose: &Whose,
    catalogue: &Catalogue,
    eaten: Eaten,
) -> Result<Entry, Failure> {
    let audit = audit(&plate.dish, catalogue, whose.day());
    let words: Vec<&str> = audit.components.iter().map(|c| c.text.as_str()).collect();
    let dish = audit.name.clone().unwrap_or_else(|| named_by(&words));
    if audit
        .components
        .iter()
        .all(|c| c.food.is_none() || c.grams.is_none())
    {
        return Err(Failure::Request(format!(
            "nothing of `{dish}` could be counted, so nothing was logged\n  = give each component a food and an amount, such as `2 cups romaine`"
        )));
    }
    let eaten = Eaten { dish, ..eaten };
    Ok(Entry::from_audit(&audit, catalogue, eaten))
}

/// A name for a dish that has none: its first two components.
fn named_by(words: &[&str]) -> String {
    let plain = |words: &str| {
        let one_line = words.split(char::is_whitespace).filter(|w| !w.is_empty());
        let line = one_line.collect::<Vec<_>>().join(" ");
        line.chars()
            .filter(|c| !c.is_control())
            .take(200)
            .collect::<String>()
    };
    let first: Vec<String> = words.iter().take(2).map(|w| plain(w)).collect();
    match words.len().saturating_sub(2) {
        0 => first.join(", "),
        more => format!("{}, {more} more", first.join(", ")),
    }
}

/// Says what was logged or planned, and how each one's day stands then.
pub(super) fn tell(
    store: &Store,
    whose: &[&Whose],
    records: Vec<Record>,
    format: Format,
) -> Result<Outcome, Failure> {
    let done = match records.as_slice() {
        [one] if one.planned => format!("`{}` is planned for {}", one.entry.dish, one.diner),
        [one] => format!("`{}` is logged for {}", one.entry.dish, one.diner),
        [first, ..] if first.planned => format!("{} dishes are planned", records.len()),
        many => format!("{} dishes are logged", many.len()),
    };
    let answer = acknowledged(store, whose, records, format);
    let answer = answer.map_err(|failure| match failure {
        Failure::File(told) | Failure::Request(told) => {
            Failure::File(format!("{done}, but the answer was not made: {told}"))
        }
        other => other,
    })?;
    print_done(&done, &answer)
}

fn acknowledged(
    store: &Store,
    whose: &[&Whose],
    records: Vec<Record>,
    format: Format,
) -> Result<String, Failure> {
    Ok(match format {
        Format::Text => {
            let mut text = String::new();
            for one in whose {
                let name = one.diner.as_ref().map_or("", |diner| &diner.name);
                let own: Vec<&Record> = records.iter().filter(|r| r.diner == name).collect();
                let date = own.last().map(|record| record.entry.at.date);
                let standing = standing_on(store, one, date.unwrap_or_default())?;
                let planned = own.iter().any(|record| record.planned);
                text.push_str(&logged(&Logged {
                    records: &own,
                    left: if planned {
                        &standing.left_if
                    } else {
                        &standing.left
                    },
                    several: whose.len() > 1,
                }));
            }
            text
        }
        Format::Json => crate::pages::escape::json(&records)?,
        Format::Csv => Export::of(Vec::new(), records).to_csv(),
    })
}
