//! How far the fit errs on restaurants that it has not seen.

use crate::data::Item;
use crate::fit::Rows;
use std::collections::BTreeMap;
use trencher::quantity::Estimate;
use trencher::weighing::servings::{Known, ServingKind, Traits, served_as};

/// An item of a restaurant that was left out.
#[derive(Clone)]
pub struct LeftOut {
    pub drink: bool,
    pub known: Known,
    /// Energy told, kcal.
    pub told: f64,
    /// Energy printed, kcal.
    pub truth: f64,
    /// Grams of a kilocalorie of the parts, and printed weight, g.
    pub weight: Option<(f64, f64)>,
    /// Of which restaurant.
    pub restaurant: String,
    /// Whether the restaurant counts it as a drink.
    pub beverage: Option<bool>,
    /// Its name, the heading it stands under, the line beneath it.
    pub name: String,
    pub section: String,
    pub description: String,
    /// Its kind.
    pub kind: &'static ServingKind,
    /// What makes it like others.
    pub traits: Traits,
    /// How much wider its range is than that of others of which as much is known.
    pub factor: f64,
}

/// How much wider or narrower ranges of a kind are.
pub struct KindSpread {
    pub served: &'static str,
    pub kind: &'static str,
    pub factor: f64,
    pub items: usize,
    pub restaurants: usize,
}

/// The spread of what is told when this much is known.
pub struct Spread {
    pub served: &'static str,
    pub known: Known,
    /// Standard deviation of the logarithm, so that the 80 % range holds what it should.
    pub log_sd: f64,
    pub items: usize,
    pub restaurants: usize,
    /// Share of truths inside the 80 % range.
    pub inside: f64,
}

/// Fewest items from which a spread is measured; fewer take that of all.
const LEAST_ITEMS: usize = 40;
/// Share of truths that ranges are made to hold. Ranges that are fitted hold a little less
/// where the fit has not looked.
const HELD: f64 = 0.84;

/// Tells the items of each restaurant from those of all others.
pub fn leave_each_out(items: &[&Item], rows: &Rows, drink: bool) -> Vec<LeftOut> {
    let (count, whose) = rows.restaurants();
    let mut list = Vec::new();
    for out in 0..count {
        // What was surveyed is no restaurant that could be left out.
        if items
            .iter()
            .zip(whose)
            .any(|(i, r)| *r == out && i.surveyed)
        {
            continue;
        }
        let fit = rows.fit(drink, &|restaurant| restaurant != out);
        for (at, item) in items.iter().enumerate().filter(|(at, _)| whose[*at] == out) {
            let told = rows.told(at, &fit).exp();
            let weight = item.parts.zip(item.grams).filter(|(_, g)| *g >= 15.0);
            list.push(LeftOut {
                drink,
                known: item.said.known(),
                told,
                truth: item.kcal,
                weight: weight.map(|(parts, g)| (parts.grams / parts.kcal, g)),
                restaurant: item.restaurant.clone(),
                beverage: item.beverage,
                name: item.name.clone(),
                section: item.section.clone(),
                description: item.description.clone(),
                kind: item.said.kind,
                traits: item.traits.clone(),
                factor: 1.0,
            });
        }
    }
    list
}

/// The factor on what is told with which it errs least over the mean: logarithms tell a middle
/// that is lower than the mean, and large servings count for more.
pub fn level(list: &[LeftOut]) -> f64 {
    let error = |level: f64| {
        list.iter()
            .map(|i| (level * i.told - i.truth).abs())
            .sum::<f64>()
    };
    let grid = (90..=130).map(|hundredths| f64::from(hundredths) / 100.0);
    grid.min_by(|a, b| error(*a).total_cmp(&error(*b)))
        .unwrap_or(1.0)
}

fn inside(told: f64, log_sd: f64, truth: f64) -> bool {
    let range = Estimate::new(told, log_sd).range();
    (range.low..=range.high).contains(&truth)
}

fn held(list: &[&LeftOut], log_sd: f64) -> f64 {
    let count = list
        .iter()
        .filter(|i| inside(i.told, log_sd * i.factor, i.truth))
        .count();
    count as f64 / list.len() as f64
}

