//! What a drawing is made from: plain data, filled by the audit or by hand.

use super::forms::Look;
use super::texture::Texture;
use crate::quantity::Range;

/// One dish as it stands on the table.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// Name of the dish, as a reader should see it.
    pub title: String,
    /// The plate; `None` where everything stands in a vessel of its own.
    pub plate: Option<Plate>,
    /// The foods. Only food with a volume of its own belongs here: absorbed frying fat does not.
    pub foods: Vec<Patch>,
    /// What lies on the plate, foods by their place in `foods`, each of them once here or
    /// in `beside`.
    pub on_plate: Vec<Mass>,
    /// What stands beside the plate, or alone.
    pub beside: Vec<Mass>,
    /// Food groups of the whole, for the strip under it.
    pub strip: Vec<Portions>,
}

/// A plate, round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plate {
    /// Outer diameter in cm.
    pub diameter_cm: f64,
    /// Whether somebody said its size; else it is the usual one and may give way.
    pub stated: bool,
}

/// One food.
#[derive(Debug, Clone, PartialEq)]
pub struct Patch {
    /// Name of the food.
    pub label: String,
    /// The household size, such as `2 cups`.
    pub size_words: String,
    /// Food group with the greatest share of a day in it.
    pub texture: Texture,
    /// Volume in ml as it lies on the plate, spaces between pieces included.
    pub volume_ml: Range,
    /// How it looks.
    pub look: Look,
}

/// Foods that lie together.
#[derive(Debug, Clone, PartialEq)]
pub enum Mass {
    /// One food by itself.
    Food(usize),
    /// Something lying on something: a sauce on noodles, toppings on a salad.
    On {
        /// What it lies on.
        under: Box<Mass>,
        /// What lies on it.
        over: Vec<Mass>,
    },
    /// Layers, the lowest first, between two halves of the holder.
    Stack {
        /// What sort of thing it is.
        sort: StackSort,
        /// The bun or bread.
        holder: usize,
        /// What is in it, the lowest first.
        layers: Vec<usize>,
    },
    /// A shell with something in it.
    Filled {
        /// What sort of thing it is.
        sort: FilledSort,
        /// The tortilla or pocket.
        shell: usize,
        /// What is in it.
        inside: Vec<usize>,
        /// How many there are.
        count: u32,
    },
    /// A pizza: base, what covers it, toppings.
    Pizza {
        /// The base.
        base: usize,
        /// Sauce, cheese and toppings.
        over: Vec<usize>,
    },
    /// A bowl of its own.
    Bowl(Vec<usize>),
    /// A little dish of sauce.
    Ramekin(usize),
    /// Something to drink.
    Glass {
        /// What it is served in.
        sort: GlassSort,
        /// What is in it.
        foods: Vec<usize>,
    },
}

/// Things with layers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StackSort {
    /// A round bun.
    Bun,
    /// Two slices of bread.
    Slices,
    /// A long roll.
    Long,
    /// A half without its lid.
    Open,
}

/// Things with a filling.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FilledSort {
    /// Rolled up, drawn cut open along its length.
    Rolled,
    /// Folded, open at the top.
    Folded,
    /// Folded flat and cut into wedges.
    Wedges,
    /// Rolled in rice and seaweed, cut across.
    Rounds,
}

/// What drinks are served in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GlassSort {
    /// A straight glass.
    Tumbler,
    /// A beer glass.
    Beer,
    /// A wine glass.
    Wine,
    /// A stemmed cocktail glass.
    Stemmed,
    /// A mug.
    Mug,
    /// A cup with a lid and a straw.
    Lidded,
    /// A bottle.
    Bottle,
}

/// How much of a food group the whole holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Portions {
    /// The group.
    pub texture: Texture,
    /// How much, such as `6.2 oz-eq`.
    pub amount: String,
    /// Which part of a day that is, such as `about half a day`; empty when no day is known.
    pub share_words: String,
    /// The same as a number, 1 for a day.
    pub share: Option<f64>,
}
