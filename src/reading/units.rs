//! Units of weight and volume, and the words people write for them.
//!
//! US customary figures: NIST Handbook 44, Appendix C. Imperial figures: UK Weights and
//! Measures Act 1985. Metric cup (250 ml), tablespoon (15 ml) and teaspoon (5 ml): Canadian
//! recipe usage, listed beside the US measures in NIST SP 430's tables of household measures.

use crate::quantity::units::{
    CUP_ML, FLUID_OUNCE_ML, INCH_CM, OUNCE_G, POUND_G, TABLESPOON_ML, TEASPOON_ML,
};

/// Which cups and spoons are meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub enum UnitSystem {
    /// US customary: cup 236.588 ml.
    #[default]
    Us,
    /// Cup 250 ml, tablespoon 15 ml, teaspoon 5 ml. Fluid ounces, pints, quarts and gallons
    /// stay US customary unless the text says `imperial`.
    Metric,
}

/// A unit of weight.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum WeightUnit {
    /// 0.001 g.
    Milligram,
    /// 1 g.
    Gram,
    /// 1,000 g.
    Kilogram,
    /// Avoirdupois ounce, 28.349523125 g. People also write it for fluid ounces of a drink.
    Ounce,
    /// Avoirdupois pound, 453.59237 g.
    Pound,
    /// 1,000,000 g; known so that it can be refused with the right words.
    Tonne,
}

impl WeightUnit {
    /// Grams in one unit (NIST Handbook 44, Appendix C).
    #[must_use]
    pub(crate) const fn grams(self) -> f64 {
        match self {
            Self::Milligram => 0.001,
            Self::Gram => 1.0,
            Self::Kilogram => 1_000.0,
            Self::Ounce => OUNCE_G,
            Self::Pound => POUND_G,
            Self::Tonne => 1_000_000.0,
        }
    }
}

/// A unit of volume. The loose ones (`handful` and after) have their sizes in [`super::loose`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum VolumeUnit {
    /// 1 ml.
    Millilitre,
    /// 10 ml.
    Centilitre,
    /// 100 ml.
    Decilitre,
    /// 1,000 ml.
    Litre,
    /// A third of a tablespoon.
    Teaspoon,
    /// A sixteenth of a US cup.
    Tablespoon,
    /// An eighth of a US cup.
    FluidOunce,
    /// 236.588 ml, or 250 ml.
    Cup,
    /// Two US cups.
    Pint,
    /// Four US cups.
    Quart,
    /// Sixteen US cups.
    Gallon,
    /// UK fluid ounce, 28.41 ml.
    ImperialFluidOunce,
    /// UK pint, 568.26 ml.
    ImperialPint,
    /// A numbered kitchen scoop: number `n` holds 32/n US fluid ounces, level.
    NumberedScoop,
    /// What lies in a hand.
    Handful,
    /// Between thumb and finger.
    Pinch,
    /// Half a pinch.
    Smidgen,
    /// A short shake.
    Dash,
    /// A thin thread of liquid.
    Drizzle,
    /// A short pour.
    Splash,
    /// A longer pour.
    Glug,
    /// A soft heap off a spoon.
    Dollop,
    /// A spoonful, size unsaid.
    Spoonful,
    /// A little off a knife.
    Dab,
    /// Strewn by hand.
    Sprinkle,
    /// Shaken through a sieve.
    Dusting,
    /// Pressed from a wedge of citrus.
    Squeeze,
    /// A thin spread.
    Smear,
    /// A bagel spread.
    Schmear,
}

impl VolumeUnit {
    /// Millilitres in one unit; `None` for loose units and for a numbered scoop, whose size
    /// is not one figure.
    #[must_use]
    pub(crate) const fn millilitres(self, units: UnitSystem) -> Option<f64> {
        Some(match self {
            Self::Millilitre => 1.0,
            Self::Centilitre => 10.0,
            Self::Decilitre => 100.0,
            Self::Litre => 1_000.0,
            Self::FluidOunce => FLUID_OUNCE_ML,
            Self::Pint => 16.0 * FLUID_OUNCE_ML,
            Self::Quart => 32.0 * FLUID_OUNCE_ML,
            Self::Gallon => 128.0 * FLUID_OUNCE_ML,
            Self::ImperialFluidOunce => 28.413_062_5,
            Self::ImperialPint => 568.261_25,
            Self::Teaspoon => match units {
                UnitSystem::Us => TEASPOON_ML,
                UnitSystem::Metric => 5.0,
            },
            Self::Tablespoon => match units {
                UnitSystem::Us => TABLESPOON_ML,
                UnitSystem::Metric => 15.0,
            },
            Self::Cup => match units {
                UnitSystem::Us => CUP_ML,
                UnitSystem::Metric => 250.0,
            },
            _ => return None,
        })
    }
}

