//! Tacos, and wraps cut open along their length: every filling covers its own part.

use super::body::{Body, area, covered, to_area, total};
use super::forms::Look;
use super::geometry::{Convex, Point};
use super::picture::{FilledSort, Patch};
use super::sketch::{Chance, Path, Put, Rgb, Sketch, blob, pt};
use std::f64::consts::PI;

/// Dried seaweed around a roll.
const SEAWEED: Rgb = Rgb::hex(0x33_3f_2e);
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
    let count = count.clamp(1, 8);
    let n = f64::from(count);
    let (case, within) = (area(&foods[shell]) / n, total(inside, foods) / n);
    let one = match sort {
        FilledSort::Rolled => rolled(shell, inside, case, within, foods),
        FilledSort::Folded => folded(shell, inside, case, within, foods),
        FilledSort::Wedges => wedge(shell, inside, case, within, foods),
        FilledSort::Rounds => round(shell, inside, case, within, foods),
    };
    let (l, t, r, b) = one.bounds();
    let (wide, high) = (r - l, b - t);
    let mut body = Body::default();
    for i in 0..count {
        let (x, y) = match sort {
            FilledSort::Rolled if count == 2 => (0.0, f64::from(i) * high * 1.06),
            FilledSort::Rounds => {
                let aside = if i % 8 < 4 { 0.0 } else { 0.3 };
                let (column, row) = (f64::from(i % 4), f64::from(i / 4));
                ((column + aside) * wide * 1.04, row * high * 0.9)
            }
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

/// A wedge of what is folded flat: its browned upper side, and below its front edge what is in it
/// in layers, on the lower half of the shell.
fn wedge(shell: usize, inside: &[usize], case: f64, within: f64, foods: &[Patch]) -> Body {
    /// Height of the upper side over half its width, and part of the shell seen below.
    const SHAPE: (f64, f64) = (0.4, 0.14);
    let look = &foods[shell].look;
    let w = (case * (1.0 - SHAPE.1) / SHAPE.0).sqrt();
    let (thick, below) = (within / (2.0 * w), case * SHAPE.1 / (2.0 * w));
    let strip = |top: f64, high: f64| {
        [
            pt(-w, top),
            pt(w, top),
            pt(w, top + high),
            pt(-w, top + high),
        ]
    };
    let mut body = Body::default();
    let mut lower = Sketch::default();
    lower.fill(Path::polygon(&strip(thick, below)), look.tint.dark(), 1.0);
    body.push(Some(shell), lower);
    body.parts[0].at = None;
    let all = total(inside, foods).max(1e-9);
    let mut from = thick;
    for (place, index) in inside.iter().enumerate() {
        let high = thick * area(&foods[*index]) / all;
        from -= high;
        let mut layer = Sketch::default();
        let drawn = foods[*index].look.layer(2.0 * w, high);
        layer.put(&drawn, Put::at(0.0, from + high / 2.0));
        let aside = w * 0.5 * (place as f64 - inside.len() as f64 / 2.0);
        body.push_at(*index, layer, pt(aside, from + high / 2.0));
    }
    let mut upper = Sketch::default();
    let back = -w * SHAPE.0;
    upper.fill(
        Path::polygon(&[pt(-w, 0.0), pt(0.0, back), pt(w, 0.0)]),
        look.tint,
        1.0,
    );
    let mut chance = Chance::of(&look.seed);
    for _ in 0..7 {
        let y = chance.between(0.12, 0.7);
        let x = chance.between(-0.8, 0.8) * (1.0 - y);
        let spot = blob(
            pt(x * w, y * back),
            w * 0.09,
            w * 0.05,
            (4, 0.1),
            &mut chance,
        );
        upper.fill(spot, BROWNED, 0.0);
    }
    body.push_at(shell, upper, pt(0.0, back * 0.4));
    body
}

/// A piece of a roll standing on its cut: rice with a ring of seaweed, what is rolled in it in
/// the middle.
fn round(shell: usize, inside: &[usize], case: f64, within: f64, foods: &[Patch]) -> Body {
    /// Height of the cut face over its width, and of the side over half the width.
    const SHAPE: (f64, f64) = (0.72, 0.8);
    let rx = ((case + within) / (PI * SHAPE.0)).sqrt();
    let (ry, high) = (rx * SHAPE.0, rx * SHAPE.1);
    let mut body = Body::default();
    let mut side = vec![pt(-rx, 0.0), pt(rx, 0.0)];
    side.extend((0..=10).map(|i| {
        let (sin, cos) = (PI * f64::from(i) / 10.0).sin_cos();
        pt(rx * cos, ry.mul_add(sin, high))
    }));
    let mut seaweed = Sketch::default();
    seaweed.fill(Path::polygon(&side), SEAWEED, 1.0);
    body.push(None, seaweed);
    let ring: Vec<Point> = (0..24)
        .map(|i| {
            let (sin, cos) = (PI * f64::from(i) / 12.0).sin_cos();
            pt(rx * cos, ry * sin)
        })
        .collect();
    let mut rice = foods[shell].look.within(&ring);
    rice.draw(Path::ellipse(pt(0.0, 0.0), rx, ry), 3.4);
    body.push_at(shell, rice, pt(-rx * 0.8, 0.0));
    let part = (within / (case + within)).sqrt();
    body.put(
        covered(inside, foods, (rx * part, ry * part)),
        Put::at(0.0, 0.0),
    );
    body
}

/// A folded shell, its filling above its edge: half a disc in front, and over its straight
/// edge a lens of what is in it, one layer on the other.
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
    // From the top down, so that the lower layers hang over nothing.
    let mut until = 1.0;
    for (place, index) in inside.iter().enumerate().rev() {
        let from = until - area(&foods[*index]) / all;
        let upper = arch(-r * 0.97, r * 0.97, 12, |x| top(x) * until);
        let lower = arch(-r * 0.97, r * 0.97, 12, |x| (top(x) * from).min(0.25));
        let edge: Vec<Point> = upper.into_iter().chain(lower.into_iter().rev()).collect();
        let aside = r * 0.3 * (place as f64 - inside.len() as f64 / 2.0);
        let at = pt(aside, top(aside) * f64::midpoint(from, until));
        body.push_at(*index, foods[*index].look.within(&edge), at);
        until = from;
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
