//! `trencher day ...`: what a person ate on which day, and what is left.

use super::arguments::{DayArgs, DishArgs, Format, Units};
use super::plate::{Plate, plates};
use super::today::{Standing, room_of, standing_on};
use super::whose::Whose;
use super::{Failure, Outcome, log, print, warn, whose};
use crate::catalogue::Catalogue;
use crate::daylog::{DayTotal, Eaten, Entry, Export, Moment, Record, Store, allowances, parse_at};
use crate::fit::{Hold, Room, right_size};
use crate::groups::audit;
use crate::library::read_text;
use crate::pages::day_page::{DayPage, dish as in_words, logged};
use crate::pages::history_page::HistoryPage;
use crate::people::fluid::adequate_intake;
use crate::people::{Diner, NoTarget, day_target};
use clap::{Args, Subcommand, ValueEnum};
use jiff::ZonedDateTime;
use jiff::civil::Date;
use std::path::{Path, PathBuf};

/// `day ...`.
#[derive(Debug, Subcommand)]
#[allow(clippy::large_enum_variant)] // one value per run
pub enum DayCommand {
    /// Log something eaten or drunk
    Eat(EatArgs),
    /// What was eaten on a day, and how it stands
    Show(LookArgs),
    /// What is left of a day
    Left(LookArgs),
    /// Take back the entry that was logged last
    Undo {
        /// Whose; may be left out when there is just one diner
        #[arg(long, value_name = "NAME")]
        diner: Option<String>,
    },
    /// Look back, group by group
    History {
        /// Whose; may be left out when there is just one diner
        #[arg(long, value_name = "NAME")]
        diner: Option<String>,
        /// How many weeks, up to and with today
        #[arg(long, default_value_t = 2, value_parser = clap::value_parser!(u32).range(1..=520))]
        weeks: u32,
        /// Output format
        #[arg(long, value_enum, default_value = "text")]
        format: Format,
    },
    /// Everything logged, for other programs and for `day import`
    Export {
        /// Whose [without it: everybody's]
        #[arg(long, value_name = "NAME")]
        diner: Option<String>,
        /// JSON holds the diners too; CSV is the entries alone
        #[arg(long, value_enum, default_value = "json")]
        format: ExportFormat,
    },
    /// Bring an export back; what is here already stays as it is
    Import {
        /// A file written by `day export` or `diner export`
        file: PathBuf,
    },
}

/// How an export is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum ExportFormat {
    /// Everything, diners included
    Json,
    /// The entries as a table
    Csv,
}

/// `day eat`.
#[derive(Debug, Args)]
pub struct EatArgs {
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
    /// Cups, spoons and word senses
    #[arg(long, value_enum, default_value = "us")]
    units: Units,
    /// Output format; CSV is a table as `day export` writes it
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
}

/// `day show`, `day left`.
#[derive(Debug, Args)]
pub struct LookArgs {
    /// Whose; may be left out when there is just one diner
    #[arg(long, value_name = "NAME")]
    diner: Option<String>,
    /// Which day, such as 2026-03-01, yesterday or monday [without it: today]
    #[arg(long)]
    date: Option<String>,
    /// Output format
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
}

/// Above 0; a fraction, a percentage or a number of servings.
fn share(text: &str) -> Result<f64, String> {
    let form = || "write a part such as `1/2`, `40%` or `half`, or servings such as `2`".to_owned();
    let plain = text.trim().to_lowercase();
    let number = |text: &str| text.trim().parse::<f64>().map_err(|_| form());
    let value = match (
        plain.as_str(),
        plain.split_once('/'),
        plain.strip_suffix('%'),
    ) {
        ("all", ..) => 1.0,
        ("half", ..) => 0.5,
        ("quarter", ..) => 0.25,
        (_, Some((top, bottom)), _) => number(top)? / number(bottom)?,
        (_, _, Some(percent)) => number(percent)? / 100.0,
        (other, ..) => number(other)?,
    };
    if value.is_finite() && value > 0.0 && value <= crate::daylog::entry::MOST_SHARE {
        Ok(value)
    } else {
        Err(form())
    }
}

pub(super) fn run(command: DayCommand) -> Result<Outcome, Failure> {
    match command {
        DayCommand::Eat(args) => eat(&args),
        DayCommand::Show(args) => look(&args, true),
        DayCommand::Left(args) => look(&args, false),
        DayCommand::Undo { diner } => undo(diner.as_deref()),
        DayCommand::History {
            diner,
            weeks,
            format,
        } => history(diner.as_deref(), weeks, format),
        DayCommand::Export { diner, format } => export(diner.as_deref(), format),
        DayCommand::Import { file } => import(&file),
    }
}

fn eat(args: &EatArgs) -> Result<Outcome, Failure> {
    let (mut store, diner) = log::diner_of(args.diner.as_deref())?;
    let now = log::now(diner.zone.as_deref())?;
    let at = match &args.at {
        Some(text) => parse_at(text, &now).map_err(|e| Failure::Request(e.to_string()))?,
        None => now,
    };
    let meal = meal_of(&diner, args.meal.as_deref(), &at)?;
    let whose = whose::of_diner(diner, &DayArgs::default())?;
    let catalogue = super::corrections::catalogue()?;
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
    let entry = |plate| entry_of(plate, &whose, &catalogue, args.share, &at, meal.clone());
    let entries = all.iter().map(entry).collect::<Result<Vec<_>, _>>()?;
    let complete = complete && entries.iter().all(|entry| entry.uncounted.is_empty());
    let records = store.eat_all(name, &entries)?;
    print(&acknowledged(&store, &whose, records, args.format)?)?;
    Ok(if complete {
        Outcome::Done
    } else {
        Outcome::Partly
    })
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
        None => Err(super::today::no_meal(diner, name)),
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
        Format::Json => serde_json::to_string_pretty(&records)? + "\n",
        Format::Csv => Export {
            version: crate::daylog::exchange::VERSION,
            diners: Vec::new(),
            entries: records,
        }
        .to_csv(),
    })
}

