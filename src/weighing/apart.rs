//! Foods that stand in one phrase and are several: `turkey avocado`, `ribeye with mashed potatoes
//! and creamed spinach`. A phrase is taken apart only where the food found for all of it lacks
//! some of them, and each of the pieces is known by itself.

use super::finds::Finds;
use super::servings::is_drink;
use super::usual::Role;
use crate::foods::Trait;
use crate::matching::{Catalogue, Certainty, Found};
use crate::reading::{ComponentLine, Measure};
use crate::words::words_of;

/// Words of a phrase that may stand for several foods at most.
const MOST_WORDS: usize = 6;
/// Words behind which stands what a dish is made of.
const MADE: [&str; 7] = [
    "filled", "stuffed", "made", "loaded", "topped", "packed", "layered",
];
/// Words that join and name nothing.
const JOINING: [&str; 6] = ["and", "with", "a", "an", "of", "the"];

/// Looks words up for the person who wrote them.
#[derive(Clone, Copy)]
pub(super) struct Apart<'f, 'c> {
    pub finds: &'f Finds<'c>,
    pub british: bool,
}

impl Apart<'_, '_> {
    fn catalogue(&self) -> &Catalogue {
        self.finds.catalogue()
    }

    fn find(&self, text: &str) -> std::sync::Arc<Found> {
        self.finds.by_itself(text, self.british)
    }

    /// Whether a food found has all words of a piece in its names.
    fn holds(&self, found: &Found, piece: &str) -> bool {
        let Some(food) = found.food.map(|id| self.catalogue().food(id)) else {
            return false;
        };
        let said = words_of(piece);
        let mut open: Vec<&String> = said
            .iter()
            .filter(|word| !JOINING.contains(&word.as_str()))
            .collect();
        for name in std::iter::once(food.name()).chain(food.aliases()) {
            let name = words_of(name);
            open.retain(|word| !name.contains(word));
        }
        open.is_empty()
    }

    /// Whether a piece is a food by itself, all of its words in the food's names.
    fn is_food(&self, piece: &str) -> bool {
        let found = self.find(piece);
        found.certainty >= Certainty::Likely && self.holds(&found, piece)
    }

    /// The foods of words that stand side by side; one where they are one.
    pub(super) fn side_by_side(&self, text: &str) -> Vec<String> {
        let list: Vec<&str> = text.split_whitespace().collect();
        let one = vec![text.to_owned()];
        if !(2..=MOST_WORDS).contains(&list.len()) {
            return one;
        }
        let whole = self.find(text);
        if whole.certainty == Certainty::Sure || self.holds(&whole, text) {
            return one;
        }
        self.pieces(&list).unwrap_or(one)
    }

    /// Words cut into foods, the longest first; nothing where some are no food.
    fn pieces(&self, list: &[&str]) -> Option<Vec<String>> {
        if list.is_empty() {
            return Some(Vec::new());
        }
        (1..=list.len()).rev().find_map(|length| {
            let (first, rest) = list.split_at(length);
            let piece = first.join(" ");
            if !self.is_food(&piece) {
                return None;
            }
            let mut pieces = vec![piece];
            pieces.extend(self.pieces(rest)?);
            Some(pieces)
        })
    }

    /// What a food is told to come with, where that is a food of its own: the head, and the rest.
    fn with(&self, text: &str) -> Option<(String, Vec<String>)> {
        let (head, tail) = joint_of(text)?;
        let whole = self.find(text);
        if whole.certainty >= Certainty::Likely || self.holds(&whole, tail) {
            return None;
        }
        let role = |text: &str| self.finds.usual(text, self.find(text).food).role;
        let sweet = matches!(role(head), Role::Bread | Role::Fruit);
        let head_found = self.find(head);
        head_found.food?;
        let mut beside = Vec::new();
        for piece in tail.split(", ").flat_map(|piece| piece.split(" and ")) {
            let piece = piece.trim().trim_start_matches("and ").trim();
            if piece.is_empty() || self.holds(&head_found, piece) {
                continue;
            }
            let found = self.find(piece);
            let known = found.certainty >= Certainty::Likely || self.holds(&found, piece);
            // `a bagel with raisins`, `pizza with fruity toppings`.
            let within = sweet && matches!(role(piece), Role::Fruit | Role::Topping)
                || words_of(piece).last().is_some_and(|word| word == "topping");
            if !known || within {
                return None;
            }
            beside.push(piece.to_owned());
        }
        (!beside.is_empty()).then(|| (head.trim().to_owned(), beside))
    }

