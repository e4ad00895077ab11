//! `trencher food ...`.

mod equal;
mod rank;
mod show;

use super::arguments::{Common, FoodCommand, Format, Units};
use super::{Failure, Outcome, corrections, note, print};
use crate::foods::{Food, FoodId, Nutrient};
use crate::matching::{Catalogue, Certainty, Context};
use crate::pages::escape::{cell, json};
use crate::pages::number::kcal;
use crate::pages::text::wrap;
use tabled::builder::Builder;
use tabled::settings::object::Columns;
use tabled::settings::{Alignment, Modify, Padding, Style, Width};

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
        FoodCommand::Rank { group, top, common } => rank::rank(&catalogue, &group, top, &common),
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

/// A table of text in the asked format: one shared order of columns for all formats.
pub(super) fn rows(
    header: &[&str],
    rows: &[Vec<String>],
    widths: &[usize],
    format: Format,
) -> Result<String, Failure> {
    let failed = |e: &dyn std::fmt::Display| Failure::File(e.to_string());
    match format {
        Format::Text => {
            let mut table = Builder::default();
            table.push_record(header.iter().copied());
            for row in rows {
                table.push_record(row.clone());
            }
            let mut table = table.build();
            table.with(Style::blank()).with(Padding::new(0, 1, 0, 0));
            for (column, width) in widths.iter().enumerate() {
                table.with(
                    Modify::new(Columns::one(column)).with(Width::wrap(*width).keep_words(true)),
                );
                let numeric = rows
                    .iter()
                    .all(|r| r[column].starts_with(|c: char| c.is_ascii_digit() || c == '-'));
                if numeric && !rows.is_empty() {
                    table.with(Modify::new(Columns::one(column)).with(Alignment::right()));
                }
            }
            Ok(table
                .to_string()
                .lines()
                .map(|l| l.trim_end().to_owned() + "\n")
                .collect())
        }
        Format::Json => {
            let list: Vec<_> = rows
                .iter()
                .map(|row| {
                    let pairs = header
                        .iter()
                        .zip(row)
                        .map(|(k, v)| ((*k).replace(' ', "_"), v.clone().into()));
                    serde_json::Value::Object(pairs.collect())
                })
                .collect();
            json(&list).map_err(|e| failed(&e))
        }
        Format::Csv => {
            let mut writer = csv::Writer::from_writer(Vec::new());
            writer.write_record(header).map_err(|e| failed(&e))?;
            for row in rows {
                let own = |text: &str| text == "-" || text.parse::<f64>().is_ok();
                let cells = row
                    .iter()
                    .map(|text| if own(text) { text.clone() } else { cell(text) });
                writer.write_record(cells).map_err(|e| failed(&e))?;
            }
            Ok(String::from_utf8_lossy(&writer.into_inner().map_err(|e| failed(&e))?).into_owned())
        }
    }
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
    Ok(if found.food.is_some() {
        Outcome::Done
    } else {
        Outcome::Partly
    })
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
