//! Round pizzas.

use super::body::{Body, area, to_area, total};
use super::forms::Form;
use super::picture::Patch;
use super::sketch::{Chance, FINE, Path, Put, Rgb, Sketch, blob, pt};
use super::view::FLAT;
use std::f64::consts::{PI, TAU};

/// A round pizza. So much more of it is base than cheese that rings true to volume would be
/// mostly base; rings keep the order of the volumes instead.
pub(crate) fn pizza(base: usize, over: &[usize], foods: &[Patch]) -> Body {
    let whole = area(&foods[base]) + total(over, foods);
    let (mut rings, pieces): (Vec<usize>, Vec<usize>) = over
        .iter()
        .copied()
        .partition(|i| covers(foods[*i].look.form));
    // Sauce lies lowest and widest.
    rings.sort_by_key(|i| !foods[*i].look.form.runs());
    let weight = |i: usize| area(&foods[i]).powf(0.35);
    let all: f64 = weight(base) + over.iter().map(|i| weight(*i)).sum::<f64>();
    let ry = (whole * 1.12 / PI * FLAT).sqrt();
    let half = (ry / FLAT, ry);
    let mut chance = Chance::of(&foods[base].look.seed);
    let mut body = Body::default();
    let rim = pt(-half.0 * 0.82, half.1 * 0.35);
    body.push_at(base, crust(foods[base].look.tint, half, &mut chance), rim);
    let mut left = 1.0 - weight(base) / all;
    for index in rings {
        let size = left.max(0.05).sqrt();
        left -= weight(index) / all;
        // Half way between its own edge and that of the next ring.
        let out = f64::midpoint(size, left.max(0.0).sqrt()).min(size * 0.93);
        let at = pt(half.0 * out * 0.72, half.1 * out * 0.69);
        let drawn = ring(
            foods[index].look.tint,
            (half.0 * size, half.1 * size),
            &mut chance,
        );
        body.push_at(index, drawn, at);
    }
    scattered(
        &mut body,
        &pieces,
        foods,
        half,
        left.max(0.1).sqrt(),
        &mut chance,
    );
    body.push(None, cuts(half));
    body
}

/// What covers a pizza rather than being strewn on it.
const fn covers(form: Form) -> bool {
    form.runs() || matches!(form, Form::Grated | Form::CheeseRounds | Form::CheeseSlices)
}

fn crust(tint: Rgb, (rx, ry): (f64, f64), chance: &mut Chance) -> Sketch {
    let mut s = Sketch::default();
    s.fill(Path::ellipse(pt(0.0, rx * 0.07), rx, ry), tint.dark(), 1.0);
    s.fill(blob(pt(0.0, 0.0), rx, ry, (16, 0.008), chance), tint, 1.0);
    s
}

fn ring(tint: Rgb, (rx, ry): (f64, f64), chance: &mut Chance) -> Sketch {
    let mut s = Sketch::default();
    s.fill(blob(pt(0.0, 0.0), rx, ry, (13, 0.02), chance), tint, 1.0);
    for _ in 0..16 {
        let (a, r) = (chance.turn(), chance.part().sqrt() * 0.85);
        let (x, y) = (rx * r * a.cos(), ry * r * a.sin());
        let stroke = [pt(x - 0.6, y), pt(x, y - 0.2), pt(x + 0.6, y + 0.06)];
        s.draw(Path::smooth(&stroke, false), FINE);
    }
    s
}

/// Cut into eight.
fn cuts((rx, ry): (f64, f64)) -> Sketch {
    let mut s = Sketch::default();
    for i in 0..4 {
        let (sin, cos) = (PI * (f64::from(i) + 0.35) / 4.0).sin_cos();
        let line = [pt(-rx * cos, -ry * sin), pt(rx * cos, ry * sin)];
        s.draw(Path::line(&line), 0.8);
    }
    s
}

/// Toppings by turns round the pizza, a few heaps of each.
fn scattered(
    body: &mut Body,
    pieces: &[usize],
    foods: &[Patch],
    (rx, ry): (f64, f64),
    size: f64,
    chance: &mut Chance,
) {
    const EACH: usize = 5;
    let spots = pieces.len() * EACH;
    for (rank, index) in pieces.iter().enumerate() {
        let mut sketch = Sketch::default();
        let mut at = pt(0.0, 0.0);
        for k in 0..EACH {
            let spot = k * pieces.len() + rank;
            let a = TAU * (spot as f64 + 0.3) / spots as f64 * 2.0
                + if spot * 2 >= spots { 0.6 } else { 0.0 };
            let r = if spot * 2 >= spots { 0.42 } else { 0.78 } * size;
            let p = pt(rx * r * a.cos(), ry * r * a.sin());
            let mut look = foods[*index].look.clone();
            look.count = Some(1);
            let mut one = look;
            one.seed = format!("{}{k}{}", one.seed, (chance.part() * 9.0) as u32);
            let small = to_area(
                &one.alone(foods[*index].volume_ml.likely / EACH as f64),
                area(&foods[*index]) / EACH as f64,
            );
            let (l, t, r2, b) = small.bounds();
            sketch.put(
                &small,
                Put::at(p.x - f64::midpoint(l, r2), p.y - f64::midpoint(t, b)),
            );
            if k == 0 {
                at = p;
            }
        }
        body.push(Some(*index), sketch);
        if let Some(last) = body.parts.last_mut() {
            last.at = Some(at);
        }
    }
}
