//! Bread, and what is baked, rolled or folded from dough. Sizes in cm.

use super::solids::{arc, bent, cube_of, disc, lump, slab, stick};
use crate::pages::drawing::sketch::{Chance, FINE, Path, Put, Rgb, Sketch, blob, pt};
use std::f64::consts::PI;

const CRUST: Rgb = Rgb::hex(0xb9_7b3f);
const CRUMB: Rgb = Rgb::hex(0xf2_dfb8);

pub(super) fn bread_slice(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let shape = |g: f64| {
        [
            pt(-3.9 * g, 3.0 * g),
            pt(-4.0 * g, -0.2),
            pt(-4.6 * g, -1.5 * g),
            pt(-3.4 * g, -3.1 * g),
            pt(0.0, -3.3 * g),
            pt(3.4 * g, -3.1 * g),
            pt(4.6 * g, -1.5 * g),
            pt(4.0 * g, -0.2),
            pt(3.9 * g, 3.0 * g),
        ]
    };
    let mut rim = shape(1.0).to_vec();
    for p in &mut rim {
        p.y += 0.7;
    }
    s.fill(Path::polygon(&rim), CRUST.dark(), 1.0);
    s.fill(Path::polygon(&shape(1.0)), CRUST, 1.0);
    s.fill(Path::polygon(&shape(0.86)), tint, FINE);
    for _ in 0..7 {
        let (x, y) = (c.between(-2.6, 2.4), c.between(-1.9, 1.9));
        arc(s, &[pt(x, y), pt(x + 0.4, y + 0.12)], FINE);
    }
}

pub(super) fn toast_half(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    // A slice cut from corner to corner.
    let top = [pt(-4.4, 1.7), pt(0.2, -2.6), pt(4.4, 1.7)];
    slab(s, &top, 1.0, tint, CRUST);
    s.draw(
        Path::line(&[pt(-3.4, 1.35), pt(0.2, -2.0), pt(3.4, 1.35)]),
        FINE,
    );
    for _ in 0..6 {
        let (x, y) = (c.between(-2.0, 2.0), c.between(0.0, 1.3));
        arc(s, &[pt(x, y), pt(x + 0.35, y + 0.1)], FINE);
    }
}

pub(super) fn roll(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    let dome = [
        pt(-3.6, 0.9),
        pt(-3.0, -1.3),
        pt(-1.2, -2.4),
        pt(1.2, -2.4),
        pt(3.0, -1.3),
        pt(3.6, 0.9),
        pt(2.4, 1.9),
        pt(-2.4, 1.9),
    ];
    s.fill(Path::smooth(&dome, true), tint, 1.0);
    arc(s, &[pt(-1.9, -1.0), pt(-0.2, -1.7), pt(1.8, -1.2)], FINE);
    arc(s, &[pt(-2.9, 1.1), pt(0.0, 1.55), pt(2.9, 1.1)], FINE);
}

pub(super) fn long_loaf(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    let body = [
        pt(-6.0, 0.4),
        pt(-4.8, -1.6),
        pt(0.0, -2.1),
        pt(4.8, -1.6),
        pt(6.0, 0.4),
        pt(4.8, 1.6),
        pt(0.0, 1.9),
        pt(-4.8, 1.6),
    ];
    s.fill(Path::smooth(&body, true), tint, 1.0);
    for x in [-3.4, -1.1, 1.2, 3.4] {
        arc(
            s,
            &[pt(x - 0.5, 0.2), pt(x + 0.1, -0.7), pt(x + 0.9, -1.2)],
            0.8,
        );
    }
}

pub(super) fn bread_rounds(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    // A slice of a long loaf, buttered or not.
    let (rx, ry) = (3.4, 1.9);
    disc(s, pt(0.0, 0.0), (rx, ry, 0.8), CRUST, CRUST.dark());
    s.fill(
        Path::ellipse(pt(0.0, -0.05), rx * 0.86, ry * 0.8),
        tint.light(),
        FINE,
    );
    for _ in 0..6 {
        let (x, y) = (c.between(-2.0, 1.8), c.between(-0.9, 0.9));
        arc(s, &[pt(x, y), pt(x + 0.4, y + 0.08)], FINE);
    }
}

pub(super) fn bagel(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    disc(s, pt(0.0, 0.0), (4.6, 2.8, 1.5), tint, tint.dark());
    s.fill(Path::ellipse(pt(0.0, 0.0), 1.2, 0.6), tint.dark(), 1.0);
    for _ in 0..9 {
        let a = c.turn();
        let (x, y) = (3.0 * a.cos(), 1.75 * a.sin());
        arc(s, &[pt(x, y), pt(x + 0.25, y + 0.1)], FINE);
    }
}

