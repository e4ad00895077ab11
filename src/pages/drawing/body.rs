//! Bodies: what is placed as one, made of the parts of its foods and vessels.

use super::forms::{Lies, edges};
use super::geometry::Point;
use super::mosaic;
use super::pack::{Half, pack};
use super::picture::Patch;
use super::sketch::{Put, Sketch, pt};
use super::view::{FLAT, SEEN_CM};

/// Volume, ml, up to which a food is too little to see.
const SEEN_FROM_ML: f64 = 0.05;

/// A part of a body: one food, or something that is none.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Part {
    /// Which food; `None` for vessels.
    pub food: Option<usize>,
    /// Its drawing.
    pub sketch: Sketch,
    /// Where a label points at.
    pub at: Option<Point>,
}

/// Something that is placed as one: its parts, those behind first.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Body {
    /// Its parts.
    pub parts: Vec<Part>,
}

impl Body {
    pub(super) fn push(&mut self, food: Option<usize>, sketch: Sketch) {
        let at = food.map(|_| middle(&sketch));
        self.parts.push(Part { food, sketch, at });
    }

    /// A food with the place that its label points at.
    pub(super) fn push_at(&mut self, food: usize, sketch: Sketch, at: Point) {
        self.parts.push(Part {
            food: Some(food),
            sketch,
            at: Some(at),
        });
    }

    pub(super) fn put(&mut self, other: Self, put: Put) {
        self.parts.extend(other.parts.into_iter().map(|part| {
            let mut sketch = Sketch::default();
            sketch.put(&part.sketch, put);
            let at = part
                .at
                .map(|p| pt(p.x * put.size.0 + put.at.x, p.y * put.size.1 + put.at.y));
            Part {
                food: part.food,
                sketch,
                at,
            }
        }));
    }

    /// Left, top, right, bottom.
    #[must_use]
    pub(crate) fn bounds(&self) -> (f64, f64, f64, f64) {
        let corners: Vec<Point> = self
            .parts
            .iter()
            .filter(|p| !p.sketch.marks.is_empty())
            .flat_map(|p| {
                let (l, t, r, b) = p.sketch.bounds();
                [pt(l, t), pt(r, b)]
            })
            .collect();
        if corners.is_empty() {
            (0.0, 0.0, 0.0, 0.0)
        } else {
            edges(&corners)
        }
    }

    pub(super) fn sized(self, size: f64) -> Self {
        let mut body = Self::default();
        body.put(self, Put::at(0.0, 0.0).sized(size));
        body
    }

    /// Moved so that the middle of its bounds is there.
    pub(super) fn centred(self, at: Point) -> Self {
        let (l, t, r, b) = self.bounds();
        let mut body = Self::default();
        body.put(
            self,
            Put::at(at.x - f64::midpoint(l, r), at.y - f64::midpoint(t, b)),
        );
        body
    }

    /// Half the width and height of what it stands on: things stand up from it.
    pub(super) fn foot(&self) -> Half {
        let (l, t, r, b) = self.bounds();
        let wide = (r - l) / 2.0;
        (wide, ((b - t) / 2.0).min(wide * FLAT).max(wide * 0.3))
    }
}

fn middle(sketch: &Sketch) -> Point {
    let (l, t, r, b) = sketch.bounds();
    pt(f64::midpoint(l, r), f64::midpoint(t, b))
}

/// The area that a food is to cover, cm².
pub(super) fn area(food: &Patch) -> f64 {
    food.volume_ml.likely.max(SEEN_FROM_ML) / SEEN_CM
}

/// The area that these foods are to cover together, cm².
pub(super) fn total(list: &[usize], foods: &[Patch]) -> f64 {
    list.iter().map(|i| area(&foods[*i])).sum()
}

/// A sketch brought to an area.
pub(super) fn to_area(sketch: &Sketch, area: f64) -> Sketch {
    let size = (area / sketch.area().max(1e-6)).sqrt();
    let mut sized = Sketch::default();
    sized.put(sketch, Put::at(0.0, 0.0).sized(size));
    sized
}

