//! What US customary units hold (NIST Handbook 44, appendix C; exact by definition), for every
//! reader and every page.

/// Centimetres in an inch.
pub(crate) const INCH_CM: f64 = 2.54;
/// Grams in an avoirdupois pound.
pub(crate) const POUND_G: f64 = 453.592_37;
/// Grams in an avoirdupois ounce.
pub(crate) const OUNCE_G: f64 = POUND_G / 16.0;
/// Millilitres in a fluid ounce: a 128th of the gallon of 231 cubic inches.
pub(crate) const FLUID_OUNCE_ML: f64 = 29.573_529_562_5;
/// Millilitres in a cup.
pub(crate) const CUP_ML: f64 = 8.0 * FLUID_OUNCE_ML;
/// Millilitres in a tablespoon.
pub(crate) const TABLESPOON_ML: f64 = CUP_ML / 16.0;
/// Millilitres in a teaspoon.
pub(crate) const TEASPOON_ML: f64 = TABLESPOON_ML / 3.0;
