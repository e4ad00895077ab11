//! Words for pieces and serving ware: `2 slices`, `1 can`, `6 wings`.

/// How a piece word relates to the food it counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Role {
    /// Only measures: `2 slices bread` is bread. Alone it names no food.
    Measure,
    /// Holds a stated quantity each: `2 cans (12 fl oz) cola`. Alone it names no food.
    Ware,
    /// Like `Measure` only where `of` follows: a `side salad` is not a side of salad.
    MeasureWithOf,
    /// Measures only where `of` follows: `drinks` are what is ordered.
    OnlyWithOf,
    /// Measures when it leads, but can be the food when alone: `3 cloves garlic`, `2 cloves`.
    Either,
    /// Part of the food's name: `6 chicken wings` stay wings.
    Part,
}

/// A piece word in the singular.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Piece {
    pub name: &'static str,
    pub role: Role,
    /// Written in the plural.
    pub plural: bool,
}

impl Piece {
    /// Whether the word is taken out of the food also when it comes last: `2 pizza slices`.
    pub(super) fn leaves_the_food(self) -> bool {
        matches!(
            self.name,
            "slice"
                | "piece"
                | "clove"
                | "sprig"
                | "can"
                | "bottle"
                | "half"
                | "portion"
                | "serving"
                | "scoop"
        )
    }
}

use Role::{Either, Measure, MeasureWithOf, OnlyWithOf, Part, Ware};

/// Sorted by name.
const PIECES: [(&str, Role); 105] = [
    ("bag", Ware),
    ("ball", Either),
    ("bar", Either),
    ("basket", Ware),
    ("bite", Either),
    ("blade", Either),
    ("block", Measure),
    ("bottle", Ware),
    ("bowl", Ware),
    ("box", Ware),
    ("breast", Part),
    ("brick", Measure),
    ("bulb", Either),
    ("bunch", Measure),
    ("cake", Part),
    ("can", Ware),
    ("carton", Ware),
    ("chip", Part),
    ("chop", Part),
    ("chunk", Measure),
    ("clove", Either),
    ("cluster", Measure),
    ("cob", Either),
    ("cone", Part),
    ("container", Ware),
    ("cracker", Part),
    ("crown", Either),
    ("cube", Measure),
    ("cutlet", Part),
    ("dish", MeasureWithOf),
    ("drink", OnlyWithOf),
    ("drop", MeasureWithOf),
    ("drumette", Part),
    ("drummette", Part),
    ("drumstick", Part),
    ("ear", Either),
    ("fillet", Part),
    ("finger", Part),
    ("floret", Either),
    ("floweret", Either),
    ("fry", Part),
    ("glass", Ware),
    ("half", Measure),
    ("head", Either),
    ("hunk", Measure),
    ("item", MeasureWithOf),
    ("jar", Ware),
    ("jigger", Ware),
    ("jug", Ware),
    ("kernel", Either),
    ("ladle", Ware),
    ("leaf", Part),
    ("leg", Part),
    ("link", Either),
    ("loaf", Either),
    ("mug", Ware),
    ("nugget", Part),
    ("order", MeasureWithOf),
    ("pack", Ware),
    ("package", Ware),
    ("packet", Ware),
    ("patty", Part),
    ("piece", Measure),
    ("pitcher", Ware),
    ("plate", Ware),
    ("platter", Ware),
    ("portion", Measure),
    ("pot", MeasureWithOf),
    ("pouch", Ware),
    ("quarter", Measure),
    ("rack", Either),
    ("ramekin", Ware),
    ("rasher", Either),
    ("rib", Part),
    ("ring", Part),
    ("roll", Part),
    ("round", MeasureWithOf),
    ("sachet", Ware),
    ("scoop", Measure),
    ("section", Measure),
    ("segment", Measure),
    ("serving", Measure),
    ("shank", Part),
    ("sheet", Measure),
    ("shot", Ware),
    ("side", MeasureWithOf),
    ("skewer", Either),
    ("slice", Measure),
    ("sliver", Measure),
    ("spear", Either),
    ("sprig", Either),
    ("square", Measure),
    ("stack", Measure),
    ("stalk", Either),
    ("steak", Part),
    ("stem", Either),
    ("stick", Either),
    ("strip", Either),
    ("tender", Part),
    ("thigh", Part),
    ("tin", Ware),
    ("tray", Ware),
    ("tub", Ware),
    ("tube", Ware),
    ("wedge", Either),
];

const ALSO: [(&str, &str, Role); 7] = [
    ("leaves", "leaf", Part),
    ("halves", "half", Measure),
    ("loaves", "loaf", Either),
    ("wing", "wing", Part),
    ("wings", "wing", Part),
    ("pc", "piece", Measure),
    ("pcs", "piece", Measure),
];

/// The piece that `word` names, in singular or plural.
pub(super) fn piece_word(word: &str) -> Option<Piece> {
    let key = super::tokens::Key::of(word)?;
    let key = key.as_str();
    if let Some((_, name, role)) = ALSO.iter().find(|(written, ..)| *written == key) {
        let plural = *name != key;
        return Some(Piece {
            name,
            role: *role,
            plural,
        });
    }
    find(key, false).or_else(|| {
        let stem = key.strip_suffix('s')?;
        find(stem, true)
            .or_else(|| stem.strip_suffix('e').and_then(|stem| find(stem, true)))
            .or_else(|| {
                let stem = stem.strip_suffix("ie")?;
                PIECES
                    .iter()
                    .find(|(name, _)| name.strip_suffix('y') == Some(stem))
                    .map(|&(name, role)| Piece {
                        name,
                        role,
                        plural: true,
                    })
            })
    })
}

fn find(name: &str, plural: bool) -> Option<Piece> {
    let at = PIECES
        .binary_search_by(|(entry, _)| (*entry).cmp(name))
        .ok()?;
    let (name, role) = PIECES[at];
    Some(Piece { name, role, plural })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_sorted() {
        assert!(PIECES.windows(2).all(|pair| pair[0].0 < pair[1].0));
    }

    #[test]
    fn plurals_find_their_singular() {
        for (word, name) in [
            ("slices", "slice"),
            ("patties", "patty"),
            ("Leaves", "leaf"),
            ("boxes", "box"),
            ("pouches", "pouch"),
            ("fries", "fry"),
            ("wings", "wing"),
            ("glasses", "glass"),
            ("glass", "glass"),
            ("halves", "half"),
        ] {
            assert_eq!(
                piece_word(word).map(|piece| piece.name),
                Some(name),
                "{word}"
            );
        }
        for word in ["eggs", "rice", "s", "", "peas", "beans"] {
            assert_eq!(piece_word(word), None, "{word}");
        }
    }
}