/// Millilitres of a level numbered scoop: 32 fl oz divided by its number (Institute of Child
/// Nutrition, *Basics at a Glance*).
#[must_use]
pub(crate) fn numbered_scoop_millilitres(number: f64) -> f64 {
    32.0 * FLUID_OUNCE_ML / number
}

/// How big a piece is said to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Size {
    /// `mini`, `miniature`, `tiny`, `bite-size`.
    Mini,
    /// `thin`, said of a slice.
    Thin,
    /// `small`.
    Small,
    /// `medium`, `regular`.
    Medium,
    /// `thick`, said of a slice.
    Thick,
    /// `large`, `big`.
    Large,
    /// `extra large`, `jumbo`.
    ExtraLarge,
}

/// A unit word read from text.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Unit {
    Weight(WeightUnit),
    Volume(VolumeUnit),
    /// Length, in inches each.
    Length(f64),
}

/// The unit that one word names. Case matters only for `T` (tablespoon) and `t` (teaspoon).
pub(super) fn unit_word(word: &str) -> Option<Unit> {
    use VolumeUnit as V;
    use WeightUnit as W;
    match word {
        "T" => return Some(Unit::Volume(V::Tablespoon)),
        "t" => return Some(Unit::Volume(V::Teaspoon)),
        _ => {}
    }
    let key = super::tokens::Key::of(word)?;
    Some(match key.as_str() {
        "g" | "gm" | "gms" | "gr" | "grs" | "gram" | "grams" | "gramme" | "grammes" => {
            Unit::Weight(W::Gram)
        }
        "kg" | "kgs" | "kilo" | "kilos" | "kilogram" | "kilograms" | "kilogramme"
        | "kilogrammes" => Unit::Weight(W::Kilogram),
        "mg" | "mgs" | "milligram" | "milligrams" | "milligramme" | "milligrammes" => {
            Unit::Weight(W::Milligram)
        }
        "oz" | "ozs" | "ounce" | "ounces" => Unit::Weight(W::Ounce),
        "lb" | "lbs" | "pound" | "pounds" | "pounder" | "pounders" => Unit::Weight(W::Pound),
        "tonne" | "tonnes" | "ton" | "tons" => Unit::Weight(W::Tonne),
        "ml" | "mls" | "cc" | "ccs" | "millilitre" | "millilitres" | "milliliter"
        | "milliliters" => Unit::Volume(V::Millilitre),
        "cl" | "cls" | "centilitre" | "centilitres" | "centiliter" | "centiliters" => {
            Unit::Volume(V::Centilitre)
        }
        "dl" | "dls" | "decilitre" | "decilitres" | "deciliter" | "deciliters" => {
            Unit::Volume(V::Decilitre)
        }
        "l" | "ltr" | "ltrs" | "litre" | "litres" | "liter" | "liters" => Unit::Volume(V::Litre),
        "tsp" | "tsps" | "teaspoon" | "teaspoons" | "teaspoonful" | "teaspoonfuls" => {
            Unit::Volume(V::Teaspoon)
        }
        "tbsp" | "tbsps" | "tb" | "tbs" | "tbl" | "tbls" | "tblsp" | "tblsps" | "tablespoon"
        | "tablespoons" | "tablespoonful" | "tablespoonfuls" => Unit::Volume(V::Tablespoon),
        "floz" => Unit::Volume(V::FluidOunce),
        "c" | "cup" | "cups" | "cupful" | "cupfuls" => Unit::Volume(V::Cup),
        "pint" | "pints" | "pt" | "pts" => Unit::Volume(V::Pint),
        "quart" | "quarts" | "qt" | "qts" => Unit::Volume(V::Quart),
        "gallon" | "gallons" | "gal" | "gals" => Unit::Volume(V::Gallon),
        "inch" | "inches" | "in" => Unit::Length(1.0),
        "cm" | "cms" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => {
            Unit::Length(1.0 / INCH_CM)
        }
        "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => {
            Unit::Length(0.1 / INCH_CM)
        }
        _ => return None,
    })
}

/// Units that are known to exist but measure nothing on a plate, and what to write instead.
pub(super) fn foreign_unit(word: &str) -> Option<&'static str> {
    let key = super::tokens::Key::of(word)?;
    Some(match key.as_str() {
        "bushel" | "bushels" | "peck" | "pecks" | "barrel" | "barrels" | "hogshead"
        | "hogsheads" | "gill" | "gills" | "firkin" | "firkins" => "cups",
        "stone" | "stones" | "hundredweight" | "hundredweights" | "cwt" | "dram" | "drams"
        | "drachm" | "drachms" | "carat" | "carats" | "catty" | "catties" => "g",
        "foot" | "feet" | "ft" | "yard" | "yards" | "metre" | "metres" | "meter" | "meters"
        | "mile" | "miles" => "inch",
        _ => return None,
    })
}

