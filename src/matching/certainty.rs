//! How sure the best match is: what speaks against it, added up.
//!
//! A name that is the query word for word is sure. Any other has doubts, each of a size that
//! says how much rarer a match with it is right: they were fitted (logistic regression,
//! rounded) to USDA's descriptions of one half of the catalogue's foods and are judged on the
//! other half and on labelled names, see `benches/README.md` and `examples/calibration`. A match may be `sure` up to a sum of
//! [`SURE`] and `likely` up to [`LIKELY`].

use super::best::RIVALS_WITHIN;
use super::index::{Entry, TermRow};
use super::knowledge::Class;
use super::matcher::{Candidate, Matcher};
use super::query::{Query, QueryTerm};
use super::scoring::{ALIKE, weight::DISTANT_MOST};

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

/// Candidates for a query and how certain the first of them is.
#[derive(Debug, Clone)]
pub struct Answer {
    /// Best first; empty where no name has anything in common with the query. They stand here
    /// even where none fits well enough to be taken.
    pub candidates: Vec<Candidate>,
    /// How sure the first is.
    pub certainty: Certainty,
    doubts: Doubts,
}

/// Whether two items are the same for whoever uses the answer, though their names differ.
pub(crate) type Alike<'a> = &'a dyn Fn(u32, u32) -> bool;

/// Most doubt that a sure match has: in the catalogue, and in a table of few names, where fewer
/// could be meant as well.
const SURE: [f32; 2] = [0.9, 1.1];
/// The same for a likely match.
const LIKELY: [f32; 2] = [1.25, 1.7];
/// Score from which a name fits at all.
const FITS: f32 = 0.17;
/// The same where it has the head noun only as a broader word: every fish would fit every
/// fish.
const FITS_BROADLY: f32 = 0.24;
/// Candidates that an answer is judged by.
const NEAR: usize = 8;

/// Score of a name whose words are asked for in another order.
const TURNED: f32 = 0.98;

/// Sizes of doubts.
mod size {
    /// For each point of the score that is missing.
    pub(crate) const SHORT: f32 = 1.05;
    /// Another food with the very same score: among those close, and among equals.
    pub(crate) const RIVAL: [f32; 2] = [0.8, 0.65];
    /// Gap in score from which another food is no rival: for each of these.
    pub(crate) const CLEAR: [f32; 2] = [super::RIVALS_WITHIN, 0.03];
    /// The name has none of the words that were written.
    pub(crate) const OTHER_WORDS: f32 = 0.75;
    /// The same where the words mean the name word for word.
    pub(crate) const REWORDED: f32 = 1.2;
    /// The name has none of the words that are meant.
    pub(crate) const OTHER_MEANING: f32 = 0.75;
    /// All of the name's words are more than was asked for.
    pub(crate) const MORE: f32 = 0.55;
    /// A state that contradicts the one asked for.
    pub(crate) const CONTRARY: f32 = 0.65;
    /// A word met by a broader one.
    pub(crate) const BROADER: f32 = 0.15;
    /// The head noun met by a broader one.
    pub(crate) const HEAD_BROADER: f32 = 0.5;
    /// A state asked for that the name leaves open.
    pub(crate) const OPEN: f32 = 0.15;
    /// A state, or a cut, of the name that was not asked for.
    pub(crate) const UNASKED: [f32; 2] = [0.1, 0.35];
    /// What comes along is not in the name; more than fitted, for the plate lacks it.
    pub(crate) const ALONG: f32 = 0.45;
    /// The name excludes what was not spoken of.
    pub(crate) const EXCLUDES: f32 = 0.28;
    /// A word that no table knows.
    pub(crate) const STRANGE: f32 = 0.1;
    /// A single word that is no food's whole name.
    pub(crate) const ONE_WORD: f32 = 0.65;
}

/// What may speak against a match.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Doubt {
    Short,
    Rival,
    Reworded,
    Words,
    More,
    Contrary,
    Broader,
    Open,
    Unasked,
    Along,
    Excludes,
    Strange,
    OneWord,
}

