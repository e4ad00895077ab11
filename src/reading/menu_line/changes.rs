//! What a part of a menu line changes of the dish.

use super::line::{MenuPart, PartKind};

/// Takes `on the side` off; a dressing or sauce on the side is still the dish's own.
pub(super) fn without_side_words(text: &str) -> (String, bool) {
    for ending in [" on the side", " on side", " as a side", " side"] {
        if let Some(bare) = text.strip_suffix(ending) {
            return (bare.trim().to_owned(), true);
        }
    }
    (text.trim().to_owned(), false)
}

pub(super) fn without_article(text: &str) -> String {
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
const CHANGES: [(&str, PartKind); 24] = [
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
    ("double the ", PartKind::Doubled),
    ("double ", PartKind::Doubled),
    ("2x ", PartKind::Doubled),
    ("extra ", PartKind::Extra),
    ("additional ", PartKind::Extra),
    ("more ", PartKind::Extra),
    ("half the ", PartKind::Light),
    ("light on the ", PartKind::Light),
    ("easy on the ", PartKind::Light),
    ("light on ", PartKind::Light),
    ("easy on ", PartKind::Light),
    ("light ", PartKind::Light),
    ("easy ", PartKind::Light),
    ("less ", PartKind::Light),
];

/// Beginnings that look like a change and belong to a name.
const NAMES: [&str; 12] = [
    "extra virgin",
    "double chocolate",
    "double shot",
    "double stack",
    "light beer",
    "light lager",
    "double cream",
    "double fudge",
    "double cheese",
    "double dipped",
    "light cream",
    "double baked",
];

pub(super) fn change(text: &str) -> Option<MenuPart> {
    let lower = text.to_ascii_lowercase();
    for start in ["substitute ", "subbed ", "sub ", "swap in ", "swap "] {
        if lower.starts_with(start) {
            return Some(instead(text[start.len()..].trim()));
        }
    }
    if lower.contains(" instead of ") || lower.contains(" in place of ") {
        let start = ["wrapped in ", "with ", "served with ", "on ", "over "];
        let long = start
            .iter()
            .find(|s| lower.starts_with(**s))
            .map_or(0, |s| s.len());
        return Some(instead(&text[long..]));
    }
    // `made with egg whites`: in place of what it is made with else.
    if lower.starts_with("made with ") {
        let new = without_article(&text["made with ".len()..]);
        let old = new.split_whitespace().next().unwrap_or_default().to_owned();
        return (!new.is_empty()).then_some(MenuPart {
            text: new,
            what: PartKind::InsteadOf(Some(old)),
        });
    }
    if NAMES.iter().any(|name| lower.starts_with(name)) {
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
    let lower = text.to_ascii_lowercase();
    for middle in [" instead of ", " in place of ", " for "] {
        if let Some(at) = lower.find(middle) {
            let (new, old) = (&text[..at], &text[at + middle.len()..]);
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

/// `used a third`, `ate half`: the share of what was named before.
pub(super) fn share_used(text: &str) -> Option<f64> {
    let lower = text.to_ascii_lowercase();
    let rest = lower
        .strip_prefix("used ")
        .or_else(|| lower.strip_prefix("ate "))
        .or_else(|| lower.strip_prefix("use "))?;
    let rest = rest.trim_start_matches("about ").trim_end_matches(" of it");
    Some(match rest.trim() {
        "half" | "a half" | "1/2" => 0.5,
        "a third" | "one third" | "1/3" => 1.0 / 3.0,
        "two thirds" | "2/3" => 2.0 / 3.0,
        "a quarter" | "one quarter" | "1/4" | "a little" | "little" | "a bit" => 0.25,
        "three quarters" | "3/4" => 0.75,
        "all" => 1.0,
        "none" => 0.0,
        _ => return None,
    })
}
