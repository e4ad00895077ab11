//! Sizes and lengths of pieces: `large`, `bite-size`, `6-inch`.

use super::loose::manner;
use super::number::{Number, Reader};
use super::tokens::Key;
use super::units::{Size, Unit, unit_word};
use crate::quantity::Range;

impl Reader<'_> {
    /// Words between the number and the unit: sizes, `heaping`, `imperial`.
    pub(super) fn qualifiers(&self, at: usize) -> (Option<Size>, Option<Range>, usize) {
        let mut size = None;
        let mut factor = None;
        let mut next = at;
        for _ in 0..3 {
            if let Some((found, after)) = self.size(next) {
                size = Some(found);
                next = after;
            } else if let Some(found) = self.word(next).and_then(manner) {
                factor = Some(found);
                next += 1;
            } else {
                break;
            }
        }
        (size, factor, next)
    }

    /// The size word at `at` and the position after it.
    pub(super) fn size(&self, at: usize) -> Option<(Size, usize)> {
        let (size, mut next) = self.size_word(at)?;
        let joint = next + usize::from(self.is_hyphen(next));
        if self.is_any(joint, &["size", "sized"]) {
            next = joint + 1;
        }
        // `medium rare`, `small curd`, `medium grain`: no size of a piece.
        if self.is_any(
            joint,
            &[
                "rare", "well", "done", "curd", "grain", "lima", "heat", "spicy", "hot", "dice",
                "roast", "crust",
            ],
        ) {
            return None;
        }
        // `large or thick slice`.
        if (self.is(next, "or") || self.is_mark(next, &['/']))
            && let Some((_, after)) = self.size_word(next + 1)
        {
            next = after;
        }
        Some((size, next))
    }

    pub(super) fn size_word(&self, at: usize) -> Option<(Size, usize)> {
        let key = Key::of(self.word(at)?)?;
        let next = at + 1;
        let joint = next + usize::from(self.is_hyphen(next));
        let sized = self.is_any(joint, &["size", "sized"]);
        Some(match key.as_str() {
            // Sizes that packets are sold in.
            "fun" | "snack" | "cocktail" | "sample" if sized => (Size::Mini, joint + 1),
            "junior" if sized => (Size::Small, joint + 1),
            "bun" | "sandwich" | "standard" | "normal" if sized => (Size::Medium, joint + 1),
            "king" | "family" if sized => (Size::Large, joint + 1),
            "mini" | "miniature" | "tiny" => (Size::Mini, next),
            "bite" if self.is_any(joint, &["size", "sized"]) => (Size::Mini, joint + 1),
            "small" | "sm" => (Size::Small, next),
            "medium" | "med" | "regular" => (Size::Medium, next),
            "large" | "lg" | "lrg" | "big" => (Size::Large, next),
            "jumbo" | "xl" => (Size::ExtraLarge, next),
            "extra" | "x" if self.is(joint, "large") => (Size::ExtraLarge, joint + 1),
            "very" if self.is(next, "thin") => self.slice_follows(next + 1, Size::Thin)?,
            "thin" => self.slice_follows(next, Size::Thin)?,
            "thick" => self.slice_follows(next, Size::Thick)?,
            _ => return None,
        })
    }

    pub(super) fn slice_follows(&self, at: usize, size: Size) -> Option<(Size, usize)> {
        self.is_any(at, &["slice", "slices"]).then_some((size, at))
    }

    /// The number as a length: `6-inch`. Inches, and the position after them.
    pub(super) fn length(&self, number: Number, at: usize) -> Option<(f64, usize)> {
        if number.article {
            return None;
        }
        let unit_at = at + usize::from(self.is_hyphen(at));
        let (each, next) = self.length_unit(unit_at)?;
        Some((number.range.likely * each, next))
    }

    /// `inch`, `"`, `in.`, `cm`: inches in one, and the position after it.
    pub(super) fn length_unit(&self, at: usize) -> Option<(f64, usize)> {
        let (each, mut next) = match self.mark(at) {
            Some('"' | '″' | '”' | '\u{2033}') if self.glued(at) => (1.0, at + 1),
            Some('\'' | '’') if self.glued(at) && self.is_mark(at + 1, &['\'', '’']) => {
                (1.0, at + 2)
            }
            _ => match self.word(at).and_then(unit_word) {
                Some(Unit::Length(each)) => {
                    let spaced_in = self.is(at, "in") && !self.glued(at);
                    let noun = self.amount_only
                        || self.word(at + 1).is_some()
                            && !self.is_article(at + 1)
                            && !self.is(at + 1, "the");
                    if spaced_in && !noun && !self.is_mark(at + 1, &['.']) {
                        return None;
                    }
                    (each, self.after_unit(at + 1))
                }
                _ => return None,
            },
        };
        if self.is_any(next, &["diameter", "dia", "diam", "across"]) {
            next = self.after_unit(next + 1);
        }
        Some((each, next))
    }

    /// Meats for which `medium` says how they are cooked.
    pub(super) fn cooks_to_medium(&self) -> bool {
        (0..self.tokens.len()).any(|at| {
            self.is_any(
                at,
                &[
                    "steak",
                    "steaks",
                    "ribeye",
                    "sirloin",
                    "filet",
                    "fillet",
                    "tenderloin",
                    "burger",
                    "lamb",
                    "beef",
                    "tuna",
                    "duck",
                    "strip",
                    "flank",
                    "rib",
                    "hamburger",
                    "cheeseburger",
                    "roast",
                    "salsa",
                    "brisket",
                ],
            )
        })
    }
}