/// All doubts, in the order of their numbers.
const DOUBTS: [Doubt; 13] = [
    Doubt::Short,
    Doubt::Rival,
    Doubt::Reworded,
    Doubt::Words,
    Doubt::More,
    Doubt::Contrary,
    Doubt::Broader,
    Doubt::Open,
    Doubt::Unasked,
    Doubt::Along,
    Doubt::Excludes,
    Doubt::Strange,
    Doubt::OneWord,
];

impl Doubt {
    fn text(self) -> &'static str {
        match self {
            Doubt::Short => "the words meet in part only",
            Doubt::Rival => "another food fits nearly as well",
            Doubt::Reworded => "the words are taken for another name",
            Doubt::Words => "words asked for are not in the name",
            Doubt::More => "the name says more than was asked for",
            Doubt::Contrary => "the name says another state",
            Doubt::Broader => "a word is met by a broader one only",
            Doubt::Open => "the name leaves a state open",
            Doubt::Unasked => "the name says a state or cut that was not asked for",
            Doubt::Along => "what comes along is not in the name",
            Doubt::Excludes => "the name leaves out what was not spoken of",
            Doubt::Strange => "a word is unknown",
            Doubt::OneWord => "one word that is no food's whole name",
        }
    }
}

/// Size of each doubt.
#[derive(Debug, Clone, Copy, Default)]
struct Doubts {
    sizes: [f32; DOUBTS.len()],
    /// The head noun is met by a broader word at best.
    head_broader: bool,
    /// A word that says something has nothing in the name.
    unmet: bool,
}

impl Doubts {
    fn add(&mut self, doubt: Doubt, size: f32) {
        self.sizes[doubt as usize] += size;
    }

    fn least(&mut self, doubt: Doubt, size: f32) {
        let at = &mut self.sizes[doubt as usize];
        *at = at.max(size);
    }

    fn sum(&self) -> f32 {
        self.sizes.iter().sum()
    }
}

/// What a name has to do with a word of the query, the better the later.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Meets {
    Not,
    Contrary,
    Broader,
    Narrower,
    Same,
}

/// Doubt below which it is not worth a word.
const WORTH_SAYING: f32 = 0.12;
/// Doubts that are named.
const NAMED: usize = 3;

impl Answer {
    /// What lowers the certainty, the most important first, to go behind [`Matcher::why`];
    /// empty for a sure match.
    #[must_use]
    pub(crate) fn lowered_by(&self) -> String {
        if matches!(self.certainty, Certainty::Sure | Certainty::None) {
            return String::new();
        }
        let mut list: Vec<(f32, Doubt)> = DOUBTS
            .into_iter()
            .map(|doubt| (self.doubts.sizes[doubt as usize], doubt))
            .filter(|(size, _)| *size >= WORTH_SAYING)
            .collect();
        list.sort_by(|a, b| b.0.total_cmp(&a.0));
        let list: Vec<&str> = list
            .iter()
            .take(NAMED)
            .map(|(_, doubt)| doubt.text())
            .collect();
        if list.is_empty() {
            return String::new();
        }
        format!("; less than sure: {}", list.join(", "))
    }
}

impl Matcher<'_, '_> {
    /// The best `top` candidates and how certain the first is. A near one that is `alike` the
    /// first raises no doubt.
    #[must_use]
    pub fn answer(&self, query: &Query, top: usize, alike: Alike<'_>) -> Answer {
        // A name word for word has no rivals.
        let exact = query.exact.is_some() && query.parts <= 1;
        let near = if exact { top } else { NEAR };
        let mut candidates = self.near(query, top, near);
        let doubts = self.doubts(query, &candidates, alike);
        let certainty = self.certainty(query, &candidates, &doubts);
        candidates.truncate(top);
        Answer {
            candidates,
            certainty,
            doubts,
        }
    }