fn look(args: &LookArgs, show: bool) -> Result<Outcome, Failure> {
    let (store, diner) = log::diner_of(args.diner.as_deref())?;
    let now = log::now(diner.zone.as_deref())?;
    let date = match &args.date {
        Some(text) => date_of(text, &now)?,
        None => now.date(),
    };
    let refusal = refusal(&diner, now.date())?;
    let fluid_ml = match (diner.sex, diner.age_on(date)) {
        (Some(sex), Some(age)) if refusal.is_none() => {
            adequate_intake(sex, age, diner.pregnant_or_nursing).map(|f| f.beverages_ml)
        }
        _ => None,
    };
    let standing = match refusal {
        None => standing_on(
            &store,
            &whose::of_diner(diner.clone(), &DayArgs::default())?,
            date,
        )?,
        Some(_) => Standing::without_figures(&store, &diner, date)?,
    };
    let page = DayPage {
        diner: &diner.name,
        date,
        records: &standing.records,
        total: &standing.total,
        left: match &refusal {
            None => Ok(&standing.left),
            Some(sentence) => Err(sentence),
        },
        meals: &diner.meals,
        fluid_ml,
    };
    match (args.format, show) {
        (Format::Text, true) => print(&page.shown()),
        (Format::Text, false) => print(&page.left()),
        (Format::Json, _) => print(&page.json()?),
        (Format::Csv, _) => print(&page.csv()?),
    }
}

/// The sentence that stands in for figures, if any.
fn refusal(diner: &Diner, today: Date) -> Result<Option<String>, Failure> {
    match day_target(diner, today) {
        Ok(_) => Ok(None),
        Err(NoTarget::Refused(sentence)) => Ok(Some(sentence.to_string())),
        Err(other) => Err(other.into()),
    }
}

/// A day as people say it: a date, `today`, `yesterday`, a weekday.
fn date_of(text: &str, now: &ZonedDateTime) -> Result<Date, Failure> {
    // Noon is on no zone's list of times that the clock skips.
    let at = parse_at(&format!("{} 12:00", text.trim()), now);
    let at = at.map_err(|_| {
        Failure::Request(format!(
            "`{text}` is no day known here; write for example `2026-03-01`, `yesterday` or `monday`"
        ))
    })?;
    Ok(at.date())
}

fn undo(name: Option<&str>) -> Result<Outcome, Failure> {
    let (mut store, diner) = log::diner_of(name)?;
    match store.undo(&diner.name)? {
        Some(record) => {
            let entry = &record.entry;
            print(&format!(
                "Taken back for {}: {}, {} {}\n",
                record.diner,
                in_words(&entry.dish, entry.share),
                entry.at.date.strftime("%a %-d %b"),
                entry.at.time.strftime("%H:%M")
            ))
        }
        None => print(&format!("Nothing is logged for {}\n", diner.name)),
    }
}

fn history(name: Option<&str>, weeks: u32, format: Format) -> Result<Outcome, Failure> {
    let (store, diner) = log::diner_of(name)?;
    let today = log::today(&diner)?;
    let whose = whose::of_diner(diner, &DayArgs::default())?;
    let name = whose.diner.as_ref().map_or("", |diner| &diner.name);
    let days: Vec<DayTotal> = store.history(name, today, weeks)?;
    let allowances = allowances(whose.day());
    let page = HistoryPage {
        diner: name,
        days: &days,
        allowances: &allowances,
    };
    match format {
        Format::Text => print(&page.text()),
        Format::Json => print(&page.json()?),
        Format::Csv => print(&page.csv()?),
    }
}

fn export(name: Option<&str>, format: ExportFormat) -> Result<Outcome, Failure> {
    let export = match (name, log::open_if_any()?) {
        (Some(name), _) => {
            let (store, diner) = log::diner_of(Some(name))?;
            store.export(Some(&diner.name))?
        }
        (None, Some(store)) => store.export(None)?,
        (None, None) => {
            return Err(Failure::Request(
                "nothing is kept here yet, so there is nothing to export".to_owned(),
            ));
        }
    };
    print(&match format {
        ExportFormat::Json => export.to_json(),
        ExportFormat::Csv => export.to_csv(),
    })
}

fn import(file: &Path) -> Result<Outcome, Failure> {
    let text = read_text(file)?;
    let start = text.trim_start_matches('\u{feff}').trim_start();
    let read = if start.starts_with(['{', '[']) {
        Export::from_json(&text)
    } else {
        Export::from_csv(&text)
    };
    let read = read.map_err(|e| Failure::Request(format!("`{}`: {e}", file.display())))?;
    let report = log::open()?.import(&read, log::now(None)?.date())?;
    let many = |count: usize, one: &str, more: &str| match count {
        1 => format!("1 {one}"),
        _ => format!("{count} {more}"),
    };
    print(&format!(
        "Brought back {} and {}; here already: {}\n",
        many(report.diners_added, "diner", "diners"),
        many(report.entries_added, "entry", "entries"),
        many(report.entries_present, "entry", "entries")
    ))?;
    for name in &report.diners_differing {
        warn(&format!(
            "the diner `{name}` is here with other details, which were kept"
        ));
    }
    for entry in &report.entries_differing {
        warn(&format!(
            "`{entry}` is here with other figures, which were kept"
        ));
    }
    let same = report.diners_differing.is_empty() && report.entries_differing.is_empty();
    Ok(if same { Outcome::Done } else { Outcome::Partly })
}
