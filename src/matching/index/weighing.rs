//! What the words of a name weigh.
//!
//! This file is also compiled into the build script.

use super::super::analysis::Term;
use super::super::knowledge::{Class, Knowledge};

/// What words weigh, in one place. Our judgement, checked against known matches.
mod weight {
    pub(crate) const FOOD: f32 = 1.0;
    pub(crate) const PRODUCT: f32 = 0.9;
    pub(crate) const PART: f32 = 0.8;
    pub(crate) const CUT: f32 = 0.3;
    pub(crate) const STATE: f32 = 0.3;
    pub(crate) const FAINT: f32 = 0.12;
    pub(crate) const NEUTRAL: f32 = 0.02;
    /// What comes along, against what the food is.
    pub(crate) const SECONDARY: f32 = 0.55;
    /// A remark in brackets, against the name.
    pub(crate) const ASIDE: f32 = 0.4;
    /// A word that no food table knows, beside words that it does know: mostly a brand.
    pub(crate) const STRANGE: f32 = 0.35;
    /// A word that another one of the name says more exactly (`cheese` beside `cheddar`).
    pub(crate) const REPEATED: f32 = 0.12;
    /// The head noun, against other words.
    pub(crate) const HEAD: f32 = 1.4;
    /// Words in the parts behind the head: the next, the one after, all further ones.
    pub(crate) const BEHIND: [f32; 4] = [1.0, 0.8, 0.5, 0.35];
    /// The same for states.
    pub(crate) const STATE_BEHIND: [f32; 4] = [1.0, 1.0, 0.8, 0.6];
    /// A state in a dimension that another word has spoken of (`cooked, boiled`).
    pub(crate) const STATE_AGAIN: f32 = 0.4;
    /// Part of a word's weight that does not depend on its rarity.
    pub(crate) const FLOOR: f32 = 0.4;
}

/// What a term weighs by class and place, with the rarity of its word.
fn term_weight(term: &Term, rarity: f32) -> f32 {
    let base = match term.class {
        Class::Food => weight::FOOD,
        Class::Product => weight::PRODUCT,
        Class::Part => weight::PART,
        Class::Cut => weight::CUT,
        Class::State => weight::STATE,
        Class::Faint => weight::FAINT,
        Class::Neutral => weight::NEUTRAL,
        Class::Negator | Class::Joiner => 0.0,
    };
    let along = if term.secondary {
        weight::SECONDARY
    } else {
        1.0
    };
    let aside = if term.aside { weight::ASIDE } else { 1.0 };
    let head = if term.head { weight::HEAD } else { 1.0 };
    let place = usize::from(term.behind.min(3));
    let behind = if term.class.names_food() {
        weight::BEHIND[place]
    } else {
        weight::STATE_BEHIND[place]
    };
    base * along * aside * head * behind * (weight::FLOOR + (1.0 - weight::FLOOR) * rarity)
}

/// Weights of the terms of one name or query. `rarity` gives a word's rarity, `None` for
/// a word that nobody knows.
#[must_use]
pub(crate) fn weigh_terms(
    terms: &[Term],
    knowledge: &Knowledge<'_>,
    rarity: impl Fn(&str) -> Option<f32>,
) -> Vec<f32> {
    let rarities: Vec<Option<f32>> = terms.iter().map(|t| rarity(&t.word)).collect();
    let any_known = terms
        .iter()
        .zip(&rarities)
        .any(|(t, r)| t.class.names_food() && !t.negated && r.is_some());
    let mut weights = Vec::with_capacity(terms.len());
    for (at, (term, rarity)) in terms.iter().zip(&rarities).enumerate() {
        let mut weight = term_weight(term, rarity.unwrap_or(1.0));
        if term.class == Class::State {
            weight *= knowledge.dimension_weight(term.state.0);
        }
        if rarity.is_none() && any_known {
            weight *= weight::STRANGE;
        }
        if terms[..at]
            .iter()
            .any(|t| t.word == term.word && t.negated == term.negated)
        {
            weight = 0.0;
        } else if said_by_another(terms, at, knowledge) {
            weight *= weight::REPEATED;
        } else if term.class == Class::State
            && terms.iter().enumerate().any(|(other, t)| {
                other != at
                    && t.class == Class::State
                    && t.state.0 == term.state.0
                    && (other < at || term.word == "cooked")
                    && t.word != "cooked"
            })
        {
            weight *= weight::STATE_AGAIN;
        }
        weights.push(weight);
    }
    weights
}

/// Whether another word of the name is a kind of this one.
pub(super) fn said_by_another(terms: &[Term], at: usize, knowledge: &Knowledge<'_>) -> bool {
    let term = &terms[at];
    terms.iter().enumerate().any(|(other, t)| {
        other != at
            && t.negated == term.negated
            && (!t.aside || term.aside)
            && t.class != Class::Cut
            && knowledge.above(t.phrase).any(|w| Some(w) == term.phrase)
    })
}
