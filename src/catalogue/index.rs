//! The index over names: a dictionary of words with how telling each is, the names that
//! hold each word, whole names for exact hits, and a table of misspellings.
//!
//! This file is also compiled into the build script. The same index is built at run time
//! for somebody else's food table.

use super::analysis::{Speller, Term, analyse, key};
use super::blob::{Arena, Place, Reader, Writer};
use super::knowledge::{Class, HIGHEST, Knowledge};
use super::misspellings::{self, Misspellings};
use super::slots::{Slots, hash, lay_out};
use super::words::words;
use std::collections::{BTreeMap, BTreeSet};

/// A name to be found, and what it stands for.
#[derive(Debug, Clone)]
pub struct NameRow {
    /// What is found: a food's row, or a row of a target table.
    pub item: u32,
    /// The name as people write it.
    pub text: String,
    /// From 0 to 1: how readily the name is taken when others fit as well.
    pub prior: f32,
    /// For another name of an item: the row of its main name. States that only the main
    /// name says (cooked, without skin) hold for the other name as well.
    pub main: Option<u32>,
}

/// A name in the index.
#[derive(Debug, Clone, Copy, Default, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub struct Entry {
    /// What is found.
    pub item: u32,
    /// First of its terms.
    pub first_term: u32,
    /// How many terms.
    pub terms: u32,
    /// First and one past last of the forms that it is written in.
    pub written: [u32; 2],
    /// Dictionary number of its head plus one; 0 for none.
    pub head: u32,
    /// How readily it is taken.
    pub prior: f32,
    /// The name as written.
    pub text: Place,
}

/// A term in the index, packed: dictionary number and flags.
#[derive(Debug, Clone, Copy, PartialEq, Eq, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(transparent)]
pub struct PackedTerm(u32);

const NEGATED: u32 = 1 << 31;
const SECONDARY: u32 = 1 << 30;
const HEAD: u32 = 1 << 29;
const IMPLIED: u32 = 1 << 28;
const GENERAL: u32 = 1 << 27;
const ASIDE: u32 = 1 << 26;
const BEHIND: u32 = 1 << 25;
const WORD: u32 = BEHIND - 1;

/// A term of a name and what it weighs.
#[derive(Debug, Clone, Copy, PartialEq, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub struct TermRow {
    /// Word and flags.
    pub packed: PackedTerm,
    /// What leaving it unasked costs, and asking it earns.
    pub weight: f32,
    /// [`Class`] as a number.
    pub class: u8,
    /// Dimension of a state.
    pub dimension: u8,
    /// Value within the dimension.
    pub value: u8,
    spare: u8,
}

impl TermRow {
    fn new(packed: PackedTerm, weight: f32, term: &Term) -> Self {
        Self {
            packed,
            weight,
            class: term.class as u8,
            dimension: term.state.0,
            value: term.state.1,
            spare: 0,
        }
    }
}

/// What words weigh, in one place. Our judgement, checked against known matches.
mod weight {
    pub const FOOD: f32 = 1.0;
    pub const PRODUCT: f32 = 0.9;
    pub const PART: f32 = 0.8;
    pub const CUT: f32 = 0.3;
    pub const STATE: f32 = 0.3;
    pub const FAINT: f32 = 0.12;
    pub const NEUTRAL: f32 = 0.02;
    /// What comes along, against what the food is.
    pub const SECONDARY: f32 = 0.55;
    /// A remark in brackets, against the name.
    pub const ASIDE: f32 = 0.4;
    /// A word that no food table knows, beside words that it does know: mostly a brand.
    pub const STRANGE: f32 = 0.35;
    /// A word that another one of the name says more exactly (`cheese` beside `cheddar`).
    pub const REPEATED: f32 = 0.12;
    /// The head noun, against other words.
    pub const HEAD: f32 = 1.4;
    /// Words in the parts behind the head: the next, the one after, all further ones.
    pub const BEHIND: [f32; 4] = [1.0, 0.8, 0.5, 0.35];
    /// The same for states.
    pub const STATE_BEHIND: [f32; 4] = [1.0, 1.0, 0.8, 0.6];
    /// A state in a dimension that another word has spoken of (`cooked, boiled`).
    pub const STATE_AGAIN: f32 = 0.4;
    /// Part of a word's weight that does not depend on its rarity.
    pub const FLOOR: f32 = 0.4;
}

