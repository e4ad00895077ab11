//! How one food looks on the table: its texture, its volume, how deep it lies, and whether it
//! is drawn at all.

use super::look::{Goes, head, look};
use super::portions::Fitted;
use super::words::{fractions, own_units, short_name};
use crate::fit::{KitchenUnit, kitchen_unit};
use crate::foods::{Food, FoodId, Trait, family_has};
use crate::ledger::{AuditedComponent, Group};
use crate::matching::Catalogue;
use crate::pages::drawing::{Look, Texture};
use crate::quantity::units::CUP_ML;
use crate::quantity::{Estimate, Range};
use crate::reading::{Amount, Measure, UnitSystem, VolumeUnit};
use crate::weighing::{Basis, WeighedComponent, weigh};

/// More pieces than this are told by the cup: nobody counts fries.
const MOST_PIECES: f64 = 12.0;

/// Smaller piles are not drawn: two teaspoons would be a dot with a name. Own choice.
const SMALLEST_ML: f64 = 10.0;

/// Where a food is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::pages) enum Place {
    /// Seen on the table.
    Drawn,
    /// In the dish without a pile of its own: frying fat, sugar in a sauce, a pinch of herbs.
    In,
}

/// One component as it lies on the table.
#[derive(Debug, Clone)]
pub(in crate::pages) struct Seen {
    /// Its place among the dish's components.
    pub at: usize,
    pub name: String,
    /// Household size, such as `1¼ cups`.
    pub size: String,
    pub food: FoodId,
    pub family: String,
    pub grams: f64,
    pub grams_range: Range,
    pub group: Option<Group>,
    pub texture: Texture,
    pub volume_ml: Range,
    pub look: Look,
    pub(super) goes: Goes,
    pub place: Place,
    unit: KitchenUnit,
}

impl Seen {
    /// `None` without a food or a weight.
    pub(super) fn of(
        at: usize,
        component: &WeighedComponent,
        audited: &AuditedComponent,
        catalogue: &Catalogue,
    ) -> Option<Self> {
        let food = catalogue.food(component.matched.food?);
        let grams = component
            .grams()
            .map(Estimate::range)
            .filter(|g| g.likely > 0.0)?;
        let volume_ml = grams.times(1.0 / grams_per_ml(&food));
        let unit = kitchen_unit(component, catalogue).unwrap_or_else(KitchenUnit::ounces);
        let group = main_group(audited, food.family());
        let said = component.matched.line.food.to_lowercase();
        let (look, goes) = look(
            &format!("{} {}", head(&said), head(&food.name().to_lowercase())),
            food.family(),
            pieces(&unit, grams.likely),
        );
        Some(Self {
            at,
            name: short_name(&component.matched.line.food),
            size: size(&unit, grams.likely, volume_ml.likely),
            food: food.id(),
            family: food.family().to_owned(),
            grams: grams.likely,
            grams_range: grams,
            group,
            texture: group.map_or(Texture::Other, |g| Texture::for_group(g.key())),
            volume_ml,
            place: place(component, volume_ml.likely, goes),
            look,
            goes,
            unit,
        })
    }

    /// The same food on the right-sized plate; `None` when none of it is eaten.
    pub(crate) fn eaten(&self, fitted: &Fitted) -> Option<Self> {
        let part = fitted.part(self.at);
        (part > 0.0).then(|| Self {
            look: Look {
                count: pieces(&self.unit, self.grams * part),
                ..self.look.clone()
            },
            size: size(&self.unit, self.grams * part, self.volume_ml.likely * part),
            grams: self.grams * part,
            grams_range: self.grams_range.times(part),
            volume_ml: self.volume_ml.times(part),
            ..self.clone()
        })
    }
}

/// Grams of one millilitre as the food lies on a plate: what a cup of it weighs.
pub(super) fn grams_per_ml(food: &Food<'_>) -> f64 {
    let cup = Amount {
        number: Range::exact(CUP_ML),
        measure: Measure::Millilitres {
            spoken: VolumeUnit::Cup,
        },
        approximate: false,
        weight_unit: None,
        text: "1 cup".to_owned(),
    };
    let known = weigh(food, &cup, food.name()).map(|w| w.grams.mean / CUP_ML);
    // Foods nobody measures by the cup are solid pieces: about as heavy as water.
    known.filter(|d| *d > 0.0).unwrap_or(0.9)
}

