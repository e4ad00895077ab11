//! From the audit of a dish to the entry that keeps it.

use std::collections::BTreeMap;

use super::entry::{EatenComponent, Entry, GroupAmount, LimitAmount, Moment};
use crate::foods::{CATALOGUE_VERSION, Food, Nutrient, Trait};
use crate::ledger::{Audit, AuditedComponent, LedgerLine};
use crate::matching::Catalogue;
use crate::quantity::{Estimate, Range};

/// A drink holds at least this much water, g of 100 g (own choice: spirits hold 60 and more,
/// powders and condensed milk less than 30).
const DRINK_WATER_G: f64 = 50.0;

/// How much of a dish was eaten, and when.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Eaten {
    /// When.
    pub at: Moment,
    /// The meal it belongs to, where said; in lower case.
    pub meal: Option<String>,
    /// Name of the dish.
    pub dish: String,
    /// The part of the audited dish that was eaten; 1 for all of it.
    pub share: f64,
}

impl Entry {
    /// What was eaten of an audited dish, with the components as they stand, their ranges
    /// and the version of the catalogue. Water in drinks counts as fluid, 1 ml for 1 g.
    pub(crate) fn from_audit(audit: &Audit, catalogue: &Catalogue, eaten: Eaten) -> Self {
        let Eaten {
            at,
            meal,
            dish,
            share,
        } = eaten;
        let parts = &audit.components;
        Self {
            at,
            meal,
            dish,
            share,
            grams: brief_range(audit.served_grams().times(share)),
            groups: groups(audit, share),
            limits: amounts(audit.ledger.limits(), share),
            energy_nutrients: amounts(audit.ledger.nutrients(), share),
            nutrients: audit
                .nutrients
                .iter()
                .map(|(nutrient, amount)| {
                    (
                        nutrient.column().to_owned(),
                        amount.map(|a| brief(a * share)),
                    )
                })
                .collect(),
            fluid_ml: brief(
                share
                    * parts
                        .iter()
                        .filter_map(|c| fluid(c, catalogue))
                        .sum::<f64>(),
            ),
            catalogue: CATALOGUE_VERSION.to_owned(),
            standard: audit.standard.clone(),
            components: parts
                .iter()
                .map(|c| component(c, catalogue, share))
                .collect(),
            uncounted: [&audit.unmatched, &audit.without_amount]
                .into_iter()
                .flatten()
                .cloned()
                .collect(),
        }
    }
}

fn groups(audit: &Audit, share: f64) -> BTreeMap<String, GroupAmount> {
    let group = |line: LedgerLine| {
        let eaten = |amount: Option<Estimate>| amount.unwrap_or_default().times(share);
        let amount = GroupAmount {
            unit: line.subject.unit().to_owned(),
            amount: brief_range(eaten(line.amount).range()),
            portions: brief_range(eaten(line.counted).times(1.0 / line.portion).range()),
        };
        (line.subject.key().to_owned(), amount)
    };
    audit.ledger.groups().map(group).collect()
}

fn amounts(lines: impl Iterator<Item = LedgerLine>, share: f64) -> BTreeMap<String, LimitAmount> {
    let amount = |line: LedgerLine| {
        let amount = LimitAmount {
            unit: line.subject.unit().to_owned(),
            amount: line.range().map(|amount| brief_range(amount.times(share))),
        };
        (line.subject.key().to_owned(), amount)
    };
    lines.map(amount).collect()
}

fn component(c: &AuditedComponent, catalogue: &Catalogue, share: f64) -> EatenComponent {
    let food = c.food.map(|id| catalogue.food(id));
    EatenComponent {
        text: c.text.clone(),
        food: food.map(|f| f.name().to_owned()),
        source: food.map(|f| f.source().to_owned()),
        certainty: c.certainty.word().to_owned(),
        grams: c.grams.map(|grams| brief_range(grams.times(share))),
        basis: c.basis.map(|basis| basis.word().to_owned()),
        free: c.free,
        groups: c
            .groups()
            .map(|(group, amount)| (group.key().to_owned(), brief(amount * share)))
            .collect(),
        energy_kcal: c.energy_kcal().map(|kcal| brief(kcal * share)),
        note: c.note.clone(),
    }
}

/// A figure to six significant digits: far finer than any estimate, and half as long to keep.
fn brief(figure: f64) -> f64 {
    if figure == 0.0 || !figure.is_finite() {
        return figure;
    }
    let scale = 10_f64.powi(5 - figure.abs().log10().floor() as i32);
    (figure * scale).round() / scale
}

fn brief_range(range: Range) -> Range {
    Range::new(brief(range.low), brief(range.likely), brief(range.high))
}

/// Likely water of a component that is a drink, ml.
fn fluid(c: &AuditedComponent, catalogue: &Catalogue) -> Option<f64> {
    let water_g = drink_water(catalogue.food(c.food?))?;
    Some(water_g / 100.0 * c.grams?.likely)
}

/// Water of 100 g of a drink, g; `None` for what is not drunk.
fn drink_water(food: Food<'_>) -> Option<f64> {
    let water_g = food.per_100g(Nutrient::WaterG)?;
    (food.has(Trait::Drink) && water_g >= DRINK_WATER_G).then_some(water_g)
}

#[cfg(test)]
mod tests {
    use super::brief;

    #[test]
    fn figures_are_kept_to_six_digits() {
        assert_eq!(brief(0.058_670_314_581), 0.058_670_3);
        assert_eq!(brief(1_234.567_89), 1_234.57);
        assert_eq!(brief(0.0), 0.0);
        assert_eq!(brief(-98_765_432.1), -98_765_400.0);
    }
}
