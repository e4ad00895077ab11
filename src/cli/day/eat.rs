//! `trencher day eat`.

use super::super::arguments::{DayArgs, DishArgs, Format, Units};
use super::super::plate::{Plate, plates};
use super::super::today::{no_meal, room_of, standing_on};
use super::super::whose::{self, Whose};
use super::super::{Failure, Outcome, corrections, log, print_done};
use crate::daylog::{Eaten, Entry, Export, Moment, Record, Store, parse_at};
use crate::fit::{Hold, Room, right_size};
use crate::ledger::audit;
use crate::matching::Catalogue;
use crate::pages::day_page::logged;
use crate::people::Diner;
use crate::quantity::parse_share;
use clap::Args;
use jiff::ZonedDateTime;
use std::io::{BufRead, IsTerminal, Write};

/// `day eat`.
#[derive(Debug, Args)]
pub(crate) struct EatArgs {
    /// Which dishes
    #[command(flatten)]
    dish: DishArgs,
    /// How much of it, such as 1/2, 40% or 2 for two servings
    #[arg(long, default_value = "1", value_parser = share)]
    share: f64,
    /// As much of it as fits the meal and what is left of the day, as `fit` would serve it
    #[arg(long, conflicts_with = "share")]
    fit: bool,
    /// When, such as 12:30, "yesterday 19:00" or "2 hours ago" [without it: now]
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
    /// The planned meal it belongs to [without it: the usual one at that hour]
    #[arg(long, value_name = "NAME")]
    meal: Option<String>,
    /// Whose; may be left out when there is just one diner
    #[arg(long, value_name = "NAME")]
    diner: Option<String>,
    /// Log also what can hardly be so, such as ten times what is usual, without asking
    #[arg(long)]
    yes: bool,
    /// Cups, spoons and word senses
    #[arg(long, value_enum, default_value = "us")]
    units: Units,
    /// Output format; CSV is a table as `day export` writes it
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
}

/// Above 0; a fraction, a percentage or a number of servings.
fn share(text: &str) -> Result<f64, String> {
    let most = crate::daylog::entry::MOST_SHARE;
    parse_share(text)
        .filter(|share| *share <= most)
        .ok_or_else(|| {
            "write a part such as `1/2`, `40%` or `half`, or servings such as `2`".to_owned()
        })
}

pub(in crate::cli) fn eat(args: &EatArgs) -> Result<Outcome, Failure> {
    let (mut store, diner) = log::diner_of(args.diner.as_deref())?;
    let now = log::now(diner.zone.as_deref())?;
    let at = match &args.at {
        Some(text) => parse_at(text, &now).map_err(|e| Failure::Request(e.to_string()))?,
        None => now,
    };
    let meal = meal_of(&diner, args.meal.as_deref(), &at)?;
    let whose = whose::of_diner(diner, &DayArgs::default())?;
    let catalogue = corrections::catalogue()?;
    let name = whose.diner.as_ref().map_or("", |diner| &diner.name);
    let mut all = plates(&args.dish, args.units, &catalogue)?;
    let complete = all.iter().all(|plate| plate.complete);
    if args.fit {
        let [plate] = all.as_mut_slice() else {
            return Err(Failure::Request(
                "--fit takes one dish: what is left changes with each\n  = log them one by one"
                    .to_owned(),
            ));
        };
        let standing = standing_on(&store, &whose, at.date())?;
        let diner = whose.diner.as_ref();
        let meal = meal.as_deref().and_then(|m| diner?.meals.named(m));
        let room = room_of(meal, &standing, &whose, Hold::Usual);
        right_sized(plate, &catalogue, &room)?;
    }
    if !args.yes {
        plausible(&all, &whose, &catalogue)?;
    }
    let entry = |plate| entry_of(plate, &whose, &catalogue, args.share, &at, meal.clone());
    let entries = all.iter().map(entry).collect::<Result<Vec<_>, _>>()?;
    let complete = complete && entries.iter().all(|entry| entry.uncounted.is_empty());
    let records = store.eat_all(name, &entries)?;
    let logged = match records.as_slice() {
        [one] => format!("`{}` is logged for {}", one.entry.dish, one.diner),
        many => format!("{} dishes are logged for {name}", many.len()),
    };
    let answer = acknowledged(&store, &whose, records, args.format);
    let answer = answer.map_err(|failure| match failure {
        Failure::File(told) | Failure::Request(told) => {
            Failure::File(format!("{logged}, but the answer was not made: {told}"))
        }
        other => other,
    })?;
    print_done(&logged, &answer)?;
    Ok(if complete {
        Outcome::Done
    } else {
        Outcome::Partly
    })
}

/// Asks before something is logged that can hardly be so; off a terminal it is refused.
fn plausible(all: &[Plate], whose: &Whose, catalogue: &Catalogue) -> Result<(), Failure> {
    let doubts: Vec<String> = all
        .iter()
        .flat_map(|plate| audit(&plate.dish, catalogue, whose.day()).not_plausible)
        .collect();
    if doubts.is_empty() || agreed(&doubts)? {
        return Ok(());
    }
    Err(Failure::Unusable(format!(
        "not plausible: {}\n  = nothing was logged; log it all the same with --yes, or mend the amounts",
        doubts.join("; ")
    )))
}

/// Asks whoever sits at the terminal; nobody there means no.
fn agreed(doubts: &[String]) -> Result<bool, Failure> {
    if !std::io::stdin().is_terminal() {
        return Ok(false);
    }
    let mut out = std::io::stderr();
    for doubt in doubts {
        writeln!(out, "Not plausible: {}", crate::pages::text::visible(doubt))?;
    }
    write!(out, "Log it all the same? Type yes: ")?;
    out.flush()?;
    let mut answer = String::new();
    std::io::stdin()
        .lock()
        .read_line(&mut answer)
        .map_err(|e| Failure::File(format!("cannot read the answer: {e}")))?;
    Ok(matches!(answer.trim().to_lowercase().as_str(), "yes" | "y"))
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
fn meal_of(
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

fn entry_of(
    plate: &Plate,
    whose: &Whose,
    catalogue: &Catalogue,
    share: f64,
    at: &ZonedDateTime,
    meal: Option<String>,
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
    let eaten = Eaten {
        at: Moment::from(at),
        meal,
        dish,
        share,
    };
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

fn acknowledged(
    store: &Store,
    whose: &Whose,
    records: Vec<Record>,
    format: Format,
) -> Result<String, Failure> {
    Ok(match format {
        Format::Text => {
            let date = records.last().map(|record| record.entry.at.date);
            let standing = standing_on(store, whose, date.unwrap_or_default())?;
            logged(&records, &standing.left)
        }
        Format::Json => crate::pages::escape::json(&records)?,
        Format::Csv => Export {
            version: crate::daylog::VERSION,
            diners: Vec::new(),
            entries: records,
        }
        .to_csv(),
    })
}
