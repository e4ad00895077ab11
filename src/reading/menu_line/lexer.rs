//! A menu line cut into tokens, and which of them are spoken for.

use crate::reading::phrase::PhraseRole;
use crate::reading::tokens::{Kind, Token, tokens_of_anything};

/// A line's tokens with their words in lower case, and what has been read of them.
pub(super) struct Lexed<'t> {
    /// The text as written.
    pub text: &'t str,
    pub tokens: Vec<Token>,
    /// All words in lower case, one after the other; `keys` are places in it.
    lower: String,
    keys: Vec<(usize, usize)>,
    /// What a token belongs to: the role and the token its phrase begins with.
    claims: Vec<Option<(PhraseRole, usize)>>,
}

impl<'t> Lexed<'t> {
    pub(super) fn of(text: &'t str) -> Self {
        let tokens = tokens_of_anything(text);
        let mut lower = String::with_capacity(text.len());
        let keys = tokens
            .iter()
            .map(|token| {
                let start = lower.len();
                if token.kind == Kind::Word {
                    let word = &text[token.start..token.end];
                    for letter in word.chars().flat_map(char::to_lowercase) {
                        lower.push(if letter == '\u{2019}' { '\'' } else { letter });
                    }
                }
                (start, lower.len())
            })
            .collect();
        let claims = vec![None; tokens.len()];
        Self {
            text,
            tokens,
            lower,
            keys,
            claims,
        }
    }

    pub(super) fn len(&self) -> usize {
        self.tokens.len()
    }

    /// The word at `at` in lower case; empty where there is none.
    pub(super) fn word(&self, at: usize) -> &str {
        self.keys
            .get(at)
            .map_or("", |(from, to)| &self.lower[*from..*to])
    }

    pub(super) fn is_word(&self, at: usize) -> bool {
        !self.word(at).is_empty()
    }

    pub(super) fn is(&self, at: usize, word: &str) -> bool {
        self.word(at) == word
    }

    pub(super) fn any(&self, at: usize, list: &[&str]) -> bool {
        let word = self.word(at);
        !word.is_empty() && list.contains(&word)
    }

    /// Whether the words from `at` on are those of a phrase, parted by spaces or hyphens.
    /// Returns the token behind it.
    pub(super) fn phrase(&self, at: usize, phrase: &str) -> Option<usize> {
        let mut next = at;
        for (place, word) in phrase.split(' ').enumerate() {
            if place > 0 && self.mark(next) == Some('-') && self.glued(next) {
                next += 1;
            }
            if !self.is(next, word) || self.claimed(next) {
                return None;
            }
            next += 1;
        }
        Some(next)
    }

    /// The longest of some phrases that stands at `at`: the token behind it.
    pub(super) fn longest(&self, at: usize, list: &[&str]) -> Option<usize> {
        let first = self.word(at);
        let letter = first.as_bytes().first()?;
        // Most phrases begin with another letter: that is asked first.
        let begun = list.iter().filter(|phrase| {
            phrase.as_bytes().first() == Some(letter) && phrase.starts_with(first)
        });
        begun.filter_map(|phrase| self.phrase(at, phrase)).max()
    }

    pub(super) fn mark(&self, at: usize) -> Option<char> {
        match self.tokens.get(at)?.kind {
            Kind::Mark(mark) => Some(mark),
            _ => None,
        }
    }

    pub(super) fn is_mark(&self, at: usize, list: &[char]) -> bool {
        self.mark(at).is_some_and(|mark| list.contains(&mark))
    }

    /// The figure at `at`: `12.50`, `½`.
    pub(super) fn number(&self, at: usize) -> Option<f64> {
        match self.tokens.get(at)?.kind {
            Kind::Number(value) | Kind::Vulgar(value) => Some(value),
            _ => None,
        }
    }

    pub(super) fn glued(&self, at: usize) -> bool {
        self.tokens.get(at).is_some_and(|token| token.glued)
    }

