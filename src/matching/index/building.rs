//! Building the index: of the catalogue's names in the build script, of somebody else's at
//! run time.

use super::super::analysis::{Speller, Term, analyse, key};
use super::super::knowledge::{Class, Knowledge};
use super::super::slots::{check, hash, lay_out};
use super::weighing::said_by_another;
use super::{
    Entry, Form, Index, NameRow, PackedTerm, TermRow, Whole, WordRow, by_letters, weigh_terms,
};
use crate::foods::blob::{Arena, Writer};
use crate::words::misspellings;
use crate::words::words;
use std::collections::{BTreeMap, BTreeSet};

/// What is known besides the names when an index is built: how words are spelt, and the
/// rarity of words in a larger table.
#[derive(Clone, Copy)]
pub(crate) struct Around<'a> {
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
#[must_use]
pub(crate) fn build(names: &[NameRow], knowledge: &Knowledge<'_>, around: Around<'_>) -> Vec<u8> {
    let analysed: Vec<Vec<Term>> = names
        .iter()
        .map(|n| analyse(&n.text, knowledge, around.speller))
        .collect();
    let dictionary = dictionary(&analysed, knowledge, around.larger.is_none());
    let holders = Holders::of(&analysed, &dictionary, knowledge);
    let forms = Forms::of(names);
    let mut arena = Arena::default();
    let larger = around.larger;
    let rows = word_rows(&dictionary, &holders, &forms, knowledge, larger, &mut arena);
    let own = |word: &str| dictionary.get(word).map(|n| rows[*n as usize].rarity);
    let rarity = |word: &str| larger.map_or_else(|| own(word), |larger| larger.known_rarity(word));
    let mut lists = Lists::default();
    for (number, name) in names.iter().enumerate() {
        let weights = weigh_terms(&analysed[number], knowledge, rarity);
        let terms = term_rows(name, number, &analysed, &dictionary, &weights, knowledge);
        let said = analysed[number].iter().zip(&weights);
        let said = said.filter(|(term, _)| !term.negated);
        let head = analysed[number].iter().find(|term| term.head);
        lists.sums.push(said.map(|(_, weight)| weight).sum());
        lists.entries.push(Entry {
            item: name.item,
            first_term: lists.terms.len() as u32,
            terms: terms.len() as u32,
            written: lists.next_written(forms.written[number].len() as u32),
            head: head.map_or(0, |term| dictionary[&term.word] + 1),
            prior: name.prior,
            text: arena.keep(&name.text),
        });
        lists.terms.extend(terms);
    }
    let (parts, rests) = misspellings::lay_out(dictionary.keys().map(String::as_str));
    let mut writer = Writer::default();
    writer.add(&arena.into_bytes());
    let hashes: Vec<u32> = dictionary.keys().map(|w| hash(w.as_bytes())).collect();
    writer.add(&lay_out(&hashes));
    writer.add(&rows);
    writer.add(&lists.entries);
    writer.add(&lists.terms);
    writer.add(&holders.flat());
    let wholes = wholes(names, &analysed);
    let hashes: Vec<u32> = wholes.keys().map(|key| hash(key.as_bytes())).collect();
    writer.add(&lay_out(&hashes));
    writer.add(&parts);
    writer.add(&rests);
    writer.add(&forms.written.concat());
    writer.add(&forms.rows());
    writer.add(&lay_out(&forms.hashes));
    writer.add(&forms.names.concat());
    writer.add(&kinds(&dictionary, knowledge));
    writer.add(&lists.sums);
    let row = |(key, name): (&String, &u32)| [check(key.as_bytes()), *name];
    writer.add(&wholes.iter().map(row).collect::<Vec<Whole>>());
    writer.finish()
}

/// What grows with every name.
#[derive(Default)]
struct Lists {
    entries: Vec<Entry>,
    terms: Vec<TermRow>,
    /// Weight of a name's words that exclude nothing.
    sums: Vec<f32>,
}

impl Lists {
    /// First and one past last of the next name's forms.
    fn next_written(&self, count: u32) -> [u32; 2] {
        let first = self.entries.last().map_or(0, |last| last.written[1]);
        [first, first + count]
    }
}

/// The terms of a name, with those that only the item's main name says.
fn term_rows(
    name: &NameRow,
    number: usize,
    analysed: &[Vec<Term>],
    dictionary: &BTreeMap<String, u32>,
    weights: &[f32],
    knowledge: &Knowledge<'_>,
) -> Vec<TermRow> {
    let list = &analysed[number];
    let own = list.iter().zip(weights).enumerate();
    let own = own.map(|(at, (term, weight))| {
        let general = said_by_another(list, at, knowledge);
        let packed = PackedTerm::new(dictionary[&term.word], term, general);
        TermRow::new(packed, *weight, term)
    });
    let main = name.main.map(|row| analysed[row as usize].as_slice());
    let implied = implied(list, main.unwrap_or_default());
    let implied = implied.map(|term| {
        let packed = PackedTerm::new(dictionary[&term.word], term, false).as_implied();
        TermRow::new(packed, 0.0, term)
    });
    own.chain(implied).collect()
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

/// Whole names: as written first, then as understood; the first of equals stands. A name that
/// only its letters tell from another item's (`egg`, `eggs`) is there by its letters as well.
fn wholes(names: &[NameRow], analysed: &[Vec<Term>]) -> BTreeMap<String, u32> {
    let mut keys: BTreeMap<String, u32> = BTreeMap::new();
    for (name, number) in names.iter().zip(0..) {
        let first = *keys.entry(words(&name.text).join(" ")).or_insert(number);
        if names[first as usize].item != name.item {
            keys.entry(by_letters(&name.text)).or_insert(number);
        }
    }
    for (terms, number) in analysed.iter().zip(0..) {
        let understood = key(terms);
        if !understood.is_empty() {
            keys.entry(understood).or_insert(number);
        }
    }
    keys
}
