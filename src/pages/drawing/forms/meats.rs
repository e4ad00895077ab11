//! Meat and poultry. Sizes in cm.

use super::solids::{arc, ball, bent, disc, lump};
use crate::pages::drawing::geometry::Point;
use crate::pages::drawing::sketch::{Chance, FINE, Path, Put, Rgb, Sketch, inside, pt};

const BONE: Rgb = Rgb::hex(0xf4_ecd8);
const CHAR: Rgb = Rgb::hex(0x5b_3a26);

/// Bars of a grill across a shape: only where both ends lie in it.
fn grilled(s: &mut Sketch, outline: &Path, slope: f64) {
    let polygon = outline.flat();
    for i in -6..=6 {
        let x = f64::from(i) * 1.5;
        let steps: Vec<Point> = (0..=40)
            .map(|k| {
                let t = f64::from(k) / 40.0 * 8.0 - 4.0;
                pt(x + t * slope, t)
            })
            .filter(|p| {
                let near = |dx: f64, dy: f64| inside(&polygon, pt(p.x + dx, p.y + dy));
                near(0.35, 0.0) && near(-0.35, 0.0) && near(0.0, 0.35) && near(0.0, -0.35)
            })
            .collect();
        if let (Some(a), Some(b)) = (steps.first(), steps.last())
            && steps.len() > 4
        {
            let bar = [
                pt(a.x - 0.16, a.y),
                pt(a.x + 0.16, a.y),
                pt(b.x + 0.16, b.y),
                pt(b.x - 0.16, b.y),
            ];
            s.fill(Path::polygon(&bar), CHAR, 0.0);
        }
    }
}

pub(super) fn raised(s: &mut Sketch, outline: &[Point], high: f64, top: Rgb, side: Rgb) -> Path {
    let low: Vec<Point> = outline.iter().map(|p| pt(p.x, p.y + high)).collect();
    s.fill(Path::smooth(&low, true), side, 1.0);
    let path = Path::smooth(outline, true);
    s.fill(path.clone(), top, 1.0);
    path
}

pub(super) fn crumbs(s: &mut Sketch, c: &mut Chance, rx: f64, ry: f64, count: usize) {
    for _ in 0..count {
        let (a, r) = (c.turn(), c.part().sqrt());
        let (x, y) = (rx * r * a.cos(), ry * r * a.sin());
        arc(
            s,
            &[pt(x - 0.2, y), pt(x, y - 0.18), pt(x + 0.22, y + 0.02)],
            FINE,
        );
    }
}

pub(super) fn steak(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    let outline = [
        pt(-6.4, 0.8),
        pt(-5.6, -2.0),
        pt(-2.0, -3.3),
        pt(2.2, -2.7),
        pt(5.8, -1.9),
        pt(6.8, 0.6),
        pt(4.8, 2.4),
        pt(1.0, 2.1),
        pt(-2.6, 2.9),
    ];
    let path = raised(s, &outline, 1.5, tint, tint.dark());
    let fat = [pt(-5.9, 0.5), pt(-5.1, -1.8), pt(-1.9, -2.9), pt(2.2, -2.3)];
    s.draw(Path::smooth(&fat, false), FINE);
    grilled(s, &path, 0.45);
}

pub(super) fn chop(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    let bone = [
        pt(2.4, -1.4),
        pt(6.6, -2.7),
        pt(7.4, -2.0),
        pt(6.9, -1.3),
        pt(3.0, 0.3),
    ];
    s.fill(Path::smooth(&bone, true), BONE, 1.0);
    let outline = [
        pt(-5.4, 0.6),
        pt(-4.2, -2.2),
        pt(-0.6, -3.0),
        pt(2.8, -2.0),
        pt(3.9, 0.3),
        pt(2.0, 2.3),
        pt(-2.2, 2.6),
    ];
    let path = raised(s, &outline, 1.3, tint, tint.dark());
    grilled(s, &path, 0.45);
}

