//! The passes that weigh a dish, in their order.
//!
//! Each takes the dish as it is so far and gives it back with more weights; what it rests a
//! weight on is a step of that weight, what it has to say of the whole is a note.

use super::component::WeighedComponent;
use super::counts::servings;
use super::doubt::{agree, narrowest_question};
use super::hidden::hidden;
use super::kinds::DishKind;
use super::kitchen::as_another_kitchen;
use super::offered::{at_their_chance, open_choice};

use super::raw::as_eaten;
use super::request::Request;
use super::served::settle_served;
use super::servings::{Fitted, ServingText, as_this_kitchen, set_to_serving};
use super::typical::{Setting, fill};
use super::vessel::weigh_share;
use crate::matching::Catalogue;
use crate::reading::Dish;

/// Spread of the log of a dish's energy beside that of its weight: what one name holds differs
/// between restaurants (at least by SD 271 of 1,327 kcal within one dish, Urban et al. 2013, JAMA
/// Intern Med 173(14); so that ranges hold on restaurants left out).
const ANY_RESTAURANT: f64 = 0.35;
/// The same of a dish whose weight and parts are usage that nobody weighed (so that ranges hold on
/// restaurants left out).
const BY_NAME_ALONE: f64 = 0.6;

/// A dish on its way through the passes.
pub(super) struct Progress {
    pub dish: Dish<WeighedComponent>,
    /// What was assumed or does not fit, a sentence each.
    pub notes: Vec<String>,
}

/// What the passes know beside the dish.
pub(super) struct Circumstances<'c> {
    pub request: Request,
    pub catalogue: &'c Catalogue,
    /// What the components make up together.
    pub kind: Option<&'static DishKind>,
    /// Where the plate is served.
    pub setting: Setting,
    /// Whether sides are served with it.
    pub has_sides: bool,
    /// What a menu says of the serving.
    pub serving: Option<ServingText<'c>>,
}

type Pass = fn(Progress, &Circumstances<'_>) -> Progress;

/// From stated amounts to the weights of what was said.
pub(super) const SAID: [Pass; 3] = [as_bought, shares_of_vessels, counted_servings];
/// Amounts that nobody said.
pub(super) const UNSAID: [Pass; 3] = [other_kitchen, usual_amounts, open_choices];
/// What makes a serving of a dish, and of each thing beside it.
pub(super) const SERVED: [Pass; 3] = [hidden_fat, servings_as_printed, kitchens_level];
/// What needs the weight of all that is served.
pub(super) const WHOLE: [Pass; 3] = [served_weight, printed_energy, question];

/// Puts a dish through some passes, one after the other.
pub(super) fn run(passes: &[Pass], dish: Progress, around: &Circumstances<'_>) -> Progress {
    passes
        .iter()
        .fold(dish, |so_far, pass| pass(so_far, around))
}

/// Raw, dry and bone-in weights become those of what is eaten.
fn as_bought(mut so_far: Progress, around: &Circumstances<'_>) -> Progress {
    let on_menu = around.setting == Setting::Restaurant;
    as_eaten(&mut so_far.dish.components, on_menu, around.catalogue);
    so_far
}

/// Weighs components said as shares of a vessel.
fn shares_of_vessels(mut so_far: Progress, around: &Circumstances<'_>) -> Progress {
    let list = &mut so_far.dish.components;
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
        if let Some(weight) = weigh_share(&around.catalogue.food(food), words, share, rest) {
            c.weight = Ok(weight);
        }
    }
    so_far
}

/// Weighs what was counted and is not weighed yet: a stated count is never lost.
fn counted_servings(mut so_far: Progress, around: &Circumstances<'_>) -> Progress {
    let list = &mut so_far.dish.components;
    for c in list.iter_mut().filter(|c| c.is_open()) {
        let line = &c.matched.line;
        let (Some(food), Some(amount)) = (c.matched.food, &line.amount) else {
            continue;
        };
        if let Some(weight) = servings(&around.catalogue.food(food), amount, &line.food) {
            c.weight = Ok(weight);
        }
    }
    so_far
}

