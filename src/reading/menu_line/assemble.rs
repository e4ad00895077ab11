//! The parts of a line put together: head, what comes with it, what is chosen, what is changed.

use super::changes::{change, share_used, without_article, without_side_words};
use super::choices::groups;
use super::cooking::only_cooking;
use super::items::{Item, cut, is_beside};
use super::joints::Joint;
use super::lexer::Lexed;
use super::line::{AddOn, MenuLine, MenuPart, PartKind};
use super::marks::Printed;
use super::serving::ServingWords;
use super::tidy::{feeds, tidy, unfold};
use crate::reading::phrase::{PhraseRole, Reading};

/// Words before a food that say nothing of it.
const FRONT: [&str; 24] = [
    "a",
    "an",
    "the",
    "our",
    "some",
    "your",
    "famous",
    "legendary",
    "delicious",
    "and",
    "of",
    "with",
    "served",
    "side",
    "sides",
    "either",
    "world",
    "plus",
    "also",
    "my",
    "in",
    "on",
    "is",
    "was",
];

pub(super) struct Assembly<'t> {
    pub(super) line: Lexed<'t>,
    pub(super) items: Vec<Item>,
    pub(super) out: MenuLine,
    /// Words before and behind the head's own: counts, sizes, ways of cooking.
    pub(super) before: Vec<String>,
    pub(super) head: String,
    /// The main dish with all that belongs to it.
    pub(super) main: String,
    pub(super) main_open: bool,
    pub(super) priced: bool,
}

pub(super) fn assemble(
    line: Lexed<'_>,
    serving: ServingWords,
    printed: Option<Printed>,
) -> MenuLine {
    let mut line = line;
    let items = cut(&mut line);
    let priced = (0..line.len()).any(|at| line.role(at) == Some(PhraseRole::Price));
    let mut assembly = Assembly {
        line,
        items,
        out: MenuLine {
            printed,
            serving,
            ..MenuLine::default()
        },
        before: Vec::new(),
        head: String::new(),
        main: String::new(),
        main_open: true,
        priced,
    };
    assembly.heading();
    assembly.doubled_first();
    assembly.described();
    assembly.parts();
    assembly.finish()
}

