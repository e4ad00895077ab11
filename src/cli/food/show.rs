//! `trencher food show`: all figures of a food.

use super::super::arguments::{Common, Format};
use super::super::rows::rows;
use super::super::{Failure, Outcome, print};
use super::one;
use crate::foods::{Equivalent, Food, Nutrient};
use crate::matching::Catalogue;
use crate::pages::text::wrap;
use std::fmt::Write as _;

pub(super) fn show(
    catalogue: &Catalogue,
    words: &str,
    common: &Common,
) -> Result<Outcome, Failure> {
    let food = one(catalogue, words, common)?;
    if common.format == Format::Json {
        let value = json(food);
        return print(&crate::pages::escape::json(&value)?);
    }
    let mut table = Vec::new();
    for n in Nutrient::ALL {
        let value = food.per_100g(n).map_or("not published".to_owned(), plain);
        table.push(vec![
            "per 100 g".to_owned(),
            n.column().replace('_', " "),
            value,
        ]);
    }
    for e in Equivalent::ALL {
        let value = food.equivalent_per_100g(e);
        if value > 0.0 {
            table.push(vec![
                "per 100 g".to_owned(),
                e.column().replace('_', " "),
                plain(value),
            ]);
        }
    }
    for m in food.measures() {
        let name = if m.text == "unstated" {
            "no amount named"
        } else {
            m.text
        };
        table.push(vec![
            "measure".to_owned(),
            name.to_owned(),
            format!("{} g", plain(m.grams)),
        ]);
    }
    let body = rows(
        &["", "what", "figure"],
        &table,
        &[10, 44, 16],
        common.format,
    )?;
    if common.format == Format::Csv {
        return print(&body);
    }
    let mut text = wrap(&format!(
        "{} ({}, {})",
        food.name(),
        food.code(),
        food.family()
    ));
    let aliases: Vec<&str> = food.aliases().collect();
    if !aliases.is_empty() {
        text.push_str(&wrap(&format!("also: {}", aliases.join("; "))));
    }
    if let Some(refuse) = food.refuse_share() {
        let _ = writeln!(
            text,
            "not eaten: {:.0} % of the weight as bought",
            refuse * 100.0
        );
    }
    text.push('\n');
    text.push_str(&body);
    text.push_str(&wrap(&format!(
        "Source: {}; food groups: {}",
        food.source(),
        basis_words(food.basis())
    )));
    print(&text)
}

fn json(food: Food<'_>) -> serde_json::Value {
    let nutrients: serde_json::Map<_, _> = Nutrient::ALL
        .iter()
        .map(|n| (n.column().to_owned(), food.per_100g(*n).map(tidy).into()))
        .collect();
    let equivalents: serde_json::Map<_, _> = Equivalent::ALL
        .iter()
        .map(|e| {
            (
                e.column().to_owned(),
                tidy(food.equivalent_per_100g(*e)).into(),
            )
        })
        .collect();
    serde_json::json!({
        "food": food.name(), "food_id": food.code(), "family": food.family(),
        "source": food.source(), "groups_from": food.basis(),
        "aliases": food.aliases().collect::<Vec<_>>(),
        "refuse_share": food.refuse_share(),
        "per_100_g": nutrients, "equivalents_per_100_g": equivalents,
        "measures": food.measures().map(|m| serde_json::json!({"measure": m.text, "grams": tidy(m.grams)})).collect::<Vec<_>>(),
    })
}

/// What the basis of equivalents means, in words.
fn basis_words(basis: &str) -> &'static str {
    match basis {
        "fndds+fped" => "USDA FPED 2017-2020, same code",
        "recipes" => "solved from USDA's recipes (FNDDS 2021-2023, FPED 2017-2020)",
        "likeness" => "carried over from a like food (FPED 2017-2020)",
        "yours" => "as your table has them",
        like if like.starts_with("like `") => "as a like food's of the catalogue",
        _ => "counts for none (FPED 2017-2020)",
    }
}

pub(super) fn plain(value: f64) -> String {
    let text = format!("{value:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn tidy(value: f64) -> f64 {
    (value * 10_000.0).round() / 10_000.0
}
