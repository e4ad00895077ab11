//! From an item to its row: what it is made of, what that weighs, what share of a day it is.

use super::fitted::fitted;
use super::item::{Item, PrintedIs, RowFault, shortened, texts};
use super::kitchens::{Kitchens, Unlevelled};
use super::row::Row;
use super::row_component::RowComponent;
use crate::fit::Room;
use crate::foods::FoodId;
use crate::ledger::{Allowances, Amounts, Day, Holding, Ledger, PlausiblePart, not_plausible};
use crate::matching::{Catalogue, Certainty, Context};
use crate::memo::Memo;
use crate::reading::{
    ComponentLine, Dish, Place, ReadingError, Served, UnitSystem, parse_component, parse_served,
};
use crate::store::KnownDishes;
use crate::weighing::Service;
use crate::weighing::servings::Level;
use crate::weighing::{
    Estimated, Finds, MatchedComponent, MenuContext, Request, WeighedComponent, estimate,
};
use crate::words::words;
use std::sync::Arc;

/// Component texts remembered, in each of two generations. A few thousand hold what a menu
/// repeats; more would only cost memory.
const COMPONENTS_KNOWN: usize = 1024;
/// Words for a food remembered, whatever the amount beside them.
const FOODS_KNOWN: usize = 1536;
/// Whole items remembered that were worked out together: menu lines, unsized components.
const ITEMS_KNOWN: usize = 256;

/// What a whole menu is audited with.
#[derive(Clone, Copy)]
pub struct Setting<'s> {
    /// The foods.
    pub catalogue: &'s Catalogue,
    /// The library, for items that name one of its dishes.
    pub dishes: &'s KnownDishes,
    /// Whose day.
    pub day: Day<'s>,
    /// What one meal may take of it.
    pub room: &'s Room,
    /// Cups, spoons and word senses.
    pub units: UnitSystem,
    /// Leave out fat and coating that only cooking words imply.
    pub as_written: bool,
    /// How the restaurant serves, where somebody says.
    pub service: Option<Service>,
    /// What is known of the kitchens.
    pub kitchens: Option<&'s Kitchens>,
}

/// Audits items one after the other. Each worker has its own; what it remembers never changes
/// an answer: a component means the same food whatever stands beside it, but for general words
/// that this makes exact, which are looked up anew for each item.
pub struct Auditor<'s> {
    setting: Setting<'s>,
    allowances: Arc<Allowances>,
    holdings: Vec<Holding>,
    /// Nothing for what can not be read.
    known: Memo<Option<Known>>,
    foods: Memo<FoundFood>,
    whole: Memo<Result<Box<[RowComponent]>, RowFault>>,
    finds: Finds<'s>,
    parts: Vec<RowComponent>,
    open: Vec<MatchedComponent>,
    key: String,
    /// Menu lines as they are worked out, where they are wanted later.
    keep: Option<Unlevelled>,
}

/// What is known of one component's text.
struct Known {
    /// Its food, taken by itself; apart, so that room not yet used is small.
    matched: Box<MatchedComponent>,
    /// Where its weight is said: it and the fat that its cooking implies, whatever stands
    /// beside it.
    sized: Option<Box<[RowComponent]>>,
    /// Whether it is a general word that what stands beside it could make exact.
    general: bool,
}

/// A food found for some words, how sure that is, and whether they are general ones.
type FoundFood = (Option<FoodId>, Certainty, bool);

impl<'s> Auditor<'s> {
    /// An auditor that remembers nothing yet.
    #[must_use]
    pub fn new(setting: Setting<'s>) -> Self {
        Self {
            setting,
            allowances: Arc::new(Allowances::of(setting.day)),
            holdings: Vec::new(),
            known: Memo::new(COMPONENTS_KNOWN),
            foods: Memo::new(FOODS_KNOWN),
            whole: Memo::new(ITEMS_KNOWN),
            finds: Finds::new(setting.catalogue),
            parts: Vec::new(),
            open: Vec::new(),
            key: String::new(),
            keep: None,
        }
    }

    /// An auditor that keeps the menu lines it works out, for when more is known of their kitchens.
    pub(super) fn keeping(setting: Setting<'s>) -> Self {
        Self {
            keep: Some(Unlevelled::default()),
            ..Self::new(setting)
        }
    }

