//! Dishes as a page shows them: drawings, words and rows as on handouts, and what a tap on a
//! component needs.

use super::Engine;
use super::find::NamedFood;
use crate::ledger::Audit;
use crate::pages::handout::{self, Handout};
use crate::pages::plating::{Plated, short_name};
use crate::quantity::Range;
use crate::reading::Dish;
use crate::weighing::WeighedComponent;
use serde::Serialize;

/// A component to tap.
#[derive(Debug, Serialize)]
pub(super) struct Tap<'e> {
    /// Its words, as changes name them.
    text: String,
    /// Short, for a list.
    name: String,
    /// As served, in household measures; empty without an amount.
    size: String,
    /// Edible grams as served.
    grams: Option<Range>,
    certainty: &'static str,
    basis: Option<&'static str>,
    free: bool,
    /// Labels of the food groups it counts in.
    groups: Vec<&'static str>,
    /// kcal as served.
    energy_kcal: Option<f64>,
    /// What it was taken for, then what else it may be.
    foods: Vec<NamedFood<'e>>,
    /// Whether nobody said it is there.
    implied: bool,
}

impl Engine {
    /// Every component of a dish as it is served, with its household size.
    pub(super) fn taps(
        &self,
        dish: &Dish<WeighedComponent>,
        audit: &Audit,
        sizes: Vec<Option<String>>,
    ) -> Vec<Tap<'_>> {
        let components = dish.components.iter().zip(&audit.components);
        components
            .zip(sizes)
            .map(|((component, audited), size)| Tap {
                text: audited.text.clone(),
                name: short_name(&component.matched.line.food),
                size: size.unwrap_or_default(),
                grams: audited.grams,
                certainty: audited.certainty.word(),
                basis: audited.basis.map(crate::weighing::Basis::word),
                free: audited.free,
                groups: audited.groups().map(|(group, _)| group.label()).collect(),
                energy_kcal: audited.energy_kcal(),
                foods: audited
                    .food
                    .iter()
                    .chain(&audited.alternatives)
                    .map(|id| NamedFood::of(self.catalogue.food(*id)))
                    .collect(),
                implied: component.basis() == Some(crate::weighing::Basis::Hidden),
            })
            .collect()
    }

    /// A dish as handouts have it.
    pub(super) fn handout(&self, plated: Plated<'_>) -> Handout {
        crate::pages::plating::handout(plated, &self.catalogue)
    }
}

/// The page of a dish as plain values: `title`, `plates` with their drawings, `amounts` ...
pub(super) fn values(handout: &Handout, id: &str) -> impl Serialize + use<> {
    handout::values(handout, id)
}
