//! Which food is meant: scoring names against words.
//!
//! The score of a name is the share of meaning that it has in common with the query:
//! `met / (met + missed + extra)`, where every word weighs by what it does (naming the
//! food, its state, nothing) and by how telling it is. Contradictions (raw against
//! cooked, with against without) and a different head noun take it down.

use super::analysis::{Speller, Term, analyse};
use super::index::{Entry, Index, PackedTerm};
use super::knowledge::{Class, Knowledge};
use super::words::words;
use std::collections::HashMap;

/// How sure a match is.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "lowercase")]
pub enum Certainty {
    /// Nothing fits.
    None,
    /// Something fits, but do look.
    Guess,
    /// Most probably right.
    Likely,
    /// As good as stated.
    Sure,
}

impl Certainty {
    /// The word for tables and files.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Certainty::None => "none",
            Certainty::Guess => "guess",
            Certainty::Likely => "likely",
            Certainty::Sure => "sure",
        }
    }
}

/// One candidate.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// What was found: a food's row, or a row of a target table.
    pub item: u32,
    /// The name in the index that fitted best.
    pub entry: u32,
    /// From 0 (nothing in common) to 1 (says the same).
    pub score: f32,
}

/// Words around a component that lean the choice.
#[derive(Debug, Clone, Default)]
pub struct Context {
    /// Words of the dish's name and of the other components, in base form.
    pub words: Vec<String>,
    /// Whether British senses come first (`chips`, `biscuit`).
    pub british: bool,
}

/// Weights and penalties of the score, in one place.
mod weight {
    /// A word that names a food.
    pub const FOOD: f32 = 1.0;
    /// A word that says a state.
    pub const STATE: f32 = 0.3;
    /// A word for a class of foods (dish, mix).
    pub const FAINT: f32 = 0.12;
    /// A word that says nothing.
    pub const NEUTRAL: f32 = 0.02;
    /// What comes along, against what the food is.
    pub const SECONDARY: f32 = 0.55;
    /// Part of a word's weight that does not depend on its rarity.
    pub const FLOOR: f32 = 0.35;
    /// How much an unasked word of the name counts against it.
    pub const EXTRA: f32 = 0.45;
    /// Credit for the broader word (`sirloin` met by `beef`).
    pub const BROADER: f32 = 0.6;
    /// The query's head is missing in the name.
    pub const HEAD_MISSED: f32 = 0.62;
    /// The name's head is not asked for.
    pub const HEAD_EXTRA: f32 = 0.72;
    /// A word excluded on one side and present on the other.
    pub const EXCLUDED: f32 = 0.4;
    /// A word of the context that the name holds.
    pub const CONTEXT: f32 = 0.02;
    /// What a name loses for a special version that nobody asked for.
    pub const UNASKED: f32 = 0.85;
    /// What a name loses that says the same in other words.
    pub const OTHER_WORDS: f32 = 0.04;
}

/// Candidates whose own words are compared.
const CLOSELY_READ: usize = 16;

/// Names whose full score is worth computing.
const SHORTLIST: usize = 96;

/// Takes misspelt words to the dictionary's.
struct IndexSpeller<'i, 'b>(&'i Index<'b>);

impl Speller for IndexSpeller<'_, '_> {
    fn knows(&self, word: &str) -> bool {
        self.0.word(word).is_some()
    }

    fn mend(&self, word: &str) -> Option<Vec<String>> {
        if let Some(pair) = split_in_two(self.0, word) {
            return Some(pair);
        }
        nearest(self.0, word).map(|w| vec![w])
    }
}

/// `meatloaf` as `meat loaf`: both halves known and long enough to mean something.
fn split_in_two(index: &Index<'_>, word: &str) -> Option<Vec<String>> {
    if !word.is_ascii() {
        return None;
    }
    (3..word.len().saturating_sub(2)).find_map(|at| {
        let (left, right) = word.split_at(at);
        let right = super::words::base_form(right);
        let known = |w: &str| index.word(w).is_some_and(|n| !index.postings(n).is_empty());
        (known(left) && known(&right)).then(|| vec![left.to_owned(), right])
    })
}

