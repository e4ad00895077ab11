//! The head of a line with the sizes, counts and amounts that belong to it.

use super::assemble::Assembly;
use super::items::Item;
use super::tidy::tidy;
use crate::reading::phrase::PhraseRole;

impl Assembly<'_> {
    pub(super) fn take_head(&mut self, item: Item) {
        let (mut from, mut to) = (item.from, item.to);
        let mut leading = true;
        let mut cursor = from;
        while cursor < to {
            if !leading
                && self.line.role(cursor) == Some(PhraseRole::Size)
                && self.line.is_word(cursor)
            {
                // `potato tots large`: it stays where it stands.
                cursor += 1;
            } else if self.line.claimed(cursor) {
                cursor = self.of_the_head_at(cursor, to, leading);
            } else {
                leading = false;
                cursor += 1;
            }
        }
        while from < to && (self.line.claimed(from) || self.line.is(from, "of")) {
            if !self.line.claimed(from) {
                self.line.claim(PhraseRole::Filler, from, from + 1);
            }
            from += 1;
        }
        while to > from
            && self.line.claimed(to - 1)
            && self.line.role(to - 1) != Some(PhraseRole::Size)
        {
            to -= 1;
        }
        self.claim_own(PhraseRole::Name, Item { from, to, ..item });
        self.head = tidy(&self.clean(from, to));
        self.main.clone_from(&self.head);
    }

    /// Sizes, counts and the like that belong to the dish itself.
    pub(super) fn of_the_head(&mut self, item: Item) {
        if self.out.parts.is_empty() || item.price.is_some() {
            let mut at = item.from;
            while at < item.to {
                at = self.of_the_head_at(at, item.to, false);
            }
        } else {
            // `..., 12 oz` behind a list: of the dish as well, unless it has an amount.
            let text = self.text(item.from, item.to);
            if self.before.is_empty() {
                self.before.push(text);
            }
        }
    }

    /// One claim of the head at `at`: kept as words before the head. Returns the token behind.
    pub(super) fn of_the_head_at(&mut self, at: usize, end: usize, leading: bool) -> usize {
        let role = self.line.role(at);
        let next = (at + 1..end)
            .find(|next| self.line.role(*next) != role)
            .unwrap_or(end);
        let next = next.min(self.claim_end(at));
        let text = self.line.slice(at, next);
        match role {
            Some(PhraseRole::Count) if !leading => self.trailing_count(text),
            Some(PhraseRole::Count) => self
                .before
                .push(text.trim_start_matches(['x', 'X']).trim().to_owned()),
            Some(PhraseRole::Amount) => self.amount(text),
            Some(PhraseRole::Part) if self.out.serving.share_of_order => {}
            Some(PhraseRole::Part) if !leading => {
                let several = self.out.serving.shares.len() > 1;
                let word = text.split_whitespace().next().unwrap_or_default();
                if !several && self.out.serving.share.is_some_and(|share| share < 1.0) {
                    self.before.push(word.to_owned());
                }
            }
            Some(PhraseRole::Part) => self.before.push(text.to_owned()),
            Some(PhraseRole::Size) => self.size(text, leading, next),
            _ => {}
        }
        next
    }

    fn claim_end(&self, at: usize) -> usize {
        self.line.claim_end(at)
    }

    fn size(&mut self, text: &str, leading: bool, next: usize) {
        let vessel = leading && self.line.is(next, "of") || !leading && is_a_vessel(text);
        if matches!(text.to_lowercase().as_str(), "regular" | "reg") {
            return;
        }
        let several = self.out.serving.sizes.len() > 1;
        // Of several sizes the middle one is counted; which it is the weighing asks `serving`.
        if !several {
            self.before.push(if vessel {
                format!("{text} of")
            } else {
                text.to_owned()
            });
        }
    }

    fn trailing_count(&mut self, text: &str) {
        let counts = &self.out.serving.counts;
        let scoop = text.to_lowercase().contains("scoop");
        let low = counts.iter().copied().fold(f64::INFINITY, f64::min);
        let high = counts.iter().copied().fold(0.0, f64::max);
        let mut words = if counts.len() > 1 && high > low {
            format!("{low}-{high}")
        } else if counts.is_empty() {
            return;
        } else {
            format!("{low}")
        };
        if scoop {
            words.push_str(" scoops");
        }
        if !self.before.contains(&words) {
            self.before.insert(0, words);
        }
    }

    /// An amount of the dish; a second one makes a range of both.
    fn amount(&mut self, text: &str) {
        if text.to_lowercase().starts_with("by the") || text.to_lowercase().starts_with("per ") {
            let unit = text.split_whitespace().next_back().unwrap_or_default();
            self.before.insert(0, format!("1 {unit}"));
            return;
        }
        let number = |text: &str| {
            text.split(|c: char| !c.is_ascii_digit() && c != '.')
                .next()
                .and_then(|n| n.parse::<f64>().ok())
        };
        let first = self.before.iter().position(|words| {
            words.starts_with(|c: char| c.is_ascii_digit()) && words.ends_with(char::is_alphabetic)
        });
        let both = first.and_then(|at| Some((at, number(&self.before[at])?, number(text)?)));
        match both {
            Some((at, one, other)) if (one - other).abs() > 1e-9 => {
                let unit = text.trim_start_matches(|c: char| !c.is_alphabetic());
                self.before[at] = format!("{}-{} {unit}", one.min(other), one.max(other));
            }
            Some(_) => {}
            None => self.before.insert(0, text.to_owned()),
        }
    }
}

/// What holds a soup or a drink: a `cup` behind a soup is a cup of it.
fn is_a_vessel(text: &str) -> bool {
    [
        "cup",
        "bowl",
        "pint",
        "half pint",
        "quart",
        "glass",
        "mug",
        "bottle",
        "can",
        "carafe",
        "pitcher",
    ]
    .contains(&text.to_lowercase().as_str())
}
