//! What joins the parts of a menu line, and what looks like a joint but is none.

use super::lexer::Lexed;
use crate::reading::phrase::PhraseRole;

/// How a part hangs on what stands before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Joint {
    /// A comma or another mark of a list.
    List,
    /// `with`, `topped with`: the dish's own.
    With,
    /// `on`, `over`: what it lies on.
    Under,
    /// `served with`, `;`, `side of`: beside it.
    Side,
    /// `and`.
    And,
    /// A dash, a colon, a column: from here on the name is described.
    Described,
    /// `or`.
    Or,
    /// `+`.
    Plus,
    /// A word that begins a change or an add-on, which stays with the part.
    Cue,
    /// A price, or a bracket that closes.
    Break,
}

/// Joined words that are one food or dish, so that `and` does not part them.
const WHOLE: [(&str, &str); 63] = [
    ("mac", "cheese"),
    ("macaroni", "cheese"),
    ("rice", "beans"),
    ("beans", "rice"),
    ("half", "half"),
    ("salt", "pepper"),
    ("oil", "vinegar"),
    ("vinegar", "oil"),
    ("biscuits", "gravy"),
    ("biscuit", "gravy"),
    ("fish", "chips"),
    ("sweet", "sour"),
    ("chips", "salsa"),
    ("chips", "guacamole"),
    ("guacamole", "chips"),
    ("sausage", "mash"),
    ("sausages", "mash"),
    ("steak", "chips"),
    ("steak", "fries"),
    ("bread", "butter pudding"),
    ("surf", "turf"),
    ("spaghetti", "meatballs"),
    ("hot", "sour"),
    ("pork", "beans"),
    ("bangers", "mash"),
    ("black", "white"),
    ("peanut butter", "jelly"),
    ("sour cream", "onion"),
    ("cookies", "cream"),
    ("salt", "vinegar"),
    ("franks", "beans"),
    ("gin", "tonic"),
    ("rice", "peas"),
    ("ackee", "saltfish"),
    ("rum", "cola"),
    ("steak", "ale"),
    ("steak", "kidney"),
    ("chicken", "mushroom pie"),
    ("strawberries", "cream"),
    ("aglio", "olio"),
    ("cacio", "pepe"),
    ("arroz", "pollo"),
    ("pan", "tomate"),
    ("chili", "carne"),
    ("chilli", "carne"),
    ("chile", "carne"),
    ("huevos", "chorizo"),
    ("jamon", "queso"),
    ("moros", "cristianos"),
    ("macaroni", "beef"),
    ("red beans", "rice"),
    ("beer", "cheese"),
    ("cream", "sugar"),
    ("spinach", "artichoke"),
    ("dal", "rice"),
    ("pasta", "fagioli"),
    ("lemon", "herb"),
    ("honey", "mustard"),
    ("salt", "chilli"),
    ("salt", "chili"),
    ("bubble", "squeak"),
    ("toad", "hole"),
    ("mince", "tatties"),
];

/// Whether the joint word at `at` stands within a name of [`WHOLE`].
pub(super) fn is_within_whole(line: &Lexed<'_>, at: usize) -> bool {
    let plain = |at: usize| line.word(at).trim_end_matches("\u{301}");
    WHOLE.iter().any(|(left, right)| {
        let long = left.split(' ').count();
        at >= long
            && left
                .split(' ')
                .enumerate()
                .all(|(place, word)| plain(at - long + place) == word)
            && right
                .split(' ')
                .enumerate()
                .all(|(place, word)| plain(at + 1 + place) == word)
    })
}

/// A joint at `at` and the token behind it; `open` says that a part has begun.
pub(super) fn joint(line: &Lexed<'_>, at: usize, open: bool) -> Option<(Joint, usize)> {
    if let Some(mark) = line.mark(at) {
        return mark_joint(line, at, mark);
    }
    if !line.is_word(at) {
        return None;
    }
    verb_joint(line, at)
        .or_else(|| word_joint(line, at, open))
        .or_else(|| foreign_joint(line, at, open))
        .or_else(|| (open && cue(line, at)).then_some((Joint::Cue, at)))
}

