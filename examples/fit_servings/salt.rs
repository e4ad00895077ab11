//! How salty servings of a kind are: sodium to a kilocalorie.

use crate::data::Item;
use std::collections::{BTreeMap, BTreeSet};
use trencher::weighing::servings::ServingKind;

/// Sodium of a kind.
pub struct Salt {
    pub kind: &'static str,
    pub mg_per_kcal: f64,
    pub items: usize,
    pub restaurants: usize,
}

/// A kind is drawn to the one that it lies within as if this many restaurants spoke for that.
const DRAWN: f64 = 3.0;

/// Servings with less energy than this say nothing of sodium to a kilocalorie.
const LEAST_KCAL: f64 = 40.0;
/// A label's 0 mg is less than this (21 CFR 101.9: under 5 mg is printed as 0).
const LEAST_MG: f64 = 2.5;

/// Sodium of every kind: the mean over restaurants of the logarithm of what all their servings of it
/// hold together, drawn to the kind that it lies within. Sums, so that the few very salty ones count.
pub fn by_kind(items: &[&Item]) -> Vec<Salt> {
    let mut seen: BTreeMap<&str, Vec<(&str, f64, f64)>> = BTreeMap::new();
    let mut kinds: BTreeMap<&'static str, &'static ServingKind> = BTreeMap::new();
    for item in items.iter().filter(|i| i.kcal >= LEAST_KCAL) {
        let Some(sodium) = item.sodium.filter(|mg| item.said.drink || *mg > 0.0) else {
            continue;
        };
        let sodium = sodium.max(LEAST_MG);
        for kind in item.said.kind.within() {
            kinds.insert(&kind.name, kind);
            seen.entry(&kind.name)
                .or_default()
                .push((&item.restaurant, sodium, item.kcal));
        }
    }
    let mut known: BTreeMap<&str, f64> = BTreeMap::new();
    let mut order: Vec<&&'static ServingKind> = kinds.values().collect();
    order.sort_by_key(|kind| kind.within().count());
    let mut list = Vec::new();
    for kind in order {
        let own = &seen[kind.name.as_str()];
        let above = kind
            .within()
            .nth(1)
            .and_then(|k| known.get(k.name.as_str()));
        let mut each: BTreeMap<&str, (f64, f64)> = BTreeMap::new();
        for (restaurant, mg, kcal) in own {
            let entry = each.entry(restaurant).or_default();
            *entry = (entry.0 + mg, entry.1 + kcal);
        }
        let sum: f64 = each.values().map(|(mg, kcal)| (mg / kcal).ln()).sum();
        let count = each.len() as f64;
        let log = above.map_or(sum / count, |above| (sum + DRAWN * above) / (count + DRAWN));
        known.insert(&kind.name, log);
        let who: BTreeSet<&str> = own.iter().map(|(r, _, _)| *r).collect();
        list.push(Salt {
            kind: &kind.name,
            mg_per_kcal: log.exp(),
            items: own.len(),
            restaurants: who.len(),
        });
    }
    list.sort_by_key(|salt| salt.kind);
    list
}
