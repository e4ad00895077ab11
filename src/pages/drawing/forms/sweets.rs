//! Cheese, cream, sauces and sweet things. Sizes in cm.

use super::solids::{arc, disc, lump, slab};
use crate::pages::drawing::geometry::Point;
use crate::pages::drawing::sketch::{Chance, FINE, Path, Put, Rgb, Sketch, blob, pt};

pub(super) fn cheese_slice(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let top = [pt(0.0, 2.0), pt(-3.4, 0.0), pt(0.0, -2.0), pt(3.4, 0.0)];
    slab(
        &mut one,
        &[top[0], top[1], top[2], top[3]],
        0.4,
        tint,
        tint.dark(),
    );
    one.fill(Path::polygon(&top), tint, 1.0);
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.1, 0.1)));
}

pub(super) fn cheese_round(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    disc(s, pt(0.0, 0.0), (2.6, 1.6, 0.6), tint, tint.dark());
    arc(s, &[pt(-1.4, -0.3), pt(-0.4, -0.75), pt(0.8, -0.7)], FINE);
}

pub(super) fn grated(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let w = c.between(0.7, 1.3);
    one.fill(
        Path::smooth(
            &[
                pt(-w, 0.1),
                pt(0.0, -0.25),
                pt(w, 0.1),
                pt(w, 0.32),
                pt(0.0, 0.05),
                pt(-w, 0.34),
            ],
            true,
        ),
        tint,
        FINE,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn crumble(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let (w, h) = (c.between(0.5, 0.95), c.between(0.4, 0.65));
    one.fill(
        Path::polygon(&[
            pt(-w, 0.1),
            pt(-w * 0.3, -h),
            pt(w * 0.7, -h * 0.7),
            pt(w, h * 0.4),
            pt(0.0, h),
        ]),
        tint,
        0.9,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn butter(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let top = [pt(1.4, 0.7), pt(-1.5, 0.7), pt(-1.1, -0.8), pt(1.7, -0.8)];
    slab(&mut one, &top, 0.75, tint.light(), tint);
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.1, 0.1)));
}

/// Marks on a smooth food: nothing but a few strokes.
pub(super) fn smooth(s: &mut Sketch, _: Rgb, c: &mut Chance) {
    let w = c.between(0.7, 1.2);
    arc(s, &[pt(-w, 0.1), pt(0.0, -0.2), pt(w, 0.12)], FINE);
}

/// Flecks in a sauce.
pub(super) fn fleck(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    s.fill(
        Path::ellipse(pt(0.0, 0.0), c.between(0.15, 0.3), 0.14),
        tint.dark(),
        0.0,
    );
}

pub(super) fn dollop(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    let body = [
        pt(-3.0, 0.9),
        pt(-2.6, -0.4),
        pt(-1.4, -1.0),
        pt(-0.9, -2.0),
        pt(0.5, -2.7),
        pt(1.0, -1.6),
        pt(2.4, -0.8),
        pt(3.0, 0.7),
        pt(1.8, 1.6),
        pt(-1.8, 1.6),
    ];
    s.fill(Path::smooth(&body, true), tint, 1.0);
    arc(s, &[pt(-2.2, 0.2), pt(-0.2, 0.6), pt(2.0, -0.1)], FINE);
    arc(s, &[pt(-1.1, -0.8), pt(0.1, -0.6), pt(1.0, -1.1)], FINE);
}

pub(super) fn drizzle(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    // One ribbon to and fro.
    let mut upper: Vec<Point> = Vec::new();
    for i in 0..=28 {
        let t = f64::from(i) / 28.0;
        let swing = (t * std::f64::consts::TAU * 3.5).sin();
        upper.push(pt(-5.0 + 10.0 * t, swing * 1.7));
    }
    let mut band: Vec<Point> = upper.iter().map(|p| pt(p.x, p.y - 0.38)).collect();
    band.extend(upper.iter().rev().map(|p| pt(p.x + 0.35, p.y + 0.38)));
    s.fill(Path::smooth(&band, true), tint, 0.9);
}

pub(super) fn cookie(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    disc(s, pt(0.0, 0.0), (3.6, 2.1, 0.9), tint, tint.dark());
    for _ in 0..8 {
        let (a, r) = (c.turn(), c.between(0.3, 2.9));
        s.fill(
            Path::ellipse(pt(r * a.cos(), r * a.sin() * 0.56), 0.42, 0.3),
            Rgb::hex(0x4c_2f22),
            0.0,
        );
    }
}

pub(super) fn brownie(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let top = [pt(3.6, 1.2), pt(-3.9, 1.2), pt(-2.9, -1.7), pt(4.4, -1.7)];
    slab(s, &top, 2.2, tint, tint.dark());
    let end = [pt(3.6, 1.2), pt(4.4, -1.7), pt(4.4, 0.5), pt(3.6, 3.4)];
    s.fill(Path::polygon(&end), tint.dark().dark(), 1.0);
    for _ in 0..8 {
        let (x, y) = (c.between(-2.8, 3.0), c.between(-1.3, 0.8));
        arc(
            s,
            &[pt(x, y), pt(x + 0.4, y - 0.15), pt(x + 0.8, y + 0.05)],
            FINE,
        );
    }
}

pub(super) fn cake(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    // A wedge, cut side to the reader: crumb, filling, crumb, icing on top.
    let icing = Rgb::hex(0xf8_efdc);
    let (h, left, right, back) = (5.0, pt(-5.4, -0.8), pt(5.2, 1.0), pt(3.2, -3.2));
    let down = |p: Point, y: f64| pt(p.x, p.y + y);
    let side = |from: f64, to: f64| {
        [
            down(left, from),
            down(right, from),
            down(right, to),
            down(left, to),
        ]
    };
    s.fill(Path::polygon(&side(0.0, h)), tint, 1.0);
    s.fill(Path::polygon(&side(h * 0.46, h * 0.58)), icing, 0.8);
    let end = [right, back, down(back, h), down(right, h)];
    s.fill(Path::polygon(&end), icing.dark(), 1.0);
    s.fill(Path::polygon(&[left, right, back]), icing, 1.0);
    for _ in 0..14 {
        let (x, y) = (c.between(-4.4, 4.2), c.between(0.4, 4.4));
        let slope = (x + 5.4) * 0.17 - 0.8;
        arc(s, &[pt(x, y + slope), pt(x + 0.25, y + slope + 0.05)], FINE);
    }
}

pub(super) fn cheesecake(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    let (h, left, right, back) = (3.4, pt(-5.6, -0.6), pt(5.2, 1.0), pt(3.4, -3.0));
    let base = Rgb::hex(0xb9_864c);
    let down = |p: Point, y: f64| pt(p.x, p.y + y);
    let side = |from: f64, to: f64| {
        [
            down(left, from),
            down(right, from),
            down(right, to),
            down(left, to),
        ]
    };
    s.fill(
        Path::polygon(&[right, back, down(back, h + 1.0), down(right, h + 1.0)]),
        tint.dark(),
        1.0,
    );
    s.fill(Path::polygon(&side(0.0, h)), tint, 1.0);
    s.fill(Path::polygon(&side(h, h + 1.0)), base, 1.0);
    s.fill(Path::polygon(&[left, right, back]), tint.light(), 1.0);
}

pub(super) fn pie(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let filling = Rgb::hex(0xe0_b36a);
    let (h, left, right, back) = (2.8, pt(-5.4, -0.6), pt(4.8, 1.2), pt(3.6, -3.0));
    let down = |p: Point, y: f64| pt(p.x, p.y + y);
    let side = |from: f64, to: f64| {
        [
            down(left, from),
            down(right, from),
            down(right, to),
            down(left, to),
        ]
    };
    s.fill(Path::polygon(&side(0.4, h)), filling, 1.0);
    for i in 0..5 {
        let x = -3.8 + f64::from(i) * 1.9;
        let mut piece = Sketch::default();
        lump(&mut piece, 0.8, 0.55, filling.light(), c);
        s.put(&piece, Put::at(x, 1.3 + (x + 5.4) * 0.17 - 0.8));
    }
    s.fill(Path::polygon(&side(h, h + 0.6)), tint.dark(), 1.0);
    s.fill(Path::polygon(&[left, right, back]), tint, 1.0);
    for i in 0..3 {
        let t = 0.35 + f64::from(i) * 0.2;
        let mid = pt(
            left.x + (right.x - left.x) * t,
            left.y + (right.y - left.y) * t,
        );
        s.draw(
            Path::line(&[pt(mid.x + 0.3, mid.y - 0.3), pt(mid.x + 1.3, mid.y - 1.0)]),
            0.8,
        );
    }
    // The rim of the crust at the wide end.
    let rim = [
        pt(4.6, 1.4),
        pt(4.2, -0.4),
        pt(3.3, -3.0),
        pt(4.4, -3.5),
        pt(5.9, -0.8),
        pt(6.0, 1.4),
        pt(5.6, 3.6),
        pt(4.8, 4.0),
    ];
    s.fill(Path::smooth(&rim, true), tint, 1.0);
    for (x, y) in [(4.6, -2.4), (5.1, -1.0), (5.3, 0.5), (5.2, 2.0)] {
        s.draw(Path::line(&[pt(x - 0.4, y), pt(x + 0.4, y - 0.2)]), FINE);
    }
}

pub(super) fn scoop(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    // A ball, and the ragged rim that the spoon leaves at its foot.
    let rim = [
        pt(-2.9, 0.9),
        pt(-2.5, 0.2),
        pt(0.0, -0.2),
        pt(2.5, 0.2),
        pt(2.9, 0.9),
        pt(2.5, 1.7),
        pt(1.6, 1.4),
        pt(0.8, 2.0),
        pt(-0.2, 1.5),
        pt(-1.2, 2.0),
        pt(-1.9, 1.4),
        pt(-2.6, 1.7),
    ];
    s.fill(Path::ellipse(pt(0.0, -0.9), 2.5, 2.4), tint, 1.0);
    s.fill(Path::smooth(&rim, true), tint, 1.0);
    s.fill(Path::ellipse(pt(0.0, -0.7), 2.3, 1.7), tint, 0.0);
    arc(s, &[pt(-1.7, -1.3), pt(-1.1, -2.3), pt(0.1, -2.7)], FINE);
    for (x, y) in [(-1.2, 0.3), (0.9, 0.1), (0.2, -0.9)] {
        arc(s, &[pt(x, y), pt(x + 0.5, y + 0.15), pt(x + 0.9, y)], FINE);
    }
}

pub(super) fn churro(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    super::solids::stick(&mut one, 10.0, 1.5, tint);
    one.draw(Path::line(&[pt(-4.2, -0.25), pt(4.2, -0.25)]), FINE);
    one.draw(Path::line(&[pt(-4.2, 0.2), pt(4.2, 0.2)]), FINE);
    for x in [-3.0, -1.6, 0.2, 1.5, 3.0] {
        one.draw(Path::line(&[pt(x, -0.5), pt(x + 0.1, -0.5)]), 1.0);
    }
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.2, 0.2)));
}

pub(super) fn ladyfinger(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    super::solids::stick(&mut one, 6.6, 1.9, tint);
    for _ in 0..6 {
        let x = c.between(-2.4, 2.2);
        one.draw(Path::line(&[pt(x, -0.3), pt(x + 0.2, -0.25)]), FINE);
    }
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.1, 0.1)));
}

pub(super) fn sugar(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    s.fill(Path::ellipse(pt(0.0, 0.0), 0.14, 0.12), tint.dark(), 0.0);
}

pub(super) fn custard(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    // A set cream in its shallow dish.
    let dish = Rgb::hex(0xf4_f0e6);
    disc(s, pt(0.0, 0.0), (5.4, 2.9, 1.9), dish, dish);
    s.fill(Path::ellipse(pt(0.0, 0.05), 4.8, 2.45), tint, 0.9);
    s.fill(
        blob(pt(-0.6, -0.1), 3.2, 1.4, (6, 0.12), c),
        tint.dark(),
        FINE,
    );
}
