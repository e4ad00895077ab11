//! Plates, bowls, little dishes, glasses, and the fork that gives the scale.

use super::body::{Body, area, covered, point_beside, strew, to_area};
use super::picture::Patch;
use super::sketch::{FINE, Path, Put, Rgb, Sketch, Step, pt};
use super::view::FLAT;
use std::f64::consts::PI;

/// China, and its shaded parts.
pub(crate) const CHINA: Rgb = Rgb::hex(0xfb_fa_f6);
const SHADE: Rgb = Rgb::hex(0xea_e7_df);

/// Height over width of a bowl's opening: bowls are seen more from the side.
const OPENING: f64 = 0.46;

/// Length of a dinner fork in cm (common practice: 18 to 20).
pub(crate) const FORK_CM: f64 = 19.0;

/// Part of a bowl's surface that toppings take before all foods share it: on a liquid, and on
/// anything else.
const FLOATS_UP_TO: (f64, f64) = (0.64, 0.4);

/// A plate about the origin.
pub(crate) fn plate(diameter_cm: f64) -> Body {
    let (rx, ry) = (diameter_cm / 2.0, diameter_cm / 2.0 * FLAT);
    let mut s = Sketch::default();
    s.fill(
        Path::ellipse(pt(0.0, diameter_cm * 0.016), rx, ry),
        SHADE,
        1.0,
    );
    s.fill(Path::ellipse(pt(0.0, 0.0), rx, ry), CHINA, 1.0);
    s.draw(
        Path::ellipse(pt(0.0, diameter_cm * 0.006), rx * 0.78, ry * 0.76),
        FINE,
    );
    let mut body = Body::default();
    body.push(None, s);
    body
}

/// A bowl whose surface its foods cover, each with its part of it.
pub(crate) fn bowl(list: &[usize], foods: &[Patch]) -> Body {
    let whole: f64 = list.iter().map(|i| area(&foods[*i])).sum();
    let ry = (whole / PI * OPENING).sqrt();
    let rx = ry / OPENING;
    let mut body = Body::default();
    body.push(None, bowl_outside(rx * 1.07, ry * 1.07));
    let most = list
        .iter()
        .copied()
        .max_by(|a, b| area(&foods[*a]).total_cmp(&area(&foods[*b])));
    let Some(base) = most else { return body };
    // Milk round porridge, sauce round rice: a ring about a heap that is more than it.
    let runs = |i: &usize| foods[*i].look.form.runs();
    let round = list.iter().copied().find(|i| !runs(&base) && runs(i));
    let rest: Vec<usize> = list
        .iter()
        .copied()
        .filter(|i| *i != base && Some(*i) != round)
        .collect();
    let above: f64 = rest.iter().map(|i| area(&foods[*i])).sum();
    let most = if foods[base].look.form.runs() {
        FLOATS_UP_TO.0
    } else {
        FLOATS_UP_TO.1
    };
    if above / whole > most {
        body.put(covered(list, foods, (rx, ry)), Put::at(0.0, 0.0));
        return body;
    }
    let mut inner = Body::default();
    let ring = |part: f64| -> Vec<_> {
        let turns = (0..36).map(|i| (PI * f64::from(i) / 18.0).sin_cos());
        turns
            .map(|(sin, cos)| pt(rx * part * cos, ry * part * sin))
            .collect()
    };
    let part = round.map_or(1.0, |i| (1.0 - area(&foods[i]) / whole).sqrt());
    if let Some(liquid) = round {
        let at = pt(0.0, ry * f64::midpoint(1.0, part));
        inner.push_at(liquid, foods[liquid].look.within(&ring(1.0)), at);
    }
    inner.push(Some(base), foods[base].look.within(&ring(part)));
    let floats = rest.iter().map(|i| {
        let patch = area(&foods[*i]);
        let half = (patch / PI * 0.55).sqrt();
        let spot: Vec<_> = (0..14)
            .map(|k| {
                let (sin, cos) = (PI * f64::from(k) / 7.0).sin_cos();
                pt(half / 0.55 * cos, half * sin)
            })
            .collect();
        let mut one = Body::default();
        let drawn = if matches!(foods[*i].look.form.lies(), super::forms::Lies::Heap(_)) {
            foods[*i].look.within(&spot)
        } else {
            foods[*i].look.alone(foods[*i].volume_ml.likely)
        };
        one.push(Some(*i), to_area(&drawn, patch));
        one.centred(pt(0.0, 0.0))
    });
    let floats = floats.collect();
    strew(&mut inner, floats, (rx * 0.9, ry * 0.86), pt(0.0, 0.0));
    point_beside(&mut inner);
    body.put(inner, Put::at(0.0, 0.0));
    body
}