/// What a term weighs by class and place, with the rarity of its word.
#[must_use]
pub fn term_weight(term: &Term, rarity: f32) -> f32 {
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
pub fn weigh_terms(
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
            weight *= knowledge.stress(term.state.0);
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
fn said_by_another(terms: &[Term], at: usize, knowledge: &Knowledge<'_>) -> bool {
    let term = &terms[at];
    terms.iter().enumerate().any(|(other, t)| {
        other != at
            && t.negated == term.negated
            && (!t.aside || term.aside)
            && t.class != Class::Cut
            && knowledge.above(t.phrase).any(|w| Some(w) == term.phrase)
    })
}

impl PackedTerm {
    fn new(word: u32, term: &Term, general: bool) -> Self {
        let flag = |on: bool, bit: u32| if on { bit } else { 0 };
        Self(
            word | flag(term.negated, NEGATED)
                | flag(term.secondary, SECONDARY)
                | flag(term.head, HEAD)
                | flag(general, GENERAL)
                | flag(term.aside, ASIDE)
                | flag(term.behind > 0, BEHIND),
        )
    }
    /// Number in the dictionary.
    #[must_use]
    pub fn word(self) -> u32 {
        self.0 & WORD
    }
    /// The name excludes this word.
    #[must_use]
    pub fn negated(self) -> bool {
        self.0 & NEGATED != 0
    }
    /// The word comes along (`with ...`).
    #[must_use]
    pub fn secondary(self) -> bool {
        self.0 & SECONDARY != 0
    }
    /// The head noun.
    #[must_use]
    pub fn head(self) -> bool {
        self.0 & HEAD != 0
    }
    /// Only the item's main name says it.
    #[must_use]
    pub fn implied(self) -> bool {
        self.0 & IMPLIED != 0
    }
    /// Another word of the name says it more exactly.
    #[must_use]
    pub fn general(self) -> bool {
        self.0 & GENERAL != 0
    }
    /// The word stands in brackets.
    #[must_use]
    pub fn aside(self) -> bool {
        self.0 & ASIDE != 0
    }
    /// The word stands in a part of its own behind the head.
    #[must_use]
    pub fn behind(self) -> bool {
        self.0 & BEHIND != 0
    }
    fn as_implied(self) -> Self {
        Self((self.0 | IMPLIED) & !HEAD)
    }
}

/// A word of the dictionary.
#[derive(Debug, Clone, Copy, Default, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub struct WordRow {
    /// [`Class`] as a number.
    pub class: u8,
    /// Dimension of a state.
    pub dimension: u8,
    /// Value within the dimension.
    pub value: u8,
    /// In how many names it is written, as a power of two.
    pub uses: u8,
    /// How telling the word is, from 0 (in every name) to 1 (in one).
    pub rarity: f32,
    /// First and one past last of its postings.
    pub postings: [u32; 2],
    /// First and one past last of the names that hold a narrower word.
    pub below: [u32; 2],
    /// The word.
    pub text: Place,
}

mod section {
    pub const TEXT: usize = 0;
    pub const DICTIONARY: usize = 1;
    pub const WORDS: usize = 2;
    pub const ENTRIES: usize = 3;
    pub const TERMS: usize = 4;
    pub const POSTINGS: usize = 5;
    pub const EXACT: usize = 6;
    pub const MISSPELT_PARTS: usize = 7;
    pub const MISSPELT: usize = 8;
    pub const WRITTEN: usize = 9;
    pub const FORMS: usize = 10;
    pub const FORM_SLOTS: usize = 11;
    pub const FORM_NAMES: usize = 12;
    pub const KINDS: usize = 13;
    pub const WEIGHTS: usize = 14;
}

/// A form: a word in base form as names write it, before any synonyms.
#[derive(Debug, Clone, Copy, Default, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub struct Form {
    /// Hash of the word; forms with equal hashes are one.
    pub hash: u32,
    /// First and one past last of the names that are written with it.
    pub names: [u32; 2],
}

