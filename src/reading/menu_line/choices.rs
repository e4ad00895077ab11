//! Choices within a line: what is one of several.

use super::counts::counting;
use super::items::Item;
use super::joints::Joint;
use super::lexer::Lexed;

/// Items that are options of one choice.
#[derive(Debug, Clone, Copy)]
pub(super) struct Group {
    /// First and last item.
    pub first: usize,
    pub last: usize,
    /// Token behind the words that announce the choice, in the first item.
    pub after_cue: usize,
    /// How many are eaten.
    pub eaten: u8,
    /// Whether the line says that it is a choice (`choice of`).
    pub cued: bool,
}

/// Words for what is chosen where the line names no options.
const GENERIC: [&str; 22] = [
    "side",
    "sides",
    "topping",
    "toppings",
    "dressing",
    "dressings",
    "filling",
    "fillings",
    "protein",
    "proteins",
    "meat",
    "meats",
    "sauce",
    "sauces",
    "bread",
    "cheese",
    "vegetable",
    "vegetables",
    "veggies",
    "flavor",
    "flavour",
    "salsa",
];

/// All choices of a line, in order; none shares an item with another.
pub(super) fn groups(line: &Lexed<'_>, items: &[Item]) -> Vec<Group> {
    let mut found: Vec<Group> = Vec::new();
    let mut at = 0;
    while at < items.len() {
        let free = found.last().map_or(0, |group| group.last + 1);
        let group = cued(line, items, at)
            .or_else(|| by_or(items, at, free))
            .or_else(|| some_sides(line, items, at));
        match group {
            Some(group) => {
                at = group.last + 1;
                found.push(group);
            }
            None => at += 1,
        }
    }
    found
}

/// The token behind `your choice of two`, and how many are chosen.
fn cue(line: &Lexed<'_>, item: Item) -> Option<(usize, u8)> {
    const CUES: [&str; 14] = [
        "your choice of",
        "choice of",
        "your choice",
        "choose from",
        "choose any",
        "choose one",
        "choose your",
        "choose",
        "pick any",
        "pick one",
        "pick your",
        "pick",
        "either",
        "with choice of",
    ];
    let mut next = line.longest(item.from, &CUES)?;
    let chosen = line.longest(item.from, &["choose", "pick"]).is_some();
    let mut eaten = 1;
    if let Some(count) = chosen.then(|| counted(line, next)).flatten() {
        eaten = count;
        next += 1;
    } else if let Some(count) = counted(line, next) {
        // `choice of two sides`: the number stays with what is chosen.
        eaten = count;
    }
    next = line
        .longest(next, &["from", "of", "of the following", "one of"])
        .unwrap_or(next);
    Some((next, eaten))
}

fn counted(line: &Lexed<'_>, at: usize) -> Option<u8> {
    let unclaimed = counting(line, at);
    let word = match line.word(at) {
        "one" | "any" => Some(1.0),
        "two" => Some(2.0),
        "three" => Some(3.0),
        "four" => Some(4.0),
        _ => line.number(at),
    };
    unclaimed.or(word).filter(|n| *n <= 9.0).map(|n| n as u8)
}

fn cued(line: &Lexed<'_>, items: &[Item], at: usize) -> Option<Group> {
    let item = *items.get(at)?;
    let (after_cue, eaten) = cue(line, item)?;
    let bare = (after_cue..item.to).all(|token| !line.is_word(token));
    let generic = is_generic(line, item);
    let mut last = at;
    if !generic
        || bare
        || items.get(at + 1).is_some_and(|next| {
            next.bracketed || next.joint == Joint::Described || next.joint == Joint::Or
        })
    {
        while let Some(next) = items.get(last + 1) {
            let first = last == at && (bare || generic);
            let goes_on = matches!(next.joint, Joint::List | Joint::Or | Joint::And)
                || (first && matches!(next.joint, Joint::Described | Joint::Break));
            if !goes_on || next.price.is_some() && next.plus {
                break;
            }
            last += 1;
            if next.joint == Joint::Or
                && items
                    .get(last + 1)
                    .is_none_or(|more| more.joint != Joint::Or)
            {
                break;
            }
        }
    }
    // Options joined by neither `or` nor a cue for several are one option and what follows it.
    let has_or = items[at..=last]
        .iter()
        .skip(1)
        .any(|item| item.joint == Joint::Or);
    if !has_or && !bare && eaten == 1 && last > at && !generic {
        let commas = items[at + 1..=last]
            .iter()
            .all(|item| item.joint == Joint::And);
        last = if commas { last } else { at };
    }
    Some(Group {
        first: at,
        last,
        after_cue,
        eaten: eaten.max(1),
        cued: true,
    })
}

fn is_generic(line: &Lexed<'_>, item: Item) -> bool {
    item.to > item.from && line.any(item.to - 1, &GENERIC)
}

/// `a or b`, `with a, b or c`.
fn by_or(items: &[Item], at: usize, free: usize) -> Option<Group> {
    let item = items.get(at)?;
    if item.joint != Joint::Or || at <= free && at == 0 {
        return None;
    }
    let mut first = at.checked_sub(1)?;
    let mut back = first;
    while back > free && items[back].joint == Joint::List && !items[back].bracketed {
        back -= 1;
    }
    let announced = back > 0
        && (matches!(
            items[back].joint,
            Joint::With | Joint::Under | Joint::Side | Joint::Described
        ) || items[back].bracketed);
    if announced && back >= free {
        first = back;
    } else if item.oxford && first > free && first > 1 {
        first -= 1;
    }
    if first < free {
        return None;
    }
    let mut last = at;
    while items
        .get(last + 1)
        .is_some_and(|next| next.joint == Joint::Or)
    {
        last += 1;
    }
    Some(Group {
        first,
        last,
        after_cue: items[first].from,
        eaten: 1,
        cued: false,
    })
}

/// `two sides`.
fn some_sides(line: &Lexed<'_>, items: &[Item], at: usize) -> Option<Group> {
    let item = *items.get(at)?;
    let eaten = counted(line, item.from)?;
    let sides = at > 0
        && item.to == item.from + 2
        && line.any(
            item.from + 1,
            &[
                "sides",
                "side",
                "toppings",
                "fillings",
                "vegetables",
                "veggies",
            ],
        );
    sides.then_some(Group {
        first: at,
        last: at,
        after_cue: item.from,
        eaten,
        cued: true,
    })
}
