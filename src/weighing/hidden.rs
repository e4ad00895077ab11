//! Fat and coating that nobody wrote but cooking words imply.

use super::component::{MatchedComponent, WeighedComponent};
use super::phrases::PhraseTable;
use super::usual::{Role, usual};
use super::weigh::{Basis, Weight};
use crate::foods::{Food, Trait};
use crate::matching::Catalogue;
use crate::quantity::{Estimate, Range};
use crate::reading::ComponentLine;
use crate::words::{prepared, prepared_rows, words_of};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Debug, Deserialize)]
struct Row {
    words_base: String,
    unless_named_base: String,
    food: String,
    grams_per_100g: f64,
    low: f64,
    high: f64,
    coating_share: Option<f64>,
    source: String,
}

/// What a cooking word adds.
#[derive(Debug)]
struct Rule {
    unless: PhraseTable<()>,
    food: String,
    per_100g: f64,
    log_sd: f64,
    coating: Option<f64>,
    source: String,
}

const TEXT: &str = prepared!("hidden_fat.csv");

static RULES: LazyLock<PhraseTable<Rule>> = LazyLock::new(|| {
    let list = prepared_rows::<Row>(TEXT).into_iter();
    PhraseTable::new(list.map(|row| (row.words_base.clone(), row.into())))
});

impl From<Row> for Rule {
    fn from(row: Row) -> Self {
        Self {
            unless: PhraseTable::new([(row.unless_named_base, ())]),
            food: row.food,
            per_100g: row.grams_per_100g,
            log_sd: Estimate::from_range(Range::new(row.low, row.grams_per_100g, row.high)).log_sd,
            coating: row.coating_share,
            source: row.source,
        }
    }
}

/// Hidden components of a list whose weights are known, one or two for each cooking word
/// whose effect the matched food does not hold already. A stated weight is that of the food
/// as served, with the fat that it took up: nothing is added to it.
pub(super) fn hidden(list: &[WeighedComponent], catalogue: &Catalogue) -> Vec<WeighedComponent> {
    let mut added = Vec::new();
    for c in list.iter().filter(|c| c.basis() != Some(Basis::Weighed)) {
        let (Some(id), Some(grams)) = (c.matched.food, c.grams()) else {
            continue;
        };
        // What a dish implies is told beside the dish: its words say nothing of each part.
        let line = &c.matched.line;
        let own = if line.note.as_deref() == Some("inferred") {
            &line.food
        } else {
            &line.text
        };
        let Some((rule, word)) = rule_for(own, catalogue.food(id)) else {
            continue;
        };
        let fat = rule.per_100g / 100.0 * grams.mean;
        added.push(part(c, &rule.food, fat, rule, &word, catalogue));
        if let Some(share) = rule.coating {
            let coat = share * grams.mean;
            added.push(part(c, "bread crumbs", coat, rule, &word, catalogue));
        }
    }
    added
}

/// The rule that the longest cooking word of a text asks for, with the word, unless the
/// food holds it already.
fn rule_for(text: &str, food: Food<'_>) -> Option<(&'static Rule, String)> {
    // Most texts hold no such word: that is asked first.
    let said = words_of(text);
    let hit = RULES.longest(&said)?;
    if food.has(Trait::WholeDish) || food.has(Trait::FatInIt) {
        return None;
    }
    if matches!(
        usual(text, Some(food)).role,
        Role::Seasoning | Role::Drink | Role::Fat
    ) {
        return None;
    }
    let held = hit.row.unless.any(&words_of(food.name()));
    (!held).then(|| (hit.row, said[hit.at..hit.at + hit.length].join(" ")))
}

fn part(
    of: &WeighedComponent,
    food: &'static str,
    grams: f64,
    rule: &Rule,
    word: &str,
    catalogue: &Catalogue,
) -> WeighedComponent {
    let told = format!("implied by `{word}` in {}", of.matched.line.food);
    let weight = Weight::unsaid(
        grams,
        rule.log_sd,
        Basis::Hidden,
        format!("{} g to 100 g ({})", rule.per_100g, rule.source),
    );
    inferred(food, &told, of, weight, catalogue)
}

/// A component that nobody wrote, beside one that was written.
pub(super) fn inferred(
    food: &'static str,
    told: &str,
    beside: &WeighedComponent,
    weight: Weight,
    catalogue: &Catalogue,
) -> WeighedComponent {
    let found = catalogue.find_own(food);
    WeighedComponent {
        matched: MatchedComponent {
            line: ComponentLine {
                text: format!("{food}, {told}"),
                food: food.to_owned(),
                amount: None,
                note: Some("inferred".to_owned()),
                served_as: None,
                goes_along: true,
                place: beside.matched.line.place.clone(),
                share: None,
                chance: None,
            },
            food: found.food,
            certainty: found.certainty,
            alternatives: Vec::new(),
            why: found.why,
        },
        weight: Ok(weight),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::matching::Context;

    #[test]
    fn every_row_reads_and_its_food_is_known() {
        let catalogue = Catalogue::embedded().expect("catalogue");
        let lines = TEXT.lines().skip(1).filter(|l| !l.is_empty());
        assert_eq!(RULES.rows().len(), lines.count());
        for rule in RULES.rows() {
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