fn mark_joint(line: &Lexed<'_>, at: usize, mark: char) -> Option<(Joint, usize)> {
    let next = at + 1;
    Some(match mark {
        ',' | '\u{2022}' | '\u{b7}' | '\u{25aa}' | '\u{3001}' | '(' | '[' | '{' => {
            (Joint::List, next)
        }
        ';' => (Joint::Side, next),
        '|' | '\n' | ':' => (Joint::Described, next),
        ')' | ']' | '}' => (Joint::Break, next),
        '&' => return (!is_within_whole(line, at)).then_some((Joint::And, next)),
        '+' => (Joint::Plus, next),
        '-' | '\u{2013}' | '\u{2014}' if line.is_dash(at) => (Joint::Described, next),
        '/' if !line.glued(at) && !line.glued(next) => (Joint::List, next),
        '.' | '\u{2026}' if !line.glued(next) || line.is_mark(next, &['.']) => {
            // `St. Louis`, `6 oz. filet`: an abbreviation.
            let short = at > 0
                && line.glued(at)
                && line.word(at - 1).len() <= 3
                && line.is_word(at - 1)
                && next < line.len();
            return (!short).then_some((Joint::Described, next));
        }
        _ => return None,
    })
}

/// Words after which `with`, `in`, `on` and the like join.
const VERBS: [&str; 25] = [
    "topped",
    "finished",
    "tossed",
    "drizzled",
    "smothered",
    "covered",
    "stuffed",
    "filled",
    "layered",
    "loaded",
    "garnished",
    "accompanied",
    "dressed",
    "coated",
    "glazed",
    "served",
    "comes",
    "come",
    "paired",
    "packed",
    "sprinkled",
    "crowned",
    "rolled",
    "brushed",
    "piled",
];

/// `topped with`, `served over`, `comes with`.
fn verb_joint(line: &Lexed<'_>, at: usize) -> Option<(Joint, usize)> {
    if !VERBS.contains(&line.word(at)) || line.claimed(at) {
        return None;
    }
    let beside = line.any(at, &["served", "comes", "come", "accompanied", "paired"]);
    let next = at + 1;
    let joint = match line.word(next) {
        "with" | "by" | "alongside" => {
            if beside {
                Joint::Side
            } else {
                Joint::With
            }
        }
        "in" if !beside => Joint::With,
        "on" | "over" | "atop" | "high" => Joint::Under,
        _ => return None,
    };
    let mut next = next + 1;
    if line.is(next - 1, "high") && line.is(next, "with") {
        next += 1;
    }
    Some((
        joint,
        line.longest(next, &["a side of", "sides of", "a bed of", "either"])
            .unwrap_or(next),
    ))
}

fn word_joint(line: &Lexed<'_>, at: usize, open: bool) -> Option<(Joint, usize)> {
    let next = at + 1;
    match line.word(at) {
        "with" => {
            if let Some(next) = line.longest(
                next,
                &["a side of", "side of", "sides of", "a choice of side"],
            ) {
                return Some((Joint::Side, next));
            }
            Some((Joint::With, line.longest(next, &["either"]).unwrap_or(next)))
        }
        "w" if line.is_mark(next, &['/'])
            && line.glued(next)
            && !(line.is(next + 1, "o") && line.glued(next + 1)) =>
        {
            Some((Joint::With, next + 1))
        }
        "and"
            if at > 0
                && super::cooking::is_cooking(line.word(at - 1))
                && super::cooking::is_cooking(line.word(at + 1)) =>
        {
            None
        }
        "and" | "plus" if !is_within_whole(line, at) => {
            if let Some(next) = line.longest(next, &["a side of", "side of"]) {
                return Some((Joint::Side, next));
            }
            (at > 0).then_some((Joint::And, next))
        }
        "alongside" => Some((Joint::Side, next)),
        "side" if open && line.is(next, "of") => Some((Joint::Side, next + 1)),
        "or" if !only_between(line, at) => Some((Joint::Or, next)),
        "over" | "atop"
            if at > 0
                && !line.any(
                    next,
                    &["easy", "medium", "hard", "light", "well", "stuffed"],
                ) =>
        {
            Some((
                Joint::Under,
                line.longest(next, &["a bed of", "a"]).unwrap_or(next),
            ))
        }
        "on" if at > 0 && !is_no_base(line, next) => Some((
            Joint::Under,
            line.longest(next, &["a bed of", "a toasted", "toasted", "grilled", "a"])
                .unwrap_or(next),
        )),
        _ => None,
    }
}