/// What is known besides the names when an index is built: how words are spelt, and the
/// rarity of words in a larger table.
#[derive(Clone, Copy)]
pub struct Around<'a> {
    /// Mends words of the names.
    pub speller: &'a dyn Speller,
    /// The larger table.
    pub larger: Option<&'a Index<'a>>,
}

impl std::fmt::Debug for Around<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Around({:?})", self.larger)
    }
}

/// Builds the block of an index.
pub fn build(
    names: &[NameRow],
    knowledge: &Knowledge<'_>,
    around: Around<'_>,
) -> Result<Vec<u8>, String> {
    let analysed: Vec<Vec<Term>> = names
        .iter()
        .map(|n| analyse(&n.text, knowledge, around.speller))
        .collect();
    let dictionary = dictionary(&analysed, knowledge, around.larger.is_none());
    let holders = Holders::of(&analysed, &dictionary, knowledge);
    let forms = Forms::of(names);
    let mut arena = Arena::default();
    let rows = word_rows(
        &dictionary,
        &holders,
        &forms,
        knowledge,
        around.larger,
        &mut arena,
    );
    let mut entries = Vec::with_capacity(names.len());
    let mut terms: Vec<TermRow> = Vec::new();
    let mut sums: Vec<f32> = Vec::with_capacity(names.len());
    let mut first_written = 0;
    for (number, (name, list)) in names.iter().zip(&analysed).enumerate() {
        let first_term = terms.len();
        let written = first_written + forms.written[number].len() as u32;
        let rarity = |word: &str| match around.larger {
            Some(larger) => larger.known_rarity(word),
            None => dictionary.get(word).map(|n| rows[*n as usize].rarity),
        };
        let weights = weigh_terms(list, knowledge, rarity);
        terms.extend(
            list.iter()
                .zip(&weights)
                .enumerate()
                .map(|(at, (term, weight))| {
                    let general = said_by_another(list, at, knowledge);
                    let packed = PackedTerm::new(dictionary[&term.word], term, general);
                    TermRow::new(packed, *weight, term)
                }),
        );
        let main = name
            .main
            .map(|row| analysed[row as usize].as_slice())
            .unwrap_or_default();
        for term in implied(list, main) {
            let packed = PackedTerm::new(dictionary[&term.word], term, false).as_implied();
            terms.push(TermRow::new(packed, 0.0, term));
        }
        let head = list.iter().find(|term| term.head);
        let own = list.iter().zip(&weights).filter(|(t, _)| !t.negated);
        sums.push(own.map(|(_, weight)| weight).sum());
        entries.push(Entry {
            item: name.item,
            first_term: first_term as u32,
            terms: (terms.len() - first_term) as u32,
            written: [first_written, written],
            head: head.map_or(0, |term| dictionary[&term.word] + 1),
            prior: name.prior,
            text: arena.keep(&name.text),
        });
        first_written = written;
    }
    let (parts, rests) = misspellings::lay_out(dictionary.keys().map(String::as_str));
    let mut writer = Writer::default();
    writer.add(&arena.into_bytes());
    let hashes: Vec<u32> = dictionary.keys().map(|w| hash(w.as_bytes())).collect();
    writer.add(&lay_out(&hashes));
    writer.add(&rows);
    writer.add(&entries);
    writer.add(&terms);
    writer.add(&holders.flat());
    writer.add(&map_of(exact_keys(names, &analysed))?);
    writer.add(&parts);
    writer.add(&rests);
    writer.add(&forms.written.concat());
    writer.add(&forms.rows());
    writer.add(&lay_out(&forms.hashes));
    writer.add(&forms.names.concat());
    writer.add(&kinds(&dictionary, knowledge));
    writer.add(&sums);
    Ok(writer.finish())
}

/// The forms that names are written in.
#[derive(Default)]
struct Forms {
    /// Their hashes, in ascending order.
    hashes: Vec<u32>,
    /// For every form, the names that are written with it.
    names: Vec<Vec<u32>>,
    /// For every name, the forms of its words in order.
    written: Vec<Vec<u32>>,
}

