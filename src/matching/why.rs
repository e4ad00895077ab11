//! Why a name was taken, in words.

use super::index::TermRow;
use super::knowledge::Class;
use super::matcher::{Candidate, Matcher};
use super::query::{Query, QueryTerm};
use std::fmt::Write as _;

/// By what a name has a word.
enum Met<'b> {
    Itself,
    By(&'b str),
}

impl Matcher<'_, '_> {
    /// One line on why a name was taken: which words met, which are missing, which are more.
    #[must_use]
    pub(crate) fn why(&self, query: &Query, candidate: &Candidate) -> String {
        let entry = &self.index.entries()[candidate.entry as usize];
        let rows = self.index.terms_of(entry);
        let (mut met, mut missing) = (Vec::new(), Vec::new());
        let asked = query.terms.iter();
        for asked in asked.filter(|q| q.term.class != Class::Neutral) {
            let word = written(&asked.term.word, asked.term.negated);
            match self.met_by(asked, rows) {
                None => missing.push(word),
                Some(Met::Itself) => met.push(word),
                Some(Met::By(by)) => met.push(format!("{word} by {by}")),
            }
        }
        let said = |row: &TermRow| {
            let word = row.packed.word();
            let is = |q: &QueryTerm| q.word == Some(word) || q.broader.contains(&word);
            query.terms.iter().any(is)
        };
        let counts = |row: &TermRow| !row.packed.implied() && row.weight > 0.1;
        let more: Vec<String> = rows
            .iter()
            .filter(|row| (counts(row) || row.packed.negated()) && !said(row))
            .map(|row| {
                let word = self.index.word_text(row.packed.word());
                written(word, row.packed.negated())
            })
            .collect();
        if met.is_empty() {
            met.push("no word".to_owned());
        }
        let mut line = format!("`{}` meets {}", self.index.text_of(entry), met.join(", "));
        for (label, list) in [("not in it", missing), ("more in it", more)] {
            if !list.is_empty() {
                let _ = write!(line, "; {label}: {}", list.join(", "));
            }
        }
        line
    }

    /// Whether a name has what is asked for.
    fn met_by(&self, asked: &QueryTerm, rows: &[TermRow]) -> Option<Met<'_>> {
        let same = |row: &TermRow| {
            Some(row.packed.word()) == asked.word && row.packed.negated() == asked.term.negated
        };
        if rows.iter().any(same) {
            return Some(Met::Itself);
        }
        let related = |row: &&TermRow| {
            let word = row.packed.word();
            let mut above = self.index.above(word);
            !row.packed.negated()
                && (asked.broader.contains(&word) || above.any(|kind| Some(kind) == asked.word))
        };
        let row = rows.iter().find(related)?;
        Some(Met::By(self.index.word_text(row.packed.word())))
    }
}

fn written(word: &str, negated: bool) -> String {
    if negated {
        format!("no {word}")
    } else {
        word.to_owned()
    }
}