/// Household size in words: pieces and ounces as the kitchen unit has them, volumes by the
/// cup, tablespoon or teaspoon, whichever gives a small number.
fn size(unit: &KitchenUnit, grams: f64, ml: f64) -> String {
    let units = grams / unit.grams_each;
    let poured = matches!(unit.label.as_str(), "cup" | "tbsp");
    if poured || units > MOST_PIECES || units < unit.step * 0.75 {
        return poured_size(if poured {
            grams / cup_grams(unit) * CUP_ML
        } else {
            ml
        });
    }
    fractions(&unit.say(grams))
}

/// Grams of a cup in a unit that is a cup or a tablespoon of 16 to the cup.
fn cup_grams(unit: &KitchenUnit) -> f64 {
    if unit.label == "cup" {
        unit.grams_each
    } else {
        unit.grams_each * 16.0
    }
}

fn poured_size(ml: f64) -> String {
    let steps = |of_ml: f64, step: f64| (ml / of_ml / step).round() * step;
    let (count, word) = match ml {
        v if v >= CUP_ML * 0.22 => (steps(CUP_ML, 0.25), "cup"),
        v if v >= CUP_ML / 16.0 * 0.8 => (steps(CUP_ML / 16.0, 0.5), "tbsp"),
        v if v >= CUP_ML / 48.0 * 0.4 => (steps(CUP_ML / 48.0, 0.5), "tsp"),
        _ => return "a pinch".to_owned(),
    };
    let whole = count.trunc();
    let sign = match count - whole {
        p if p > 0.6 => "¾",
        p if p > 0.4 => "½",
        p if p > 0.1 => "¼",
        _ => "",
    };
    let number = if whole > 0.0 {
        format!("{whole}{sign}")
    } else {
        sign.to_owned()
    };
    let plural = if word == "cup" && count > 1.0 {
        "s"
    } else {
        ""
    };
    format!("{number} {word}{plural}")
}

/// The group of which a food holds the largest part of a day. Of what is no dressing the fat
/// counts only where there is nothing else: fries are potatoes first.
fn main_group(audited: &AuditedComponent, family: &str) -> Option<Group> {
    let dressing = family_has(family, Trait::Dresses);
    // A day's allowance at 2,000 kcal (Dietary Guidelines 2020-2025, table A3-2).
    let weight = |(group, amount): &(Group, f64)| match group {
        Group::Oils if dressing => amount / 27.0,
        Group::Oils => amount / 1e4,
        Group::Grains => amount / 6.0,
        Group::ProteinFoods => amount / 5.5,
        Group::Dairy => amount / 3.0,
        Group::Fruits => amount / 2.0,
        _ => amount / 2.5,
    };
    let groups = audited.groups().filter(|(_, amount)| *amount > 0.01);
    groups
        .max_by(|a, b| weight(a).total_cmp(&weight(b)))
        .map(|(group, _)| group)
}

/// How many pieces there are, where the kitchen counts the food and the count is whole.
fn pieces(unit: &KitchenUnit, grams: f64) -> Option<u32> {
    const MEASURES: [&str; 9] = [
        "cup", "tbsp", "tsp", "oz", "fl oz", "g", "serving", "order", "portion",
    ];
    let count = grams / unit.grams_each;
    let counted = !MEASURES.contains(&unit.label.as_str()) && count <= MOST_PIECES;
    (counted && count > 0.6 && (count - count.round()).abs() < 0.3).then(|| count.round() as u32)
}

fn place(component: &WeighedComponent, likely_ml: f64, goes: Goes) -> Place {
    const MELTS_IN: [&str; 8] = [
        "oil",
        "ghee",
        "lard",
        "sugar",
        "cornstarch",
        "water",
        "salt",
        "vinegar",
    ];
    let mut words = component.matched.line.food.split([' ', ',']);
    let melts = !matches!(goes, Goes::Glass(_)) && words.any(|w| MELTS_IN.contains(&w));
    if component.basis() == Some(Basis::Hidden) || melts || likely_ml < SMALLEST_ML {
        Place::In
    } else {
        Place::Drawn
    }
}

/// What a reader must know of the drawing: which foods are not in it.
pub(super) fn not_drawn(seen: &[Seen], units: UnitSystem) -> Option<String> {
    const NAMED: usize = 4;
    let named = |place: Place| {
        let foods = seen.iter().filter(|s| s.place == place);
        let names: Vec<String> = foods
            .map(|s| format!("{} ({})", s.name, own_units(&s.size, s.grams, units)))
            .collect();
        let more = names.len().saturating_sub(NAMED);
        let shown = names[..names.len() - more].join(", ");
        match more {
            0 => shown,
            more => format!("{shown} and {more} more"),
        }
    };
    let within = named(Place::In);
    (!within.is_empty())
        .then(|| format!("Counted but not drawn, cooked in or too little to see: {within}."))
}
