//! How amounts of several dishes differ, in words that their ranges allow: one answer for text,
//! tables and pages.

use super::handout::{part_words, times};
use super::number;
use crate::ledger::Verdict;
use crate::quantity::Range;

/// What is less than this is none.
const NONE: f64 = 1e-9;

/// Factors below are told as the same: they would read `1 times as much`.
const SAME_WITHIN: f64 = 1.05;

/// From this factor one of two holds nearly all.
const NEARLY_ALL: f64 = 20.0;

/// Amounts of dishes, each with its letter; `unit` is that of the amounts.
#[must_use]
pub(super) fn differ(amounts: &[(&str, Range)], unit: &str) -> String {
    let some = |(_, amount): &&(&str, Range)| amount.likely > NONE;
    let mut has: Vec<(&str, Range)> = amounts.iter().filter(some).copied().collect();
    let lacks = amounts.iter().filter(|amount| !some(amount));
    has.sort_by(|a, b| b.1.likely.total_cmp(&a.1.likely));
    match (&has[..], amounts.len()) {
        ([], 2) => "none in either".to_owned(),
        ([], _) => "none in any".to_owned(),
        ([(letter, _)], _) => format!("only {letter}"),
        ([more, less], 2) => pair(more, less),
        ([most, .., least], _) => {
            let ranked = if about_same(most.1, least.1) {
                "about the same".to_owned()
            } else {
                ranked(&has, unit)
            };
            let letters: Vec<&str> = lacks.map(|(letter, _)| *letter).collect();
            match &letters[..] {
                [] => ranked,
                some => format!("{ranked}; none in {}", some.join(", ")),
            }
        }
    }
}

/// Ranges that hold each other's likely figure leave no honest difference.
fn about_same(a: Range, b: Range) -> bool {
    let (less, more) = if a.likely < b.likely { (a, b) } else { (b, a) };
    let overlap = less.high >= more.likely && more.low <= less.likely;
    overlap || more.likely < less.likely * SAME_WITHIN
}

fn pair(more: &(&str, Range), less: &(&str, Range)) -> String {
    let factor = more.1.likely / less.1.likely;
    match more.0 {
        _ if about_same(more.1, less.1) => "about the same".to_owned(),
        letter if factor > NEARLY_ALL => format!("nearly all {letter}"),
        letter => format!("{letter} {} times as much", times(factor)),
    }
}

/// From most to least: `D 8.2 ≈ C 8.0 > A 1.0`.
fn ranked(amounts: &[(&str, Range)], unit: &str) -> String {
    let mut words = String::new();
    for (at, (letter, amount)) in amounts.iter().enumerate() {
        let before = at.checked_sub(1).map(|before| amounts[before].1);
        words.push_str(match before {
            None => "",
            Some(before) if about_same(before, *amount) => " ≈ ",
            Some(_) => " > ",
        });
        words.push_str(letter);
        words.push(' ');
        words.push_str(&number::amount(unit, amount.likely));
    }
    words
}

/// How much of what is served is eaten.
#[must_use]
pub(super) fn kept(served: f64, eaten: f64) -> String {
    match eaten / served.max(NONE) {
        _ if served < NONE => "none".to_owned(),
        p if p > 0.98 => "all of it".to_owned(),
        p if p < 0.005 => "none of it".to_owned(),
        p => format!("{} of it", part_words(p)),
    }
}

/// What is left of a day's amount `day` in `unit`, or how far beyond it `share` lies.
#[must_use]
pub(super) fn of_a_day(verdict: Verdict, share: f64, day: f64, unit: &str) -> String {
    match verdict {
        Verdict::Beyond => format!("beyond it, {} times", times(share)),
        Verdict::More => format!("all of it, {} times", times(share)),
        Verdict::At | Verdict::Met => "all of it".to_owned(),
        Verdict::Within | Verdict::Short => {
            let left = number::amount(unit, day * (1.0 - share));
            format!("leaves {left}")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::differ;
    use crate::quantity::Range;

    /// Amounts that are 10 % sure either way.
    fn words(amounts: &[f64]) -> String {
        let range = |amount: &f64| Range::new(amount * 0.9, *amount, amount * 1.1);
        let letters = ["A", "B", "C", "D"].into_iter();
        let all: Vec<(&str, Range)> = letters.zip(amounts.iter().map(range)).collect();
        differ(&all, "oz-eq")
    }

    #[test]
    fn two_dishes_differ_only_as_far_as_ranges_allow() {
        assert_eq!(words(&[4.0, 4.3]), "about the same");
        assert_eq!(words(&[2.0, 5.0]), "B 2.5 times as much");
        assert_eq!(words(&[3.0, 0.0]), "only A");
        assert_eq!(words(&[0.0, 0.0]), "none in either");
        assert_eq!(words(&[9.0, 0.1]), "nearly all A");
        let sure = |amount| Range::exact(amount);
        assert_eq!(
            differ(&[("A", sure(4.0)), ("B", sure(4.5))], "g"),
            "B 1.1 times as much",
            "ranges apart, though close"
        );
    }

    #[test]
    fn several_dishes_are_ranked_with_their_amounts() {
        assert_eq!(words(&[2.0, 5.0, 3.0]), "B 5.0 > C 3.0 > A 2.0");
        assert_eq!(
            words(&[1.0, 2.0, 8.0, 8.2]),
            "D 8.2 ≈ C 8.0 > B 2.0 > A 1.0"
        );
        assert_eq!(words(&[2.0, 2.0, 2.0]), "about the same");
        assert_eq!(words(&[0.0, 5.0, 3.0]), "B 5.0 > C 3.0; none in A");
        assert_eq!(words(&[0.0, 3.0, 3.0]), "about the same; none in A");
        assert_eq!(words(&[0.0, 0.0, 3.0]), "only C");
        assert_eq!(words(&[0.0, 0.0, 0.0]), "none in any");
    }
}
