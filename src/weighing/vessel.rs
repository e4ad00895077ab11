//! Plates, bowls, tubs and scoops: how much they hold, and what a share of one weighs.

use super::phrases::PhraseTable;
use super::weigh::{Basis, Weight, grams_per_ml};
use crate::foods::Food;
use crate::quantity::Estimate;
use crate::quantity::units::{FLUID_OUNCE_ML, INCH_CM};
use crate::reading::{Served, ShareOf, Size, VolumeUnit};
use crate::words::{prepared, prepared_rows, words_of};
use serde::Deserialize;
use std::sync::LazyLock;

/// Usual mean depth of food on a plate when no height is said (common practice: three
/// quarters of an inch to an inch).
const USUAL_DEPTH_CM: f64 = 2.2;
/// Mean height of heaped food over the height of its middle: between a rounded heap (0.5)
/// and a slab (1).
const HEAP_FULLNESS: f64 = 0.7;
/// Log spread of a share judged by eye with its height said, and without.
const BY_EYE: f64 = 0.28;
const BY_EYE_NO_HEIGHT: f64 = 0.36;

#[derive(Debug, Deserialize)]
struct Row {
    name: String,
    words_base: String,
    diameter_in: Option<f64>,
    flat_share: Option<f64>,
    capacity_fl_oz: Option<f64>,
    usual_fill: Option<f64>,
    log_sd: f64,
    source: String,
}

/// A sort of plate or container.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct VesselKind {
    /// Its name.
    pub name: String,
    /// Diameter in inches, if it is flat.
    pub inches: Option<f64>,
    /// Share of the diameter that food lies on.
    pub flat_share: f64,
    /// Millilitres to the brim, if it is hollow.
    pub millilitres: Option<f64>,
    /// Share of the brim volume that is usually filled.
    pub usual_fill: f64,
    /// Spread of the log of what it holds when only its name is known.
    pub log_sd: f64,
    /// Where the sizes come from.
    pub source: String,
}

const TEXT: &str = prepared!("vessels.csv");

static TABLE: LazyLock<PhraseTable<VesselKind>> = LazyLock::new(|| {
    let list = prepared_rows::<Row>(TEXT).into_iter();
    PhraseTable::new(list.map(|row| (row.words_base.clone(), row.into())))
});

impl From<Row> for VesselKind {
    fn from(row: Row) -> Self {
        Self {
            name: row.name,
            inches: row.diameter_in,
            flat_share: row.flat_share.unwrap_or(1.0),
            millilitres: row.capacity_fl_oz.map(|oz| oz * FLUID_OUNCE_ML),
            usual_fill: row.usual_fill.unwrap_or(1.0),
            log_sd: row.log_sd,
            source: row.source,
        }
    }
}

/// The vessel that words name.
#[must_use]
pub(crate) fn vessel_kind(text: &str) -> Option<&'static VesselKind> {
    TABLE.longest(&words_of(text)).map(|hit| hit.row)
}

/// Sizes of vessels said in words, as a factor on their volume (common practice).
fn size_factor(size: Option<Size>) -> f64 {
    match size {
        Some(Size::Mini) => 0.5,
        Some(Size::Small) => 0.75,
        Some(Size::Large) => 1.35,
        Some(Size::ExtraLarge) => 1.8,
        _ => 1.0,
    }
}

/// Millilitres of food in or on a whole vessel, and the spread of their log.
#[derive(Debug, Clone, PartialEq)]
struct Room {
    millilitres: f64,
    log_sd: f64,
    told: String,
}

/// What is known of a vessel from the words.
struct Told<'t> {
    text: &'t str,
    name: &'t str,
    inches: Option<f64>,
    millilitres: Option<f64>,
    size: Option<Size>,
    heap_inches: Option<f64>,
}

/// Room of a vessel: its stated capacity, or the capacity or flat area its name implies.
/// `full` is the share of the brim volume filled; for plates it scales the depth.
fn room(told: &Told<'_>, full: Option<f64>) -> Option<Room> {
    let kind = vessel_kind(told.text).or_else(|| vessel_kind(told.name));
    if let Some(millilitres) = told.millilitres {
        let fill = full.or(kind.map(|k| k.usual_fill)).unwrap_or(0.85);
        return Some(Room {
            millilitres: millilitres * fill,
            log_sd: if full.is_some() { 0.08 } else { 0.2 },
            told: format!(
                "{:.0} ml {} filled to {:.0} %",
                millilitres,
                told.name,
                fill * 100.0
            ),
        });
    }
    let kind = kind?;
    if let (Some(millilitres), None) = (kind.millilitres, told.inches) {
        let brim = millilitres * size_factor(told.size);
        let fill = full.unwrap_or(kind.usual_fill);
        return Some(Room {
            millilitres: brim * fill,
            log_sd: kind.log_sd,
            told: format!(
                "{} of {brim:.0} ml filled to {:.0} % ({})",
                kind.name,
                fill * 100.0,
                kind.source
            ),
        });
    }
    // A bowl known only by its diameter is about a third of a ball of that diameter.
    if let (Some(_), Some(inches)) = (kind.millilitres, told.inches) {
        let radius = inches * INCH_CM / 2.0;
        let brim = 2.0 / 3.0 * std::f64::consts::PI * radius.powi(3) * 0.7;
        let fill = full.unwrap_or(kind.usual_fill);
        return Some(Room {
            millilitres: brim * fill,
            log_sd: 0.3,
            told: format!("{inches} in {}", kind.name),
        });
    }
    let inches = told.inches.or(kind.inches)? * size_factor(told.size).cbrt();
    let area = well_area(inches * INCH_CM, kind.flat_share);
    let depth = match told.heap_inches {
        Some(height) => height * INCH_CM * HEAP_FULLNESS,
        None => USUAL_DEPTH_CM * full.unwrap_or(1.0).min(1.5),
    };
    Some(Room {
        millilitres: area * depth,
        log_sd: if told.heap_inches.is_some() {
            BY_EYE
        } else {
            BY_EYE_NO_HEIGHT
        },
        told: format!(
            "{inches:.1} in {}, {area:.0} cm² of it flat, {depth:.1} cm of food on average ({})",
            kind.name, kind.source
        ),
    })
}