    /// The menu lines that it kept.
    pub(super) fn kept(self) -> Unlevelled {
        self.keep.unwrap_or_default()
    }

    /// Audits one item: its components where it lists them, else its name and description as
    /// a line of a menu.
    ///
    /// Fails when what is served can not be read, when nothing in it means a food, or when its main
    /// part means none.
    pub fn row(&mut self, item: &Item) -> Result<Row, RowFault> {
        let served = match item.served.as_str() {
            "" => None,
            text => Some(served(text, self.setting.units)?),
        };
        let mut unmatched = Vec::new();
        self.parts.clear();
        if texts(&item.components).next().is_none() {
            self.take_line(item, served.as_ref())?;
        } else if served.is_some() || !self.take_sized(item, &mut unmatched) {
            unmatched.clear();
            self.take_together(item, served, &mut unmatched)?;
        }
        if self.parts.iter().all(|c| c.food.is_none()) {
            return Err(RowFault::NoFood);
        }
        // Of a dish whose main part is not known there is no total.
        if let Some(main) = self.parts.iter().find(|c| c.unknown_main) {
            return Err(RowFault::UnknownMain(shortened(&main.text)));
        }
        Ok(self.finish(item, unmatched))
    }

    /// The dish that an item is taken for, with all its weights rest on; nothing where
    /// [`row`](Self::row) fails.
    pub(crate) fn dish(&mut self, item: &Item) -> Option<Dish<WeighedComponent>> {
        let served = match item.served.as_str() {
            "" => None,
            text => Some(served(text, self.setting.units).ok()?),
        };
        if texts(&item.components).next().is_none() {
            let own = estimated(item, served.as_ref(), &self.finds, self.setting).ok()?;
            let dish = own.dish;
            return Some(Dish {
                name: Some(item.name.clone()),
                ..dish
            });
        }
        if self.take_open(item, &mut Vec::new()) {
            self.make_exact(item);
        }
        let level = self.setting.kitchens.and_then(|all| all.level(item));
        let open = std::mem::take(&mut self.open);
        Some(Dish {
            name: Some(item.name.clone()),
            components: together(open, served.clone(), level, self.setting),
            served,
            ..Dish::default()
        })
    }

    /// Components that all say their weight: each by itself. False when one does not.
    fn take_sized(&mut self, item: &Item, unmatched: &mut Vec<String>) -> bool {
        let mut implied = Vec::new();
        let mut general = false;
        for text in texts(&item.components) {
            match component(&mut self.known, &mut self.foods, text, self.setting) {
                Some(known) => {
                    let Some(list) = &known.sized else {
                        return false;
                    };
                    general |= known.general;
                    if let Some((first, rest)) = list.split_first() {
                        self.parts.push(first.clone());
                        implied.extend_from_slice(rest);
                    }
                }
                None => unmatched.push(text.to_owned()),
            }
        }
        if general {
            self.take_open(item, &mut Vec::new());
            if self.make_exact(item) {
                return false;
            }
        }
        self.parts.append(&mut implied);
        true
    }

    /// All components as found by themselves; says whether one is a general word.
    fn take_open(&mut self, item: &Item, unmatched: &mut Vec<String>) -> bool {
        let mut general = false;
        self.open.clear();
        for text in texts(&item.components) {
            match component(&mut self.known, &mut self.foods, text, self.setting) {
                Some(known) => {
                    general |= known.general;
                    self.open.push((*known.matched).clone());
                }
                None => unmatched.push(text.to_owned()),
            }
        }
        general
    }

    /// Makes general words exact by the item's name and the other components, as `audit` does
    /// (`dressing` in a Caesar salad); says whether there was one.
    fn make_exact(&mut self, item: &Item) -> bool {
        let catalogue = self.setting.catalogue;
        let british = self.setting.units == UnitSystem::Metric;
        let name = words(&item.name);
        let all: Vec<Vec<String>> = self.open.iter().map(|c| words(&c.line.food)).collect();
        let mut any = false;
        for (at, c) in self.open.iter_mut().enumerate() {
            if !catalogue.are_general(&c.line.food, british) {
                continue;
            }
            let others = all.iter().enumerate().filter(|(other, _)| *other != at);
            let context = Context {
                words: name
                    .iter()
                    .chain(others.flat_map(|(_, w)| w))
                    .cloned()
                    .collect(),
                british,
            };
            if catalogue.made_exact(&c.line.food, &context).is_some() {
                let found = catalogue.find(&c.line.food, &context, 1);
                (c.food, c.certainty) = (found.food, found.certainty);
                any = true;
            }
        }
        any
    }

