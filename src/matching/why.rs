//! Why a name was taken, in words.

use super::index::TermRow;
use super::knowledge::Class;
use super::matcher::{Candidate, Matcher};
use super::query::{Query, QueryTerm};

impl Matcher<'_, '_> {
    /// How the query is read: its words with what they do and what they weigh.
    #[must_use]
    pub fn reading(&self, query: &Query) -> String {
        let word = |asked: &QueryTerm| {
            let sign = if asked.term.negated { "no " } else { "" };
            let head = if asked.term.head { ", head" } else { "" };
            format!(
                "{sign}{} ({:?} {:.2}{head})",
                asked.term.word, asked.term.class, asked.weight
            )
        };
        query.terms.iter().map(word).collect::<Vec<_>>().join("; ")
    }

    /// One line on why a name was taken: which words met, which are missing, which are more.
    #[must_use]
    pub fn why(&self, query: &Query, candidate: &Candidate) -> String {
        let entry = &self.index.entries()[candidate.entry as usize];
        let rows = self.index.terms_of(entry);
        let written = |word: &str, negated: bool| {
            if negated {
                format!("no {word}")
            } else {
                word.to_owned()
            }
        };
        let (mut met, mut missing) = (Vec::new(), Vec::new());
        for asked in query
            .terms
            .iter()
            .filter(|q| q.term.class != Class::Neutral)
        {
            let word = written(&asked.term.word, asked.term.negated);
            let same = |row: &&TermRow| {
                Some(row.packed.word()) == asked.word && row.packed.negated() == asked.term.negated
            };
            let related = |row: &&TermRow| {
                let word = row.packed.word();
                !row.packed.negated()
                    && (asked.broader.contains(&word)
                        || self
                            .index
                            .above(word)
                            .any(|above| Some(above) == asked.word))
            };
            if rows.iter().any(|row| same(&row)) {
                met.push(word);
            } else if let Some(row) = rows.iter().find(related) {
                met.push(format!(
                    "{word} by {}",
                    self.index.word_text(row.packed.word())
                ));
            } else {
                missing.push(word);
            }
        }
        let more: Vec<String> = rows
            .iter()
            .filter(|row| !row.packed.implied() && row.weight > 0.1 || row.packed.negated())
            .filter(|row| {
                let word = row.packed.word();
                query
                    .terms
                    .iter()
                    .all(|q| q.word != Some(word) && !q.broader.contains(&word))
            })
            .map(|row| {
                written(
                    self.index.word_text(row.packed.word()),
                    row.packed.negated(),
                )
            })
            .collect();
        let mut line = format!("`{}` meets ", self.index.text_of(entry));
        line.push_str(&if met.is_empty() {
            "no word".to_owned()
        } else {
            met.join(", ")
        });
        for (label, list) in [("not in it", missing), ("more in it", more)] {
            if !list.is_empty() {
                line.push_str("; ");
                line.push_str(label);
                line.push_str(": ");
                line.push_str(&list.join(", "));
            }
        }
        line
    }
}
