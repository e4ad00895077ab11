//! Words of a menu line that name a kind or a size and no food.

use crate::reading::{MenuLine, PartKind};
use crate::weighing::kinds::{KindHit, kind_of};
use crate::words::words_of;
use std::collections::HashSet;
use std::sync::LazyLock;

/// A child's serving beside a full one. USDA SR28 36015 and 36034: chicken fingers from the
/// children's menu weigh 114 g, those of the full menu 201 g.
pub(super) const CHILDRENS: f64 = 0.57;
/// Servings called small and large (common practice).
const SMALL: f64 = 0.7;
const LARGE: f64 = 1.35;

/// The kind that the head of a line says, else what the line lies on (`turkey and swiss on
/// rye` is a sandwich; then nothing of the head names the kind).
pub(super) fn head_kind(line: &MenuLine) -> Option<KindHit> {
    kind_of(&line.head).or_else(|| {
        let under = line.parts.iter().find(|p| p.what == PartKind::Under)?;
        let kind = kind_of(&format!("on {}", under.text))?.kind;
        Some(KindHit::unsaid(kind, &line.head))
    })
}

static FILLERS: LazyLock<HashSet<&'static str>> = LazyLock::new(|| {
    include_str!("../tables/filler_words.csv")
        .lines()
        .skip(1)
        .collect()
});

/// A dish's name without the words around it that say nothing of food.
pub(super) fn without_fillers(text: &str) -> String {
    let list: Vec<&str> = text.split_whitespace().collect();
    if list.iter().all(|w| FILLERS.contains(*w)) {
        return String::new();
    }
    let start = list.iter().position(|w| !FILLERS.contains(*w)).unwrap_or(0);
    let end = list
        .iter()
        .rposition(|w| !FILLERS.contains(*w))
        .map_or(list.len(), |at| at + 1);
    list[start..end].join(" ")
}

/// Whether words name the children's menu.
pub(super) fn is_for_children(text: &str) -> bool {
    // Few texts hold such a word: that is asked first.
    let begins = |at: usize| {
        let begins = |stem: &str| {
            let piece = text.as_bytes().get(at..at + stem.len());
            piece.is_some_and(|piece| piece.eq_ignore_ascii_case(stem.as_bytes()))
        };
        begins("kid") || begins("child") || begins("junior")
    };
    if !(0..text.len()).any(begins) {
        return false;
    }
    words_of(text).iter().any(|w| {
        matches!(
            w.as_str(),
            "kid" | "kids" | "child" | "childs" | "children" | "childrens" | "junior"
        )
    })
}

/// The line without the words that name the children's menu, unless they name a kind of dish.
pub(super) fn without_childrens_words(line: &MenuLine) -> Option<MenuLine> {
    let kind = head_kind(line).is_some_and(|hit| is_for_children(&hit.kind.name));
    if kind || !is_for_children(&line.head) {
        return None;
    }
    let plain = |text: &str| {
        let list: Vec<&str> = text
            .split_whitespace()
            .filter(|w| !is_for_children(w))
            .collect();
        list.join(" ")
    };
    Some(MenuLine {
        head: plain(&line.head),
        main: plain(&line.main),
        ..line.clone()
    })
}

/// What only says that something is a side.
const SIDES: [&str; 3] = ["side", "sides", "side dish"];

/// Whether a part only says which menu the dish is on, and names no food.
pub(super) fn only_menu_words(text: &str) -> bool {
    let said = text.trim().to_lowercase();
    SIDES.contains(&said.as_str())
        || is_for_children(text)
            && words_of(text).iter().all(|w| {
                is_for_children(w)
                    || matches!(w.as_str(), "from" | "the" | "menu" | "size" | "portion")
            })
}

/// What the line says of the size of a whole serving: a factor on its weight, and why.
pub(super) fn size_of_serving(line: &MenuLine) -> Option<(f64, String)> {
    if is_for_children(&line.text) {
        return Some((
            CHILDRENS,
            format!("a child's serving: x {CHILDRENS} (USDA SR28 36015 beside 36034)"),
        ));
    }
    let head = words_of(&line.head);
    let says = |list: &[&str]| head.first().is_some_and(|w| list.contains(&w.as_str()));
    let (factor, word) = if says(&["small", "petite", "lite"]) {
        (SMALL, "small")
    } else if says(&["large", "grande", "giant", "jumbo"]) {
        (LARGE, "large")
    } else {
        return None;
    };
    Some((
        factor,
        format!("a {word} serving: x {factor} (common practice)"),
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::parse_menu_line;

    #[test]
    fn sizes_of_servings() {
        let factor = |text: &str| size_of_serving(&parse_menu_line(text)).map(|(f, _)| f);
        assert_eq!(factor("chicken fingers, from kids' menu"), Some(CHILDRENS));
        assert_eq!(factor("kid's mac and cheese"), Some(CHILDRENS));
        assert_eq!(factor("large Greek salad"), Some(LARGE));
        assert_eq!(factor("Greek salad"), None);
        assert!(only_menu_words("from kid's menu"));
        assert!(!only_menu_words("kids fries"));
    }
}
