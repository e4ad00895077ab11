//! What is eaten from the hand, drawn whole: the parts of a food that nobody lists one by one.
//! Sizes in cm.

use super::solids::{arc, bent, lump};
use super::starches::chip;
use crate::pages::drawing::geometry::Point;
use crate::pages::drawing::sketch::{Chance, FINE, Path, Put, Rgb, Sketch, pt};

const MEAT: Rgb = Rgb::hex(0x7a_4a30);
const LEAF: Rgb = Rgb::hex(0x8f_b35a);
const CHEESE: Rgb = Rgb::hex(0xf3_c24f);
const TOMATO: Rgb = Rgb::hex(0xd0_4f38);
const CRUST: Rgb = Rgb::hex(0xb9_7b3f);
const FILLING: Rgb = Rgb::hex(0xe3_b79a);

/// A band from side to side between two heights, its lower edge waving.
fn band(s: &mut Sketch, w: f64, (top, bottom): (f64, f64), wave: f64, colour: Rgb) {
    let steps = 12;
    let across = |i: i32| -w + 2.0 * w * f64::from(i) / f64::from(steps);
    let mut edge: Vec<Point> = (0..=steps).map(|i| pt(across(i), top)).collect();
    edge.extend((0..=steps).rev().map(|i| {
        let dip = if i % 2 == 0 { wave } else { -wave };
        pt(across(i), bottom + dip)
    }));
    s.fill(Path::smooth(&edge, true), colour, 1.0);
}

/// The upper half of a round or long roll: its foot at `y`.
fn lid(s: &mut Sketch, w: f64, y: f64, high: f64, tint: Rgb) {
    let dome = [
        pt(-w, y),
        pt(-w * 0.97, y - high * 0.5),
        pt(-w * 0.7, y - high * 0.9),
        pt(0.0, y - high),
        pt(w * 0.7, y - high * 0.9),
        pt(w * 0.97, y - high * 0.5),
        pt(w, y),
        pt(0.0, y + 0.15),
    ];
    s.fill(Path::smooth(&dome, true), tint, 1.0);
}

/// The lower half of a roll between two heights.
fn foot(s: &mut Sketch, w: f64, (top, bottom): (f64, f64), tint: Rgb) {
    let half = [
        pt(-w, top),
        pt(0.0, top),
        pt(w, top),
        pt(w * 0.94, bottom - 0.25),
        pt(w * 0.8, bottom),
        pt(-w * 0.8, bottom),
        pt(-w * 0.94, bottom - 0.25),
    ];
    s.fill(Path::polygon(&half), tint, 1.0);
}

pub(super) fn cheeseburger(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    burger(s, tint, c, true);
}

pub(super) fn hamburger(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    burger(s, tint, c, false);
}

fn burger(s: &mut Sketch, tint: Rgb, c: &mut Chance, cheese: bool) {
    let w = 5.0;
    foot(s, w * 0.96, (1.7, 3.3), tint);
    band(s, w, (-0.3, 1.6), 0.12, MEAT);
    band(s, w * 0.96, (-1.15, -0.2), 0.08, TOMATO);
    if cheese {
        band(s, w * 1.02, (-0.75, 0.0), 0.3, CHEESE);
    }
    band(s, w * 1.06, (-1.65, -1.05), 0.25, LEAF);
    lid(s, w, -1.55, 2.5, tint);
    for _ in 0..9 {
        let (x, y) = (c.between(-2.8, 2.8), c.between(-3.6, -2.6));
        arc(s, &[pt(x, y), pt(x + 0.3, y + 0.1)], FINE);
    }
}

pub(super) fn filled_roll(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    let w = 4.9;
    foot(s, w * 0.96, (1.3, 2.9), tint);
    band(s, w, (-0.4, 1.3), 0.15, CRUST.light());
    band(s, w * 1.04, (-0.95, -0.3), 0.25, LEAF);
    lid(s, w, -0.85, 2.4, tint);
    arc(s, &[pt(-2.6, -2.2), pt(-0.4, -2.9), pt(2.3, -2.4)], FINE);
}

