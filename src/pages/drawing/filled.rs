//! Tacos, and wraps cut open along their length: every filling covers its own part.

use super::body::{Body, area, to_area, total};
use super::forms::Look;
use super::geometry::{Convex, Point};
use super::picture::{FilledSort, Patch};
use super::sketch::{Chance, Path, Put, Rgb, Sketch, blob, pt};
use std::f64::consts::PI;

/// Browned spots of a tortilla.
const BROWNED: Rgb = Rgb::hex(0xb9_7b3f);

/// Shells with a filling, side by side or one before the other.
pub(crate) fn filled(
    sort: FilledSort,
    shell: usize,
    inside: &[usize],
    count: u32,
    foods: &[Patch],
) -> Body {
    let count = count.clamp(1, 6);
    let n = f64::from(count);
    let (case, within) = (area(&foods[shell]) / n, total(inside, foods) / n);
    let one = match sort {
        FilledSort::Rolled => rolled(shell, inside, case, within, foods),
        FilledSort::Folded => folded(shell, inside, case, within, foods),
    };
    let (l, t, r, b) = one.bounds();
    let (wide, high) = (r - l, b - t);
    let mut body = Body::default();
    for i in 0..count {
        let (x, y) = match sort {
            FilledSort::Rolled if count == 2 => (0.0, f64::from(i) * high * 1.06),
            _ => {
                let row = f64::from(i / 2);
                let last_alone = count % 2 == 1 && i == count - 1 && count > 1;
                let x = if last_alone { 0.5 } else { f64::from(i % 2) };
                (x * wide * 1.05, row * high * 1.05)
            }
        };
        let mut copy = one.clone();
        if i > 0 {
            for part in &mut copy.parts {
                part.at = None;
            }
        }
        body.put(copy, Put::at(x, y));
    }
    body
}

/// A wrap cut open along its length: what is in it side by side.
fn rolled(shell: usize, inside: &[usize], case: f64, within: f64, foods: &[Patch]) -> Body {
    let whole = case + within;
    let high = (whole / 3.0).sqrt();
    let capsule = |w: f64, h: f64| {
        let r = h * 0.42;
        [
            pt(-w, -h + r),
            pt(-w + r * 0.35, -h),
            pt(w - r * 0.35, -h),
            pt(w, -h + r),
            pt(w, h - r),
            pt(w - r * 0.35, h),
            pt(-w + r * 0.35, h),
            pt(-w, h - r),
        ]
    };
    let outer = capsule(high * 1.5, high / 2.0);
    let mut body = Body::default();
    let mut skin = Sketch::default();
    skin.fill(Path::smooth(&outer, true), foods[shell].look.tint, 1.0);
    let skin = to_area(&skin, whole);
    let (l, t, r, b) = skin.bounds();
    body.push(Some(shell), skin);
    body.parts[0].at = Some(pt(l + (r - l) * 0.03, f64::midpoint(t, b)));
    // The filling keeps the capsule's shape inside the skin.
    let size = (within / whole).sqrt();
    let (w, h) = (
        (r - l) / 2.0 * size.powf(0.7),
        (b - t) / 2.0 * size.powf(1.3),
    );
    let room = Convex {
        corners: vec![
            pt(-w, -h * 0.35),
            pt(-w * 0.95, -h * 0.8),
            pt(-w * 0.84, -h),
            pt(w * 0.84, -h),
            pt(w * 0.95, -h * 0.8),
            pt(w, -h * 0.35),
            pt(w, h * 0.35),
            pt(w * 0.95, h * 0.8),
            pt(w * 0.84, h),
            pt(-w * 0.84, h),
            pt(-w * 0.95, h * 0.8),
            pt(-w, h * 0.35),
        ],
    };
    let fitting = (within / room.area().max(1e-6)).sqrt();
    let room = room.scaled(fitting, pt(0.0, 0.0));
    for (food, cell) in side_by_side(inside, &room, foods) {
        body.push(Some(food), foods[food].look.within(&cell));
    }
    body
}

/// Cells from left to right, cut a little aslant.
fn side_by_side(list: &[usize], room: &Convex, foods: &[Patch]) -> Vec<(usize, Vec<Point>)> {
    let mut cells = Vec::new();
    let mut rest = room.clone();
    let mut left = total(list, foods);
    for (i, index) in list.iter().enumerate() {
        let mine = area(&foods[*index]);
        let share = if i + 1 == list.len() {
            1.0
        } else {
            (mine / left).clamp(0.0, 1.0)
        };
        let (sin, cos) = (0.45f64 * if i % 2 == 0 { 1.0 } else { 0.6 }).sin_cos();
        let (cell, more) = if share >= 1.0 {
            (rest.clone(), Convex::default())
        } else {
            rest.halve(pt(cos, sin), share)
        };
        if cell.corners.len() > 2 {
            cells.push((*index, cell.corners));
        }
        rest = more;
        left -= mine;
    }
    cells
}

/// A folded shell, its filling above its edge: half a disc in front, and over its straight
/// edge a lens of what is in it.
fn folded(shell: usize, inside: &[usize], case: f64, within: f64, foods: &[Patch]) -> Body {
    let r = (case / (PI / 2.0) * 1.1).sqrt().max((within / 1.7).sqrt());
    let lens = within / (2.0 * r * 0.8);
    let look = &foods[shell].look;
    let top = |x: f64| -lens * (1.0 - (x / r).powi(2)).max(0.0).powf(0.35);
    let mut body = Body::default();
    // The far side of the shell shows behind the filling.
    let mut ring = arch(-r, r, 10, |x| top(x) * 0.55);
    ring.extend([pt(r, 0.2), pt(-r, 0.2)]);
    let mut far = Sketch::default();
    far.fill(Path::polygon(&ring), look.tint.dark(), 1.0);
    body.push(Some(shell), far);
    body.parts[0].at = None;
    let all = total(inside, foods).max(1e-9);
    let mut from = -r * 0.97;
    for index in inside {
        let to = from + r * 1.94 * area(&foods[*index]) / all;
        let mut points = arch(from, to, 4, top);
        points.extend([pt(to, 0.25), pt(from, 0.25)]);
        let middle = f64::midpoint(from, to);
        body.push_at(
            *index,
            foods[*index].look.within(&points),
            pt(middle, top(middle) * 0.5),
        );
        from = to;
    }
    let depth = case / (r * PI / 2.0);
    body.push_at(shell, near_side(look, r, depth), pt(0.0, depth * 0.55));
    body
}

/// Points of a curve from left to right.
fn arch(from: f64, to: f64, steps: u32, height: impl Fn(f64) -> f64) -> Vec<Point> {
    let at = |i: u32| from + (to - from) * f64::from(i) / f64::from(steps);
    (0..=steps).map(|i| pt(at(i), height(at(i)))).collect()
}

/// The side of a folded shell that faces the reader, browned here and there.
fn near_side(look: &Look, r: f64, depth: f64) -> Sketch {
    let mut edge: Vec<Point> = (0..=14)
        .map(|i| {
            let a = PI * f64::from(i) / 14.0;
            pt(r * a.cos(), depth * a.sin())
        })
        .collect();
    edge.push(pt(0.0, 0.12));
    let mut near = Sketch::default();
    near.fill(Path::smooth(&edge, true), look.tint, 1.0);
    let mut chance = Chance::of(&look.seed);
    for _ in 0..6 {
        let at = pt(
            chance.between(-0.6, 0.6) * r,
            chance.between(0.2, 0.6) * depth,
        );
        near.fill(blob(at, 0.4, 0.24, (4, 0.1), &mut chance), BROWNED, 0.0);
    }
    near
}
