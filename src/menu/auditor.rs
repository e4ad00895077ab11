//! From an item to its row: what it is made of, what that weighs, what share of a day it is.

use super::item::{Item, PrintedIs, RowFault};
use super::memo::Memo;
use super::row::{Row, RowComponent};
use super::tally::{Allowances, Tallier};
use crate::catalogue::{Catalogue, Certainty};
use crate::estimate::{WeighedComponent, match_dish, weigh_dish};
use crate::groups::Day;
use crate::reading::{ComponentLine, Dish, Place, UnitSystem, parse_component};

/// Components and menu lines remembered, in each of two generations. A few thousand hold what
/// a menu repeats; more would only cost memory.
const REMEMBERED: usize = 4096;

/// Most components of one item.
const MOST_COMPONENTS: usize = 200;

/// What a whole menu is audited with.
#[derive(Debug, Clone, Copy)]
pub struct Setting<'s> {
    /// The foods.
    pub catalogue: &'s Catalogue,
    /// Whose day.
    pub day: Day<'s>,
    /// Part of the day that one meal takes, above 0, at most 1.
    pub meal: f64,
    /// Cups, spoons and word senses.
    pub units: UnitSystem,
}

/// Audits items one after the other. Each worker has its own; what it remembers never changes
/// an answer.
pub struct Auditor<'s> {
    setting: Setting<'s>,
    allowed: Allowances,
    known: Memo<Known>,
    tallier: Tallier,
    parts: Vec<WeighedComponent>,
}

/// What is known of one component's text.
enum Known {
    Read(Box<WeighedComponent>),
    Unread,
}

impl<'s> Auditor<'s> {
    /// An auditor that remembers nothing yet.
    #[must_use]
    pub fn new(setting: Setting<'s>) -> Self {
        Self {
            setting,
            allowed: Allowances::of(setting.day),
            known: Memo::new(REMEMBERED),
            tallier: Tallier::default(),
            parts: Vec::new(),
        }
    }

    /// Audits one item.
    ///
    /// Fails when nothing in it means a food.
    pub fn row(&mut self, item: &Item) -> Result<Row, RowFault> {
        let mut unmatched = Vec::new();
        self.parts.clear();
        for text in texts(&item.components) {
            match component(&mut self.known, text, self.setting) {
                Known::Read(component) => self.parts.push((**component).clone()),
                Known::Unread => unmatched.push(text.to_owned()),
            }
        }
        if self.parts.iter().all(|c| c.matched.food.is_none()) {
            return Err(RowFault::NoFood);
        }
        Ok(self.finish(item, unmatched))
    }

    fn finish(&mut self, item: &Item, mut unmatched: Vec<String>) -> Row {
        let tally = self
            .tallier
            .tally(&self.parts, self.setting.catalogue, &self.allowed);
        let mut without_amount = Vec::new();
        for c in &self.parts {
            match (c.matched.food, c.grams) {
                (None, _) => unmatched.push(c.matched.line.text.clone()),
                (Some(_), None) => without_amount.push(c.matched.line.text.clone()),
                _ => {}
            }
        }
        let least = self.parts.iter().map(|c| c.matched.certainty).min();
        let certainty = if unmatched.is_empty() {
            least.unwrap_or(Certainty::None)
        } else {
            Certainty::None
        };
        let mut row = Row {
            item: item.name.clone(),
            components: self.parts.drain(..).map(found).collect(),
            over: tally.beyond_a_day(),
            fitted: tally.fitted(self.setting.meal),
            tally,
            certainty,
            printed: item.printed,
            printed_is: None,
            unmatched,
            without_amount,
        };
        // A range that leaves a component out is no mark to hold a printed figure against.
        if row.is_whole() {
            row.printed_is = row
                .printed
                .zip(row.energy())
                .map(|(printed, energy)| PrintedIs::of(printed, energy));
        }
        row
    }
}

/// Component texts of an item, in order.
fn texts(components: &str) -> impl Iterator<Item = &str> {
    components
        .split(';')
        .map(str::trim)
        .filter(|t| !t.is_empty())
        .take(MOST_COMPONENTS)
}

fn component<'m>(known: &'m mut Memo<Known>, text: &str, setting: Setting<'_>) -> &'m Known {
    known.get(text, || {
        parse_component(text, Place::new("", 1, 1), setting.units)
            .ok()
            .and_then(|line| weighed(line, setting))
            .map_or(Known::Unread, |c| Known::Read(Box::new(c)))
    })
}

fn weighed(line: ComponentLine, setting: Setting<'_>) -> Option<WeighedComponent> {
    let dish = Dish {
        components: vec![line],
        ..Dish::default()
    };
    let british = setting.units == UnitSystem::Metric;
    let matched = match_dish(dish, setting.catalogue, british);
    let mut component = weigh_dish(matched, setting.catalogue).components.pop()?;
    // Rows do not show these: let them not be copied with every item.
    component.matched.why.clear();
    component.matched.alternatives.clear();
    component.rests_on.clear();
    Some(component)
}

fn found(component: WeighedComponent) -> RowComponent {
    RowComponent {
        text: component.matched.line.text,
        food: component.matched.food,
        certainty: component.matched.certainty,
        grams: component.grams.map(|g| g.likely),
        basis: component.basis,
    }
}
