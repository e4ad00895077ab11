//! `trencher food equal`: as much of the same group in foods that are eaten the same way.

use super::super::arguments::{Common, Format};
use super::super::rows::rows;
use super::super::{Failure, Outcome, print};
use super::one;
use super::rank::main_group;
use crate::foods::{Food, Nutrient, Trait};
use crate::ledger::{Group, KnownFood, known_foods};
use crate::matching::Catalogue;
use crate::pages::number::{grams, kcal, portions};
use crate::pages::text::wrap;
use crate::reading::{Amount, Measure, Place, parse_component};
use crate::weighing::weigh;

/// Most foods that are offered.
const MOST: usize = 10;

pub(super) fn equal(
    catalogue: &Catalogue,
    component: &str,
    top: usize,
    common: &Common,
) -> Result<Outcome, Failure> {
    let known = known_foods(catalogue);
    let (food, weight) = weighed(catalogue, component, &known, common)?;
    if food.has(Trait::WholeDish) && !is_plain(&food) {
        return Err(Failure::Request(format!(
            "`{}` is a dish of several food groups\n  = name one of its foods, such as `2 corn tortillas`",
            food.name()
        )));
    }
    let none_like = || {
        Failure::Request(format!(
            "`{}` counts for no food group, so nothing is like it",
            food.name()
        ))
    };
    let like = like(&food, &known).ok_or_else(none_like)?;
    let group = like.group;
    let portion = group.per_gram(&food) * weight;
    if portion <= 0.0 {
        return Err(none_like());
    }
    let offered = offered(&food, like, &known);
    let table: Vec<Vec<String>> = offered
        .iter()
        .filter_map(|other| {
            let same = other.grams_for(portion)?;
            other.is_measurable(same).then_some((other, same))
        })
        .take(top.clamp(1, MOST))
        .map(|(other, same)| {
            vec![
                other.row.said.clone(),
                other.measured(same),
                grams(same),
                other.energy_kcal(same).map_or("-".to_owned(), kcal),
            ]
        })
        .collect();
    let header = ["food", "about", "grams", "kcal"];
    let mut text = rows(&header, &table, &[30, 24, 6, 6], common.format)?;
    if common.format == Format::Text {
        text = wrap(&heading(component, &food, weight, like)) + "\n" + &text;
    }
    print(&text)
}

/// What the amount is, and how much of its group.
fn heading(component: &str, food: &Food<'_>, weight: f64, like: &KnownFood<'_>) -> String {
    let group = like.group;
    let portion = group.per_gram(food) * weight;
    let energy = food.per_100g(Nutrient::EnergyKcal);
    let energy = energy.map_or(String::new(), |e| {
        format!(", {} kcal", kcal(e * weight / 100.0))
    });
    format!(
        "{component} ({}, {} g{energy}) is {} {} of {}{}. As much in foods that are eaten the same way:",
        food.name(),
        grams(weight),
        portions(portion),
        group.unit().word(),
        group.label(),
        looks_like(&like.row.used_as, portion),
    )
}

/// Whether it is hardly of more than one group.
fn is_plain(food: &Food<'_>) -> bool {
    let groups = Group::ALL.iter().filter(|group| **group != Group::Oils);
    let amounts: Vec<f64> = groups.map(|group| group.per_gram(food)).collect();
    let most = amounts.iter().copied().fold(0.0, f64::max);
    amounts
        .iter()
        .filter(|amount| **amount > 0.15 * most)
        .count()
        <= 1
}

/// The food that a component means, and its grams.
fn weighed<'c>(
    catalogue: &'c Catalogue,
    component: &str,
    known: &[KnownFood<'_>],
    common: &Common,
) -> Result<(Food<'c>, f64), Failure> {
    let place = Place::new("command line", 1, 1);
    let line = parse_component(component, place, common.units.into())
        .map_err(|e| Failure::Request(e.to_string()))?;
    let food = one(catalogue, &line.food, common)?;
    let amount = line.amount.as_ref();
    let weight = amount.and_then(|a| {
        let weight = weigh(&food, a, &line.food).map(|w| w.grams.mean);
        weight.or_else(|| counted(&food, a, known))
    });
    let weight = weight.ok_or_else(|| {
        Failure::Request(format!("`{component}` has no amount that can be weighed\n  = write it like `2 slices` or `100 g`"))
    })?;
    Ok((food, weight))
}