/// The dictionary word nearest to a misspelt one, within one slip (two from seven
/// letters on). Ties go to the word in more names, then to the alphabet.
fn nearest(index: &Index<'_>, word: &str) -> Option<String> {
    let allowed = if word.len() >= 7 { 2.0 } else { 1.0 };
    let mut best: Option<(f32, usize, String)> = None;
    for number in index.near(word) {
        let other = index.word_text(number);
        let slips = slips(word, other);
        if slips > allowed {
            continue;
        }
        let uses = index.postings(number).len();
        let better = best.as_ref().is_none_or(|(s, u, w)| {
            (slips, std::cmp::Reverse(uses), other) < (*s, std::cmp::Reverse(*u), w.as_str())
        });
        if better {
            best = Some((slips, uses, other.to_owned()));
        }
    }
    best.map(|(_, _, word)| word)
}

/// Slips between two spellings: transpositions count once; a doubled letter and a key
/// beside the right one count less, a different first letter more.
fn slips(written: &str, meant: &str) -> f32 {
    let mut slips = strsim::osa_distance(written, meant) as f32;
    if written.bytes().next() != meant.bytes().next() {
        slips += 0.5;
    }
    if undoubled(written) == undoubled(meant) {
        slips -= 0.5;
    } else if written.len() == meant.len() && neighbours(written, meant) {
        slips -= 0.3;
    }
    slips
}

fn undoubled(word: &str) -> String {
    let mut last = ' ';
    word.chars()
        .filter(|c| std::mem::replace(&mut last, *c) != *c)
        .collect()
}

/// Whether all differing letters lie beside each other on a keyboard.
fn neighbours(a: &str, b: &str) -> bool {
    const ROWS: [&str; 3] = ["qwertyuiop", "asdfghjkl", "zxcvbnm"];
    let place = |c: char| {
        ROWS.iter()
            .enumerate()
            .find_map(|(r, row)| Some((r, row.find(c)?)))
    };
    a.chars()
        .zip(b.chars())
        .filter(|(x, y)| x != y)
        .all(|(x, y)| match (place(x), place(y)) {
            (Some((r1, c1)), Some((r2, c2))) => r1.abs_diff(r2) <= 1 && c1.abs_diff(c2) <= 1,
            _ => false,
        })
}

/// A query made ready: its terms with dictionary numbers and weights.
#[derive(Debug, Clone)]
pub struct Query {
    terms: Vec<QueryTerm>,
    /// The words as written, in base form.
    written: Vec<String>,
    /// The name that the query is, word for word.
    exact: Option<u32>,
}

#[derive(Debug, Clone)]
struct QueryTerm {
    term: Term,
    /// Number in the dictionary; `None` for a word nobody knows.
    word: Option<u32>,
    /// Dictionary numbers of broader words, nearest first.
    broader: [u32; 3],
    weight: f32,
}

/// Finds names for words.
#[derive(Debug, Clone, Copy)]
pub struct Matcher<'m, 'b> {
    index: &'m Index<'b>,
    knowledge: &'m Knowledge<'m>,
}

impl<'m, 'b> Matcher<'m, 'b> {
    /// A matcher over an index.
    #[must_use]
    pub fn new(index: &'m Index<'b>, knowledge: &'m Knowledge<'m>) -> Self {
        Self { index, knowledge }
    }

    /// Makes a query ready.
    #[must_use]
    pub fn query(&self, text: &str) -> Query {
        let list = analyse(text, self.knowledge, &IndexSpeller(self.index));
        let written = words(text);
        let exact = self.index.exact(&written.join(" "));
        let terms = list
            .into_iter()
            .map(|term| {
                let word = self.index.word(&term.word);
                QueryTerm {
                    word,
                    broader: self.broader(word, &term.word),
                    weight: self.weight(&term, word),
                    term,
                }
            })
            .collect();
        Query {
            terms,
            written,
            exact,
        }
    }

