//! `trencher compare`: plates side by side.

use super::arguments::{DayArgs, DishArgs, Units};
use super::handout_args::DatedPageArgs;
use super::meal::MealArgs;
use super::plate::plates_for_pages;
use super::plated::{Prepared, personal};
use super::whose::Whose;
use super::{Failure, Outcome, note, print, whose};
use crate::matching::Catalogue;
use crate::pages::compare::{Request, compare, csv, json, text};
use crate::pages::drawing::{Picture, Style, sheet};
use crate::pages::handout::{Handout, MOST_PLATES, beside_the_day, comparison, page};
use crate::pages::plating::{Plated, handout};
use clap::{Args, ValueEnum};

/// Most columns side by side in a terminal.
const MOST_SIDES: usize = 3;

/// How the comparison looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum CompareFormat {
    /// Tables for people
    Text,
    /// JSON for programs
    Json,
    /// CSV for spreadsheets
    Csv,
    /// The plates drawn at one scale
    Svg,
    /// A page with the drawn plates
    Html,
}

// `compare`.
#[derive(Debug, Clone, Args)]
pub(crate) struct CompareArgs {
    /// Which dishes: up to three as text, four in the other formats
    #[command(flatten)]
    pub dish: DishArgs,
    /// Beside the first dish its right-sized plate
    #[arg(long)]
    pub fit: bool,
    /// Beside the dishes what the day allows
    #[arg(long = "day")]
    pub beside_day: bool,
    /// Which meal
    #[command(flatten)]
    pub meal: MealArgs,
    /// Whose day
    #[command(flatten)]
    pub day: DayArgs,
    /// Output format
    #[arg(long, value_enum, default_value = "text")]
    pub format: CompareFormat,
    /// Of a page: paper, names and date
    #[command(flatten)]
    pub page: DatedPageArgs,
    /// Cups, spoons and word senses
    #[arg(long, value_enum, default_value = "us")]
    pub units: Units,
}

pub(super) fn run(args: &CompareArgs) -> Result<Outcome, Failure> {
    let whose = whose::day(&args.day)?;
    let meal = args.meal.meal(&whose)?;
    let catalogue = super::corrections::catalogue()?;
    let plates = plates_for_pages(&args.dish, args.units, &catalogue)?;
    sides(args, plates.len())?;
    let own = personal(&whose, args.day.energy.is_some());
    let prepared: Vec<Prepared> = plates
        .into_iter()
        .map(|plate| Prepared::new(plate, &whose, own, &meal, &catalogue, args.units.into()))
        .collect();
    let day = whose.words();
    let plated: Vec<Plated<'_>> = prepared.iter().map(|p| p.plated(&day, &whose)).collect();
    if args.fit && plated.iter().take(1).any(|p| p.fitted.is_none()) {
        let why = plated.iter().flat_map(|p| p.notes).next_back();
        return Err(Failure::Request(why.cloned().unwrap_or_default()));
    }
    print(&render(args, &plated, &whose, &catalogue)?)?;
    if own.is_empty() {
        whose.notes.iter().for_each(|line| note(line));
    }
    Ok(Outcome::done_if(prepared.iter().all(Prepared::is_complete)))
}

/// As many columns as the format has room for, or a word on what to add or leave.
fn sides(args: &CompareArgs, dishes: usize) -> Result<(), Failure> {
    let all = dishes + usize::from(args.fit) + usize::from(args.beside_day);
    match all {
        _ if args.fit && dishes > 1 => Err(Failure::Request(
            "--fit puts one dish beside its right-sized plate\n  = name one dish".to_owned(),
        )),
        0 | 1 => Err(Failure::Request(
            "there is nothing to compare it with\n  = name another dish, or give --fit or --day"
                .to_owned(),
        )),
        many if many > MOST_PLATES => Err(Failure::Request(format!(
            "{many} plates do not fit side by side\n  = {MOST_PLATES} at most, {MOST_SIDES} as text; --day counts as one"
        ))),
        many if many > MOST_SIDES && args.format == CompareFormat::Text => {
            Err(Failure::Request(format!(
                "{many} plates do not fit side by side in a terminal\n  = {MOST_SIDES} at most, --day counts as one; or ask for {MOST_PLATES} with --format html"
            )))
        }
        _ => Ok(()),
    }
}

fn render(
    args: &CompareArgs,
    plated: &[Plated<'_>],
    whose: &Whose,
    catalogue: &Catalogue,
) -> Result<String, Failure> {
    let request = Request {
        dishes: plated,
        fit: args.fit,
        day: args.beside_day,
    };
    let told = || compare(request, catalogue);
    let handouts = || -> Vec<Handout> { plated.iter().map(|p| handout(*p, catalogue)).collect() };
    let options = args.page.options(whose.diner.as_ref())?;
    match args.format {
        CompareFormat::Text => Ok(text(&told())),
        CompareFormat::Json => Ok(json(&told())?),
        CompareFormat::Csv => Ok(csv(&told())?),
        CompareFormat::Svg => {
            let handouts = handouts();
            let plates = handouts.iter().flat_map(|h| {
                let fitted = h.fitted.iter().filter(|_| args.fit);
                std::iter::once(&h.served)
                    .chain(fitted)
                    .map(move |p| (h, p))
            });
            let pictures: Vec<Picture> = plates
                .map(|(h, p)| {
                    if args.beside_day {
                        beside_the_day(h, p)
                    } else {
                        p.clone()
                    }
                })
                .collect();
            Ok(sheet(
                &pictures.iter().collect::<Vec<_>>(),
                &Style::default(),
            ))
        }
        CompareFormat::Html => match &handouts()[..] {
            // The page of a dish has both plates and the day's allowances.
            [one] if args.fit => page(one, &options),
            several => {
                let several: Vec<&Handout> = several.iter().collect();
                comparison(&several, args.beside_day, &options)
            }
        }
        .map_err(Failure::from),
    }
}
