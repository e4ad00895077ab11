//! The index over names: a dictionary of words with how telling each is, the names that
//! hold each word, whole names for exact hits, and a table of misspellings.
//!
//! This file is also compiled into the build script. The same index is built at run time
//! for somebody else's food table.

use super::analysis::{AsWritten, Term, analyse, can_be_left, key};
use super::blob::{Arena, Place, Reader, Writer};
use super::knowledge::{Class, Knowledge};
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
    /// How readily it is taken.
    pub prior: f32,
    /// The name as written.
    pub text: Place,
}

/// A term in the index, packed: dictionary number and three flags.
#[derive(Debug, Clone, Copy, PartialEq, Eq, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(transparent)]
pub struct PackedTerm(u32);

const NEGATED: u32 = 1 << 31;
const SECONDARY: u32 = 1 << 30;
const HEAD: u32 = 1 << 29;
const IMPLIED: u32 = 1 << 28;
const WORD: u32 = IMPLIED - 1;

impl PackedTerm {
    fn new(word: u32, term: &Term) -> Self {
        let flag = |on: bool, bit: u32| if on { bit } else { 0 };
        Self(
            word | flag(term.negated, NEGATED)
                | flag(term.secondary, SECONDARY)
                | flag(term.head, HEAD),
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
    /// Unused.
    pub spare: u8,
    /// How telling the word is, from 0 (in every name) to 1 (in one).
    pub rarity: f32,
    /// Dictionary number of the broader word plus one; 0 for none.
    pub kind_of: u32,
    /// First and one past last of its postings.
    pub postings: [u32; 2],
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
    pub const MISSPELT: usize = 7;
    pub const MEANT: usize = 8;
}

/// Builds the block of an index.
pub fn build(names: &[NameRow], knowledge: &Knowledge<'_>) -> Result<Vec<u8>, String> {
    let analysed: Vec<Vec<Term>> = names
        .iter()
        .map(|n| analyse(&n.text, knowledge, &AsWritten))
        .collect();
    let dictionary = dictionary(&analysed, knowledge);
    let mut arena = Arena::default();
    let mut entries = Vec::with_capacity(names.len());
    let mut terms: Vec<PackedTerm> = Vec::new();
    let mut postings: Vec<BTreeSet<u32>> = vec![BTreeSet::new(); dictionary.len()];
    for (number, (name, list)) in names.iter().zip(&analysed).enumerate() {
        entries.push(Entry {
            item: name.item,
            first_term: terms.len() as u32,
            terms: list.len() as u32,
            prior: name.prior,
            text: arena.keep(&name.text),
        });
        for term in list {
            let word = dictionary[&term.word];
            terms.push(PackedTerm::new(word, term));
            postings[word as usize].insert(number as u32);
        }
        let main = name
            .main
            .map(|row| analysed[row as usize].as_slice())
            .unwrap_or_default();
        for term in implied(list, main) {
            terms.push(PackedTerm::new(dictionary[&term.word], term).as_implied());
        }
        entries[number].terms = terms.len() as u32 - entries[number].first_term;
    }
    let rows = word_rows(&dictionary, &postings, names.len(), knowledge, &mut arena);
    let (misspelt, meant) = misspellings(&dictionary);
    let mut writer = Writer::default();
    writer.add(&arena.into_bytes());
    writer.add(&map_of(
        dictionary.iter().map(|(w, n)| (w.clone(), u64::from(*n))),
    )?);
    writer.add(&rows);
    writer.add(&entries);
    writer.add(&terms);
    writer.add(&postings.into_iter().flatten().collect::<Vec<u32>>());
    writer.add(&map_of(exact_keys(names, &analysed))?);
    writer.add(&misspelt);
    writer.add(&meant);
    Ok(writer.finish())
}

/// States and exclusions of the main name in dimensions that the other name leaves open.
fn implied<'t>(own: &'t [Term], main: &'t [Term]) -> impl Iterator<Item = &'t Term> {
    main.iter().filter(move |term| {
        let stated =
            |t: &Term| t.word == term.word || (t.state.0 != 0 && t.state.0 == term.state.0);
        (term.class == Class::State || term.negated || can_be_left(&term.word))
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

/// Numbers every word of the names and of the knowledge, in alphabetical order.
fn dictionary(analysed: &[Vec<Term>], knowledge: &Knowledge<'_>) -> BTreeMap<String, u32> {
    let mut all: BTreeSet<String> = knowledge.vocabulary().into_iter().collect();
    all.extend(analysed.iter().flatten().map(|t| t.word.clone()));
    all.into_iter().zip(0..).collect()
}

fn word_rows(
    dictionary: &BTreeMap<String, u32>,
    postings: &[BTreeSet<u32>],
    names: usize,
    knowledge: &Knowledge<'_>,
    arena: &mut Arena,
) -> Vec<WordRow> {
    let mut at = 0;
    let mut rows = Vec::with_capacity(dictionary.len());
    for (word, number) in dictionary {
        let uses = postings[*number as usize].len();
        let fact = knowledge.fact(word).unwrap_or_default();
        let kind_of = knowledge
            .kind_of(fact)
            .and_then(|kind| dictionary.get(kind))
            .map_or(0, |kind| kind + 1);
        let all = (names as f32 + 1.0).ln();
        rows.push(WordRow {
            class: fact.class,
            dimension: fact.dimension,
            value: fact.value,
            spare: 0,
            rarity: 1.0 - (uses as f32 + 1.0).ln() / all.max(1.0),
            kind_of,
            postings: [at, at + uses as u32],
            text: arena.keep(word),
        });
        at += uses as u32;
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

/// Shortest word whose spelling is mended.
const SHORTEST_MENDED: usize = 4;
/// Length from which two slips are forgiven.
const TWO_SLIPS_FROM: usize = 7;

/// Every word with one letter left out (two for long words), as sorted hashes, and the
/// word meant. A misspelt query word shares one of these with what was meant.
fn misspellings(dictionary: &BTreeMap<String, u32>) -> (Vec<u32>, Vec<u32>) {
    let mut rows: Vec<(u32, u32)> = Vec::new();
    for (word, number) in dictionary {
        if word.len() >= SHORTEST_MENDED && word.bytes().all(|b| b.is_ascii_lowercase()) {
            rows.extend(shortened(word).into_iter().map(|hash| (hash, *number)));
        }
    }
    rows.sort_unstable();
    rows.dedup();
    rows.into_iter().unzip()
}

/// Hashes of a word and of all its shortened forms.
fn shortened(word: &str) -> BTreeSet<u32> {
    let mut hashes = BTreeSet::from([hash(word.as_bytes())]);
    let letters = word.as_bytes();
    for i in 0..letters.len() {
        let mut one = letters.to_vec();
        one.remove(i);
        hashes.insert(hash(&one));
        if letters.len() >= TWO_SLIPS_FROM {
            for j in i..one.len() {
                let mut two = one.clone();
                two.remove(j);
                hashes.insert(hash(&two));
            }
        }
    }
    hashes
}

/// FNV-1a: small, the same on every machine, good enough before the distance is checked.
fn hash(bytes: &[u8]) -> u32 {
    bytes.iter().fold(0x811c_9dc5, |h, b| {
        (h ^ u32::from(*b)).wrapping_mul(0x0100_0193)
    })
}

/// The index in place.
#[derive(Clone)]
pub struct Index<'b> {
    text: &'b str,
    dictionary: fst::Map<&'b [u8]>,
    rows: &'b [WordRow],
    entries: &'b [Entry],
    terms: &'b [PackedTerm],
    postings: &'b [u32],
    exact: fst::Map<&'b [u8]>,
    misspelt: &'b [u32],
    meant: &'b [u32],
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
            dictionary: fst::Map::new(reader.bytes(section::DICTIONARY))?,
            rows: reader.numbers(section::WORDS),
            entries: reader.numbers(section::ENTRIES),
            terms: reader.numbers(section::TERMS),
            postings: reader.numbers(section::POSTINGS),
            exact: fst::Map::new(reader.bytes(section::EXACT))?,
            misspelt: reader.numbers(section::MISSPELT),
            meant: reader.numbers(section::MEANT),
        })
    }

    /// All names.
    #[must_use]
    pub fn entries(&self) -> &'b [Entry] {
        self.entries
    }

    /// A name as written.
    #[must_use]
    pub fn text_of(&self, entry: &Entry) -> &'b str {
        entry.text.of(self.text)
    }

    /// The terms of a name.
    #[must_use]
    pub fn terms_of(&self, entry: &Entry) -> &'b [PackedTerm] {
        let start = entry.first_term as usize;
        &self.terms[start..start + entry.terms as usize]
    }

    /// Number of a word in the dictionary.
    #[must_use]
    pub fn word(&self, word: &str) -> Option<u32> {
        self.dictionary.get(word).map(|n| n as u32)
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

    /// The name that is exactly `key`.
    #[must_use]
    pub fn exact(&self, key: &str) -> Option<u32> {
        self.exact.get(key).map(|n| n as u32)
    }

    /// Words of which `word` may be a misspelling; unchecked, perhaps repeated.
    #[must_use]
    pub fn near(&self, word: &str) -> Vec<u32> {
        if word.len() < SHORTEST_MENDED || !word.bytes().all(|b| b.is_ascii_lowercase()) {
            return Vec::new();
        }
        let mut found = Vec::new();
        for hash in shortened(word) {
            let start = self.misspelt.partition_point(|h| *h < hash);
            for at in start..self.misspelt.len() {
                if self.misspelt[at] != hash {
                    break;
                }
                found.push(self.meant[at]);
            }
        }
        found.sort_unstable();
        found.dedup();
        found
    }
}