    /// `smoked salmon bagel`: a filling and the bread it is in, where the catalogue knows the bread
    /// only.
    pub(super) fn filled_bread<'t>(&self, text: &'t str) -> Option<(&'t str, &'t str)> {
        let (filling, bread) = text.trim().rsplit_once(' ')?;
        let role = |text: &str| self.finds.usual(text, self.find(text).food).role;
        if role(bread) != Role::Bread || role(filling) != Role::Protein {
            return None;
        }
        let whole = self.find(text);
        let said = words_of(filling);
        let held = said.iter().any(|word| self.holds(&whole, word));
        let own = self.find(filling);
        let dish = own
            .food
            .is_some_and(|id| self.catalogue().food(id).has(Trait::WholeDish));
        let known = own.certainty >= Certainty::Likely && !dish;
        (known && !held).then_some((filling, bread))
    }
}

/// Where a phrase goes on to what comes with its first food: behind `with`, `, and`, or `and`
/// before a drink.
fn joint_of(text: &str) -> Option<(&str, &str)> {
    text.split_once(" with ")
        .or_else(|| {
            text.split_once(", and ")
                .filter(|(head, _)| !head.contains(','))
        })
        .or_else(|| text.split_once(" and ").filter(|(_, tail)| is_drink(tail)))
}

/// Whether an amount is of what stands first, and not of all: three tacos, a plate, none said.
fn is_of_the_head(line: &ComponentLine) -> bool {
    // `a burrito filled with eggs` is one thing.
    let made = |(before, _): (&str, &str)| {
        let last = before.rsplit(' ').next().unwrap_or_default();
        MADE.contains(&last)
    };
    let one = line.food.contains(" with ") && joint_of(&line.text).is_none_or(made);
    if line.share.is_some() || one {
        return false;
    }
    match line.amount.as_ref().map(|amount| &amount.measure) {
        None => true,
        Some(Measure::Count { .. }) => line.amount.as_ref().is_some_and(|a| a.number.likely >= 1.0),
        Some(_) => false,
    }
}

/// Components of which each is one food, as far as can be told.
pub(super) fn foods_apart(
    list: Vec<ComponentLine>,
    finds: &Finds<'_>,
    british: bool,
) -> Vec<ComponentLine> {
    let apart = Apart { finds, british };
    let mut all = Vec::with_capacity(list.len());
    for line in list {
        if !is_of_the_head(&line) {
            all.push(line);
            continue;
        }
        let split = apart.with(&line.food);
        let (head, mut beside) = split.unwrap_or_else(|| (line.food.clone(), Vec::new()));
        let filled = apart.filled_bread(&head);
        let filled = filled.map(|(filling, bread)| (filling.to_owned(), bread.to_owned()));
        let head = match filled {
            Some((filling, bread)) => {
                beside.insert(0, filling);
                bread
            }
            None => head,
        };
        if beside.is_empty() {
            all.push(line);
            continue;
        }
        let own = |food: String| ComponentLine {
            text: food.clone(),
            food,
            amount: None,
            note: None,
            served_as: None,
            ..line.clone()
        };
        let beside: Vec<ComponentLine> = beside.into_iter().map(own).collect();
        all.push(ComponentLine {
            text: joint_of(&line.text)
                .map_or(&*line.text, |(before, _)| before)
                .to_owned(),
            food: head,
            ..line
        });
        all.extend(beside);
    }
    all
}
