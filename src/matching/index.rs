//! The index over names: a dictionary of words with how telling each is, the names that
//! hold each word, whole names for exact hits, and a table of misspellings.
//!
//! This file is also compiled into the build script. The same index is built at run time
//! for somebody else's food table.

mod building;
mod packed;
mod weighing;

pub(crate) use building::{Around, build};
pub(crate) use packed::{PackedTerm, TermRow};
pub(crate) use weighing::weigh_terms;

use super::knowledge::{Class, HIGHEST};
use super::slots::{Slots, check, hash};
use crate::foods::blob::{Place, Reader, Text};
use crate::words::misspellings::Misspellings;

/// A name to be found, and what it stands for.
#[derive(Debug, Clone)]
pub(crate) struct NameRow {
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

/// Key of a name as it is written, apart from the keys of words.
fn by_letters(text: &str) -> String {
    format!("={}", text.trim().to_lowercase())
}

/// A word of the dictionary.
#[derive(Debug, Clone, Copy, Default, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub(crate) struct WordRow {
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
    pub(crate) const TEXT: usize = 0;
    pub(crate) const DICTIONARY: usize = 1;
    pub(crate) const WORDS: usize = 2;
    pub(crate) const ENTRIES: usize = 3;
    pub(crate) const TERMS: usize = 4;
    pub(crate) const POSTINGS: usize = 5;
    pub(crate) const EXACT: usize = 6;
    pub(crate) const MISSPELT_PARTS: usize = 7;
    pub(crate) const MISSPELT: usize = 8;
    pub(crate) const WRITTEN: usize = 9;
    pub(crate) const FORMS: usize = 10;
    pub(crate) const FORM_SLOTS: usize = 11;
    pub(crate) const FORM_NAMES: usize = 12;
    pub(crate) const KINDS: usize = 13;
    pub(crate) const WEIGHTS: usize = 14;
    pub(crate) const WHOLES: usize = 15;
}

/// A form: a word in base form as names write it, before any synonyms.
#[derive(Debug, Clone, Copy, Default, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub(crate) struct Form {
    /// Hash of the word; forms with equal hashes are one.
    pub hash: u32,
    /// First and one past last of the names that are written with it.
    pub names: [u32; 2],
}

/// A whole name that is looked up as such: the second hash of its words, and its number. The
/// words are not kept: two that share 64 bits are not to be expected.
pub(crate) type Whole = [u32; 2];

