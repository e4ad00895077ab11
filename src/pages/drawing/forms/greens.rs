//! Vegetables. Sizes in cm.

use super::solids::{arc, disc, lump, stick};
use crate::pages::drawing::geometry::Point;
use crate::pages::drawing::sketch::{Chance, FINE, Path, Put, Rgb, Sketch, pt};
use std::f64::consts::TAU;

pub(super) fn leaf(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let w = c.between(0.9, 1.25);
    let edge = [
        pt(-2.3, 0.2),
        pt(-1.4, -0.8 * w),
        pt(-0.6, -0.65 * w),
        pt(0.3, -1.05 * w),
        pt(1.2, -0.6 * w),
        pt(2.3, -0.1),
        pt(1.3, 0.75 * w),
        pt(0.4, 0.65 * w),
        pt(-0.4, 1.05 * w),
        pt(-1.3, 0.7 * w),
    ];
    let colour = if c.part() < 0.4 { tint.light() } else { tint };
    one.fill(Path::smooth(&edge, true), colour, 1.0);
    arc(
        &mut one,
        &[pt(-2.2, 0.15), pt(0.0, 0.1), pt(1.8, -0.05)],
        FINE,
    );
    one.draw(Path::line(&[pt(-0.7, 0.12), pt(-0.1, -0.5)]), FINE);
    one.draw(Path::line(&[pt(0.1, 0.1), pt(0.6, 0.55)]), FINE);
    s.put(&one, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn herb(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    one.fill(
        Path::smooth(
            &[pt(-0.9, 0.1), pt(0.0, -0.45), pt(0.9, 0.0), pt(0.0, 0.45)],
            true,
        ),
        tint,
        0.8,
    );
    one.draw(Path::line(&[pt(-0.8, 0.08), pt(0.6, 0.0)]), FINE);
    s.put(&one, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn floret(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let stem = tint.light();
    one.fill(
        Path::polygon(&[pt(-0.45, 0.2), pt(0.45, 0.2), pt(0.6, 1.8), pt(-0.35, 1.8)]),
        stem,
        1.0,
    );
    for (x, y, r) in [
        (-1.0, 0.15, 0.75),
        (1.0, 0.15, 0.75),
        (-0.5, -0.6, 0.8),
        (0.55, -0.6, 0.8),
        (0.0, 0.1, 0.75),
    ] {
        let mut tuft = Sketch::default();
        lump(&mut tuft, r, r * 0.85, tint, c);
        arc(
            &mut tuft,
            &[pt(-0.3, 0.0), pt(0.0, -0.25), pt(0.3, 0.0)],
            FINE,
        );
        one.put(&tuft, Put::at(x, y));
    }
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.6, 0.6)));
}

pub(super) fn spear(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let body = [
        pt(-6.0, -0.4),
        pt(2.8, -0.45),
        pt(5.0, -0.55),
        pt(6.4, 0.0),
        pt(5.0, 0.55),
        pt(2.8, 0.45),
        pt(-6.0, 0.4),
    ];
    one.fill(Path::smooth(&body, true), tint, 1.0);
    for x in [3.4, 4.2, 5.0] {
        one.draw(
            Path::line(&[pt(x, 0.35), pt(x + 0.5, -0.05), pt(x, -0.35)]),
            FINE,
        );
    }
    for x in [-3.6, -1.0, 1.4] {
        one.draw(Path::line(&[pt(x, 0.05), pt(x + 0.5, -0.25)]), FINE);
    }
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.12, 0.12)));
}

pub(super) fn green_bean(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let bend = c.between(-0.5, 0.5);
    let body = [
        pt(-3.8, 0.0),
        pt(-2.2, -0.42 + bend * 0.6),
        pt(0.0, -0.42 + bend),
        pt(2.4, -0.4 + bend * 0.5),
        pt(4.0, 0.0),
        pt(2.4, 0.4 + bend * 0.5),
        pt(0.0, 0.42 + bend),
        pt(-2.2, 0.42 + bend * 0.6),
    ];
    one.fill(Path::smooth(&body, true), tint, 1.0);
    arc(
        &mut one,
        &[pt(-2.4, bend * 0.6), pt(0.0, bend), pt(2.6, bend * 0.5)],
        FINE,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.5, 0.5)));
}

