//! Setting what nobody sized so that a plate comes to what such servings hold.

use super::effects::Fitted;
use super::features::Parts;
use super::level::Level;
use super::said::{Said, ServingText};
use crate::foods::{Nutrient, Trait};
use crate::matching::{Catalogue, Certainty};
use crate::quantity::{Estimate, Shared, sum};
use crate::reading::Measure;
use crate::weighing::component::{WeighedComponent, energy, kcal_per_g};
use crate::weighing::hidden::inferred;
use crate::weighing::request::Request;
use crate::weighing::weigh::{Basis, Weight};

/// The furthest that what nobody sized is moved, as a factor: beyond it the words speak of
/// something else than the parts. Chosen on restaurants left out, for what is taken for a pinch of
/// spice is often served by the plate: with 5 and 1.8 of drinks they err by 3 and 6 % of the mean more.
const FURTHEST: f64 = 30.0;
/// The same of drinks, whose cups are known.
const FURTHEST_DRINK: f64 = 20.0;
/// The same of spreads.
const WIDEST: f64 = 8.0;
/// Least share of what nobody sized that is left beside what was said (own choice).
const LEAST_LEFT: f64 = 0.3;
/// The factor on fitted energies of drinks with which as many restaurants left out print more as less
/// than the whole program tells; for dishes it is 1.
const LEVEL_OF_DRINKS: f64 = 1.05;
/// Doubt about a weight, volume or count that a menu prints, beside that of the figure: meat is
/// weighed raw, a cup holds ice, pieces differ between kitchens. So that the 80 % ranges hold
/// over printed items of which the menu says how much they are.
const PRINTED_AMOUNT: f64 = 0.5;
/// Most sugar that a restaurant's drink holds beyond its recipe, as a share of its weight: a
/// frozen coffee of 24 fl oz with 100 g of sugar has 15 %.
const MOST_SUGAR: f64 = 0.15;
/// Energy of a gram of sugar, kcal, and sodium of a gram of salt, mg (USDA SR28 19335, 2047).
const SUGAR_KCAL: f64 = 3.87;
const SALT_MG: f64 = 387.6;
/// Spread of what is added to agree (own choice).
const ADDED: f64 = 0.6;
/// A drink with less energy than this in a gram is drunk without sugar unless its words say
/// so: water, tea, black coffee.
const UNSWEETENED: f64 = 0.1;
/// Less salt than this changes nothing that is shown.
const LEAST_SALT_G: f64 = 0.1;

/// Sets the components that nobody sized so that the whole holds the energy of such servings
/// and is as sure as that. What was weighed, measured or counted stays. Unless amounts are taken as
/// written, sugar of drinks and salt come with it.
///
/// `own_log_sd` is the spread of the parts' own energy where orders of such a dish were bought
/// and weighed: the two estimates then count by how sure each is.
pub(crate) fn set_to_serving(
    list: &mut Vec<WeighedComponent>,
    text: ServingText<'_>,
    own_log_sd: Option<f64>,
    request: &Request,
    catalogue: &Catalogue,
) {
    let said = said_of(text, list, catalogue);
    let (fitted, as_written) = (request.fitted(), request.as_written);
    let Some(serving) = fitted.served_energy(&said, parts_of(list, catalogue)) else {
        return;
    };
    if said.is_counted_by_piece() {
        return;
    }
    doubt_what_is_printed(list);
    if said.drink {
        fill_the_cup(list, &said, fitted);
        // What holds next to no energy says nothing of how much of it there is.
        if said.is_unsweetened() {
            return;
        }
        if !as_written {
            sweeten(list, serving.mean, &said, catalogue);
        }
        // Nor does that of tea and coffee into which little was put.
        if energy(list, catalogue).mean < UNSWEETENED * grams_of(list) {
            return;
        }
    }
    let serving = serving.times(match request.service {
        _ if said.drink => LEVEL_OF_DRINKS,
        Some(service) => service.level(),
        None => 1.0,
    });
    let serving = serving.times(said.slices.unwrap_or(1.0));
    let serving = match own_log_sd.filter(|_| !said.drink) {
        Some(own) => between(serving, energy(list, catalogue).mean, own),
        None => serving,
    };
    let cup = said.drink.then(|| grams_of(list));
    agree(list, serving, &said, catalogue);
    if let Some(cup) = cup {
        keep_in_the_cup(list, cup, &said, as_written, catalogue);
    }
    // A drink whose words name no drink is as salty as its parts: `house red`.
    if !as_written
        && said.drink == said.kind.is_drink()
        && (said.drink || is_eaten(list, catalogue))
    {
        salt(list, &said, fitted, catalogue);
    }
}

