//! Food groups and limits against the day, as served and right-sized.

use super::food::subject;
use super::portions::Fitted;
use crate::foods::Nutrient;
use crate::ledger::{Audit, AuditedComponent, AuditedGroup, Group, Limit};
use crate::matching::Catalogue;
use crate::pages::handout::{AmountRow, Subject};

/// Rows of all groups and of the limits that have a day's allowance.
///
/// Beans, peas and lentils stand in the row of the group in whose share they count, never in
/// a row of their own, so that a share and the amounts beside it are of the same thing.
#[must_use]
pub fn amount_rows(
    audit: &Audit,
    fitted: Option<&Fitted>,
    catalogue: &Catalogue,
) -> Vec<AmountRow> {
    let groups = audit.groups.iter().filter(|g| g.group != Group::Pulses);
    let mut rows: Vec<AmountRow> = groups.map(|g| group_row(g, audit, fitted)).collect();
    let limits = audit.limits.iter().filter(|l| l.allowance.is_some());
    rows.extend(limits.filter_map(|l| {
        Some(AmountRow {
            subject: Subject::Limit(l.limit.label().to_owned()),
            unit: l.limit.unit().to_owned(),
            served: l.amount?,
            fitted: fitted.and_then(|fitted| limit_eaten(l.limit, audit, fitted, catalogue)),
            allowance: l.allowance,
            with_pulses: false,
        })
    }));
    rows
}

fn group_row(group: &AuditedGroup, audit: &Audit, fitted: Option<&Fitted>) -> AmountRow {
    let added = group.counted.likely - group.amount.likely;
    let pulses = audit.groups.iter().find(|g| g.group == Group::Pulses);
    // What a cup of pulses adds, in this group's unit.
    let per_pulses = pulses
        .filter(|p| added > 0.005 && p.amount.likely > 0.0)
        .map(|p| added / p.amount.likely);
    let fitted = fitted.map(|fitted| {
        let of = |wanted: Group| -> f64 {
            parts(audit, fitted)
                .map(|(component, part)| part * amount_of(component, wanted))
                .sum()
        };
        of(group.group) + of(Group::Pulses) * per_pulses.unwrap_or(0.0)
    });
    AmountRow {
        subject: subject(group.group),
        unit: group.group.unit().word().to_owned(),
        served: group.counted,
        fitted,
        allowance: group.allowance.map(|a| a * group.portion),
        with_pulses: per_pulses.is_some(),
    }
}

fn amount_of(component: &AuditedComponent, wanted: Group) -> f64 {
    let found = component.groups.iter().find(|(group, _)| *group == wanted);
    found.map_or(0.0, |(_, amount)| *amount)
}

/// Every component with the part of it that is eaten.
fn parts<'a>(
    audit: &'a Audit,
    fitted: &'a Fitted,
) -> impl Iterator<Item = (&'a AuditedComponent, f64)> {
    let components = audit.components.iter().enumerate();
    components.map(|(at, component)| (component, fitted.part(at)))
}

/// What the right-sized plate holds of a limit; `None` when a food's figure is missing.
fn limit_eaten(limit: Limit, audit: &Audit, fitted: &Fitted, catalogue: &Catalogue) -> Option<f64> {
    use crate::foods::Equivalent as E;
    parts(audit, fitted)
        .filter_map(|(component, part)| {
            let grams = component.grams?.likely * part / 100.0;
            Some((catalogue.food(component.food?), grams))
        })
        .map(|(food, per)| {
            let nutrient = |nutrient| food.per_100g(nutrient);
            let held = match limit {
                Limit::Energy => nutrient(Nutrient::EnergyKcal),
                Limit::SaturatedFat => nutrient(Nutrient::SaturatedFatG),
                Limit::Sodium => nutrient(Nutrient::SodiumMg),
                Limit::AddedSugars => Some(food.equivalent_per_100g(E::AddedSugarsTsp)),
                Limit::SolidFats => Some(food.equivalent_per_100g(E::SolidFatsG)),
                Limit::Alcohol => Some(food.equivalent_per_100g(E::AlcoholDrinks)),
            };
            Some(held? * per)
        })
        .sum()
}