pub(super) fn pod(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let body = [
        pt(-2.8, 0.0),
        pt(-1.6, -0.75),
        pt(0.0, -0.65),
        pt(1.6, -0.75),
        pt(2.8, -0.1),
        pt(1.6, 0.65),
        pt(0.0, 0.6),
        pt(-1.6, 0.65),
    ];
    one.fill(Path::smooth(&body, true), tint, 1.0);
    for x in [-1.4, 0.0, 1.4] {
        one.draw(Path::ellipse(pt(x, -0.04), 0.45, 0.36), FINE);
    }
    s.put(&one, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn dice(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    super::solids::cube_of(&mut one, 0.68, tint);
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.6, 0.6)));
}

pub(super) fn shred(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let w = c.between(1.0, 1.8);
    let points = [
        pt(-w, 0.25),
        pt(0.0, -0.4),
        pt(w, 0.2),
        pt(w * 0.9, 0.45),
        pt(0.0, -0.1),
        pt(-w * 0.9, 0.5),
    ];
    one.fill(
        Path::smooth(&points, true),
        if c.part() < 0.45 { tint.light() } else { tint },
        FINE,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn sprout(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let tail = [
        pt(-2.0, 0.4),
        pt(-0.5, -0.25),
        pt(1.0, 0.0),
        pt(1.0, 0.28),
        pt(-0.5, 0.08),
        pt(-1.9, 0.6),
    ];
    one.fill(Path::smooth(&tail, true), tint.light(), FINE);
    one.fill(
        Path::ellipse(pt(1.3, 0.05), 0.42, 0.3),
        Rgb::hex(0xd9_cf7a),
        FINE,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn seaweed(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let points: Vec<Point> = (0..7)
        .map(|i| {
            pt(
                -1.5 + f64::from(i) * 0.5,
                if i % 2 == 0 { -0.5 } else { 0.1 },
            )
        })
        .collect();
    let mut band = points.clone();
    band.extend(points.iter().rev().map(|p| pt(p.x, p.y + 0.55)));
    one.fill(Path::smooth(&band, true), tint, 0.8);
    s.put(&one, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn tomato_wedge(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let skin = [
        pt(-2.2, -0.5),
        pt(-1.3, 0.9),
        pt(0.0, 1.35),
        pt(1.3, 0.9),
        pt(2.2, -0.5),
        pt(0.0, -0.1),
    ];
    one.fill(Path::smooth(&skin, true), tint, 1.0);
    let flesh = [
        pt(-2.1, -0.5),
        pt(0.0, -1.0),
        pt(2.1, -0.5),
        pt(1.0, 0.35),
        pt(-1.0, 0.35),
    ];
    one.fill(Path::smooth(&flesh, true), tint.light(), 0.9);
    for x in [-0.8, 0.0, 0.8] {
        one.fill(
            Path::ellipse(pt(x, -0.25), 0.17, 0.13),
            Rgb::hex(0xf6_e0a8),
            FINE,
        );
    }
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.9, 0.9)));
}

pub(super) fn tomato_round(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    disc(s, pt(0.0, 0.0), (2.6, 1.6, 0.5), tint.light(), tint);
    for i in 0..5 {
        let a = TAU * f64::from(i) / 5.0 + 0.3;
        s.fill(
            Path::ellipse(pt(1.45 * a.cos(), 0.88 * a.sin()), 0.5, 0.3),
            tint,
            FINE,
        );
    }
}

pub(super) fn cucumber(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    disc(s, pt(0.0, 0.0), (1.9, 1.2, 0.45), Rgb::hex(0xdf_ecc0), tint);
    s.marks[1].line = 1.4;
    for i in 0..6 {
        let a = TAU * f64::from(i) / 6.0;
        s.draw(
            Path::line(&[
                pt(0.55 * a.cos(), 0.35 * a.sin()),
                pt(0.95 * a.cos(), 0.6 * a.sin()),
            ]),
            FINE,
        );
    }
}

pub(super) fn coin(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    disc(s, pt(0.0, 0.0), (1.25, 0.8, 0.4), tint, tint.dark());
    s.draw(Path::ellipse(pt(0.0, 0.0), 0.6, 0.36), FINE);
}

pub(super) fn baton(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    stick(&mut one, 4.6, 0.85, tint);
    arc(
        &mut one,
        &[pt(-1.6, -0.1), pt(0.2, -0.2), pt(1.6, -0.1)],
        FINE,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.6, 0.6)));
}

pub(super) fn celery(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    stick(&mut one, 7.0, 1.3, tint);
    arc(
        &mut one,
        &[pt(-2.8, -0.2), pt(0.0, -0.3), pt(2.8, -0.2)],
        FINE,
    );
    arc(
        &mut one,
        &[pt(-2.8, 0.2), pt(0.0, 0.12), pt(2.8, 0.2)],
        FINE,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.15, 0.15)));
}