    fn broader(&self, word: Option<u32>, text: &str) -> [u32; 3] {
        let mut list = [u32::MAX; 3];
        let mut next = match word {
            Some(number) => self.index.row(number).kind_of,
            None => self
                .knowledge
                .fact(text)
                .and_then(|f| self.knowledge.kind_of(f))
                .and_then(|kind| self.index.word(kind))
                .map_or(0, |n| n + 1),
        };
        for slot in &mut list {
            if next == 0 {
                break;
            }
            *slot = next - 1;
            next = self.index.row(next - 1).kind_of;
        }
        list
    }

    fn weight(&self, term: &Term, word: Option<u32>) -> f32 {
        let rarity = word.map_or(1.0, |n| self.index.row(n).rarity);
        word_weight(term.class, rarity, term.secondary)
    }

    /// The best `top` candidates, best first, one for each item found.
    #[must_use]
    pub fn find(&self, query: &Query, context: &Context, top: usize) -> Vec<Candidate> {
        let mut best: HashMap<u32, Candidate> = HashMap::new();
        for entry in self.shortlist(query) {
            let row = &self.index.entries()[entry as usize];
            let score = self.score(query, row, context) * row.prior;
            let candidate = Candidate {
                item: row.item,
                entry,
                score,
            };
            keep_better(&mut best, candidate);
        }
        if let Some(entry) = query.exact {
            let item = self.index.entries()[entry as usize].item;
            best.insert(
                item,
                Candidate {
                    item,
                    entry,
                    score: 1.0,
                },
            );
        }
        let mut list: Vec<Candidate> = best.into_values().filter(|c| c.score > 0.0).collect();
        list.sort_by(|a, b| b.score.total_cmp(&a.score).then(a.item.cmp(&b.item)));
        self.prefer_own_words(query, &mut list);
        list.sort_by(|a, b| b.score.total_cmp(&a.score).then(a.item.cmp(&b.item)));
        list.truncate(top);
        list
    }

    /// Synonyms make names equal that are not written alike (leaf lettuce and butterhead):
    /// among near-equals the one in the query's own words comes first.
    fn prefer_own_words(&self, query: &Query, list: &mut [Candidate]) {
        for candidate in list.iter_mut().take(CLOSELY_READ) {
            let entry = &self.index.entries()[candidate.entry as usize];
            let name = words(self.index.text_of(entry));
            let shared = name.iter().filter(|w| query.written.contains(w)).count() as f32;
            let all = (name.len() + query.written.len()) as f32 - shared;
            if query.exact != Some(candidate.entry) {
                candidate.score *= 1.0 - weight::OTHER_WORDS * (1.0 - shared / all.max(1.0));
            }
        }
    }

    /// Names that share the most telling words with the query.
    fn shortlist(&self, query: &Query) -> Vec<u32> {
        let mut met: HashMap<u32, f32> = HashMap::new();
        for term in query.terms.iter().filter(|t| !t.term.negated) {
            if term.term.class == Class::Neutral {
                continue;
            }
            if let Some(word) = term.word {
                self.count(word, term.weight, &mut met);
            }
            for word in term.broader.iter().filter(|w| **w != u32::MAX) {
                self.count(*word, term.weight * weight::BROADER, &mut met);
            }
        }
        let mut list: Vec<(u32, f32)> = met
            .into_iter()
            .map(|(entry, sum)| {
                let terms = self.index.entries()[entry as usize].terms as f32;
                (entry, sum / (1.0 + 0.08 * terms))
            })
            .collect();
        list.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        list.truncate(SHORTLIST);
        list.into_iter().map(|(entry, _)| entry).collect()
    }

    fn count(&self, word: u32, weight: f32, met: &mut HashMap<u32, f32>) {
        for entry in self.index.postings(word) {
            *met.entry(*entry).or_insert(0.0) += weight;
        }
    }