/// Lays bodies on another within a room about a middle, those at the back first.
pub(super) fn strew(lower: &mut Body, bodies: Vec<Body>, room: Half, middle: Point) {
    let feet: Vec<Half> = bodies.iter().map(Body::foot).collect();
    let (at, _) = pack(&feet, room);
    let mut placed: Vec<(f64, Body, Point)> = bodies
        .into_iter()
        .zip(&feet)
        .zip(at)
        .map(|((body, foot), p)| {
            let (_, t, _, b) = body.bounds();
            // The lower edge stands where the foot ends.
            let up = (b - t) / 2.0 - foot.1;
            (p.y + foot.1, body, pt(p.x, p.y - up.max(0.0)))
        })
        .collect();
    placed.sort_by(|a, b| a.0.total_cmp(&b.0));
    for (_, body, p) in placed {
        lower.put(body, Put::at(p.x + middle.x, p.y + middle.y));
    }
}

/// A label of what lies beneath points where nothing lies on it.
pub(super) fn point_beside(body: &mut Body) {
    let covers: Vec<(f64, f64, f64, f64)> = body
        .parts
        .iter()
        .skip(1)
        .map(|p| p.sketch.bounds())
        .collect();
    let Some(first) = body.parts.first_mut() else {
        return;
    };
    let shapes: Vec<Vec<Point>> = first
        .sketch
        .marks
        .iter()
        .filter(|m| m.fill.is_some())
        .take(12)
        .map(|m| m.path.flat())
        .collect();
    let (l, t, r, b) = first.sketch.bounds();
    let free = |x: f64, y: f64| {
        covers
            .iter()
            .all(|c| x < c.0 || x > c.2 || y < c.1 || y > c.3)
    };
    let held = |p: Point| shapes.iter().any(|s| super::sketch::inside(s, p));
    for (fx, fy) in [
        (0.5, 0.5),
        (0.16, 0.62),
        (0.84, 0.62),
        (0.3, 0.84),
        (0.7, 0.84),
        (0.5, 0.9),
        (0.25, 0.35),
        (0.75, 0.35),
        (0.5, 0.12),
    ] {
        let p = pt((r - l).mul_add(fx, l), (b - t).mul_add(fy, t));
        if free(p.x, p.y) && held(p) {
            first.at = Some(p);
            return;
        }
    }
}

/// An ellipse covered whole by foods, each with its part of it.
pub(super) fn covered(list: &[usize], foods: &[Patch], half: Half) -> Body {
    let parts: Vec<f64> = list.iter().map(|i| area(&foods[*i])).collect();
    let cells = mosaic::cells(&parts, half);
    let mut order: Vec<usize> = (0..list.len()).collect();
    // Small ones last: what sticks out of a large one would hide them.
    order.sort_by(|a, b| parts[*b].total_cmp(&parts[*a]));
    let mut body = Body::default();
    for i in order {
        if cells[i].len() > 2 {
            let food = list[i];
            let within = foods[food].look.within(&cells[i]);
            // A single thing keeps its shape, not the cell's.
            let single = foods[food].look.form.lies() == Lies::One;
            let least = if single { 0.3 } else { 0.85 };
            body.push(
                Some(food),
                to_area_about(&within, area(&foods[food]), least),
            );
        }
    }
    body
}

/// A sketch brought towards an area about its own middle, by a tenth at most where it grows.
fn to_area_about(sketch: &Sketch, area: f64, least: f64) -> Sketch {
    let size = (area / sketch.area().max(1e-6)).sqrt().clamp(least, 1.1);
    let at = middle(sketch);
    let mut sized = Sketch::default();
    sized.put(
        sketch,
        Put::at(at.x * (1.0 - size), at.y * (1.0 - size)).sized(size),
    );
    sized
}
