//! Heights, weights and energies as people write them, metric or US (and stone).
//!
//! A measure is one or two parts, each a number and a unit: `5 ft 10 in`, `5'10"`, `178 cm`,
//! `1.78 m`, `154 lb`, `70 kg`, `11 st 4 lb`. The last unit may be left out after feet,
//! stones or metres. Numbers may be decimal (point or comma) or end in a fraction.

use super::body::{HeightCm, WeightKg};
use super::measure::{ENERGY, KG_PER_POUND, KJ_PER_KCAL, MeasureError};
use crate::quantity::units::INCH_CM;

/// A unit: its names, its size in the base unit, and the smaller unit that may follow it.
struct Unit {
    names: &'static [&'static str],
    size: f64,
    then: Option<usize>,
}

/// What is measured, with its units; `then` gives a place in `units`.
struct Kind {
    what: &'static str,
    example: &'static str,
    units: &'static [Unit],
}

const HEIGHTS: Kind = Kind {
    what: "height",
    example: "178 cm` or `5 ft 10 in",
    units: &[
        Unit {
            names: &["m", "metre", "metres", "meter", "meters"],
            size: 100.0,
            then: Some(1),
        },
        Unit {
            names: &[
                "cm",
                "centimetre",
                "centimetres",
                "centimeter",
                "centimeters",
            ],
            size: 1.0,
            then: None,
        },
        Unit {
            names: &["ft", "foot", "feet", "'", "′", "’"],
            size: 12.0 * INCH_CM,
            then: Some(3),
        },
        Unit {
            names: &["in", "inch", "inches", "\"", "″", "”", "''", "′′", "’’"],
            size: INCH_CM,
            then: None,
        },
    ],
};

const WEIGHTS: Kind = Kind {
    what: "weight",
    example: "70 kg` or `154 lb",
    units: &[
        Unit {
            names: &["kg", "kgs", "kilo", "kilos", "kilogram", "kilograms"],
            size: 1.0,
            then: None,
        },
        Unit {
            names: &["st", "stone", "stones"],
            size: 14.0 * KG_PER_POUND,
            then: Some(2),
        },
        Unit {
            names: &["lb", "lbs", "pound", "pounds"],
            size: KG_PER_POUND,
            then: None,
        },
    ],
};

/// A height such as `178 cm`, `1.78 m`, `5 ft 10 in`, `5'10"`; to 0.01 cm.
///
/// Fails without a number or unit, with parts that do not fit, or outside
/// [`super::measure::HEIGHT`].
pub(crate) fn height(text: &str) -> Result<HeightCm, MeasureError> {
    let centimetres = measure(text, &HEIGHTS)?;
    HeightCm::new((centimetres * 100.0).round() / 100.0)
}

/// A weight such as `70 kg`, `154 lb`, `11 st 4 lb`; to 0.001 kg.
///
/// Fails without a number or unit, with parts that do not fit, or outside
/// [`super::measure::WEIGHT`].
pub(crate) fn weight(text: &str) -> Result<WeightKg, MeasureError> {
    let kilograms = measure(text, &WEIGHTS)?;
    WeightKg::new((kilograms * 1000.0).round() / 1000.0)
}

/// A day's energy in kcal, from `2000`, `2,000 kcal` or `8400 kJ`; commas mark thousands.
///
/// Fails without a number, on another unit, or outside [`ENERGY`].
pub fn energy(text: &str) -> Result<f64, MeasureError> {
    let example = "2000 kcal` or `8400 kJ";
    let plain = text.trim().replace(',', "");
    let end = plain
        .find(|sign: char| !sign.is_ascii_digit() && sign != '.')
        .unwrap_or(plain.len());
    let (digits, unit) = plain.split_at(end);
    let number: f64 = digits.parse().map_err(|_| MeasureError::NoNumber {
        what: ENERGY.what,
        text: text.to_owned(),
        example,
    })?;
    let kcal = match unit.trim().to_lowercase().as_str() {
        "" | "kcal" | "cal" | "calories" | "calorie" => number,
        "kj" => number / KJ_PER_KCAL,
        _ => {
            return Err(MeasureError::UnknownUnit {
                what: ENERGY.what,
                unit: unit.trim().to_owned(),
                example,
            });
        }
    };
    ENERGY.check(kcal)
}

