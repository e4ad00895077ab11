//! From an audited dish to what drawings and handouts are made of: the adapter between
//! figures and pages.
//!
//! ```text
//! Dish<WeighedComponent>, Audit, Fitted -> Seen (one a component) -> Handout, Picture
//! ```

mod amounts;
mod dressing;
mod food;
mod lay;
mod look;
mod portions;
mod rest;
mod whole;
pub(in crate::pages) mod words;

pub(crate) use amounts::amount_rows;
pub(in crate::pages) use food::Seen;
pub use portions::Fitted;
pub(crate) use words::short_name;

use crate::foods::CATALOGUE_VERSION;
use crate::ledger::Audit;
use crate::matching::Catalogue;
use crate::pages::drawing::{Form, Patch, Picture, Portions, Rgb};
use crate::pages::handout::{AmountRow, Handout, kitchen_questions, part_words};
use crate::pages::number;
use crate::reading::{Dish, UnitSystem};
use crate::weighing::WeighedComponent;
use food::Place;
use words::own_units;

/// Where the drawing's sizes come from.
const DRAWING_SOURCE: &str = "Drawing: every food covers its estimated volume over the same \
    depth; plates, glasses and how foods lie are common practice where nobody stated them";

/// Questions about this very dish; the last one is about what it has much of.
const OWN_QUESTIONS: usize = 2;

/// A dish with everything a page about it is made from.
#[derive(Debug, Clone, Copy)]
pub struct Plated<'a> {
    /// The weighed dish.
    pub dish: &'a Dish<WeighedComponent>,
    /// Its audit.
    pub audit: &'a Audit,
    /// The right-sized plate, where one was worked out.
    pub fitted: Option<&'a Fitted>,
    /// Whose day the audit is held against, such as `a day of 2,000 kcal`.
    pub day: &'a str,
    /// Where the standard's figures come from.
    pub standard_source: &'a str,
    /// What was assumed on the way to the weights, a sentence each.
    pub notes: &'a [String],
    /// What its reader measures with.
    pub units: UnitSystem,
}

impl Plated<'_> {
    /// Name of the dish for a reader.
    #[must_use]
    pub(crate) fn title(&self) -> String {
        let name = self.audit.name.clone();
        name.unwrap_or_else(|| "This plate".to_owned())
    }
}

/// The page of a dish.
#[must_use]
pub fn handout(plated: Plated<'_>, catalogue: &Catalogue) -> Handout {
    handout_of(plated, &seen(plated, catalogue))
}

/// The page of a dish, and what ties it to the dish's components.
pub(crate) struct Tied {
    /// The page.
    pub handout: Handout,
    /// For each food of its drawing as served the place of its component.
    pub drawn: Vec<usize>,
    /// The household size of every component; nothing without a food or a weight.
    pub sizes: Vec<Option<String>>,
}

/// A dish's page with its ties.
pub(crate) fn tied(plated: Plated<'_>, catalogue: &Catalogue) -> Tied {
    let seen = seen(plated, catalogue);
    let drawn = seen.iter().filter(|s| s.place == Place::Drawn);
    let mut sizes = vec![None; plated.dish.components.len()];
    for food in &seen {
        sizes[food.at] = Some(food.size.clone());
    }
    Tied {
        handout: handout_of(plated, &seen),
        drawn: drawn.map(|s| s.at).collect(),
        sizes,
    }
}

fn handout_of(plated: Plated<'_>, seen: &[Seen]) -> Handout {
    let title = plated.title();
    let amounts = amount_rows(plated.audit, plated.fitted);
    let picture = |seen: &[Seen], as_what: &str, fitted: bool| {
        let drawn: Vec<Seen> = seen
            .iter()
            .filter(|s| s.place == Place::Drawn)
            .cloned()
            .collect();
        let laid = lay::lay(plated.dish, &drawn);
        Picture {
            title: format!("{title}, {as_what}"),
            plate: laid.plate,
            foods: patches(&drawn, &laid, plated.units),
            on_plate: laid.on_plate,
            beside: laid.beside,
            strip: strip(&amounts, fitted),
        }
    };
    let served = picture(seen, "as served", false);
    let fitted = plated.fitted.map(|fitted| {
        let left: Vec<Seen> = seen.iter().filter_map(|s| s.eaten(fitted)).collect();
        picture(&left, "right-sized", true)
    });
    Handout {
        day: plated.day.to_owned(),
        portioning: plated
            .fitted
            .map_or_else(Vec::new, |f| f.portioning.clone()),
        questions: questions(plated, &amounts),
        fitted_for: plated.fitted.map(|f| f.room.clone()),
        not_drawn: food::not_drawn(seen, plated.units),
        cautions: cautions(plated),
        sources: sources(plated),
        nutrients: plated.audit.ledger.nutrients().collect(),
        title,
        served,
        fitted,
        amounts,
    }
}

