//! A line of a menu taken apart: what is ordered, what comes on it and beside it, and what
//! the line adds or takes away.
//!
//! Only the text is looked at here; nothing is known of foods yet.

/// A line of a menu.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct MenuLine {
    /// The line as written, trimmed.
    pub text: String,
    /// Everything before the first side or change: `grilled chicken cobb with avocado`.
    pub main: String,
    /// What is ordered, before the first `with` or comma: `grilled chicken cobb`.
    pub head: String,
    /// The rest, in the order written.
    pub parts: Vec<MenuPart>,
}

/// Something that a menu line names beside its head.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MenuPart {
    /// The words, without the joining words around them.
    pub text: String,
    /// What the line does with it.
    pub what: PartKind,
}

/// What a menu line does with a part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PartKind {
    /// Named as part of the dish: `with avocado`.
    Named,
    /// What the dish lies on: `on rye`, `over rice`.
    Under,
    /// Comes beside it: `; garlic bread on the side`, `served with fries`.
    Side,
    /// Added to the usual dish: `add shrimp`.
    Added,
    /// Taken off the usual dish: `no croutons`.
    Removed,
    /// Twice the usual amount: `double meat`.
    Doubled,
    /// More than usual: `extra cheese`.
    Extra,
    /// Less than usual: `light mayo`.
    Light,
    /// In place of something else; of the usual side when nothing is named: `sub fries`.
    InsteadOf(Option<String>),
}

/// Joined words that are one food or dish, so that `and` does not part them.
const WHOLE: [&str; 27] = [
    "mac and cheese",
    "macaroni and cheese",
    "rice and beans",
    "beans and rice",
    "half and half",
    "salt and pepper",
    "oil and vinegar",
    "vinegar and oil",
    "biscuits and gravy",
    "fish and chips",
    "sweet and sour",
    "chips and salsa",
    "surf and turf",
    "spaghetti and meatballs",
    "bread and butter",
    "hot and sour",
    "pork and beans",
    "bangers and mash",
    "chicken and waffles",
    "shrimp and grits",
    "black and white",
    "peanut butter and jelly",
    "sour cream and onion",
    "cookies and cream",
    "salt and vinegar",
    "franks and beans",
    "gin and tonic",
];

/// Words that part the components of a dish.
const PARTING: [(&str, Joint); 21] = [
    (" served with ", Joint::Side),
    (" comes with ", Joint::Side),
    (" with a side of ", Joint::Side),
    (" and a side of ", Joint::Side),
    (" side of ", Joint::Side),
    (" alongside ", Joint::Side),
    (" topped with ", Joint::Named),
    (" finished with ", Joint::Named),
    (" tossed with ", Joint::Named),
    (" tossed in ", Joint::Named),
    (" drizzled with ", Joint::Named),
    (" smothered in ", Joint::Named),
    (" stuffed with ", Joint::Named),
    (" filled with ", Joint::Named),
    (" on a bed of ", Joint::Under),
    (" over ", Joint::Under),
    (" on ", Joint::Under),
    (" w/ ", Joint::Named),
    (" with ", Joint::Named),
    (" + ", Joint::Named),
    (", ", Joint::Named),
];

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Joint {
    Named,
    Under,
    Side,
}

/// Longest line taken apart, bytes; longer ones are one head.
const LONGEST: usize = 2_000;

/// Takes a menu line apart. Never fails: what cannot be parted is the head.
#[must_use]
pub fn parse_menu_line(text: &str) -> MenuLine {
    let text = tidy(text);
    let mut line = MenuLine {
        text: text.clone(),
        ..MenuLine::default()
    };
    if text.len() > LONGEST {
        line.main.clone_from(&text);
        line.head = text;
        return line;
    }
    for (at, chunk) in text.split([';', '|', '\u{2022}']).enumerate() {
        let chunk = chunk.trim();
        if chunk.is_empty() {
            continue;
        }
        let joint = if at == 0 { Joint::Named } else { Joint::Side };
        read_chunk(chunk, joint, &mut line);
    }
    line
}

/// One kind of space, no brackets, commas followed by a space.
fn tidy(text: &str) -> String {
    let spaced: String = text
        .chars()
        .map(|c| match c {
            '(' | ')' | '[' | ']' => ','.into(),
            c if c.is_whitespace() || c.is_control() => " ".to_owned(),
            ',' => ", ".to_owned(),
            other => other.to_string(),
        })
        .collect::<String>()
        .replace(',', ", ");
    let words: Vec<&str> = spaced.split_whitespace().filter(|w| *w != ",").collect();
    words.join(" ").trim_matches([',', ' ', '.']).to_owned()
}