    pub(super) fn slice(&self, from: usize, to: usize) -> &'t str {
        match (self.tokens.get(from), self.tokens.get(to.wrapping_sub(1))) {
            (Some(first), Some(last)) if first.start <= last.end => {
                &self.text[first.start..last.end]
            }
            _ => "",
        }
    }

    pub(super) fn claimed(&self, at: usize) -> bool {
        self.claims.get(at).is_some_and(Option::is_some)
    }

    pub(super) fn role(&self, at: usize) -> Option<PhraseRole> {
        self.claims.get(at).copied().flatten().map(|(role, _)| role)
    }

    /// Says what the tokens from `from` to before `to` are.
    pub(super) fn claim(&mut self, role: PhraseRole, from: usize, to: usize) {
        let to = to.min(self.claims.len());
        for claim in &mut self.claims[from.min(to)..to] {
            *claim = Some((role, from));
        }
    }

    /// All phrases, in order. Tokens that nobody spoke for are unknown, marks are filler.
    pub(super) fn phrases(&self) -> Vec<crate::reading::phrase::Phrase> {
        let mut list: Vec<crate::reading::phrase::Phrase> = Vec::with_capacity(self.len());
        let mut last = None;
        for (at, token) in self.tokens.iter().enumerate() {
            let claim = self.claims[at].unwrap_or((
                if matches!(token.kind, Kind::Mark(_)) {
                    PhraseRole::Filler
                } else {
                    PhraseRole::Unknown
                },
                usize::MAX,
            ));
            match list.last_mut() {
                Some(phrase) if last == Some(claim) => phrase.to = token.end,
                _ => list.push(crate::reading::phrase::Phrase {
                    role: claim.0,
                    from: token.start,
                    to: token.end,
                }),
            }
            last = Some(claim);
        }
        list
    }

    /// The token behind the bracket that closes the one at `open`.
    pub(super) fn closes(&self, open: usize) -> Option<usize> {
        let mut deep = 0_i32;
        for at in open..self.len() {
            if self.is_mark(at, &['(', '[']) {
                deep += 1;
            } else if self.is_mark(at, &[')', ']']) {
                deep -= 1;
                if deep == 0 {
                    return Some(at);
                }
            }
        }
        None
    }

    /// Whether a part of the line ends before `at`: a mark that parts, a claimed price or tag, or
    /// the end.
    pub(super) fn ends(&self, at: usize) -> bool {
        if at >= self.len() {
            return true;
        }
        if self.claimed(at) {
            return matches!(
                self.role(at),
                Some(
                    PhraseRole::Filler
                        | PhraseRole::Price
                        | PhraseRole::Tag
                        | PhraseRole::Allergen
                        | PhraseRole::PrintedEnergy
                        | PhraseRole::Yield
                )
            );
        }
        match self.mark(at) {
            Some(',' | ';' | '|' | '\u{2022}' | '\u{b7}' | '(' | ')' | '[' | ']' | ':' | '\n') => {
                true
            }
            Some('.') => at + 1 >= self.len() || !self.glued(at + 1),
            Some('-' | '\u{2013}' | '\u{2014}') => self.is_dash(at),
            Some('/') => !self.glued(at) || !self.glued(at + 1),
            _ => false,
        }
    }

    /// Whether the mark at `at` is a dash between parts, no hyphen within a word.
    pub(super) fn is_dash(&self, at: usize) -> bool {
        self.is_mark(at, &['-', '\u{2013}', '\u{2014}'])
            && (!self.glued(at + 1)
                || (!self.glued(at) && self.is_word(at + 1))
                || self.mark(at) == Some('\u{2014}'))
    }

    /// Whether a part of the line begins at `at`.
    pub(super) fn begins(&self, at: usize) -> bool {
        at == 0 || self.ends(at - 1)
    }
}

impl Lexed<'_> {
    /// Claims the tokens from `from` to before `to` that nobody has claimed, each run a phrase.
    pub(super) fn claim_free(&mut self, role: PhraseRole, from: usize, to: usize) {
        let to = to.min(self.len());
        let mut start = None;
        for at in from..to {
            if self.claims[at].is_some() {
                start = None;
                continue;
            }
            let first = *start.get_or_insert(at);
            self.claims[at] = Some((role, first));
        }
    }

    /// The token behind the phrase that `at` belongs to.
    pub(super) fn claim_end(&self, at: usize) -> usize {
        let claim = self.claims[at];
        (at..self.len())
            .find(|next| self.claims[*next] != claim)
            .unwrap_or(self.len())
    }

    /// The first token of the phrase that `at` belongs to.
    pub(super) fn claim_start(&self, at: usize) -> usize {
        self.claims[at].map_or(at, |(_, first)| first)
    }
}
