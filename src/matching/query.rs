//! A query made ready for matching.

use super::analysis::{Term, analyse_segments, key, segments};
use super::index::weigh_terms;
use super::knowledge::Class;
use super::matcher::Matcher;
use super::spelling::IndexSpeller;
use crate::words::words;

/// Terms of a query that are looked at: one bit each.
pub(super) const MOST_TERMS: usize = 32;

/// A query made ready: its terms with dictionary numbers and weights.
// Each flag is a plain fact about the query, independent of the others.
#[allow(clippy::struct_excessive_bools)]
#[derive(Debug, Clone)]
pub struct Query {
    pub(super) terms: Vec<QueryTerm>,
    /// Forms of the words as written, spelling mended; `None` where no name is written so.
    pub(super) written: Vec<Option<u32>>,
    /// Forms of the words that it means.
    pub(super) meant: Vec<Option<u32>>,
    /// The name that the query is, word for word.
    pub(super) exact: Option<u32>,
    /// A name that means the same, word for word.
    pub(super) same: Option<u32>,
    /// Whether it is of something sweet that comes in flavours.
    pub(super) sweet: bool,
    /// Whether it is of dried fruit, vegetables or herbs; `None` for other foods, which
    /// drying does not make another food of.
    pub(super) dried: Option<bool>,
    /// Whether it says that it is not ready to eat (raw, uncooked, dry).
    pub(super) unready: bool,
    /// Whether it excludes anything.
    pub(super) excludes: bool,
    /// Bits of the head.
    pub(super) heads: u32,
    /// Dimensions of state that it speaks of, one bit each.
    pub(super) dimensions: u32,
    /// Bits of products and parts: the plain food is not met by them, nor they by it.
    pub(super) products: u32,
    /// Whether what it means is only spelt in another way (`icecream`).
    pub(super) respelt: bool,
    /// Parts between commas and brackets.
    pub(super) parts: usize,
}

#[derive(Debug, Clone)]
pub(super) struct QueryTerm {
    pub(super) term: Term,
    /// Number in the dictionary; `None` for a word that no name holds.
    pub(super) word: Option<u32>,
    /// Dictionary numbers of broader words, nearest first.
    pub(super) broader: Vec<u32>,
    pub(super) weight: f32,
    /// It is a number (`90%`, `2`).
    pub(super) number: bool,
    /// Names are found by it.
    pub(super) finds: bool,
}

/// Whether names are found by a word, beside ones that name foods or without.
fn finds(term: &Term, foods: bool) -> bool {
    // States are in half of all names: they decide among names, they do not find them.
    !term.negated
        && (term.class.names_food()
            || term.class == Class::Faint
            || (!foods && term.class != Class::Neutral))
}

/// The places of the terms that `are` something, one bit each.
fn bits(list: &[Term], are: impl Fn(&Term) -> bool) -> u32 {
    let places = list.iter().zip(0..).filter(|(term, _)| are(term));
    places.fold(0, |all, (_, at)| all | 1 << at)
}

/// Letters for each of which a slip is forgiven.
const LETTERS_A_SLIP: usize = 4;

/// Whether letters are a meaning's letters but for a slip or two.
fn spelt_alike(letters: &str, meaning: &str) -> bool {
    let meaning = meaning.replace(' ', "");
    let slips = strsim::osa_distance(letters, &meaning);
    slips <= (letters.len() / LETTERS_A_SLIP).min(2)
}

