//! Laying the piles out: the food's disc is cut by straight cuts into one convex cell for
//! each pile, each cell holding exactly the pile's share; inside its cell a pile is rounded
//! and brought to exactly its area. Convex cells of one disc cannot overlap, and a convex
//! shape rounded and shrunk inside its cell stays there, so piles never overlap, whatever
//! the amounts. Nothing is random: the same picture gives the same drawing.

use super::geometry::{Convex, Point};
use super::picture::{Patch, Picture, Vessel};
use super::vessel::{Setting, WELL_SHARE};
use std::f64::consts::PI;

/// Sides of the polygon that stands for a disc.
const DISC_SIDES: usize = 96;

/// Directions tried for each cut, evenly over half a turn.
const DIRECTIONS: usize = 8;

/// Food disc over food area where there is room: leaves gaps between piles.
const ROOMY: f64 = 1.2;

/// Gap in cm between neighbouring piles where there is room.
const GAP_CM: f64 = 0.3;

/// One pile as laid out, in cm from the middle of the vessel, y up.
#[derive(Debug, Clone, PartialEq)]
pub struct Pile {
    /// Which patch of the picture this is.
    pub patch: usize,
    /// The pile at its likely volume.
    pub outline: Convex,
    /// The pile at the high end, where that is a little larger at least.
    pub high: Option<Convex>,
    /// Mean depth drawn, in cm: area times this is the likely volume.
    pub depth_cm: f64,
}

/// The order of cuts, so that two plates of one dish keep each pile in the same place.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan(Option<Node>);

#[derive(Debug, Clone, PartialEq)]
enum Node {
    Pile(Key),
    Cut {
        direction: usize,
        first: Box<Node>,
        second: Box<Node>,
    },
}

/// A pile's identity over several pictures: its label and how many of that label came before.
type Key = (String, usize);

fn keyed(picture: &Picture) -> Vec<(Key, &Patch)> {
    let mut keys: Vec<(Key, &Patch)> = Vec::new();
    for patch in &picture.patches {
        let before = keys.iter().filter(|(k, _)| k.0 == patch.label).count();
        keys.push(((patch.label.clone(), before), patch));
    }
    keys
}

impl Plan {
    /// A plan that serves all these pictures, each pile planned at the largest it gets.
    #[must_use]
    pub fn for_pictures(pictures: &[&Picture]) -> Self {
        let mut piles: Vec<(Key, f64)> = Vec::new();
        for (key, patch) in pictures.iter().flat_map(|p| keyed(p)) {
            // Bowls share out their surface by volume, so there depth must not count.
            let area = if matches!(pictures[0].vessel, Vessel::Bowl { .. }) {
                patch.volume_ml.likely
            } else {
                patch.area_cm2(1.0)
            };
            match piles.iter_mut().find(|(k, _)| *k == key) {
                Some(known) => known.1 = known.1.max(area),
                None => piles.push((key, area)),
            }
        }
        piles.retain(|(_, area)| *area > 0.0);
        piles.sort_by(|a, b| b.1.total_cmp(&a.1));
        let whole = Convex::disc(10.0, DISC_SIDES);
        Self((!piles.is_empty()).then(|| planned(&piles, &whole)))
    }
}

fn direction(index: usize) -> Point {
    let (sin, cos) = (PI * index as f64 / DIRECTIONS as f64).sin_cos();
    Point::new(cos, sin)
}

/// Best cut of a region among the directions: the one whose worse half is the rounder.
fn best_cut(
    region: &Convex,
    share: f64,
    directions: impl Iterator<Item = usize>,
) -> (f64, usize, Convex, Convex) {
    let mut best: Option<(f64, usize, Convex, Convex)> = None;
    for index in directions {
        let (first, second) = region.halve(direction(index), share);
        let worse = first.roundness().min(second.roundness());
        // A later direction must be clearly better, or rounding noise would decide.
        if best.as_ref().is_none_or(|b| worse > b.0 + 1e-9) {
            best = Some((worse, index, first, second));
        }
    }
    best.unwrap_or_else(|| (0.0, 0, region.clone(), Convex::default()))
}

fn planned(piles: &[(Key, f64)], region: &Convex) -> Node {
    if let [(key, _)] = piles {
        return Node::Pile(key.clone());
    }
    let total: f64 = piles.iter().map(|p| p.1).sum();
    let mut best: Option<(f64, usize, usize, Convex, Convex)> = None;
    let mut before = 0.0;
    for at in 1..piles.len() {
        before += piles[at - 1].1;
        let (worse, index, first, second) = best_cut(region, before / total, 0..DIRECTIONS);
        if best.as_ref().is_none_or(|b| worse > b.0 + 1e-9) {
            best = Some((worse, at, index, first, second));
        }
    }
    let Some((_, at, direction, first, second)) = best else {
        return Node::Pile(piles[0].0.clone());
    };
    Node::Cut {
        direction,
        first: Box::new(planned(&piles[..at], &first)),
        second: Box::new(planned(&piles[at..], &second)),
    }
}

/// A pile's wanted areas in cm².
#[derive(Debug, Clone)]
struct Wanted {
    key: Key,
    patch: usize,
    likely: f64,
    high: f64,
    cell: f64,
    depth_cm: f64,
}

fn sum_of(node: &Node, wanted: &[Wanted]) -> f64 {
    match node {
        Node::Pile(key) => wanted
            .iter()
            .find(|w| w.key == *key)
            .map_or(0.0, |w| w.cell),
        Node::Cut { first, second, .. } => sum_of(first, wanted) + sum_of(second, wanted),
    }
}

