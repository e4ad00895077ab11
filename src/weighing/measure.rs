//! Household measures: reading USDA's measure texts and finding the one that is meant.

use crate::foods::Food;
use crate::memo::Quick;
use crate::quantity::units::{CUP_ML, FLUID_OUNCE_ML, TABLESPOON_ML, TEASPOON_ML};
use crate::reading::{Amount, Measure as Said, Size, VolumeUnit};
use crate::words;
use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

/// What a household measure is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Sort {
    /// Cups, spoons, fluid ounces.
    Volume,
    /// Ounces and pounds: the weight is said already.
    Mass,
    /// Pieces, slices, sizes.
    Piece,
    /// USDA's weight for somebody who names no amount.
    Unstated,
    /// A rule of thumb for one use (per slice of bread, per salad).
    Guideline,
}

/// The text of a household measure taken apart.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Parsed {
    /// What it is.
    pub sort: Sort,
    /// How many of the unit it speaks of.
    pub number: f64,
    /// Millilitres of the whole measure, for volumes.
    pub millilitres: f64,
    /// Its words in base form, without number and unit, before any bracket.
    pub words: Vec<String>,
    /// Words in its brackets, which say how it was weighed: `1 sandwich (1 slice bread)`.
    pub aside: Vec<String>,
    /// Numbers inside it, such as a diameter in inches.
    pub figures: Vec<f64>,
    /// The size it names.
    pub size: Option<Size>,
    /// Those of its words that name a sort of the food.
    pub varieties: Vec<String>,
}

impl Parsed {
    /// Whether it names this diameter, or a span that holds it: `(13-15" diameter)`.
    fn is_as_wide(&self, inches: f64) -> bool {
        let (low, high) = self
            .figures
            .iter()
            .fold((f64::MAX, f64::MIN), |(l, h), f| (l.min(*f), h.max(*f)));
        low - 0.3 < inches && inches < high + 0.3
    }
}

thread_local! {
    /// Measures taken apart already. All foods together use some 1,400 texts.
    static KNOWN: RefCell<HashMap<Box<str>, Rc<Parsed>, Quick>> = RefCell::default();
}

/// A measure taken apart, once for each text of a catalogue.
fn parsed(text: &str) -> Rc<Parsed> {
    KNOWN.with_borrow_mut(|known| {
        if let Some(parsed) = known.get(text) {
            return Rc::clone(parsed);
        }
        let new = Rc::new(parse(text));
        known.insert(text.into(), Rc::clone(&new));
        new
    })
}

/// Millilitres of the volumes that household measures are given in.
fn volume_ml(word: &str) -> Option<f64> {
    Some(match word {
        "cup" => CUP_ML,
        "tablespoon" | "tbsp" => TABLESPOON_ML,
        "teaspoon" | "tsp" => TEASPOON_ML,
        "pint" => 2.0 * CUP_ML,
        "quart" => 4.0 * CUP_ML,
        "liter" => 1000.0,
        "ml" => 1.0,
        _ => return None,
    })
}

