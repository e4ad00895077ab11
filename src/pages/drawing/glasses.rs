//! What drinks are served in, seen from the side.

use super::body::{Body, area, total};
use super::geometry::Point;
use super::picture::{GlassSort, Patch};
use super::sketch::{FINE, Path, Rgb, Sketch, pt};
use super::vessels::CHINA;

const GLASS: Rgb = Rgb::hex(0xf1_f5f4);

/// How a vessel for drinks is shaped: half widths from the brim down to the bottom, over its
/// height, and the part of the height that is filled; then what stands under it.
struct Shape {
    /// Half the width of the brim over the height.
    brim: f64,
    /// Half the width half way down.
    waist: f64,
    /// Half the width at the bottom.
    bottom: f64,
    /// How full it is, 0 to 1 of its height.
    full: f64,
    /// Stem under it over its height; 0 for none.
    stem: f64,
}

const fn shape(sort: GlassSort) -> Shape {
    let (brim, waist, bottom, full, stem) = match sort {
        GlassSort::Tumbler => (0.3, 0.28, 0.25, 0.86, 0.0),
        GlassSort::Beer => (0.29, 0.3, 0.2, 0.9, 0.0),
        GlassSort::Wine => (0.42, 0.54, 0.12, 0.6, 0.9),
        GlassSort::Stemmed => (0.72, 0.38, 0.04, 0.84, 1.1),
        GlassSort::Mug => (0.46, 0.45, 0.42, 0.9, 0.0),
        GlassSort::Lidded => (0.34, 0.3, 0.25, 0.95, 0.0),
        GlassSort::Bottle => (0.2, 0.2, 0.2, 1.0, 0.0),
    };
    Shape {
        brim,
        waist,
        bottom,
        full,
        stem,
    }
}

impl Shape {
    /// Half width at a part of the height from the brim down.
    fn half(&self, down: f64) -> f64 {
        // A parabola through the three widths.
        let (a, m, b) = (self.brim, self.waist, self.bottom);
        let (p, q) = (2.0 * a + 2.0 * b - 4.0 * m, 4.0 * m - 3.0 * a - b);
        (p * down * down + q * down + a).max(0.02)
    }

    fn outline(&self, from: f64, to: f64) -> Vec<Point> {
        const STEPS: i32 = 8;
        let at = |i: i32| from + (to - from) * f64::from(i) / f64::from(STEPS);
        let mut points: Vec<_> = (0..=STEPS).map(|i| pt(-self.half(at(i)), at(i))).collect();
        points.extend((0..=STEPS).rev().map(|i| pt(self.half(at(i)), at(i))));
        points
    }

    /// How far down a part of the liquid's area reaches.
    fn down_to(&self, part: f64) -> f64 {
        const STEPS: i32 = 200;
        let top = 1.0 - self.full;
        let at = |i: i32| top + (1.0 - top) * f64::from(i) / f64::from(STEPS);
        let whole: f64 = (0..STEPS).map(|i| self.half(at(i))).sum();
        let mut sum = 0.0;
        for i in 0..STEPS {
            sum += self.half(at(i));
            if sum >= part * whole {
                return at(i + 1);
            }
        }
        1.0
    }
}

/// A drink in its glass, seen from the side; several liquids lie one over the other.
pub(super) fn glass(sort: GlassSort, list: &[usize], foods: &[Patch]) -> Body {
    let shape = shape(sort);
    let whole = total(list, foods).max(1e-6);
    let mut body = Body::default();
    body.push(None, outside(sort, &shape));
    let mut part = 0.0;
    for index in list {
        let start = if part == 0.0 {
            1.0 - shape.full
        } else {
            shape.down_to(part)
        };
        part += area(&foods[*index]) / whole;
        let end = shape.down_to(part.min(1.0)).max(start + 0.004);
        body.push(
            Some(*index),
            liquid(sort, &shape, foods[*index].look.tint, (start, end)),
        );
        if let Some(last) = body.parts.last_mut() {
            last.at = Some(pt(0.0, f64::midpoint(start, end)));
        }
    }
    body.push(None, front(sort, &shape));
    // The liquid's area decides the size of the whole.
    let mut drunk = Sketch::default();
    for part in body.parts.iter().filter(|p| p.food.is_some()) {
        drunk.marks.extend(part.sketch.marks.iter().cloned());
    }
    let size = (whole / drunk.area().max(1e-6)).sqrt();
    body.sized(size)
}

/// The empty vessel, its brim at 0 and its bottom at 1.
fn outside(sort: GlassSort, shape: &Shape) -> Sketch {
    let mut s = Sketch::default();
    if sort == GlassSort::Mug {
        let brim = shape.brim;
        let handle = [
            pt(brim * 0.9, 0.2),
            pt(brim * 1.5, 0.18),
            pt(brim * 1.62, 0.45),
            pt(brim * 1.4, 0.72),
            pt(brim * 0.88, 0.75),
        ];
        s.draw(Path::smooth(&handle, false), 3.4);
    }
    if shape.stem > 0.0 {
        let high = 1.0 + shape.stem;
        let stem = [
            pt(-0.03, 0.98),
            pt(0.03, 0.98),
            pt(0.03, high),
            pt(-0.03, high),
        ];
        s.fill(Path::polygon(&stem), GLASS, 1.0);
        s.fill(Path::ellipse(pt(0.0, high), 0.36, 0.07), GLASS, 1.0);
    }
    s.fill(Path::polygon(&shape.outline(0.0, 1.0)), GLASS, 1.0);
    s
}

fn liquid(sort: GlassSort, shape: &Shape, tint: Rgb, (start, end): (f64, f64)) -> Sketch {
    let mut s = Sketch::default();
    s.fill(Path::polygon(&shape.outline(start, end)), tint, FINE);
    let top = shape.half(start);
    s.fill(
        Path::ellipse(pt(0.0, start), top, top * 0.16),
        tint.light(),
        FINE,
    );
    if sort == GlassSort::Beer && start < 0.2 {
        let froth = shape.outline(0.02, start + 0.03);
        s.fill(Path::polygon(&froth), Rgb::hex(0xfb_f3df), FINE);
    }
    s
}

/// What lies before the drink: the brim, a shine, a lid.
fn front(sort: GlassSort, shape: &Shape) -> Sketch {
    let mut s = Sketch::default();
    s.draw(
        Path::ellipse(pt(0.0, 0.0), shape.brim, shape.brim * 0.16),
        0.8,
    );
    let shine = [
        pt(-shape.half(0.2) * 0.72, 0.24),
        pt(-shape.half(0.7) * 0.72, 0.72),
    ];
    s.draw(Path::line(&shine), FINE);
    if sort == GlassSort::Lidded {
        let lid = [
            pt(-0.37, 0.03),
            pt(-0.33, -0.06),
            pt(0.33, -0.06),
            pt(0.37, 0.03),
        ];
        let straw = [
            pt(0.06, -0.06),
            pt(0.16, -0.4),
            pt(0.21, -0.38),
            pt(0.11, -0.06),
        ];
        s.fill(Path::polygon(&lid), CHINA, 1.0);
        s.fill(Path::polygon(&straw), CHINA, 1.0);
    }
    s
}