pub(super) fn breast(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    let outline = [
        pt(-6.2, 0.9),
        pt(-5.0, -1.7),
        pt(-1.4, -2.8),
        pt(2.8, -1.9),
        pt(6.6, 0.2),
        pt(3.2, 1.6),
        pt(-1.6, 2.4),
        pt(-4.8, 2.2),
    ];
    let path = raised(s, &outline, 1.2, tint, tint.dark());
    grilled(s, &path, 0.5);
}

pub(super) fn strips(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    // Sliced meat: the pale cut face below a browned edge, its grain along it.
    let mut one = Sketch::default();
    let outline = [
        pt(-2.6, 0.25),
        pt(-1.9, -0.75),
        pt(0.6, -0.95),
        pt(2.3, -0.6),
        pt(2.5, 0.2),
        pt(1.0, 0.7),
        pt(-1.4, 0.75),
    ];
    raised(&mut one, &outline, 0.25, tint.light(), tint.dark());
    let browned = [
        pt(-2.5, 0.1),
        pt(-1.9, -0.75),
        pt(0.6, -0.95),
        pt(2.3, -0.6),
        pt(2.4, -0.15),
        pt(0.5, -0.5),
        pt(-1.7, -0.3),
    ];
    one.fill(Path::smooth(&browned, true), tint.dark(), FINE);
    for y in [0.0, 0.38] {
        arc(
            &mut one,
            &[pt(-1.5, y), pt(0.2, y - 0.1), pt(1.7, y - 0.05)],
            FINE,
        );
    }
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.5, 0.3)));
}

pub(super) fn chunk(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let outline = [
        pt(-1.3, 0.3),
        pt(-0.9, -0.8),
        pt(0.3, -1.0),
        pt(1.3, -0.4),
        pt(1.1, 0.6),
        pt(-0.1, 0.9),
    ];
    raised(&mut one, &outline, 0.35, tint, tint.dark());
    arc(
        &mut one,
        &[pt(-0.6, -0.2), pt(0.0, -0.45), pt(0.6, -0.2)],
        FINE,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.8, 0.8)));
}

pub(super) fn folded(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    // A folded slice of cold meat or smoked fish.
    let mut one = Sketch::default();
    let outline = [
        pt(-2.8, 0.7),
        pt(-2.0, -0.6),
        pt(0.0, -1.1),
        pt(2.2, -0.7),
        pt(2.8, 0.5),
        pt(1.2, 0.9),
        pt(0.0, 0.5),
        pt(-1.4, 1.0),
    ];
    one.fill(Path::smooth(&outline, true), tint, 1.0);
    arc(
        &mut one,
        &[pt(-1.8, 0.2), pt(0.0, -0.4), pt(2.0, 0.1)],
        FINE,
    );
    arc(
        &mut one,
        &[pt(-1.2, -0.3), pt(0.2, -0.75), pt(1.6, -0.4)],
        FINE,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.3, 0.3)));
}

pub(super) fn drumstick(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let bone = [
        pt(2.0, -0.35),
        pt(4.6, -0.6),
        pt(5.1, -0.9),
        pt(5.5, -0.4),
        pt(5.2, 0.0),
        pt(5.5, 0.4),
        pt(5.0, 0.8),
        pt(4.6, 0.4),
        pt(2.0, 0.4),
    ];
    one.fill(Path::smooth(&bone, true), BONE, 1.0);
    let body = [
        pt(-4.0, 0.2),
        pt(-3.2, -1.7),
        pt(-0.8, -2.1),
        pt(1.6, -1.1),
        pt(3.0, -0.4),
        pt(3.0, 0.4),
        pt(1.4, 1.3),
        pt(-1.0, 2.0),
        pt(-3.3, 1.6),
    ];
    one.fill(Path::smooth(&body, true), tint, 1.0);
    arc(
        &mut one,
        &[pt(-2.9, -0.4), pt(-1.9, -1.2), pt(-0.5, -1.4)],
        FINE,
    );
    arc(&mut one, &[pt(-1.6, 1.1), pt(0.0, 1.0), pt(1.2, 0.5)], FINE);
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.5, 0.2)));
}

