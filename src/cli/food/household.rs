//! A weight of any food in one of its own household measures.

use super::show::plain;
use crate::foods::Food;

/// The weight in the food's own household measure, to the nearest quarter.
pub(super) fn household(food: &Food<'_>, weight: f64) -> String {
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
