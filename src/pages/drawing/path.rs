//! Lines, straight and curved.
//!
//! Lengths are in cm as seen by the reader, x to the right, y down, as SVG has them.

use super::geometry::Point;

/// A step of a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Step {
    /// A straight line to a point.
    Line(Point),
    /// A cubic curve: two control points, then the end.
    Curve(Point, Point, Point),
}

/// A line, straight or curved, closed or open.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Path {
    /// Where it begins.
    pub start: Point,
    /// How it goes on.
    pub steps: Vec<Step>,
    /// Whether it ends where it began.
    pub closed: bool,
}

/// A point; short because drawings hold thousands.
#[must_use]
pub(crate) const fn pt(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

/// Control length of a quarter of a circle.
const QUARTER: f64 = 0.552_284_75;

/// Points that stand for a curve.
const PARTS: usize = 8;

impl Path {
    /// A polygon.
    #[must_use]
    pub(crate) fn polygon(points: &[Point]) -> Self {
        Self {
            start: points.first().copied().unwrap_or(pt(0.0, 0.0)),
            steps: points.iter().skip(1).map(|p| Step::Line(*p)).collect(),
            closed: true,
        }
    }

    /// An open line of straight pieces.
    #[must_use]
    pub(crate) fn line(points: &[Point]) -> Self {
        Self {
            closed: false,
            ..Self::polygon(points)
        }
    }

    /// An ellipse.
    #[must_use]
    pub(crate) fn ellipse(centre: Point, rx: f64, ry: f64) -> Self {
        let at = |x: f64, y: f64| pt(rx.mul_add(x, centre.x), ry.mul_add(y, centre.y));
        let k = QUARTER;
        Self {
            start: at(1.0, 0.0),
            steps: vec![
                Step::Curve(at(1.0, k), at(k, 1.0), at(0.0, 1.0)),
                Step::Curve(at(-k, 1.0), at(-1.0, k), at(-1.0, 0.0)),
                Step::Curve(at(-1.0, -k), at(-k, -1.0), at(0.0, -1.0)),
                Step::Curve(at(k, -1.0), at(1.0, -k), at(1.0, 0.0)),
            ],
            closed: true,
        }
    }

    /// A smooth line through points.
    #[must_use]
    pub(crate) fn smooth(points: &[Point], closed: bool) -> Self {
        let count = points.len();
        let at = |i: isize| {
            if closed {
                points[i.rem_euclid(count.cast_signed()) as usize]
            } else {
                points[i.clamp(0, count.cast_signed() - 1) as usize]
            }
        };
        if count == 0 {
            return Self::polygon(points);
        }
        let last = if closed { count } else { count - 1 }.cast_signed();
        let steps = (0..last)
            .map(|i| {
                let (before, from, to, after) = (at(i - 1), at(i), at(i + 1), at(i + 2));
                Step::Curve(
                    pt(
                        from.x + (to.x - before.x) / 6.0,
                        from.y + (to.y - before.y) / 6.0,
                    ),
                    pt(
                        to.x - (after.x - from.x) / 6.0,
                        to.y - (after.y - from.y) / 6.0,
                    ),
                    to,
                )
            })
            .collect();
        Self {
            start: points[0],
            steps,
            closed,
        }
    }

    pub(super) fn mapped(&self, map: impl Fn(Point) -> Point) -> Self {
        Self {
            start: map(self.start),
            steps: self
                .steps
                .iter()
                .map(|step| match step {
                    Step::Line(to) => Step::Line(map(*to)),
                    Step::Curve(a, b, to) => Step::Curve(map(*a), map(*b), map(*to)),
                })
                .collect(),
            closed: self.closed,
        }
    }

    /// The path as a chain of points.
    #[must_use]
    pub(crate) fn flat(&self) -> Vec<Point> {
        let mut points = Vec::with_capacity(self.steps.len() * PARTS + 1);
        self.walk(|p| points.push(p));
        points
    }

    /// Visits the points of the chain, in order.
    pub(super) fn walk(&self, mut visit: impl FnMut(Point)) {
        visit(self.start);
        let mut from = self.start;
        for step in &self.steps {
            match step {
                Step::Line(to) => {
                    visit(*to);
                    from = *to;
                }
                Step::Curve(a, b, to) => {
                    for i in 1..=PARTS {
                        let t = i as f64 / PARTS as f64;
                        let u = 1.0 - t;
                        let mix = |p: f64, q: f64, r: f64, s: f64| {
                            u * u * u * p
                                + 3.0 * u * u * t * q
                                + 3.0 * u * t * t * r
                                + t * t * t * s
                        };
                        visit(pt(mix(from.x, a.x, b.x, to.x), mix(from.y, a.y, b.y, to.y)));
                    }
                    from = *to;
                }
            }
        }
    }
}

/// A number with at most two decimals and no zeros at its end.
pub(crate) struct Short(pub f64);

impl std::fmt::Display for Short {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let hundredths = (self.0 * 100.0).round() as i64;
        let (whole, part) = (hundredths / 100, (hundredths % 100).abs());
        if hundredths < 0 && whole == 0 {
            f.write_str("-")?;
        }
        match part {
            0 => write!(f, "{whole}"),
            p if p % 10 == 0 => write!(f, "{whole}.{}", p / 10),
            p => write!(f, "{whole}.{p:02}"),
        }
    }
}
