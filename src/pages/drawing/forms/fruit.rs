//! Fruit, pulses and nuts. Sizes in cm.

use super::solids::{arc, ball, disc};
use crate::pages::drawing::sketch::{Chance, FINE, Path, Put, Rgb, Sketch, blob, pt};
use std::f64::consts::TAU;

pub(super) fn strawberry(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    one.fill(
        Path::smooth(
            &[
                pt(-1.35, -0.7),
                pt(0.0, -1.15),
                pt(1.35, -0.7),
                pt(0.95, 0.7),
                pt(0.0, 1.6),
                pt(-0.95, 0.7),
            ],
            true,
        ),
        tint,
        1.0,
    );
    for (x, y) in [
        (-0.5, -0.1),
        (0.5, -0.1),
        (0.0, 0.5),
        (-0.3, 0.95),
        (0.35, 0.9),
        (0.0, -0.45),
    ] {
        one.draw(Path::line(&[pt(x, y), pt(x + 0.05, y + 0.16)]), FINE);
    }
    one.fill(
        Path::polygon(&[
            pt(-0.9, -0.95),
            pt(-0.25, -0.75),
            pt(0.0, -1.5),
            pt(0.25, -0.75),
            pt(0.9, -0.95),
            pt(0.0, -0.5),
        ]),
        Rgb::hex(0x6f_9a4a),
        0.8,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.9, 0.9)));
}

pub(super) fn berry(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    s.fill(Path::ellipse(pt(0.0, 0.0), 0.72, 0.68), tint, 0.9);
    let a = c.turn();
    s.draw(
        Path::ellipse(pt(0.2 * a.cos(), 0.2 * a.sin()), 0.24, 0.2),
        FINE,
    );
}

pub(super) fn banana(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    disc(s, pt(0.0, 0.0), (1.6, 1.05, 0.55), tint.light(), tint);
    for i in 0..3 {
        let a = TAU * f64::from(i) / 3.0 + 0.5;
        s.draw(
            Path::line(&[pt(0.0, 0.0), pt(0.5 * a.cos(), 0.32 * a.sin())]),
            FINE,
        );
    }
}

pub(super) fn fruit_chunk(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    super::solids::cube_of(&mut one, 1.05, tint);
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.6, 0.6)));
}

pub(super) fn citrus(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    one.fill(
        Path::smooth(
            &[
                pt(-2.2, -0.4),
                pt(-1.3, 0.9),
                pt(0.0, 1.3),
                pt(1.3, 0.9),
                pt(2.2, -0.4),
                pt(0.0, -0.55),
            ],
            true,
        ),
        tint,
        1.0,
    );
    for x in [-1.1, 0.0, 1.1] {
        one.draw(
            Path::line(&[pt(0.0, -0.4), pt(x, 0.85 - x.abs() * 0.2)]),
            FINE,
        );
    }
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.5, 0.5)));
}

pub(super) fn whole_fruit(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    ball(s, 3.6, tint);
    arc(s, &[pt(0.0, -3.0), pt(0.2, -3.8), pt(0.8, -4.3)], 1.0);
    s.fill(
        Path::smooth(
            &[pt(0.3, -3.7), pt(1.4, -4.3), pt(2.2, -3.6), pt(1.2, -3.2)],
            true,
        ),
        Rgb::hex(0x6f_9a4a),
        0.8,
    );
}

pub(super) fn nut(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    one.fill(blob(pt(0.0, 0.0), 0.85, 0.6, (4, 0.09), c), tint, 0.9);
    arc(
        &mut one,
        &[pt(-0.5, 0.0), pt(0.0, -0.14), pt(0.5, 0.05)],
        FINE,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn bean(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let body = [
        pt(-0.85, 0.1),
        pt(-0.55, -0.5),
        pt(0.3, -0.52),
        pt(0.85, -0.05),
        pt(0.55, 0.5),
        pt(0.05, 0.3),
        pt(-0.45, 0.48),
    ];
    one.fill(Path::smooth(&body, true), tint, 0.9);
    arc(
        &mut one,
        &[pt(-0.4, -0.15), pt(-0.1, -0.3), pt(0.25, -0.28)],
        FINE,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn pea(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    s.fill(Path::ellipse(pt(0.0, 0.0), 0.56, 0.54), tint, 0.9);
    arc(s, &[pt(-0.28, -0.1), pt(-0.1, -0.3), pt(0.1, -0.3)], FINE);
}

pub(super) fn chickpea(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    one.fill(
        Path::smooth(
            &[
                pt(-0.7, 0.1),
                pt(-0.35, -0.55),
                pt(0.4, -0.5),
                pt(0.85, 0.0),
                pt(0.4, 0.55),
                pt(-0.35, 0.6),
            ],
            true,
        ),
        tint,
        0.9,
    );
    one.draw(Path::line(&[pt(0.05, 0.3), pt(0.4, 0.0)]), FINE);
    s.put(&one, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn lentil(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    s.fill(
        Path::ellipse(pt(0.0, 0.0), 0.45, 0.32),
        if c.part() < 0.5 { tint } else { tint.light() },
        FINE,
    );
}

pub(super) fn kernel(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    one.fill(
        Path::smooth(
            &[
                pt(0.0, -0.6),
                pt(0.5, 0.1),
                pt(0.35, 0.55),
                pt(-0.35, 0.55),
                pt(-0.5, 0.1),
            ],
            true,
        ),
        tint,
        0.9,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.turn()));
}

pub(super) fn olive(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    one.fill(Path::ellipse(pt(0.0, 0.0), 1.1, 0.82), tint, 0.9);
    one.fill(Path::ellipse(pt(0.35, 0.0), 0.36, 0.3), tint.light(), FINE);
    s.put(&one, Put::at(0.0, 0.0).turned(c.turn()));
}