pub(super) fn flatbread(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    // A quarter of a round flatbread, as it is cut and served.
    let n = 7;
    let mut top: Vec<_> = (0..=n)
        .map(|i| {
            let a = PI * (0.16 + 0.68 * f64::from(i) / f64::from(n));
            pt(6.2 * a.cos(), 2.6 - 5.2 * a.sin() + 0.0)
        })
        .collect();
    top.push(pt(0.0, 2.8));
    top.reverse();
    let mut low = top.clone();
    for p in &mut low {
        p.y += 0.75;
    }
    s.fill(Path::polygon(&low), tint.dark(), 1.0);
    s.fill(Path::polygon(&top), tint, 1.0);
    for _ in 0..5 {
        let (x, y) = (c.between(-2.2, 2.2), c.between(-1.9, 0.6));
        let mut spot = Sketch::default();
        lump(&mut spot, 0.5, 0.26, CRUST, c);
        spot.marks[0].line = 0.0;
        s.put(&spot, Put::at(x, y));
    }
}

pub(super) fn naan(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let leaf = [
        pt(-6.2, 0.8),
        pt(-4.4, -1.7),
        pt(-0.6, -2.6),
        pt(3.6, -2.2),
        pt(6.4, -0.4),
        pt(5.0, 1.8),
        pt(0.5, 2.7),
        pt(-4.2, 2.3),
    ];
    let low: Vec<_> = leaf.iter().map(|p| pt(p.x, p.y + 0.5)).collect();
    s.fill(Path::smooth(&low, true), tint.dark(), 1.0);
    s.fill(Path::smooth(&leaf, true), tint, 1.0);
    for _ in 0..8 {
        let (x, y) = (c.between(-4.2, 4.4), c.between(-1.5, 1.6));
        let mut spot = Sketch::default();
        lump(&mut spot, 0.6, 0.32, CRUST, c);
        spot.marks[0].line = FINE;
        s.put(&spot, Put::at(x, y));
    }
}

pub(super) fn tortillas(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    // A stack of flat rounds.
    for i in 0..3 {
        let y = 0.8 - f64::from(i) * 0.5;
        disc(
            s,
            pt(c.between(-0.15, 0.15), y),
            (5.6, 2.9, 0.35),
            tint,
            tint.dark(),
        );
    }
    for _ in 0..7 {
        let (a, r) = (c.turn(), c.between(0.5, 4.2));
        let mut spot = Sketch::default();
        lump(&mut spot, 0.42, 0.2, CRUST, c);
        spot.marks[0].line = 0.0;
        s.put(&spot, Put::at(r * a.cos(), -0.2 + r * 0.5 * a.sin()));
    }
}

pub(super) fn crouton(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    cube_of(&mut one, 0.85, tint);
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.5, 0.5)));
}

pub(super) fn cracker(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    slab(
        &mut one,
        &[pt(-1.7, 0.9), pt(-1.5, -1.0), pt(1.7, -1.0), pt(1.5, 0.9)].map(|p| pt(p.x, p.y)),
        0.3,
        tint,
        tint.dark(),
    );
    for (x, y) in [
        (-0.8, -0.4),
        (0.0, -0.4),
        (0.8, -0.4),
        (-0.8, 0.3),
        (0.0, 0.3),
        (0.8, 0.3),
    ] {
        one.draw(Path::line(&[pt(x, y), pt(x + 0.12, y)]), 1.0);
    }
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.4, 0.4)));
}

pub(super) fn pancakes(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    for i in 0..3 {
        let y = 1.8 - f64::from(i) * 1.15;
        disc(
            s,
            pt(c.between(-0.25, 0.25), y),
            (6.0, 3.1, 1.1),
            tint,
            CRUMB,
        );
    }
    arc(s, &[pt(-3.6, -0.9), pt(-1.0, -1.9), pt(2.6, -1.6)], FINE);
}

pub(super) fn waffle(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    disc(s, pt(0.0, 0.0), (6.0, 3.6, 1.2), tint, tint.dark());
    s.fill(Path::ellipse(pt(0.0, 0.0), 5.4, 3.15), tint.light(), FINE);
    for i in -3..=3 {
        let x = f64::from(i) * 1.45;
        let reach = 3.1 * (1.0 - (x / 5.4).powi(2)).max(0.0).sqrt();
        s.draw(Path::line(&[pt(x, -reach), pt(x, reach)]), 1.0);
    }
    for i in -2..=2 {
        let y = f64::from(i) * 1.05;
        let reach = 5.3 * (1.0 - (y / 3.15).powi(2)).max(0.0).sqrt();
        s.draw(Path::line(&[pt(-reach, y), pt(reach, y)]), 1.0);
    }
}

