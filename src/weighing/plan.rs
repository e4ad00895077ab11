//! From matched components to weighed ones: what was said first, then what nobody said.

use super::component::{MatchedComponent, WeighedComponent, match_with, weigh_dish};
use super::counts::servings;
use super::doubt::{agree, narrowest_question};
use super::finds::Finds;
use super::hidden::hidden;
use super::kinds::kind_named;
use super::kitchen::as_another_kitchen;
use super::raw::as_eaten;
use super::servings::{ServingText, set_to_serving};
use super::typical::{Setting, fill, settle};
use super::usual::{Role, usual};
use super::vessel::{served_grams, vessel_kind, weigh_share};
use super::weigh::grams_per_ml;
use crate::matching::{Catalogue, Context};
use crate::reading::{ComponentLine, Dish, Served, Vessel, VolumeUnit};
use crate::words::words;

/// How a dish is to be estimated.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Request {
    /// Leave out fat and coating that only cooking words imply.
    pub as_written: bool,
    /// Energy that the restaurant prints for the dish, kcal.
    pub printed_kcal: Option<f64>,
    /// The amounts are those of a typical kitchen, not of the one that serves the dish.
    pub other_kitchen: bool,
    /// Weigh a menu line by its parts alone, without what restaurants print of such servings:
    /// for fitting that very thing.
    pub parts_only: bool,
}

/// A dish with weights for everything that has a food, and remarks.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimated {
    /// The dish.
    pub dish: Dish<WeighedComponent>,
    /// What was assumed or does not fit.
    pub notes: Vec<String>,
}

/// Matches and weighs a dish.
#[must_use]
pub fn estimate_with(
    dish: Dish<ComponentLine>,
    request: &Request,
    finds: &Finds<'_>,
    british: bool,
) -> Estimated {
    let find = |words: &str, context: &Context, top: usize| finds.find(words, context, top);
    estimate(match_with(dish, british, find), request, finds.catalogue())
}

/// Weighs a dish whose components are matched: stated amounts, shares of a vessel, then
/// usual amounts, all within the served weight if that is known.
#[must_use]
pub fn estimate(
    dish: Dish<MatchedComponent>,
    request: &Request,
    catalogue: &Catalogue,
) -> Estimated {
    let kind = dish.kind.as_deref().and_then(kind_named);
    let mut dish = said(dish, false, catalogue);
    if request.other_kitchen {
        let name = dish.name.clone().unwrap_or_default();
        as_another_kitchen(&mut dish.components, &name);
    }
    fill(&mut dish.components, kind, Setting::Anywhere, catalogue);
    finish(dish, request, catalogue, None)
}

/// Weighs what was said: amounts, shares of a vessel, raw and bone-in weights.
pub(super) fn said(
    dish: Dish<MatchedComponent>,
    on_menu: bool,
    catalogue: &Catalogue,
) -> Dish<WeighedComponent> {
    let mut dish = weigh_dish(dish, catalogue);
    as_eaten(&mut dish.components, on_menu, catalogue);
    share_out(&mut dish.components, catalogue);
    count_out(&mut dish.components, catalogue);
    dish
}

/// Weighs what was counted and is not weighed yet: a stated count is never lost.
fn count_out(list: &mut [WeighedComponent], catalogue: &Catalogue) {
    for c in list.iter_mut().filter(|c| c.is_open()) {
        let line = &c.matched.line;
        let (Some(food), Some(amount)) = (c.matched.food, &line.amount) else {
            continue;
        };
        if let Some(weight) = servings(&catalogue.food(food), amount, &line.food) {
            c.weight = Ok(weight);
        }
    }
}

/// The steps that need every component's weight: hidden fat, what such servings hold, the
/// served weight, the printed energy. `serving` is what a menu says of it.
pub(super) fn finish(
    mut dish: Dish<WeighedComponent>,
    request: &Request,
    catalogue: &Catalogue,
    serving: Option<ServingText<'_>>,
) -> Estimated {
    let mut notes = Vec::new();
    if !request.as_written {
        let added = hidden(&dish.components, catalogue);
        dish.components.extend(added);
    }
    if let Some(text) = serving.filter(|_| dish.served.is_none() && !request.parts_only) {
        set_to_serving(&mut dish.components, text, request.as_written, catalogue);
    }
    if let Some(served) = &dish.served {
        notes.extend(settle_served(&mut dish.components, served, catalogue));
    }
    if let Some(kcal) = request.printed_kcal {
        notes.extend(agree(&mut dish.components, kcal, catalogue));
    }
    let question = narrowest_question(&dish.components, catalogue);
    notes.extend(question.as_ref().map(ToString::to_string));
    Estimated { dish, notes }
}

