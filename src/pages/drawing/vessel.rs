//! Vessels: does the food fit, how deep does it lie, what gives way when it does not.

use super::picture::{Picture, Vessel, VesselBasis};
use std::f64::consts::PI;

/// Outer diameters in cm to which a plate that is too small gives way. Source: middle of the
/// ranges for bread, salad, luncheon, dinner and entree plates and platters in a hotel
/// dinnerware ordering guideline (trade page); common practice.
const PLATE_SIZES_CM: [f64; 9] = [15.5, 19.5, 22.5, 25.0, 26.5, 30.5, 33.0, 35.5, 38.0];

/// Most height of top view and section together, as a multiple of the width given to a vessel.
const TALLEST: f64 = 1.7;

/// Step in cm by which a bowl's diameter grows (common practice: an inch).
const BOWL_STEP_CM: f64 = 2.5;

/// Largest bowl diameter in cm tried before the heap just grows.
const BOWL_LARGEST_CM: f64 = 40.0;

/// Share of the well that piles may cover: round piles leave corners free.
pub(super) const WELL_SHARE: f64 = 1.0 / 1.06;

/// How many times its usual depth a pile may reach before a *stated* plate is thought larger.
const DEEPEST_PILE: f64 = 2.0;

/// Fill over the brim, as a multiple of the capacity, that still counts as a heap: for a bowl
/// whose size is typical, and for one whose size is stated.
const HEAP: (f64, f64) = (1.25, 1.6);

/// The vessel as drawn, with what had to give way.
#[derive(Debug, Clone, PartialEq)]
pub struct Setting {
    /// The vessel drawn.
    pub vessel: Vessel,
    /// Piles are drawn this many times as deep as given (1 or more; plates only).
    pub deeper: f64,
    /// How a bowl is filled; `None` for a plate.
    pub fill: Option<Fill>,
    /// What the reader must know, one sentence each.
    pub notes: Vec<String>,
}

/// How far a bowl is filled.
#[derive(Debug, Clone, Copy, PartialEq)]
#[allow(clippy::struct_field_names)] // The shared ending is the unit.
pub struct Fill {
    /// Height of the food's edge above the bottom in cm.
    pub height_cm: f64,
    /// Radius of the surface in cm.
    pub radius_cm: f64,
    /// Height of the heap above the brim in cm; 0 when the bowl holds the food.
    pub heap_cm: f64,
}

/// The inside of a bowl: radius grows as a power of the height, the power chosen so that the
/// brim capacity is right (a straight cone to nearly a cylinder).
#[derive(Debug, Clone, Copy)]
pub(super) struct BowlShape {
    radius_cm: f64,
    depth_cm: f64,
    capacity_ml: f64,
    power: f64,
}

impl BowlShape {
    pub(super) fn new(diameter_cm: f64, depth_cm: f64, capacity_ml: f64) -> Self {
        let radius_cm = diameter_cm / 2.0;
        let box_ml = PI * radius_cm * radius_cm * depth_cm;
        // Shares outside these are no round bowl; the stated capacity still rules the filling.
        let share = (capacity_ml / box_ml).clamp(0.34, 0.95);
        Self {
            radius_cm,
            depth_cm,
            capacity_ml,
            power: 2.0 * share / (1.0 - share),
        }
    }

    /// Inner radius in cm at a height in cm above the bottom.
    pub(super) fn radius_at(&self, height_cm: f64) -> f64 {
        self.radius_cm
            * (height_cm / self.depth_cm)
                .clamp(0.0, 1.0)
                .powf(1.0 / self.power)
    }

    /// How far a volume fills the bowl.
    pub(super) fn fill(&self, volume_ml: f64) -> Fill {
        let part = (volume_ml / self.capacity_ml).max(0.0);
        let height_cm = self.depth_cm * part.min(1.0).powf(self.power / (self.power + 2.0));
        let over_ml = (volume_ml - self.capacity_ml).max(0.0);
        Fill {
            height_cm,
            radius_cm: self.radius_at(height_cm),
            // A heap with a rounded top (paraboloid): half its base times its height.
            heap_cm: 2.0 * over_ml / (PI * self.radius_cm * self.radius_cm),
        }
    }
}

impl Vessel {
    /// Outer diameter in cm.
    #[must_use]
    pub const fn diameter_cm(self) -> f64 {
        match self {
            Self::Plate { diameter_cm, .. } | Self::Bowl { diameter_cm, .. } => diameter_cm,
        }
    }

    /// What the scale of a drawing is chosen by, in cm: the diameter, or for a glass more, or
    /// its section would run off the page.
    pub(super) fn extent_cm(self) -> f64 {
        match self {
            Self::Bowl {
                diameter_cm,
                depth_cm,
                ..
            } => diameter_cm.max((diameter_cm + depth_cm) / TALLEST),
            Self::Plate { diameter_cm, .. } => diameter_cm,
        }
    }

