//! Bodies that many foods share: slabs, sticks, balls, mounds. All seen a little from above.

use crate::pages::drawing::geometry::Point;
use crate::pages::drawing::sketch::Step::{Curve, Line};
use crate::pages::drawing::sketch::{Chance, FINE, Path, Rgb, Sketch, blob, pt};

/// A round slab: its top an ellipse, its side below.
pub(super) fn disc(
    s: &mut Sketch,
    at: Point,
    (rx, ry, high): (f64, f64, f64),
    top: Rgb,
    side: Rgb,
) {
    let k = 0.552;
    let to = |x: f64, y: f64| pt(at.x + x * rx, at.y + y * ry);
    let low = |x: f64, y: f64| pt(at.x + x * rx, at.y + y * ry + high);
    let wall = Path {
        start: to(-1.0, 0.0),
        steps: vec![
            Line(low(-1.0, 0.0)),
            Curve(low(-1.0, k), low(-k, 1.0), low(0.0, 1.0)),
            Curve(low(k, 1.0), low(1.0, k), low(1.0, 0.0)),
            Line(to(1.0, 0.0)),
        ],
        closed: true,
    };
    s.fill(wall, side, 1.0);
    s.fill(Path::ellipse(at, rx, ry), top, 1.0);
}

/// A slab with a polygon for its top.
pub(super) fn slab(s: &mut Sketch, top: &[Point], high: f64, colour: Rgb, side: Rgb) {
    let ends = top.iter().cycle().skip(1);
    for (a, b) in top.iter().zip(ends) {
        // Only walls that face the reader: those that run from right to left, y down.
        if b.x < a.x {
            let wall = [*a, *b, pt(b.x, b.y + high), pt(a.x, a.y + high)];
            s.fill(Path::polygon(&wall), side, 1.0);
        }
    }
    s.fill(Path::polygon(top), colour, 1.0);
}

/// A straight stick with rounded ends, lying across.
pub(super) fn stick(s: &mut Sketch, long: f64, thick: f64, colour: Rgb) {
    let (l, t) = (long / 2.0, thick / 2.0);
    let points = [
        pt(-l, -t * 0.6),
        pt(-l * 0.7, -t),
        pt(l * 0.7, -t),
        pt(l, -t * 0.6),
        pt(l, t * 0.6),
        pt(l * 0.7, t),
        pt(-l * 0.7, t),
        pt(-l, t * 0.6),
    ];
    s.fill(Path::smooth(&points, true), colour, 1.0);
}

/// A bent tube, such as a sausage, lying across and sagging by `bend`.
pub(super) fn bent(s: &mut Sketch, long: f64, thick: f64, bend: f64, colour: Rgb) {
    let line = |x: f64| bend * (1.0 - x * x);
    let mut points = Vec::new();
    for i in 0..=6 {
        let x = -1.0 + f64::from(i) / 3.0;
        let round = (1.0 - (x * 0.97).powi(8)).max(0.3);
        points.push(pt(x * long / 2.0, line(x) - thick / 2.0 * round));
    }
    for i in (0..=6).rev() {
        let x = -1.0 + f64::from(i) / 3.0;
        let round = (1.0 - (x * 0.97).powi(8)).max(0.3);
        points.push(pt(x * long / 2.0, line(x) + thick / 2.0 * round));
    }
    s.fill(Path::smooth(&points, true), colour, 1.0);
}

/// A ball with a shine.
pub(super) fn ball(s: &mut Sketch, r: f64, colour: Rgb) {
    s.fill(Path::ellipse(pt(0.0, 0.0), r, r * 0.94), colour, 1.0);
    let shine = [
        pt(-0.55 * r, -0.2 * r),
        pt(-0.35 * r, -0.52 * r),
        pt(0.0, -0.62 * r),
    ];
    s.draw(Path::smooth(&shine, false), FINE);
}

/// A lump with uneven edges.
pub(super) fn lump(s: &mut Sketch, rx: f64, ry: f64, colour: Rgb, chance: &mut Chance) {
    s.fill(blob(pt(0.0, 0.0), rx, ry, (4, 0.07), chance), colour, 1.0);
}

/// A short open line.
pub(super) fn arc(s: &mut Sketch, points: &[Point], line: f64) {
    s.draw(Path::smooth(points, false), line);
}

/// A heap from above its edge: a flat round foot and a domed, uneven top, about `wide` by
/// `high`, its foot's middle at y 0.
pub(super) fn mound(wide: f64, high: f64, lumps: (usize, f64), chance: &mut Chance) -> Path {
    let (count, part) = lumps;
    let (r, up, foot) = (wide / 2.0, high * 0.68, high * 0.32);
    let sides = count.max(6) * 2;
    let mut points = Vec::new();
    for i in 0..=sides {
        let angle = std::f64::consts::PI * (1.0 + i as f64 / sides as f64);
        let (sin, cos) = angle.sin_cos();
        let swell = if i == 0 || i == sides {
            1.0
        } else {
            1.0 + if i % 2 == 0 { part } else { -part } + chance.between(-part, part) * 0.5
        };
        // Fuller than an ellipse towards the top.
        let y = -up * sin.abs().powf(0.9) * swell;
        points.push(pt(r * cos * swell.mul_add(0.4, 0.6), y));
    }
    for i in 1..8 {
        let angle = std::f64::consts::PI * f64::from(i) / 8.0;
        let (sin, cos) = angle.sin_cos();
        let waver = 1.0 + chance.between(-part, part) * 0.5;
        points.push(pt(r * cos, foot * sin * waver));
    }
    Path::smooth(&points, true)
}

/// A cube seen from one edge.
pub(super) fn cube_of(s: &mut Sketch, r: f64, tint: Rgb) {
    let (w, h) = (r, r * 0.55);
    s.fill(
        Path::polygon(&[
            pt(-w, -h * 0.6),
            pt(0.0, 0.0),
            pt(0.0, r),
            pt(-w, r - h * 0.6),
        ]),
        tint,
        1.0,
    );
    s.fill(
        Path::polygon(&[
            pt(w, -h * 0.6),
            pt(0.0, 0.0),
            pt(0.0, r),
            pt(w, r - h * 0.6),
        ]),
        tint.dark(),
        1.0,
    );
    s.fill(
        Path::polygon(&[
            pt(-w, -h * 0.6),
            pt(0.0, -h * 1.2),
            pt(w, -h * 0.6),
            pt(0.0, 0.0),
        ]),
        tint.light(),
        1.0,
    );
}
