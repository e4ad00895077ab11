//! What can hardly be so: said before anything else, and asked about before it is logged.

use super::{Ledger, Limit};
use crate::foods::{Food, Trait};
use crate::quantity::number;
use crate::weighing::{Role, unstated, usual};

/// Energy above which a main dish is not plausible, kcal: restaurant entrees that were
/// measured reach 2,000 to 2,500 (own bound above them).
const MOST_KCAL: f64 = 3_000.0;
/// Weight of food, drinks left out, above which a main dish is not plausible, g (own bound).
const MOST_GRAMS: f64 = 2_000.0;
/// Alcoholic drinks above which a meal is not plausible (own bound; twice what is called
/// binge drinking, NIAAA: 4 to 5 drinks in about two hours).
const MOST_DRINKS: f64 = 8.0;
/// Times its usual amount above which a component is not plausible (own bound).
const MOST_TIMES: f64 = 10.0;

/// A component as far as it matters here.
pub(crate) struct Weighed<'c> {
    /// As written.
    pub text: &'c str,
    /// The food it was taken for.
    pub food: Food<'c>,
    /// Likely grams as served.
    pub grams: f64,
    /// Whether somebody said how much it is.
    pub said: bool,
}

/// What is not plausible of a dish, a sentence each; nothing where all may be so.
/// `unknown_main` is the name of a main dish that nobody knows.
pub(crate) fn not_plausible<'c>(
    parts: impl Iterator<Item = Weighed<'c>>,
    unknown_main: Option<&str>,
    ledger: &Ledger,
) -> Vec<String> {
    let heavy = ledger.grams().likely > MOST_GRAMS;
    let mut found: Vec<String> = unknown_main
        .map(|name| format!("main dish unknown: `{name}`, so there is no total"))
        .into_iter()
        .collect();
    let mut food_grams = 0.0;
    for part in parts {
        // What people drink by the litre is told by its energy and its alcohol.
        if heavy && !is_drink(&part) {
            food_grams += part.grams;
        }
        found.extend(beyond_usual(&part));
    }
    let kcal = ledger.energy().map_or(0.0, |energy| energy.likely);
    if kcal > MOST_KCAL {
        found.push(format!(
            "about {} kcal: a main dish of more than 3,000 is hardly one person's",
            number::kcal(kcal)
        ));
    }
    if food_grams > MOST_GRAMS {
        found.push(format!(
            "about {} g of food: a main dish of more than 2 kg is hardly one person's",
            number::grams(food_grams)
        ));
    }
    let drinks = ledger.line(Limit::Alcohol).likely().unwrap_or(0.0);
    if drinks > MOST_DRINKS {
        found.push(format!("about {drinks:.0} alcoholic drinks"));
    }
    found
}

fn is_drink(part: &Weighed<'_>) -> bool {
    part.food.has(Trait::Drink) || usual(part.text, Some(part.food)).role == Role::Drink
}

/// A component of which there is far more than anybody serves.
fn beyond_usual(part: &Weighed<'_>) -> Option<String> {
    // What nobody sized has its usual amount.
    if !part.said {
        return None;
    }
    let usual = usual(part.text, Some(part.food));
    let most = usual.plate_g.max(unstated(&part.food).unwrap_or(0.0)) * MOST_TIMES;
    // Ten times to a rounding error is not more than ten times.
    (part.grams > most * 1.001).then(|| {
        format!(
            "`{}` is about {} g, more than {MOST_TIMES:.0} times what is usual",
            part.text,
            number::grams(part.grams)
        )
    })
}
