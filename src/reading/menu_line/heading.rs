//! What stands before a dish and behind its name: a heading, a description.

use super::assemble::Assembly;
use super::changes::{change, share_used};
use super::cooking::only_cooking;
use super::items::{Item, is_beside};
use super::joints::Joint;
use super::lexer::Lexed;
use super::line::{MenuPart, PartKind};
use super::serving::Section;
use super::tidy::tidy;
use crate::reading::phrase::PhraseRole;

/// Longest name, words; more is a sentence.
const LONGEST_NAME: usize = 10;
/// Headings that a line may carry before its dish.
const HEADINGS: [&str; 60] = [
    "side",
    "side dish",
    "kids menu",
    "kids' menu",
    "kid's menu",
    "children's menu",
    "kids",
    "sides",
    "side dishes",
    "on the side",
    "desserts",
    "dessert",
    "sweets",
    "dolci",
    "postres",
    "breakfast",
    "all day breakfast",
    "brunch",
    "lunch",
    "dinner",
    "small plates",
    "appetizers",
    "appetisers",
    "appetizer",
    "starters",
    "starter",
    "to start",
    "mains",
    "main courses",
    "entrees",
    "drinks",
    "beverages",
    "soft drinks",
    "soups",
    "salads",
    "soups and salads",
    "sandwiches",
    "burgers",
    "pizzas",
    "pasta",
    "pastas",
    "by the slice",
    "from the grill",
    "from the oven",
    "from the sea",
    "from the fryer",
    "from the garden",
    "specials",
    "daily specials",
    "today's special",
    "lunch special",
    "dinner special",
    "chef's specials",
    "platters",
    "combos",
    "antipasti",
    "primi",
    "secondi",
    "contorni",
    "snacks",
];

/// Whether words are a heading of menus: `sides`, `burgers`.
pub(crate) fn is_heading(text: &str) -> bool {
    HEADINGS.contains(&text.trim().to_lowercase().replace('\u{2019}', "'").as_str())
}

impl Assembly<'_> {
    /// `Sides: mashed potatoes`: the heading that stands before the dish.
    pub(super) fn heading(&mut self) {
        let [first, second, ..] = self.items[..] else {
            return;
        };
        if !matches!(second.joint, Joint::Described | Joint::List)
            || self.line.is_mark(second.by.0, &[',', '(', '['])
        {
            return;
        }
        let Some(next) = self.line.longest(first.from, &HEADINGS) else {
            return self.sized_heading(first);
        };
        let apostrophe = self.line.is_mark(next, &['\'', '\u{2019}']);
        if next + usize::from(apostrophe) != first.to {
            return self.sized_heading(first);
        }
        self.take_heading(first);
    }

    /// `Kids menu:` whose first word was read as a size, `By the slice:` as a part.
    fn sized_heading(&mut self, first: Item) {
        if is_heading(self.line.slice(first.from, first.to)) {
            self.take_heading(first);
        }
    }

    fn take_heading(&mut self, first: Item) {
        self.line.claim(PhraseRole::Section, first.from, first.to);
        let heading = self.line.slice(first.from, first.to);
        let section = Section::of(heading);
        if section != Section::Unsaid {
            self.out.serving.section = section;
        }
        self.items.remove(0);
        if let Some(head) = self.items.first_mut() {
            head.joint = Joint::List;
            head.begun = Joint::List;
        }
    }

    /// `Double meat sub`: a change that stands before the dish.
    pub(super) fn doubled_first(&mut self) {
        let Some(first) = self.items.first_mut() else {
            return;
        };
        let next = self
            .line
            .longest(first.from, &["double meat", "double protein"]);
        if let Some(next) = next.filter(|next| *next < first.to) {
            let what = self.line.slice(first.from + 1, next).to_owned();
            self.line.claim(PhraseRole::Change, first.from, next);
            first.from = next;
            let doubled = MenuPart {
                text: what,
                what: PartKind::Doubled,
            };
            self.out.parts.push(doubled);
        }
    }

    /// Parts a name from its description.
    pub(super) fn described(&mut self) {
        let Some(first) = self.items.first() else {
            return;
        };
        let start = first.from;
        let column = self
            .items
            .iter()
            .enumerate()
            .skip(1)
            .find(|(_, item)| item.by.0 < item.by.1 && self.after_a_break(item));
        let strong = column.or_else(|| {
            self.items.iter().enumerate().skip(1).find(|(_, item)| {
                item.joint == Joint::Described || item.bracketed || self.splits(item)
            })
        });
        let Some((at, item)) = strong else {
            return;
        };
        let list = item.bracketed;
        let (open, from) = (item.by.0, item.from);
        let words = |line: &Lexed<'_>, from: usize, to: usize| {
            (from..to)
                .filter(|at| line.is_word(*at) && !line.claimed(*at))
                .count()
        };
        let until = self.items[at - 1].to;
        let named = words(&self.line, start, until);
        if named == 0 || named > LONGEST_NAME || self.items[at].beside {
            return;
        }
        let end = self.line.len();
        if list && !self.is_bracketed_list(at) {
            return;
        }
        // What is no change, no way of cooking, nothing for a price.
        let tells = self.items[at..].iter().any(|item| {
            let text = self.text(item.from, item.to);
            words(&self.line, item.from, item.to) > 0
                && item.price.is_none()
                && change(&text).is_none()
                && !only_cooking(&text)
                && share_used(&text).is_none()
        });
        let priced_first = self.items[at].price.is_some() && self.items[at..].len() == 1;
        if !(tells || priced_first && self.items[at - 1].price.is_none()) {
            return;
        }
        self.out.name = tidy(&self.clean(start, until));
        let _ = open;
        self.out.description = tidy(&self.clean(from, end));
        // `with` and `on` belong to the description.
        if matches!(
            self.items[at].joint,
            Joint::With | Joint::Under | Joint::Side
        ) {
            let by = self.items[at].by;
            self.out.description = tidy(&self.clean(by.0, end));
        }
    }

    /// Whether a new column begins before the item.
    fn after_a_break(&self, item: &Item) -> bool {
        (0..item.from)
            .rev()
            .take_while(|at| {
                self.line.role(*at) == Some(PhraseRole::Filler)
                    || is_beside(self.line.role(*at))
                    || self.line.mark(*at) == Some('\n')
            })
            .any(|at| self.line.is_mark(at, &['\n']))
    }

    /// Whether a break between name and description was overridden by a word behind it.
    fn splits(&self, item: &Item) -> bool {
        let before = item.by.0.checked_sub(1);
        before.is_some_and(|at| self.line.is_mark(at, &['\n', ':', '|']) || self.line.is_dash(at))
            && matches!(item.joint, Joint::With | Joint::Under | Joint::Side)
    }

    /// Whether the bracket before item `at` holds a list and ends what is eaten.
    fn is_bracketed_list(&self, at: usize) -> bool {
        let Some(open) = (0..self.items[at].from)
            .rev()
            .find(|at| self.line.is_mark(*at, &['(', '[']))
        else {
            return false;
        };
        let Some(close) = self.line.closes(open) else {
            return false;
        };
        let inside = self.items[at..]
            .iter()
            .filter(|item| item.to <= close)
            .count();
        inside >= 2
            && self.items[at..].iter().skip(inside).all(|item| {
                item.price.is_some()
                    || item.from > close && change(&self.text(item.from, item.to)).is_some()
            })
    }
}
