//! Potatoes, grains, noodles and what is fried in a crust. Sizes in cm.

use super::solids::{arc, ball, disc, lump};
use crate::pages::drawing::sketch::{Chance, FINE, Path, Put, Rgb, Sketch, blob, pt};
use std::f64::consts::{PI, TAU};

pub(super) fn rice(s: &mut Sketch, _: Rgb, c: &mut Chance) {
    // A short stroke a grain: heaps hold hundreds.
    let (sin, cos) = c.turn().sin_cos();
    s.draw(
        Path::line(&[pt(-0.3 * cos, -0.2 * sin), pt(0.3 * cos, 0.2 * sin)]),
        0.9,
    );
}

pub(super) fn mash(s: &mut Sketch, _: Rgb, c: &mut Chance) {
    let w = c.between(0.8, 1.3);
    arc(
        s,
        &[
            pt(-w, 0.2),
            pt(-w * 0.3, -0.3),
            pt(w * 0.5, -0.2),
            pt(w, 0.25),
        ],
        FINE,
    );
}

pub(super) fn fry(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let long = c.between(4.6, 7.2);
    let (l, t) = (long / 2.0, 0.5);
    let mut one = Sketch::default();
    one.fill(
        Path::polygon(&[pt(-l, t * 0.3), pt(l, t * 0.3), pt(l, t), pt(-l, t)]),
        tint.dark(),
        1.0,
    );
    one.fill(
        Path::polygon(&[pt(-l, -t), pt(l, -t), pt(l, t * 0.3), pt(-l, t * 0.3)]),
        tint,
        1.0,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.75, 0.75)));
}

pub(super) fn wedge(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    let outer = [
        pt(-3.2, 0.4),
        pt(-1.6, 1.25),
        pt(1.6, 1.25),
        pt(3.2, 0.4),
        pt(1.6, -0.1),
        pt(-1.6, -0.1),
    ];
    s.fill(Path::smooth(&outer, true), tint.dark(), 1.0);
    let inner = [
        pt(-3.1, 0.35),
        pt(-1.5, -0.9),
        pt(1.5, -0.9),
        pt(3.1, 0.35),
        pt(1.5, 0.75),
        pt(-1.5, 0.75),
    ];
    s.fill(Path::smooth(&inner, true), tint.light(), 1.0);
}

pub(super) fn baked_potato(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let skin = Rgb::hex(0xa9_7c50);
    s.fill(blob(pt(0.0, 0.0), 6.0, 3.5, (6, 0.02), c), skin, 1.0);
    let split = [
        pt(-4.6, -0.5),
        pt(-2.0, -2.2),
        pt(2.2, -2.3),
        pt(4.7, -0.6),
        pt(2.2, 1.0),
        pt(-2.0, 1.0),
    ];
    s.fill(Path::smooth(&split, true), tint.light(), 1.0);
    for x in [-2.2, -0.4, 1.4] {
        arc(
            s,
            &[pt(x, -0.9), pt(x + 0.6, -1.3), pt(x + 1.1, -0.8)],
            FINE,
        );
        arc(
            s,
            &[pt(x - 0.3, 0.1), pt(x + 0.4, -0.2), pt(x + 1.0, 0.2)],
            FINE,
        );
    }
    for (x, y) in [(-4.4, 1.4), (-1.5, 2.4), (1.8, 2.3), (4.3, 1.2)] {
        arc(s, &[pt(x, y), pt(x + 0.35, y + 0.12)], 1.0);
    }
}

pub(super) fn hash(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let put = Put::at(0.0, 0.0).turned(c.turn());
    let mut shred = Sketch::default();
    let points = [
        pt(-1.1, 0.1),
        pt(-0.3, -0.25),
        pt(0.5, -0.1),
        pt(1.1, 0.2),
        pt(0.4, 0.22),
        pt(-0.4, 0.1),
    ];
    shred.fill(Path::smooth(&points, true), tint.light(), FINE);
    s.put(&shred, put);
}

pub(super) fn noodle(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    // A strand: a thin band bent as noodles lie.
    let (w, h) = (c.between(1.6, 2.6), c.between(0.5, 1.1));
    let mut strand = Sketch::default();
    let upper = [
        pt(-w, h * 0.4),
        pt(-w * 0.5, -h * 0.5),
        pt(w * 0.2, -h * 0.55),
        pt(w * 0.8, -0.05),
        pt(w, h * 0.6),
    ];
    let mut points = upper.to_vec();
    points.extend(upper.iter().rev().map(|p| pt(p.x * 0.93, p.y + 0.3)));
    strand.fill(Path::smooth(&points, true), tint.light(), FINE);
    s.put(&strand, Put::at(0.0, 0.0).turned(c.between(-0.9, 0.9)));
}