    /// Radius in cm of the part that takes food: the well of a plate, the brim of a bowl.
    #[must_use]
    pub fn well_radius_cm(self) -> f64 {
        match self {
            // A rim wider than a third of the plate is a slip of the pen.
            Self::Plate {
                diameter_cm,
                rim_cm,
            } => diameter_cm / 2.0 - rim_cm.clamp(0.0, diameter_cm / 3.0),
            Self::Bowl { diameter_cm, .. } => diameter_cm / 2.0,
        }
    }

    /// Whether it is deeper than wide.
    #[must_use]
    pub fn is_glass(self) -> bool {
        matches!(self, Self::Bowl { diameter_cm, depth_cm, .. } if depth_cm > diameter_cm)
    }

    /// Plate, bowl or glass with its diameter, for a reader.
    #[must_use]
    pub fn words(self) -> String {
        let kind = match self {
            Self::Plate { .. } => "plate",
            Self::Bowl { .. } if self.is_glass() => "glass",
            Self::Bowl { .. } => "bowl",
        };
        format!("{} cm {kind}", short(self.diameter_cm()))
    }

    /// The same kind of vessel one trade size up; `None` when there is none.
    fn next_size(self) -> Option<Self> {
        match self {
            Self::Plate {
                diameter_cm,
                rim_cm,
            } => PLATE_SIZES_CM
                .into_iter()
                .find(|size| *size > diameter_cm + 0.5)
                .map(|size| Self::Plate {
                    diameter_cm: size,
                    rim_cm,
                }),
            Self::Bowl {
                diameter_cm,
                depth_cm,
                capacity_ml,
            } => {
                let larger = diameter_cm + BOWL_STEP_CM;
                let factor = larger / diameter_cm;
                (larger <= BOWL_LARGEST_CM).then_some(Self::Bowl {
                    diameter_cm: larger,
                    depth_cm: depth_cm * factor,
                    capacity_ml: capacity_ml * factor.powi(3),
                })
            }
        }
    }

    /// How crowded the vessel is: 1 is full at the usual depth (plate) or to the brim (bowl).
    fn crowding(self, picture: &Picture) -> f64 {
        match self {
            Self::Plate { .. } => {
                let wanted: f64 = picture.patches.iter().map(|p| p.area_cm2(1.0)).sum();
                wanted / (PI * self.well_radius_cm().powi(2) * WELL_SHARE)
            }
            Self::Bowl { capacity_ml, .. } => picture.likely_ml() / capacity_ml,
        }
    }

    /// This vessel, or the first larger one that is crowded at most `limit`.
    fn grown_for(self, picture: &Picture, limit: f64) -> Self {
        let mut vessel = self;
        while vessel.crowding(picture) > limit {
            match vessel.next_size() {
                Some(larger) => vessel = larger,
                None => break,
            }
        }
        vessel
    }
}

impl super::picture::Patch {
    /// Area in cm² of the likely volume, piled `deeper` times the mean depth.
    #[must_use]
    pub fn area_cm2(&self, deeper: f64) -> f64 {
        self.volume_ml.likely.max(0.0) / (self.mean_depth_cm.max(0.1) * deeper)
    }
}

impl Picture {
    /// Sum of the likely volumes in ml.
    #[must_use]
    pub fn likely_ml(&self) -> f64 {
        self.patches
            .iter()
            .map(|p| p.volume_ml.likely.max(0.0))
            .sum()
    }

    /// High end of the whole in ml, the piles' errors taken as independent.
    #[must_use]
    pub fn high_ml(&self) -> f64 {
        let spread = self
            .patches
            .iter()
            .map(|p| p.volume_ml.high - p.volume_ml.likely);
        self.likely_ml() + spread.map(|s| s * s).sum::<f64>().sqrt()
    }

    fn limit(&self) -> f64 {
        match (self.vessel, self.basis) {
            (Vessel::Plate { .. }, VesselBasis::Typical) => 1.0,
            (Vessel::Plate { .. }, VesselBasis::Stated) => DEEPEST_PILE,
            (Vessel::Bowl { .. }, VesselBasis::Typical) => HEAP.0,
            (Vessel::Bowl { .. }, VesselBasis::Stated) => HEAP.1,
        }
    }
}

/// Settles vessels and depths for pictures shown together.
///
/// Plates share one depth factor, or their areas could not be compared; pictures that name
/// the same vessel keep the same one.
#[must_use]
pub fn settle(pictures: &[&Picture]) -> Vec<Setting> {
    let grown: Vec<Vessel> = pictures
        .iter()
        .map(|p| p.vessel.grown_for(p, p.limit()))
        .collect();
    let vessels: Vec<Vessel> = pictures
        .iter()
        .map(|picture| {
            let same = pictures
                .iter()
                .zip(&grown)
                .filter(|(p, _)| p.vessel == picture.vessel);
            same.map(|(_, vessel)| *vessel)
                .max_by(|a, b| a.diameter_cm().total_cmp(&b.diameter_cm()))
                .unwrap_or(picture.vessel)
        })
        .collect();
    let deeper = pictures
        .iter()
        .zip(&vessels)
        .filter(|(_, vessel)| matches!(vessel, Vessel::Plate { .. }))
        .map(|(picture, vessel)| vessel.crowding(picture))
        .fold(1.0, f64::max);
    pictures
        .iter()
        .zip(vessels)
        .map(|(picture, vessel)| setting(picture, vessel, deeper))
        .collect()
}

