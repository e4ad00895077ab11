//! Amounts for components that nobody sized, from what they are, what they are part of and
//! what the whole weighs.
//!
//! Means, not medians, so that sums are unbiased.

use super::component::{Unweighed, WeighedComponent};
use super::kinds::DishKind;
use super::usual::{Role, Usual, is_dish, usual};
use super::weigh::{Basis, Weight};
use crate::matching::Catalogue;
use crate::quantity::{Estimate, Shared};

/// A plate of several things holds less of each: `n` things weigh together as `n` to this
/// power less than `n` servings would (plate capacity; common practice).
const CROWDING: f64 = 0.35;
/// From this many grams on, a component takes up room on the plate.
const TAKES_ROOM_G: f64 = 25.0;
/// From this many components on, a dish without a kind is a recipe of small amounts.
const MANY: usize = 8;
/// How far a dish of a known kind is drawn from the sum of its components' usual amounts
/// towards the kind's served weight, on the log scale: both are about equally sure.
const PULL: f64 = 0.5;
/// Spread of the log that a component without a kind of dish has beside its own: nothing
/// says whether the place serves large or small (own reading; a restaurant entree is two to
/// three times a cafeteria plate).
const ANY_PLACE: f64 = 0.3;
/// The furthest that the pull may change a sum, as a factor.
const PULL_BOUNDS: (f64, f64) = (0.6, 1.7);
/// Least share of a known served weight left to components that nobody sized, when the
/// sized ones already weigh as much.
const LEAST_LEFT: f64 = 0.03;

/// Below this share of the served weight the listed parts leave something unexplained.
const UNEXPLAINED: f64 = 0.95;

/// Where a plate is served.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Setting {
    /// Nobody says: a table at home, a canteen, a restaurant.
    Anywhere,
    /// A restaurant, which puts more things on a larger plate.
    Restaurant,
}

/// Gives every matched component without an amount its usual one. `kind` is what the
/// components make up together.
pub fn fill(
    list: &mut [WeighedComponent],
    kind: Option<&DishKind>,
    setting: Setting,
    catalogue: &Catalogue,
) {
    let open: Vec<usize> = (0..list.len()).filter(|at| list[*at].is_open()).collect();
    if open.is_empty() {
        return;
    }
    let all: Vec<&'static Usual> = list.iter().map(|c| usual_of(c, catalogue)).collect();
    let mut means = match kind {
        Some(kind) => by_kind(&all, kind),
        None => by_room(&all, setting),
    };
    if let Some(kind) = kind {
        pull(list, &open, &all, &mut means, kind);
    }
    for at in open {
        let usual = all[at];
        let placed = kind.is_some() || setting == Setting::Restaurant;
        let place = if placed { 0.0 } else { ANY_PLACE };
        let told = match kind {
            Some(kind) => format!("usual in a {} ({})", kind.name, usual.source),
            None => format!("usual amount ({})", usual.source),
        };
        let log_sd = usual.log_sd.hypot(place);
        list[at].weight = Ok(Weight::unsaid(means[at], log_sd, Basis::Typical, told));
    }
}

/// Gives what stands beside a whole dish, or on top of it, its usual amount: sides as servings
/// of their own, everything else as a topping, unless the dish is one thing that sides are
/// put beside.
pub fn beside(list: &mut [WeighedComponent], kind: Option<&DishKind>, catalogue: &Catalogue) {
    let all_sides = kind.is_some_and(DishKind::has_sides);
    for c in list.iter_mut().filter(|c| c.is_open()) {
        let usual = usual_of(c, catalogue);
        let side = matches!(
            usual.role,
            Role::Base | Role::Bread | Role::Vegetables | Role::Drink
        );
        let grams = if side || (all_sides && usual.role != Role::Seasoning) {
            usual.plate_g
        } else {
            usual.accent_g
        };
        let told = format!("usual amount ({})", usual.source);
        c.weight = Ok(Weight::unsaid(grams, usual.log_sd, Basis::Typical, told));
    }
}