/// Fits the components into what is served; returns what is to be said about it.
fn settle_served(
    list: &mut Vec<WeighedComponent>,
    served: &Served,
    catalogue: &Catalogue,
) -> Vec<String> {
    let mut notes = Vec::new();
    let breads = set_apart(list, served, catalogue);
    match served_grams(served, density(list, catalogue)) {
        Some(grams) => notes.extend(settle(list, grams, catalogue)),
        None => notes.push(format!(
            "how much `{}` holds is not known; it is left aside",
            served.text()
        )),
    }
    for (at, bread) in breads {
        notes.push(format!(
            "`{}` is taken to lie beside what is served",
            bread.matched.line.text
        ));
        list.insert(at, bread);
    }
    notes
}

/// Takes out the bread that comes beside a bowl of something, with its place: a bowl's room
/// is not filled with naan. Nothing where all of it is bread, or where a weight is said.
fn set_apart(
    list: &mut Vec<WeighedComponent>,
    served: &Served,
    catalogue: &Catalogue,
) -> Vec<(usize, WeighedComponent)> {
    let hollow = match served {
        Served::Volume(_) => true,
        Served::Weight(_) => false,
        Served::Vessel { text, vessel, .. } => vessel_kind(text)
            .or_else(|| vessel_kind(vessel.map_or("bowl", Vessel::name)))
            .is_none_or(|kind| kind.millilitres.is_some()),
    };
    let bread = |c: &WeighedComponent| {
        let food = c.matched.food.map(|id| catalogue.food(id));
        let large = c.grams().is_some_and(|g| g.mean >= LEAST_BREAD_G);
        food.is_some() && large && usual(&c.matched.line.food, food).role == Role::Bread
    };
    if !hollow || list.iter().all(bread) {
        return Vec::new();
    }
    let mut apart = Vec::new();
    let mut at = 0;
    while at < list.len() {
        if bread(&list[at]) {
            apart.push((at + apart.len(), list.remove(at)));
        } else {
            at += 1;
        }
    }
    apart
}

/// Bread lighter than this is croutons or crumbs: it lies in the bowl (common practice).
const LEAST_BREAD_G: f64 = 20.0;

/// Grams of a millilitre of the whole: the components' weights over their volumes.
fn density(list: &[WeighedComponent], catalogue: &Catalogue) -> f64 {
    let (mut grams, mut millilitres) = (0.0, 0.0);
    for c in list {
        let (Some(food), Some(weight)) = (c.matched.food, c.grams()) else {
            continue;
        };
        let said = words(&c.matched.line.food);
        let (each, _) = grams_per_ml(&catalogue.food(food), VolumeUnit::Cup, &said);
        if each > 0.0 {
            grams += weight.mean;
            millilitres += weight.mean / each;
        }
    }
    if millilitres > 0.0 {
        grams / millilitres
    } else {
        1.0
    }
}

/// Weighs components said as shares of a vessel.
fn share_out(list: &mut [WeighedComponent], catalogue: &Catalogue) {
    let said: f64 = list
        .iter()
        .filter_map(|c| c.matched.line.share.as_ref()?.fraction)
        .map(|f| f.likely)
        .sum();
    let open = list
        .iter()
        .filter(|c| {
            c.matched
                .line
                .share
                .as_ref()
                .is_some_and(|s| s.fraction.is_none())
        })
        .count();
    let rest = (1.0 - said).max(0.0) / open.max(1) as f64;
    for c in list.iter_mut().filter(|c| c.is_open()) {
        let (Some(food), Some(share)) = (c.matched.food, &c.matched.line.share) else {
            continue;
        };
        let words = &c.matched.line.food;
        if let Some(weight) = weigh_share(&catalogue.food(food), words, share, rest) {
            c.weight = Ok(weight);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::component::match_dish;
    use super::*;
    use crate::reading::{Place, UnitSystem, parse_component};

    fn factor(text: &str) -> f64 {
        let catalogue = Catalogue::embedded().expect("catalogue");
        let line = parse_component(text, Place::new("test", 1, 1), UnitSystem::Us).expect("reads");
        let dish = Dish {
            components: vec![line],
            ..Dish::default()
        };
        let weighed = said(match_dish(dish, &catalogue, false), false, &catalogue);
        weighed.components[0].grams().map_or(0.0, |g| g.mean) / 130.0
    }

    /// The order of the words decides nothing: what is cooked weighs what it weighs, what is
    /// dry or in its shell changes (factors of the tables above).
    #[test]
    fn a_weight_is_that_of_the_state_that_is_said() {
        for (text, expected) in [
            ("130 g pinto beans, cooked from dried, no added fat", 1.0),
            ("130 g cooked dried lentils", 1.0),
            ("130 g black beans, from dried", 1.0),
            ("130 g lentils", 1.0),
            // Dry foods of their own, with dry figures.
            ("130 g dried lentils", 1.0),
            ("130 g black beans, dry", 1.0),
            ("130 g white rice before cooking", 2.75),
            ("130 g chicken wings, bone-in", 0.60),
            ("130 g oysters on the half shell", 1.0),
        ] {
            let got = factor(text);
            assert!((got - expected).abs() < 1e-6, "{text}: {got}");
        }
    }
}
