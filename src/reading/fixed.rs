//! Expressions with a number that is part of a name, not an amount.

use super::number::Reader;
use super::tokens::Kind;

/// After a number, these never are pieces: `7 grain bread`, `five spice`, `thousand island`,
/// `100 calorie pack`, `12 hour brisket`, `3 way chili`.
const NAMED_BY_NUMBER: [&str; 17] = [
    "grain", "grains", "spice", "alarm", "way", "up", "layer", "layers", "island", "calorie",
    "calories", "kcal", "hour", "day", "month", "minute", "flour",
];

/// After a number, these are the name where the dish is one: `four cheese pizza`, `three bean
/// salad`, `3 egg omelette`; but `4 cheese enchiladas` are four.
const NAMED_WHEN_SINGULAR: [&str; 10] = [
    "cheese", "bean", "meat", "pepper", "berry", "nut", "fruit", "mushroom", "onion", "egg",
];

/// After `half`: `half-caf`, `half sour pickle`, `oysters on the half shell`.
const HALF_NAMED: [&str; 7] = ["caf", "fat", "baked", "sour", "moon", "sweet", "shell"];

impl Reader<'_> {
    /// How many tokens from `at` belong to a fixed expression; 0 if none does.
    pub(super) fn fixed(&self, at: usize) -> usize {
        let number = self.bare_number(at);
        if number.is_none() {
            return self.fixed_words(at);
        }
        let sign = self
            .percent(at)
            .max(self.lean_ratio(at))
            .max(self.halves(at))
            .max(self.price(at));
        if sign > 0 {
            return sign;
        }
        let joint = at + 1 + usize::from(self.is_hyphen(at + 1));
        // `00 flour` is a flour, `1 flour tortilla` is one tortilla.
        let of_flour = self.is(joint, "flour") && self.word(joint + 1).is_some();
        if self.is_any(joint, &NAMED_BY_NUMBER) && !self.is(joint + 1, "of") && !of_flour {
            return joint + 1 - at;
        }
        let several = number.is_some_and(|number| number >= 2.0);
        if several && self.is_any(joint, &NAMED_WHEN_SINGULAR) && self.names_one_dish(joint + 1) {
            return joint + 1 - at;
        }
        0
    }

    fn bare_number(&self, at: usize) -> Option<f64> {
        match self.kind(at)? {
            Kind::Number(value) | Kind::Vulgar(value) => Some(value),
            Kind::Word if !self.is_article(at) && self.part_word(at).is_none() => {
                if self.is(at, "thousand") {
                    return Some(1000.0);
                }
                if self.is(at, "dozen") {
                    return None;
                }
                super::number::number_word(self.word(at)?)
            }
            _ => None,
        }
    }

    /// `85%`, `2 percent`, `80-85%`.
    fn percent(&self, at: usize) -> usize {
        let sign = |at: usize| {
            if self.is_mark(at, &['%', '‰']) || self.is(at, "percent") || self.is(at, "pct") {
                1
            } else {
                2 * usize::from(self.is(at, "per") && self.is(at + 1, "cent"))
            }
        };
        let plain = sign(at + 1);
        if plain > 0 {
            return 1 + plain;
        }
        if (self.is_dash(at + 1) || self.is(at + 1, "to")) && self.is_number(at + 2) {
            let ranged = sign(at + 3);
            return if ranged > 0 { 3 + ranged } else { 0 };
        }
        0
    }

    /// `80/20` ground beef: lean and fat make a hundred.
    fn lean_ratio(&self, at: usize) -> usize {
        match (self.kind(at), self.mark(at + 1), self.kind(at + 2)) {
            (Some(Kind::Number(lean)), Some('/'), Some(Kind::Number(fat)))
                if (lean + fat - 100.0).abs() < 1e-9 && lean.min(fat) >= 1.0 =>
            {
                3
            }
            _ => 0,
        }
    }

    /// `1/2 & 1/2`: a cream.
    fn halves(&self, at: usize) -> usize {
        let half = |at: usize| {
            let shown = self.slice(at, at + 3);
            if matches!(self.kind(at), Some(Kind::Vulgar(value)) if value == 0.5) {
                1
            } else {
                3 * usize::from(shown == "1/2")
            }
        };
        let first = half(at);
        let and = at + first;
        if first == 0 || !(self.is(and, "and") || self.is_mark(and, &['&'])) {
            return 0;
        }
        let second = half(and + 1);
        if second > 0 && !self.measures_follow(and + 1 + second) {
            first + 1 + second
        } else {
            0
        }
    }

    /// `$5`, `5 €`, `#10`: prices and sizes of tins.
    fn price(&self, at: usize) -> usize {
        let signs = ['$', '€', '£', '¥', '₹'];
        let before = at > 0 && (self.is_mark(at - 1, &signs) || self.is_mark(at - 1, &['#']));
        usize::from(self.is_number(at) && (before || self.is_mark(at + 1, &signs)))
    }

    fn fixed_words(&self, at: usize) -> usize {
        if self.is_article(at) && self.is(at + 1, "la") || self.is(at, "à") {
            return 2;
        }
        if self.is(at, "half") {
            return self.half_named(at);
        }
        // A fried chicken of southern India.
        let chicken = self.is(at, "chicken") && self.kind(at + 1) == Some(Kind::Number(65.0));
        2 * usize::from(chicken && !self.measures_follow(at + 2))
    }

    /// `half and half`, `half-and-half`, `half & half`, `half-caf`.
    fn half_named(&self, at: usize) -> usize {
        let joint = |at: usize| at + usize::from(self.is_hyphen(at));
        let and = joint(at + 1);
        if self.is_any(and, &["and", "n"]) || self.is_mark(and, &['&']) {
            let second = joint(and + 1);
            if self.is(second, "half") {
                return second + 1 - at;
            }
        }
        if self.is_any(and, &HALF_NAMED) {
            and + 1 - at
        } else {
            0
        }
    }

    fn measures_follow(&self, at: usize) -> bool {
        self.word(at)
            .is_some_and(|word| super::units::unit_word(word).is_some())
    }

    /// Whether another word follows at `at` and the last word before a comma, a bracket or
    /// `with` is no plural.
    fn names_one_dish(&self, at: usize) -> bool {
        let mut last = None;
        let mut position = at;
        while let Some(word) = self.word(position) {
            if self.is_any(position, &["with", "and", "in", "on", "w"]) {
                break;
            }
            last = Some(word);
            position += 1;
        }
        let hyphen = at >= 2 && self.is_hyphen(at - 2);
        last.is_some_and(|word| hyphen || !word.ends_with('s') || word.ends_with("ss"))
    }
}
