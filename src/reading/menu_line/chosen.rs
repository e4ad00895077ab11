//! Choices put together from their options.

use super::assemble::Assembly;
use super::changes::without_article;
use super::choices::Group;
use super::cooking::only_cooking;
use super::items::Item;
use super::joints::Joint;
use super::line::{Choice, PartKind};
use crate::reading::phrase::PhraseRole;

impl Assembly<'_> {
    pub(super) fn choice(&mut self, group: Group) {
        let mut items: Vec<Item> = self.items[group.first..=group.last].to_vec();
        if let Some(first) = items.first_mut() {
            self.line
                .claim_free(PhraseRole::Filler, first.from, group.after_cue);
            first.from = group.after_cue.max(first.from);
        }
        let of_head = self.head.is_empty() && group.first == 0 && !group.cued;
        let mut items: Vec<Item> = items
            .into_iter()
            .map(|item| self.without_front(item))
            .filter(|item| item.from < item.to)
            .collect();
        let mut texts: Vec<String> = items
            .iter()
            .map(|item| self.text(item.from, item.to))
            .collect();
        let cooking = texts.len() > 1
            && texts[..texts.len() - 1]
                .iter()
                .all(|text| only_cooking(text));
        if of_head && cooking {
            return self.cooked_either_way(&items);
        }
        // `grilled or fried`, behind a dish.
        if !of_head && texts.iter().all(|text| only_cooking(text)) && !texts.is_empty() {
            for item in &items {
                self.claim_own(PhraseRole::Preparation, *item);
            }
            self.before.push(texts.join(" or "));
            return;
        }
        let mut behind = String::new();
        if of_head {
            behind = self.head_behind(&mut items, &mut texts);
        }
        for item in &items {
            self.line.claim(PhraseRole::Choice, item.from, item.to);
        }
        let first = self.items[group.first];
        let what = match first.joint {
            _ if of_head || self.head.is_empty() && group.first == 0 => None,
            Joint::Side => Some(PartKind::Side),
            _ if first.beside => Some(PartKind::Side),
            Joint::Under => Some(PartKind::Under),
            _ => Some(PartKind::Named),
        };
        self.main_open = false;
        self.out.choices.push(Choice {
            options: texts
                .iter()
                .map(|text| without_article(text))
                .filter(|text| !text.is_empty())
                .collect(),
            eaten: group.eaten,
            what,
            said: group.cued,
            behind,
        });
    }

    /// `Chicken or beef burrito`: the last option's further words are the dish.
    fn head_behind(&mut self, items: &mut [Item], texts: &mut [String]) -> String {
        let short = texts[..texts.len() - 1]
            .iter()
            .all(|text| !text.contains(' '));
        let Some(last) = items.last_mut() else {
            return String::new();
        };
        let own: Vec<usize> = (last.from..last.to)
            .filter(|at| self.line.is_word(*at) && !self.line.claimed(*at))
            .collect();
        if !short || own.len() < 2 {
            return String::new();
        }
        let rest = Item {
            from: own[1],
            ..*last
        };
        last.to = own[1];
        if let Some(text) = texts.last_mut() {
            *text = self.text(last.from, last.to);
        }
        let behind = self.text(rest.from, rest.to);
        self.take_head(rest);
        behind
    }

    /// `Grilled or fried shrimp basket`.
    fn cooked_either_way(&mut self, items: &[Item]) {
        let (Some(first), Some(last)) = (items.first(), items.last()) else {
            return;
        };
        let mut from = last.from;
        while from < last.to && only_cooking(self.line.word(from)) {
            from += 1;
        }
        self.line.claim(PhraseRole::Preparation, first.from, from);
        self.before
            .push(self.line.slice(first.from, from).to_owned());
        if from < last.to {
            self.take_head(Item { from, ..*last });
        }
    }
}
