//! Words that say how something is cooked.

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

/// Whether a word says how something is cooked.
pub(super) fn is_cooking(word: &str) -> bool {
    let joins = [
        "or", "and", "to", "any", "style", "your", "way", "side", "up", "order", "over", "well",
    ];
    COOKING.contains(&word) && !joins.contains(&word)
}

/// Whether words say how something is cooked and name no food.
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