    fn certainty(&self, query: &Query, list: &[Candidate], doubts: &Doubts) -> Certainty {
        let Some(first) = list.first() else {
            return Certainty::None;
        };
        if self.is_the_name(query, first) {
            return Certainty::Sure;
        }
        let fits = if doubts.head_broader {
            FITS_BROADLY
        } else {
            FITS
        };
        let table = usize::from(self.larger.is_some());
        match doubts.sum() {
            _ if first.score < fits => Certainty::None,
            sum if sum <= SURE[table] && !doubts.unmet => Certainty::Sure,
            sum if sum <= LIKELY[table] => Certainty::Likely,
            _ => Certainty::Guess,
        }
    }

    /// Whether the query is the name word for word. Words with commas between them are no name
    /// without (`fajita, vegetable` is no `fajita vegetables`).
    fn is_the_name(&self, query: &Query, first: &Candidate) -> bool {
        let entry = &self.index.entries()[first.entry as usize];
        query.exact == Some(first.entry)
            && first.score >= 1.0
            && (query.parts <= 1 || self.index.text_of(entry).contains([',', ';', ':', '(']))
    }

    /// Whether the query is the name's words in another order (`rice, brown`) and means the
    /// same: another order that does not (`chocolate milk`) has a lower score.
    fn is_the_name_turned(&self, query: &Query, first: &Candidate) -> bool {
        let entry = &self.index.entries()[first.entry as usize];
        let name = self.index.written(entry);
        first.score >= TURNED
            && name.len() == query.written.len()
            && self.missing(&query.written, entry) <= 0.0
            && name.iter().all(|form| query.written.contains(&Some(*form)))
    }

    fn doubts(&self, query: &Query, list: &[Candidate], alike: Alike<'_>) -> Doubts {
        let mut doubts = Doubts::default();
        let Some(first) = list.first() else {
            return doubts;
        };
        doubts.add(Doubt::Short, size::SHORT * (1.0 - first.score));
        if self.means_the_name(query, first) {
            let entry = &self.index.entries()[first.entry as usize];
            if !query.respelt {
                let missing = self.missing(&query.written, entry);
                doubts.add(Doubt::Reworded, size::REWORDED * missing);
            }
            return doubts;
        }
        // Distant names are looked for only where few fit, and are no rivals.
        let mut others = list[1..].iter().filter(|c| c.score > DISTANT_MOST);
        let rival = others.find(|c| !alike(c.item, first.item));
        let gap = first.score - rival.map_or(0.0, |c| c.score);
        let turned = gap >= size::CLEAR[1] && self.is_the_name_turned(query, first);
        for (size, clear) in size::RIVAL.into_iter().zip(size::CLEAR).filter(|_| !turned) {
            doubts.add(Doubt::Rival, size * (1.0 - gap / clear).max(0.0));
        }
        let entry = &self.index.entries()[first.entry as usize];
        self.doubt_words(query, entry, &mut doubts);
        let rows = self.index.terms_of(entry);
        self.doubt_asked(query, rows, &mut doubts);
        for row in rows {
            self.doubt_unasked(query, *row, &mut doubts);
        }
        doubts
    }

    /// Whether the words, written together and none of them passed over, mean a name word for
    /// word, so that no other name comes into question; whether they do mean that may be doubted.
    fn means_the_name(&self, query: &Query, first: &Candidate) -> bool {
        let item = |entry: u32| self.index.entries()[entry as usize].item;
        let says = |asked: &QueryTerm| asked.term.class != Class::Neutral;
        query.parts <= 1
            && query.same.is_some_and(|entry| item(entry) == first.item)
            && query.terms.iter().all(says)
    }

    /// Share of words that a name is not written in.
    fn missing(&self, words: &[Option<u32>], entry: &Entry) -> f32 {
        let name = self.index.written(entry);
        let has = |word: &Option<u32>| word.is_some_and(|word| name.contains(&word));
        let missing = words.iter().filter(|word| !has(word)).count() as f32;
        missing / (words.len() as f32).max(1.0)
    }

