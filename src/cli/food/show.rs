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
    let table = table(food);
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

/// Kind of figure, what it is of, the figure.
fn table(food: Food<'_>) -> Vec<Vec<String>> {
    let of_100g = |column: &str, figure: String| {
        vec!["per 100 g".to_owned(), column.replace('_', " "), figure]
    };
    let nutrients = Nutrient::ALL.into_iter().map(|n| {
        let figure = food.per_100g(n).map_or("not published".to_owned(), plain);
        of_100g(n.column(), figure)
    });
    let equivalents = Equivalent::ALL.into_iter().filter_map(|e| {
        let figure = food.equivalent_per_100g(e);
        (figure > 0.0).then(|| of_100g(e.column(), plain(figure)))
    });
    let measures = food.measures().map(|m| {
        let name = match m.text {
            "unstated" => "no amount named",
            name => name,
        };
        vec![
            "measure".to_owned(),
            name.to_owned(),
            format!("{} g", plain(m.grams)),
        ]
    });
    nutrients.chain(equivalents).chain(measures).collect()
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