/// What the words say; where they name no kind, the first food's name does.
fn said_of(text: ServingText<'_>, list: &[WeighedComponent], catalogue: &Catalogue) -> Said {
    let mut said = Said::read(text);
    let first = list.iter().find(|c| c.grams().is_some());
    if let Some(matched) = first.map(|c| &c.matched)
        && let Some(food) = matched.food
    {
        let sure = matched.certainty > Certainty::Guess;
        said.or_kind_of(catalogue.food(food).name(), sure);
    }
    said
}

/// Whether any of it is food, not drink.
fn is_eaten(list: &[WeighedComponent], catalogue: &Catalogue) -> bool {
    let mut foods = list.iter().filter_map(|c| c.matched.food);
    foods.any(|id| !catalogue.food(id).has(Trait::Drink))
}

/// What two estimates of one energy come to, each counting by its precision (inverse variance).
fn between(serving: Estimate, own_kcal: f64, own_log_sd: f64) -> Estimate {
    if own_kcal <= 0.0 || serving.mean <= 0.0 {
        return serving;
    }
    let (a, b) = (serving.log_sd.powi(-2), own_log_sd.powi(-2));
    let log = (a * serving.mean.ln() + b * own_kcal.ln()) / (a + b);
    Estimate::new(log.exp(), (a + b).powf(-0.5).max(own_log_sd))
}

fn parts_of(list: &[WeighedComponent], catalogue: &Catalogue) -> Option<Parts> {
    let kcal = energy(list, catalogue).mean;
    let grams = list.iter().filter_map(|c| Some(c.grams()?.mean));
    (kcal > 0.0).then(|| Parts {
        count: grams.clone().count(),
        kcal,
        grams: grams.sum(),
    })
}

/// An amount that a menu prints is less sure than one that was weighed.
fn doubt_what_is_printed(list: &mut [WeighedComponent]) {
    for c in list.iter_mut().filter(|c| !is_open(c)) {
        if let Ok(weight) = &mut c.weight {
            weight.grams = weight.grams.doubted(PRINTED_AMOUNT);
        }
    }
}

/// Gives a drink of which nothing is measured the weight of such drinks.
fn fill_the_cup(list: &mut [WeighedComponent], said: &Said, fitted: &Fitted) {
    let now = grams_of(list);
    let all = list.iter().all(|c| c.weight.is_err() || is_open(c));
    let Some(grams) = fitted.served_grams(said).filter(|_| all && now > 0.0) else {
        return;
    };
    for at in open(list) {
        let told = format!(
            "{grams:.0} g together, as such drinks hold ({})",
            said.kind.name
        );
        list[at].change(told, |own| own.times(grams / now));
    }
}

/// Adds the sugar of syrups that restaurants put into such drinks.
fn sweeten(list: &mut Vec<WeighedComponent>, kcal: f64, said: &Said, catalogue: &Catalogue) {
    let (now, grams) = (energy(list, catalogue).mean, grams_of(list));
    if grams <= 0.0 || said.is_brewed() || now < UNSWEETENED * grams && !said.is_flavoured() {
        return;
    }
    let sugar = ((kcal - now) / SUGAR_KCAL).min(MOST_SUGAR * grams);
    if sugar < 1.0 {
        return;
    }
    let told = format!("sugar of such drinks in restaurants ({})", said.kind.name);
    let weight = Weight::unsaid(sugar, ADDED, Basis::Hidden, told.clone());
    list.push(inferred(
        "white sugar, granulated",
        &told,
        &list[0],
        weight,
        catalogue,
    ));
}

/// A cup holds no more than this many times what such cups hold (own choice): what a drink holds beyond
/// that is sugar.
const MOST_OF_A_CUP: f64 = 1.6;

fn grams_of(list: &[WeighedComponent]) -> f64 {
    list.iter().filter_map(|c| Some(c.grams()?.mean)).sum()
}

/// Brings a drink that was to hold more than its cup back into it, and makes up for it in sugar.
fn keep_in_the_cup(
    list: &mut Vec<WeighedComponent>,
    cup: f64,
    said: &Said,
    as_written: bool,
    catalogue: &Catalogue,
) {
    let (now, wanted) = (grams_of(list), energy(list, catalogue).mean);
    let open = open(list);
    if now <= MOST_OF_A_CUP * cup || open.is_empty() {
        return;
    }
    for at in open {
        let told = "no more than such a cup holds".to_owned();
        list[at].change(told, |own| own.times(MOST_OF_A_CUP * cup / now));
    }
    if !as_written {
        sweeten(list, wanted, said, catalogue);
    }
}