/// So many of a food that people count, of its usual size; for what has no measure of its own
/// for one of it.
fn counted(food: &Food<'_>, amount: &Amount, known: &[KnownFood<'_>]) -> Option<f64> {
    let Measure::Count { unit, .. } = &amount.measure else {
        return None;
    };
    // `1 flour tortilla` counts tortillas.
    let itself = |unit: &String| food.name().ends_with(unit.as_str());
    if !unit.as_ref().is_none_or(itself) {
        return None;
    }
    let own = known.iter().find(|k| k.food.id() == food.id())?;
    Some(amount.number.likely * own.piece_g()?)
}

/// The everyday food that a food is eaten like: itself, or of those of its group and family
/// the one with most words in common, then the nearest in energy; without one of its family,
/// of those of its group.
fn like<'k, 'c>(food: &Food<'_>, known: &'k [KnownFood<'c>]) -> Option<&'k KnownFood<'c>> {
    if let Some(own) = known.iter().find(|k| k.food.id() == food.id()) {
        return Some(own);
    }
    let group = main_group(food)?;
    let energy = |food: &Food<'_>| food.per_100g(Nutrient::EnergyKcal).unwrap_or_default();
    let in_common = |other: &KnownFood<'_>| {
        let own = crate::words::words(food.name());
        let others = crate::words::words(other.food.name());
        own.iter().filter(|word| others.contains(word)).count()
    };
    let nearness = |other: &KnownFood<'_>| {
        let apart = (energy(food) - energy(&other.food)).abs() as u64;
        let family = other.food.family() == food.family();
        (family, in_common(other), std::cmp::Reverse(apart))
    };
    let of_group = known.iter().filter(|k| k.group == group);
    of_group.max_by_key(|other| nearness(other))
}

/// Everyday foods of the same group and use, those of the same kind first.
fn offered<'k, 'c>(
    food: &Food<'_>,
    like: &KnownFood<'c>,
    known: &'k [KnownFood<'c>],
) -> Vec<&'k KnownFood<'c>> {
    let first_word = |food: &Food<'_>| crate::words::words(food.name()).into_iter().next();
    // Salmon however cooked is no other food than salmon.
    let itself = |other: &KnownFood<'_>| {
        other.food.id() == food.id()
            || (other.food.id() == like.food.id() && first_word(&other.food) == first_word(food))
    };
    let same = known.iter().filter(|other| {
        other.group == like.group && other.row.used_as == like.row.used_as && !itself(other)
    });
    let mut same: Vec<&KnownFood<'_>> = same.collect();
    same.sort_by_key(|other| other.row.kind != like.row.kind);
    same
}

/// An everyday size for portions of foods eaten as `used_as` says (NHLBI serving size card;
/// USDA-credited table of visual sizes); nothing where those name none.
fn looks_like(used_as: &str, portion: f64) -> String {
    let (from, words) = match used_as {
        "main protein" => (1.0, "a deck of cards for every 3 oz-eq of meat or fish"),
        "cooked grain" => (0.5, "half a baseball for every oz-eq"),
        "fresh fruit" | "cooked vegetable" | "starchy vegetable" => {
            (0.25, "a baseball for every cup-eq")
        }
        "salad" => (0.25, "a baseball for every cup-eq, two of raw leaves"),
        "pulses" => (0.25, "half a baseball for every half cup-eq"),
        "cheese" => (0.25, "six stacked dice for every cup-eq"),
        "oil" | "spread" => (4.5, "one die for every teaspoon"),
        _ => return String::new(),
    };
    if portion < from {
        String::new()
    } else {
        format!(" (to the eye: {words})")
    }
}
