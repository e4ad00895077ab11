//! Convex shapes: areas, cuts, insets and rounding. Lengths in any unit, areas in its square.
//!
//! Every shape here is a convex polygon in counter-clockwise order (y up); keeping them convex
//! is what makes cutting exact and shrinking safe: a convex shape shrunk about a point inside
//! it stays inside itself.

use std::f64::consts::TAU;

/// A point or a direction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Point {
    /// To the right.
    pub x: f64,
    /// Upwards here; a drawing turns it round.
    pub y: f64,
}

impl Point {
    /// A point from its two coordinates.
    #[must_use]
    pub(crate) const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    fn dot(self, other: Self) -> f64 {
        self.x.mul_add(other.x, self.y * other.y)
    }

    fn toward(self, other: Self, part: f64) -> Self {
        Self::new(
            (other.x - self.x).mul_add(part, self.x),
            (other.y - self.y).mul_add(part, self.y),
        )
    }

    fn minus(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y)
    }

    fn length(self) -> f64 {
        self.x.hypot(self.y)
    }
}

/// A convex polygon.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Convex {
    /// Corners, counter-clockwise.
    pub corners: Vec<Point>,
}

/// The half plane of points whose dot product with `normal` is at most `offset`.
#[derive(Debug, Clone, Copy)]
pub(crate) struct HalfPlane {
    /// Unit normal, pointing out of the half plane.
    pub normal: Point,
    /// Distance of the edge from the origin along the normal.
    pub offset: f64,
}

impl Convex {
    /// A regular polygon with exactly the area of the disc of that radius about the origin.
    #[must_use]
    pub(crate) fn disc(radius: f64, sides: usize) -> Self {
        let step = TAU / sides as f64;
        let corner_radius = radius * (step / step.sin()).sqrt();
        let corners = (0..sides)
            .map(|i| {
                let (sin, cos) = (step * i as f64).sin_cos();
                Point::new(corner_radius * cos, corner_radius * sin)
            })
            .collect();
        Self { corners }
    }

    fn edges(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let next = self.corners.iter().cycle().skip(1);
        self.corners.iter().copied().zip(next.copied())
    }

    /// Enclosed area.
    #[must_use]
    pub(crate) fn area(&self) -> f64 {
        self.edges()
            .map(|(a, b)| a.x * b.y - b.x * a.y)
            .sum::<f64>()
            / 2.0
    }

    /// Length of the outline.
    #[must_use]
    pub(crate) fn outline(&self) -> f64 {
        self.edges().map(|(a, b)| b.minus(a).length()).sum()
    }

    #[cfg(test)]
    /// Centre of mass; the mean of the corners when there is no area.
    #[must_use]
    pub(crate) fn centre(&self) -> Point {
        let area = self.area();
        if area.abs() < 1e-12 {
            let n = self.corners.len().max(1) as f64;
            let sum = self
                .corners
                .iter()
                .fold((0.0, 0.0), |s, p| (s.0 + p.x, s.1 + p.y));
            return Point::new(sum.0 / n, sum.1 / n);
        }
        let (x, y) = self.edges().fold((0.0, 0.0), |(x, y), (a, b)| {
            let cross = a.x * b.y - b.x * a.y;
            (x + (a.x + b.x) * cross, y + (a.y + b.y) * cross)
        });
        Point::new(x / (6.0 * area), y / (6.0 * area))
    }

    /// How round the shape is: 1 for a disc, less for anything else.
    #[must_use]
    pub(crate) fn roundness(&self) -> f64 {
        let outline = self.outline();
        if outline <= 0.0 {
            return 0.0;
        }
        2.0 * TAU * self.area() / (outline * outline)
    }

    /// The part inside the half plane (perhaps empty).
    #[must_use]
    pub(crate) fn cut(&self, keep: HalfPlane) -> Self {
        let depth = |p: Point| p.dot(keep.normal) - keep.offset;
        let mut corners = Vec::with_capacity(self.corners.len() + 2);
        for (a, b) in self.edges() {
            let (depth_a, depth_b) = (depth(a), depth(b));
            if depth_a <= 0.0 {
                corners.push(a);
            }
            if (depth_a < 0.0 && depth_b > 0.0) || (depth_a > 0.0 && depth_b < 0.0) {
                corners.push(a.toward(b, depth_a / (depth_a - depth_b)));
            }
        }
        Self { corners }
    }