/// The index in place.
#[derive(Clone)]
pub struct Index<'b> {
    text: Text<'b>,
    dictionary: Slots<'b>,
    rows: &'b [WordRow],
    entries: &'b [Entry],
    terms: &'b [TermRow],
    postings: &'b [u32],
    exact: Slots<'b>,
    wholes: &'b [Whole],
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
    pub(crate) fn open(bytes: &'b [u8]) -> Result<Self, Box<dyn std::error::Error>> {
        let reader = Reader::new(bytes)?;
        Ok(Self {
            text: reader.text(section::TEXT),
            dictionary: Slots(reader.numbers(section::DICTIONARY)),
            rows: reader.numbers(section::WORDS),
            entries: reader.numbers(section::ENTRIES),
            terms: reader.numbers(section::TERMS),
            postings: reader.numbers(section::POSTINGS),
            exact: Slots(reader.numbers(section::EXACT)),
            wholes: reader.numbers(section::WHOLES),
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
    pub(crate) fn entries(&self) -> &'b [Entry] {
        self.entries
    }

    /// How many words the dictionary has.
    #[must_use]
    pub(crate) fn words(&self) -> usize {
        self.rows.len()
    }

    /// For every name, the sum of the weights of its terms.
    #[must_use]
    pub(crate) fn weights(&self) -> &'b [f32] {
        self.weights
    }

    /// A name as written.
    #[must_use]
    pub(crate) fn text_of(&self, entry: &Entry) -> &'b str {
        entry.text.of(self.text)
    }

    /// The terms of a name.
    #[must_use]
    pub(crate) fn terms_of(&self, entry: &Entry) -> &'b [TermRow] {
        let start = entry.first_term as usize;
        &self.terms[start..start + entry.terms as usize]
    }

    /// Number of a word in the dictionary.
    #[must_use]
    pub(crate) fn word(&self, word: &str) -> Option<u32> {
        self.dictionary.find(hash(word.as_bytes()), |at| {
            self.rows[at as usize].text.is(self.text, word)
        })
    }

    /// A dictionary row.
    #[must_use]
    pub(crate) fn row(&self, word: u32) -> &'b WordRow {
        &self.rows[word as usize]
    }

    /// A word's text.
    #[must_use]
    pub(crate) fn word_text(&self, word: u32) -> &'b str {
        self.rows[word as usize].text.of(self.text)
    }

    /// What a word does.
    #[must_use]
    pub(crate) fn class(&self, word: u32) -> Class {
        Class::from_number(self.rows[word as usize].class)
    }

    /// Names that hold a word.
    #[must_use]
    pub(crate) fn postings(&self, word: u32) -> &'b [u32] {
        let [start, end] = self.rows[word as usize].postings;
        &self.postings[start as usize..end as usize]
    }

    /// Names that hold a narrower word.
    #[must_use]
    pub(crate) fn below(&self, word: u32) -> &'b [u32] {
        let [start, end] = self.rows[word as usize].below;
        &self.postings[start as usize..end as usize]
    }

    /// How many forms names are written in.
    #[must_use]
    pub(crate) fn forms(&self) -> usize {
        self.forms.len()
    }

    /// Number of the form that a word in base form is; `None` where no name has it.
    #[must_use]
    pub(crate) fn form(&self, word: &str) -> Option<u32> {
        self.form_slots.find(hash(word.as_bytes()), |_| true)
    }

    /// Names that are written with a form.
    #[must_use]
    pub(crate) fn names_with(&self, form: u32) -> &'b [u32] {
        let [start, end] = self.forms[form as usize].names;
        &self.form_names[start as usize..end as usize]
    }

    /// The forms that a name is written in, in order.
    #[must_use]
    pub(crate) fn written(&self, entry: &Entry) -> &'b [u32] {
        &self.written[entry.written[0] as usize..entry.written[1] as usize]
    }

    /// Rarity of a word; `None` when neither names nor knowledge speak of it.
    #[must_use]
    pub(crate) fn known_rarity(&self, word: &str) -> Option<f32> {
        self.word(word).map(|number| self.row(number).rarity)
    }

    /// The broader word of a word.
    #[must_use]
    pub(crate) fn kind_of(&self, word: u32) -> Option<u32> {
        self.kinds[word as usize].checked_sub(1)
    }

    /// Broader words, nearest first.
    pub(crate) fn above(&self, word: u32) -> impl Iterator<Item = u32> {
        let step = |word: u32| self.kind_of(word);
        std::iter::successors(step(word), move |word| step(*word)).take(HIGHEST)
    }

    /// The name that is written as a text is, letter by letter but for case, if only that
    /// tells it from another name of the same words.
    #[must_use]
    pub(crate) fn by_letters(&self, text: &str) -> Option<u32> {
        self.exact(&by_letters(text))
    }

    /// The name that is exactly `key`.
    #[must_use]
    pub(crate) fn exact(&self, key: &str) -> Option<u32> {
        let second = check(key.as_bytes());
        let row = |at: u32| self.wholes[at as usize];
        let at = self
            .exact
            .find(hash(key.as_bytes()), |at| row(at)[0] == second)?;
        Some(row(at)[1])
    }

    /// Whether a name is written with both forms.
    #[must_use]
    pub(crate) fn together(&self, a: u32, b: u32) -> bool {
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
    pub(crate) fn misspellings(&self) -> Misspellings<'b> {
        self.misspellings
    }
}
