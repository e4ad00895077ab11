//! What each stretch of a text says: its role, and where it stands.
//!
//! Every reader of lines, jots and sentences leaves one [`Reading`]: phrases in the order of the text,
//! none over another, so that nothing written is dropped without a word.

use serde::Serialize;

/// What a phrase says of the dish.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum PhraseRole {
    /// What the dish is called: `Harbour burger`.
    Name,
    /// A food on the dish or beside it: `fries`.
    Component,
    /// How much by weight or volume, or in words: `200 g`, `a little`.
    Amount,
    /// A size word or a length: `large`, `12-inch`, `bowl`.
    Size,
    /// How many: `3`, `6 pc`, `x2`, `half a dozen`.
    Count,
    /// How much of a whole: `half`, `quarter chicken`, `by the slice`.
    Part,
    /// How something is cooked or cut: `grilled`, `medium rare`.
    Preparation,
    /// What is taken away, exchanged, or made more or less: `no bun`, `extra sauce`.
    Change,
    /// One of several of which some are eaten: `soup or salad`.
    Choice,
    /// What can be had on top for a price, and is not counted: `add avocado 3`.
    AddOn,
    /// What it costs: `$12`, `MP`.
    Price,
    /// A mark on the menu: `(V)`, `GF`, `new!`.
    Tag,
    /// What it holds that some cannot eat: `contains nuts`.
    Allergen,
    /// Energy that the menu prints: `650 cal`.
    PrintedEnergy,
    /// How many people it feeds: `serves 2`.
    Yield,
    /// The part of the menu it stands in: `Sides`.
    Section,
    /// Words and marks that join or adorn and say nothing of food: `with`, `our`, `,`.
    Filler,
    /// Not understood.
    Unknown,
}

impl PhraseRole {
    /// The word for it, as JSON and `--why` show it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Name => "name",
            Self::Component => "component",
            Self::Amount => "amount",
            Self::Size => "size",
            Self::Count => "count",
            Self::Part => "part",
            Self::Preparation => "preparation",
            Self::Change => "change",
            Self::Choice => "choice",
            Self::AddOn => "add_on",
            Self::Price => "price",
            Self::Tag => "tag",
            Self::Allergen => "allergen",
            Self::PrintedEnergy => "printed_energy",
            Self::Yield => "yield",
            Self::Section => "section",
            Self::Filler => "filler",
            Self::Unknown => "unknown",
        }
    }
}

/// A stretch of a text and its role. Places are bytes of the text as written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Phrase {
    /// What it says.
    pub role: PhraseRole,
    /// Its first byte.
    pub from: usize,
    /// The byte behind its last.
    pub to: usize,
}

/// A text and all its phrases, in order.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Reading {
    /// The text as written.
    pub text: String,
    /// Its phrases; none stands over another.
    pub phrases: Vec<Phrase>,
}

impl Reading {
    /// Nothing read yet of `text`.
    #[must_use]
    pub(crate) fn of(text: &str) -> Self {
        Self {
            text: text.to_owned(),
            phrases: Vec::new(),
        }
    }

    /// Adds a phrase. Phrases are put in order by [`Self::in_order`].
    pub(crate) fn push(&mut self, role: PhraseRole, from: usize, to: usize) {
        self.phrases.push(Phrase { role, from, to });
    }

    /// Phrases by place.
    #[must_use]
    pub(crate) fn in_order(mut self) -> Self {
        self.phrases.sort_by_key(|phrase| phrase.from);
        self
    }

    /// The words of a phrase; empty where its place is not in the text.
    #[must_use]
    pub fn words_of(&self, phrase: &Phrase) -> &str {
        self.text.get(phrase.from..phrase.to).unwrap_or_default()
    }

    /// Texts of all phrases in a role.
    pub(crate) fn all(&self, role: PhraseRole) -> impl Iterator<Item = &str> {
        let matching = self
            .phrases
            .iter()
            .filter(move |phrase| phrase.role == role);
        matching.map(|phrase| self.words_of(phrase))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn phrases_know_their_words() {
        let mut reading = Reading::of("Cr\u{e8}me br\u{fb}l\u{e9}e 9");
        let end = reading.text.len();
        reading.push(PhraseRole::Price, end - 1, end);
        reading.push(PhraseRole::Name, 0, end - 2);
        let reading = reading.in_order();
        assert_eq!(reading.phrases[0].role, PhraseRole::Name);
        assert_eq!(reading.all(PhraseRole::Price).collect::<Vec<_>>(), ["9"]);
    }

    #[test]
    fn words_are_those_of_json() {
        for role in [
            PhraseRole::AddOn,
            PhraseRole::PrintedEnergy,
            PhraseRole::Name,
        ] {
            let json = serde_json::to_string(&role).expect("a word");
            assert_eq!(json.trim_matches('"'), role.word());
        }
    }
}