pub(super) fn tube(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut tube = Sketch::default();
    let body = [pt(-1.5, -0.5), pt(1.1, -0.5), pt(1.5, 0.5), pt(-1.1, 0.5)];
    tube.fill(Path::polygon(&body), tint, 1.0);
    tube.fill(Path::ellipse(pt(1.3, 0.0), 0.27, 0.5), tint.dark(), FINE);
    tube.draw(Path::line(&[pt(-1.2, -0.15), pt(1.0, -0.15)]), FINE);
    s.put(&tube, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn elbow(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut tube = Sketch::default();
    let band = [
        pt(-0.9, 0.5),
        pt(-0.7, -0.4),
        pt(0.0, -0.75),
        pt(0.7, -0.4),
        pt(0.9, 0.5),
        pt(0.4, 0.5),
        pt(0.28, -0.05),
        pt(0.0, -0.2),
        pt(-0.28, -0.05),
        pt(-0.4, 0.5),
    ];
    tube.fill(Path::smooth(&band, true), tint, 0.8);
    tube.fill(Path::ellipse(pt(0.65, 0.5), 0.25, 0.12), tint.dark(), FINE);
    s.put(&tube, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn ravioli(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let n = 16;
    let points: Vec<_> = (0..n)
        .map(|i| {
            let a = TAU * f64::from(i) / f64::from(n) + PI / 4.0;
            let square = 2.0 / (a.cos().abs().max(a.sin().abs()) * 2.0);
            let r = square * if i % 2 == 0 { 2.0 } else { 1.8 };
            pt(r * a.cos(), r * a.sin() * 0.72)
        })
        .collect();
    one.fill(Path::smooth(&points, true), tint, 1.0);
    one.fill(Path::ellipse(pt(0.0, -0.1), 1.15, 0.8), tint.light(), FINE);
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.3, 0.3)));
}

pub(super) fn chip(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let points = [pt(-2.4, 1.0), pt(-0.2, -1.8), pt(2.5, 0.9), pt(0.2, 1.35)];
    one.fill(Path::polygon(&points), tint, 1.0);
    for (x, y) in [(-0.6, 0.2), (0.6, 0.5), (0.0, -0.6)] {
        one.draw(Path::line(&[pt(x, y), pt(x + 0.22, y + 0.08)]), 1.0);
    }
    s.put(&one, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn crisp(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let round = [
        pt(-2.0, 0.3),
        pt(-1.2, -0.9),
        pt(0.6, -1.1),
        pt(1.9, -0.2),
        pt(1.5, 0.8),
        pt(-0.6, 1.1),
    ];
    one.fill(Path::smooth(&round, true), tint, 1.0);
    arc(
        &mut one,
        &[pt(-1.2, 0.3), pt(0.0, -0.25), pt(1.2, 0.1)],
        FINE,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn finger(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    // Something breaded and fried, a finger long.
    let mut one = Sketch::default();
    one.fill(blob(pt(0.0, 0.0), 3.2, 1.15, (7, 0.05), c), tint, 1.0);
    for _ in 0..9 {
        let (x, y) = (c.between(-2.4, 2.2), c.between(-0.7, 0.6));
        arc(
            &mut one,
            &[pt(x, y), pt(x + 0.2, y - 0.14), pt(x + 0.4, y + 0.02)],
            FINE,
        );
    }
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.5, 0.5)));
}

pub(super) fn ring(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    disc(&mut one, pt(0.0, 0.0), (2.7, 1.6, 0.8), tint, tint.dark());
    one.fill(
        blob(pt(0.0, 0.05), 1.4, 0.75, (5, 0.04), c),
        tint.dark().dark(),
        0.9,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.3, 0.3)));
}

pub(super) fn granola(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    lump(
        &mut one,
        c.between(0.35, 0.75),
        0.4,
        if c.part() < 0.4 { tint.dark() } else { tint },
        c,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn lasagne(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    let top = [pt(-4.6, 0.6), pt(-2.6, -2.4), pt(4.8, -2.4), pt(3.6, 0.6)];
    let layers = [
        tint,
        Rgb::hex(0xc6_4a2c),
        Rgb::hex(0xf3_dfa0),
        Rgb::hex(0xb0_552f),
        tint,
    ];
    for (i, colour) in layers.iter().enumerate().rev() {
        let y = i as f64 * 0.62;
        let side = [
            pt(-4.6, 0.6 + y),
            pt(3.6, 0.6 + y),
            pt(3.6, 1.22 + y),
            pt(-4.6, 1.22 + y),
        ];
        s.fill(Path::polygon(&side), *colour, 0.8);
        let end = [
            pt(3.6, 0.6 + y),
            pt(4.8, -2.4 + y),
            pt(4.8, -1.78 + y),
            pt(3.6, 1.22 + y),
        ];
        s.fill(Path::polygon(&end), colour.dark(), 0.8);
    }
    let mut closed = top;
    closed.reverse();
    s.fill(Path::polygon(&closed), Rgb::hex(0xe9_b95e), 1.0);
    for (x, y) in [(-2.4, -1.2), (0.6, -1.6), (2.6, -0.7), (-0.6, -0.4)] {
        s.fill(Path::ellipse(pt(x, y), 0.7, 0.3), Rgb::hex(0xc9_7a35), FINE);
    }
}

pub(super) fn popcorn_ball(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    lump(s, 1.15, 0.95, tint, c);
    arc(s, &[pt(-0.5, -0.2), pt(-0.1, -0.5), pt(0.4, -0.25)], FINE);
}

pub(super) fn patty_round(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    disc(s, pt(0.0, 0.0), (4.4, 2.5, 1.3), tint, tint.dark());
    for _ in 0..12 {
        let (a, r) = (c.turn(), c.between(0.3, 3.6));
        let (x, y) = (r * a.cos(), r * a.sin() * 0.54);
        arc(s, &[pt(x, y), pt(x + 0.3, y - 0.1)], FINE);
    }
}

pub(super) fn falafel(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    ball(s, 1.7, tint);
    for _ in 0..7 {
        let (a, r) = (c.turn(), c.between(0.2, 1.2));
        let (x, y) = (r * a.cos(), r * a.sin());
        arc(s, &[pt(x, y), pt(x + 0.2, y + 0.12)], FINE);
    }
}