    /// The two parts on either side of a straight cut square to `normal`, the first of them
    /// (against the normal) holding `share` of the area.
    #[must_use]
    pub(crate) fn halve(&self, normal: Point, share: f64) -> (Self, Self) {
        let along = self.corners.iter().map(|p| p.dot(normal));
        let (mut low, mut high) =
            along.fold((f64::MAX, f64::MIN), |(l, h), d| (l.min(d), h.max(d)));
        let wanted = self.area() * share;
        // Fifty halvings bring the cut below a thousand-millionth of any plate.
        for _ in 0..50 {
            let offset = f64::midpoint(low, high);
            if self.cut(HalfPlane { normal, offset }).area() < wanted {
                low = offset;
            } else {
                high = offset;
            }
        }
        let offset = f64::midpoint(low, high);
        let back = Point::new(-normal.x, -normal.y);
        (
            self.cut(HalfPlane { normal, offset }),
            self.cut(HalfPlane {
                normal: back,
                offset: -offset,
            }),
        )
    }

    /// Every point at least `distance` inside the outline (perhaps empty).
    #[must_use]
    pub(crate) fn inset(&self, distance: f64) -> Self {
        let mut inner = self.clone();
        for (a, b) in self.edges() {
            let edge = b.minus(a);
            let length = edge.length();
            if length < 1e-9 {
                continue;
            }
            let normal = Point::new(edge.y / length, -edge.x / length);
            inner = inner.cut(HalfPlane {
                normal,
                offset: a.dot(normal) - distance,
            });
            if inner.corners.len() < 3 {
                return Self::default();
            }
        }
        inner
    }

    /// The outline moved outwards by `distance`, corners turned into arcs.
    #[must_use]
    pub(crate) fn swell(&self, distance: f64) -> Self {
        let normals: Vec<f64> = self
            .edges()
            .map(|(a, b)| (a.x - b.x).atan2(b.y - a.y))
            .collect();
        let mut corners = Vec::new();
        for (i, corner) in self.corners.iter().enumerate() {
            let from = normals[(i + normals.len() - 1) % normals.len()];
            let turn = (normals[i] - from).rem_euclid(TAU);
            // A turn of nearly a full circle is a hair's breadth backwards: rounding noise.
            let turn = if turn > TAU * 0.75 { 0.0 } else { turn };
            let steps = (turn / (TAU / 48.0)).ceil().max(1.0);
            for step in 0..=steps as usize {
                let (sin, cos) = (turn * step as f64 / steps + from).sin_cos();
                corners.push(Point::new(
                    distance.mul_add(cos, corner.x),
                    distance.mul_add(sin, corner.y),
                ));
            }
        }
        Self { corners }
    }

    /// The shape `factor` times as long and wide about a point.
    #[must_use]
    pub(crate) fn scaled(&self, factor: f64, about: Point) -> Self {
        let corners = self
            .corners
            .iter()
            .map(|p| about.toward(*p, factor))
            .collect();
        Self { corners }
    }

    #[cfg(test)]
    /// Whether the point lies inside or within `slack` of the outline.
    #[must_use]
    pub(crate) fn holds(&self, point: Point, slack: f64) -> bool {
        self.edges().all(|(a, b)| {
            let edge = b.minus(a);
            let length = edge.length();
            let to = point.minus(a);
            length < 1e-9 || edge.x.mul_add(to.y, -(edge.y * to.x)) >= -slack * length
        })
    }
}

#[cfg(test)]
mod tests {
    use super::{Convex, Point};
    use std::f64::consts::PI;

    fn near(a: f64, b: f64, slack: f64) {
        assert!((a - b).abs() <= slack, "{a} is not near {b}");
    }

    #[test]
    fn a_disc_has_its_area_to_the_last_digit() {
        near(Convex::disc(3.0, 96).area(), PI * 9.0, 1e-9);
        near(Convex::disc(3.0, 96).roundness(), 1.0, 0.001);
    }

    #[test]
    fn a_cut_gives_the_share_asked_for() {
        let disc = Convex::disc(10.0, 120);
        let (a, b) = disc.halve(Point::new(0.6, 0.8), 0.3);
        near(a.area() / disc.area(), 0.3, 1e-9);
        near(a.area() + b.area(), disc.area(), 1e-9);
    }

    #[test]
    fn a_square_inset_and_swelled_is_a_square_with_round_corners() {
        let square = Convex {
            corners: [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]
                .map(|(x, y)| Point::new(x, y))
                .to_vec(),
        };
        let round = square.inset(1.0).swell(1.0);
        // 2 x 2 inside, four strips of 2 x 1, four quarter circles of radius 1.
        near(round.area(), 4.0 + 8.0 + PI, 0.02);
        assert!(round.corners.iter().all(|p| square.holds(*p, 1e-9)));
        assert!(square.inset(2.5).corners.is_empty());
        let centre = round.centre();
        near(centre.x, 2.0, 1e-9);
        near(centre.y, 2.0, 1e-9);
    }
}
