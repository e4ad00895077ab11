//! `trencher food free`: foods of which a serving counts for nothing.

use super::super::arguments::{Common, Format};
use super::super::rows::rows;
use super::super::{Failure, Outcome, print};
use crate::foods::Nutrient;
use crate::ledger::free_foods;
use crate::matching::Catalogue;
use crate::pages::number::{grams, kcal, thousands};
use crate::pages::text::wrap;

/// Sodium from which a serving is told to be salty, mg: what may call itself low in sodium has
/// no more (21 CFR 101.61).
const SALTY_FROM_MG: f64 = 140.0;

pub(super) fn free(catalogue: &Catalogue, common: &Common) -> Result<Outcome, Failure> {
    let mut kind = "";
    let text_format = common.format == Format::Text;
    let table: Vec<Vec<String>> = free_foods(catalogue)
        .iter()
        .map(|food| {
            let of = |n| food.of(n).unwrap_or_default();
            let sodium = of(Nutrient::SodiumMg);
            let first = food.row.kind != kind || !text_format;
            kind = &food.row.kind;
            vec![
                if first {
                    kind.to_owned()
                } else {
                    String::new()
                },
                food.row.said.clone(),
                serving(&food.row.unit),
                kcal(of(Nutrient::EnergyKcal)),
                grams(of(Nutrient::CarbohydrateG)),
                if sodium > SALTY_FROM_MG {
                    format!(
                        "salty: {} mg sodium",
                        thousands((sodium / 10.0).round() * 10.0)
                    )
                } else {
                    String::new()
                },
            ]
        })
        .collect();
    let header = [
        "kind",
        "food",
        "one serving",
        "kcal",
        "carbohydrate g",
        "note",
    ];
    let mut text = rows(&header, &table, &[12, 21, 15, 5, 12, 14], common.format)?;
    if text_format {
        text = wrap(
            "Free foods: a serving has under 20 kcal and at most 5 g carbohydrate, and is no tenth \
             of a portion of any food group",
        ) + "\n"
            + &text;
        text.push_str(&wrap(
            "Rule: American Diabetes Association and Academy of Nutrition and Dietetics, Choose \
             Your Foods, free foods. Spread servings over the day, about three of what has a \
             measured serving; herbs, spices, water and plain tea as you like. Which foods are \
             listed is our own choice.",
        ));
    }
    print(&text)
}

/// `1 tablespoon`; a serving that begins with its number stays as it is.
fn serving(unit: &str) -> String {
    if unit.starts_with(|c: char| c.is_ascii_digit()) {
        unit.to_owned()
    } else {
        format!("1 {unit}")
    }
}
