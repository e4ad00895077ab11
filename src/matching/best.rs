//! The best candidates so far.

use super::matcher::Candidate;
use super::scoring::weight;

/// Gap in score from which another food is no rival.
pub(super) const RIVALS_WITHIN: f32 = 0.2;

/// The best candidates, best first, one for each item; equals stand in the order of the
/// table.
pub(super) struct Best {
    pub(super) list: Vec<Candidate>,
    /// Candidates wanted whatever their score.
    top: usize,
    /// Candidates kept, further ones where they come near the first.
    most: usize,
}

impl Best {
    pub(super) fn new(top: usize, most: usize) -> Self {
        let top = top.max(1);
        let most = most.max(top);
        Self {
            list: Vec::with_capacity(most + 1),
            top,
            most,
        }
    }

    /// Score of the candidate at a place, from 1; 0 while there is none.
    fn score_at(&self, place: usize) -> f32 {
        self.list.get(place - 1).map_or(0.0, |c| c.score)
    }

    /// Score of the last candidate that is wanted whatever its score; 0 while there is none.
    pub(super) fn last_wanted(&self) -> f32 {
        self.score_at(self.top)
    }

    /// Score that a candidate has to reach so as to be among them; 0 while there is room.
    pub(super) fn least(&self) -> f32 {
        let near = self.score_at(1) - RIVALS_WITHIN;
        let least = self.score_at(self.most).max(near).min(self.last_wanted());
        // Distant names may come in where a name does not fit.
        if least < weight::DISTANT_MOST {
            0.0
        } else {
            least
        }
    }

    pub(super) fn offer(&mut self, candidate: Candidate) {
        let full = self.list.len() == self.most;
        if full && self.list.last().is_none_or(|last| !candidate.before(last)) {
            return;
        }
        if let Some(same) = self.list.iter().position(|b| b.item == candidate.item) {
            if !candidate.before(&self.list[same]) {
                return;
            }
            self.list.remove(same);
        }
        let at = self.list.partition_point(|b| b.before(&candidate));
        self.list.insert(at, candidate);
        self.list.truncate(self.most);
    }
}
