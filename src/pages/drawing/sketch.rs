//! What drawings are made of: filled and drawn paths, put together, turned and scaled.
//!
//! Lengths are in cm as seen by the reader, x to the right, y down, as SVG has them.

use super::geometry::Point;

pub(crate) use super::chance::{Chance, blob};
pub(crate) use super::path::{Path, Short, Step, pt};

/// A natural colour of a food, or the ink of its lines.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Rgb(pub u8, pub u8, pub u8);

impl Rgb {
    /// From `0xRRGGBB`.
    #[must_use]
    pub(crate) const fn hex(rgb: u32) -> Self {
        Self((rgb >> 16) as u8, (rgb >> 8) as u8, rgb as u8)
    }

    /// Colours stirred together, each with how much there is of it.
    #[must_use]
    pub(crate) fn stirred(parts: impl Iterator<Item = (Self, f64)>) -> Option<Self> {
        let mut all = 0.0;
        parts.fold(None, |mixed: Option<Self>, (colour, much)| {
            all += much;
            Some(mixed.map_or(colour, |mixed| mixed.toward(colour, much / all)))
        })
    }

    /// Part of the way to another colour: 0 is this one, 1 the other.
    #[must_use]
    pub(crate) fn toward(self, other: Self, part: f64) -> Self {
        let mix = |a: u8, b: u8| {
            (f64::from(b) - f64::from(a))
                .mul_add(part, f64::from(a))
                .round() as u8
        };
        Self(
            mix(self.0, other.0),
            mix(self.1, other.1),
            mix(self.2, other.2),
        )
    }

    /// A lighter tone.
    #[must_use]
    pub(crate) fn light(self) -> Self {
        self.toward(Self(255, 252, 244), 0.42)
    }

    /// A darker tone.
    #[must_use]
    pub(crate) fn dark(self) -> Self {
        self.toward(Self(58, 38, 24), 0.3)
    }
}

/// Lines within foods.
pub(crate) const INK: Rgb = Rgb::hex(0x3d_3029);

/// One path with its fill and the weight of its line.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Mark {
    /// The path.
    pub path: Path,
    /// What it is filled with; `None` for a line alone.
    pub fill: Option<Rgb>,
    /// Weight of its line: 0 none, 1 an outline, less for inner lines.
    pub line: f64,
}

/// Paths, those behind first.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Sketch {
    /// The paths.
    pub marks: Vec<Mark>,
}

/// Weight of inner lines.
pub(crate) const FINE: f64 = 0.55;

/// How a sketch is put into another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Put {
    /// Where its origin goes.
    pub at: Point,
    /// Its size, across and down.
    pub size: (f64, f64),
    /// Turned by this angle, clockwise, before it is placed.
    pub turn: f64,
}

impl Put {
    /// Placed as it is.
    #[must_use]
    pub(crate) const fn at(x: f64, y: f64) -> Self {
        Self {
            at: pt(x, y),
            size: (1.0, 1.0),
            turn: 0.0,
        }
    }

    /// Larger or smaller.
    #[must_use]
    pub(crate) const fn sized(self, size: f64) -> Self {
        Self {
            size: (size, size),
            ..self
        }
    }

    /// Turned.
    #[must_use]
    pub(crate) const fn turned(self, turn: f64) -> Self {
        Self { turn, ..self }
    }

    fn map(self, p: Point) -> Point {
        let (sin, cos) = self.turn.sin_cos();
        let (x, y) = (p.x * self.size.0, p.y * self.size.1);
        pt(
            x.mul_add(cos, -y * sin) + self.at.x,
            x.mul_add(sin, y * cos) + self.at.y,
        )
    }
}

impl Sketch {
    /// Adds a filled path with its line.
    pub(crate) fn fill(&mut self, path: Path, fill: Rgb, line: f64) {
        self.marks.push(Mark {
            path,
            fill: Some(fill),
            line,
        });
    }

    /// Adds a line.
    pub(crate) fn draw(&mut self, path: Path, line: f64) {
        self.marks.push(Mark {
            path,
            fill: None,
            line,
        });
    }

    /// Adds another sketch.
    pub(crate) fn put(&mut self, other: &Self, put: Put) {
        self.marks.extend(other.marks.iter().map(|mark| Mark {
            path: mark.path.mapped(|p| put.map(p)),
            fill: mark.fill,
            line: mark.line,
        }));
    }