    /// The score of one name, without its prior.
    fn score(&self, query: &Query, entry: &Entry, context: &Context) -> f32 {
        let terms = self.index.terms_of(entry);
        let mut taken = [false; 32];
        let (mut met, mut missed, mut factor) = (0.0, 0.0, 1.0);
        for asked in &query.terms {
            let credit = self.credit(asked, terms, &mut taken, &mut factor);
            met += credit * asked.weight;
            if !asked.term.negated {
                missed += (1.0 - credit) * asked.weight;
            }
            if asked.term.head && credit < 0.5 {
                factor *= weight::HEAD_MISSED;
            }
        }
        let mut extra = 0.0;
        for (at, term) in terms.iter().enumerate() {
            if taken.get(at).copied().unwrap_or(false) {
                continue;
            }
            let row = self.index.row(term.word());
            let class = Class::from_number(row.class);
            if !term.negated() && !term.implied() {
                extra += word_weight(class, row.rarity, term.secondary());
                if term.head() {
                    factor *= weight::HEAD_EXTRA;
                }
            }
            factor *= self.contradiction(*term, query) * self.special(*term);
            if context
                .words
                .iter()
                .any(|w| w == self.index.word_text(term.word()))
            {
                factor *= 1.0 + weight::CONTEXT;
            }
        }
        if met <= 0.0 {
            return 0.0;
        }
        met / (met + missed + weight::EXTRA * extra) * factor
    }

    /// How far the name has what one query term asks, from 0 to 1.
    fn credit(
        &self,
        asked: &QueryTerm,
        terms: &[PackedTerm],
        taken: &mut [bool; 32],
        factor: &mut f32,
    ) -> f32 {
        let same = |term: &PackedTerm| Some(term.word()) == asked.word;
        if let Some(at) = terms
            .iter()
            .position(|t| same(t) && t.negated() == asked.term.negated)
        {
            mark(taken, at);
            // What only comes along with the dish asked for is not that dish.
            if terms[at].head() && asked.term.secondary {
                *factor *= weight::HEAD_EXTRA;
            }
            return 1.0;
        }
        if let Some(at) = terms.iter().position(same) {
            mark(taken, at);
            *factor *= weight::EXCLUDED;
            return 0.0;
        }
        if asked.term.negated {
            return 0.0;
        }
        let broader = |t: &PackedTerm| asked.broader.contains(&t.word()) && !t.negated();
        if let Some(at) = terms.iter().position(broader) {
            mark(taken, at);
            return weight::BROADER;
        }
        if asked.term.class == Class::State {
            let alike = terms.iter().position(|t| {
                let row = self.index.row(t.word());
                (row.dimension, row.value) == asked.term.state && row.dimension != 0
            });
            if let Some(at) = alike {
                mark(taken, at);
                return 0.9;
            }
        }
        0.0
    }

    /// What an unasked state of the name does to the score.
    fn contradiction(&self, term: PackedTerm, query: &Query) -> f32 {
        let row = self.index.row(term.word());
        if row.dimension == 0 || Class::from_number(row.class) != Class::State {
            return 1.0;
        }
        let mut factor: f32 = 1.0;
        for asked in &query.terms {
            let (dimension, value) = asked.term.state;
            if asked.term.class == Class::State && dimension == row.dimension && value != row.value
            {
                let ours = self.knowledge.state_name(dimension, value);
                let theirs = self.knowledge.state_name(row.dimension, row.value);
                factor = factor.min(agreement(ours, theirs));
            }
        }
        factor
    }

    /// Nobody orders a stand-in, a coating or a diet version without saying so.
    fn special(&self, term: PackedTerm) -> f32 {
        if term.negated() {
            return 1.0;
        }
        let row = self.index.row(term.word());
        let stand_in = matches!(
            self.index.word_text(term.word()),
            "meatless" | "vegan" | "vegetarian" | "imitation" | "substitute" | "wild"
        );
        let state = self.knowledge.state_name(row.dimension, row.value);
        let unusual = [
            "coat: breaded",
            "fat: light",
            "fat: free",
            "fat: reduced",
            "fat: low",
            "sweet: sugarfree",
        ];
        if stand_in || unusual.contains(&state) {
            weight::UNASKED
        } else {
            1.0
        }
    }

