//! The limits of what is read, in one table, with the words used for them in messages.

/// A closed range of legal figures, `above` exclusive and `up_to` inclusive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bound {
    /// What the figure is, as told to the user.
    pub label: &'static str,
    /// The unit, as told to the user.
    pub unit: &'static str,
    /// The figure must be greater than this.
    pub above: f64,
    /// The figure must not be greater than this.
    pub up_to: f64,
}

impl Bound {
    /// Whether `figure` is legal. Not-a-number and infinities are not.
    #[must_use]
    pub(crate) fn holds(&self, figure: f64) -> bool {
        figure > self.above && figure <= self.up_to
    }
}

/// Grams of one component. The upper end is a whole roast pig for a table: more is a slip.
pub(crate) const GRAMS: Bound = Bound {
    label: "weight of one component",
    unit: "g",
    above: 0.0,
    up_to: 20_000.0,
};

/// Millilitres of one component.
pub(crate) const MILLILITRES: Bound = Bound {
    label: "volume of one component",
    unit: "ml",
    above: 0.0,
    up_to: 20_000.0,
};

/// Pieces of one component.
pub(crate) const PIECES: Bound = Bound {
    label: "count of one component",
    unit: "pieces",
    above: 0.0,
    up_to: 1_000.0,
};

/// Servings that a dish file makes.
pub const SERVINGS: Bound = Bound {
    label: "number of servings",
    unit: "servings",
    above: 0.0,
    up_to: 1_000.0,
};

/// Diameter or length of a piece or a vessel, in inches.
pub(crate) const INCHES: Bound = Bound {
    label: "diameter or length",
    unit: "inches",
    above: 0.0,
    up_to: 60.0,
};

/// Share of a vessel.
pub(crate) const SHARE: Bound = Bound {
    label: "share of a vessel",
    unit: "of the whole",
    above: 0.0,
    up_to: 1.0,
};

/// Grams per millilitre that a weight and a volume on one line may imply. Popped corn is
/// about 0.03, honey 1.42 (household weights of USDA SR 28); beyond lies a slip.
pub(crate) const GRAMS_PER_MILLILITRE: Bound = Bound {
    label: "weight per volume",
    unit: "g/ml",
    above: 0.015,
    up_to: 2.5,
};

/// Two weights, or two volumes, on one line agree when they differ by no more than this
/// factor: `1 oz (30 g)` and `1 oz (25 g)` are both everyday rounding.
pub(crate) const AGREEMENT_FACTOR: f64 = 1.15;

/// Longest line read, in characters.
pub(crate) const LINE_CHARACTERS: usize = 10_000;

/// Largest text read as one file or one standard input, in bytes.
pub(crate) const TEXT_BYTES: usize = 4 * 1024 * 1024;
