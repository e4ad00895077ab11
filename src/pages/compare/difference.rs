//! How sides differ, in words that a range allows.

use super::{Kind, Row, Side};
use crate::ledger::Verdict;
use crate::pages::handout::{part_words, times};
use crate::pages::number;
use crate::quantity::Range;

/// Amounts this close are told as the same.
const SAME_WITHIN: f64 = 1.1;

/// From this factor one side holds nearly all.
const NEARLY_ALL: f64 = 20.0;

/// The words for a row.
pub(super) fn difference(sides: &[Side], row: &Row) -> String {
    let amounts: Vec<Range> = row
        .cells
        .iter()
        .map(|c| c.as_ref().map_or(Range::exact(0.0), |c| c.amount))
        .collect();
    let of = |kind: Kind| sides.iter().position(|s| s.kind == kind);
    let served: Vec<usize> = (0..sides.len())
        .filter(|at| sides[*at].kind == Kind::Served)
        .collect();
    let words = match (&served[..], of(Kind::Fitted), of(Kind::Day)) {
        (_, Some(fitted), _) => kept(amounts[0], amounts[fitted]),
        ([only], None, Some(day)) => against_day(row, *only, amounts[day]),
        ([one, other], None, _) => pair(sides, amounts[*one], amounts[*other], *one, *other),
        (many, None, _) => among(sides, &amounts, many),
    };
    match beyond(sides, row) {
        Some(which) if of(Kind::Day).is_none() || served.len() > 1 => format!("{words}; {which}"),
        _ => words,
    }
}

/// Which sides go beyond a day.
fn beyond(sides: &[Side], row: &Row) -> Option<String> {
    let over = sides.iter().zip(&row.cells).filter(|(side, cell)| {
        let verdict = cell.as_ref().and_then(|c| c.verdict);
        side.kind != Kind::Day && verdict == Some(Verdict::Beyond)
    });
    let letters: Vec<&str> = over.map(|(side, _)| side.letter.as_str()).collect();
    (!letters.is_empty()).then(|| format!("{} beyond a day", letters.join(", ")))
}

/// How much of what is served is eaten.
fn kept(served: Range, fitted: Range) -> String {
    match fitted.likely / served.likely.max(1e-9) {
        _ if served.likely < 1e-9 => "none".to_owned(),
        p if p > 0.98 => "all of it".to_owned(),
        p if p < 0.005 => "none of it".to_owned(),
        p => format!("{} of it", part_words(p)),
    }
}

fn against_day(row: &Row, served: usize, day: Range) -> String {
    let cell = row.cells.get(served).and_then(Option::as_ref);
    let Some((cell, verdict)) = cell.and_then(|c| Some((c, c.verdict?))) else {
        let is_food = cell.is_some_and(|c| c.size.is_some());
        return if is_food { "" } else { "no day’s amount" }.to_owned();
    };
    let share = cell.share.unwrap_or_default();
    match verdict {
        Verdict::Beyond => format!("beyond it, {} times", times(share)),
        Verdict::More => format!("all of it, {} times", times(share)),
        Verdict::At | Verdict::Met => "all of it".to_owned(),
        Verdict::Within | Verdict::Short => {
            let left = number::amount(&row.unit, day.likely - cell.amount.likely);
            format!("leaves {left}")
        }
    }
}

/// Whether ranges leave no honest difference.
fn about_same(a: Range, b: Range) -> bool {
    let (less, more) = if a.likely < b.likely { (a, b) } else { (b, a) };
    let overlap = less.high >= more.likely && more.low <= less.likely;
    overlap || more.likely < less.likely * SAME_WITHIN
}

fn pair(sides: &[Side], a: Range, b: Range, one: usize, other: usize) -> String {
    let (less, more, larger) = if a.likely < b.likely {
        (a, b, other)
    } else {
        (b, a, one)
    };
    let letter = &sides[larger].letter;
    match () {
        () if more.likely < 1e-9 => "none in either".to_owned(),
        () if less.likely < 1e-9 => format!("only {letter}"),
        () if about_same(a, b) => "about the same".to_owned(),
        () if more.likely > less.likely * NEARLY_ALL => format!("nearly all {letter}"),
        () => format!(
            "{letter} {} times as much",
            times(more.likely / less.likely)
        ),
    }
}

