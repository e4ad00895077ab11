//! The right-sized plate as text, JSON and CSV.

mod table;
mod text;
mod why;

pub(crate) use table::{csv, json};
pub(crate) use text::text;

use crate::fit::{Fitting, Hold, Measured, Requests, RightSized, Room, Unfit, Use};
use crate::ledger::{Audit, Day, Group, Limit};
use crate::reading::Dish;
use crate::weighing::WeighedComponent;

/// What the plate was held against, in words and figures.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Against<'a> {
    /// The day.
    pub day: Day<'a>,
    /// Part of the day's energy, 0 to 1; `None` for what is left of a day.
    pub share: Option<f64>,
    /// How strictly.
    pub hold: Hold,
}

/// A fitted dish.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Answer<'a> {
    /// The plate.
    pub sized: &'a RightSized,
    /// The audit of what is eaten.
    pub eaten: &'a Audit,
}

/// All that is shown of one dish.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Fitted<'a> {
    /// The dish as served.
    pub dish: &'a Dish<WeighedComponent>,
    /// Its audit.
    pub served: &'a Audit,
    /// What it was fitted as.
    pub fitting: &'a Fitting,
    /// What it may take.
    pub room: &'a Room,
    /// Of whose day.
    pub against: Against<'a>,
    /// The plate, or why there is none.
    pub outcome: Result<Answer<'a>, &'a Unfit>,
    /// What to ask for.
    pub requests: &'a Requests,
    /// What was assumed, a sentence each.
    pub notes: &'a [String],
}

/// One group or limit, as served and as eaten.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Row {
    pub key: &'static str,
    pub label: &'static str,
    pub unit: &'static str,
    pub is_group: bool,
    pub served: Option<f64>,
    pub eaten: Option<f64>,
    /// The most allowed and what that is the share of; `None` when it is not held.
    pub held: Option<(f64, String)>,
    /// Whether the plate passes it.
    pub passed: bool,
    /// Whether it forbids more of some component.
    pub decides: bool,
}

impl Fitted<'_> {
    /// Groups, then limits, in fixed order; parts that are held by themselves (starchy
    /// vegetables, juice) only when they decide.
    pub(super) fn rows(&self) -> Vec<Row> {
        let eaten = self.outcome.as_ref().ok().map(|a| a.eaten);
        let mut rows = vec![self.limit_row(Limit::Energy, eaten)];
        for group in Group::ALL.iter().filter(|g| **g != Group::Pulses) {
            rows.push(self.group_row(*group, eaten));
            let part = match group {
                Group::Vegetables => Measured::StarchyVegetables,
                Group::Fruits => Measured::FruitJuice,
                _ => continue,
            };
            rows.extend(self.part_row(part).filter(|row| row.decides));
        }
        for limit in Limit::ALL.iter().filter(|l| **l != Limit::Energy) {
            rows.push(self.limit_row(*limit, eaten));
        }
        let shown = |row: &Row| row.held.is_some() || row.served.is_some_and(|s| s > 0.0);
        rows.retain(shown);
        rows
    }

    /// The use of something held, where there is a plate.
    fn used(&self, what: Measured) -> Option<&Use> {
        let sized = self.outcome.as_ref().ok()?.sized;
        let at = self.room.most.iter().position(|m| m.what == what)?;
        sized.plate.uses.get(at + 1)
    }

    fn held(&self, what: Measured) -> Option<(f64, String)> {
        let at = self.room.most.iter().position(|m| m.what == what)?;
        let cap = self.fitting.budget.caps.get(at)?;
        Some((cap.most, cap.of.clone()))
    }

    fn group_row(&self, group: Group, eaten: Option<&Audit>) -> Row {
        let amount = |audit: &Audit| audit.ledger.line(group).likely();
        let what = Measured::Group(group);
        self.row(what, amount(self.served), eaten.and_then(amount))
    }

    fn limit_row(&self, limit: Limit, eaten: Option<&Audit>) -> Row {
        let amount = |audit: &Audit| audit.ledger.line(limit).likely();
        let (served, eaten) = (amount(self.served), eaten.and_then(amount));
        if limit != Limit::Energy {
            return self.row(Measured::Limit(limit), served, eaten);
        }
        let sized = self.outcome.as_ref().ok().map(|a| a.sized);
        Row {
            key: limit.key(),
            label: limit.label(),
            unit: limit.unit(),
            is_group: false,
            served,
            eaten,
            held: Some((self.room.energy_kcal.max(0.0), self.room.of.clone())),
            passed: false,
            decides: sized.is_some_and(|s| s.plate.uses.first().is_some_and(|u| u.binds)),
        }
    }

    fn part_row(&self, what: Measured) -> Option<Row> {
        let used = self.used(what)?;
        Some(self.row(what, Some(used.served), Some(used.eaten)))
    }

    fn row(&self, what: Measured, served: Option<f64>, eaten: Option<f64>) -> Row {
        let used = self.used(what);
        Row {
            key: what.key(),
            label: what.label(),
            unit: what.unit(),
            is_group: !matches!(what, Measured::Limit(_)),
            served,
            eaten,
            held: self.held(what),
            passed: used.is_some_and(|u| u.passed),
            decides: used.is_some_and(|u| u.binds),
        }
    }

    /// What decided the amounts, most components first.
    pub(super) fn decided_by(&self) -> Vec<String> {
        let Ok(answer) = &self.outcome else {
            return Vec::new();
        };
        let plate = &answer.sized.plate;
        let holds = |name: &str| {
            let held = plate.portions.iter();
            held.filter(|p| p.limited_by.iter().any(|h| h == name))
                .count()
        };
        let mut all: Vec<(usize, &str)> = plate
            .uses
            .iter()
            .map(|u| (holds(&u.name), u.name.as_str()))
            .filter(|(many, _)| *many > 0)
            .collect();
        all.sort_by_key(|(many, _)| std::cmp::Reverse(*many));
        all.into_iter().map(|(_, name)| name.to_owned()).collect()
    }

    /// What is over this meal's share of the day although the day is not passed: name, amount,
    /// unit, and times the share.
    pub(super) fn over_the_meal(&self) -> Vec<(&'static str, f64, &'static str, f64)> {
        let (Ok(answer), Some(share)) = (&self.outcome, self.against.share) else {
            return Vec::new();
        };
        let day_only = [Limit::SaturatedFat, Limit::Sodium];
        let over = |limit: Limit| {
            let line = answer.eaten.ledger.line(limit);
            let times = line.share()? / share;
            (times > 1.25).then_some((limit.label(), line.likely()?, limit.unit(), times))
        };
        day_only.into_iter().filter_map(over).collect()
    }
}
