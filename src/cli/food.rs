//! `trencher food ...`.

mod equal;
mod free;
mod household;
mod rank;
mod show;

use super::arguments::{Common, FoodCommand, Format, Units};
use super::rows::rows;
use super::{Failure, Outcome, corrections, note, print};
use crate::foods::{Food, FoodId, Nutrient};
use crate::matching::{Catalogue, Certainty, Context};
use crate::pages::number::kcal;
use crate::pages::text::wrap;

pub(super) fn run(command: FoodCommand) -> Result<Outcome, Failure> {
    let catalogue = corrections::catalogue()?;
    match command {
        FoodCommand::Find {
            words,
            top,
            correct,
            common,
        } => {
            let words = words.join(" ");
            let Some(food) = correct else {
                return find(&catalogue, &words, top, &common);
            };
            let catalogue = correct_to(catalogue, &words, &food, &common)?;
            // That no food is meant was asked for, and is no fault.
            find(&catalogue, &words, top, &common).map(|_| Outcome::Done)
        }
        FoodCommand::Corrections(command) => corrections::run(&command),
        FoodCommand::Match(args) => super::food_match::run(&args, &catalogue),
        FoodCommand::Show { food, common } => show::show(&catalogue, &food, &common),
        FoodCommand::Rank {
            group,
            top,
            all,
            common,
        } => rank::rank(&catalogue, &group, rank::Wanted { all, top }, &common),
        FoodCommand::Free { common } => free::free(&catalogue, &common),
        FoodCommand::Equal {
            component,
            top,
            common,
        } => equal::equal(&catalogue, &component, top, &common),
    }
}

/// Keeps what the person says that `words` mean, and answers with it from now on.
fn correct_to(
    catalogue: Catalogue,
    words: &str,
    food: &str,
    common: &Common,
) -> Result<Catalogue, Failure> {
    if crate::words::words(words).is_empty() {
        return Err(Failure::Request(format!(
            "`{words}` holds no word to correct"
        )));
    }
    let meant = match food.trim() {
        "none" => None,
        food => Some(one(&catalogue, food, common)?),
    };
    let made = corrections::correction(words, meant, corrections::today()?);
    corrections::keep(std::slice::from_ref(&made))?;
    note(&format!(
        "`{words}` is taken for `{}` from now on; take that back with `trencher food corrections remove {words}`",
        made.food
    ));
    let mut all = catalogue.corrections().clone();
    all.add(made);
    Ok(catalogue.corrected_by(all))
}

fn context(common: &Common) -> Context {
    Context {
        words: Vec::new(),
        british: common.units == Units::Metric,
    }
}

fn find(
    catalogue: &Catalogue,
    words: &str,
    top: usize,
    common: &Common,
) -> Result<Outcome, Failure> {
    let top = top.clamp(1, 50);
    let found = catalogue.find(words, &context(common), top);
    let mut list = Vec::new();
    if let Some(id) = found.food {
        list.push((id, found.score, found.certainty.word()));
    }
    list.extend(
        found
            .alternatives
            .iter()
            .map(|(id, score)| (*id, *score, "")),
    );
    let table: Vec<Vec<String>> = list
        .iter()
        .map(|(id, score, certainty)| {
            let food = catalogue.food(*id);
            vec![
                food.name().to_owned(),
                food.code().to_owned(),
                (*certainty).to_owned(),
                format!("{score:.2}"),
                food.per_100g(Nutrient::EnergyKcal)
                    .map_or("-".to_owned(), kcal),
            ]
        })
        .collect();
    let header = ["food", "code", "certainty", "score", "kcal per 100 g"];
    let mut text = rows(&header, &table, &[44, 10, 9, 6, 8], common.format)?;
    if common.format == Format::Text {
        if found.certainty == Certainty::None {
            text = format!("nothing fits `{words}`; nearest:\n{text}");
        }
        if common.why {
            text.push_str(&wrap(&found.why));
        }
    }
    print(&text)?;
    Ok(Outcome::done_if(found.food.is_some()))
}

/// A food by code, or by words that leave no more than a likely doubt.
fn one<'c>(catalogue: &'c Catalogue, words: &str, common: &Common) -> Result<Food<'c>, Failure> {
    if let Some(food) = catalogue.by_code(words.trim()) {
        return Ok(food);
    }
    let found = catalogue.find(words, &context(common), 4);
    match (found.food, found.certainty) {
        (Some(id), Certainty::Sure | Certainty::Likely) => Ok(catalogue.food(id)),
        (id, _) => {
            let near: Vec<&str> = id
                .into_iter()
                .chain(found.alternatives.iter().map(|(id, _)| *id))
                .take(3)
                .map(|id: FoodId| catalogue.food(id).name())
                .collect();
            let near = if near.is_empty() {
                String::new()
            } else {
                format!("\n  = nearest: {}", near.join("; "))
            };
            Err(Failure::Request(format!(
                "no food is clearly meant by `{words}`{near}"
            )))
        }
    }
}