/// Takes one measure apart.
#[must_use]
pub(crate) fn parse(text: &str) -> Parsed {
    let whole = text.to_lowercase();
    let (lower, aside) = match whole.split_once('(') {
        Some((main, aside)) => (main.to_owned(), words::words(aside)),
        None => (whole.clone(), Vec::new()),
    };
    let mut list = words::words(&lower);
    let mut parsed = Parsed {
        sort: Sort::Piece,
        number: 1.0,
        millilitres: 0.0,
        words: Vec::new(),
        aside,
        figures: figures(&whole),
        size: None,
        varieties: Vec::new(),
    };
    if lower == "unstated" {
        parsed.sort = Sort::Unstated;
        return parsed;
    }
    if lower.starts_with("guideline") {
        parsed.sort = Sort::Guideline;
        parsed.words = list;
        return parsed;
    }
    if let Some((number, rest)) = leading_number(&lower) {
        parsed.number = number;
        list = words::words(rest);
    }
    let first = list.first().map_or("", String::as_str);
    let second = list.get(1).map_or("", String::as_str);
    let skip = if let Some(ml) = volume_ml(first) {
        parsed.sort = Sort::Volume;
        parsed.millilitres = ml * parsed.number;
        1
    } else if first == "fl" && second == "oz" {
        parsed.sort = Sort::Volume;
        parsed.millilitres = FLUID_OUNCE_ML * parsed.number;
        2
    } else if matches!(first, "oz" | "lb" | "gram" | "g") {
        parsed.sort = Sort::Mass;
        1
    } else {
        0
    };
    parsed.words = list.split_off(skip.min(list.len()));
    parsed.size = size_of(text, &parsed.words);
    parsed.varieties = varieties(text, &parsed.words);
    parsed
}

/// `1`, `.25`, `1/2` or `1-1/2` at the start, and what follows.
fn leading_number(text: &str) -> Option<(f64, &str)> {
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '/' | '-')))
        .unwrap_or(text.len());
    let (head, rest) = text.split_at(end);
    let number: f64 = head
        .split('-')
        .filter(|p| !p.is_empty())
        .map(fraction)
        .sum::<Option<f64>>()?;
    (number > 0.0).then_some((number, rest))
}

fn fraction(part: &str) -> Option<f64> {
    match part.split_once('/') {
        Some((over, under)) => {
            let under: f64 = under.parse().ok()?;
            let over: f64 = over.parse().ok()?;
            (under > 0.0).then(|| over / under)
        }
        None => part.parse().ok(),
    }
}

/// All numbers after the leading one.
fn figures(text: &str) -> Vec<f64> {
    text.split(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '/')))
        .filter(|p| !p.is_empty())
        .skip(1)
        .filter_map(fraction)
        .collect()
}

/// A measure found for an amount.
#[derive(Debug, Clone, PartialEq)]
pub struct Hit {
    /// Grams of one unit said (one cup, one slice).
    pub grams_each: f64,
    /// The measure it rests on, for `--why`.
    pub rests_on: String,
    /// Whether it was the very unit said, and not just the nearest thing.
    pub close: bool,
}

/// Grams of one millilitre said, from the food's own volume measures.
#[must_use]
pub(crate) fn by_volume(food: &Food<'_>, spoken: VolumeUnit, said: &[String]) -> Option<Hit> {
    let fluid = matches!(spoken, VolumeUnit::FluidOunce);
    let best = food
        .measures()
        .map(|m| (m, parsed(m.text)))
        .filter(|(_, p)| p.sort == Sort::Volume && p.millilitres > 0.0)
        .map(|(m, p)| {
            let all = p.words.iter().chain(&p.aside);
            let overlap = all.clone().filter(|w| said.contains(w)).count();
            let foreign = (all.count() - overlap) as f64;
            let yields = p
                .words
                .iter()
                .chain(&p.aside)
                .any(|w| w == "yield" || w == "shell");
            let same = m.text.contains("fl oz") == fluid;
            let plain = f64::from(u8::from(
                p.words.is_empty() && p.aside.is_empty()
                    || p.words.iter().chain(&p.aside).any(|w| w == "nfs"),
            ));
            let score =
                1.5 * overlap as f64 - 0.2 * foreign + 0.4 * plain + f64::from(u8::from(same))
                    - if yields { 3.0 } else { 0.0 };
            (score, m, p.millilitres)
        })
        .max_by(|a, b| a.0.total_cmp(&b.0))?;
    let (_, m, millilitres) = best;
    Some(Hit {
        grams_each: m.grams / millilitres,
        rests_on: format!("{} = {} g", m.text, m.grams),
        close: true,
    })
}