pub(super) fn crescent(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    // A strip of pepper, a slice of celery.
    let mut one = Sketch::default();
    let band = [
        pt(-1.5, 0.5),
        pt(-0.9, -0.5),
        pt(0.0, -0.8),
        pt(0.9, -0.5),
        pt(1.5, 0.5),
        pt(1.0, 0.55),
        pt(0.55, -0.1),
        pt(0.0, -0.3),
        pt(-0.55, -0.1),
        pt(-1.0, 0.55),
    ];
    one.fill(Path::smooth(&band, true), tint, 0.9);
    s.put(&one, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn onion(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    one.fill(Path::ellipse(pt(0.0, 0.0), 1.5, 0.95), tint, 0.9);
    one.fill(Path::ellipse(pt(0.0, 0.0), 1.0, 0.6), tint.light(), FINE);
    one.fill(Path::ellipse(pt(0.0, 0.0), 0.5, 0.28), tint, FINE);
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.4, 0.4)));
}

pub(super) fn avocado(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let skin = [
        pt(-3.0, 0.9),
        pt(-2.0, -0.7),
        pt(0.0, -1.3),
        pt(2.0, -0.7),
        pt(3.0, 0.9),
        pt(1.6, 0.1),
        pt(0.0, -0.15),
        pt(-1.6, 0.1),
    ];
    one.fill(Path::smooth(&skin, true), tint, 1.0);
    arc(
        &mut one,
        &[
            pt(-2.5, 0.3),
            pt(-1.6, -0.6),
            pt(0.0, -1.0),
            pt(1.6, -0.6),
            pt(2.5, 0.3),
        ],
        0.8,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.15, 0.15)));
}

pub(super) fn mushroom(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    one.fill(
        Path::smooth(
            &[pt(-0.45, 0.1), pt(0.45, 0.1), pt(0.55, 1.5), pt(-0.55, 1.5)],
            true,
        ),
        tint.light(),
        0.9,
    );
    let cap = [
        pt(-1.7, 0.35),
        pt(-1.2, -0.8),
        pt(0.0, -1.25),
        pt(1.2, -0.8),
        pt(1.7, 0.35),
        pt(0.6, 0.2),
        pt(-0.6, 0.2),
    ];
    one.fill(Path::smooth(&cap, true), tint, 1.0);
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.9, 0.9)));
}

pub(super) fn pickle(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    disc(
        &mut one,
        pt(0.0, 0.0),
        (1.5, 0.9, 0.35),
        tint.light(),
        tint.dark(),
    );
    for (x, y) in [(-0.5, 0.0), (0.4, 0.2), (0.0, -0.35)] {
        one.draw(Path::line(&[pt(x, y), pt(x + 0.2, y)]), FINE);
    }
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.3, 0.3)));
}

pub(super) fn aubergine(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    disc(s, pt(0.0, 0.0), (2.9, 1.7, 0.6), tint, Rgb::hex(0x5b_3f57));
    for _ in 0..6 {
        let (a, r) = (c.turn(), c.between(0.3, 2.0));
        let (x, y) = (r * a.cos(), r * a.sin() * 0.55);
        arc(s, &[pt(x, y), pt(x + 0.3, y - 0.06)], FINE);
    }
}