impl Matcher<'_, '_> {
    /// Makes a query ready.
    #[must_use]
    pub fn query(&self, text: &str) -> Query {
        let speller = IndexSpeller {
            index: self.index,
            larger: self.larger,
        };
        let (read, mended) = segments(text, &speller, self.knowledge);
        let parts = read.len();
        let mut said: Vec<String> = read.iter().flat_map(|(words, _)| words).cloned().collect();
        let mut whole = self.whole(&said.join(" "), text);
        // A name may be spelt in a way that nobody else does.
        if mended
            && let unmended = words(text)
            && let Some(entry) = self.whole(&unmended.join(" "), text)
        {
            (said, whole) = (unmended, Some(entry));
        }
        let letters = said.concat();
        let written: Vec<_> = said.iter().map(|word| self.index.form(word)).collect();
        // A name that is understood as these words is another name for the same at best.
        let exact = whole.filter(|entry| self.is_written(*entry, &written));
        let mut list = analyse_segments(read, self.knowledge);
        list.truncate(MOST_TERMS);
        let meant = list
            .iter()
            .flat_map(|t| t.word.split(' '))
            .map(|word| self.index.form(word))
            .collect();
        let meaning = key(&list);
        let same = self.index.exact(&meaning).or(whole);
        let respelt = exact.is_none() && same.is_some() && spelt_alike(&letters, &meaning);
        let said = |is: &dyn Fn(&Term) -> bool| list.iter().any(|t| !t.negated && is(t));
        let dried = said(&|t| t.state == self.dried);
        let raw = self.knowledge.raw;
        let unready = dried || said(&|t| Some(t.state) == raw);
        let produce = list.iter().any(|t| self.is_produce(t));
        let dimensions = list.iter().map(|t| t.state.0).filter(|d| *d != 0);
        Query {
            written,
            meant,
            exact,
            same,
            sweet: list.iter().any(|t| t.head && self.is_flavoured(t)),
            dried: produce.then_some(dried),
            unready,
            excludes: list.iter().any(|t| t.negated),
            heads: bits(&list, |t| t.head),
            dimensions: dimensions.fold(0, |all, dimension| all | 1 << dimension),
            products: bits(&list, |t| t.class.is_product()),
            respelt,
            parts,
            terms: self.query_terms(list),
        }
    }

    /// The terms with their numbers and weights.
    fn query_terms(&self, list: Vec<Term>) -> Vec<QueryTerm> {
        let rarity = |word: &str| self.larger.unwrap_or(self.index).known_rarity(word);
        let weights = weigh_terms(&list, self.knowledge, rarity);
        let foods = list.iter().any(|t| t.class.names_food() && !t.negated);
        let broader = |term: &Term| {
            let above = self.knowledge.above(term.phrase);
            above
                .filter_map(|word| self.index.word(self.knowledge.phrase_text(word)))
                .collect()
        };
        list.into_iter()
            .zip(weights)
            .map(|(term, weight)| QueryTerm {
                word: self.index.word(&term.word),
                broader: broader(&term),
                weight,
                number: term.word.starts_with(|c: char| c.is_ascii_digit()),
                finds: finds(&term, foods),
                term,
            })
            .collect()
    }

    /// The name of just these words; of several the one that is written letter by letter.
    fn whole(&self, words: &str, text: &str) -> Option<u32> {
        let whole = self.index.exact(words)?;
        let name = self.index.text_of(&self.index.entries()[whole as usize]);
        if name.eq_ignore_ascii_case(text.trim()) {
            return Some(whole);
        }
        self.index.by_letters(text).or(Some(whole))
    }

    /// Whether a name is written in just these forms.
    fn is_written(&self, entry: u32, forms: &[Option<u32>]) -> bool {
        let name = self.index.written(&self.index.entries()[entry as usize]);
        name.iter()
            .map(|form| Some(*form))
            .eq(forms.iter().copied())
    }

    fn is_flavoured(&self, term: &Term) -> bool {
        self.is_or_below(term, |word| {
            matches!(
                word,
                "dessert" | "candy" | "pastry" | "yogurt" | "milkshake"
            )
        })
    }

    pub(super) fn is_produce(&self, term: &Term) -> bool {
        let produce = |word: &str| matches!(word, "fruit" | "vegetable" | "herb");
        !term.negated && !term.secondary && self.is_or_below(term, produce)
    }

    /// Whether a word or one of its broader ones is what `is` looks for.
    fn is_or_below(&self, term: &Term, is: impl Fn(&str) -> bool) -> bool {
        let mut above = self.knowledge.above(term.phrase);
        is(&term.word) || above.any(|word| is(self.knowledge.phrase_text(word)))
    }
}
