//! `trencher food rank`: a group's foods by nutrients for their energy.

use super::super::arguments::{Common, Format};
use super::super::rows::rows;
use super::super::{Failure, Outcome, print};
use super::household::household;
use crate::foods::{Food, Nutrient};
use crate::ledger::{Group, Per100Kcal, known_foods, nrf9_3};
use crate::matching::Catalogue;
use crate::pages::number::kcal;
use crate::pages::text::wrap;

fn group_named(name: &str) -> Result<Group, Failure> {
    Group::said(name).ok_or_else(|| {
        let known = Group::ALL
            .iter()
            .map(|g| g.key())
            .collect::<Vec<_>>()
            .join(", ");
        Failure::Request(format!("no food group `{name}`\n  = use one of {known}"))
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

/// One portion of a group in its unit, and in words.
pub(super) const fn one_portion(group: Group) -> (f64, &'static str) {
    match group {
        Group::Fruits | Group::Vegetables | Group::Pulses | Group::Dairy => (1.0, "1 cup-eq"),
        Group::Grains | Group::ProteinFoods => (1.0, "1 oz-eq"),
        Group::Oils => (4.5, "1 teaspoon, 4.5 g"),
    }
}

/// A food in the list.
struct Ranked {
    name: String,
    portion: String,
    energy: Option<f64>,
    density: f64,
}

/// Which foods are ranked, and how many are shown.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wanted {
    /// All foods of the catalogue, not just everyday ones.
    pub all: bool,
    /// The most that are shown.
    pub top: usize,
}

pub(super) fn rank(
    catalogue: &Catalogue,
    group: &str,
    wanted: Wanted,
    common: &Common,
) -> Result<Outcome, Failure> {
    let group = group_named(group)?;
    let mut list = if wanted.all {
        every_food(catalogue, group)
    } else {
        everyday(catalogue, group)
    };
    list.sort_by(|a, b| b.density.total_cmp(&a.density).then(a.name.cmp(&b.name)));
    let shown = list.iter().take(wanted.top.clamp(1, 5000)).enumerate();
    let table: Vec<Vec<String>> = shown
        .map(|(at, food)| {
            vec![
                (at + 1).to_string(),
                food.name.clone(),
                food.portion.clone(),
                food.energy.map_or("-".to_owned(), kcal),
                format!("{:.0}", food.density),
            ]
        })
        .collect();
    let header = ["rank", "food", "one portion", "kcal", "nrf9.3"];
    let widths = [5, if wanted.all { 40 } else { 28 }, 22, 6, 7];
    let mut text = rows(&header, &table, &widths, common.format)?;
    if common.format == Format::Text {
        let (_, portion) = one_portion(group);
        let of = if wanted.all {
            "all foods of the tables"
        } else {
            "foods as they are eaten and commonly known (--all for the rest)"
        };
        let head = format!(
            "{}, best first: {of}; a portion is {portion}",
            capital(group)
        );
        text = wrap(&head) + "\n" + &text;
        text.push_str(&wrap(
            "NRF9.3: nine nutrients to have more of less three to have less of, percent of reference \
             per 100 kcal (Fulgoni et al., J Nutr 2009).",
        ));
    }
    print(&text)
}

fn capital(group: Group) -> String {
    let label = group.label();
    label[..1].to_uppercase() + &label[1..]
}

fn everyday(catalogue: &Catalogue, group: Group) -> Vec<Ranked> {
    let (portion, _) = one_portion(group);
    let known = known_foods(catalogue).into_iter();
    let ranked = known.filter(|food| food.group == group).filter_map(|food| {
        let grams = food.grams_for(portion)?;
        Some(Ranked {
            name: food.row.said.clone(),
            portion: food.measured(grams),
            energy: food.energy_kcal(grams),
            density: food.density()?,
        })
    });
    ranked.collect()
}

fn every_food(catalogue: &Catalogue, group: Group) -> Vec<Ranked> {
    let (portion, _) = one_portion(group);
    let own = catalogue.foods().filter(|f| main_group(f) == Some(group));
    let ranked = own.filter_map(|food| {
        let grams = portion / group.per_gram(&food);
        let energy = food.per_100g(Nutrient::EnergyKcal);
        Some(Ranked {
            name: food.name().to_owned(),
            portion: household(&food, grams),
            energy: energy.map(|e| e * grams / 100.0),
            density: nrf9_3(&Per100Kcal::of(&food)?)?,
        })
    });
    ranked.collect()
}