/// Grams of one piece said, from the food's own piece measures. Of several that fit alike, the
/// one nearest to `near` grams is meant.
#[must_use]
pub(crate) fn by_count(
    food: &Food<'_>,
    amount: &Amount,
    said: &[String],
    near: Option<f64>,
) -> Option<Hit> {
    let Said::Count { unit, size, inches } = &amount.measure else {
        return None;
    };
    let unit = unit.as_ref().map(|u| words::words(u));
    let name = words::words(food.name());
    let best = |unit: Option<&[String]>, size: Option<Size>| {
        food.measures()
            .map(|m| (m, parsed(m.text)))
            .filter(|(_, p)| p.sort == Sort::Piece)
            .map(|(m, p)| {
                let off = near.map_or(0.0, |near| (m.grams / p.number / near).ln().abs());
                let score = piece_score(m.text, &p, unit, size, *inches, said, &name)
                    - NEARNESS * off.min(1.0);
                (score, m, p.number)
            })
            .max_by(|a, b| a.0.total_cmp(&b.0))
            .filter(|(score, ..)| *score > FITS)
    };
    let found = best(unit.as_deref(), *size).or_else(|| {
        let others = stand_ins(unit.as_deref()?.first()?);
        let mut others = others.iter().map(|other| [(*other).to_owned()]);
        others.find_map(|other| best(Some(&other), *size))
    });
    if let Some((score, m, number)) = found {
        let sized = parsed(m.text).size.is_some();
        let order = order_of(food, amount, m.grams / number).filter(|_| unit.is_none() && !sized);
        if let (Some(grams), Some(size)) = (order, *size) {
            let (factor, size) = size_factor(size);
            return Some(Hit {
                grams_each: grams * factor,
                rests_on: format!("no amount named = {grams} g; {size} taken as {factor} of it"),
                close: false,
            });
        }
        return Some(Hit {
            grams_each: m.grams / number,
            rests_on: format!("{} = {} g", m.text, m.grams),
            close: score >= 1.0,
        });
    }
    if unit.is_some() {
        return None;
    }
    let Some(size) = *size else {
        return only_sized(food);
    };
    let (factor, size) = size_factor(size);
    let (_, m, number) = best(None, None)?;
    Some(Hit {
        grams_each: m.grams / number * factor,
        rests_on: format!("{} = {} g; {size} taken as {factor} of it", m.text, m.grams),
        close: false,
    })
}

/// Other words for the same piece, nearest first.
fn stand_ins(unit: &str) -> &'static [&'static str] {
    match unit {
        "rasher" | "strip" => &["slice", "strip", "piece"],
        "wedge" | "sliver" => &["slice", "piece"],
        "chunk" | "hunk" | "block" => &["piece", "chunk", "cube"],
        "packet" | "sachet" => &["packet", "package", "pouch"],
        "pack" | "package" => &["package", "packet", "bag", "pouch"],
        "bag" | "pouch" => &["bag", "package", "pouch", "packet"],
        "box" => &["box", "package", "carton"],
        "carton" => &["carton", "container"],
        "container" | "tub" => &["container", "carton", "package"],
        "tin" => &["can"],
        "order" => &["order", "serving"],
        "serving" | "portion" => &["serving", "order"],
        "cake" => &["patty", "piece"],
        "fillet" => &["piece"],
        _ => &[],
    }
}

/// How much the usual content of a ware says about which of several is meant.
const NEARNESS: f64 = 0.6;
/// Part of a serving below which a piece is one of many.
const ONE_OF_MANY: f64 = 0.2;

/// The serving that a size without a number speaks of, where a piece is one of many: `large
/// fries` is an order of them, `large tomato` is one.
fn order_of(food: &Food<'_>, amount: &Amount, piece: f64) -> Option<f64> {
    let numbered = amount.text.contains(|c: char| c.is_numeric());
    let serving = unstated(food).filter(|_| !numbered)?;
    (piece < serving * ONE_OF_MANY).then_some(serving)
}

