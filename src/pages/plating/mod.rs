//! From an audited dish to what drawings and handouts are made of: the adapter between
//! figures and pages.
//!
//! ```text
//! Dish<WeighedComponent>, Audit, Fitted -> Seen (one a component) -> Handout, Picture
//! ```

mod amounts;
mod food;
mod portions;
mod vessel;
mod words;

pub use amounts::amount_rows;
pub(in crate::pages) use food::Seen;
pub use portions::Fitted;
pub use words::{fractions, short_name};

use crate::foods::CATALOGUE_VERSION;
use crate::ledger::Audit;
use crate::matching::Catalogue;
use crate::pages::drawing::{Patch, Picture};
use crate::pages::handout::{AmountRow, Handout, kitchen_questions};
use crate::quantity::Range;
use crate::reading::Dish;
use crate::weighing::WeighedComponent;
use food::Place;
use vessel::Holds;

/// Source of the depths at which foods are drawn.
const DEPTHS_SOURCE: &str = "Drawing: areas are estimated volumes over usual depths of each \
    sort of food; depths and vessels nobody stated are common practice";

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
}

impl Plated<'_> {
    /// Name of the dish for a reader.
    #[must_use]
    pub fn title(&self) -> String {
        let name = self.audit.name.clone();
        name.unwrap_or_else(|| "This plate".to_owned())
    }
}

/// The page of a dish.
#[must_use]
pub fn handout(plated: Plated<'_>, catalogue: &Catalogue) -> Handout {
    let title = plated.title();
    let amounts = amount_rows(plated.audit, plated.fitted);
    let holds = vessel::holds(plated.dish, catalogue);
    let seen = seen(plated, holds, catalogue);
    let (vessel, basis) = vessel::sized(plated.dish, &seen, holds);
    let picture = |seen: &[Seen], as_what: &str| Picture {
        title: format!("{title}, {as_what}"),
        vessel,
        basis,
        patches: patches(seen),
    };
    let served = picture(&seen, "as served");
    let fitted = plated.fitted.map(|fitted| {
        let left: Vec<Seen> = seen.iter().filter_map(|s| s.eaten(fitted)).collect();
        picture(&left, "right-sized")
    });
    Handout {
        day: plated.day.to_owned(),
        portioning: plated
            .fitted
            .map_or_else(Vec::new, |f| f.portioning.clone()),
        questions: questions(plated, &amounts),
        fitted_for: plated.fitted.map(|f| f.room.clone()),
        not_drawn: food::not_drawn(&seen),
        cautions: cautions(plated),
        sources: sources(plated),
        title,
        served,
        fitted,
        amounts,
    }
}

/// The foods of a dish as they lie on the table.
pub(in crate::pages) fn seen_foods(plated: Plated<'_>, catalogue: &Catalogue) -> Vec<Seen> {
    let holds = vessel::holds(plated.dish, catalogue);
    seen(plated, holds, catalogue)
}

/// Every component that has a food and a weight, as it lies on the table.
fn seen(plated: Plated<'_>, holds: Holds, catalogue: &Catalogue) -> Vec<Seen> {
    let components = plated.dish.components.iter().enumerate();
    components
        .zip(&plated.audit.components)
        .filter_map(|((at, component), audited)| Seen::of(at, component, audited, holds, catalogue))
        .collect()
}

/// Questions that fit this dish, then those that fit what it has much of.
fn questions(plated: Plated<'_>, amounts: &[AmountRow]) -> [String; 3] {
    let own = plated
        .fitted
        .iter()
        .flat_map(|f| f.questions.iter().cloned());
    let mut asked = kitchen_questions(amounts);
    let usual = asked.clone();
    let all = own.take(OWN_QUESTIONS).chain(usual);
    for (slot, question) in asked.iter_mut().zip(all) {
        *slot = question;
    }
    asked
}

fn patches(seen: &[Seen]) -> Vec<Patch> {
    let drawn = seen.iter().filter(|s| s.place == Place::Drawn);
    drawn.map(patch).collect()
}

fn patch(seen: &Seen) -> Patch {
    Patch {
        label: seen.name.clone(),
        size_words: format!("about {}", seen.size),
        texture: seen.texture,
        volume_ml: seen.volume_ml,
        mean_depth_cm: seen.depth_cm,
        beyond_day: false,
    }
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
        .chain(audit.cautions.iter().cloned())
        .collect()
}

fn sources(plated: Plated<'_>) -> Vec<String> {
    let dish = plated.dish.source.iter();
    dish.map(|source| format!("Amounts: {source}"))
        .chain([
            format!("Foods: USDA, {CATALOGUE_VERSION}"),
            format!("Day: {}", plated.standard_source),
            DEPTHS_SOURCE.to_owned(),
        ])
        .collect()
}

/// A range of grams as the volume in ml that it takes up.
fn volume(grams: Range, grams_per_ml: f64) -> Range {
    grams.times(1.0 / grams_per_ml)
}
