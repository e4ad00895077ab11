//! Burgers and sandwiches seen from the side: every layer as thick as its volume.

use super::body::{Body, area, total};
use super::picture::{Patch, StackSort};
use super::sketch::{FINE, Path, Put, Rgb, Sketch, pt};

/// How a sort of stack is built.
struct Build {
    /// Height over width of the whole.
    shape: f64,
    /// Part of the bread in the upper half, seen from the side.
    lid: f64,
    /// Part of the bread in the face of the upper half, where it leans back.
    face: f64,
}

/// Common practice at the table.
const fn build(sort: StackSort) -> Build {
    let (shape, lid, face) = match sort {
        StackSort::Bun => (0.8, 0.6, 0.0),
        StackSort::Slices => (0.66, 0.25, 0.5),
        StackSort::Long => (0.42, 0.6, 0.0),
        StackSort::Open => (0.45, 0.0, 0.0),
    };
    Build { shape, lid, face }
}

/// Layers between the two halves of a holder.
pub(crate) fn stack(sort: StackSort, holder: usize, layers: &[usize], foods: &[Patch]) -> Body {
    let bread = area(&foods[holder]);
    let build = build(sort);
    let wide = ((bread + total(layers, foods)) / build.shape).sqrt();
    let tint = foods[holder].look.tint;
    let foot = bread * (1.0 - build.lid - build.face) / wide;
    let mut halves = Sketch::default();
    let lower = base_half(sort, wide, foot, tint);
    halves.put(&lower, Put::at(0.0, -foot / 2.0));
    let (drawn, top) = piled(layers, foods, wide, -foot);
    let edge = bread * build.lid / wide;
    match sort {
        StackSort::Slices => {
            let lid = slice_lid(wide, edge, bread * build.face / wide, tint);
            halves.put(&lid, Put::at(0.0, top));
        }
        StackSort::Bun | StackSort::Long => {
            halves.put(
                &dome(sort, wide, bread * build.lid, tint),
                Put::at(0.0, top),
            );
        }
        StackSort::Open => {}
    }
    let (_, highest, _, _) = halves.bounds();
    let mut body = Body::default();
    body.push_at(
        holder,
        halves,
        if sort == StackSort::Open {
            pt(0.0, -foot / 2.0)
        } else {
            pt(-wide * 0.16, highest * 0.55 + top * 0.45)
        },
    );
    for (i, (index, layer, middle)) in drawn.into_iter().enumerate() {
        // Layers are thin: labels go to both sides by turns.
        let side = if i % 2 == 0 { 0.38 } else { -0.38 };
        body.push_at(index, layer, pt(wide * side, middle));
    }
    body
}

/// Layers one on the other from a height upwards: each with its middle; and where they end.
fn piled(
    layers: &[usize],
    foods: &[Patch],
    wide: f64,
    from: f64,
) -> (Vec<(usize, Sketch, f64)>, f64) {
    let mut y = from;
    let mut drawn = Vec::new();
    for index in layers {
        let thick = area(&foods[*index]) / wide;
        let middle = y - thick / 2.0;
        let mut layer = Sketch::default();
        layer.put(&foods[*index].look.layer(wide, thick), Put::at(0.0, middle));
        drawn.push((*index, layer, middle));
        y -= thick;
    }
    // Thin ones last: the edges of thick ones would hide them.
    drawn.sort_by(|a, b| area(&foods[b.0]).total_cmp(&area(&foods[a.0])));
    (drawn, y)
}

fn base_half(sort: StackSort, wide: f64, thick: f64, tint: Rgb) -> Sketch {
    let (w, t) = (wide / 2.0, thick / 2.0);
    let mut s = Sketch::default();
    if sort == StackSort::Slices {
        s.fill(
            Path::polygon(&[pt(-w, -t), pt(w, -t), pt(w, t), pt(-w, t)]),
            tint,
            1.0,
        );
        s.draw(Path::line(&[pt(-w, t * 0.5), pt(w, t * 0.5)]), FINE);
        return s;
    }
    let cut = w.min(thick);
    let path = [
        pt(-w, -t),
        pt(0.0, -t),
        pt(w, -t),
        pt(w - cut * 0.15, t * 0.55),
        pt(w - cut * 0.6, t),
        pt(0.0, t),
        pt(-w + cut * 0.6, t),
        pt(-w + cut * 0.15, t * 0.55),
    ];
    s.fill(Path::polygon(&path), tint, 1.0);
    s
}

fn dome(sort: StackSort, wide: f64, area: f64, tint: Rgb) -> Sketch {
    let w = wide / 2.0;
    let shape = |h: f64| {
        [
            pt(-w, 0.0),
            pt(-w * 0.985, -h * 0.42),
            pt(-w * 0.8, -h * 0.8),
            pt(-w * 0.42, -h * 0.98),
            pt(0.0, -h * 1.02),
            pt(w * 0.42, -h * 0.98),
            pt(w * 0.8, -h * 0.8),
            pt(w * 0.985, -h * 0.42),
            pt(w, 0.0),
            pt(0.0, 0.0),
        ]
    };
    let full = area / (wide * 0.86);
    let mut s = Sketch::default();
    s.fill(Path::smooth(&shape(full), true), tint, 1.0);
    match sort {
        StackSort::Long => {
            for i in -2..=2 {
                let x = f64::from(i) * wide * 0.17;
                s.draw(
                    Path::smooth(
                        &[
                            pt(x - wide * 0.03, -full * 0.35),
                            pt(x, -full * 0.6),
                            pt(x + wide * 0.05, -full * 0.78),
                        ],
                        false,
                    ),
                    FINE,
                );
            }
        }
        _ => {
            // Seeds.
            for (fx, fy) in [
                (-0.5, 0.55),
                (-0.25, 0.78),
                (0.0, 0.6),
                (0.27, 0.8),
                (0.52, 0.56),
                (0.12, 0.36),
                (-0.33, 0.38),
            ] {
                s.fill(
                    Path::ellipse(pt(fx * w, -fy * full), 0.26, 0.15),
                    tint.light().light(),
                    FINE,
                );
            }
        }
    }
    s
}

/// The upper slice: its edge, and its face leaning back.
fn slice_lid(wide: f64, edge: f64, face: f64, tint: Rgb) -> Sketch {
    let w = wide / 2.0;
    let crust = Rgb::hex(0xb9_7b3f);
    let mut s = Sketch::default();
    let back = w * 0.82;
    let high = face * wide / (wide * 0.91);
    s.fill(
        Path::polygon(&[
            pt(-w, -edge),
            pt(w, -edge),
            pt(back, -edge - high),
            pt(-back, -edge - high),
        ]),
        tint.light(),
        1.0,
    );
    let inset = 0.93;
    s.draw(
        Path::polygon(&[
            pt(-w * inset, -edge - high * 0.1),
            pt(w * inset, -edge - high * 0.1),
            pt(back * inset, -edge - high * 0.9),
            pt(-back * inset, -edge - high * 0.9),
        ]),
        FINE,
    );
    for i in 0..5 {
        let x = -w * 0.6 + f64::from(i) * w * 0.3;
        s.draw(
            Path::line(&[
                pt(x, -edge - high * (0.35 + 0.3 * f64::from(i % 2))),
                pt(x + 0.4, -edge - high * (0.33 + 0.3 * f64::from(i % 2))),
            ]),
            FINE,
        );
    }
    s.fill(
        Path::polygon(&[pt(-w, 0.0), pt(w, 0.0), pt(w, -edge), pt(-w, -edge)]),
        crust.light(),
        1.0,
    );
    s
}