fn among(sides: &[Side], amounts: &[Range], served: &[usize]) -> String {
    let has: Vec<usize> = served
        .iter()
        .copied()
        .filter(|at| amounts[*at].likely > 1e-9)
        .collect();
    let lacks: Vec<usize> = served
        .iter()
        .copied()
        .filter(|at| !has.contains(at))
        .collect();
    let letters = |these: &[usize]| {
        let names: Vec<&str> = these.iter().map(|at| sides[*at].letter.as_str()).collect();
        names.join(", ")
    };
    let by = |a: &&usize, b: &&usize| amounts[**a].likely.total_cmp(&amounts[**b].likely);
    let (Some(most), Some(least)) = (has.iter().max_by(by), has.iter().min_by(by)) else {
        return "none".to_owned();
    };
    let same = about_same(amounts[*most], amounts[*least]);
    match (has.len() == served.len(), same) {
        (true, true) => "about the same".to_owned(),
        (false, true) => format!("only {}", letters(&has)),
        (true, false) => format!("most {}, least {}", letters(&[*most]), letters(&[*least])),
        (false, false) => format!("most {}, none {}", letters(&[*most]), letters(&lacks)),
    }
}

#[cfg(test)]
mod tests {
    use super::difference;
    use crate::ledger::{Kind as Asks, verdict};
    use crate::pages::compare::{Cell, Kind, Row, Side};
    use crate::quantity::Range;

    fn side(kind: Kind, letter: &str) -> Side {
        Side {
            kind,
            letter: letter.to_owned(),
            title: String::new(),
            grams: None,
        }
    }

    /// A row of amounts that are 10 % sure either way, of a day of 10.
    fn row(amounts: &[f64]) -> Row {
        let cell = |amount: &f64| Cell {
            amount: Range::new(amount * 0.9, *amount, amount * 1.1),
            size: None,
            share: Some(amount / 10.0),
            verdict: Some(verdict(Asks::StayWithin, amount / 10.0)),
        };
        Row {
            name: "saturated fat".to_owned(),
            unit: "g".to_owned(),
            cells: amounts.iter().map(|a| Some(cell(a))).collect(),
            difference: String::new(),
        }
    }

    fn words(kinds: &[(Kind, &str)], amounts: &[f64]) -> String {
        let sides: Vec<Side> = kinds.iter().map(|(k, l)| side(*k, l)).collect();
        difference(&sides, &row(amounts))
    }

    #[test]
    fn two_dishes_differ_only_as_far_as_ranges_allow() {
        let two = |a, b| words(&[(Kind::Served, "A"), (Kind::Served, "B")], &[a, b]);
        assert_eq!(two(4.0, 4.3), "about the same");
        assert_eq!(two(2.0, 5.0), "B 2.5 times as much");
        assert_eq!(two(3.0, 0.0), "only A");
        assert_eq!(two(0.0, 0.0), "none in either");
        assert_eq!(two(9.0, 0.1), "nearly all A");
        assert_eq!(two(24.0, 12.0), "A 2 times as much; A, B beyond a day");
    }

    #[test]
    fn three_dishes_name_most_and_least() {
        let kinds = [
            (Kind::Served, "A"),
            (Kind::Served, "B"),
            (Kind::Served, "C"),
        ];
        assert_eq!(words(&kinds, &[2.0, 5.0, 3.0]), "most B, least A");
        assert_eq!(words(&kinds, &[2.0, 2.0, 2.0]), "about the same");
        assert_eq!(words(&kinds, &[0.0, 5.0, 3.0]), "most B, none A");
        assert_eq!(words(&kinds, &[0.0, 3.0, 3.0]), "only B, C");
        assert_eq!(words(&kinds, &[0.0, 0.0, 3.0]), "only C");
    }

    #[test]
    fn a_right_sized_plate_is_told_as_a_part_of_the_served_one() {
        let kinds = [(Kind::Served, "A"), (Kind::Fitted, "right-sized")];
        assert_eq!(words(&kinds, &[4.0, 2.0]), "about half of it");
        assert_eq!(words(&kinds, &[4.0, 4.0]), "all of it");
        assert_eq!(words(&kinds, &[4.0, 0.0]), "none of it");
    }

    #[test]
    fn a_day_is_told_by_what_is_left_of_it() {
        let kinds = [(Kind::Served, "A"), (Kind::Day, "a day")];
        assert_eq!(words(&kinds, &[4.0, 10.0]), "leaves 6");
        assert_eq!(words(&kinds, &[15.0, 10.0]), "beyond it, 1.5 times");
    }
}