/// The measure in the base unit of its kind.
fn measure(text: &str, kind: &Kind) -> Result<f64, MeasureError> {
    let parts = split(text, kind)?;
    let misfit = || MeasureError::Parts {
        what: kind.what,
        text: text.to_owned(),
        example: kind.example,
    };
    match parts.as_slice() {
        [(number, Some(unit))] => Ok(number * kind.units[*unit].size),
        [(large, Some(unit)), (small, follower)] => {
            let then = kind.units[*unit].then.ok_or_else(misfit)?;
            let (size, small_size) = (kind.units[*unit].size, kind.units[then].size);
            let whole = large.fract() == 0.0;
            // 14 inches after feet, or half a foot and inches: more likely a slip.
            let fits = whole && small * small_size < size;
            if !fits || follower.is_some_and(|unit| unit != then) {
                return Err(misfit());
            }
            Ok(large * size + small * small_size)
        }
        [(_, None)] => Err(MeasureError::NoUnit {
            what: kind.what,
            text: text.to_owned(),
            example: kind.example,
        }),
        _ => Err(misfit()),
    }
}

/// Numbers with the place of their unit in `kind.units`, in the order written.
fn split(text: &str, kind: &Kind) -> Result<Vec<(f64, Option<usize>)>, MeasureError> {
    let mut parts = Vec::new();
    let mut rest = text.trim();
    while !rest.is_empty() {
        let (number, after) = number(rest).ok_or_else(|| MeasureError::NoNumber {
            what: kind.what,
            text: text.to_owned(),
            example: kind.example,
        })?;
        let (unit, after) = unit(after, kind)?;
        parts.push((number, unit));
        rest = after.trim_start_matches(|sign: char| sign.is_whitespace() || ".,".contains(sign));
    }
    if parts.is_empty() {
        return Err(MeasureError::NoNumber {
            what: kind.what,
            text: text.to_owned(),
            example: kind.example,
        });
    }
    Ok(parts)
}

/// A number at the start of `text` and what follows it: `5`, `1.78`, `1,78`, `10 1/2`, `10½`.
fn number(text: &str) -> Option<(f64, &str)> {
    let end = text
        .find(|sign: char| !sign.is_ascii_digit() && !".,".contains(sign))
        .unwrap_or(text.len());
    let digits = text[..end].trim_end_matches(['.', ',']);
    let rest = &text[digits.len()..];
    if let (Ok(top), Some((bottom, rest))) = (digits.parse::<f64>(), over(rest)) {
        return Some((top / bottom, rest));
    }
    let whole = if digits.is_empty() {
        None
    } else {
        Some(digits.replace(',', ".").parse::<f64>().ok()?)
    };
    match (whole, fraction(rest)) {
        (None, None) => None,
        (whole, Some((part, rest))) => Some((whole.unwrap_or(0.0) + part, rest)),
        (Some(whole), None) => Some((whole, rest)),
    }
}

/// A fraction at the start of `text`: `½`, ` 1/2`.
fn fraction(text: &str) -> Option<(f64, &str)> {
    let text = text.trim_start();
    for (sign, value) in [('½', 0.5), ('¼', 0.25), ('¾', 0.75)] {
        if let Some(rest) = text.strip_prefix(sign) {
            return Some((value, rest));
        }
    }
    let end = text.find(|sign: char| !sign.is_ascii_digit())?;
    let top: f64 = text[..end].parse().ok()?;
    let (bottom, rest) = over(&text[end..])?;
    (top < bottom).then_some((top / bottom, rest))
}

/// The `/2` of a fraction and what follows; zero is no divisor.
fn over(text: &str) -> Option<(f64, &str)> {
    let text = text.strip_prefix('/')?;
    let end = text
        .find(|sign: char| !sign.is_ascii_digit())
        .unwrap_or(text.len());
    let bottom: f64 = text[..end].parse().ok()?;
    (bottom > 0.0).then_some((bottom, &text[end..]))
}

/// A unit at the start of `text`, if any, and what follows it.
fn unit<'t>(text: &'t str, kind: &Kind) -> Result<(Option<usize>, &'t str), MeasureError> {
    let text = text.trim_start();
    let mark = |sign: char| "'\"′″’”".contains(sign);
    let end = if text.starts_with(mark) {
        text.find(|sign| !mark(sign)).unwrap_or(text.len())
    } else {
        text.find(|sign: char| !sign.is_alphabetic())
            .unwrap_or(text.len())
    };
    if end == 0 {
        return Ok((None, text));
    }
    let word = text[..end].to_lowercase();
    let place = kind
        .units
        .iter()
        .position(|unit| unit.names.contains(&word.as_str()));
    match place {
        Some(place) => Ok((Some(place), &text[end..])),
        None => Err(MeasureError::UnknownUnit {
            what: kind.what,
            unit: text[..end].to_owned(),
            example: kind.example,
        }),
    }
}

#[cfg(test)]
mod tests;