/// A kind is drawn to the one that it lies within as if this many restaurants spoke for that: dishes
/// of one kitchen err alike.
const DRAWN: f64 = 10.0;
/// Fewest items that speak for a kind.
const LEAST_OF_KIND: usize = 8;
/// Errors beyond this (log scale) are slips and count as this.
const SLIP: f64 = 1.5;

/// How much wider ranges of each kind are, and sets that of every item.
pub fn kind_spreads(list: &mut [LeftOut]) -> Vec<KindSpread> {
    let mut found = Vec::new();
    for drink in [false, true] {
        let off = |i: &LeftOut| (i.truth / i.told).ln().abs().min(SLIP);
        let own: Vec<&LeftOut> = list.iter().filter(|i| i.drink == drink).collect();
        let mean = |some: &[&LeftOut]| some.iter().map(|i| off(i)).sum::<f64>() / some.len() as f64;
        let usual: Vec<(Known, f64)> = Known::ALL
            .iter()
            .map(|known| {
                let some: Vec<&LeftOut> =
                    own.iter().copied().filter(|i| i.known == *known).collect();
                (
                    *known,
                    mean(if some.len() < LEAST_ITEMS {
                        &own
                    } else {
                        &some
                    }),
                )
            })
            .collect();
        let usual = |known: Known| usual.iter().find(|u| u.0 == known).map_or(1.0, |u| u.1);
        let mut kinds: BTreeMap<&str, &'static ServingKind> = BTreeMap::new();
        let mut of: BTreeMap<&str, Vec<&LeftOut>> = BTreeMap::new();
        for item in own.iter().copied() {
            for kind in item.kind.within() {
                kinds.insert(&kind.name, kind);
                of.entry(&kind.name).or_default().push(item);
            }
        }
        let mut order: Vec<&'static ServingKind> = kinds.into_values().collect();
        order.sort_by_key(|kind| kind.within().count());
        let mut factors: BTreeMap<&str, f64> = BTreeMap::new();
        for kind in order {
            let above = kind
                .within()
                .nth(1)
                .and_then(|k| factors.get(k.name.as_str()));
            let above = above.copied().unwrap_or(1.0);
            let some = &of[kind.name.as_str()];
            let mut who: BTreeMap<&str, (f64, f64)> = BTreeMap::new();
            for item in some {
                let of_it = who.entry(&item.restaurant).or_default();
                *of_it = (of_it.0 + off(item) / usual(item.known), of_it.1 + 1.0);
            }
            // A restaurant with many of them counts for more than one with few, not in proportion.
            let own = who.values().map(|(sum, count)| (sum / count, count.sqrt()));
            let (sum, all) = own.fold((0.0, 0.0), |so_far, (mean, weight)| {
                (so_far.0 + mean * weight, so_far.1 + weight)
            });
            let factor = (sum + DRAWN * above) / (all + DRAWN);
            factors.insert(&kind.name, factor);
            if some.len() >= LEAST_OF_KIND {
                found.push(KindSpread {
                    served: served_as(drink),
                    kind: &kind.name,
                    factor,
                    items: some.len(),
                    restaurants: who.len(),
                });
            }
        }
    }
    for item in list {
        let own = item.kind.within().find_map(|kind| {
            let same = |s: &&KindSpread| s.served == served_as(item.drink) && s.kind == kind.name;
            found.iter().find(same)
        });
        item.factor = own.map_or(1.0, |s| s.factor);
    }
    found
}

/// The spread of an item's range.
pub fn spread_of(item: &LeftOut, spreads: &[Spread]) -> f64 {
    let own = |s: &&Spread| s.served == served_as(item.drink) && s.known == item.known;
    spreads
        .iter()
        .find(own)
        .map_or(1.0, |s| s.log_sd * item.factor)
}