fn read_chunk(chunk: &str, outer: Joint, line: &mut MenuLine) {
    let mut main_open = line.head.is_empty();
    for (joint, piece) in pieces(chunk) {
        let joint = if outer == Joint::Side {
            Joint::Side
        } else {
            joint
        };
        for text in parted_by_and(&piece) {
            if line.head.is_empty() && change(&text).is_none() {
                line.head.clone_from(&text);
                continue;
            }
            // `shrimp, breaded and fried`: how the head is cooked, not a thing beside it.
            if joint == Joint::Named && only_cooking(&text) && !line.head.is_empty() {
                line.head = format!("{text} {}", line.head);
                continue;
            }
            let part = part(&text, joint);
            main_open &= matches!(part.what, PartKind::Named | PartKind::Under);
            line.parts.push(part);
        }
        if main_open {
            line.main = main_until(chunk, &piece);
        }
    }
    if line.main.is_empty() {
        line.main.clone_from(&line.head);
    }
}

/// Words that say how something is cooked and name no food.
const COOKING: [&str; 24] = [
    "grilled",
    "fried",
    "deep-fried",
    "breaded",
    "battered",
    "baked",
    "roasted",
    "steamed",
    "sauteed",
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
];

fn only_cooking(text: &str) -> bool {
    let lower = text.to_lowercase();
    lower.split_whitespace().all(|word| COOKING.contains(&word))
}

/// The chunk up to the end of `piece`.
fn main_until(chunk: &str, piece: &str) -> String {
    chunk.find(piece).map_or_else(
        || chunk.to_owned(),
        |at| chunk[..at + piece.len()].to_owned(),
    )
}

/// The pieces of a chunk with what joins each to the one before.
fn pieces(chunk: &str) -> Vec<(Joint, String)> {
    let mut rest = chunk.to_owned();
    let mut joint = Joint::Named;
    let mut list = Vec::new();
    loop {
        let lower = rest.to_lowercase();
        // Lower case may change a letter's length outside ASCII; then nothing is parted.
        let next = if lower.len() == rest.len() {
            first_joint(&lower)
        } else {
            None
        };
        let Some((at, word, found)) = next else {
            list.push((joint, rest));
            return list
                .into_iter()
                .filter(|(_, p)| !p.trim().is_empty())
                .collect();
        };
        list.push((joint, rest[..at].trim().to_owned()));
        rest = String::from(rest[at + word.len()..].trim_start());
        // A list after `served with` stays beside the dish.
        joint = if word == ", " && joint == Joint::Side {
            Joint::Side
        } else {
            found
        };
    }
}

fn first_joint(lower: &str) -> Option<(usize, &'static str, Joint)> {
    PARTING
        .iter()
        .filter_map(|(word, joint)| {
            let at = lower
                .match_indices(word)
                .map(|(at, _)| at)
                .find(|at| !on_the_side(lower, *at))?;
            Some((at, *word, *joint))
        })
        .min_by_key(|(at, word, _)| (*at, std::cmp::Reverse(word.len())))
}

/// Whether the `on` found here begins `on the side` or `on top`, which part nothing.
fn on_the_side(lower: &str, at: usize) -> bool {
    [
        " on the side",
        " on side",
        " on top",
        " on the cob",
        " on the half shell",
        " over easy",
        " over medium",
        " over hard",
    ]
    .iter()
    .any(|phrase| lower[at..].starts_with(phrase))
}

/// Parts `a, b and c`, but not `mac and cheese`.
fn parted_by_and(piece: &str) -> Vec<String> {
    let lower = piece.to_lowercase().replace('&', "and");
    if !lower.contains(" and ") || WHOLE.iter().any(|w| lower.contains(w)) {
        let piece = piece.trim();
        let bare = piece.strip_prefix("and ").unwrap_or(piece);
        return vec![bare.trim().to_owned()];
    }
    piece
        .replace(" & ", " and ")
        .split(" and ")
        .map(|p| p.trim().trim_start_matches("and ").to_owned())
        .filter(|p| !p.is_empty())
        .collect()
}

fn part(text: &str, joint: Joint) -> MenuPart {
    let (bare, beside) = without_side_words(text);
    let named = match joint {
        Joint::Named if beside => PartKind::Side,
        Joint::Named => PartKind::Named,
        Joint::Under => PartKind::Under,
        Joint::Side => PartKind::Side,
    };
    match change(&bare) {
        Some(part) => part,
        None => MenuPart {
            text: without_article(&bare),
            what: named,
        },
    }
}

/// Takes `on the side` off; a dressing or sauce on the side is still the dish's own.
fn without_side_words(text: &str) -> (String, bool) {
    for ending in [" on the side", " on side", " as a side", " side"] {
        if let Some(bare) = text.strip_suffix(ending) {
            return (bare.trim().to_owned(), true);
        }
    }
    (text.trim().to_owned(), false)
}

fn without_article(text: &str) -> String {
    let mut bare = text.trim();
    for article in [
        "a ",
        "an ",
        "the ",
        "our ",
        "your choice of ",
        "choice of ",
        "and ",
        "some ",
        "house ",
    ] {
        if let Some((head, rest)) = bare.split_at_checked(article.len())
            && head.eq_ignore_ascii_case(article)
        {
            bare = rest.trim_start();
        }
    }
    bare.to_owned()
}

