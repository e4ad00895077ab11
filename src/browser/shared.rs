//! A dish in a link: its components by code, with their amounts and how they are known.

use super::Fault;
use crate::matching::{Catalogue, Certainty};
use crate::quantity::{Estimate, Range, Shared};
use crate::reading::{ComponentLine, Dish, Place};
use crate::weighing::{Basis, MatchedComponent, Unweighed, WeighedComponent, Weight};
use serde::{Deserialize, Serialize};

/// Most components in a link.
const MOST_COMPONENTS: usize = 60;
/// Longest words in a link, signs.
const LONGEST_WORDS: usize = 500;
/// More grams of one component than this are no plate.
const MOST_GRAMS: f64 = 20_000.0;

/// A dish as it stands in a link.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SharedDish {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    name: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    kind: Option<String>,
    components: Vec<SharedComponent>,
}

/// A component: its words, those that name the food, the food's code, grams (low, likely,
/// high), how they are known, how sure the food is. An array, so that links stay short.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct SharedComponent(
    String,
    String,
    Option<String>,
    Option<[f64; 3]>,
    String,
    String,
);

const BASES: [Basis; 6] = [
    Basis::Weighed,
    Basis::Measured,
    Basis::Counted,
    Basis::Vessel,
    Basis::Typical,
    Basis::Hidden,
];

const CERTAINTIES: [Certainty; 4] = [
    Certainty::Sure,
    Certainty::Likely,
    Certainty::Guess,
    Certainty::None,
];

impl SharedDish {
    /// What goes into a link.
    pub fn of(dish: &Dish<WeighedComponent>, catalogue: &Catalogue) -> Self {
        let component = |c: &WeighedComponent| {
            let food = c
                .matched
                .food
                .map(|id| catalogue.food(id).code().to_owned());
            let tenth = |grams: f64| (grams * 10.0).round() / 10.0;
            let grams = c.grams().map(Estimate::range);
            SharedComponent(
                cut(&c.matched.line.text),
                cut(&c.matched.line.food),
                food,
                grams.map(|g| [tenth(g.low), tenth(g.likely), tenth(g.high)]),
                c.basis().map_or("", Basis::word).to_owned(),
                c.matched.certainty.word().to_owned(),
            )
        };
        Self {
            name: dish.name.as_deref().map(cut),
            kind: dish.kind.as_deref().map(cut),
            components: dish.components.iter().map(component).collect(),
        }
    }

    /// The dish that a link holds. Fails on what no plate can be.
    pub fn dish(&self, catalogue: &Catalogue) -> Result<Dish<WeighedComponent>, Fault> {
        if self.components.is_empty() || self.components.len() > MOST_COMPONENTS {
            return Err(Fault::of("this link holds no dish that can be read"));
        }
        let components = self.components.iter().map(|c| c.weighed(catalogue));
        Ok(Dish {
            name: self.name.as_deref().map(cut),
            kind: self.kind.as_deref().map(cut),
            components: components.collect::<Result<_, _>>()?,
            ..Dish::default()
        })
    }
}

impl SharedComponent {
    fn weighed(&self, catalogue: &Catalogue) -> Result<WeighedComponent, Fault> {
        let Self(text, words, code, grams, basis, certainty) = self;
        let text = cut(text);
        let food = code.as_ref().and_then(|code| catalogue.by_code(code));
        let basis = BASES.into_iter().find(|b| b.word() == basis);
        let certainty = CERTAINTIES.into_iter().find(|c| c.word() == certainty);
        let weight = match (food, grams) {
            (None, _) => Err(Unweighed::NoFood),
            (_, None) => Err(Unweighed::NoAmount),
            (Some(_), Some(grams)) => Ok(weight(*grams, basis.unwrap_or(Basis::Typical))
                .ok_or_else(|| {
                    Fault::of(format!("the amount of “{text}” in this link is none"))
                })?),
        };
        Ok(WeighedComponent {
            matched: MatchedComponent {
                line: ComponentLine {
                    food: cut(words),
                    text,
                    amount: None,
                    note: None,
                    served_as: None,
                    goes_along: false,
                    place: Place::new("link", 1, 1),
                    share: None,
                    chance: None,
                },
                food: food.map(|food| food.id()),
                certainty: match food {
                    Some(_) => certainty.unwrap_or(Certainty::Guess),
                    None => Certainty::None,
                },
                alternatives: Vec::new(),
                why: "as shared".to_owned(),
            },
            weight,
        })
    }
}

/// `None` for what is no amount.
fn weight([low, likely, high]: [f64; 3], basis: Basis) -> Option<Weight> {
    let fair = |grams: f64| (0.0..=MOST_GRAMS).contains(&grams);
    if ![low, likely, high].into_iter().all(fair) || low > high {
        return None;
    }
    let grams = Estimate::from_range(Range::new(low, likely, high));
    Some(Weight {
        grams: if basis.is_unsaid() {
            grams.sharing(Shared::Kitchen)
        } else {
            grams
        },
        basis,
        steps: vec!["as shared".to_owned()],
    })
}

/// Plain words of a bearable length.
fn cut(text: &str) -> String {
    let plain = text.chars().filter(|c| !c.is_control());
    plain.take(LONGEST_WORDS).collect()
}
