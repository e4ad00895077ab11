//! `trencher handout --day`: a day to tick off, for a diner or for a day's energy.

use super::handout_args::{HandoutArgs, HandoutFormat, day_args, write};
use super::whose::Whose;
use super::{Failure, Outcome, corrections, log, whose};
use crate::ledger::{Ledger, usual_cautions};
use crate::pages::day_sheet::{Ask, Columns, DaySheet, page};
use crate::people::fluid;
use crate::people::meals::MealShares;

pub(super) fn run(args: &HandoutArgs, format: HandoutFormat) -> Result<Outcome, Failure> {
    let day = day_args(args);
    let whose = whose::day(&day)?;
    let catalogue = corrections::catalogue()?;
    let usual = MealShares::default();
    let diner = whose.diner.as_ref();
    let allowances = whose.allowances();
    let fluid_ml = fluid_ml(&whose)?;
    let ask = Ask {
        name: diner.map(|diner| diner.name.as_str()),
        energy_kcal: whose.energy_kcal,
        standard: &whose.standard,
        ledger: &Ledger::unused(&allowances),
        pulses: whose.pulses,
        protein: whose
            .protein
            .as_ref()
            .map(|protein| (protein.grams, protein.source.citation.to_owned())),
        fluid_ml,
        columns: match (args.week, args.by_meal) {
            (true, _) => Columns::Week,
            (_, true) => Columns::Meals(diner.map_or(&usual, |diner| &diner.meals)),
            _ => Columns::Day,
        },
        cautions: said(&whose, fluid_ml),
    };
    let sheet = DaySheet::of(&ask, &catalogue);
    let bytes = match format {
        HandoutFormat::Text => sheet.text().into_bytes(),
        HandoutFormat::Html => {
            let mut options = args.page.options(diner)?;
            options.large_print = args.large_print;
            // The title names the client.
            options.signed.client = None;
            let page = page(&sheet, &options).map_err(|e| Failure::File(e.to_string()))?;
            page.into_bytes()
        }
        HandoutFormat::Svg | HandoutFormat::Png => {
            return Err(Failure::Request(
                "a day sheet is a page or text, not a drawing\n  = write .html or .txt".to_owned(),
            ));
        }
    };
    write(args, &bytes)?;
    Ok(Outcome::Done)
}

/// What to drink in a day, ml, where sex and age are known.
fn fluid_ml(whose: &Whose) -> Result<Option<f64>, Failure> {
    let Some(diner) = &whose.diner else {
        return Ok(None);
    };
    let intake = fluid::of_diner(diner, log::today(diner)?);
    Ok(intake.map(|intake| f64::from(intake.beverages_ml)))
}

/// The cautions of the person's day, then those of every page.
fn said(whose: &Whose, fluid_ml: Option<f64>) -> Vec<String> {
    let of_person = whose.cautions.iter().cloned();
    let protein = whose
        .protein
        .iter()
        .flat_map(|p| p.cautions.iter().cloned());
    let conditions = whose.diner.iter().flat_map(|diner| &diner.conditions);
    let conditions = conditions.map(|c| format!("With {}: {}.", c.who(), c.advice()));
    let fluid = fluid_ml.map(|_| fluid::CAUTION.to_owned());
    let usual = usual_cautions().into_iter();
    let own = of_person.chain(protein).chain(conditions).chain(fluid);
    own.chain(usual).collect()
}