    /// Components of which some take their weight from the others or from the whole.
    fn take_together(
        &mut self,
        item: &Item,
        served: Option<Served>,
        unmatched: &mut Vec<String>,
    ) -> Result<(), RowFault> {
        let general = self.take_open(item, unmatched);
        self.key.clear();
        self.key.push_str(&item.components);
        self.key.push('\u{1f}');
        self.key.push_str(&item.served);
        if general && self.make_exact(item) {
            // The name may have had a part in it.
            self.key.push('\u{1f}');
            self.key.push_str(&item.name);
        }
        let (setting, open) = (self.setting, &mut self.open);
        if setting.kitchens.is_some() {
            // The kitchen serves this dish as it serves those like it.
            for text in [&item.restaurant, &item.name, &item.section] {
                self.key.push('\u{1f}');
                self.key.push_str(text);
            }
        }
        let list = self.whole.get(&self.key, || {
            let level = setting.kitchens.and_then(|all| all.level(item));
            Ok(kept(&together(
                std::mem::take(open),
                served,
                level,
                setting,
            )))
        });
        self.parts.clear();
        self.parts
            .extend_from_slice(list.as_ref().map_err(Clone::clone)?);
        Ok(())
    }

    /// An item that lists no components.
    fn take_line(&mut self, item: &Item, served: Option<&Served>) -> Result<(), RowFault> {
        self.key.clear();
        for text in [
            &item.name,
            "\u{1d}",
            &item.section,
            "\u{1e}",
            &item.description,
            "\u{1f}",
            &item.served,
            "\u{1c}",
            &item.restaurant,
        ] {
            self.key.push_str(text);
        }
        let (setting, finds, key, keep) =
            (self.setting, &self.finds, &self.key, self.keep.as_mut());
        let list = self.whole.get(key, || {
            let worked_out = setting.kitchens;
            let worked_out = worked_out.and_then(|all| all.served(key, item, setting.catalogue));
            if let Some(list) = worked_out {
                return Ok(kept(&list));
            }
            let Estimated {
                dish, one_serving, ..
            } = estimated(item, served, finds, setting)?;
            let list = kept(&dish.components);
            if let Some(keep) = keep.filter(|_| one_serving && item.printed.is_some()) {
                keep.insert(key.as_str().into(), slim(dish.components));
            }
            Ok(list)
        });
        self.parts
            .extend_from_slice(list.as_ref().map_err(Clone::clone)?);
        Ok(())
    }

