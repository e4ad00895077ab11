//! What is eaten of each component, and the rows that say so.

use super::words::{fractions, own_units, short_name};
use crate::fit::{Ask, AskWhat, Portion, Remark, RightSized};
use crate::pages::handout::{Eat, Portioning};
use crate::reading::{Dish, UnitSystem};
use crate::weighing::WeighedComponent;

/// Remarks on a page.
const REMARKS_SHOWN: usize = 2;

/// The right-sized plate, as pages need it.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitted {
    /// The part of each component that is eaten, 0 to 1, in the dish's order; `None` for those
    /// without a weight.
    pub parts: Vec<Option<f64>>,
    /// What to eat and what to box, in words.
    pub portioning: Vec<Portioning>,
    /// What the plate may take, to be read after `for`: `a meal of a third of the day`.
    pub room: String,
    /// Questions for the kitchen that fit this dish, most helpful first.
    pub questions: Vec<String>,
    /// What the figures do not say by themselves, a sentence each.
    pub remarks: Vec<String>,
}

impl Fitted {
    /// From a right-sized dish; `room` says what it may take, `asks` what the kitchen can do,
    /// `units` what its reader measures with.
    #[must_use]
    pub fn of(
        sized: &RightSized,
        dish: &Dish<WeighedComponent>,
        room: &str,
        asks: &[Ask],
        units: UnitSystem,
    ) -> Self {
        let items = sized.fitting.items.iter();
        let portions = items.zip(&sized.plate.portions);
        Self {
            parts: sized.parts(dish),
            portioning: portions
                .map(|(item, portion)| {
                    let served = item.unit.say(item.served_grams);
                    portioning(portion, (&served, item.served_grams), units)
                })
                .collect(),
            room: room.to_owned(),
            questions: one_each(asks).map(question).collect(),
            remarks: sized
                .plate
                .remarks
                .iter()
                // What the tables show already is not said again.
                .filter(|r| !matches!(r, Remark::Whole | Remark::AloneOver { .. }))
                .take(REMARKS_SHOWN)
                .map(sentence)
                .collect(),
        }
    }

    /// The part eaten of the component at a place in the dish; 0 where nobody knows.
    #[must_use]
    pub(crate) fn part(&self, at: usize) -> f64 {
        self.parts.get(at).copied().flatten().unwrap_or(0.0)
    }
}

fn portioning(portion: &Portion, served: (&str, f64), units: UnitSystem) -> Portioning {
    let left = !portion.boxed.is_empty();
    let told = |words: &str, grams: f64| own_units(&fractions(words), grams, units);
    Portioning {
        food: short_name(&portion.name),
        served: told(served.0, served.1),
        eat: match portion.eat_grams {
            g if g <= 0.0 => Eat::Nothing,
            _ if !left => Eat::All,
            _ => Eat::Part(told(&portion.eat, portion.eat_grams)),
        },
        boxed: left.then(|| told(&portion.boxed, portion.box_grams)),
        boxable: portion.boxable,
    }
}

fn sentence(remark: &impl ToString) -> String {
    let text = remark.to_string();
    let mut letters = text.trim_end_matches('.').chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).chain(['.']).collect()
    })
}

/// The first request about each food.
fn one_each(asks: &[Ask]) -> impl Iterator<Item = &Ask> {
    let first = |at: usize| !asks[..at].iter().any(|a| a.item == asks[at].item);
    (0..asks.len())
        .filter(move |at| first(*at))
        .map(|at| &asks[at])
}

fn question(ask: &Ask) -> String {
    let item = short_name(&ask.item);
    match &ask.what {
        AskWhat::OnTheSide => format!("Could the {item} come on the side?"),
        AskWhat::Half => format!("Could I have half the {item}?"),
        AskWhat::LeaveOut => format!("Could the {item} be left off?"),
        AskWhat::Swap { with, amount } => {
            let amount = fractions(amount);
            format!("Could I have {with} ({amount}) in place of the {item}?")
        }
    }
}