pub(super) fn wing(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let body = [
        pt(-3.2, 0.9),
        pt(-2.6, -0.7),
        pt(-0.7, -1.0),
        pt(0.5, -0.2),
        pt(1.9, -1.2),
        pt(3.3, -0.8),
        pt(3.1, 0.4),
        pt(1.4, 0.9),
        pt(0.2, 1.1),
        pt(-1.6, 1.5),
    ];
    one.fill(Path::smooth(&body, true), tint, 1.0);
    one.fill(Path::ellipse(pt(3.15, -0.75), 0.42, 0.35), BONE, 0.9);
    arc(
        &mut one,
        &[pt(-2.3, 0.3), pt(-1.3, -0.3), pt(-0.4, 0.0)],
        FINE,
    );
    arc(
        &mut one,
        &[pt(0.9, 0.2), pt(1.8, -0.4), pt(2.5, -0.4)],
        FINE,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.7, 0.7)));
}

pub(super) fn meatball(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    ball(s, 1.9, tint);
    for _ in 0..5 {
        let (a, r) = (c.turn(), c.between(0.3, 1.3));
        let (x, y) = (r * a.cos(), r * a.sin());
        arc(s, &[pt(x, y), pt(x + 0.3, y + 0.14)], FINE);
    }
}

pub(super) fn patty(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    disc(s, pt(0.0, 0.0), (5.0, 2.8, 1.7), tint, tint.dark());
    crumbs(s, c, 4.0, 2.0, 14);
}

pub(super) fn meatloaf(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    // A thick slice with a rounded top.
    let outline = [
        pt(-4.6, 2.2),
        pt(-4.8, -0.6),
        pt(-3.2, -2.4),
        pt(0.0, -2.9),
        pt(3.2, -2.4),
        pt(4.8, -0.6),
        pt(4.6, 2.2),
    ];
    let back: Vec<Point> = outline.iter().map(|p| pt(p.x + 1.3, p.y - 0.8)).collect();
    s.fill(Path::smooth(&back, true), tint.dark(), 1.0);
    s.fill(Path::smooth(&outline, true), tint, 1.0);
    crumbs(s, c, 3.6, 1.9, 16);
}

pub(super) fn ground(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    lump(
        s,
        c.between(0.4, 0.8),
        c.between(0.3, 0.5),
        if c.part() < 0.4 {
            tint.dark()
        } else {
            tint.light()
        },
        c,
    );
}

pub(super) fn pulled(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let w = c.between(0.9, 1.7);
    let points = [
        pt(-w, 0.15),
        pt(0.0, -0.35),
        pt(w, 0.1),
        pt(w * 0.8, 0.35),
        pt(0.0, 0.1),
        pt(-w * 0.8, 0.45),
    ];
    one.fill(
        Path::smooth(&points, true),
        if c.part() < 0.4 { tint.light() } else { tint },
        FINE,
    );
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.7, 0.7)));
}

pub(super) fn bacon(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    let wave = |x: f64, y: f64| pt(x, y + 0.35 * (x * 1.25).sin());
    let mut points = Vec::new();
    for i in 0..=12 {
        points.push(wave(-6.0 + f64::from(i), -0.8));
    }
    for i in (0..=12).rev() {
        points.push(wave(-6.0 + f64::from(i), 0.8));
    }
    one.fill(Path::smooth(&points, true), tint, 1.0);
    let stripe: Vec<Point> = (0..=12)
        .map(|i| wave(-5.7 + f64::from(i) * 0.95, -0.05))
        .collect();
    let mut band = stripe.clone();
    band.extend(stripe.iter().rev().map(|p| pt(p.x, p.y + 0.4)));
    one.fill(Path::smooth(&band, true), Rgb::hex(0xf1_d6b4), FINE);
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.08, 0.08)));
}