/// The outside of a bowl, its opening about the origin.
fn bowl_outside(rx: f64, ry: f64) -> Sketch {
    let mut s = Sketch::default();
    let (deep, foot) = (rx * 0.72, rx * 0.42);
    let path = Path {
        start: pt(-rx, 0.0),
        steps: vec![
            Step::Curve(
                pt(-rx * 0.96, deep * 0.62),
                pt(-foot * 1.35, deep * 0.98),
                pt(-foot, deep),
            ),
            Step::Curve(
                pt(-foot * 0.5, deep * 1.1),
                pt(foot * 0.5, deep * 1.1),
                pt(foot, deep),
            ),
            Step::Curve(
                pt(foot * 1.35, deep * 0.98),
                pt(rx * 0.96, deep * 0.62),
                pt(rx, 0.0),
            ),
        ],
        closed: true,
    };
    s.fill(path, CHINA, 1.0);
    s.draw(
        Path::smooth(
            &[
                pt(-rx * 0.72, deep * 0.52),
                pt(-rx * 0.55, deep * 0.76),
                pt(-rx * 0.36, deep * 0.9),
            ],
            false,
        ),
        FINE,
    );
    s.fill(Path::ellipse(pt(0.0, 0.0), rx, ry), SHADE, 1.0);
    s
}

/// A little dish of sauce.
pub(crate) fn ramekin(index: usize, food: &Patch) -> Body {
    let ry = (area(food) / PI * 0.5).sqrt();
    let rx = ry / 0.5;
    let mut s = Sketch::default();
    let (r, high) = (rx * 1.12, rx * 0.75);
    let path = Path {
        start: pt(-r, 0.0),
        steps: vec![
            Step::Line(pt(-r * 0.86, high)),
            Step::Curve(
                pt(-r * 0.5, high * 1.28),
                pt(r * 0.5, high * 1.28),
                pt(r * 0.86, high),
            ),
            Step::Line(pt(r, 0.0)),
        ],
        closed: true,
    };
    s.fill(path, CHINA, 1.0);
    for i in -2..=2 {
        let x = f64::from(i) * r * 0.34;
        s.draw(
            Path::line(&[pt(x, ry * 1.35), pt(x * 0.9, high * 1.02)]),
            FINE,
        );
    }
    s.fill(Path::ellipse(pt(0.0, 0.0), r, ry * 1.12), SHADE, 1.0);
    let mut body = Body::default();
    body.push(None, s);
    let ring: Vec<_> = (0..24)
        .map(|i| {
            let (sin, cos) = (PI * f64::from(i) / 12.0).sin_cos();
            pt(rx * cos, ry * sin)
        })
        .collect();
    body.push(Some(index), food.look.within(&ring));
    body
}

/// A fork lying across, its middle at the origin.
pub(crate) fn fork() -> Sketch {
    let steel = Rgb::hex(0xf0_ef_eb);
    let h = FORK_CM / 2.0;
    let mut s = Sketch::default();
    let handle = [
        pt(h, -0.55),
        pt(h, 0.55),
        pt(3.0, 0.32),
        pt(-3.6, 0.3),
        pt(-4.8, 0.95),
        pt(-5.6, 1.1),
        pt(-5.6, -1.1),
        pt(-4.8, -0.95),
        pt(-3.6, -0.3),
        pt(3.0, -0.32),
    ];
    s.fill(Path::smooth(&handle, true), steel, 0.9);
    for y in [-0.93, -0.31, 0.31, 0.93] {
        s.fill(
            Path::polygon(&[
                pt(-5.4, y - 0.16),
                pt(-h, y - 0.08),
                pt(-h, y + 0.08),
                pt(-5.4, y + 0.16),
            ]),
            steel,
            0.9,
        );
    }
    s
}
