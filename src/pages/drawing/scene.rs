//! From a picture to bodies with their place on the table, in cm as seen by the reader.
//!
//! Everything is seen from a little above: a round plate is an ellipse [`FLAT`] times as high
//! as wide, and a food covers its volume over [`SEEN_CM`](super::view::SEEN_CM). As that is the same for every food,
//! areas can be compared: what is more looks larger, and twice as much looks twice as large.

use super::body::{Body, Part, area, covered, point_beside, strew, to_area, total};
use super::filled::filled;
use super::forms::{Form, Lies};
use super::glasses::glass;
use super::pack::{Half, pack};
use super::picture::{Mass, Patch, Picture};
use super::pizza::pizza;
use super::sketch::{Put, pt};
use super::stacked::stack;
use super::vessels;
use super::view::FLAT;
use std::f64::consts::PI;

/// Part of a bed that may be covered before the foods share its surface instead: of a pool, and
/// of anything else.
const STREWN_UP_TO: (f64, f64) = (0.64, 0.5);

/// The foods of a mass, by their place in the picture.
#[must_use]
pub fn foods_of(mass: &Mass) -> Vec<usize> {
    match mass {
        Mass::Food(food) | Mass::Ramekin(food) => vec![*food],
        Mass::On { under, over } => {
            let mut foods = foods_of(under);
            foods.extend(over.iter().flat_map(foods_of));
            foods
        }
        Mass::Stack { holder, layers, .. } => joined(*holder, layers),
        Mass::Filled { shell, inside, .. } => joined(*shell, inside),
        Mass::Pizza { base, over } => joined(*base, over),
        Mass::Bowl(foods) | Mass::Glass { foods, .. } => foods.clone(),
    }
}

fn joined(first: usize, rest: &[usize]) -> Vec<usize> {
    std::iter::once(first).chain(rest.iter().copied()).collect()
}

/// The body of a mass, at its true size, about the origin.
pub(super) fn body(mass: &Mass, foods: &[Patch]) -> Body {
    match mass {
        Mass::Food(food) => alone(*food, &foods[*food]),
        Mass::On { under, over } => on(under, over, foods),
        Mass::Stack {
            sort,
            holder,
            layers,
        } => stack(*sort, *holder, layers, foods),
        Mass::Filled {
            sort,
            shell,
            inside,
            count,
        } => filled(*sort, *shell, inside, *count, foods),
        Mass::Pizza { base, over } => pizza(*base, over, foods),
        Mass::Bowl(list) => vessels::bowl(list, foods),
        Mass::Ramekin(food) => vessels::ramekin(*food, &foods[*food]),
        Mass::Glass { sort, foods: list } => glass(*sort, list, foods),
    }
}

fn alone(index: usize, food: &Patch) -> Body {
    let mut body = Body::default();
    let drawn = food.look.alone(food.volume_ml.likely);
    body.push(Some(index), to_area(&drawn, area(food)));
    body
}

/// What lies on something covers part of it, so that is drawn larger by as much.
fn on(under: &Mass, over: &[Mass], foods: &[Patch]) -> Body {
    let below: f64 = total(&foods_of(under), foods);
    let above_foods: Vec<usize> = over.iter().flat_map(foods_of).collect();
    let above = total(&above_foods, foods);
    let whole = below + above;
    if let Mass::Food(base) = under {
        let form = foods[*base].look.form;
        let most = if form.runs() {
            STREWN_UP_TO.0
        } else {
            STREWN_UP_TO.1
        };
        // One heap in a sauce lies in the middle of it.
        let one_in_sauce = form.runs() && over.len() == 1;
        if matches!(form.lies(), Lies::Heap(_)) && above / whole > most && !one_in_sauce {
            return shared(&joined(*base, &above_foods), foods, whole);
        }
    }
    let mut lower = body(under, foods)
        .sized((whole / below.max(1e-6)).sqrt())
        .centred(pt(0.0, 0.0));
    let (l, t, r, b) = lower.bounds();
    let room = ((r - l) / 2.0 * 0.8, (b - t) / 2.0 * 0.74);
    let bodies: Vec<Body> = over
        .iter()
        .map(|m| body(m, foods).centred(pt(0.0, 0.0)))
        .collect();
    strew(&mut lower, bodies, room, pt(0.0, -(b - t) * 0.06));
    point_beside(&mut lower);
    if let Mass::Food(base) = under
        && foods[*base].look.form == Form::Noodles
    {
        // Strands over the edge of the sauce: it lies among them, not on them.
        let sauces = above_foods.iter().filter(|i| foods[**i].look.form.runs());
        let sauce: f64 = sauces.map(|i| area(&foods[*i])).sum();
        let reach = (sauce / PI).sqrt();
        if reach > 1.0 {
            let strands = foods[*base].look.peeping(7, (reach * 1.2, reach * 0.7));
            lower.parts.push(Part {
                food: Some(*base),
                sketch: strands,
                at: None,
            });
        }
    }
    lower
}

