//! Volumes of shapes, against what geometry says of them.

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