fn setting(picture: &Picture, vessel: Vessel, deeper: f64) -> Setting {
    let mut notes = Vec::new();
    // That a usual plate grew says nothing of the kitchen: there, food lies on food.
    if vessel != picture.vessel && picture.basis == VesselBasis::Stated {
        notes.push(format!(
            "Drawn on a {} so that every food lies by itself.",
            vessel.words(),
        ));
    }
    let (fill, deeper) = match vessel {
        Vessel::Plate { .. } => {
            if deeper > 1.005 {
                notes.push(format!(
                    "Piles are drawn {deeper:.1} times as deep as usual so that the food fits."
                ));
            }
            (None, deeper)
        }
        Vessel::Bowl {
            diameter_cm,
            depth_cm,
            capacity_ml,
        } => {
            let fill = BowlShape::new(diameter_cm, depth_cm, capacity_ml).fill(picture.likely_ml());
            if fill.heap_cm > 0.05 {
                notes.push(format!(
                    "Heaped about {} cm over the brim.",
                    short(fill.heap_cm)
                ));
            }
            (Some(fill), 1.0)
        }
    };
    Setting {
        vessel,
        deeper,
        fill,
        notes,
    }
}

/// A length with one decimal, or none when it is whole.
pub(super) fn short(value: f64) -> String {
    let text = format!("{value:.1}");
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}

#[cfg(test)]
mod tests {
    use super::{BowlShape, settle};
    use crate::pages::drawing::picture::{Patch, Picture, Vessel, VesselBasis};
    use crate::pages::drawing::texture::Texture;
    use crate::quantity::Range;

    fn plate_with(volume_ml: f64, basis: VesselBasis) -> Picture {
        Picture {
            title: "rice".to_owned(),
            vessel: Vessel::Plate {
                diameter_cm: 25.0,
                rim_cm: 3.0,
            },
            basis,
            patches: vec![Patch {
                label: "rice".to_owned(),
                size_words: String::new(),
                texture: Texture::Grains,
                volume_ml: Range::exact(volume_ml),
                mean_depth_cm: 2.0,
                beyond_day: false,
            }],
        }
    }

    #[test]
    fn food_that_fits_changes_nothing() {
        let picture = plate_with(400.0, VesselBasis::Stated);
        let setting = &settle(&[&picture])[0];
        assert_eq!(setting.vessel, picture.vessel);
        assert!((setting.deeper - 1.0).abs() < 1e-9);
        assert!(setting.notes.is_empty());
    }

    #[test]
    fn a_stated_plate_is_piled_deeper_and_says_so() {
        // The well is 19 cm across, 283.5 cm², of which 267.5 may be covered: 535 ml at 2 cm.
        let picture = plate_with(800.0, VesselBasis::Stated);
        let setting = &settle(&[&picture])[0];
        assert_eq!(setting.vessel, picture.vessel);
        assert!((setting.deeper - 800.0 / 535.0).abs() < 0.01);
        assert_eq!(
            setting.notes,
            ["Piles are drawn 1.5 times as deep as usual so that the food fits."]
        );
    }

    #[test]
    fn a_typical_plate_grows() {
        let setting = &settle(&[&plate_with(800.0, VesselBasis::Typical)])[0];
        assert!((setting.vessel.diameter_cm() - 30.5).abs() < 1e-9);
        assert!(setting.notes.is_empty());
    }

    #[test]
    fn plates_shown_together_share_plate_and_depth() {
        let served = plate_with(3000.0, VesselBasis::Stated);
        let fitted = plate_with(300.0, VesselBasis::Stated);
        let settings = settle(&[&served, &fitted]);
        assert_eq!(settings[0].vessel, settings[1].vessel);
        assert!((settings[0].deeper - settings[1].deeper).abs() < 1e-12);
        assert!(settings[0].deeper > 1.0);
    }

    #[test]
    fn a_bowl_fills_by_its_own_shape() {
        // Half the box of 16 x 8 cm is a paraboloid: half full is the depth over root two.
        let box_ml = std::f64::consts::PI * 64.0 * 8.0;
        let bowl = BowlShape::new(16.0, 8.0, box_ml / 2.0);
        let fill = bowl.fill(box_ml / 4.0);
        assert!((fill.height_cm - 8.0 / 2f64.sqrt()).abs() < 1e-9);
        assert!((fill.radius_cm - 8.0 / 2f64.powf(0.25)).abs() < 1e-9);
        assert!(fill.heap_cm.abs() < 1e-9);
        assert!(bowl.fill(box_ml).heap_cm > 1.0);
    }
}
