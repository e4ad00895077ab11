//! Amounts for components that nobody sized, from what they are and what they are part of.
//!
//! Means, not medians, so that sums are unbiased.

use super::apportion::adjusted;
use super::component::WeighedComponent;
use super::kinds::DishKind;
use super::usual::{Role, Usual};
use super::weigh::{Basis, Weight};
use crate::matching::Catalogue;

/// A plate of several things holds less of each: `n` things weigh together as `n` to this
/// power less than `n` servings would (plate capacity; common practice).
const CROWDING: f64 = 0.35;
/// From this many grams on, a component takes up room on the plate.
const TAKES_ROOM_G: f64 = 25.0;
/// From this many components on, a dish without a kind is a recipe of small amounts.
const MANY: usize = 8;
/// Spread of the log that a component without a kind of dish has beside its own: nothing
/// says whether the place serves large or small (own reading; a restaurant entree is two to
/// three times a cafeteria plate).
const ANY_PLACE: f64 = 0.3;
/// Doubt about the weight of a kind of which no orders were bought and weighed, beside its own
/// spread, so that such a kind and the sum of the usual amounts are about equally sure.
const UNWEIGHED: f64 = 0.3;
/// The furthest that the pull may change a sum, as a factor (own choice): beyond it the list is
/// not all of the dish, or another dish.
const PULL_BOUNDS: (f64, f64) = (0.5, 2.5);
/// Where a plate is served.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Setting {
    /// Nobody says: a table at home, a canteen, a restaurant.
    Anywhere,
    /// A restaurant, which puts more things on a larger plate.
    Restaurant,
}

/// Gives every matched component without an amount its usual one. `kind` is what the
/// components make up together.
pub(super) fn fill(
    list: &mut [WeighedComponent],
    kind: Option<&DishKind>,
    setting: Setting,
    catalogue: &Catalogue,
) {
    let open: Vec<usize> = (0..list.len()).filter(|at| list[*at].is_open()).collect();
    if open.is_empty() {
        return;
    }
    let all: Vec<&'static Usual> = list.iter().map(|c| c.usual(catalogue)).collect();
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
pub(super) fn beside(
    list: &mut [WeighedComponent],
    kind: Option<&DishKind>,
    catalogue: &Catalogue,
) {
    let all_sides = kind.is_some_and(DishKind::has_sides);
    for c in list.iter_mut().filter(|c| c.is_open()) {
        let usual = c.usual(catalogue);
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
    // Salt, oil, herbs and juice belong to what they season: their number makes no dish one of
    // many things.
    let many = roomy >= MANY;
    let base = |u: &&&Usual| u.role == Role::Base && u.plate_g >= TAKES_ROOM_G;
    let bases = all.iter().filter(base).count().max(1) as f64;
    let of = |u: &Usual| {
        let main = matches!(u.role, Role::Base | Role::Protein | Role::Drink);
        let own = match u.role {
            // Several grains are one bed of grains (Nutrition5k metadata, Thames et al. 2021:
            // 17 g each where there are three or four, 60 g where there is one).
            Role::Base => u.plate_g / bases,
            _ if many && !main => u.accent_g,
            _ => u.plate_g,
        };
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

/// How far a kind's own weight counts beside the sum of usual amounts with this variance of its log: all
/// of it where orders were weighed, else each counts by how sure it is (inverse variance).
fn trust(kind: &DishKind, parts: f64) -> f64 {
    if kind.is_weighed() {
        return 1.0;
    }
    let parts = parts + ANY_PLACE.powi(2);
    let kind = kind.log_sd.powi(2) + UNWEIGHED.powi(2);
    parts / (parts + kind)
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
    let each = |at: &usize| (means[*at] / now * all[*at].log_sd).powi(2);
    let pull = trust(kind, open.iter().map(each).sum());
    let wanted = now.powf(1.0 - pull) * (kind.served_g * present).powf(pull);
    let left = ((wanted - fixed) / unsized_sum).clamp(PULL_BOUNDS.0, PULL_BOUNDS.1) * unsized_sum;
    let picked: Vec<(f64, f64)> = open
        .iter()
        .map(|at| (means[*at], all[*at].log_sd))
        .collect();
    for (at, mean) in open.iter().zip(adjusted(&picked, left)) {
        means[*at] = mean;
    }
}

#[cfg(test)]
mod tests {
    use super::super::usual::usual;
    use super::*;

    #[test]
    fn a_crowded_plate_holds_less_of_each_thing() {
        let chicken = usual("chicken", None);
        let alone = by_room(&[chicken], Setting::Anywhere);
        let three = by_room(&[chicken; 3], Setting::Anywhere);
        assert!((alone[0] - 113.0).abs() < 1e-9);
        assert!(three[0] < 0.75 * alone[0]);
    }
}
