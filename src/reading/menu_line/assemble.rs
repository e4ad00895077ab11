//! The parts of a line put together: head, what comes with it, what is chosen, what is changed.

use super::super::phrase::{PhraseRole, Reading};
use super::changes::{change, share_used, without_article, without_side_words};
use super::choices::{Group, groups};
use super::items::{Item, cut, is_beside};
use super::joints::Joint;
use super::lexer::Lexed;
use super::marks::Printed;
use super::serving::{Section, ServingWords};
use super::{AddOn, Choice, MenuLine, MenuPart, PartKind};

/// Longest name, words; more is a sentence.
const LONGEST_NAME: usize = 10;
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
/// Headings that a line may carry before its dish.
const HEADINGS: [&str; 58] = [
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
/// Words that say how something is cooked, and name no food.
const COOKING: [&str; 47] = [
    "grilled",
    "fried",
    "deep-fried",
    "breaded",
    "battered",
    "baked",
    "roasted",
    "steamed",
    "sauteed",
    "saut\u{e9}ed",
    "blackened",
    "seared",
    "pan-seared",
    "broiled",
    "crispy",
    "smoked",
    "poached",
    "braised",
    "boiled",
    "toasted",
    "pan-fried",
    "charbroiled",
    "stir-fried",
    "scrambled",
    "or",
    "and",
    "rare",
    "medium",
    "medium-rare",
    "well",
    "well-done",
    "done",
    "dressed",
    "any",
    "style",
    "your",
    "way",
    "to",
    "over",
    "easy",
    "sunny",
    "side",
    "up",
    "hard",
    "soft",
    "cooked",
    "order",
];

struct Assembly<'t> {
    line: Lexed<'t>,
    items: Vec<Item>,
    out: MenuLine,
    /// Words before and behind the head's own: counts, sizes, ways of cooking.
    before: Vec<String>,
    head: String,
    /// The main dish with all that belongs to it.
    main: String,
    main_open: bool,
    priced: bool,
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
            serving,
            printed,
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
    /// `Sides: mashed potatoes`: the heading that stands before the dish.
    fn heading(&mut self) {
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
        let lower = self
            .line
            .slice(first.from, first.to)
            .to_lowercase()
            .replace('\u{2019}', "'");
        if HEADINGS.contains(&lower.as_str()) {
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
    fn doubled_first(&mut self) {
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
    fn described(&mut self) {
        let Some(first) = self.items.first() else {
            return;
        };
        let start = first.from;
        let strong = self.items.iter().enumerate().skip(1).find(|(_, item)| {
            item.joint == Joint::Described || item.bracketed || self.splits(item)
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
        if !tells && !(priced_first && self.items[at - 1].price.is_none()) {
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
            return self.of_the_head(item);
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

    fn is_sized(&self, item: Item) -> bool {
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
        if let Some(words) = self.cooked_instead(text) {
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
            self.main_open = false;
            self.claim_own(PhraseRole::Change, item);
            self.out.parts.push(part);
            return;
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
    fn cooked_instead(&self, text: &str) -> Option<String> {
        let (new, old) = text.split_once(" instead of ")?;
        (only_cooking(new) && only_cooking(old)).then(|| new.to_owned())
    }

    fn take_head(&mut self, item: Item) {
        let (mut from, mut to) = (item.from, item.to);
        let mut leading = true;
        let mut cursor = from;
        while cursor < to {
            if self.line.claimed(cursor) {
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
        while to > from && self.line.claimed(to - 1) {
            to -= 1;
        }
        self.claim_own(PhraseRole::Name, Item { from, to, ..item });
        self.head = tidy(&self.clean(from, to));
        self.main.clone_from(&self.head);
    }

    /// Sizes, counts and the like that belong to the dish itself.
    fn of_the_head(&mut self, item: Item) {
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
    fn of_the_head_at(&mut self, at: usize, end: usize, leading: bool) -> usize {
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
        let vessel = leading && self.line.is(next, "of");
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

    fn choice(&mut self, group: Group) {
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

    /// Without the words in front that say nothing, which are claimed as filler.
    fn without_front(&mut self, item: Item) -> Item {
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
    fn claim_own(&mut self, role: PhraseRole, item: Item) {
        self.line.claim_free(role, item.from, item.to);
    }

    /// The words of tokens without prices, tags and marks.
    fn text(&self, from: usize, to: usize) -> String {
        tidy(&self.clean(from, to))
    }

    fn clean(&self, from: usize, to: usize) -> String {
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
        line.serving.feeds = line.reading.all(PhraseRole::Yield).find_map(feeds);
        line
    }
}

/// `a la mode` and `in a bread bowl` in plain words: the bowl is eaten as well.
fn unfold(line: &mut MenuLine) {
    for (written, means) in [
        (" a la mode", "vanilla ice cream"),
        (" \u{e0} la mode", "vanilla ice cream"),
        (" in a bread bowl", "bread bowl"),
    ] {
        let lower = line.head.to_lowercase();
        if lower.len() == line.head.len() && lower.ends_with(written) {
            let bare = line.head.len() - written.len();
            let head = line.head[..bare].to_owned();
            line.main = line.main.replacen(&line.head, &head, 1);
            line.head = head;
            let part = MenuPart {
                text: means.to_owned(),
                what: PartKind::Named,
            };
            line.parts.insert(0, part);
        }
    }
}

/// People that `serves 4-6` or `for two` feeds: the middle.
fn feeds(text: &str) -> Option<f64> {
    let spelt = |word: &str| {
        ["one", "two", "three", "four", "five", "six"]
            .iter()
            .position(|w| *w == word)
            .map(|at| at as f64 + 1.0)
    };
    let list: Vec<f64> = text
        .split(|c: char| !c.is_alphanumeric())
        .filter_map(|word| word.parse().ok().or_else(|| spelt(&word.to_lowercase())))
        .collect();
    (!list.is_empty()).then(|| list.iter().sum::<f64>() / list.len() as f64)
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

pub(super) fn is_cooking(word: &str) -> bool {
    let joins = [
        "or", "and", "to", "any", "style", "your", "way", "side", "up", "order", "over", "well",
    ];
    COOKING.contains(&word) && !joins.contains(&word)
}

pub(super) fn only_cooking(text: &str) -> bool {
    let lower = text.to_lowercase();
    let mut any = false;
    lower.split_whitespace().all(|word| {
        any |= ![
            "or", "and", "to", "any", "style", "your", "way", "side", "up", "order",
        ]
        .contains(&word);
        COOKING.contains(&word)
    }) && (any || lower.starts_with("any style"))
}

/// One kind of space, one comma, none at the ends; `a la mode` and `in a bread bowl` in plain words.
fn tidy(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut pending = ' ';
    for part in text.split_whitespace() {
        let bare = part.trim_matches(',');
        if bare.is_empty() {
            pending = ',';
            continue;
        }
        if part.starts_with(',') {
            pending = ',';
        }
        if !out.is_empty() {
            if pending == ',' && !out.ends_with(',') {
                out.push(',');
            }
            out.push(' ');
        }
        out.push_str(bare);
        pending = if part.ends_with(',') { ',' } else { ' ' };
    }
    let ends: &[char] = &[
        ',', ' ', '.', ':', ';', '-', '\u{2013}', '\u{2014}', '|', '/', '+',
    ];
    out.trim_matches(ends).to_owned()
}