impl Assembly<'_> {
    fn parts(&mut self) {
        let groups = groups(&self.line, &self.items);
        let mut at = 0;
        while at < self.items.len() {
            if let Some(group) = groups.iter().find(|group| group.first == at) {
                self.choice(*group);
                at = group.last + 1;
            } else {
                let item = self.items[at];
                self.part(at, item);
                at += 1;
            }
        }
    }

    fn part(&mut self, at: usize, item: Item) {
        let item = self.without_front(item);
        let own: Vec<usize> = (item.from..item.to)
            .filter(|at| !self.line.claimed(*at))
            .collect();
        if own
            .iter()
            .all(|at| !self.line.is_word(*at) && self.line.number(*at).is_none())
        {
            if !self.counts_the_part_before(item) {
                self.of_the_head(item);
            }
            return;
        }
        let text = self.text(item.from, item.to);
        if self.head.is_empty()
            && self.out.choices.iter().all(|choice| choice.what.is_some())
            && (self.is_sized(item) || change(&text).is_none() || is_a_sub(&text))
        {
            return self.take_head(item);
        }
        if self.is_more_of_the_name(item) {
            self.claim_own(PhraseRole::Name, item);
            self.head = format!("{} {text}", self.head);
            self.main.clone_from(&self.head);
            return;
        }
        if self.is_head_again(&text, item) {
            return self.claim_own(PhraseRole::Name, item);
        }
        if only_cooking(&text) && !item.beside {
            self.claim_own(PhraseRole::Preparation, item);
            self.before.push(text);
            return;
        }
        if self.is_add_on(&text, at, item) {
            return self.take_add_on(&text, item);
        }
        self.named(&text, item);
    }

    /// `rice, gyoza (3), miso soup`: a count in brackets is of what stands before it; at the end of a
    /// line it is of the dish.
    fn counts_the_part_before(&mut self, item: Item) -> bool {
        let goes_on =
            (item.to..self.line.len()).any(|at| self.line.is_word(at) && !self.line.claimed(at));
        let alone = item.bracketed
            && self.line.role(item.from) == Some(PhraseRole::Count)
            && self.line.claim_end(item.from) >= item.to;
        let count = self.line.number(item.from).filter(|_| alone && goes_on);
        let (Some(count), Some(part)) = (count, self.out.parts.last_mut()) else {
            return false;
        };
        part.text = format!("{count} {}", part.text);
        let serving = &mut self.out.serving;
        if let Some(at) = serving.counts.iter().position(|own| *own == count) {
            serving.counts.remove(at);
        }
        serving.count = serving.counts.first().copied();
        true
    }

    /// `Cup of soup 5 Bowl of soup 8`: the head once more.
    fn is_head_again(&self, text: &str, item: Item) -> bool {
        item.price.is_some()
            && (text.eq_ignore_ascii_case(&self.head)
                || self.is_sized(item) && text.to_lowercase().ends_with(&self.head.to_lowercase()))
    }

    /// `Empanadas (3) de carne`.
    fn is_more_of_the_name(&self, item: Item) -> bool {
        self.out.parts.is_empty()
            && !self.head.is_empty()
            && item.joint == Joint::Break
            && self
                .line
                .any(item.from, &["de", "di", "del", "della", "al", "alla", "of"])
    }

    pub(super) fn is_sized(&self, item: Item) -> bool {
        self.line.role(item.from) == Some(PhraseRole::Size)
    }

    fn is_add_on(&self, text: &str, at: usize, item: Item) -> bool {
        let lower = text.to_lowercase();
        let cue = [
            "add ",
            "extra ",
            "additional ",
            "make it ",
            "upgrade ",
            "sub ",
            "substitute ",
        ]
        .iter()
        .any(|cue| lower.starts_with(cue));
        let before = self.items[..at].iter().any(|item| item.price.is_some());
        let own = item.price.is_some();
        (own && (cue || item.joint == Joint::Plus || item.plus || before))
            || (self.priced && lower.starts_with("add ") && before)
    }

    fn take_add_on(&mut self, text: &str, item: Item) {
        let mut from = item.from;
        if self.line.any(from, &["add", "plus"]) && from + 1 < item.to {
            self.line.claim(PhraseRole::Filler, from, from + 1);
            from += 1;
        }
        self.claim_own(PhraseRole::AddOn, Item { from, ..item });
        let price = item.price.map(|at| {
            let end = (at..self.line.len())
                .find(|next| self.line.role(*next) != Some(PhraseRole::Price))
                .unwrap_or(self.line.len());
            self.line.slice(at, end).to_owned()
        });
        let bare = change(text)
            .filter(|part| matches!(part.what, PartKind::Added))
            .map(|part| part.text);
        self.out.add_ons.push(AddOn {
            text: bare.unwrap_or_else(|| without_article(text)),
            price,
        });
    }

    /// A part that the dish has, or that changes it.
    fn named(&mut self, text: &str, item: Item) {
        if let Some(share) = share_used(text) {
            self.claim_change(item);
            if let Some(last) = self.out.parts.last() {
                let of = last.text.clone();
                self.out.parts.push(MenuPart {
                    text: of,
                    what: PartKind::Portion(share),
                });
            }
            return;
        }
        if let Some(words) = Self::cooked_instead(text) {
            self.claim_own(PhraseRole::Change, item);
            self.before.push(words);
            return;
        }
        let (bare, beside) = without_side_words(text);
        let what = match item.joint {
            _ if item.beside || beside => PartKind::Side,
            Joint::Side => PartKind::Side,
            Joint::List | Joint::And | Joint::Or if item.begun == Joint::Side => PartKind::Side,
            Joint::Under => PartKind::Under,
            _ => PartKind::Named,
        };
        if let Some(part) = change(&bare).filter(|_| !self.is_sized(item)) {
            return self.changed(&part, item);
        }
        let on_the_side = beside && is_a_dressing(&bare);
        if beside && !on_the_side {
            self.claim_side_words(item);
        }
        self.claim_own(
            if on_the_side {
                PhraseRole::Change
            } else {
                PhraseRole::Component
            },
            item,
        );
        let text = without_article(&bare);
        if text.is_empty() {
            return;
        }
        self.main_open &= matches!(what, PartKind::Named | PartKind::Under);
        if self.main_open && !self.head.is_empty() {
            let joint = self.line.slice(item.by.0, item.by.1);
            let word = joint.contains(char::is_alphabetic);
            let joint = if word {
                format!(" {} ", joint.to_lowercase())
            } else {
                ", ".to_owned()
            };
            self.main.push_str(&joint);
            self.main.push_str(&text);
        }
        self.out.parts.push(MenuPart { text, what });
    }

    /// A change; of `no butter or syrup` two.
    fn changed(&mut self, part: &MenuPart, item: Item) {
        self.main_open = false;
        self.claim_own(PhraseRole::Change, item);
        let several = part.what == PartKind::Removed;
        let texts = part
            .text
            .split(" or ")
            .take(if several { usize::MAX } else { 1 });
        let parts = texts.map(|text| MenuPart {
            text: if several {
                without_article(text)
            } else {
                part.text.clone()
            },
            what: part.what.clone(),
        });
        self.out.parts.extend(parts);
    }

    /// The `on the side` behind a food.
    fn claim_side_words(&mut self, item: Item) {
        let start = (item.from..item.to).find(|at| {
            let next = self
                .line
                .longest(*at, &["on the side", "on side", "as a side"]);
            next == Some(item.to)
        });
        if let Some(from) = start {
            self.line.claim(PhraseRole::Filler, from, item.to);
        }
    }

    /// `grilled instead of fried`: how the dish is cooked.
    fn cooked_instead(text: &str) -> Option<String> {
        let (new, old) = text.split_once(" instead of ")?;
        (only_cooking(new) && only_cooking(old)).then(|| new.to_owned())
    }

    /// Without the words in front that say nothing, which are claimed as filler.
    pub(super) fn without_front(&mut self, item: Item) -> Item {
        let mut item = item;
        if self.line.claimed(item.from) {
            // The `of` of `cup of soup`.
            let next = self.line.claim_end(item.from);
            if next + 1 < item.to && self.line.is(next, "of") && !self.line.claimed(next) {
                self.line.claim(PhraseRole::Filler, next, next + 1);
            }
            return item;
        }
        let side = self.line.any(item.from, &["side", "sides"]);
        if side && !self.line.is(item.from + 1, "of") {
            return item;
        }
        self.out.serving.side |= side && self.head.is_empty();
        while item.from < item.to
            && !self.line.claimed(item.from)
            && FRONT.contains(&self.line.word(item.from))
        {
            if item.from + 1 >= item.to {
                break;
            }
            self.line
                .claim(PhraseRole::Filler, item.from, item.from + 1);
            item.from += 1;
        }
        item
    }

    fn claim_change(&mut self, item: Item) {
        // `dressing on the side, used a third`: one change.
        let before = (0..item.from).rev().find(|at| self.line.is_word(*at));
        let from = before
            .filter(|at| self.line.role(*at) == Some(PhraseRole::Change))
            .map(|at| self.line.claim_start(at));
        self.line
            .claim(PhraseRole::Change, from.unwrap_or(item.from), item.to);
    }

    /// Claims the tokens of an item that nobody has claimed.
    pub(super) fn claim_own(&mut self, role: PhraseRole, item: Item) {
        self.line.claim_free(role, item.from, item.to);
    }

    /// The words of tokens without prices, tags and marks.
    pub(super) fn text(&self, from: usize, to: usize) -> String {
        tidy(&self.clean(from, to))
    }

    pub(super) fn clean(&self, from: usize, to: usize) -> String {
        let mut text = String::with_capacity(32);
        for at in from..to.min(self.line.len()) {
            let role = self.line.role(at);
            if is_beside(role) && role != Some(PhraseRole::Filler) {
                continue;
            }
            match self.line.mark(at) {
                Some('(' | ')' | '[' | ']' | '|' | '\n' | '\u{2022}') => {
                    text.push_str(", ");
                    continue;
                }
                Some('\u{b7}' | '\u{2026}' | '+') if role == Some(PhraseRole::Filler) => {
                    text.push_str(", ");
                    continue;
                }
                Some('.') if role == Some(PhraseRole::Filler) => {
                    text.push_str(". ");
                    continue;
                }
                _ => {}
            }
            if !self.line.glued(at) && !text.is_empty() {
                text.push(' ');
            }
            text.push_str(self.line.slice(at, at + 1));
        }
        text
    }

    fn finish(mut self) -> MenuLine {
        if self.head.is_empty()
            && !self.before.is_empty()
            && self.out.parts.is_empty()
            && self.out.choices.is_empty()
        {
            // `6 oz`: nothing but an amount.
            self.head = self.before.join(" ");
            self.before.clear();
            self.main.clone_from(&self.head);
        }
        if self.head.is_empty() && self.out.parts.is_empty() && self.out.choices.is_empty() {
            // Nothing but marks: better taken for a name than lost.
            self.head = tidy(&self.clean(0, self.line.len()));
            self.main.clone_from(&self.head);
        }
        let mut line = self.out;
        let mut words = self.before;
        words.dedup();
        words.retain(|word| !word.is_empty());
        if !self.head.is_empty() {
            words.push(self.head);
            line.head = words.join(" ");
            let before = line.head.len() - words.last().map_or(0, String::len);
            line.main = format!("{}{}", &line.head[..before], self.main);
        }
        unfold(&mut line);
        let all = Assembly {
            out: MenuLine::default(),
            before: Vec::new(),
            head: String::new(),
            main: String::new(),
            items: Vec::new(),
            main_open: false,
            priced: false,
            line: self.line,
        };
        line.text = tidy(&all.clean(0, all.line.len()));
        let phrases = all.line.phrases();
        line.reading = Reading {
            text: all.line.text.to_owned(),
            phrases,
        };
        let notes: Vec<String> = line
            .reading
            .all(PhraseRole::Allergen)
            .map(str::to_owned)
            .collect();
        line.allergens = notes;
        line.serving.feeds = feeds(line.reading.all(PhraseRole::Yield));
        line
    }
}

/// `sub sandwich`: the long roll, where no dish stands before it that could be changed.
fn is_a_sub(text: &str) -> bool {
    let lower = text.to_lowercase();
    lower.starts_with("sub ") && !lower.contains(" for ")
}

/// Sauces of a salad or a sandwich, which are the dish's own wherever they are put.
fn is_a_dressing(text: &str) -> bool {
    let lower = text.to_lowercase();
    [
        "dressing",
        "sauce",
        "vinaigrette",
        "mayo",
        "mayonnaise",
        "ranch",
        "gravy",
        "syrup",
        "aioli",
        "butter",
    ]
    .iter()
    .any(|word| lower.ends_with(word))
}