/// Amounts of a dish that another kitchen serves are known in kind, not in measure.
fn other_kitchen(mut so_far: Progress, around: &Circumstances<'_>) -> Progress {
    if around.request.other_kitchen {
        let name = so_far.dish.name.clone().unwrap_or_default();
        as_another_kitchen(&mut so_far.dish.components, &name);
    }
    so_far
}

/// What nobody sized weighs what is usual.
fn usual_amounts(mut so_far: Progress, around: &Circumstances<'_>) -> Progress {
    let list = &mut so_far.dish.components;
    fill(list, around.kind, around.setting, around.catalogue);
    so_far
}

/// What is to be chosen counts at its chance.
fn open_choices(mut so_far: Progress, _: &Circumstances<'_>) -> Progress {
    at_their_chance(&mut so_far.dish.components);
    for choice in &so_far.dish.line.choices {
        let part = f64::from(choice.eaten) / choice.options.len().max(1) as f64;
        let told = open_choice(&choice.options, choice.eaten, part);
        so_far.notes.push(format!("{told}; decide with --choose"));
    }
    so_far
}

/// Fat and coating that only cooking words imply.
fn hidden_fat(mut so_far: Progress, around: &Circumstances<'_>) -> Progress {
    if !around.request.as_written {
        let added = hidden(&so_far.dish.components, around.catalogue);
        so_far.dish.components.extend(added);
    }
    so_far
}

/// What restaurants print of such servings, unless somebody says what the whole weighs.
fn servings_as_printed(mut so_far: Progress, around: &Circumstances<'_>) -> Progress {
    let said = so_far.dish.served.is_some() || around.request.parts_only;
    if let Some(text) = around.serving.filter(|_| !said) {
        let list = &mut so_far.dish.components;
        let request = &around.request;
        let fitted = request.fitted();
        let own = around
            .kind
            .and_then(|kind| own_spread(kind, text.name, fitted, around.has_sides));
        set_to_serving(list, text, own, request, around.catalogue);
    }
    so_far
}

/// The spread of the log of a dish's energy by its kind's own weight and parts; `None` where menus print
/// such servings: those tell more (of 176 dishes of restaurants left out, these erred by 41 % where
/// the parts erred by 54 %).
fn own_spread(kind: &DishKind, name: &str, fitted: &Fitted, has_sides: bool) -> Option<f64> {
    if kind.is_printed(name, fitted) && !(has_sides && kind.has_sides()) {
        return None;
    }
    let beside = if kind.is_weighed() {
        ANY_RESTAURANT
    } else {
        BY_NAME_ALONE
    };
    Some(kind.log_sd.hypot(beside))
}

/// What nobody sized is as this kitchen serves it, as far as its other dishes are known.
fn kitchens_level(mut so_far: Progress, around: &Circumstances<'_>) -> Progress {
    let said = so_far.dish.served.is_some() || around.request.parts_only;
    if let Some(level) = around.request.kitchen.filter(|_| !said) {
        as_this_kitchen(&mut so_far.dish.components, level, around.catalogue);
    }
    so_far
}

/// All of it weighs what is served.
fn served_weight(mut so_far: Progress, around: &Circumstances<'_>) -> Progress {
    if let Some(served) = so_far.dish.served.clone() {
        let list = &mut so_far.dish.components;
        let told = settle_served(list, &served, around.catalogue);
        so_far.notes.extend(told);
    }
    so_far
}

/// All of it holds the energy that is printed for this very dish.
fn printed_energy(mut so_far: Progress, around: &Circumstances<'_>) -> Progress {
    if let Some(kcal) = around.request.printed_kcal {
        let told = agree(&mut so_far.dish.components, kcal, around.catalogue);
        so_far.notes.extend(told);
    }
    so_far
}

/// What to ask for the surest answer.
fn question(mut so_far: Progress, around: &Circumstances<'_>) -> Progress {
    if !around.request.figures_only {
        let asked = narrowest_question(&so_far.dish.components, around.catalogue);
        let told = asked.map(|question| question.to_string());
        so_far.notes.extend(told);
    }
    so_far
}
