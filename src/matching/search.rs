//! Which food is meant: scoring names against words.
//!
//! The score of a name is the share of meaning that it has in common with the query:
//! `met / (met + missed + extra)`, where every word weighs by what it does (naming the
//! food, its state, nothing) and by how telling it is. Contradictions (raw against
//! cooked, with against without), a word that makes another food of it (oil, juice) and a
//! different head noun take it down.

use super::best::Best;
use super::matcher::{Candidate, Matcher};
use super::query::Query;
use super::scoring::{Bound, Goal, weight};
use super::scratch::{MEANT, Quick, SCRATCH, Scratch, WRITTEN};

/// Names whose full score is worth computing.
const SHORTLIST: usize = 96;
/// Times as many names as are worth it are gathered before the others are sorted out.
const LISTS: usize = 3;
/// Sums are rounded in another order here than in the estimate.
const BELOW: f32 = 0.999;
/// Names of these that are scored before the others.
const FIRST: usize = 12;

impl Matcher<'_, '_> {
    /// The best `top` candidates, best first, one for each item found.
    #[must_use]
    pub fn find(&self, query: &Query, top: usize) -> Vec<Candidate> {
        let mut list = self.near(query, top, top);
        list.truncate(top);
        list
    }

    /// The best candidates: `top` of them (one at least), found by distant words as well where
    /// too few fit, and up to `most` of those that are nearly as good as the first.
    pub(super) fn near(&self, query: &Query, top: usize, most: usize) -> Vec<Candidate> {
        SCRATCH.with_borrow_mut(|scratch| {
            self.mark(query, scratch);
            self.shortlist(query, scratch);
            scratch.note_forms(query, true);
            let mut best = Best::new(top, most);
            let item = |entry: u32| self.index.entries()[entry as usize].item;
            if let Some(entry) = query.same {
                let score =
                    weight::SAME_MEANING * (1.0 - self.other_words(query, entry, &scratch.forms));
                best.offer(Candidate {
                    item: item(entry),
                    entry,
                    score,
                });
            }
            if let Some(entry) = query.exact {
                best.offer(Candidate {
                    item: item(entry),
                    entry,
                    score: 1.0,
                });
            }
            let bound = Bound::of(query);
            for quick in &scratch.short {
                let (entry, least) = (quick.name(), best.least());
                if bound.hopeless(scratch.met[entry as usize], least) {
                    continue;
                }
                let candidate = self.candidate(query, entry, scratch, &bound, least);
                if candidate.score > 0.0 {
                    best.offer(candidate);
                }
            }
            // Distant names never come before those that fit.
            if best.last_wanted() < weight::DISTANT_MOST {
                scratch.forget_names();
                self.distant(query, scratch, &mut best);
            }
            scratch.note_forms(query, false);
            scratch.clear();
            best.list
        })
    }

    /// Writes what the query has to do with each word.
    pub(super) fn mark(&self, query: &Query, scratch: &mut Scratch) {
        scratch.fit(self.index);
        for (at, asked) in query.terms.iter().enumerate() {
            let bit = 1_u32 << at;
            if let Some(word) = asked.word {
                let mark = scratch.mark(word);
                if asked.term.negated {
                    mark.excluded |= bit;
                } else {
                    mark.asked |= bit;
                }
            }
            if !asked.term.negated {
                for word in &asked.broader {
                    scratch.mark(*word).above |= bit;
                }
            }
        }
    }

    /// Names that share the most telling words with the query.
    fn shortlist(&self, query: &Query, scratch: &mut Scratch) {
        let mut all = 0.0;
        for asked in query.terms.iter().filter(|t| !t.term.negated) {
            all += asked.weight;
            if !asked.finds {
                continue;
            }
            if let Some(word) = asked.word {
                scratch.meet(self.index.postings(word), asked.weight);
                scratch.meet(self.index.below(word), asked.weight * weight::NARROWER);
            }
            for word in &asked.broader {
                scratch.meet(self.index.postings(*word), asked.weight * weight::BROADEST);
            }
        }
        let weights = self.index.weights();
        let Scratch {
            met,
            touched,
            short,
            ..
        } = scratch;
        let better = |a: &Quick, b: &Quick| b.cmp(a);
        // What a name must have met so as to be among the best so far: nothing at first.
        let mut least = 0.0;
        for entry in touched.iter() {
            let met = met[*entry as usize];
            if met < least {
                continue;
            }
            let extra = (weights[*entry as usize] - met).max(0.0);
            let estimate = met / (all.max(met) + weight::EXTRA * extra);
            short.push(Quick::new(estimate, *entry));
            if short.len() == SHORTLIST * LISTS {
                let (_, last, _) = short.select_nth_unstable_by(SHORTLIST - 1, better);
                least = last.estimate() * all * BELOW;
                short.truncate(SHORTLIST);
            }
        }
        if short.len() > SHORTLIST {
            short.select_nth_unstable_by(SHORTLIST, better);
            short.truncate(SHORTLIST);
        }
        // The sooner the best are scored, the fewer others have to be.
        if short.len() > FIRST {
            short.select_nth_unstable_by(FIRST, better);
        }
    }

