//! How far the fit errs on restaurants that it has not seen.

use crate::data::Item;
use crate::fit::Rows;
use trencher::quantity::Estimate;
use trencher::weighing::servings::{Known, served_as};

/// An item of a restaurant that was left out.
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
    /// Its name.
    pub name: String,
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
const HELD: f64 = 0.82;

/// Tells the items of each restaurant from those of all others.
pub fn leave_each_out(items: &[&Item], rows: &Rows, drink: bool) -> Vec<LeftOut> {
    let (count, whose) = rows.restaurants();
    let mut list = Vec::new();
    for out in 0..count {
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
        .filter(|i| inside(i.told, log_sd, i.truth))
        .count();
    count as f64 / list.len() as f64
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

fn median(mut list: Vec<f64>) -> f64 {
    list.sort_by(f64::total_cmp);
    list.get(list.len() / 2).copied().unwrap_or(f64::NAN)
}

/// Prints the errors on restaurants left out.
pub fn print(list: &[LeftOut], spreads: &[Spread]) {
    let report = |what: &str, own: Vec<&LeftOut>| {
        let errors = own.iter().map(|i| (i.told - i.truth).abs());
        let total: f64 = own.iter().map(|i| i.truth).sum();
        let within = |i: &&&LeftOut| {
            let spread = spreads
                .iter()
                .find(|s| s.served == served_as(i.drink) && s.known == i.known);
            spread.is_some_and(|s| inside(i.told, s.log_sd, i.truth))
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