pub(super) fn sandwich_half(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    // Cut from corner to corner, the cut face to the front.
    let w = 4.4;
    band(s, w, (2.2, 3.0), 0.0, tint.light());
    band(s, w * 1.01, (1.75, 2.3), 0.1, FILLING);
    band(s, w * 1.03, (1.35, 1.8), 0.22, LEAF);
    band(s, w * 1.01, (1.05, 1.4), 0.12, CHEESE);
    band(s, w, (0.3, 1.1), 0.0, tint.light());
    let top = [pt(-w, 0.3), pt(0.2, -3.2), pt(w, 0.3)];
    s.fill(Path::polygon(&top), tint, 1.0);
    s.draw(
        Path::line(&[pt(-3.5, 0.05), pt(0.2, -2.7), pt(3.5, 0.05)]),
        FINE,
    );
    for _ in 0..5 {
        let (x, y) = (c.between(-1.8, 1.8), c.between(-1.2, -0.1));
        arc(s, &[pt(x, y), pt(x + 0.35, y + 0.1)], FINE);
    }
}

pub(super) fn sub(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    let w = 8.2;
    foot(s, w * 0.98, (0.8, 2.3), tint);
    band(s, w, (-0.1, 0.95), 0.18, FILLING);
    band(s, w * 0.99, (-0.5, 0.1), 0.2, CHEESE);
    band(s, w * 1.01, (-1.0, -0.4), 0.25, LEAF);
    lid(s, w, -0.85, 2.0, tint);
    for x in [-5.0, -2.4, 0.2, 2.8] {
        arc(s, &[pt(x, -1.5), pt(x + 0.7, -2.1), pt(x + 1.7, -2.4)], 0.8);
    }
}

pub(super) fn hot_dog(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    let part = |y: f64, colour: Rgb| {
        let mut one = Sketch::default();
        bent(&mut one, 13.0, 2.6, 0.0, colour);
        let mut placed = Sketch::default();
        placed.put(&one, Put::at(0.0, y));
        placed
    };
    let mut sausage = Sketch::default();
    bent(&mut sausage, 14.4, 2.0, 0.0, Rgb::hex(0xb0_5a38));
    s.put(&part(-1.0, tint.light()), Put::at(0.0, 0.0));
    s.put(&sausage, Put::at(0.0, -0.1));
    s.put(&part(1.25, tint), Put::at(0.0, 0.0));
    let wave: Vec<Point> = (0..=16)
        .map(|i| {
            let up = if i % 2 == 0 { -0.5 } else { 0.05 };
            pt(-5.6 + 0.7 * f64::from(i), up - 0.35)
        })
        .collect();
    s.draw(Path::smooth(&wave, false), 1.0);
}

pub(super) fn taco(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    // A folded shell standing on its fold, its filling above the edge.
    let shell = |up: f64| {
        let mut edge: Vec<Point> = (0..=10)
            .map(|i| {
                let a = std::f64::consts::PI * f64::from(i) / 10.0;
                pt(-4.6 * a.cos(), 1.9 - up * a.sin())
            })
            .collect();
        edge.push(pt(3.2, 2.6));
        edge.push(pt(-3.2, 2.6));
        Path::polygon(&edge)
    };
    s.fill(shell(5.4), tint.dark(), 1.0);
    for (at, colour) in [LEAF, MEAT, TOMATO, LEAF, CHEESE, MEAT, LEAF, TOMATO]
        .into_iter()
        .enumerate()
    {
        let a = std::f64::consts::PI * (at as f64 + 0.9) / 8.8;
        let mut one = Sketch::default();
        lump(&mut one, 1.1, 0.75, colour, c);
        s.put(&one, Put::at(-3.9 * a.cos(), 1.6 - 4.5 * a.sin()));
    }
    s.fill(shell(4.3), tint, 1.0);
    for _ in 0..5 {
        let (x, y) = (c.between(-2.6, 2.4), c.between(-0.8, 1.6));
        arc(s, &[pt(x, y), pt(x + 0.4, y + 0.1)], FINE);
    }
}

pub(super) fn nacho(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    chip(s, tint, c);
    let mut cheese = Sketch::default();
    lump(&mut cheese, 0.95, 0.5, CHEESE.dark(), c);
    s.put(&cheese, Put::at(c.between(-0.3, 0.3), 0.1));
    if c.part() < 0.45 {
        let mut top = Sketch::default();
        let colour = if c.part() < 0.5 { MEAT } else { TOMATO };
        lump(&mut top, 0.5, 0.34, colour, c);
        s.put(&top, Put::at(c.between(-0.4, 0.5), 0.0));
    }
}
