//! Fat and coating that nobody wrote but cooking words imply.

use super::combine::Tie;
use super::component::{MatchedComponent, WeighedComponent};
use super::phrases::{Phrase, phrases, place_of};
use super::typical::with_log_sd;
use super::usual::{Role, is_dish, usual};
use super::weigh::Basis;
use crate::catalogue::{Catalogue, Context, Food, words::words};
use crate::reading::ComponentLine;
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Debug, Deserialize)]
struct Row {
    words: String,
    unless_named: String,
    food: String,
    grams_per_100g: f64,
    low: f64,
    high: f64,
    coating_share: Option<f64>,
    source: String,
}

/// What a cooking word adds.
#[derive(Debug, Clone, PartialEq)]
struct Rule {
    phrases: Vec<Phrase>,
    unless: Vec<Phrase>,
    food: String,
    per_100g: f64,
    log_sd: f64,
    coating: Option<f64>,
    source: String,
}

static RULES: LazyLock<Vec<Rule>> = LazyLock::new(|| {
    csv::Reader::from_reader(include_str!("tables/hidden_fat.csv").as_bytes())
        .into_deserialize::<Row>()
        .flatten()
        .map(|r| Rule {
            phrases: phrases(&r.words),
            unless: phrases(&r.unless_named),
            food: r.food,
            per_100g: r.grams_per_100g,
            log_sd: (r.high / r.low).ln() / (2.0 * super::combine::Z_10),
            coating: r.coating_share,
            source: r.source,
        })
        .collect()
});

/// Hidden components of a list whose weights are known, one or two for each cooking word
/// whose effect the matched food does not hold already. A stated weight is that of the food
/// as served, with the fat that it took up: nothing is added to it.
pub(super) fn hidden(list: &[WeighedComponent], catalogue: &Catalogue) -> Vec<WeighedComponent> {
    let mut added = Vec::new();
    for c in list.iter().filter(|c| c.basis != Some(Basis::Weighed)) {
        let (Some(id), Some(grams)) = (c.matched.food, c.grams) else {
            continue;
        };
        let Some((rule, word)) = rule_for(&c.matched.line.text, catalogue.food(id)) else {
            continue;
        };
        let fat = rule.per_100g / 100.0 * grams.likely;
        added.push(part(c, &rule.food, fat, rule, &word, catalogue));
        if let Some(share) = rule.coating {
            let coat = share * grams.likely;
            added.push(part(c, "bread crumbs", coat, rule, &word, catalogue));
        }
    }
    added
}

/// The rule that the longest cooking word of a text asks for, with the word, unless the
/// food holds it already.
fn rule_for(text: &str, food: Food<'_>) -> Option<(&'static Rule, String)> {
    if is_dish(food.family())
        || matches!(
            food.family(),
            "fat" | "dressing" | "sauce" | "snack" | "nuts"
        )
    {
        return None;
    }
    if matches!(
        usual(text, Some(food)).role,
        Role::Seasoning | Role::Drink | Role::Fat
    ) {
        return None;
    }
    let said = words(text);
    let mut best: Option<(&Rule, &Phrase)> = None;
    for rule in RULES.iter() {
        for phrase in &rule.phrases {
            let longer = best.is_none_or(|(_, other)| phrase.len() > other.len());
            if longer && place_of(phrase, &said).is_some() {
                best = Some((rule, phrase));
            }
        }
    }
    let (rule, phrase) = best?;
    let name = words(food.name());
    let held = rule.unless.iter().any(|p| place_of(p, &name).is_some());
    (!held).then(|| (rule, phrase.join(" ")))
}

fn part(
    of: &WeighedComponent,
    food: &str,
    grams: f64,
    rule: &Rule,
    word: &str,
    catalogue: &Catalogue,
) -> WeighedComponent {
    let found = catalogue.find(
        food,
        &Context {
            words: Vec::new(),
            british: false,
        },
        1,
    );
    WeighedComponent {
        matched: MatchedComponent {
            line: ComponentLine {
                text: format!("{food}, implied by `{word}` in {}", of.matched.line.food),
                food: food.to_owned(),
                amount: None,
                note: Some("inferred".to_owned()),
                place: of.matched.line.place.clone(),
                share: None,
            },
            food: found.food,
            certainty: found.certainty,
            alternatives: Vec::new(),
            why: found.why,
        },
        grams: Some(with_log_sd(grams, rule.log_sd)),
        basis: Some(Basis::Hidden),
        rests_on: format!("{} g to 100 g ({})", rule.per_100g, rule.source),
        tie: Tie::Common,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_reads_and_its_food_is_known() {
        let catalogue = Catalogue::embedded().expect("catalogue");
        let text = include_str!("tables/hidden_fat.csv");
        assert_eq!(
            RULES.len(),
            text.lines().skip(1).filter(|l| !l.is_empty()).count()
        );
        for rule in RULES.iter() {
            let found = catalogue.find(
                &rule.food,
                &Context {
                    words: Vec::new(),
                    british: false,
                },
                1,
            );
            assert!(found.food.is_some(), "{}", rule.food);
            assert!(rule.log_sd > 0.1 && rule.log_sd < 0.9, "{}", rule.food);
        }
    }

    #[test]
    fn fried_food_is_not_fried_again() {
        let catalogue = Catalogue::embedded().expect("catalogue");
        let rule = |text: &str| {
            let found = catalogue.find(
                text,
                &Context {
                    words: Vec::new(),
                    british: false,
                },
                1,
            );
            found.food.and_then(|id| rule_for(text, catalogue.food(id)))
        };
        assert!(rule("fried chicken breast").is_none());
        assert!(rule("french fries").is_none());
        assert!(rule("steamed broccoli").is_none());
        assert!(rule("deep-fried zucchini flowers").is_some() || rule("sauteed kale").is_some());
    }
}