/// Words at the start of a part that change the usual dish.
const CHANGES: [(&str, PartKind); 19] = [
    ("add ", PartKind::Added),
    ("added ", PartKind::Added),
    ("plus ", PartKind::Added),
    ("no ", PartKind::Removed),
    ("without ", PartKind::Removed),
    ("w/o ", PartKind::Removed),
    ("hold the ", PartKind::Removed),
    ("hold ", PartKind::Removed),
    ("minus ", PartKind::Removed),
    ("skip the ", PartKind::Removed),
    ("double ", PartKind::Doubled),
    ("2x ", PartKind::Doubled),
    ("extra ", PartKind::Extra),
    ("more ", PartKind::Extra),
    ("light on the ", PartKind::Light),
    ("easy on the ", PartKind::Light),
    ("light ", PartKind::Light),
    ("easy ", PartKind::Light),
    ("less ", PartKind::Light),
];

fn change(text: &str) -> Option<MenuPart> {
    let lower = text.to_lowercase();
    if lower.len() != text.len() {
        return None;
    }
    for start in ["substitute ", "subbed ", "sub ", "swap in ", "swap "] {
        if lower.starts_with(start) {
            return Some(instead(text[start.len()..].trim()));
        }
    }
    let (word, kind) = CHANGES.iter().find(|(word, _)| lower.starts_with(word))?;
    let text = without_article(&text[word.len()..]);
    (!text.is_empty()).then(|| MenuPart {
        text,
        what: kind.clone(),
    })
}

/// `fries for the salad`, `fries instead of chips`, `fries`.
fn instead(text: &str) -> MenuPart {
    for middle in [" instead of ", " in place of ", " for "] {
        if let Some((new, old)) = text.split_once(middle) {
            return MenuPart {
                text: without_article(new),
                what: PartKind::InsteadOf(Some(without_article(old))),
            };
        }
    }
    MenuPart {
        text: without_article(text),
        what: PartKind::InsteadOf(None),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parts(text: &str) -> (String, Vec<(String, PartKind)>) {
        let line = parse_menu_line(text);
        (
            line.head,
            line.parts.into_iter().map(|p| (p.text, p.what)).collect(),
        )
    }

    fn of(text: &str, what: PartKind) -> (String, PartKind) {
        (text.to_owned(), what)
    }

    #[test]
    fn a_salad_with_a_side() {
        let text = "grilled chicken cobb with avocado, bacon, blue cheese and ranch; garlic bread on the side";
        let (head, list) = parts(text);
        assert_eq!(head, "grilled chicken cobb");
        assert_eq!(
            list,
            [
                of("avocado", PartKind::Named),
                of("bacon", PartKind::Named),
                of("blue cheese", PartKind::Named),
                of("ranch", PartKind::Named),
                of("garlic bread", PartKind::Side),
            ]
        );
        let main = parse_menu_line(text).main;
        assert_eq!(
            main,
            "grilled chicken cobb with avocado, bacon, blue cheese and ranch"
        );
    }

    #[test]
    fn changes() {
        let (head, list) =
            parts("Caesar salad, add shrimp, no croutons, double meat, light dressing, sub fries");
        assert_eq!(head, "Caesar salad");
        assert_eq!(
            list,
            [
                of("shrimp", PartKind::Added),
                of("croutons", PartKind::Removed),
                of("meat", PartKind::Doubled),
                of("dressing", PartKind::Light),
                of("fries", PartKind::InsteadOf(None)),
            ]
        );
        let (_, list) = parts("burger; sub side salad for fries");
        assert_eq!(
            list,
            [of(
                "side salad",
                PartKind::InsteadOf(Some("fries".to_owned()))
            )]
        );
    }

    #[test]
    fn compounds_stay_whole_and_lists_part() {
        assert_eq!(parts("mac and cheese").0, "mac and cheese");
        let (head, list) = parts("turkey and swiss on rye with chips");
        assert_eq!(head, "turkey");
        assert_eq!(
            list,
            [
                of("swiss", PartKind::Named),
                of("rye", PartKind::Under),
                of("chips", PartKind::Named)
            ]
        );
        let (head, list) = parts("Pan-seared salmon served with rice pilaf, green beans");
        assert_eq!(head, "Pan-seared salmon");
        assert_eq!(
            list,
            [
                of("rice pilaf", PartKind::Side),
                of("green beans", PartKind::Side)
            ]
        );
    }

    #[test]
    fn cooking_words_belong_to_the_head() {
        assert_eq!(parts("shrimp, breaded and fried").0, "fried breaded shrimp");
        assert_eq!(
            parts("Fish fillet, battered or breaded").0,
            "battered or breaded Fish fillet"
        );
    }

    #[test]
    fn eggs_over_easy_stay_eggs() {
        let (head, list) = parts("two eggs over easy, bacon, toast");
        assert_eq!(head, "two eggs over easy");
        assert_eq!(list.len(), 2);
    }

    #[test]
    fn nothing_breaks_it() {
        for text in [
            "",
            ";;;",
            ", ,",
            "with",
            "no",
            "sub ",
            "İstanbul kebab with rice",
            "add shrimp",
            "\u{202e}x",
        ] {
            let line = parse_menu_line(text);
            assert!(line.head.len() <= line.text.len());
        }
        assert_eq!(parse_menu_line(&"a, ".repeat(5000)).parts.len(), 0);
    }
}