/// Pieces that USDA weighs in one size only (`4 large`), for a count that names none.
fn only_sized(food: &Food<'_>) -> Option<Hit> {
    let (m, p) = food
        .measures()
        .map(|m| (m, parsed(m.text)))
        .find(|(_, p)| p.sort == Sort::Piece && p.words.len() == 1 && p.size.is_some())?;
    Some(Hit {
        grams_each: m.grams / p.number,
        rests_on: format!("{} = {} g", m.text, m.grams),
        close: false,
    })
}

/// Score from which a piece measure fits at all.
const FITS: f64 = 0.4;

/// A piece of a size against the piece whose size is not said: USDA's small and large apples,
/// tomatoes, onions and potatoes are 0.64 to 0.82 and 1.2 to 1.7 of the medium one (SR28
/// weights of 09003, 11529, 11282, 11352); between them, common practice.
fn size_factor(size: Size) -> (f64, &'static str) {
    match size {
        Size::Mini => (0.5, "mini"),
        Size::Small | Size::Thin => (0.75, "small"),
        Size::Medium => (1.0, "medium"),
        Size::Large | Size::Thick => (1.35, "large"),
        Size::ExtraLarge => (1.8, "extra large"),
    }
}

fn piece_score(
    text: &str,
    m: &Parsed,
    unit: Option<&[String]>,
    size: Option<Size>,
    inches: Option<f64>,
    said: &[String],
    name: &[String],
) -> f64 {
    let has = |word: &str| m.words.iter().any(|w| w == word);
    let mut score = match unit {
        Some(unit) if m.words.starts_with(unit) => 3.1,
        Some(unit) if unit.iter().all(|w| has(w)) => 3.0,
        Some(unit)
            if unit == ["piece"]
                && (has("item")
                    || has("whole")
                    || has("each")
                    || m.words.iter().any(|w| is_piece(w))) =>
        {
            1.0
        }
        // A piece of a pie is a slice of it.
        Some(unit) if unit == ["piece"] && has("slice") => 1.7,
        // A slice of pizza or pie is USDA's piece.
        Some(unit) if unit == ["slice"] && has("piece") => 1.5,
        // A large roll of a food that is a roll: `1 large`.
        Some(unit) if unit.iter().all(|w| name.contains(w)) && only_size(m) => 2.6,
        Some(_) => -2.0,
        None if ["whole", "item", "fruit", "each", "full"]
            .into_iter()
            .any(has) =>
        {
            0.7
        }
        // `1 piece, large pizza` is less than `1 large pizza`.
        None if m.words.len() > 1 && m.words[0] == "piece" => 0.3,
        None if m.words.iter().any(|w| name.contains(w)) => 0.9,
        None if m.words.len() == 1 && m.size.is_some() => 0.8,
        None if m.words.iter().any(|w| is_piece(w)) => 0.6,
        None => 0.0,
    };
    score += match (size, m.size) {
        (Some(asked), Some(have)) if alike(asked, have) => 2.0,
        (Some(asked), Some(_)) if m.words.iter().any(|w| is_word_for(w, asked)) => 1.8,
        (Some(_), Some(_)) => -1.5,
        (Some(_), None) => -0.4,
        (None, Some(Size::Medium)) => 0.5,
        (None, Some(_)) => -0.5,
        (None, None) => 0.3,
    };
    if has("any") || text.contains("NS as to size") || has("nfs") {
        score += if size.is_none() { 1.3 } else { -0.3 };
    }
    if let Some(inches) = inches {
        score += if m.is_as_wide(inches) { 2.0 } else { 0.0 };
    }
    // Sizes have been weighed already: `medium crust` is no medium pizza.
    let mut tells = m.words.iter().filter(|w| !is_size(w));
    let overlap = tells.clone().filter(|w| said.contains(w)).count();
    let foreign = tells.by_ref().count() - overlap;
    let aside = m.aside.iter().filter(|w| !said.contains(w)).count();
    score + 0.6 * overlap as f64 - 0.12 * (foreign + aside.min(4)) as f64
        + variety(m, unit, said, name)
}