/// The spread for each way that an amount is known.
pub fn spreads(list: &[LeftOut]) -> Vec<Spread> {
    let mut spreads = Vec::new();
    for drink in [false, true] {
        let all: Vec<&LeftOut> = list.iter().filter(|i| i.drink == drink).collect();
        for known in Known::ALL {
            let own: Vec<&LeftOut> = all.iter().copied().filter(|i| i.known == known).collect();
            let few = own.len() < LEAST_ITEMS;
            let measured = if few { &all } else { &own };
            let grid = (10..140).map(|hundredths| f64::from(hundredths) / 100.0);
            let log_sd = grid
                .clone()
                .find(|log_sd| held(measured, *log_sd) >= HELD)
                .unwrap_or(1.4);
            let mut who: Vec<&str> = measured.iter().map(|i| i.restaurant.as_str()).collect();
            who.sort_unstable();
            who.dedup();
            spreads.push(Spread {
                served: served_as(drink),
                known,
                log_sd,
                items: measured.len(),
                restaurants: who.len(),
                inside: held(measured, log_sd),
            });
        }
    }
    spreads
}

/// The middle of a list; nothing of an empty one.
pub fn median(mut list: Vec<f64>) -> f64 {
    list.sort_by(f64::total_cmp);
    list.get(list.len() / 2).copied().unwrap_or(f64::NAN)
}

/// Prints how far answers are off by how sure they say they are.
fn print_words(list: &[LeftOut], spreads: &[Spread]) {
    let mut by: BTreeMap<&str, Vec<(f64, bool)>> = BTreeMap::new();
    for item in list.iter().filter(|i| i.beverage.is_some()) {
        let range = Estimate::new(item.told, spread_of(item, spreads)).range();
        let half = (range.high - range.low) / 2.0 / range.likely;
        let word = match half {
            h if h <= 0.2 => "close",
            h if h <= 0.5 => "rough",
            _ => "wide",
        };
        let held = (range.low..=range.high).contains(&item.truth);
        by.entry(word)
            .or_default()
            .push(((item.told / item.truth - 1.0).abs(), held));
    }
    for (word, own) in by {
        println!(
            "{word}: {} items, median error {:.1} %, inside {:.0} %",
            own.len(),
            100.0 * median(own.iter().map(|o| o.0).collect()),
            100.0 * own.iter().filter(|o| o.1).count() as f64 / own.len() as f64
        );
    }
}

/// Prints the errors on restaurants left out.
pub fn print(list: &[LeftOut], spreads: &[Spread]) {
    print_words(list, spreads);
    let report = |what: &str, own: Vec<&LeftOut>| {
        let errors = own.iter().map(|i| (i.told - i.truth).abs());
        let total: f64 = own.iter().map(|i| i.truth).sum();
        let within = |i: &&&LeftOut| {
            let spread = spreads
                .iter()
                .find(|s| s.served == served_as(i.drink) && s.known == i.known);
            spread.is_some_and(|s| inside(i.told, s.log_sd * i.factor, i.truth))
        };
        println!(
            "{what}: {} items, median error {:.1} %, error over mean {:.1} %, median of told over truth {:.2}, inside {:.0} %",
            own.len(),
            100.0 * median(own.iter().map(|i| (i.told / i.truth - 1.0).abs()).collect()),
            100.0 * errors.sum::<f64>() / total,
            median(own.iter().map(|i| i.told / i.truth).collect()),
            100.0 * own.iter().filter(within).count() as f64 / own.len() as f64,
        );
    };
    let is = |beverage: Option<bool>| {
        list.iter()
            .filter(move |i| i.beverage == beverage)
            .collect()
    };
    report("printed dishes", is(Some(false)));
    report("printed drinks", is(Some(true)));
    report("servings of known weight", is(None));
    let weights: Vec<(f64, f64)> = list
        .iter()
        .filter_map(|i| i.weight.map(|(each, g)| (i.told * each, g)))
        .collect();
    println!(
        "weights: {} items, median error {:.1} %, median of told over truth {:.2}",
        weights.len(),
        100.0 * median(weights.iter().map(|(g, t)| (g / t - 1.0).abs()).collect()),
        median(weights.iter().map(|(g, t)| g / t).collect()),
    );
    for s in spreads {
        println!(
            "{} by {}: log-SD {:.2} from {} items of {} restaurants, inside {:.0} %",
            s.served,
            s.known.word(),
            s.log_sd,
            s.items,
            s.restaurants,
            100.0 * s.inside
        );
    }
    if std::env::var_os("SHOW").is_some() {
        for i in list {
            println!(
                "\t{}\t{:.0}\t{:.0}\t{}\t{}",
                i.restaurant,
                i.truth,
                i.told,
                i.known.word(),
                i.name
            );
        }
    }
}
