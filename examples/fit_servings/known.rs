//! How much nearer the rest of a menu comes once some of its figures are known.

use crate::judged::{LeftOut, Spread, spread_of};
use trencher::quantity::Estimate;
use trencher::weighing::servings::{Kitchen, KnownDish, ServingText};

/// Dishes whose figures are known, and fewest others that are told from them.
const KNOWN: usize = 10;
const OTHERS: usize = 5;
/// Ways in which the known ones are picked from a menu.
const PICKS: usize = 4;

/// Prints the errors on the other dishes of restaurants left out, before and after. Which ten are
/// known is an even pick through the menu, begun at several places.
pub fn print(list: &[LeftOut], spreads: &[Spread]) {
    for (what, foods_only) in [("dishes", true), ("dishes and drinks", false)] {
        let mut names: Vec<&str> = list
            .iter()
            .filter(|i| i.beverage.is_some())
            .map(|i| i.restaurant.as_str())
            .collect();
        names.sort_unstable();
        names.dedup();
        let (mut before, mut after, mut held) = (Vec::new(), Vec::new(), 0_usize);
        for name in names {
            let of_it = |i: &&LeftOut| i.restaurant == name;
            let wanted = |i: &&LeftOut| !foods_only || i.beverage == Some(false);
            let own: Vec<&LeftOut> = list.iter().filter(of_it).filter(wanted).collect();
            if own.len() < KNOWN + OTHERS {
                continue;
            }
            let step = own.len() / KNOWN;
            for pick in (0..PICKS).map(|pick| pick * step / PICKS) {
                let known = |at: usize| at % step == pick && at / step < KNOWN;
                let dishes = own.iter().enumerate().filter(|(at, _)| known(*at));
                let dishes = dishes.filter_map(|(_, item)| {
                    KnownDish::printed(text(item), told(item, spreads), item.truth)
                });
                let Some(kitchen) = Kitchen::learn(dishes.collect()) else {
                    continue;
                };
                for (_, item) in own.iter().enumerate().filter(|(at, _)| !known(*at)) {
                    let told = told(item, spreads);
                    let level = kitchen.level(text(item));
                    let moved = level.map_or(told, |level| level.of(told));
                    before.push((told.mean / item.truth - 1.0).abs());
                    after.push((moved.mean / item.truth - 1.0).abs());
                    let range = moved.range();
                    held += usize::from((range.low..=range.high).contains(&item.truth));
                }
            }
        }
        let (before, count) = (median(before), after.len());
        let after = median(after);
        println!(
            "{KNOWN} {what} of a restaurant known: median error of its others {:.1} -> {:.1} % ({:.0} % less), inside {:.0} %",
            100.0 * before,
            100.0 * after,
            100.0 * (1.0 - after / before),
            100.0 * held as f64 / count as f64
        );
    }
}

fn told(item: &LeftOut, spreads: &[Spread]) -> Estimate {
    Estimate::new(item.told, spread_of(item, spreads))
}

fn text(item: &LeftOut) -> ServingText<'_> {
    ServingText {
        name: &item.name,
        section: &item.section,
        description: &item.description,
        ..ServingText::default()
    }
}

fn median(mut list: Vec<f64>) -> f64 {
    list.sort_by(f64::total_cmp);
    list.get(list.len() / 2).copied().unwrap_or(f64::NAN)
}
