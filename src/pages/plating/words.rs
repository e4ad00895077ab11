//! Names and sizes as a reader wants them on a label.

use crate::quantity::number;
use crate::reading::UnitSystem;

/// Longest name on a label, letters.
const LONGEST_NAME: usize = 24;

/// A food's name for a label: qualifiers after a comma go, last first, until it is short.
#[must_use]
pub(crate) fn short_name(name: &str) -> String {
    let mut name = name.trim();
    while name.chars().count() > LONGEST_NAME {
        match name.rfind(',') {
            Some(at) if at > 0 => name = name[..at].trim_end(),
            _ => break,
        }
    }
    // These say nothing on a restaurant's plate.
    let plain = [
        ", cooked",
        ", raw",
        ", fresh",
        ", restaurant style",
        ", restaurant",
    ];
    let plain = plain.iter().find_map(|end| name.strip_suffix(end));
    plain.unwrap_or(name).to_owned()
}

/// Fractions as a printer sets them: `1 1/4 cups` becomes `1¼ cups`.
#[must_use]
pub(crate) fn fractions(text: &str) -> String {
    const SIGNS: [(&str, &str); 5] = [
        ("1/4", "¼"),
        ("1/2", "½"),
        ("3/4", "¾"),
        ("1/3", "⅓"),
        ("2/3", "⅔"),
    ];
    let mut words: Vec<String> = Vec::new();
    for word in text.split(' ') {
        let sign = SIGNS.iter().find(|(plain, _)| *plain == word);
        let whole = words
            .last_mut()
            .filter(|last| !last.is_empty() && last.bytes().all(|b| b.is_ascii_digit()));
        match (sign, whole) {
            (Some((_, sign)), Some(whole)) => whole.push_str(sign),
            (Some((_, sign)), None) => words.push((*sign).to_owned()),
            (None, _) => words.push(word.to_owned()),
        }
    }
    words.join(" ")
}

/// A household size as people with these units measure: pieces stay, cups, spoons and ounces
/// become grams where cups are not used.
#[must_use]
pub(super) fn own_units(size: &str, grams: f64, units: UnitSystem) -> String {
    const OF_CUPS: [&str; 6] = ["cup", "cups", "tbsp", "tsp", "oz", "fl"];
    let of_cups = size.split(' ').any(|word| OF_CUPS.contains(&word));
    match units {
        UnitSystem::Metric if of_cups => format!("{} g", number::grams(grams)),
        _ => size.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::{fractions, own_units, short_name};
    use crate::reading::UnitSystem;

    #[test]
    fn names_lose_qualifiers_only_when_long() {
        let shown = [
            "cod, fried",
            "french fries, restaurant style",
            "chickpeas, cooked from dried, no added fat",
            "beef, cooked",
            "Spanish rice, restaurant",
            "turkey sausage patties with sage and onion",
        ]
        .map(short_name);
        assert_eq!(
            shown,
            [
                "cod, fried",
                "french fries",
                "chickpeas",
                "beef",
                "Spanish rice",
                "turkey sausage patties with sage and onion"
            ]
        );
    }

    #[test]
    fn cups_and_ounces_become_grams_where_nobody_uses_them() {
        let metric = |size, grams| own_units(size, grams, UnitSystem::Metric);
        assert_eq!(metric("1¼ cups", 205.0), "205 g");
        assert_eq!(metric("2 slices", 60.0), "2 slices");
        assert_eq!(own_units("4 oz", 113.0, UnitSystem::Us), "4 oz");
    }

    #[test]
    fn fractions_are_set_as_one_sign() {
        let set = ["1 1/4 cups", "1/2 oz", "all", "about 2 1/2 slices", "11/4"].map(fractions);
        assert_eq!(set, ["1¼ cups", "½ oz", "all", "about 2½ slices", "11/4"]);
    }
}