impl Forms {
    fn of(names: &[NameRow]) -> Self {
        let said = |name: &NameRow| -> Vec<u32> {
            let words = words(&name.text);
            words.iter().map(|word| hash(word.as_bytes())).collect()
        };
        let mut written: Vec<Vec<u32>> = names.iter().map(said).collect();
        let mut hashes = written.concat();
        hashes.sort_unstable();
        hashes.dedup();
        let mut holders: Vec<Vec<u32>> = vec![Vec::new(); hashes.len()];
        for (name, words) in written.iter_mut().enumerate() {
            for word in words {
                *word = hashes.partition_point(|hash| hash < word) as u32;
                let holders = &mut holders[*word as usize];
                if holders.last() != Some(&(name as u32)) {
                    holders.push(name as u32);
                }
            }
        }
        Self {
            hashes,
            names: holders,
            written,
        }
    }

    fn rows(&self) -> Vec<Form> {
        let mut end = 0;
        let row = |(hash, names): (&u32, &Vec<u32>)| {
            let start = end;
            end += names.len() as u32;
            Form {
                hash: *hash,
                names: [start, end],
            }
        };
        self.hashes.iter().zip(&self.names).map(row).collect()
    }
}

/// Which names hold each word, and which hold a narrower one.
struct Holders {
    word: Vec<BTreeSet<u32>>,
    narrower: Vec<BTreeSet<u32>>,
}

impl Holders {
    fn of(
        analysed: &[Vec<Term>],
        dictionary: &BTreeMap<String, u32>,
        knowledge: &Knowledge<'_>,
    ) -> Self {
        let mut holders = Self {
            word: vec![BTreeSet::new(); dictionary.len()],
            narrower: vec![BTreeSet::new(); dictionary.len()],
        };
        for (number, list) in analysed.iter().enumerate() {
            for term in list {
                holders.word[dictionary[&term.word] as usize].insert(number as u32);
                if term.negated {
                    continue;
                }
                for kind in knowledge
                    .above(term.phrase)
                    .filter_map(|kind| dictionary.get(knowledge.phrase_text(kind)))
                {
                    holders.narrower[*kind as usize].insert(number as u32);
                }
            }
        }
        for (narrower, word) in holders.narrower.iter_mut().zip(&holders.word) {
            narrower.retain(|name| !word.contains(name));
        }
        holders
    }

    /// All lists in one, each word's own before its narrower ones.
    fn flat(&self) -> Vec<u32> {
        self.word
            .iter()
            .zip(&self.narrower)
            .flat_map(|(w, n)| w.iter().chain(n))
            .copied()
            .collect()
    }
}

/// States, parts, foods and exclusions of the main name that the other name leaves open.
fn implied<'t>(own: &'t [Term], main: &'t [Term]) -> impl Iterator<Item = &'t Term> {
    main.iter().filter(move |term| {
        let stated =
            |t: &Term| t.word == term.word || (t.state.0 != 0 && t.state.0 == term.state.0);
        (matches!(term.class, Class::State | Class::Part | Class::Food) || term.negated)
            && !own.iter().any(stated)
    })
}

fn map_of(rows: impl Iterator<Item = (String, u64)>) -> Result<Vec<u8>, String> {
    let mut builder = fst::MapBuilder::memory();
    for (key, value) in rows {
        builder.insert(key, value).map_err(|e| e.to_string())?;
    }
    builder.into_inner().map_err(|e| e.to_string())
}

/// Numbers every word of the names and their broader words, in alphabetical order; for a
/// table that stands alone, all words of the knowledge as well.
fn dictionary(
    analysed: &[Vec<Term>],
    knowledge: &Knowledge<'_>,
    alone: bool,
) -> BTreeMap<String, u32> {
    let mut all = BTreeSet::new();
    for term in analysed.iter().flatten() {
        let above = knowledge.above(term.phrase);
        all.extend(above.map(|kind| knowledge.phrase_text(kind).to_owned()));
        all.insert(term.word.clone());
    }
    if alone {
        all.extend(knowledge.vocabulary());
    }
    all.into_iter().zip(0..).collect()
}