/// A piece of a sort that nobody named (`1 plum tomato` for a tomato) is not the piece meant;
/// the sort that was named (`1 cherry` for cherry tomatoes) is.
fn variety(m: &Parsed, unit: Option<&[String]>, said: &[String], name: &[String]) -> f64 {
    if unit.is_some() {
        return 0.0;
    }
    m.varieties
        .iter()
        .filter(|w| !name.contains(w))
        .map(|w| if said.contains(w) { 1.0 } else { -0.8 })
        .sum()
}

/// Words of a measure's text that name a sort of the food.
fn varieties(text: &str, list: &[String]) -> Vec<String> {
    // What stands in brackets says how it was weighed.
    let sort = words::words(text.split(['(', ',']).next().unwrap_or_default());
    let names = |w: &&String| {
        sort.contains(w) && !is_general(w) && !is_piece(w) && !matches!(w.as_str(), "or" | "and")
    };
    list.iter().filter(names).cloned().collect()
}

/// Whether a measure says a size and nothing else.
fn only_size(m: &Parsed) -> bool {
    m.size.is_some() && m.words.iter().all(|w| is_size(w))
}

/// Whether two size words say the same: a thick slice is a large one.
fn alike(one: Size, other: Size) -> bool {
    let plain = |size| match size {
        Size::Thin => Size::Small,
        Size::Thick => Size::Large,
        size => size,
    };
    plain(one) == plain(other)
}

/// Whether a word of a measure that names several sizes (`1 small/regular`) is this one.
fn is_word_for(word: &str, size: Size) -> bool {
    match size {
        Size::Mini => matches!(word, "miniature" | "mini"),
        Size::Small | Size::Thin => matches!(word, "small" | "thin"),
        Size::Medium => matches!(word, "medium" | "regular"),
        Size::Large | Size::Thick => matches!(word, "large" | "thick"),
        Size::ExtraLarge => matches!(word, "jumbo"),
    }
}

/// Words for a size.
fn is_size(word: &str) -> bool {
    matches!(
        word,
        "small" | "medium" | "large" | "regular" | "extra" | "jumbo" | "miniature" | "mini"
    )
}

/// Words for one of many small things.
fn is_piece(word: &str) -> bool {
    matches!(
        word,
        "piece"
            | "nut"
            | "kernel"
            | "half"
            | "fry"
            | "patty"
            | "link"
            | "ball"
            | "berry"
            | "nugget"
    )
}

/// Words of a measure that say size or wholeness and no sort of the food.
fn is_general(word: &str) -> bool {
    matches!(
        word,
        "whole"
            | "item"
            | "fruit"
            | "each"
            | "unit"
            | "full"
            | "circle"
            | "triangular"
            | "any"
            | "size"
            | "nfs"
            | "ns"
            | "as"
            | "to"
            | "medium"
            | "regular"
            | "small"
            | "large"
            | "extra"
            | "jumbo"
            // `1 large fast food order` is an order of whatever the food is.
            | "fast"
            | "food"
            | "order"
    ) || word.starts_with(|c: char| c.is_ascii_digit())
}

/// The size a measure names.
fn size_of(text: &str, words: &[String]) -> Option<Size> {
    let has = |word: &str| words.iter().any(|w| w == word);
    if text.contains("extra large") || text.contains("extra-large") || has("jumbo") {
        Some(Size::ExtraLarge)
    } else if has("medium") || has("regular") {
        Some(Size::Medium)
    } else if has("large") || has("thick") {
        Some(Size::Large)
    } else if has("small") || has("thin") {
        Some(Size::Small)
    } else if [
        "miniature",
        "mini",
        "snack",
        "cocktail",
        "cracker",
        "silver",
    ]
    .iter()
    .any(|w| has(w))
    {
        Some(Size::Mini)
    } else {
        None
    }
}