    /// A name with its score; 0 where that is sure to be below `least`.
    fn candidate(
        &self,
        query: &Query,
        entry: u32,
        scratch: &Scratch,
        bound: &Bound,
        least: f32,
    ) -> Candidate {
        let row = &self.index.entries()[entry as usize];
        // What is asked for as raw has said what the prior only guesses.
        let prior = if query.unready { 1.0 } else { row.prior };
        let goal = Goal {
            bound,
            most: bound.most(scratch.met[entry as usize]) * prior,
            least,
        };
        let score = self.score(query, row, &scratch.marks, &goal) * prior;
        let score = if score < least {
            0.0
        } else {
            score * (1.0 - self.other_words(query, entry, &scratch.forms))
        };
        Candidate {
            item: row.item,
            entry,
            score: score.min(weight::INEXACT),
        }
    }

    /// Names with little in common with the query: another kind of the same sort, or a word
    /// within a compound. They stand behind all that fit.
    fn distant(&self, query: &Query, scratch: &mut Scratch, best: &mut Best) {
        let foods = query.terms.iter();
        let foods = foods.filter(|t| t.term.class.names_food() && !t.term.negated);
        let mut all = 0.0;
        for asked in foods {
            for word in asked.term.word.split(' ') {
                all += asked.weight;
                if let Some(form) = self.index.form(word) {
                    scratch.meet(self.index.names_with(form), asked.weight);
                }
            }
        }
        let heads = query.terms.iter().filter(|t| t.term.head);
        let sorts: Vec<u32> = heads.filter_map(|t| t.broader.first().copied()).collect();
        let entries = self.index.entries();
        // 0: another kind of the same sort; 1: a step apart.
        let apart = |entry: u32| {
            let head = entries[entry as usize].head.checked_sub(1)?;
            let mut above = self.index.above(head).take(2);
            above.position(|sort| sorts.contains(&sort))
        };
        for sort in &sorts {
            for names in [self.index.postings(*sort), self.index.below(*sort)] {
                let alike = names.iter().filter(|name| apart(**name).is_some());
                scratch.touched.extend(alike);
            }
        }
        for entry in &scratch.touched {
            let kind = match apart(*entry) {
                Some(0) => weight::DISTANT_KIND,
                Some(_) => weight::DISTANT_KIND * weight::FARTHER,
                None => 0.0,
            };
            let met = scratch.met[*entry as usize];
            let score = weight::DISTANT_WORDS * met / all.max(f32::EPSILON) + kind;
            if score > 0.0 {
                best.offer(Candidate {
                    item: entries[*entry as usize].item,
                    entry: *entry,
                    score,
                });
            }
        }
    }

    /// Synonyms make names equal that are not written alike (leaf lettuce and butterhead):
    /// among near-equals the one in the query's own words comes first.
    ///
    /// `noted` says which forms the query is written in and means.
    fn other_words(&self, query: &Query, entry: u32, noted: &[u8]) -> f32 {
        let name = self.index.written(&self.index.entries()[entry as usize]);
        let shared = |words: usize, bit: u8| {
            let noted = name.iter().filter(|form| noted[**form as usize] & bit != 0);
            let shared = noted.count() as f32;
            shared / ((name.len() + words) as f32 - shared).max(1.0)
        };
        // Its own words count most, then those that they mean.
        let alike = shared(query.written.len(), WRITTEN)
            .max(shared(query.meant.len(), MEANT) * weight::MEANT);
        weight::OTHER_WORDS * (1.0 - alike)
    }
}