/// `6 or 12`: between figures or sizes, which are read already.
fn only_between(line: &Lexed<'_>, at: usize) -> bool {
    at == 0
        || (line.claimed(at - 1)
            && line.claimed(at + 1)
            && matches!(
                line.role(at + 1),
                Some(PhraseRole::Size | PhraseRole::Count | PhraseRole::Price | PhraseRole::Part)
            ))
}

/// `on the side`, `on top`, `on the half shell`: nothing lies under the dish.
fn is_no_base(line: &Lexed<'_>, at: usize) -> bool {
    let the = at + usize::from(line.any(at, &["the", "a"]));
    line.any(
        the,
        &[
            "side", "top", "cob", "half", "rocks", "stick", "draft", "draught", "tap", "bone",
            "vine", "fire", "go", "request",
        ],
    )
}

/// `mit`, `con`, `avec`: joints of other tongues.
fn foreign_joint(line: &Lexed<'_>, at: usize, open: bool) -> Option<(Joint, usize)> {
    if (!open && at == 0)
        || at + 1 >= line.len()
        || line.claimed(at + 1) && line.role(at + 1) == Some(PhraseRole::Price)
    {
        return None;
    }
    let joint = match line.word(at) {
        "mit" | "avec" | "aux" | "con" | "med" | "met" | "com" | "z" | "cu" | "ile" => Joint::With,
        "und" | "et" | "y" | "e" | "och" | "og" | "i" | "oder" | "ve" | "ou"
            if line.word(at + 1).len() > 1 =>
        {
            if line.any(at, &["oder", "ou"]) {
                Joint::Or
            } else {
                Joint::And
            }
        }
        _ => return None,
    };
    (!is_within_whole(line, at)).then_some((joint, at + 1))
}

/// Whether a change or an add-on begins here, in the middle of a part.
fn cue(line: &Lexed<'_>, at: usize) -> bool {
    let next = at + 1;
    match line.word(at) {
        "without" | "minus" => true,
        "w" => line.is_mark(next, &['/']) && line.is(at + 2, "o"),
        "no" if line.is(next, "sugar") || line.is(next, "bake") || line.is(next, "fat") => false,
        "no" => line.is_word(next) && !line.is_mark(at.wrapping_sub(1), &['-']),
        "extra" => {
            line.is_word(next)
                && !line.any(
                    next,
                    &[
                        "virgin", "large", "sharp", "crispy", "firm", "lean", "spicy", "hot",
                        "dry", "long", "value",
                    ],
                )
        }
        "hold" | "add" | "substitute" | "upgrade" | "additional" => line.is_word(next),
        "easy" | "light" => line.is(next, "on"),
        "make" => line.is(next, "it"),
        "made" | "wrapped" => line.any(next, &["with", "in"]),
        "choice" | "choose" | "pick" => line.any(
            next,
            &["of", "two", "one", "from", "any", "three", "your", "a"],
        ),
        "your" => line.is(next, "choice"),
        _ => false,
    }
}