    /// Left, top, right, bottom of the filled paths; zeros when there are none.
    #[must_use]
    pub(crate) fn bounds(&self) -> (f64, f64, f64, f64) {
        let mut all: Option<(f64, f64, f64, f64)> = None;
        for mark in self.marks.iter().filter(|m| m.fill.is_some()) {
            mark.path.walk(|p| {
                all = Some(all.map_or((p.x, p.y, p.x, p.y), |(l, t, r, o)| {
                    (l.min(p.x), t.min(p.y), r.max(p.x), o.max(p.y))
                }));
            });
        }
        all.unwrap_or_default()
    }

    /// Area covered by the filled paths, each spot counted once, within two hundredths.
    #[must_use]
    pub(crate) fn area(&self) -> f64 {
        const ROWS: usize = 120;
        let (left, top, right, bottom) = self.bounds();
        let (wide, high) = (right - left, bottom - top);
        if wide <= 0.0 || high <= 0.0 {
            return 0.0;
        }
        let step = high / ROWS as f64;
        let mut rows: Vec<Vec<(f64, f64)>> = vec![Vec::new(); ROWS];
        let mut crossings: Vec<Vec<f64>> = vec![Vec::new(); ROWS];
        for mark in self.marks.iter().filter(|m| m.fill.is_some()) {
            let points = mark.path.flat();
            let ends = points.iter().cycle().skip(1);
            for (a, b) in points.iter().zip(ends) {
                cross(&mut crossings, *a, *b, top, step);
            }
            for (row, at) in rows.iter_mut().zip(&mut crossings) {
                at.sort_by(f64::total_cmp);
                row.extend(at.chunks_exact(2).map(|pair| (pair[0], pair[1])));
                at.clear();
            }
        }
        rows.into_iter().map(covered).sum::<f64>() * step
    }
}

/// Notes where an edge crosses the middle of each row.
fn cross(rows: &mut [Vec<f64>], a: Point, b: Point, top: f64, step: f64) {
    let (upper, lower) = if a.y < b.y { (a, b) } else { (b, a) };
    let row = |y: f64| ((y - top) / step - 0.5).ceil().max(0.0) as usize;
    for (at, crossings) in rows
        .iter_mut()
        .enumerate()
        .take(row(lower.y))
        .skip(row(upper.y))
    {
        let y = (at as f64 + 0.5).mul_add(step, top);
        let part = (y - upper.y) / (lower.y - upper.y);
        crossings.push((lower.x - upper.x).mul_add(part, upper.x));
    }
}

/// Length covered by spans that may overlap.
fn covered(mut spans: Vec<(f64, f64)>) -> f64 {
    spans.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut sum = 0.0;
    let mut end = f64::NEG_INFINITY;
    for (from, to) in spans {
        sum += (to - from.max(end)).max(0.0);
        end = end.max(to);
    }
    sum
}

/// Whether a point lies in a polygon.
#[must_use]
pub(crate) fn inside(polygon: &[Point], p: Point) -> bool {
    let ends = polygon.iter().cycle().skip(1);
    let crossed = polygon.iter().zip(ends).filter(|(a, b)| {
        (a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x
    });
    crossed.count() % 2 == 1
}

#[cfg(test)]
mod tests {
    use super::{Path, Put, Rgb, Short, Sketch, pt};
    use std::f64::consts::PI;

    #[test]
    fn overlapping_shapes_are_counted_once() {
        let mut sketch = Sketch::default();
        let disc = Path::ellipse(pt(0.0, 0.0), 3.0, 2.0);
        sketch.fill(disc.clone(), Rgb(0, 0, 0), 1.0);
        assert!((sketch.area() / (PI * 6.0) - 1.0).abs() < 0.015);
        sketch.fill(disc, Rgb(0, 0, 0), 1.0);
        assert!((sketch.area() / (PI * 6.0) - 1.0).abs() < 0.015);
        let mut twice = Sketch::default();
        twice.put(&sketch, Put::at(0.0, 0.0).sized(2.0).turned(0.7));
        assert!((twice.area() / (PI * 24.0) - 1.0).abs() < 0.015);
    }

    #[test]
    fn numbers_are_short() {
        let shown = [1.0, -0.5, 2.345, -12.04, 0.0, 3.1].map(|n| Short(n).to_string());
        assert_eq!(shown, ["1", "-0.5", "2.35", "-12.04", "0", "3.1"]);
    }
}