/// Scales what nobody sized to the energy of such servings, and the spread of the whole to theirs.
fn agree(list: &mut [WeighedComponent], serving: Estimate, said: &Said, catalogue: &Catalogue) {
    let moved = open(list);
    let all = energy(list, catalogue);
    let own = kcal_of(list, &moved, catalogue);
    if own <= 0.0 {
        return;
    }
    let share = own / all.mean;
    let left = (serving.mean - (all.mean - own)).max(LEAST_LEFT * own);
    // The more of the whole was said, the less its sort tells of the rest.
    let furthest = if said.drink { FURTHEST_DRINK } else { FURTHEST };
    let factor = (left / own).powf(share).clamp(1.0 / furthest, furthest);
    for at in moved.iter().copied() {
        let told = format!(
            "x {factor:.2}, as restaurants print of such servings ({}, {} known)",
            said.kind.name,
            said.known().word()
        );
        list[at].change(told, |grams| grams.times(factor).sharing(Shared::Kitchen));
    }
    let before = energy(list, catalogue).log_sd;
    let wanted = before + share * (serving.log_sd - before);
    let widened = widening(list, &moved, wanted, catalogue);
    for at in moved {
        if let Ok(weight) = &mut list[at].weight {
            weight.grams.log_sd *= widened;
        }
    }
}

/// Sets what nobody sized as a kitchen serves it.
pub(crate) fn as_this_kitchen(list: &mut [WeighedComponent], level: Level, catalogue: &Catalogue) {
    let moved = open(list);
    let told = energy(list, catalogue);
    let wanted = level.of(told);
    let own = kcal_of(list, &moved, catalogue);
    if own <= 0.0 {
        return;
    }
    let left = (wanted.mean - (told.mean - own)).max(LEAST_LEFT * own);
    let factor = (left / own).powf(own / told.mean);
    let narrower = widening(list, &moved, told.log_sd * level.left, catalogue);
    for at in moved {
        let told = format!(
            "x {factor:.2}, as this kitchen serves ({} of its dishes are known)",
            level.dishes
        );
        list[at].change(told, |grams| Estimate {
            log_sd: grams.log_sd * narrower,
            ..grams.times(factor)
        });
    }
}

/// Adds the salt that kitchens put into such servings beyond that of their parts.
fn salt(list: &mut Vec<WeighedComponent>, said: &Said, fitted: &Fitted, catalogue: &Catalogue) {
    let kcal = energy(list, catalogue).mean;
    let sodium = |c: &WeighedComponent| {
        let food = catalogue.food(c.matched.food?);
        Some(food.per_100g(Nutrient::SodiumMg)? * c.grams()?.mean / 100.0)
    };
    let now: f64 = list.iter().filter_map(sodium).sum();
    let Some(each) = fitted.salt_of(said.kind) else {
        return;
    };
    let salt = (kcal * each - now) / SALT_MG;
    if salt < LEAST_SALT_G {
        return;
    }
    let told = format!("salt of such servings in restaurants ({})", said.kind.name);
    let weight = Weight::unsaid(salt, ADDED, Basis::Hidden, told.clone());
    list.push(inferred("table salt", &told, &list[0], weight, catalogue));
}

/// Whether nobody sized it, or only by a size word: `large fries`.
fn is_open(c: &WeighedComponent) -> bool {
    let sized = || {
        let measure = c.matched.line.amount.as_ref().map(|a| &a.measure);
        matches!(
            measure,
            Some(Measure::Count {
                unit: None,
                size: Some(_),
                inches: None,
            })
        )
    };
    match c.basis() {
        Some(Basis::Typical | Basis::Hidden) => true,
        Some(Basis::Counted) => sized(),
        _ => false,
    }
}

/// Places of what nobody sized.
fn open(list: &[WeighedComponent]) -> Vec<usize> {
    (0..list.len()).filter(|at| is_open(&list[*at])).collect()
}

/// The energy of some components, kcal.
fn kcal_of(list: &[WeighedComponent], some: &[usize], catalogue: &Catalogue) -> f64 {
    let each = |at: &usize| {
        let c = &list[*at];
        Some(kcal_per_g(c, catalogue)? * c.grams()?.mean)
    };
    some.iter().filter_map(each).sum()
}

/// How much wider the spreads of some components must be for the energy of all to have this spread.
fn widening(list: &[WeighedComponent], some: &[usize], log_sd: f64, catalogue: &Catalogue) -> f64 {
    let spread = |times: f64| {
        sum(list.iter().enumerate().filter_map(|(at, c)| {
            let kcal = kcal_per_g(c, catalogue)?;
            let times = if some.contains(&at) { times } else { 1.0 };
            Some((c.term_widened(times)?, kcal))
        }))
    };
    let (mut low, mut high) = (1.0 / WIDEST, WIDEST);
    for _ in 0..16 {
        let middle = f64::midpoint(low, high);
        if spread(middle).log_sd > log_sd {
            high = middle;
        } else {
            low = middle;
        }
    }
    f64::midpoint(low, high)
}