fn usual_of(c: &WeighedComponent, catalogue: &Catalogue) -> &'static Usual {
    usual(
        &c.matched.line.food,
        c.matched.food.map(|id| catalogue.food(id)),
    )
}

/// Without a kind: servings, crowded by one another.
fn by_room(all: &[&Usual], setting: Setting) -> Vec<f64> {
    let roomy = all
        .iter()
        .filter(|u| u.plate_g >= TAKES_ROOM_G)
        .count()
        .max(1);
    let crowded = match setting {
        Setting::Anywhere => (roomy as f64).powf(-CROWDING),
        Setting::Restaurant => 1.0,
    };
    let many = all.len() >= MANY;
    let of = |u: &Usual| {
        let main = matches!(u.role, Role::Base | Role::Protein | Role::Drink);
        let own = if many && !main { u.accent_g } else { u.plate_g };
        if own >= TAKES_ROOM_G {
            own * crowded
        } else {
            own
        }
    };
    all.iter().copied().map(of).collect()
}

/// With a kind: between a component's own usual amount and its part of the role's share.
fn by_kind(all: &[&Usual], kind: &DishKind) -> Vec<f64> {
    let own = |u: &Usual| match kind.role(u.role) {
        Role::Base | Role::Protein | Role::Bread | Role::Cheese | Role::Sauce | Role::Drink => {
            u.plate_g
        }
        _ => u.accent_g,
    };
    let of = |u: &Usual| {
        let budget = kind.share(u.role) * kind.served_g;
        if u.role == Role::Seasoning {
            return u.accent_g;
        }
        if budget <= 0.0 {
            let main = matches!(u.role, Role::Base | Role::Protein | Role::Bread);
            return if main || kind.has_sides() {
                u.plate_g
            } else {
                u.accent_g
            };
        }
        let together: f64 = all
            .iter()
            .copied()
            .filter(|o| kind.role(o.role) == kind.role(u.role))
            .map(own)
            .sum();
        (own(u) * budget * own(u) / together).sqrt()
    };
    all.iter().copied().map(of).collect()
}

/// Draws the unsized amounts so that the whole comes nearer to what the kind weighs.
fn pull(
    list: &[WeighedComponent],
    open: &[usize],
    all: &[&Usual],
    means: &mut [f64],
    kind: &DishKind,
) {
    let mut roles: Vec<Role> = all.iter().map(|u| kind.role(u.role)).collect();
    roles.sort_by_key(|r| *r as u8);
    roles.dedup();
    let present: f64 = roles.iter().map(|r| kind.share(*r)).sum();
    if present <= 0.0 {
        return;
    }
    // What the kind does not hold (a side of rice beside a steak) comes on top of it.
    let own = |at: usize| kind.share(all[at].role) > 0.0;
    let open: Vec<usize> = open.iter().copied().filter(|at| own(*at)).collect();
    if open.is_empty() {
        return;
    }
    let fixed: f64 = (0..list.len())
        .filter(|at| own(*at))
        .filter_map(|at| list[at].grams())
        .map(|g| g.mean)
        .sum();
    let unsized_sum: f64 = open.iter().map(|at| means[*at]).sum();
    let now = fixed + unsized_sum;
    let wanted = now.powf(1.0 - PULL) * (kind.served_g * present).powf(PULL);
    let left = ((wanted - fixed) / unsized_sum).clamp(PULL_BOUNDS.0, PULL_BOUNDS.1) * unsized_sum;
    let picked: Vec<(f64, f64)> = open
        .iter()
        .map(|at| (means[*at], all[*at].log_sd))
        .collect();
    for (at, mean) in open.iter().zip(adjusted(&picked, left)) {
        means[*at] = mean;
    }
}

/// Changes means so that they add up to `total`, those that vary most giving most.
#[must_use]
pub fn adjusted(means: &[(f64, f64)], total: f64) -> Vec<f64> {
    let open: Vec<Open> = means
        .iter()
        .map(|(mean, log_sd)| Open {
            mean: *mean,
            log_sd: *log_sd,
            most: f64::INFINITY,
        })
        .collect();
    share_within(&open, total)
}