/// Whether the food has a measure of this size.
#[must_use]
pub(super) fn has_size(food: &Food<'_>, size: Size) -> bool {
    food.measures()
        .any(|m| parsed(m.text).size.is_some_and(|have| alike(have, size)))
}

/// USDA's weight for a person who names no amount.
#[must_use]
pub(crate) fn unstated(food: &Food<'_>) -> Option<f64> {
    food.measures()
        .find(|m| m.text == "unstated")
        .map(|m| m.grams)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::matching::{Catalogue, Context};
    use crate::reading::{Place, UnitSystem, parse_component};

    fn each(text: &str) -> f64 {
        let line = parse_component(text, Place::new("test", 1, 1), UnitSystem::Us).unwrap();
        let catalogue = Catalogue::embedded().unwrap();
        let found = catalogue.find(&line.food, &Context::default(), 1);
        let food = catalogue.food(found.food.unwrap());
        let hit = by_count(
            &food,
            &line.amount.unwrap(),
            &words::words(&line.food),
            None,
        );
        hit.unwrap().grams_each
    }

    /// FNDDS 2021-2023 portion weights of 74101000, 42100100, 41209000, 58131110,
    /// 24102000, 58106210 (a piece of no stated size); SR28 15151.
    #[test]
    fn the_piece_that_was_named() {
        for (text, grams) in [
            ("1 tomato", 125.0),
            ("3 cherry tomatoes", 17.0),
            ("2 plum tomatoes", 60.0),
            ("20 almonds", 1.2),
            ("3 falafels", 17.0),
            ("4 ravioli", 38.0),
            ("10 shrimp", 5.5),
            ("2 slices of pizza", 119.0),
            ("half a roast chicken", 600.0),
        ] {
            assert!((each(text) - grams).abs() < 1e-3, "{text}: {}", each(text));
        }
    }

    /// FNDDS 2021-2023 58106210: a large pizza has a diameter of 13 to 15 inches.
    #[test]
    fn a_diameter_between_two_is_of_that_size() {
        for text in ["14 inch cheese pizza", "13 inch cheese pizza"] {
            assert!((each(text) - 954.0).abs() < 1e-3, "{text}: {}", each(text));
        }
    }

    /// FNDDS 2021-2023 71400990: 110 g where no amount is named, 5 g a fry.
    #[test]
    fn a_size_of_what_comes_by_the_order() {
        for (text, grams) in [
            ("large fries", 110.0 * 1.35),
            ("small fries", 110.0 * 0.75),
            ("10 fries", 5.0),
        ] {
            assert!((each(text) - grams).abs() < 1e-3, "{text}: {}", each(text));
        }
    }

    /// SR28 11529: a large tomato weighs 182 g, a small one 91 g.
    #[test]
    fn a_size_that_no_measure_has() {
        assert!((each("1 large tomato") / 182.0 - 1.0).abs() < 0.15);
        assert!((each("1 small tomato") / 91.0 - 1.0).abs() < 0.15);
    }

    #[test]
    fn measures_are_taken_apart() {
        let cup = parse("1 cup, sliced");
        assert_eq!((cup.sort, cup.number), (Sort::Volume, 1.0));
        assert_eq!(cup.words, ["sliced"]);
        let floz = parse("1 fl oz (no ice)");
        assert!((floz.millilitres - 29.5735).abs() < 1e-4);
        let quarter = parse(".25 cup");
        assert!((quarter.millilitres - 59.147).abs() < 1e-3);
        let half = parse("1-1/2 oz");
        assert_eq!((half.sort, half.number), (Sort::Mass, 1.5));
        let pizza = parse("1 medium pizza (11-12\" diameter)");
        assert_eq!(pizza.figures, [11.0, 12.0]);
    }
}