/// For every word, the dictionary number of its broader word plus one; 0 for none.
fn kinds(dictionary: &BTreeMap<String, u32>, knowledge: &Knowledge<'_>) -> Vec<u32> {
    let kind_of = |word: &String| {
        let kind = knowledge.kind_of(knowledge.fact(word)?)?;
        dictionary.get(kind).map(|kind| kind + 1)
    };
    dictionary
        .keys()
        .map(|word| kind_of(word).unwrap_or(0))
        .collect()
}

fn word_rows(
    dictionary: &BTreeMap<String, u32>,
    holders: &Holders,
    forms: &Forms,
    knowledge: &Knowledge<'_>,
    larger: Option<&Index<'_>>,
    arena: &mut Arena,
) -> Vec<WordRow> {
    let mut written: BTreeMap<u32, u32> = BTreeMap::new();
    for form in forms.written.iter().flatten() {
        *written.entry(forms.hashes[*form as usize]).or_default() += 1;
    }
    let mut at = 0;
    let mut rows = Vec::with_capacity(dictionary.len());
    for (word, number) in dictionary {
        let uses = holders.word[*number as usize].len();
        let narrower = holders.narrower[*number as usize].len();
        let fact = knowledge.fact(word).unwrap_or_default();
        let all = (forms.written.len() as f32 + 1.0).ln();
        let own = 1.0 - (uses as f32 + 1.0).ln() / all.max(1.0);
        let middle = at + uses as u32;
        rows.push(WordRow {
            class: fact.class,
            dimension: fact.dimension,
            value: fact.value,
            uses: written
                .get(&hash(word.as_bytes()))
                .map_or(0, |n| (n + 1).ilog2() as u8),
            rarity: larger.map_or(own, |larger| larger.known_rarity(word).unwrap_or(1.0)),
            postings: [at, middle],
            below: [middle, middle + narrower as u32],
            text: arena.keep(word),
        });
        at = middle + narrower as u32;
    }
    rows
}

/// Whole names: as written first, then as understood; the first of equals stands.
fn exact_keys(names: &[NameRow], analysed: &[Vec<Term>]) -> impl Iterator<Item = (String, u64)> {
    let mut keys: BTreeMap<String, u64> = BTreeMap::new();
    for (number, name) in names.iter().enumerate() {
        keys.entry(words(&name.text).join(" "))
            .or_insert(number as u64);
    }
    for (number, terms) in analysed.iter().enumerate() {
        let understood = key(terms);
        if !understood.is_empty() {
            keys.entry(understood).or_insert(number as u64);
        }
    }
    keys.into_iter()
}

/// The index in place.
#[derive(Clone)]
pub struct Index<'b> {
    text: &'b str,
    dictionary: Slots<'b>,
    rows: &'b [WordRow],
    entries: &'b [Entry],
    terms: &'b [TermRow],
    postings: &'b [u32],
    exact: fst::Map<&'b [u8]>,
    misspellings: Misspellings<'b>,
    written: &'b [u32],
    forms: &'b [Form],
    form_slots: Slots<'b>,
    form_names: &'b [u32],
    kinds: &'b [u32],
    weights: &'b [f32],
}

impl std::fmt::Debug for Index<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "Index({} names, {} words)",
            self.entries.len(),
            self.rows.len()
        )
    }
}

impl<'b> Index<'b> {
    /// Opens a block written by [`build`].
    pub fn open(bytes: &'b [u8]) -> Result<Self, Box<dyn std::error::Error>> {
        let reader = Reader::new(bytes)?;
        Ok(Self {
            text: reader.text(section::TEXT),
            dictionary: Slots(reader.numbers(section::DICTIONARY)),
            rows: reader.numbers(section::WORDS),
            entries: reader.numbers(section::ENTRIES),
            terms: reader.numbers(section::TERMS),
            postings: reader.numbers(section::POSTINGS),
            exact: fst::Map::new(reader.bytes(section::EXACT))?,
            misspellings: Misspellings {
                parts: reader.numbers(section::MISSPELT_PARTS),
                rests: reader.numbers(section::MISSPELT),
            },
            written: reader.numbers(section::WRITTEN),
            forms: reader.numbers(section::FORMS),
            form_slots: Slots(reader.numbers(section::FORM_SLOTS)),
            form_names: reader.numbers(section::FORM_NAMES),
            kinds: reader.numbers(section::KINDS),
            weights: reader.numbers(section::WEIGHTS),
        })
    }