/// Long unit names that a slip of the fingers may have produced; short ones are too near to
/// foods (`pints` and `pinto`, `grams` and `grapes`).
const MISSPELT: [&str; 8] = [
    "tablespoon",
    "tablespoons",
    "teaspoon",
    "teaspoons",
    "ounces",
    "kilograms",
    "millilitres",
    "milliliters",
];

/// The unit name that `word` is probably a misspelling of: same first letter, at least six
/// letters, at most two slips.
pub(super) fn misspelt_unit(word: &str) -> Option<&'static str> {
    let key = super::tokens::Key::of(word)?;
    let key = key.as_str();
    if key.len() < 6 {
        return None;
    }
    MISSPELT
        .iter()
        .filter(|name| name.as_bytes()[0] == key.as_bytes()[0])
        .map(|name| (strsim::osa_distance(name, key), *name))
        .filter(|(distance, _)| (1..=2).contains(distance))
        .min()
        .map(|(_, name)| name)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// NIST Handbook 44, Appendix C, printed figures; UK Weights and Measures Act 1985.
    #[test]
    fn volumes_are_those_of_the_handbooks() {
        for (unit, millilitres, tolerance) in [
            (VolumeUnit::Cup, 236.588, 0.001),
            (VolumeUnit::Tablespoon, 14.7868, 0.0001),
            (VolumeUnit::Teaspoon, 4.9289, 0.0001),
            (VolumeUnit::FluidOunce, 29.5735, 0.0001),
            (VolumeUnit::Pint, 473.176, 0.001),
            (VolumeUnit::Quart, 946.353, 0.001),
            (VolumeUnit::Gallon, 3785.412, 0.001),
            (VolumeUnit::ImperialFluidOunce, 28.413, 0.001),
            (VolumeUnit::ImperialPint, 568.261, 0.001),
        ] {
            let got = unit.millilitres(UnitSystem::Us).unwrap();
            assert!((got - millilitres).abs() < tolerance, "{unit:?}: {got}");
        }
    }

    #[test]
    fn weights_are_those_of_the_handbook() {
        assert!((WeightUnit::Ounce.grams() - 28.3495).abs() < 0.0001);
        assert!((WeightUnit::Pound.grams() - 453.592).abs() < 0.001);
        assert!((16.0 * WeightUnit::Ounce.grams() - WeightUnit::Pound.grams()).abs() < 1e-9);
    }

    #[test]
    fn household_measures_fit_into_each_other() {
        let us = |unit: VolumeUnit| unit.millilitres(UnitSystem::Us).unwrap();
        for (big, small, count) in [
            (VolumeUnit::Cup, VolumeUnit::Tablespoon, 16.0),
            (VolumeUnit::Tablespoon, VolumeUnit::Teaspoon, 3.0),
            (VolumeUnit::Cup, VolumeUnit::FluidOunce, 8.0),
            (VolumeUnit::Pint, VolumeUnit::Cup, 2.0),
            (VolumeUnit::Quart, VolumeUnit::Pint, 2.0),
            (VolumeUnit::Gallon, VolumeUnit::Quart, 4.0),
        ] {
            assert!((us(big) / us(small) - count).abs() < 1e-9);
        }
    }

    #[test]
    fn metric_changes_cups_and_spoons_only() {
        let metric = |unit: VolumeUnit| unit.millilitres(UnitSystem::Metric).unwrap();
        assert!((metric(VolumeUnit::Cup) - 250.0).abs() < 1e-9);
        assert!((metric(VolumeUnit::Tablespoon) - 15.0).abs() < 1e-9);
        assert!((metric(VolumeUnit::Teaspoon) - 5.0).abs() < 1e-9);
        assert!((metric(VolumeUnit::FluidOunce) - 29.5735).abs() < 1e-4);
    }

    #[test]
    fn scoops_follow_their_number() {
        // Institute of Child Nutrition: No. 8 is 1/2 cup, No. 16 is 1/4 cup.
        assert!((numbered_scoop_millilitres(8.0) - 118.294).abs() < 0.001);
        assert!((numbered_scoop_millilitres(16.0) - 59.147).abs() < 0.001);
    }

    #[test]
    fn slips_are_near_long_unit_names_only() {
        assert_eq!(misspelt_unit("tabelspoons"), Some("tablespoons"));
        assert_eq!(misspelt_unit("teaspon"), Some("teaspoon"));
        for food in [
            "onions", "tamales", "turnips", "oranges", "tomatoes", "olives", "tacos",
        ] {
            assert_eq!(misspelt_unit(food), None, "{food}");
        }
    }
}
