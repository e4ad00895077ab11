//! Raw and cooked, bone and shell: from the weight that is said to the weight that is eaten.

use super::component::WeighedComponent;
use super::phrases::{PhraseTable, only_phrases};
use super::weigh::{Basis, Weight};
use crate::foods::{Food, Nutrient};
use crate::matching::Catalogue;
use crate::quantity::Estimate;
use crate::reading::{Measure, WeightUnit};
use crate::words::{prepared, prepared_rows, words_of};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Debug, Deserialize)]
struct YieldRow {
    words_base: String,
    what: String,
    cooked_per_raw: f64,
    log_sd: f64,
    source: String,
}

#[derive(Debug, Deserialize)]
struct SwellingRow {
    words_base: String,
    cooked_per_dry: f64,
    log_sd: f64,
    source: String,
}

#[derive(Debug, Deserialize)]
struct RefuseRow {
    words_base: String,
    refuse_share: f64,
    log_sd: f64,
    piece_g: Option<f64>,
    what: String,
    source: String,
}

/// A factor from the weight said to the weight eaten.
#[derive(Debug, Clone, PartialEq)]
struct Change {
    factor: f64,
    log_sd: f64,
    /// Grams of one piece as served with bone or shell.
    piece_g: Option<f64>,
    told: String,
}

const YIELD_TEXT: &str = prepared!("yields.csv");
const SWELLING_TEXT: &str = prepared!("swelling.csv");
const REFUSE_TEXT: &str = prepared!("refuse.csv");

static YIELDS: LazyLock<PhraseTable<Change>> = LazyLock::new(|| {
    PhraseTable::new(prepared_rows::<YieldRow>(YIELD_TEXT).into_iter().map(|r| {
        let change = Change {
            factor: r.cooked_per_raw,
            log_sd: r.log_sd,
            piece_g: None,
            told: format!("{} x {} ({})", r.what, r.cooked_per_raw, r.source),
        };
        (r.words_base, change)
    }))
});

static SWELLING: LazyLock<PhraseTable<Change>> = LazyLock::new(|| {
    PhraseTable::new(
        prepared_rows::<SwellingRow>(SWELLING_TEXT)
            .into_iter()
            .map(|r| {
                let change = Change {
                    factor: r.cooked_per_dry,
                    log_sd: r.log_sd,
                    piece_g: None,
                    told: format!("dry weight to cooked x {} ({})", r.cooked_per_dry, r.source),
                };
                (r.words_base, change)
            }),
    )
});

static REFUSE: LazyLock<PhraseTable<Change>> = LazyLock::new(|| {
    PhraseTable::new(
        prepared_rows::<RefuseRow>(REFUSE_TEXT)
            .into_iter()
            .map(|r| {
                let share = r.refuse_share * 100.0;
                let change = Change {
                    factor: 1.0 - r.refuse_share,
                    log_sd: r.log_sd,
                    piece_g: r.piece_g,
                    told: format!("{share:.0} % {} taken off ({})", r.what, r.source),
                };
                (r.words_base, change)
            }),
    )
});