/// The foods of a dish as they lie on the table.
pub(in crate::pages) fn seen_foods(plated: Plated<'_>, catalogue: &Catalogue) -> Vec<Seen> {
    seen(plated, catalogue)
}

/// The household size of every component of a dish; nothing without a food or a weight.
pub(crate) fn sizes(
    dish: &Dish<WeighedComponent>,
    audit: &Audit,
    catalogue: &Catalogue,
) -> Vec<Option<String>> {
    let components = dish.components.iter().enumerate();
    components
        .zip(&audit.components)
        .map(|((at, component), audited)| Some(Seen::of(at, component, audited, catalogue)?.size))
        .collect()
}

/// Every component that has a food and a weight, as it lies on the table.
fn seen(plated: Plated<'_>, catalogue: &Catalogue) -> Vec<Seen> {
    let components = plated.dish.components.iter().enumerate();
    components
        .zip(&plated.audit.components)
        .filter_map(|((at, component), audited)| Seen::of(at, component, audited, catalogue))
        .collect()
}

/// Questions that fit this dish, then those that fit what it has much of.
fn questions(plated: Plated<'_>, amounts: &[AmountRow]) -> [String; 3] {
    let own = plated
        .fitted
        .iter()
        .flat_map(|f| f.questions.iter().cloned());
    let boxable = plated
        .fitted
        .is_none_or(|f| f.portioning.iter().any(|p| p.boxable));
    let mut asked = kitchen_questions(amounts, boxable);
    let usual = asked.clone();
    let all = own.take(OWN_QUESTIONS).chain(usual);
    for (slot, question) in asked.iter_mut().zip(all) {
        *slot = question;
    }
    asked
}

fn patches(drawn: &[Seen], laid: &lay::Laid, units: UnitSystem) -> Vec<Patch> {
    let mut foods: Vec<Patch> = drawn.iter().map(|seen| patch(seen, units)).collect();
    for index in &laid.cut {
        foods[*index].look.form = foods[*index].look.form.cut_up();
    }
    let parts = laid.stirred.iter().map(|i| &foods[*i]);
    let tint = Rgb::stirred(parts.map(|food| (food.look.tint, food.volume_ml.likely)));
    for index in &laid.stirred {
        let look = &mut foods[*index].look;
        look.tint = tint.unwrap_or(look.tint);
        look.form = Form::Smooth;
    }
    foods
}

fn patch(seen: &Seen, units: UnitSystem) -> Patch {
    Patch {
        label: seen.name.clone(),
        size_words: own_units(&seen.size, seen.grams, units),
        texture: seen.texture,
        volume_ml: seen.volume_ml,
        look: seen.look.clone(),
    }
}

/// Such as `three quarters of a day`, `1.4 times a day`.
fn day_words(share: f64) -> String {
    let words = part_words(share);
    let words = words.trim_start_matches("about ");
    match words {
        "none" => words.to_owned(),
        "all" => "a day".to_owned(),
        "half" => "half a day".to_owned(),
        _ if words.ends_with("times") => format!("{words} a day"),
        _ => format!("{words} of a day"),
    }
}

/// Food groups of a plate for the strip under it, those it has any of.
fn strip(amounts: &[AmountRow], fitted: bool) -> Vec<Portions> {
    let row = |row: &AmountRow| {
        let texture = row.texture()?;
        let amount = if fitted {
            row.fitted?
        } else {
            row.line.likely()?
        };
        let share = row.line.share_of(amount);
        let unit = row.line.subject.unit();
        (amount > 0.05).then(|| Portions {
            texture,
            amount: format!("{} {unit}", number::amount(unit, amount)),
            share_words: share.map_or_else(String::new, day_words),
            share,
        })
    };
    amounts.iter().filter_map(row).collect()
}

/// What a reader must know first, then the usual cautions.
fn cautions(plated: Plated<'_>) -> Vec<String> {
    let audit = plated.audit;
    let uncounted = |what: &str, names: &[String]| {
        (!names.is_empty()).then(|| format!("{what}: {}.", names.join("; ")))
    };
    uncounted("Not counted, no such food", &audit.unmatched)
        .into_iter()
        .chain(uncounted("Not counted, no amount", &audit.without_amount))
        .chain(plated.fitted.iter().flat_map(|f| f.remarks.clone()))
        .chain(plated.notes.iter().cloned())
        .chain(audit.all_cautions())
        .collect()
}

fn sources(plated: Plated<'_>) -> Vec<String> {
    let dish = plated.dish.source.iter();
    dish.map(|source| format!("Amounts: {source}"))
        .chain([
            format!("Foods: our selection from USDA tables, {CATALOGUE_VERSION}"),
            format!("Day: {}", plated.standard_source),
            DRAWING_SOURCE.to_owned(),
        ])
        .collect()
}
