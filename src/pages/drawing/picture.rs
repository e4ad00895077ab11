//! What a drawing is made from: plain data, filled by the audit or by hand.

use super::texture::Texture;
use crate::quantity::Range;

/// One vessel with its food, seen from above.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// Name of the dish, as a reader should see it.
    pub title: String,
    /// What the food lies in.
    pub vessel: Vessel,
    /// How the vessel's size is known.
    pub basis: VesselBasis,
    /// The piles. Only food with a volume of its own belongs here: absorbed frying fat does not.
    pub patches: Vec<Patch>,
}

/// A plate or a bowl, round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Vessel {
    /// A flat plate.
    Plate {
        /// Outer diameter in cm.
        diameter_cm: f64,
        /// Width of the rim in cm; the well is what the two rims leave.
        rim_cm: f64,
    },
    /// A bowl.
    Bowl {
        /// Inner diameter at the brim in cm.
        diameter_cm: f64,
        /// Inner depth at the middle in cm.
        depth_cm: f64,
        /// Brim capacity in ml.
        capacity_ml: f64,
    },
}

/// How the size of the vessel is known, which decides what gives way when the food does not fit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum VesselBasis {
    /// Somebody said it: the food is piled deeper first.
    Stated,
    /// Taken as usual for such a dish: a larger vessel is taken first.
    Typical,
}

/// One pile of one food.
#[derive(Debug, Clone, PartialEq)]
pub struct Patch {
    /// Name of the food.
    pub label: String,
    /// The household size, such as `about 2 cups`.
    pub size_words: String,
    /// Food group, which decides the texture.
    pub texture: Texture,
    /// Volume in ml as it lies on the plate, spaces between pieces included.
    pub volume_ml: Range,
    /// Mean depth of the pile in cm. In a bowl the bowl's own shape gives the depth instead.
    pub mean_depth_cm: f64,
    /// Whether this food's group is beyond the day's share: marked by word and accent.
    pub beyond_day: bool,
}