pub(super) fn pizza_slice(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    cheese_pizza_slice(s, tint, c);
    let sausage = Rgb::hex(0xc6_4a2c);
    for (x, y) in [(-2.3, -0.7), (1.9, -0.8), (0.1, 1.7)] {
        s.fill(Path::ellipse(pt(x, y), 1.0, 0.75), sausage, 0.9);
    }
}

pub(super) fn cheese_pizza_slice(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let cheese = Rgb::hex(0xf3_d27a);
    let low = [pt(-5.2, -2.9), pt(5.2, -2.9), pt(0.2, 5.3)];
    s.fill(
        Path::polygon(&low.map(|p| pt(p.x, p.y + 0.5))),
        tint.dark(),
        1.0,
    );
    s.fill(Path::polygon(&low), cheese, 1.0);
    bent(s, 11.4, 1.7, -0.6, tint);
    let last = s.marks.len() - 1;
    for p in &mut s.marks[last..] {
        let mut moved = Sketch::default();
        moved.marks.push(p.clone());
        let mut placed = Sketch::default();
        placed.put(&moved, Put::at(0.0, -2.6));
        *p = placed.marks.remove(0);
    }
    for _ in 0..6 {
        let (x, y) = (c.between(-2.6, 2.4), c.between(-1.6, 0.6));
        arc(s, &[pt(x, y), pt(x + 0.35, y + 0.1)], FINE);
    }
}

pub(super) fn quesadilla(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    // A wedge of a folded, browned tortilla.
    let top = [
        pt(0.0, 2.6),
        pt(-4.6, -0.6),
        pt(-2.2, -2.4),
        pt(2.2, -2.4),
        pt(4.6, -0.6),
    ];
    let mut low = top;
    for p in &mut low {
        p.y += 0.9;
    }
    s.fill(Path::polygon(&low), Rgb::hex(0xf3_c963), 1.0);
    s.fill(Path::polygon(&top), tint, 1.0);
    for _ in 0..6 {
        let (x, y) = (c.between(-2.4, 2.4), c.between(-1.7, 0.4));
        let mut spot = Sketch::default();
        lump(&mut spot, 0.55, 0.28, CRUST, c);
        spot.marks[0].line = 0.0;
        s.put(&spot, Put::at(x, y));
    }
}

pub(super) fn filled_tortilla(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    // Rolled, lying across, its open end to the right.
    stick(s, 9.0, 3.0, tint);
    s.fill(
        Path::ellipse(pt(4.2, 0.0), 0.5, 1.15),
        tint.dark().dark(),
        0.9,
    );
    arc(s, &[pt(-3.9, -0.6), pt(0.0, -1.0), pt(3.7, -0.7)], FINE);
}

pub(super) fn samosa(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    let body = [
        pt(-3.3, 1.9),
        pt(-2.2, 0.2),
        pt(0.0, -3.0),
        pt(2.2, 0.2),
        pt(3.3, 1.9),
        pt(0.0, 2.5),
    ];
    s.fill(Path::smooth(&body, true), tint, 1.0);
    arc(s, &[pt(0.2, -2.4), pt(0.9, -0.2), pt(2.4, 1.7)], FINE);
    for x in [-2.4, -1.4, -0.4, 0.6, 1.6] {
        s.draw(Path::line(&[pt(x, 2.1), pt(x + 0.3, 1.6)]), FINE);
    }
}

pub(super) fn golden_roll(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    stick(&mut one, 7.4, 2.3, tint);
    one.draw(Path::line(&[pt(-2.6, 1.0), pt(1.2, -1.05)]), FINE);
    one.fill(Path::ellipse(pt(3.35, 0.0), 0.35, 0.8), tint.dark(), 0.8);
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.25, 0.1)));
}

pub(super) fn clear_roll(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    stick(s, 7.6, 2.7, tint);
    let pink = Rgb::hex(0xf0_a688);
    for x in [-1.9, 0.2, 2.2] {
        s.fill(blob(pt(x, -0.25), 0.85, 0.42, (4, 0.05), c), pink, FINE);
        arc(s, &[pt(x - 0.8, 0.75), pt(x, 0.5), pt(x + 0.7, 0.8)], FINE);
    }
}

pub(super) fn dumpling(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let body = [
        pt(-2.6, 0.6),
        pt(-1.9, -0.6),
        pt(0.0, -1.15),
        pt(1.9, -0.6),
        pt(2.6, 0.6),
        pt(1.3, 1.2),
        pt(-1.3, 1.2),
    ];
    one.fill(Path::smooth(&body, true), tint, 1.0);
    for i in -2..=2 {
        let x = f64::from(i) * 0.8;
        arc(
            &mut one,
            &[
                pt(x * 1.05, -0.95 + x.abs() * 0.2),
                pt(x * 1.12, -0.35 + x.abs() * 0.15),
            ],
            0.8,
        );
    }
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.3, 0.3)));
}