/// Foods that share one heap's surface.
fn shared(list: &[usize], foods: &[Patch], whole: f64) -> Body {
    let ry = (whole / PI * FLAT).sqrt();
    covered(list, foods, (ry / FLAT, ry))
}

/// A picture laid out on its table.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Scene {
    /// Everything, those behind first: vessels, then foods.
    pub parts: Vec<Part>,
    /// Diameter in cm of the plate drawn, where there is one.
    pub plate_cm: Option<f64>,
    /// Left, top, right, bottom in cm.
    pub bounds: (f64, f64, f64, f64),
}

/// Outer diameters of plates in cm (middle of the ranges for bread, salad, luncheon, dinner and
/// entree plates and platters in a hotel dinnerware ordering guideline, a trade page; common
/// practice), and then larger ones for what no plate holds.
const PLATES_CM: [f64; 12] = [
    15.5, 19.5, 22.5, 25.0, 26.5, 28.5, 30.5, 33.0, 35.5, 38.0, 42.0, 47.0,
];

/// Overlap of the roughly elliptical bodies that still looks laid beside each other.
const CROWDED: f64 = 0.17;

/// Part of a plate's radius that food may reach.
const REACH: f64 = 0.9;

/// Space in cm between what stands side by side.
const BETWEEN_CM: f64 = 1.2;

/// Everything of a picture at its true size, not yet in its place.
pub(super) struct Bodies {
    on_plate: Vec<Body>,
    beside: Vec<Body>,
}

impl Bodies {
    pub(super) fn of(picture: &Picture) -> Self {
        Self {
            on_plate: bodies(&picture.on_plate, &picture.foods),
            beside: bodies(&picture.beside, &picture.foods),
        }
    }
}

/// The plate a picture needs, cm: its own, or a larger one.
pub(super) fn plate_for(picture: &Picture, bodies: &Bodies) -> Option<f64> {
    let plate = picture.plate?;
    let bodies = &bodies.on_plate;
    let feet: Vec<Half> = bodies.iter().map(Body::foot).collect();
    let fits = |d: &f64| {
        let room = (d / 2.0 * REACH, d / 2.0 * REACH * FLAT);
        let widest = feet
            .iter()
            .all(|h| h.0 <= room.0 * 1.05 && h.1 <= room.1 * 1.1);
        widest && pack(&feet, room).1 <= CROWDED
    };
    let sizes = std::iter::once(plate.diameter_cm).chain(PLATES_CM);
    let larger = sizes.filter(|d| *d >= plate.diameter_cm);
    larger.into_iter().find(fits).or(PLATES_CM.last().copied())
}

fn bodies(masses: &[Mass], foods: &[Patch]) -> Vec<Body> {
    masses
        .iter()
        .map(|m| body(m, foods).centred(pt(0.0, 0.0)))
        .collect()
}

/// Lays a picture out on a plate of that size.
#[must_use]
pub(super) fn scene(bodies: Bodies, plate_cm: Option<f64>) -> Scene {
    let mut all = Body::default();
    let mut right = 0.0;
    let mut foot = 0.0;
    if let Some(d) = plate_cm {
        all.put(vessels::plate(d), Put::at(0.0, 0.0));
        let room = (d / 2.0 * REACH, d / 2.0 * REACH * FLAT);
        strew(&mut all, bodies.on_plate, room, pt(0.0, 0.0));
        right = d / 2.0 + BETWEEN_CM;
        foot = d / 2.0 * FLAT * 0.45;
    }
    for body in bodies.beside {
        let (l, _, r, b) = body.bounds();
        let wide = r - l;
        all.put(body, Put::at(right - l, foot - b));
        right += wide + BETWEEN_CM;
    }
    let bounds = all.bounds();
    Scene {
        parts: all.parts,
        plate_cm,
        bounds,
    }
}
