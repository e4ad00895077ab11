//! What a name can score at most, by the words it was found with.

use super::super::knowledge::Class;
use super::super::query::Query;
use super::weight;

/// The most that a name can score, by what it was found with.
pub(crate) struct Bound {
    /// Weight of the words that only names score with which are found by them.
    found: f32,
    /// How much more than found for them such names can be credited with.
    more: f32,
    /// Weight of all other words: any name may have them.
    other: f32,
}

impl Bound {
    pub(crate) fn of(query: &Query) -> Self {
        let mut bound = Self {
            found: 0.0,
            more: 0.0,
            other: 0.0,
        };
        for asked in &query.terms {
            // A state may be said in another word, and a part by the item's main name only.
            if asked.finds && asked.term.state.0 == 0 && asked.term.class != Class::Part {
                bound.found += asked.weight;
                if !asked.broader.is_empty() {
                    bound.more += asked.weight * (weight::BROADER - weight::BROADEST);
                }
            } else {
                bound.other += asked.weight;
            }
        }
        bound
    }

    /// The most weight that a name can meet of which `met` was found.
    pub(crate) fn most(&self, met: f32) -> f32 {
        // Every word that a broader one finds counts at least as BROADEST.
        let more = self
            .more
            .min(met * (weight::BROADER / weight::BROADEST - 1.0));
        self.found.min(met + more) + self.other
    }

    /// Whether a name of which `met` was found is sure to score less than `least`.
    pub(crate) fn hopeless(&self, met: f32, least: f32) -> bool {
        self.below(least, self.most(met), 0.0, 1.0)
    }

    /// Whether a name cannot reach a score any more: `most` is what it can meet, `extra` and
    /// `factor` what stands against it so far.
    pub(crate) fn below(&self, least: f32, most: f32, extra: f32, factor: f32) -> bool {
        /// Sums are rounded in another order here than in the score.
        const ROUNDING: f32 = 1.0001;
        let all = self.found + self.other + weight::EXTRA * extra;
        most * factor * ROUNDING < least * all
    }
}

/// What a name has to reach to be scored in full.
pub(crate) struct Goal<'b> {
    pub bound: &'b Bound,
    /// Most weight that it can meet, times its prior.
    pub most: f32,
    /// Score that it has to reach.
    pub least: f32,
}
