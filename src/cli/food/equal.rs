//! `trencher food equal`: as much of the same group in other foods.

use super::super::arguments::{Common, Format};
use super::super::rows::rows;
use super::super::{Failure, Outcome, print};
use super::one;
use super::rank::main_group;
use super::show::plain;
use crate::foods::{Equivalent, Food, Nutrient};
use crate::ledger::Group;
use crate::matching::Catalogue;
use crate::pages::number::{grams, kcal, portions};
use crate::pages::text::wrap;
use crate::reading::{Place, parse_component};
use crate::weighing::weigh;

pub(super) fn equal(
    catalogue: &Catalogue,
    component: &str,
    top: usize,
    common: &Common,
) -> Result<Outcome, Failure> {
    let line = parse_component(
        component,
        Place::new("command line", 1, 1),
        common.units.into(),
    )
    .map_err(|e| Failure::Request(e.to_string()))?;
    let food = one(catalogue, &line.food, common)?;
    let group = main_group(&food).ok_or_else(|| {
        Failure::Request(format!(
            "`{}` counts for no food group, so nothing is like it",
            food.name()
        ))
    })?;
    let amount = line
        .amount
        .as_ref()
        .and_then(|a| weigh(&food, a, &line.food))
        .map(|w| w.grams.mean);
    let weight = amount.ok_or_else(|| {
        Failure::Request(format!("`{component}` has no amount that can be weighed\n  = write it like `2 slices` or `100 g`"))
    })?;
    let portion = group.per_gram(&food) * weight;
    let mut others: Vec<(u32, f64, Food<'_>)> = catalogue
        .foods()
        .filter(|f| f.id() != food.id() && main_group(f) == Some(group) && is_plain(f, group))
        .map(|f| (closeness(&food, &f), group.per_gram(&f) * 100.0, f))
        .collect();
    others.sort_by(|a, b| {
        b.0.cmp(&a.0)
            .then(a.2.name().len().cmp(&b.2.name().len()))
            .then(a.2.name().cmp(b.2.name()))
    });
    let mut families: Vec<(String, usize)> = Vec::new();
    let mut table = Vec::new();
    for (_, per_100g, other) in others {
        if !room_for(&mut families, &other) {
            continue;
        }
        let same = portion / per_100g * 100.0;
        let energy = other
            .per_100g(Nutrient::EnergyKcal)
            .map(|e| e * same / 100.0);
        table.push(vec![
            other.name().to_owned(),
            grams(same),
            household(&other, same),
            energy.map_or("-".to_owned(), kcal),
        ]);
        if table.len() >= top.clamp(1, 200) {
            break;
        }
    }
    let header = ["food", "grams", "about", "kcal"];
    let mut text = rows(&header, &table, &[40, 6, 22, 6], common.format)?;
    if common.format == Format::Text {
        let looks = looks_like(group, portion);
        let head = format!(
            "{component} ({}, {} g) is {} {} of {}{looks}. As much of the same group:",
            food.name(),
            grams(weight),
            portions(portion),
            group.unit().word(),
            group.label()
        );
        text = wrap(&head) + "\n" + &text;
    }
    print(&text)
}

/// No mixed dish: nothing of another group worth naming.
fn is_plain(food: &Food<'_>, group: Group) -> bool {
    let own = group.per_gram(food) * 100.0;
    Group::ALL
        .iter()
        .filter(|g| **g != group && **g != Group::Oils)
        .all(|g| g.per_gram(food) * 100.0 < 0.15 * own)
        && food.equivalent_per_100g(Equivalent::AddedSugarsTsp) < 1.0
}

/// Same family first.
fn closeness(food: &Food<'_>, other: &Food<'_>) -> u32 {
    u32::from(food.family() == other.family())
}

/// At most two foods of a kind (first word of the name), so that the list has variety.
fn room_for(kinds: &mut Vec<(String, usize)>, food: &Food<'_>) -> bool {
    let kind = food
        .name()
        .split([',', ' '])
        .next()
        .unwrap_or_default()
        .to_owned();
    match kinds.iter_mut().find(|(k, _)| *k == kind) {
        Some((_, many)) if *many >= 2 => false,
        Some((_, many)) => {
            *many += 1;
            true
        }
        None => {
            kinds.push((kind, 1));
            true
        }
    }
}

/// The weight in the food's own household measure, to the nearest quarter.
fn household(food: &Food<'_>, weight: f64) -> String {
    let usable = |text: &str| {
        !text.starts_with("Guideline")
            && text != "unstated"
            && !text.contains("yield")
            && !text.contains("cubic inch")
            && !text.contains("surface inch")
            && !text.contains("oz,")
            && !text.ends_with(" oz")
    };
    let best = food
        .measures()
        .filter(|m| usable(m.text) && m.text.starts_with("1 "))
        .map(|m| (weight / m.grams, m.text))
        .filter(|(times, _)| *times >= 0.2)
        .min_by(|a, b| distance(a.0).total_cmp(&distance(b.0)));
    best.map_or(String::new(), |(times, text)| {
        format!(
            "{} x {}",
            plain((times * 4.0).round() / 4.0),
            text.trim_start_matches("1 ")
        )
    })
}

/// How far from a handy number of measures.
fn distance(times: f64) -> f64 {
    let quarter = (times * 4.0).round() / 4.0;
    (times - quarter).abs() + if times > 6.0 { 1.0 } else { 0.0 }
}

/// An everyday size for portions of a group (NHLBI serving size card; USDA-credited table
/// of visual sizes).
fn looks_like(group: Group, portion: f64) -> String {
    let (each, words) = match group {
        Group::ProteinFoods => (3.0, "a deck of cards for every 3 oz-eq of meat or fish"),
        Group::Grains => (
            1.0,
            "half a baseball of cooked rice or pasta for every oz-eq",
        ),
        Group::Fruits => (1.0, "a baseball for every cup-eq"),
        Group::Vegetables => (1.0, "a baseball for every cup-eq, two for raw leaves"),
        Group::Pulses => (0.5, "half a baseball for every half cup-eq"),
        Group::Dairy => (1.0, "six stacked dice of cheese for every cup-eq"),
        Group::Oils => (4.5, "the tip of a thumb for every teaspoon"),
    };
    if portion < each * 0.2 {
        String::new()
    } else {
        format!(" (to the eye: {words})")
    }
}