/// The weight of a food that takes up `share` of a vessel; `fraction` stands in for a share
/// that was said as `the rest`.
#[must_use]
pub(crate) fn weigh_share(
    food: &Food<'_>,
    food_words: &str,
    share: &ShareOf,
    fraction: f64,
) -> Option<Weight> {
    let told = Told {
        text: &share.text,
        name: share.vessel.name(),
        inches: share.inches,
        millilitres: share.millilitres,
        size: share.size,
        heap_inches: share.heap_inches,
    };
    let room = room(&told, None)?;
    let (density, rests_on) = grams_per_ml(food, VolumeUnit::Cup, &words_of(food_words));
    let part = share.fraction.map_or(fraction, |f| f.likely);
    let grams = room.millilitres * part * density;
    Some(Weight {
        grams: Estimate::new(grams, room.log_sd.hypot(0.1)),
        basis: Basis::Vessel,
        steps: vec![
            format!("{:.0} % of a {}", part * 100.0, room.told),
            rests_on,
        ],
    })
}

/// Grams of a whole serving: a weight as said, or a volume or vessel at `density` grams a
/// millilitre. `None` when the vessel is not known.
#[must_use]
pub(crate) fn served_grams(served: &Served, density: f64) -> Option<Estimate> {
    match served {
        Served::Weight(amount) => Some(Estimate::from_range(amount.number).doubted(0.03)),
        Served::Volume(amount) => {
            let millilitres = Estimate::from_range(amount.number);
            Some(millilitres.times(density).doubted(0.1))
        }
        Served::Vessel {
            text,
            vessel,
            inches,
            millilitres,
            size,
            fullness,
        } => {
            let told = Told {
                text,
                name: vessel.map_or("bowl", crate::reading::Vessel::name),
                inches: *inches,
                millilitres: *millilitres,
                size: *size,
                heap_inches: None,
            };
            let room = room(&told, Some(fullness.likely))?;
            let fill = Estimate::from_range(*fullness).log_sd;
            Some(Estimate::new(
                room.millilitres * density,
                room.log_sd.hypot(fill).hypot(0.1),
            ))
        }
    }
}

/// Area of a round plate's flat part, cm², from its whole diameter and the share of the
/// diameter that is flat.
fn well_area(diameter_cm: f64, flat_share: f64) -> f64 {
    std::f64::consts::PI * (diameter_cm * flat_share / 2.0).powi(2)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::{UnitSystem, Vessel, parse_served};

    fn grams(text: &str, density: f64) -> Estimate {
        served_grams(&parse_served(text, UnitSystem::Us).expect("reads"), density)
            .expect("a vessel")
    }

    #[test]
    fn every_row_reads() {
        let lines = TEXT.lines().skip(1).filter(|l| !l.is_empty());
        assert_eq!(TABLE.rows().len(), lines.count());
        for v in TABLE.rows() {
            assert!(
                v.inches.is_some() != v.millilitres.is_some(),
                "{} is flat or hollow",
                v.name
            );
        }
        for v in [
            Vessel::Plate,
            Vessel::Bowl,
            Vessel::Tub,
            Vessel::Tray,
            Vessel::Box,
            Vessel::Skillet,
        ] {
            assert!(vessel_kind(v.name()).is_some(), "{}", v.name());
        }
    }

    /// 32 US fl oz are 946 ml (NIST Handbook 44); filled as kitchens fill, some nine tenths.
    #[test]
    fn a_full_32_ounce_bowl() {
        let full = grams("32 fl oz bowl, full", 1.0);
        assert!((full.mean - 861.0).abs() < 10.0, "{full:?}");
        let half = grams("32 fl oz bowl, half full", 1.0);
        assert!((half.mean / full.mean - 0.55).abs() < 0.08, "{half:?}");
    }

    #[test]
    fn a_weight_is_a_weight() {
        let range = grams("450 g", 1.0).range();
        assert!(
            (range.likely - 450.0).abs() < 1e-9 && range.high < 480.0,
            "{range:?}"
        );
    }
}
