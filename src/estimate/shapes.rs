//! Volumes of the shapes that food takes on a plate.
//!
//! Plain solid geometry; lengths in centimetres, angles in degrees, volumes in millilitres
//! (1 ml = 1 cm³). Lengths are taken as given: a negative length gives a meaningless volume,
//! so callers pass lengths that were read with bounds.

use std::f64::consts::PI;

/// Centimetres in an inch (exact by definition).
pub const CM_PER_INCH: f64 = 2.54;

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
    pub fn millilitres(self) -> f64 {
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
pub fn heap_height(base_radius: f64, repose_degrees: f64) -> f64 {
    base_radius * repose_degrees.to_radians().tan()
}

/// Area of a round plate's flat part, cm², from its whole diameter and the share of the
/// diameter that is flat.
#[must_use]
pub fn well_area(diameter_cm: f64, flat_share: f64) -> f64 {
    let radius = diameter_cm * flat_share / 2.0;
    PI * radius * radius
}

/// Volume of a mound that covers `area` cm² and is `height` cm at its middle; a mound's
/// mean height is half the height of its middle, as in a paraboloid.
#[must_use]
pub fn mound(area: f64, height: f64) -> f64 {
    0.5 * area * height
}

/// Volume of an even layer.
#[must_use]
pub fn layer(area: f64, depth: f64) -> f64 {
    area * depth
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(value: f64, expected: f64, within: f64) {
        assert!(
            (value - expected).abs() <= within,
            "{value} is not {expected}"
        );
    }

    /// Worked by hand from the textbook formulas (lengths in cm).
    #[test]
    fn shapes_have_their_textbook_volumes() {
        // A hockey puck, 7.62 cm across and 2.54 cm thick: 115.8 cm³ (7.0 to 7.1 cubic inches).
        near(
            Shape::Cylinder {
                radius: 3.81,
                height: 2.54,
            }
            .millilitres(),
            115.83,
            0.01,
        );
        // A 3 in ball: 4/3 pi 1.5³ = 14.137 in³ = 231.67 ml.
        near(
            Shape::Ellipsoid {
                a: 3.81,
                b: 3.81,
                c: 3.81,
            }
            .millilitres(),
            231.67,
            0.01,
        );
        // Unit cone and paraboloid: thirds and halves of pi.
        near(
            Shape::Cone {
                base: 1.0,
                height: 1.0,
            }
            .millilitres(),
            PI / 3.0,
            1e-5,
        );
        near(
            Shape::Paraboloid {
                base: 1.0,
                height: 1.0,
            }
            .millilitres(),
            PI / 2.0,
            1e-5,
        );
        near(
            Shape::Torus {
                ring: 3.0,
                tube: 1.0,
            }
            .millilitres(),
            59.2176,
            1e-4,
        );
        near(
            Shape::Annulus {
                outer: 3.0,
                inner: 1.0,
                height: 1.0,
            }
            .millilitres(),
            25.1327,
            1e-4,
        );
        near(
            Shape::TriangularPrism {
                base: 4.0,
                height: 3.0,
                length: 5.0,
            }
            .millilitres(),
            30.0,
            1e-9,
        );
        near(
            Shape::Cuboid {
                length: 2.0,
                width: 3.0,
                height: 4.0,
            }
            .millilitres(),
            24.0,
            1e-9,
        );
    }

    /// The same solids reached by two formulas.
    #[test]
    fn shapes_agree_where_they_meet() {
        let half_ball = Shape::SphericalCap {
            base: 5.0,
            height: 5.0,
        }
        .millilitres();
        near(
            half_ball,
            Shape::LiquidInBowl {
                sphere: 5.0,
                depth: 5.0,
            }
            .millilitres(),
            1e-9,
        );
        near(
            half_ball,
            Shape::HalfEllipsoid {
                a: 5.0,
                b: 5.0,
                height: 5.0,
            }
            .millilitres(),
            1e-9,
        );
        near(
            2.0 * half_ball,
            Shape::Ellipsoid {
                a: 5.0,
                b: 5.0,
                c: 5.0,
            }
            .millilitres(),
            1e-9,
        );
        let straight = Shape::TruncatedCone {
            top: 4.0,
            bottom: 4.0,
            height: 3.0,
        };
        near(
            straight.millilitres(),
            Shape::Cylinder {
                radius: 4.0,
                height: 3.0,
            }
            .millilitres(),
            1e-9,
        );
        let pointed = Shape::TruncatedCone {
            top: 4.0,
            bottom: 0.0,
            height: 3.0,
        };
        near(
            pointed.millilitres(),
            Shape::Cone {
                base: 4.0,
                height: 3.0,
            }
            .millilitres(),
            1e-9,
        );
        let whole = Shape::Wedge {
            radius: 4.0,
            height: 3.0,
            degrees: 360.0,
        };
        near(
            whole.millilitres(),
            Shape::Cylinder {
                radius: 4.0,
                height: 3.0,
            }
            .millilitres(),
            1e-9,
        );
    }

    /// A mound 6 in across and 1.5 in high worked out by hand for each shape: the inch
    /// figures are 13.5 pi, 9 pi, 7.3125 pi, 6.75 pi and 4.5 pi cubic inches, of 16.387 ml.
    #[test]
    fn six_inch_mounds() {
        let (base, height) = (7.62, 3.81);
        near(
            Shape::Cylinder {
                radius: base,
                height,
            }
            .millilitres(),
            695.0,
            0.5,
        );
        near(
            Shape::HalfEllipsoid {
                a: base,
                b: base,
                height,
            }
            .millilitres(),
            463.3,
            0.5,
        );
        near(
            Shape::SphericalCap { base, height }.millilitres(),
            376.5,
            0.5,
        );
        near(Shape::Paraboloid { base, height }.millilitres(), 347.5, 0.5);
        near(Shape::Cone { base, height }.millilitres(), 231.7, 0.5);
        near(mound(PI * base * base, height), 347.5, 0.5);
    }

    /// Paper pail sold as one pint (16 US fl oz = 473 ml): top 3.7 x 2.8 in, bottom
    /// 2.8 x 2.1 in, 3.5 in high (takeout-container trade page). The prismatoid rule gives
    /// 463 ml, 2 % under the nominal pint.
    #[test]
    fn a_pint_pail_holds_a_pint() {
        let area = |a: f64, b: f64| a * b * CM_PER_INCH * CM_PER_INCH;
        let (top, bottom, middle) = (area(3.7, 2.8), area(2.8, 2.1), area(3.25, 2.45));
        let volume = 3.5 * CM_PER_INCH / 6.0 * (top + 4.0 * middle + bottom);
        near(volume, 463.0, 15.0);
    }

    /// A 10.5 in plate with a 1.5 in rim has a 7.5 in well: 285 cm²; a third of it one inch
    /// deep is about a US cup (236.6 ml).
    #[test]
    fn a_third_of_a_plate_an_inch_deep_is_a_cup() {
        let area = well_area(10.5 * CM_PER_INCH, 7.5 / 10.5);
        near(area, 285.0, 0.5);
        near(layer(area / 3.0, CM_PER_INCH), 241.0, 1.0);
        near(heap_height(5.0, 45.0), 5.0, 1e-9);
    }
}