pub(super) fn sausage(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    bent(&mut one, 9.0, 2.4, -0.7, tint);
    arc(
        &mut one,
        &[pt(-3.4, -0.75), pt(0.0, -1.4), pt(3.4, -0.75)],
        FINE,
    );
    for x in [-2.2, 0.0, 2.2] {
        one.draw(Path::line(&[pt(x - 0.3, 0.1), pt(x + 0.4, -0.75)]), 0.8);
    }
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.15, 0.15)));
}

pub(super) fn sausage_rounds(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    disc(s, pt(0.0, 0.0), (1.7, 1.0, 0.6), tint, tint.dark());
    crumbs(s, c, 1.1, 0.6, 4);
}

pub(super) fn rib(s: &mut Sketch, tint: Rgb, _: &mut Chance) {
    // A rack: bones stand out at the end nearest the reader.
    for i in 0..5 {
        let x = -4.8 + f64::from(i) * 2.4;
        s.fill(
            Path::smooth(
                &[
                    pt(x - 0.5, 1.5),
                    pt(x - 0.5, 3.6),
                    pt(x, 3.95),
                    pt(x + 0.5, 3.6),
                    pt(x + 0.5, 1.5),
                ],
                true,
            ),
            BONE,
            1.0,
        );
    }
    let mut outline = Vec::new();
    for i in 0..=10 {
        let x = -6.2 + f64::from(i) * 1.24;
        outline.push(pt(x, -2.4 + if i % 2 == 0 { 0.25 } else { -0.1 }));
    }
    for i in (0..=10).rev() {
        let x = -6.2 + f64::from(i) * 1.24;
        outline.push(pt(x, 2.1 + if i % 2 == 0 { -0.25 } else { 0.35 }));
    }
    s.fill(Path::smooth(&outline, true), tint, 1.0);
    for i in 0..4 {
        let x = -3.6 + f64::from(i) * 2.4;
        arc(s, &[pt(x, -1.7), pt(x + 0.25, 0.0), pt(x, 1.5)], 0.8);
    }
}

pub(super) fn kebab(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    let mut one = Sketch::default();
    one.fill(
        Path::polygon(&[pt(-7.0, -0.08), pt(7.2, -0.08), pt(7.2, 0.1), pt(-7.0, 0.1)]),
        Rgb::hex(0xd9_c49a),
        0.9,
    );
    for i in 0..4 {
        let mut piece = Sketch::default();
        lump(&mut piece, 1.35, 1.2, tint, c);
        arc(
            &mut piece,
            &[pt(-0.6, -0.4), pt(0.0, -0.6), pt(0.6, -0.4)],
            FINE,
        );
        one.put(&piece, Put::at(-4.0 + f64::from(i) * 2.6, 0.0));
    }
    s.put(&one, Put::at(0.0, 0.0).turned(c.between(-0.12, 0.05)));
}

pub(super) fn roast(s: &mut Sketch, tint: Rgb, c: &mut Chance) {
    // A leg and thigh in one.
    let bone = [
        pt(3.2, -1.4),
        pt(6.2, -2.7),
        pt(6.6, -3.2),
        pt(7.1, -2.8),
        pt(6.9, -2.3),
        pt(7.2, -1.9),
        pt(6.6, -1.6),
        pt(3.6, -0.5),
    ];
    s.fill(Path::smooth(&bone, true), BONE, 1.0);
    let body = [
        pt(-6.0, 1.3),
        pt(-5.4, -1.2),
        pt(-3.0, -2.6),
        pt(-0.2, -2.2),
        pt(1.8, -2.6),
        pt(4.3, -1.7),
        pt(3.9, -0.1),
        pt(1.6, 1.2),
        pt(-0.6, 2.6),
        pt(-4.2, 2.7),
    ];
    s.fill(Path::smooth(&body, true), tint, 1.0);
    arc(s, &[pt(-4.4, -0.6), pt(-3.0, -1.7), pt(-1.4, -1.5)], FINE);
    arc(s, &[pt(-0.4, 0.9), pt(0.4, -0.4), pt(2.4, -1.2)], 0.8);
    crumbs(s, c, 3.0, 1.4, 7);
}
