//! What a part of a menu line does with the dish.

use super::joints::Joint;
use super::{MenuPart, PartKind};

pub(super) fn part(text: &str, joint: Joint) -> MenuPart {
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
        "with ",
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

pub(super) fn change(text: &str) -> Option<MenuPart> {
    let lower = text.to_ascii_lowercase();
    for start in ["substitute ", "subbed ", "sub ", "swap in ", "swap "] {
        if lower.starts_with(start) {
            return Some(instead(text[start.len()..].trim()));
        }
    }
    // An olive oil, not more of anything.
    if lower.starts_with("extra virgin") {
        return None;
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
