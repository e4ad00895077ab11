//! Fish, shellfish, sushi, eggs and soy. Sizes in cm.

use super::meats::{crumbs, raised};
use super::solids::{arc, cube_of, disc, lump};
use crate::pages::drawing::sketch::{Chance, FINE, Path, Put, Rgb, Sketch, blob, pt};

const YOLK: Rgb = Rgb::hex(0xf2_b233);
const WHITE: Rgb = Rgb::hex(0xfb_f6e8);

pub(super) fn fillet(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    let outline = [
        pt(-7.0, 0.6),
        pt(-4.6, -1.6),
        pt(0.0, -2.3),
        pt(4.6, -1.9),
        pt(7.0, -0.2),
        pt(5.0, 1.4),
        pt(0.0, 2.0),
        pt(-4.6, 1.6),
    ];
    raised(s, &outline, 1.0, tint, tint.dark());
    // Flakes.
    for i in -3..=3 {
        let x = f64::from(i) * 1.7;
        let r = 1.5 - (f64::from(i) * 0.28).abs();
        arc(
            s,
            &[pt(x - 0.7, -r), pt(x + 0.25, 0.0), pt(x - 0.7, r * 0.85)],
            0.8,
        );
    }
}

pub(super) fn fried_fillet(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let outline = [
        pt(-6.6, 0.8),
        pt(-4.6, -1.4),
        pt(0.0, -2.2),
        pt(4.6, -1.8),
        pt(6.8, -0.3),
        pt(4.8, 1.5),
        pt(0.0, 2.1),
        pt(-4.4, 1.8),
    ];
    raised(s, &outline, 1.1, tint, tint.dark());
    crumbs(s, c, 5.2, 1.5, 22);
}

pub(super) fn shrimp(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let body = [
        pt(1.7, 1.15),
        pt(0.2, 1.55),
        pt(-1.4, 0.9),
        pt(-1.85, -0.5),
        pt(-0.8, -1.55),
        pt(0.8, -1.45),
        pt(1.3, -0.7),
        pt(0.5, -0.55),
        pt(-0.35, -0.5),
        pt(-0.6, 0.15),
        pt(0.2, 0.55),
        pt(1.5, 0.4),
    ];
    one.fill(Path::smooth(&body, true), tint, 1.0);
    for (a, b) in [
        ((-1.75, -0.1), (-0.62, -0.1)),
        ((-1.5, 0.8), (-0.4, 0.35)),
        ((-0.3, 1.5), (0.0, 0.55)),
        ((-1.2, -1.2), (-0.4, -0.55)),
    ] {
        one.draw(Path::line(&[pt(a.0, a.1), pt(b.0, b.1)]), FINE);
    }
    one.fill(
        Path::polygon(&[pt(1.5, 0.75), pt(2.6, 0.1), pt(2.35, 0.85), pt(2.7, 1.6)]),
        tint.dark(),
        0.9,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.6, 0.6)));
}

pub(super) fn squid_ring(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    disc(&mut one, pt(0.0, 0.0), (1.9, 1.1, 0.6), tint, tint.dark());
    one.fill(
        Path::ellipse(pt(0.0, 0.05), 0.85, 0.42),
        tint.dark().dark(),
        0.9,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.5, 0.5)));
}

pub(super) fn nigiri(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let rice = Rgb::hex(0xfa_f6ea);
    let base = [
        pt(-2.9, 0.5),
        pt(-2.3, -0.3),
        pt(2.3, -0.3),
        pt(2.9, 0.5),
        pt(2.4, 1.7),
        pt(-2.4, 1.7),
    ];
    one.fill(Path::smooth(&base, true), rice, 1.0);
    for _ in 0..6 {
        let (x, y) = (c.between(-2.2, 2.0), c.between(0.8, 1.4));
        arc(&mut one, &[pt(x, y), pt(x + 0.3, y + 0.1)], FINE);
    }
    let fish = [
        pt(-3.3, 0.7),
        pt(-2.6, -0.9),
        pt(0.0, -1.4),
        pt(2.6, -0.9),
        pt(3.3, 0.7),
        pt(1.6, 0.35),
        pt(-1.6, 0.35),
    ];
    one.fill(Path::smooth(&fish, true), tint, 1.0);
    for x in [-1.6, -0.4, 0.8, 1.9] {
        one.draw(Path::line(&[pt(x, 0.1), pt(x + 0.6, -0.95)]), FINE);
    }
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.12, 0.12)));
}

