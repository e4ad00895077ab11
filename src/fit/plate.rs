//! What goes into fitting and what comes out.

use super::kitchen_units::KitchenUnit;
use super::remark::Remark;

/// One component of the dish, as plain figures.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// As the reader knows it.
    pub name: String,
    /// Edible grams as served; above 0.
    pub served_grams: f64,
    /// Energy, kcal in a gram.
    pub energy_kcal_per_g: f64,
    /// What a gram holds of each cap's measure, in the order of [`Budget::caps`].
    pub per_gram: Vec<f64>,
    /// How it is served.
    pub unit: KitchenUnit,
    /// Protein foods, vegetables, fruit and free foods: reduced last.
    pub keep_first: bool,
    /// A sauce or dressing that a kitchen can put on the side.
    pub sauce: bool,
    /// Whether what is left can go home in a box: not a drink, nor what comes in a cup.
    pub boxable: bool,
    /// How many components it stands for; 1, or all that a burger is made of.
    pub components: u32,
}

/// What a cap is held against.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CapKind {
    /// A food group.
    Group,
    /// A limit, such as saturated fat.
    Limit,
}

/// The most of one measure that the plate may hold.
#[derive(Debug, Clone, PartialEq)]
pub struct Cap {
    /// Plain name: `grains`, `saturated fat`.
    pub name: String,
    /// Unit of `most`: `oz-eq`, `g`.
    pub unit: String,
    /// The most; not below 0.
    pub most: f64,
    /// Group or limit.
    pub kind: CapKind,
    /// Whether it is kept whatever it costs; see the module's text.
    pub firm: bool,
    /// A component that holds no more than this of it, as served, hardly carries it: it is not
    /// held to the cap. In `unit`, not below 0.
    pub trace: f64,
    /// What it is the share of, to be read after `of`: `this meal`, `the day`.
    pub of: String,
}

/// What the plate may hold.
#[derive(Debug, Clone, PartialEq)]
pub struct Budget {
    /// Energy, kcal.
    pub energy_kcal: f64,
    /// What the energy is the share of: `this meal`.
    pub of: String,
    /// Groups and limits.
    pub caps: Vec<Cap>,
}

/// One component of the right-sized plate.
#[derive(Debug, Clone, PartialEq)]
pub struct Portion {
    /// The component.
    pub name: String,
    /// Grams served.
    pub served_grams: f64,
    /// Grams to eat.
    pub eat_grams: f64,
    /// The same in kitchen units: `1 1/4 cups`, `all`, `none`.
    pub eat: String,
    /// Grams to box.
    pub box_grams: f64,
    /// The same in kitchen units (`about 1 1/2 cups`); empty when nothing is left.
    pub boxed: String,
    /// Whether it can go home in a box; else it is left.
    pub boxable: bool,
    /// Energy to eat, kcal.
    pub energy_kcal: f64,
    /// Part of the right-sized plate's grams, 0 to 1.
    pub share_by_weight: f64,
    /// Part of the right-sized plate's energy, 0 to 1.
    pub share_by_energy: f64,
    /// What forbids one kitchen step more: `energy` or names of caps.
    pub limited_by: Vec<String>,
}

/// What the plate takes of one cap.
#[derive(Debug, Clone, PartialEq)]
pub struct Use {
    /// The cap's name; `energy` first.
    pub name: String,
    /// Unit of the figures.
    pub unit: String,
    /// In the dish as served.
    pub served: f64,
    /// On the right-sized plate.
    pub eaten: f64,
    /// The most allowed.
    pub most: f64,
    /// What the most is the share of.
    pub of: String,
    /// Whether the right-sized plate passes it: a cap that is not firm, or one that is passed by
    /// what hardly carries it ([`Cap::trace`]).
    pub passed: bool,
    /// Whether it forbids more of some component.
    pub binds: bool,
}

/// The right-sized plate.
#[derive(Debug, Clone, PartialEq)]
pub struct Plate {
    /// The components in their order.
    pub portions: Vec<Portion>,
    /// Energy and caps.
    pub uses: Vec<Use>,
    /// Grams served.
    pub served_grams: f64,
    /// Grams to eat.
    pub eat_grams: f64,
    /// Energy as served, kcal.
    pub served_kcal: f64,
    /// Energy to eat, kcal.
    pub eat_kcal: f64,
    /// What the figures do not say by themselves.
    pub remarks: Vec<Remark>,
    /// How far the plate is from the dish as served: 0 all of it, 1 nothing.
    pub distance: f64,
    /// The proven most by which `distance` exceeds the least possible, as a part of that: at
    /// most [`GAP`](super::GAP), or more when the search was cut short (a dish of twenty
    /// components with many caps at once; up to about 0.05 has been seen).
    pub gap: f64,
}

impl Plate {
    /// Whether the whole dish is eaten.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.portions.iter().all(|p| p.box_grams <= 0.0)
    }

    /// Part of the served grams that is eaten, 0 to 1.
    #[must_use]
    pub fn kept_by_weight(&self) -> f64 {
        part(self.eat_grams, self.served_grams)
    }

    /// Part of the served energy that is eaten, 0 to 1.
    #[must_use]
    pub fn kept_by_energy(&self) -> f64 {
        part(self.eat_kcal, self.served_kcal)
    }
}

/// Name, unit and whose share of a row: energy first, then the caps.
pub(super) fn naming(budget: &Budget, row: usize) -> (&str, &str, &str) {
    match row.checked_sub(1).and_then(|at| budget.caps.get(at)) {
        Some(cap) => (&cap.name, &cap.unit, &cap.of),
        None => ("energy", "kcal", &budget.of),
    }
}

/// `some / whole`, 0 when there is no whole.
pub(super) fn part(some: f64, whole: f64) -> f64 {
    if whole > 0.0 { some / whole } else { 0.0 }
}

/// Why there is no right-sized plate.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Unfit {
    /// No component at all.
    #[error(
        "the dish has no component with a known weight; add amounts, for example `2 cups rice`"
    )]
    Empty,
    /// A figure is not a number in its range.
    #[error("{what} of `{item}` is {value}; it must be a number {range}")]
    Figure {
        /// The component, or the cap.
        item: String,
        /// Which figure.
        what: &'static str,
        /// Its value.
        value: f64,
        /// What it must be.
        range: &'static str,
    },
    /// A component with more or fewer figures than there are caps.
    #[error("`{item}` has {figures} figures for {caps} caps; give one for each")]
    Length {
        /// The component.
        item: String,
        /// Figures given.
        figures: usize,
        /// Caps given.
        caps: usize,
    },
    /// No energy is left.
    #[error(
        "no energy is left of {}; box the dish, or give more with `--energy`",
        of.strip_prefix("what is left of ").unwrap_or(of)
    )]
    Spent {
        /// What it would be the share of.
        of: String,
    },
    /// Not one step of any component keeps the caps.
    #[error("nothing of the dish fits: {}", .reasons.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))]
    Nothing {
        /// One for each component.
        reasons: Vec<Remark>,
    },
    /// The solver gave up.
    #[error("the amounts could not be worked out ({0}); try a dish with fewer components")]
    Solver(String),
}
