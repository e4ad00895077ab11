//! From what a page holds of a dish to a weighed dish: the text or the link it came from, then
//! what the person changed.

use super::shared::SharedDish;
use super::{Engine, Fault};
use crate::matching::Certainty;
use crate::reading::{Dish, UnitSystem, parse_amount, parse_lines};
use crate::store::Meaning;
use crate::weighing::{Estimated, Finds, MenuContext, Request, WeighedComponent, weigh};
use serde::{Deserialize, Serialize};

/// Longest words for one dish, bytes.
const LONGEST_WORDS: usize = 4_000;
/// Most components of one plate.
const MOST_COMPONENTS: usize = 500;

/// A dish as the page holds it: words, or components out of a link.
#[derive(Debug, Deserialize)]
pub(super) struct DishAsk {
    #[serde(default)]
    text: String,
    #[serde(default)]
    shared: Option<SharedDish>,
    #[serde(default)]
    changes: Vec<Change>,
}

/// What a person changed of a component.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Change {
    /// Its place in the dish.
    at: usize,
    /// Its words, so that a change never meets another component.
    text: String,
    /// Another amount, as people say it.
    #[serde(default)]
    amount: Option<String>,
    /// Another food, by its code.
    #[serde(default)]
    food: Option<String>,
    /// The part of it that is eaten, 0 to 1.
    #[serde(default)]
    part: Option<f64>,
}

/// What of a request could not be used.
#[derive(Debug, Serialize)]
pub(super) struct Refused {
    /// Place of the component, where it is about one.
    pub at: Option<usize>,
    pub told: String,
}

/// A dish, weighed.
pub(super) struct Laid {
    /// As it comes to the table.
    pub served: Dish<WeighedComponent>,
    /// What is eaten of it now; nothing where that is all of it.
    pub eaten: Option<Dish<WeighedComponent>>,
    /// What was assumed on the way, a sentence each.
    pub notes: Vec<String>,
    /// The library's name, where only nearly that was written.
    pub taken_for: Option<String>,
    pub refused: Vec<Refused>,
}

impl Laid {
    /// What is eaten.
    pub fn eaten(&self) -> &Dish<WeighedComponent> {
        self.eaten.as_ref().unwrap_or(&self.served)
    }
}

impl Engine {
    pub(super) fn lay(&self, ask: &DishAsk, units: UnitSystem) -> Result<Laid, Fault> {
        let mut laid = match &ask.shared {
            Some(shared) => Laid {
                served: shared.dish(&self.catalogue)?,
                eaten: None,
                notes: Vec::new(),
                taken_for: None,
                refused: Vec::new(),
            },
            None => self.read(&ask.text, units)?,
        };
        if laid.served.components.len() > MOST_COMPONENTS {
            return Err(Fault::of(format!(
                "more than {MOST_COMPONENTS} components: a plate has fewer"
            )));
        }
        for change in &ask.changes {
            if let Err(told) = self.change(&mut laid.served, change, units) {
                let at = Some(change.at);
                laid.refused.push(Refused { at, told });
            }
        }
        laid.eaten = eaten(&laid.served, &ask.changes);
        Ok(laid)
    }

    fn read(&self, text: &str, units: UnitSystem) -> Result<Laid, Fault> {
        let text = text.trim();
        if text.is_empty() {
            return Err(Fault::of("write a dish, or a line of a menu"));
        }
        if text.len() > LONGEST_WORDS {
            let told = "that is too long for one dish: say it in fewer words";
            return Err(Fault::of(told));
        }
        let (meaning, mut refused) = self.meaning(text, units)?;
        let request = Request {
            printed_kcal: meaning.printed_kcal(),
            ..Request::default()
        };
        let mut taken_for = None;
        if let Meaning::Dish {
            taken_for: taken,
            unread,
            ..
        } = &meaning
        {
            taken_for.clone_from(taken);
            refused.extend(unread.iter().map(|error| Refused {
                at: None,
                told: error.to_string(),
            }));
        }
        let context = MenuContext {
            finds: &Finds::new(&self.catalogue),
            known: &self.dishes.finder(units),
            units,
            british: units == UnitSystem::Metric,
        };
        let Estimated { dish, notes, .. } = meaning.estimate("", None, &request, context);
        if dish.components.is_empty() {
            return Err(Fault::of(format!("no food and no dish is called “{text}”")));
        }
        Ok(Laid {
            served: dish,
            eaten: None,
            notes,
            taken_for,
            refused,
        })
    }

    /// Several lines are components where most of them say how much; else a name with what a
    /// menu says beneath it.
    fn meaning(&self, text: &str, units: UnitSystem) -> Result<(Meaning, Vec<Refused>), Fault> {
        let Some((name, beneath)) = text.split_once('\n') else {
            let meaning = self.dishes.meaning(text, "", units).map_err(Fault::of)?;
            return Ok((meaning, Vec::new()));
        };
        let (components, faults) = parse_lines("line", text, units);
        let sized = components.iter().filter(|c| c.amount.is_some()).count();
        if sized * 2 >= components.len() + faults.len() {
            let refused = faults.iter().map(|fault| Refused {
                at: None,
                told: fault.to_string(),
            });
            let dish = Dish {
                components,
                ..Dish::default()
            };
            return Ok((Meaning::listed(dish), refused.collect()));
        }
        let beneath = beneath.split_whitespace().collect::<Vec<_>>().join(" ");
        let meaning = self.dishes.meaning(name.trim(), &beneath, units);
        Ok((meaning.map_err(Fault::of)?, Vec::new()))
    }

    /// Another food keeps its weight; another amount is of the food as it then is.
    fn change(
        &self,
        dish: &mut Dish<WeighedComponent>,
        change: &Change,
        units: UnitSystem,
    ) -> Result<(), String> {
        let component = dish
            .components
            .get_mut(change.at)
            .filter(|c| c.matched.line.text == change.text)
            .ok_or("this component is not part of the dish any more")?;
        if let Some(code) = &change.food {
            let food = self.catalogue.by_code(code);
            let food = food.ok_or("this food is not in the catalogue")?;
            component.matched.food = Some(food.id());
            component.matched.certainty = Certainty::Sure;
            food.name().clone_into(&mut component.matched.line.food);
            "as you said".clone_into(&mut component.matched.why);
        }
        if let Some(text) = &change.amount {
            let amount = parse_amount(text, units).map_err(|e| e.to_string())?;
            let food = component.matched.food.ok_or("say first which food it is")?;
            let food = self.catalogue.food(food);
            let weight = weigh(&food, &amount, &component.matched.line.food);
            component.weight = Ok(weight.ok_or_else(|| {
                format!("nobody has measured that of {}: give a weight", food.name())
            })?);
            component.matched.line.amount = Some(amount);
        }
        Ok(())
    }
}

/// The dish with as much of each component as is eaten.
fn eaten(served: &Dish<WeighedComponent>, changes: &[Change]) -> Option<Dish<WeighedComponent>> {
    let part = |at: usize| {
        let own = changes.iter().filter(|c| c.at == at);
        let part = own.filter_map(|c| c.part).next_back()?;
        part.is_finite().then(|| part.clamp(0.0, 1.0))
    };
    let parts: Vec<Option<f64>> = (0..served.components.len()).map(part).collect();
    if parts.iter().flatten().all(|part| *part >= 1.0) {
        return None;
    }
    let mut at = 0;
    Some(served.clone().map(|mut component| {
        if let Some(part) = parts[at] {
            component.scale(part);
        }
        at += 1;
        component
    }))
}