    /// How sure the first of `list` is.
    #[must_use]
    pub fn certainty(&self, query: &Query, list: &[Candidate]) -> Certainty {
        let Some(first) = list.first() else {
            return Certainty::None;
        };
        if query.exact == Some(first.entry) && first.score >= 1.0 {
            return Certainty::Sure;
        }
        let gap = first.score - list.get(1).map_or(0.0, |second| second.score);
        match first.score {
            s if s >= 0.9 || (s >= 0.82 && gap > 0.08) => Certainty::Sure,
            s if s >= 0.68 => Certainty::Likely,
            s if s >= 0.38 => Certainty::Guess,
            _ => Certainty::None,
        }
    }

    /// One line on why a name was taken: which words met, which are missing.
    #[must_use]
    pub fn why(&self, query: &Query, candidate: &Candidate) -> String {
        let entry = &self.index.entries()[candidate.entry as usize];
        let terms = self.index.terms_of(entry);
        let has = |q: &QueryTerm| {
            terms
                .iter()
                .any(|t| Some(t.word()) == q.word && t.negated() == q.term.negated)
        };
        let list = |met: bool| {
            query
                .terms
                .iter()
                .filter(|q| q.term.class != Class::Neutral && has(q) == met)
                .map(|q| {
                    if q.term.negated {
                        format!("no {}", q.term.word)
                    } else {
                        q.term.word.clone()
                    }
                })
                .collect::<Vec<_>>()
                .join(", ")
        };
        let (met, missing) = (list(true), list(false));
        let mut line = format!(
            "`{}` meets {}",
            self.index.text_of(entry),
            if met.is_empty() {
                "a broader word"
            } else {
                &met
            }
        );
        if !missing.is_empty() {
            line.push_str("; not in it: ");
            line.push_str(&missing);
        }
        line
    }
}

fn mark(taken: &mut [bool; 32], at: usize) {
    if let Some(slot) = taken.get_mut(at) {
        *slot = true;
    }
}

fn keep_better(best: &mut HashMap<u32, Candidate>, candidate: Candidate) {
    let slot = best
        .entry(candidate.item)
        .or_insert_with(|| candidate.clone());
    if (candidate.score, std::cmp::Reverse(candidate.entry))
        > (slot.score, std::cmp::Reverse(slot.entry))
    {
        *slot = candidate;
    }
}

fn word_weight(class: Class, rarity: f32, secondary: bool) -> f32 {
    let base = match class {
        Class::Food => weight::FOOD,
        Class::State => weight::STATE,
        Class::Faint => weight::FAINT,
        Class::Neutral => weight::NEUTRAL,
        Class::Negator | Class::Joiner => 0.0,
    };
    let along = if secondary { weight::SECONDARY } else { 1.0 };
    base * along * (weight::FLOOR + (1.0 - weight::FLOOR) * rarity)
}

/// How well two different values of one dimension go together, from 0 to 1.
fn agreement(ours: &str, theirs: &str) -> f32 {
    let (Some((dimension, a)), Some((_, b))) = (ours.split_once(": "), theirs.split_once(": "))
    else {
        return 0.8;
    };
    match dimension {
        "cook" => cooking_agreement(a, b),
        "colour" => 0.75,
        "fat" | "sweet" | "pack" | "coat" => 0.7,
        _ => 0.8,
    }
}

fn cooking_agreement(a: &str, b: &str) -> f32 {
    let fried = |v: &str| v.contains("fried") || v == "sauteed";
    match (a, b) {
        ("raw", _) | (_, "raw") => 0.6,
        ("cooked", _) | (_, "cooked") => 1.0,
        _ if fried(a) == fried(b) => 0.95,
        _ => 0.75,
    }
}