    /// How far query and name are written in other words.
    fn doubt_words(&self, query: &Query, entry: &Entry, doubts: &mut Doubts) {
        let name = self.index.written(entry);
        doubts.add(
            Doubt::Words,
            size::OTHER_WORDS * self.missing(&query.written, entry)
                + size::OTHER_MEANING * self.missing(&query.meant, entry),
        );
        let asked = |form: &&u32| {
            query.written.contains(&Some(**form)) || query.meant.contains(&Some(**form))
        };
        let more = name.len() - name.iter().filter(asked).count();
        let more = more as f32 / (name.len() as f32).max(1.0);
        doubts.add(Doubt::More, size::MORE * more);
        if query.written.len() <= 1 {
            doubts.add(Doubt::OneWord, size::ONE_WORD);
        }
    }

    /// What is asked for, and what the name has for it.
    fn doubt_asked(&self, query: &Query, rows: &[TermRow], doubts: &mut Doubts) {
        let known = self.larger.unwrap_or(self.index);
        let mut head = Meets::Same;
        for asked in &query.terms {
            let meets = self.meets(asked, rows);
            let term = &asked.term;
            if known.word(&term.word).is_none() {
                doubts.least(Doubt::Strange, size::STRANGE);
            }
            if term.head {
                head = head.min(meets);
            }
            doubts.unmet |= meets == Meets::Not && !matches!(term.class, Class::Neutral);
            match (meets, term.class) {
                (Meets::Contrary, _) => doubts.least(Doubt::Contrary, size::CONTRARY),
                (Meets::Broader, _) => doubts.least(Doubt::Broader, size::BROADER),
                (Meets::Not, _) if term.negated => {}
                (Meets::Not, _) if term.secondary || term.aside => {
                    doubts.least(Doubt::Along, size::ALONG);
                }
                (Meets::Not, Class::State) => doubts.least(Doubt::Open, size::OPEN),
                _ => {}
            }
        }
        doubts.head_broader = matches!(head, Meets::Contrary | Meets::Broader);
        if doubts.head_broader {
            doubts.add(Doubt::Broader, size::HEAD_BROADER);
        }
    }

    fn meets(&self, asked: &QueryTerm, rows: &[TermRow]) -> Meets {
        let meets = |row: &TermRow| {
            let word = row.packed.word();
            if row.packed.negated() != asked.term.negated {
                return Meets::Not;
            }
            if Some(word) == asked.word {
                return Meets::Same;
            }
            let (kind, (dimension, value)) = (self.index.row(word), asked.term.state);
            if dimension != 0 && kind.dimension == dimension {
                let agree = self.knowledge.agreement(value, kind.value) >= ALIKE;
                return if kind.value == value || agree {
                    Meets::Same
                } else {
                    Meets::Contrary
                };
            }
            if asked.term.negated {
                Meets::Not
            } else if asked.broader.contains(&word) {
                Meets::Broader
            } else if self.index.above(word).any(|sort| Some(sort) == asked.word) {
                Meets::Narrower
            } else {
                Meets::Not
            }
        };
        rows.iter().map(meets).max().unwrap_or(Meets::Not)
    }

    /// A word of the name that is not asked for.
    fn doubt_unasked(&self, query: &Query, row: TermRow, doubts: &mut Doubts) {
        if row.packed.implied() {
            return;
        }
        let word = row.packed.word();
        let kind = self.index.row(word);
        let speaks = |asked: &QueryTerm| {
            asked.term.negated == row.packed.negated()
                && (asked.word == Some(word)
                    || asked.broader.contains(&word)
                    || kind.dimension != 0 && asked.term.state.0 == kind.dimension
                    || self.index.above(word).any(|sort| Some(sort) == asked.word))
        };
        if query.terms.iter().any(speaks) {
            return;
        }
        if row.packed.negated() {
            doubts.least(Doubt::Excludes, size::EXCLUDES);
            return;
        }
        match Class::from_number(kind.class) {
            _ if row.weight <= 0.0 => {}
            Class::State => doubts.least(Doubt::Unasked, size::UNASKED[0]),
            Class::Cut => doubts.least(Doubt::Unasked, size::UNASKED[1]),
            _ => {}
        }
    }
}