/// An amount that may move.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Open {
    /// Its mean by itself, g.
    mean: f64,
    /// Standard deviation of its log.
    log_sd: f64,
    /// The most that it may come to, g.
    most: f64,
}

/// Changes the means so that they add up to `total`, those that vary most giving most, none
/// beyond its most: the sum is less than `total` when all of them are at their most.
fn share_within(open: &[Open], total: f64) -> Vec<f64> {
    let at = |slope: f64| -> Vec<f64> {
        open.iter()
            .map(|o| {
                let moved = o.mean * (slope * o.log_sd * o.log_sd).clamp(-30.0, 30.0).exp();
                moved.min(o.most.max(o.mean))
            })
            .collect()
    };
    let (mut low, mut high) = (-2_000.0, 2_000.0);
    for _ in 0..80 {
        let middle = f64::midpoint(low, high);
        if at(middle).iter().sum::<f64>() > total {
            high = middle;
        } else {
            low = middle;
        }
    }
    at(low)
}

/// Rescales the unsized components so that everything weighs `served` together. Returns a
/// remark when the sized components alone already weigh as much.
pub fn settle(
    list: &mut [WeighedComponent],
    served: Estimate,
    catalogue: &Catalogue,
) -> Option<String> {
    let all: Vec<&'static Usual> = list.iter().map(|c| usual_of(c, catalogue)).collect();
    let open = |c: &WeighedComponent| c.basis().is_none_or(Basis::is_unsaid);
    let at: Vec<usize> = (0..list.len()).filter(|at| open(&list[*at])).collect();
    let fixed: Vec<Estimate> = list
        .iter()
        .filter(|c| !open(c))
        .filter_map(WeighedComponent::grams)
        .collect();
    let sized: f64 = fixed.iter().map(|g| g.mean).sum();
    if at.is_empty() {
        let off = (sized / served.mean).ln().abs();
        return (off > 0.2).then(|| {
            format!(
                "the amounts add up to {sized:.0} g, not to the served {:.0} g",
                served.mean
            )
        });
    }
    let left = (served.mean - sized).max(served.mean * LEAST_LEFT);
    let alone = list.len() == 1;
    let whole = |c: &WeighedComponent| {
        let food = c.matched.food.map(|id| catalogue.food(id));
        food.is_some_and(|food| is_dish(food.family()))
    };
    let open: Vec<Open> = at
        .iter()
        .map(|i| Open {
            mean: list[*i].grams().map_or(all[*i].plate_g, |g| g.mean),
            log_sd: all[*i].log_sd,
            most: if alone || whole(&list[*i]) {
                f64::INFINITY
            } else {
                all[*i].most_g()
            },
        })
        .collect();
    let means = share_within(&open, left);
    let explained = sized + means.iter().sum::<f64>();
    // The rest is as sure as the whole, the sized parts and what nobody listed are.
    let total_sd = fixed
        .iter()
        .map(|g| g.sd())
        .chain([served.sd(), (served.mean - explained).max(0.0)])
        .fold(0.0, f64::hypot);
    let own: Vec<f64> = means
        .iter()
        .zip(&open)
        .map(|(mean, o)| mean * o.log_sd.powi(2).exp_m1().sqrt())
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn adjusted_means_add_up_and_the_surest_moves_least() {
        let moved = adjusted(&[(100.0, 0.1), (100.0, 0.5)], 260.0);
        assert!((moved.iter().sum::<f64>() - 260.0).abs() < 1e-6);
        assert!(moved[0] < 105.0 && moved[1] > 155.0, "{moved:?}");
        assert!((adjusted(&[(50.0, 0.4)], 10.0)[0] - 10.0).abs() < 1e-6);
    }

    #[test]
    fn a_crowded_plate_holds_less_of_each_thing() {
        let chicken = usual("chicken", None);
        let alone = by_room(&[chicken], Setting::Anywhere);
        let three = by_room(&[chicken; 3], Setting::Anywhere);
        assert!((alone[0] - 113.0).abs() < 1e-9);
        assert!(three[0] < 0.75 * alone[0]);
    }
}
