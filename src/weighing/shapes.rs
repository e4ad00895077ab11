//! Volumes of the shapes that food takes on a plate.
//!
//! Plain solid geometry; lengths in centimetres, angles in degrees, volumes in millilitres
//! (1 ml = 1 cm³). Lengths are taken as given: a negative length gives a meaningless volume,
//! so callers pass lengths that were read with bounds.

use std::f64::consts::PI;

/// Centimetres in an inch (exact by definition).
pub(crate) const CM_PER_INCH: f64 = 2.54;

/// A shape with its lengths in centimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    /// Slab, patty, pancake, moulded rice.
    Cylinder {
        /// Radius.
        radius: f64,
        /// Height.
        height: f64,
    },
    /// Glass, cup, ramekin.
    TruncatedCone {
        /// Radius at the top.
        top: f64,
        /// Radius at the bottom.
        bottom: f64,
        /// Height.
        height: f64,
    },
    /// Mound with a rounded top: mash, rice, slaw.
    SphericalCap {
        /// Radius of the base.
        base: f64,
        /// Height.
        height: f64,
    },
    /// Liquid standing in a round bowl.
    LiquidInBowl {
        /// Radius of the sphere that the bowl is part of.
        sphere: f64,
        /// Depth of the liquid.
        depth: f64,
    },
    /// Nest of pasta, pile of leaves, pulled meat.
    HalfEllipsoid {
        /// Half the length.
        a: f64,
        /// Half the width.
        b: f64,
        /// Height.
        height: f64,
    },
    /// Loose heap with a rounded top.
    Paraboloid {
        /// Radius of the base.
        base: f64,
        /// Height.
        height: f64,
    },
    /// Heap of chips or fries.
    Cone {
        /// Radius of the base.
        base: f64,
        /// Height.
        height: f64,
    },
    /// Slice of something round: pizza, pie, melon.
    Wedge {
        /// Radius of the whole.
        radius: f64,
        /// Height.
        height: f64,
        /// Angle at the tip.
        degrees: f64,
    },
    /// Square of lasagna, brownie, tofu.
    Cuboid {
        /// Length.
        length: f64,
        /// Width.
        width: f64,
        /// Height.
        height: f64,
    },
    /// Half a sandwich cut corner to corner.
    TriangularPrism {
        /// Base of the triangle.
        base: f64,
        /// Height of the triangle.
        height: f64,
        /// Thickness.
        length: f64,
    },
    /// Onion ring, flat doughnut.
    Annulus {
        /// Outer radius.
        outer: f64,
        /// Radius of the hole.
        inner: f64,
        /// Height.
        height: f64,
    },
    /// Bagel.
    Torus {
        /// From the middle of the hole to the middle of the ring.
        ring: f64,
        /// Radius of the ring's cross-section.
        tube: f64,
    },
    /// Potato, egg, avocado, meatball.
    Ellipsoid {
        /// Half the length.
        a: f64,
        /// Half the width.
        b: f64,
        /// Half the height.
        c: f64,
    },
    /// Fillet or steak: a box of which `fullness` is food.
    Tapered {
        /// Length.
        length: f64,
        /// Width.
        width: f64,
        /// Greatest height.
        height: f64,
        /// Share of the box that is food: about 0.6 for fillets, 0.85 for steaks
        /// (kitchen judgement, from memory).
        fullness: f64,
    },
}

impl Shape {
    /// Volume in millilitres.
    #[must_use]
    pub(crate) fn millilitres(self) -> f64 {
        match self {
            Shape::Cylinder { radius, height } => PI * radius * radius * height,
            Shape::TruncatedCone {
                top,
                bottom,
                height,
            } => PI * height * (top * top + top * bottom + bottom * bottom) / 3.0,
            Shape::SphericalCap { base, height } => {
                PI * height * (3.0 * base * base + height * height) / 6.0
            }
            Shape::LiquidInBowl { sphere, depth } => {
                PI * depth * depth * (3.0 * sphere - depth) / 3.0
            }
            Shape::HalfEllipsoid { a, b, height } => 2.0 / 3.0 * PI * a * b * height,
            Shape::Paraboloid { base, height } => 0.5 * PI * base * base * height,
            Shape::Cone { base, height } => PI * base * base * height / 3.0,
            Shape::Wedge {
                radius,
                height,
                degrees,
            } => PI * radius * radius * height * degrees / 360.0,
            Shape::Cuboid {
                length,
                width,
                height,
            } => length * width * height,
            Shape::TriangularPrism {
                base,
                height,
                length,
            } => 0.5 * base * height * length,
            Shape::Annulus {
                outer,
                inner,
                height,
            } => PI * (outer * outer - inner * inner) * height,
            Shape::Torus { ring, tube } => 2.0 * PI * PI * ring * tube * tube,
            Shape::Ellipsoid { a, b, c } => 4.0 / 3.0 * PI * a * b * c,
            Shape::Tapered {
                length,
                width,
                height,
                fullness,
            } => fullness * length * width * height,
        }
    }
}

/// Height of a loose heap that slopes at its angle of repose.
#[must_use]
pub(crate) fn heap_height(base_radius: f64, repose_degrees: f64) -> f64 {
    base_radius * repose_degrees.to_radians().tan()
}

/// Area of a round plate's flat part, cm², from its whole diameter and the share of the
/// diameter that is flat.
#[must_use]
pub(crate) fn well_area(diameter_cm: f64, flat_share: f64) -> f64 {
    let radius = diameter_cm * flat_share / 2.0;
    PI * radius * radius
}

/// Volume of a mound that covers `area` cm² and is `height` cm at its middle; a mound's
/// mean height is half the height of its middle, as in a paraboloid.
#[must_use]
pub(crate) fn mound(area: f64, height: f64) -> f64 {
    0.5 * area * height
}

/// Volume of an even layer.
#[must_use]
pub(crate) fn layer(area: f64, depth: f64) -> f64 {
    area * depth
}

#[cfg(test)]
mod tests;