/// Lays out one picture in its settled vessel.
#[must_use]
pub fn lay_out(picture: &Picture, setting: &Setting, plan: &Plan) -> Vec<Pile> {
    let (wanted, disc_cm2) = match setting.fill {
        Some(fill) => wanted_in_bowl(picture, PI * fill.radius_cm.powi(2)),
        None => wanted_on_plate(picture, setting),
    };
    let Some(root) = plan.0.as_ref().filter(|_| !wanted.is_empty()) else {
        return Vec::new();
    };
    let disc = Convex::disc((disc_cm2 / PI).sqrt(), DISC_SIDES);
    let mut piles = Vec::with_capacity(wanted.len());
    share_out(root, &disc, &wanted, &mut piles);
    piles.sort_by_key(|pile: &Pile| pile.patch);
    piles
}

/// Volume, ml, up to which a food is too little to see and is not drawn: a fiftieth of a drop.
const DRAWN_FROM_ML: f64 = 1e-3;

fn wanted_on_plate(picture: &Picture, setting: &Setting) -> (Vec<Wanted>, f64) {
    let well_cm2 = PI * setting.vessel.well_radius_cm().powi(2);
    let mut wanted: Vec<Wanted> = keyed(picture)
        .into_iter()
        .enumerate()
        .map(|(index, (key, patch))| {
            let likely = patch.area_cm2(setting.deeper);
            let rise = patch.volume_ml.high / patch.volume_ml.likely.max(1e-9);
            Wanted {
                key,
                patch: index,
                likely,
                high: likely * rise.max(1.0),
                cell: likely,
                depth_cm: patch.mean_depth_cm.max(0.1) * setting.deeper,
            }
        })
        .filter(|w| picture.patches[w.patch].volume_ml.likely > DRAWN_FROM_ML)
        .collect();
    let likely: f64 = wanted.iter().map(|w| w.likely).sum();
    let high: f64 = wanted.iter().map(|w| w.high).sum();
    // Cells make room for the high end as far as the well has it.
    let room = well_cm2 * WELL_SHARE - likely;
    let part = (room / (high - likely).max(1e-9)).clamp(0.0, 1.0);
    for w in &mut wanted {
        w.cell = part.mul_add(w.high - w.likely, w.likely);
    }
    let cells: f64 = wanted.iter().map(|w| w.cell).sum();
    (wanted, (cells * ROOMY).min(well_cm2))
}

/// A bowl's surface is covered whole: each food shows the share of it that it has of the volume.
fn wanted_in_bowl(picture: &Picture, surface_cm2: f64) -> (Vec<Wanted>, f64) {
    let total_ml = picture.likely_ml().max(1e-9);
    let wanted = keyed(picture)
        .into_iter()
        .enumerate()
        .map(|(index, (key, patch))| {
            let area = patch.volume_ml.likely.max(0.0) / total_ml * surface_cm2;
            Wanted {
                key,
                patch: index,
                likely: area,
                high: area,
                cell: area,
                depth_cm: total_ml / surface_cm2,
            }
        })
        .filter(|w| picture.patches[w.patch].volume_ml.likely > DRAWN_FROM_ML)
        .collect();
    (wanted, surface_cm2)
}

fn share_out(node: &Node, region: &Convex, wanted: &[Wanted], piles: &mut Vec<Pile>) {
    match node {
        Node::Pile(key) => {
            if let Some(w) = wanted.iter().find(|w| w.key == *key) {
                piles.push(pile(w, region));
            }
        }
        Node::Cut {
            direction,
            first,
            second,
        } => {
            let (a, b) = (sum_of(first, wanted), sum_of(second, wanted));
            if b <= 0.0 {
                return share_out(first, region, wanted, piles);
            }
            if a <= 0.0 {
                return share_out(second, region, wanted, piles);
            }
            // The cut may turn a little for rounder piles; a pile still keeps its side.
            let near = [0, 1, DIRECTIONS - 1].map(|turn| (direction + turn) % DIRECTIONS);
            let steady = near.into_iter().filter(|d| d.abs_diff(*direction) <= 1);
            let (_, _, one, other) = best_cut(region, a / (a + b), steady);
            share_out(first, &one, wanted, piles);
            share_out(second, &other, wanted, piles);
        }
    }
}

/// The roundest pile that fits the cell and has exactly the wanted area.
fn pile(wanted: &Wanted, cell: &Convex) -> Pile {
    let reach = (cell.area() / PI).sqrt();
    let rounded = [0.9, 0.75, 0.6, 0.45, 0.3, 0.2, 0.1, 0.05]
        .into_iter()
        .map(|part| {
            let radius = reach * part;
            let gap = GAP_CM.min(reach * 0.2) / 2.0;
            let inner = cell.inset(radius + gap);
            if inner.corners.len() < 3 {
                return Convex::default();
            }
            inner.swell(radius).thinned(reach * 0.02)
        })
        .find(|shape| shape.area() >= wanted.likely);
    let shape = rounded.unwrap_or_else(|| cell.clone());
    let centre = shape.centre();
    let sized = |area_cm2: f64| shape.scaled((area_cm2 / shape.area()).sqrt(), centre);
    Pile {
        patch: wanted.patch,
        outline: sized(wanted.likely),
        high: (wanted.high > wanted.likely * 1.02).then(|| sized(wanted.high)),
        depth_cm: wanted.depth_cm,
    }
}