pub(super) fn maki(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let nori = Rgb::hex(0x2f_3b33);
    disc(s, pt(0.0, 0.0), (2.0, 1.3, 1.5), Rgb::hex(0xfa_f6ea), nori);
    s.marks[1].line = 2.2;
    s.fill(blob(pt(0.0, 0.0), 0.85, 0.5, (4, 0.08), c), tint, FINE);
    for (x, y) in [
        (-1.3, 0.2),
        (1.2, 0.3),
        (-0.6, -0.8),
        (0.7, -0.75),
        (0.1, 0.85),
    ] {
        s.draw(Path::line(&[pt(x, y), pt(x + 0.2, y + 0.06)]), FINE);
    }
}

pub(super) fn fried_egg(s: &mut Sketch, _: Rgb, c: &mut Chance) {
    s.fill(blob(pt(0.0, 0.3), 5.2, 3.3, (5, 0.07), c), WHITE, 1.0);
    let yolk = [
        pt(-1.9, 0.3),
        pt(-1.3, -1.0),
        pt(0.2, -1.4),
        pt(1.6, -0.9),
        pt(2.0, 0.3),
        pt(1.0, 0.95),
        pt(-0.9, 0.95),
    ];
    s.fill(Path::smooth(&yolk, true), YOLK, 1.0);
    arc(s, &[pt(-0.9, -0.2), pt(-0.3, -0.75), pt(0.5, -0.85)], FINE);
}

pub(super) fn boiled_egg(s: &mut Sketch, _: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let half = [
        pt(-2.8, 0.0),
        pt(-1.7, -1.4),
        pt(0.6, -1.7),
        pt(2.4, -0.9),
        pt(2.8, 0.2),
        pt(1.6, 1.4),
        pt(-0.8, 1.6),
        pt(-2.3, 1.0),
    ];
    let low = half.map(|p| pt(p.x * 0.97, p.y + 0.45));
    one.fill(Path::smooth(&low, true), WHITE.dark(), 0.9);
    one.fill(Path::smooth(&half, true), WHITE, 1.0);
    one.fill(Path::ellipse(pt(0.2, -0.05), 1.35, 0.9), YOLK, 0.9);
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.5, 0.5)));
}

pub(super) fn poached_egg(s: &mut Sketch, _: Rgb, c: &mut Chance) {
    s.fill(blob(pt(0.0, 0.2), 3.1, 2.0, (5, 0.05), c), WHITE, 1.0);
    let yolk = [
        pt(-1.3, 0.1),
        pt(-0.8, -0.9),
        pt(0.4, -1.1),
        pt(1.3, -0.4),
        pt(0.9, 0.55),
        pt(-0.5, 0.6),
    ];
    s.fill(Path::smooth(&yolk, true), YOLK.light(), 0.8);
    arc(s, &[pt(-2.2, 0.9), pt(0.0, 1.4), pt(2.1, 0.9)], FINE);
}

pub(super) fn scramble(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    lump(
        s,
        c.between(0.8, 1.4),
        c.between(0.55, 0.85),
        tint.light(),
        c,
    );
    arc(s, &[pt(-0.4, 0.0), pt(0.0, -0.25), pt(0.5, 0.0)], FINE);
}

pub(super) fn omelette(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let half = [
        pt(-6.6, 1.6),
        pt(-5.2, -0.8),
        pt(-2.4, -2.2),
        pt(1.2, -2.5),
        pt(4.6, -1.5),
        pt(6.6, 1.0),
        pt(5.4, 2.2),
        pt(0.0, 2.6),
        pt(-5.0, 2.4),
    ];
    s.fill(Path::smooth(&half, true), tint, 1.0);
    arc(
        s,
        &[pt(-6.0, 1.5), pt(-2.0, 1.75), pt(2.5, 1.7), pt(6.0, 1.0)],
        0.9,
    );
    for _ in 0..7 {
        let (x, y) = (c.between(-3.6, 3.2), c.between(-1.2, 0.6));
        arc(
            s,
            &[pt(x, y), pt(x + 0.5, y - 0.15), pt(x + 0.9, y + 0.05)],
            FINE,
        );
    }
}

pub(super) fn cube(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    cube_of(&mut one, 1.25, tint);
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.25, 0.25)));
}
