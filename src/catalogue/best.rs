//! The best candidates so far.

use super::matcher::Candidate;
use super::scoring::weight;

/// The best candidates, best first, one for each item; equals stand in the order of the
/// table.
pub(super) struct Best {
    pub(super) list: Vec<Candidate>,
    top: usize,
}

impl Best {
    pub(super) fn new(top: usize) -> Self {
        Self {
            list: Vec::with_capacity(top + 1),
            top,
        }
    }

    /// Score that a candidate has to reach so as to be among them; 0 while there is room.
    pub(super) fn least(&self) -> f32 {
        let last = self.list.last().filter(|_| self.list.len() == self.top);
        let least = last.map_or(0.0, |last| last.score);
        // Distant names may come in where a name does not fit.
        if least < weight::DISTANT_MOST {
            0.0
        } else {
            least
        }
    }

    pub(super) fn offer(&mut self, candidate: Candidate) {
        let full = self.list.len() == self.top;
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
        self.list.truncate(self.top);
    }
}
