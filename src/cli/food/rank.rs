//! `trencher food rank`: a group's foods by nutrients for their energy.

use super::super::arguments::{Common, Format};
use super::super::rows::rows;
use super::super::{Failure, Outcome, print};
use crate::foods::{Food, Nutrient};
use crate::ledger::{Group, Per100Kcal, nrf9_3};
use crate::matching::Catalogue;
use crate::pages::number::kcal;
use crate::pages::text::wrap;

fn group_named(name: &str) -> Result<Group, Failure> {
    Group::from_words(name).ok_or_else(|| {
        let known = Group::ALL
            .iter()
            .map(|g| g.key())
            .collect::<Vec<_>>()
            .join(", ");
        Failure::Request(format!("no food group `{name}`\n  = use one of {known}"))
    })
}

/// Nutrients of 100 kcal of a food; `None` without energy.
fn per_100_kcal(food: &Food<'_>) -> Option<Per100Kcal> {
    let energy = food.per_100g(Nutrient::EnergyKcal).filter(|e| *e > 0.5)?;
    let of = |n| Some(food.per_100g(n)? * 100.0 / energy);
    Some(Per100Kcal {
        protein_g: of(Nutrient::ProteinG),
        fibre_g: of(Nutrient::FibreG),
        vitamin_a_mcg: of(Nutrient::VitaminAMcg),
        vitamin_c_mg: of(Nutrient::VitaminCMg),
        vitamin_e_mg: of(Nutrient::VitaminEMg),
        calcium_mg: of(Nutrient::CalciumMg),
        iron_mg: of(Nutrient::IronMg),
        potassium_mg: of(Nutrient::PotassiumMg),
        magnesium_mg: of(Nutrient::MagnesiumMg),
        saturated_fat_g: of(Nutrient::SaturatedFatG),
        added_sugars_g: of(Nutrient::AddedSugarsG),
        sodium_mg: of(Nutrient::SodiumMg),
    })
}

/// A food belongs to the group that gives it most of its portions, at a quarter portion per
/// 100 g at least.
pub(super) fn main_group(food: &Food<'_>) -> Option<Group> {
    Group::ALL
        .iter()
        .map(|g| {
            let amount = g.per_gram(food) * 100.0;
            // A portion of oil is 4.5 g, a teaspoon.
            (
                *g,
                if *g == Group::Oils {
                    amount / 27.0
                } else {
                    amount
                },
            )
        })
        .filter(|(_, amount)| *amount >= 0.25)
        .max_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(g, _)| g)
}

pub(super) fn rank(
    catalogue: &Catalogue,
    group: &str,
    top: usize,
    common: &Common,
) -> Result<Outcome, Failure> {
    let group = group_named(group)?;
    let mut list: Vec<(f64, Food<'_>)> = catalogue
        .foods()
        .filter(|f| main_group(f) == Some(group))
        .filter_map(|f| Some((nrf9_3(&per_100_kcal(&f)?)?, f)))
        .collect();
    list.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.name().cmp(b.1.name())));
    let table: Vec<Vec<String>> = list
        .iter()
        .take(top.clamp(1, 5000))
        .enumerate()
        .map(|(at, (score, food))| {
            vec![
                (at + 1).to_string(),
                food.name().to_owned(),
                format!("{score:.0}"),
                food.per_100g(Nutrient::EnergyKcal)
                    .map_or("-".to_owned(), kcal),
            ]
        })
        .collect();
    let mut text = rows(
        &["rank", "food", "nrf9.3", "kcal per 100 g"],
        &table,
        &[5, 50, 8, 8],
        common.format,
    )?;
    if common.format == Format::Text {
        text.push_str(&wrap(
            "NRF9.3: nine nutrients to have more of less three to have less of, percent of reference \
             per 100 kcal (Fulgoni et al., J Nutr 2009).",
        ));
    }
    print(&text)
}