fn find(table: &'static PhraseTable<Change>, text: &str) -> Option<&'static Change> {
    table.longest(&words_of(text)).map(|hit| hit.row)
}

/// Words that say a weight is that of the cooked food.
static COOKED: LazyLock<PhraseTable<()>> =
    LazyLock::new(|| only_phrases("cooked;after cooking;as served;cooked weight"));
/// Words that say a weight is that of the raw food.
static RAW: LazyLock<PhraseTable<()>> =
    LazyLock::new(|| only_phrases("raw;uncooked;before cooking;raw weight"));
/// Words that say a weight is that of the dry food.
static DRY: LazyLock<PhraseTable<()>> =
    LazyLock::new(|| only_phrases("dry;uncooked;before cooking;dry weight"));
/// A word that says the same of food that nothing calls cooked: `dried beans`, but not `beans,
/// cooked from dried`.
static DRIED: LazyLock<PhraseTable<()>> = LazyLock::new(|| only_phrases("dried"));
/// Ways of cooking in water, and what comes ready from a can.
static BOILED: LazyLock<PhraseTable<()>> = LazyLock::new(|| {
    only_phrases("cooked;boiled;simmered;stewed;steamed;baked;refried;canned;from dried;as served")
});
/// Words that say a weight holds bone or shell.
static WITH_REFUSE: LazyLock<PhraseTable<()>> = LazyLock::new(|| {
    only_phrases(
        "as bought;as purchased;bone-in;with bone;on the bone;with shell;in shell;in the \
         shell;in-shell;shell-on;live weight",
    )
});
/// Words that say the same, unless they are how the food is called.
static SERVED_IN: LazyLock<PhraseTable<()>> =
    LazyLock::new(|| only_phrases("on the half shell;in pod"));
/// Cooked starches hold less than this; the dry ones hold more.
const COOKED_KCAL: f64 = 250.0;

/// Turns weights that were said raw, dry or with bone into edible grams as served. A stated
/// weight is otherwise that of the food as eaten, except where a menu (`on_menu`) states it:
/// steaks, patties and fillets in ounces are raw there, and what is sold by the pound in
/// bone or shell is weighed with it, as the trade writes them.
pub(super) fn as_eaten(list: &mut [WeighedComponent], on_menu: bool, catalogue: &Catalogue) {
    for c in list.iter_mut() {
        let Some(food) = c.matched.food.map(|id| catalogue.food(id)) else {
            continue;
        };
        if let Some(change) = change_of(c, food, on_menu) {
            let eaten = |grams: Estimate| grams.times(change.factor).doubted(change.log_sd);
            c.change(change.told.clone(), eaten);
        } else if c.is_open() {
            piece_with_bone(c);
        }
    }
}

fn change_of(c: &WeighedComponent, food: Food<'_>, on_menu: bool) -> Option<&'static Change> {
    if c.basis() != Some(Basis::Weighed) {
        return None;
    }
    let text = &c.matched.line.text;
    let said = words_of(text);
    if is_dry_weight(&said, food)
        && let Some(change) = find(&SWELLING, text)
    {
        return Some(change);
    }
    let unit = c.matched.line.amount.as_ref()?.weight_unit;
    let by_the_pound = on_menu && unit == Some(WeightUnit::Pound);
    let with_refuse = WITH_REFUSE.any(&said) || says_of_weight(&SERVED_IN, &said, food);
    if (by_the_pound || with_refuse)
        && let Some(change) = find(&REFUSE, text)
    {
        return Some(change);
    }
    let ounces = matches!(unit, Some(WeightUnit::Ounce | WeightUnit::Pound));
    let raw = RAW.any(&said) || (on_menu && ounces && !COOKED.any(&said));
    // A raw food has raw figures: its weight is the one to count.
    let raw_food = || RAW.any(&words_of(food.name()));
    (raw && !raw_food()).then(|| find(&YIELDS, text))?
}

/// Whether the words say that the weight is that of the dry food, while the figures of the
/// food taken are those of the cooked one.
fn is_dry_weight(said: &[String], food: Food<'_>) -> bool {
    let kcal = food.per_100g(Nutrient::EnergyKcal).unwrap_or(0.0);
    let dried = || DRIED.any(said) && !BOILED.any(said);
    kcal > 0.0 && kcal < COOKED_KCAL && (says_of_weight(&DRY, said, food) || dried())
}

/// Whether words speak of the weight. Words that one of the food's own names holds tell which
/// food it is: a weight of `oysters on the half shell` is that of the oysters.
fn says_of_weight(table: &PhraseTable<()>, said: &[String], food: Food<'_>) -> bool {
    let Some(hit) = table.longest(said) else {
        return false;
    };
    let phrase = &said[hit.at..hit.at + hit.length];
    let mut names = std::iter::once(food.name()).chain(food.aliases());
    !names.any(|name| {
        words_of(name)
            .windows(phrase.len())
            .any(|part| part == phrase)
    })
}

/// Sizes pieces that come with bone or shell and have no measure of their own.
fn piece_with_bone(c: &mut WeighedComponent) {
    let line = &c.matched.line;
    let count = match &line.amount {
        Some(amount) if matches!(amount.measure, Measure::Count { .. }) => amount.number.likely,
        None if words_of(&line.text).iter().any(|w| w == "whole") => 1.0,
        _ => return,
    };
    let Some((change, piece)) = find(&REFUSE, &line.text).and_then(|c| Some((c, c.piece_g?)))
    else {
        return;
    };
    c.weight = Ok(Weight {
        grams: Estimate::new(count * piece * change.factor, change.log_sd.hypot(0.2)),
        basis: Basis::Counted,
        steps: vec![
            format!("{count} of {piece:.0} g with bone or shell"),
            change.told.clone(),
        ],
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_reads() {
        for (table, text) in [
            (&*YIELDS, YIELD_TEXT),
            (&*SWELLING, SWELLING_TEXT),
            (&*REFUSE, REFUSE_TEXT),
        ] {
            let lines = text.lines().skip(1).filter(|l| !l.is_empty());
            assert_eq!(table.rows().len(), lines.count());
        }
    }

    /// USDA SR28: 227 g and 113 g of raw ground beef patties (23479, 23568, 23569) give 139,
    /// 77 and 83 g cooked; 113 g of raw ground turkey (05306) gives 82 g; a 9 oz menu sirloin
    /// came as 157 to 166 g trimmed (36013), less than the plain yield of 77 %.
    #[test]
    fn yields_lie_within_the_weighed_pairs() {
        let factor = |text: &str| find(&YIELDS, text).map_or(0.0, |c| c.factor);
        assert!((139.0 / 227.0..=83.0 / 113.0).contains(&factor("beef patty")));
        assert!((factor("turkey burger") - 82.0 / 113.0).abs() < 0.01);
        assert!((157.0 / 255.0..0.77).contains(&factor("9 oz sirloin")));
    }

    /// USDA SR28 20420 and 20421: dry spaghetti holds 9.9 % water, cooked 62.1 %, so that
    /// solids alone give 238 %; protein gives 225 %. White rice, 20044 and 20045: 280, 265 %.
    #[test]
    fn swelling_lies_between_solids_and_protein_ratios() {
        let factor = |text: &str| find(&SWELLING, text).map_or(0.0, |c| c.factor);
        assert!((2.25..=2.38).contains(&factor("dry spaghetti")));
        assert!((2.65..=2.80).contains(&factor("uncooked white rice")));
        assert!((2.75..=2.97).contains(&factor("brown rice, dry")));
    }

    /// USDA SR28 refuse: roasted wings 40 % (05103), flour-fried 47 % (05102), batter-fried
    /// 38 % (05101); fresh shrimp in shell 17 % (15271).
    #[test]
    fn refuse_is_that_of_the_cited_foods() {
        let refuse = |text: &str| find(&REFUSE, text).map_or(0.0, |c| 1.0 - c.factor);
        assert!((0.38..=0.47).contains(&refuse("1 lb chicken wings")));
        assert!((refuse("peel and eat shrimp") - 0.17).abs() < 1e-9);
    }
}
