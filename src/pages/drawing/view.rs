//! How the table is seen: the one depth and the one slant of every drawing.

/// Volume over area seen, in cm: between a heap of a cup (a half ellipsoid twice as wide as
/// high covers some 80 cm² seen from 38 degrees above: 3 cm) and a burger seen from the side
/// (8 cm). Widths are then within about a third of the truth for flat things and tall ones.
pub(crate) const SEEN_CM: f64 = 4.0;

/// Height over width of a round thing on the table: the sine of 38 degrees.
pub(crate) const FLAT: f64 = 0.62;