    /// All names.
    #[must_use]
    pub fn entries(&self) -> &'b [Entry] {
        self.entries
    }

    /// How many words the dictionary has.
    #[must_use]
    pub fn words(&self) -> usize {
        self.rows.len()
    }

    /// For every name, the sum of the weights of its terms.
    #[must_use]
    pub fn weights(&self) -> &'b [f32] {
        self.weights
    }

    /// A name as written.
    #[must_use]
    pub fn text_of(&self, entry: &Entry) -> &'b str {
        entry.text.of(self.text)
    }

    /// The terms of a name.
    #[must_use]
    pub fn terms_of(&self, entry: &Entry) -> &'b [TermRow] {
        let start = entry.first_term as usize;
        &self.terms[start..start + entry.terms as usize]
    }

    /// Number of a word in the dictionary.
    #[must_use]
    pub fn word(&self, word: &str) -> Option<u32> {
        self.dictionary
            .find(hash(word.as_bytes()), |at| self.word_text(at) == word)
    }

    /// A dictionary row.
    #[must_use]
    pub fn row(&self, word: u32) -> &'b WordRow {
        &self.rows[word as usize]
    }

    /// A word's text.
    #[must_use]
    pub fn word_text(&self, word: u32) -> &'b str {
        self.rows[word as usize].text.of(self.text)
    }

    /// What a word does.
    #[must_use]
    pub fn class(&self, word: u32) -> Class {
        Class::from_number(self.rows[word as usize].class)
    }

    /// Names that hold a word.
    #[must_use]
    pub fn postings(&self, word: u32) -> &'b [u32] {
        let [start, end] = self.rows[word as usize].postings;
        &self.postings[start as usize..end as usize]
    }

    /// Names that hold a narrower word.
    #[must_use]
    pub fn below(&self, word: u32) -> &'b [u32] {
        let [start, end] = self.rows[word as usize].below;
        &self.postings[start as usize..end as usize]
    }

    /// How many forms names are written in.
    #[must_use]
    pub fn forms(&self) -> usize {
        self.forms.len()
    }

    /// Number of the form that a word in base form is; `None` where no name has it.
    #[must_use]
    pub fn form(&self, word: &str) -> Option<u32> {
        self.form_slots.find(hash(word.as_bytes()), |_| true)
    }

    /// Names that are written with a form.
    #[must_use]
    pub fn names_with(&self, form: u32) -> &'b [u32] {
        let [start, end] = self.forms[form as usize].names;
        &self.form_names[start as usize..end as usize]
    }

    /// The forms that a name is written in, in order.
    #[must_use]
    pub fn written(&self, entry: &Entry) -> &'b [u32] {
        &self.written[entry.written[0] as usize..entry.written[1] as usize]
    }

    /// Rarity of a word; `None` when neither names nor knowledge speak of it.
    #[must_use]
    pub fn known_rarity(&self, word: &str) -> Option<f32> {
        self.word(word).map(|number| self.row(number).rarity)
    }

    /// The broader word of a word.
    #[must_use]
    pub fn kind_of(&self, word: u32) -> Option<u32> {
        self.kinds[word as usize].checked_sub(1)
    }

    /// Broader words, nearest first.
    pub fn above(&self, word: u32) -> impl Iterator<Item = u32> {
        let step = |word: u32| self.kind_of(word);
        std::iter::successors(step(word), move |word| step(*word)).take(HIGHEST)
    }

    /// The name that is exactly `key`.
    #[must_use]
    pub fn exact(&self, key: &str) -> Option<u32> {
        self.exact.get(key).map(|n| n as u32)
    }

    /// Whether a name is written with both forms.
    #[must_use]
    pub fn together(&self, a: u32, b: u32) -> bool {
        let (few, many) = (self.names_with(a), self.names_with(b));
        let (few, form) = if few.len() <= many.len() {
            (few, b)
        } else {
            (many, a)
        };
        few.iter()
            .any(|name| self.written(&self.entries[*name as usize]).contains(&form))
    }

    /// Words by what they may be misspelt as.
    #[must_use]
    pub fn misspellings(&self) -> Misspellings<'b> {
        self.misspellings
    }
}
