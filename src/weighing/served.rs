//! What the whole weighs or fills, where somebody says so: everything is made to fit in.

use super::apportion::{Open, share_within};
use super::component::{Unweighed, WeighedComponent};
use super::usual::{Role, Usual, usual};
use super::vessel::{served_grams, vessel_kind};
use super::weigh::{Basis, Weight, grams_per_ml};
use crate::foods::Trait;
use crate::matching::Catalogue;
use crate::quantity::{Estimate, Shared};
use crate::reading::{Served, Vessel, VolumeUnit};
use crate::words::words_of;

/// Least share of a known served weight left to components that nobody sized, when the
/// sized ones already weigh as much.
const LEAST_LEFT: f64 = 0.03;

/// Below this share of the served weight the listed parts leave something unexplained.
const UNEXPLAINED: f64 = 0.95;

/// Fits the components into what is served; returns what is to be said about it.
pub(super) fn settle_served(
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
        let said = words_of(&c.matched.line.food);
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

/// Rescales the unsized components so that everything weighs `served` together. Returns a
/// remark when the sized components alone already weigh as much.
fn settle(
    list: &mut [WeighedComponent],
    served: Estimate,
    catalogue: &Catalogue,
) -> Option<String> {
    let all: Vec<&'static Usual> = list.iter().map(|c| c.usual(catalogue)).collect();
    let open = |c: &WeighedComponent| c.basis().is_none_or(Basis::is_unsaid);
    let at: Vec<usize> = (0..list.len()).filter(|at| open(&list[*at])).collect();
    let fixed = list.iter().filter(|c| !open(c));
    let fixed: Vec<Estimate> = fixed.filter_map(WeighedComponent::grams).collect();
    let sized: f64 = fixed.iter().map(|g| g.mean).sum();
    if at.is_empty() {
        return disagreement(sized, served.mean);
    }
    let left = (served.mean - sized).max(served.mean * LEAST_LEFT);
    let alone: f64 = at
        .iter()
        .filter_map(|i| list[*i].grams())
        .map(|g| g.mean)
        .sum();
    let grown = served.mean / (sized + alone).max(1.0);
    let open: Vec<Open> = at
        .iter()
        .map(|i| movable(list, *i, all[*i], grown, catalogue))
        .collect();
    let means = share_within(&open, left);
    let explained = sized + means.iter().sum::<f64>();
    // The rest is as sure as the whole, the sized parts and what nobody listed are.
    let total_sd = fixed
        .iter()
        .map(|g| g.sd())
        .chain([served.sd(), (served.mean - explained).max(0.0)])
        .fold(0.0, f64::hypot);
    let own: Vec<f64> = at
        .iter()
        .zip(&means)
        .map(|(i, mean)| mean * own_log_sd(&list[*i], all[*i]).powi(2).exp_m1().sqrt())
        .collect();
    let free: f64 = own.iter().map(|sd| sd * sd).sum();
    for ((i, mean), own_sd) in at.iter().zip(&means).zip(own) {
        let variance = own_sd * own_sd;
        let spread = if free > 0.0 {
            variance * (1.0 - variance / free)
        } else {
            0.0
        };
        let shared = (mean / left * total_sd).powi(2);
        let c = &mut list[*i];
        // What no food fits takes up room as well, and has no weight that counts.
        if c.weight == Err(Unweighed::NoFood) {
            continue;
        }
        c.drop_stated_weight();
        c.weight = Ok(Weight {
            grams: Estimate::with_variance(*mean, spread + shared)
                .sharing(Shared::Served { own_sd, total_sd }),
            basis: c.basis().unwrap_or(Basis::Typical),
            steps: vec![
                format!("its part of {:.0} g served", served.mean),
                all[*i].source.clone(),
            ],
        });
    }
    remark(sized, explained, served.mean)
}

/// That amounts said one by one are not what is said of the whole, where they are far apart.
fn disagreement(sized: f64, served: f64) -> Option<String> {
    let far = (sized / served).ln().abs() > 0.2;
    far.then(|| format!("the amounts add up to {sized:.0} g, not to the served {served:.0} g"))
}

/// The spread of the log of what a component weighs by itself.
fn own_log_sd(c: &WeighedComponent, usual: &Usual) -> f64 {
    let implied = c.grams().filter(|_| c.basis() == Some(Basis::Hidden));
    implied.map_or(usual.log_sd, |grams| grams.log_sd)
}

/// How far a component may give way: no food beyond what one plate plausibly holds of it, but
/// for whole dishes and for what is alone on the plate. What other components imply (cooking fat,
/// salt) grows with the whole, by the factor given, and takes up no room that others leave.
fn movable(
    list: &[WeighedComponent],
    at: usize,
    usual: &Usual,
    grown: f64,
    catalogue: &Catalogue,
) -> Open {
    let c = &list[at];
    let mean = c.grams().map_or(usual.plate_g, |g| g.mean);
    if c.basis() == Some(Basis::Hidden) {
        return Open {
            mean: mean * grown,
            log_sd: 0.0,
            most: f64::INFINITY,
        };
    }
    let food = c.matched.food.map(|id| catalogue.food(id));
    let whole = food.is_some_and(|food| food.has(Trait::WholeDish));
    Open {
        mean,
        log_sd: usual.log_sd,
        most: if whole || list.len() == 1 {
            f64::INFINITY
        } else {
            usual.most_g()
        },
    }
}

/// What does not fit between the listed parts and the served weight, in grams.
fn remark(sized: f64, explained: f64, served: f64) -> Option<String> {
    if sized > served * 1.02 {
        return Some(format!(
            "the stated amounts alone weigh {sized:.0} g, more than the served {served:.0} g"
        ));
    }
    (explained < served * UNEXPLAINED).then(|| {
        format!(
            "the listed parts explain about {:.0} g of the {served:.0} g: something may be missing",
            (explained / 10.0).round() * 10.0
        )
    })
}