    fn finish(&mut self, item: &Item, mut unmatched: Vec<String>) -> Row {
        let catalogue = self.setting.catalogue;
        self.holdings.clear();
        let holding =
            |c: &RowComponent| Some((c.weight?, Amounts::per_gram(&catalogue.food(c.food?))));
        self.holdings.extend(self.parts.iter().filter_map(holding));
        let ledger = Ledger::of(&self.holdings, &self.allowances);
        let fitted = fitted(&self.parts, self.setting.room, catalogue);
        let mut without_amount = Vec::new();
        for c in &self.parts {
            match (c.food, c.weight) {
                (None, _) => unmatched.push(c.text.as_ref().to_owned()),
                (Some(_), None) => without_amount.push(c.text.as_ref().to_owned()),
                _ => {}
            }
        }
        let least = self.parts.iter().map(|c| c.certainty).min();
        let certainty = if unmatched.is_empty() {
            least.unwrap_or(Certainty::None)
        } else {
            Certainty::None
        };
        let not_plausible = not_plausible(
            self.parts.iter().filter_map(|c| part(c, catalogue)),
            None,
            &ledger,
        );
        let mut row = Row {
            item: item.name.clone(),
            section: item.section.clone(),
            components: self.parts.drain(..).collect(),
            fitted,
            choice: None,
            ledger,
            certainty,
            printed: item.printed,
            printed_is: None,
            not_plausible,
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

/// A component as far as it matters for what is plausible.
fn part<'c>(c: &'c RowComponent, catalogue: &'c Catalogue) -> Option<PlausiblePart<'c>> {
    Some(PlausiblePart {
        text: &c.text,
        food: catalogue.food(c.food?),
        grams: c.weight?.mean,
        said: c.basis.is_some_and(|basis| !basis.is_unsaid()),
    })
}

fn served(text: &str, units: UnitSystem) -> Result<Served, RowFault> {
    parse_served(text, units).map_err(|error| RowFault::Served(first_line(&error)))
}

/// The first line of an error, short enough for a message.
fn first_line(error: &ReadingError) -> String {
    let told = error.to_string();
    shortened(told.lines().next().unwrap_or_default())
}

fn component<'m>(
    known: &'m mut Memo<Option<Known>>,
    foods: &mut Memo<FoundFood>,
    text: &str,
    setting: Setting<'_>,
) -> Option<&'m Known> {
    let known = known.get(text, || {
        let line = parse_component(text, Place::new("", 1, 1), setting.units).ok()?;
        let sized = line.share.is_none() && line.amount.is_some();
        let (matched, general) = matched(foods, line, setting);
        if !sized {
            return Some(Known {
                matched: Box::new(matched),
                sized: None,
                general,
            });
        }
        let list = together(vec![matched], None, None, setting);
        let all = kept(&list);
        let first = list.into_iter().next()?;
        let open = first.matched.food.is_some() && !is_said(&first);
        Some(Known {
            matched: Box::new(first.matched),
            sized: (!open).then_some(all),
            general,
        })
    });
    known.as_ref()
}

/// Whether a weight comes from what is written.
fn is_said(c: &WeighedComponent) -> bool {
    c.basis().is_some_and(|basis| !basis.is_unsaid())
}

fn matched(
    foods: &mut Memo<FoundFood>,
    line: ComponentLine,
    setting: Setting<'_>,
) -> (MatchedComponent, bool) {
    let (food, certainty, general) = *foods.get(&line.food, || {
        let context = Context {
            words: Vec::new(),
            british: setting.units == UnitSystem::Metric,
        };
        let found = setting.catalogue.find(&line.food, &context, 1);
        let general = setting.catalogue.are_general(&line.food, context.british);
        (found.food, found.certainty, general)
    });
    let matched = MatchedComponent {
        line,
        food,
        certainty,
        alternatives: Vec::new(),
        why: String::new(),
    };
    (matched, general)
}

fn together(
    components: Vec<MatchedComponent>,
    served: Option<Served>,
    kitchen: Option<Level>,
    setting: Setting<'_>,
) -> Vec<WeighedComponent> {
    let dish = Dish {
        served,
        components,
        ..Dish::default()
    };
    estimate(dish, &request(setting, kitchen), setting.catalogue)
        .dish
        .components
}

fn kept(list: &[WeighedComponent]) -> Box<[RowComponent]> {
    list.iter().map(RowComponent::of).collect()
}

/// Printed figures are held against the estimate, so they have no part in it.
fn request(setting: Setting<'_>, kitchen: Option<Level>) -> Request {
    Request {
        as_written: setting.as_written,
        service: setting.service,
        figures_only: true,
        kitchen,
        ..Request::default()
    }
}

/// The dish that an item means by its name and description.
fn estimated(
    item: &Item,
    served: Option<&Served>,
    finds: &Finds<'_>,
    setting: Setting<'_>,
) -> Result<Estimated, RowFault> {
    let meaning = setting
        .dishes
        .meaning(&item.name, &item.description, setting.units)
        .map_err(|error| RowFault::Dish(first_line(&error)))?;
    let context = MenuContext {
        finds,
        known: &setting.dishes.finder(setting.units),
        units: setting.units,
        british: setting.units == UnitSystem::Metric,
    };
    let level = setting.kitchens.and_then(|all| all.level(item));
    let request = request(setting, level);
    Ok(meaning.estimate(&item.section, served.cloned(), &request, context))
}

/// Components without what tells why: that takes most of their room.
fn slim(mut list: Vec<WeighedComponent>) -> Box<[WeighedComponent]> {
    for c in &mut list {
        c.matched.why = String::new();
        c.matched.alternatives = Vec::new();
        if let Ok(weight) = &mut c.weight {
            weight.steps = Vec::new();
        }
    }
    list.into()
}
