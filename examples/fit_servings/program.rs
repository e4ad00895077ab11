//! How far the whole program errs on restaurants that its tables have not seen.

use crate::data::Item;
use crate::judged::median;
use crate::learned::Learned;
use std::collections::BTreeSet;
use trencher::foods::Nutrient;
use trencher::quantity::Range;
use trencher::weighing::{
    MenuContext, Request, Service, WeighedComponent, energy, estimate_in_section,
};

/// Parts into which restaurants are put, each left out once.
const PARTS: usize = 8;
/// Sodium below which a ratio says nothing, mg.
const LEAST_SODIUM: f64 = 150.0;
/// The most that half a range may be of what is likely, for each word of how sure an answer is.
const WORDS: [(&str, f64); 3] = [("close", 0.2), ("rough", 0.5), ("wide", f64::INFINITY)];

/// What the program tells of an item.
struct Told<'i> {
    item: &'i Item,
    kcal: Range,
    grams: f64,
    /// Over what is printed.
    sodium: Option<f64>,
}

/// Prints it.
pub fn print(items: &[&Item], context: MenuContext<'_>) -> Result<(), Box<dyn std::error::Error>> {
    let all = Learned::of(items);
    let printed = items.iter().copied().filter(|item| !item.surveyed);
    let names: BTreeSet<&str> = printed.map(|item| item.restaurant.as_str()).collect();
    let names: Vec<&str> = names.into_iter().collect();
    let tables: BTreeSet<&str> = names
        .iter()
        .copied()
        .filter(|name| serves_at_tables(name, items))
        .collect();
    let (mut told, mut told_so) = (Vec::new(), Vec::new());
    for part in 0..PARTS {
        let out: Vec<&str> = names.iter().copied().skip(part).step_by(PARTS).collect();
        let is_out = |item: &&&Item| out.contains(&item.restaurant.as_str());
        let seen: Vec<&Item> = items.iter().filter(|i| !is_out(i)).copied().collect();
        let learned = all.without(items, &out);
        let request = Request {
            figures_only: true,
            // A request is copied about; it lasts as long as this program.
            fitted: Some(Box::leak(Box::new(learned.tables(&seen)?.fitted()))),
            ..Request::default()
        };
        let own = || items.iter().filter(is_out);
        told.extend(own().map(|item| tell(item, &request, context)));
        told_so.extend(own().map(|item| {
            let at_tables = tables.contains(item.restaurant.as_str());
            let service = if at_tables {
                Service::Table
            } else {
                Service::Counter
            };
            let service = Some(service);
            tell(item, &Request { service, ..request }, context)
        }));
    }
    let show = std::env::var_os("SHOW").is_some();
    for t in told.iter().filter(|_| show) {
        let (item, kcal) = (t.item, t.kcal);
        println!(
            "\t{}\t{:?}\t{:.0}\t{:.0}\t{:.0}\t{:.0}\t{}\t{}\t{}\t{}",
            item.restaurant,
            item.beverage,
            item.kcal,
            kcal.likely,
            kcal.low,
            kcal.high,
            item.said.known().word(),
            item.said.kind.name,
            item.section,
            item.name
        );
    }
    let dishes = |t: &&Told| t.item.beverage == Some(false);
    for (said, told) in [("", &told), (", how it serves said", &told_so)] {
        for (what, at_tables) in [("tables", true), ("counters", false)] {
            let there = |t: &&Told| tables.contains(t.item.restaurant.as_str()) == at_tables;
            let own: Vec<&Told> = told.iter().filter(dishes).filter(there).collect();
            report(&format!("dishes at {what}{said}"), &own);
        }
    }
    let own: Vec<&Told> = told_so.iter().filter(dishes).collect();
    report("dishes, how it serves said", &own);
    for (what, beverage) in [
        ("dishes", Some(false)),
        ("drinks", Some(true)),
        ("servings of known weight", None),
    ] {
        let own: Vec<&Told> = told
            .iter()
            .filter(|t| t.item.beverage == beverage)
            .collect();
        report(what, &own);
        let mut least = f64::NEG_INFINITY;
        for (word, most) in WORDS {
            let own: Vec<&Told> = own
                .iter()
                .copied()
                .filter(|t| (least..most).contains(&half(t.kcal)))
                .collect();
            report(&format!("  {word}"), &own);
            least = most;
        }
    }
    Ok(())
}

/// Whether a restaurant is taken for one that serves at tables: it sells drinks with alcohol, or steaks.
fn serves_at_tables(restaurant: &str, items: &[&Item]) -> bool {
    const SOLD_THERE: [&str; 6] = ["beer", "wine", "cocktail", "steak", "ribs", "surf and turf"];
    items.iter().any(|item| {
        item.restaurant == restaurant && SOLD_THERE.contains(&item.said.kind.name.as_str())
    })
}

/// Half a range over what is likely; of nothing at all it is wide.
fn half(kcal: Range) -> f64 {
    if kcal.likely > 0.0 {
        // Ends belong to the surer word.
        ((kcal.high - kcal.low) / 2.0 / kcal.likely - 1e-9).max(0.0)
    } else {
        1.0
    }
}

fn tell<'i>(item: &'i Item, request: &Request, context: MenuContext<'_>) -> Told<'i> {
    let catalogue = context.finds.catalogue();
    let dish = estimate_in_section(&item.line, &item.section, None, request, context).dish;
    let list = dish.components;
    let known = !list.iter().any(WeighedComponent::is_unknown_main);
    let kcal = if known {
        energy(&list, catalogue).range()
    } else {
        Range::exact(0.0)
    };
    let sodium = |c: &WeighedComponent| {
        let food = catalogue.food(c.matched.food?);
        Some(food.per_100g(Nutrient::SodiumMg)? * c.grams()?.mean / 100.0)
    };
    let printed = item.sodium.filter(|mg| *mg >= LEAST_SODIUM && known);
    Told {
        item,
        kcal,
        grams: list.iter().filter_map(|c| Some(c.grams()?.mean)).sum(),
        sodium: printed.map(|mg| list.iter().filter_map(sodium).sum::<f64>() / mg),
    }
}

fn report(what: &str, own: &[&Told<'_>]) {
    if own.is_empty() {
        return println!("{what}: 0 items");
    }
    let off = |t: &&Told| (t.kcal.likely - t.item.kcal).abs();
    let errors = own.iter().map(off).sum::<f64>();
    let inside = |t: &&&Told| (t.kcal.low..=t.kcal.high).contains(&t.item.kcal);
    let below = own.iter().filter(|t| t.kcal.high < t.item.kcal).count();
    let part = |count: usize| 100.0 * count as f64 / own.len() as f64;
    let weights = own.iter().filter_map(|t| {
        let printed = t.item.grams.filter(|grams| *grams >= 15.0)?;
        Some((t.grams / printed - 1.0).abs())
    });
    println!(
        "{what}: {} items, median error {:.1} %, over mean {:.1} %, told over truth {:.2}, inside {:.0} % (truth above {:.0} %), half-width {:.0} %, sodium {:.2}, weight {:.1} %",
        own.len(),
        100.0 * median(own.iter().map(|t| off(t) / t.item.kcal).collect()),
        100.0 * errors / own.iter().map(|t| t.item.kcal).sum::<f64>(),
        median(own.iter().map(|t| t.kcal.likely / t.item.kcal).collect()),
        part(own.iter().filter(inside).count()),
        part(below),
        100.0 * median(own.iter().map(|t| half(t.kcal)).collect()),
        median(own.iter().filter_map(|t| t.sodium).collect()),
        100.0 * median(weights.collect()),
    );
}
