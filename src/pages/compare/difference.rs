//! How sides differ, in words that a range allows.

use super::{Kind, Row, Side};
use crate::ledger::Verdict;
use crate::pages::differ::{differ, kept, of_a_day};
use crate::quantity::Range;

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
        (_, Some(fitted), _) => kept(amounts[0].likely, amounts[fitted].likely),
        ([only], None, Some(day)) => against_day(row, *only, amounts[day]),
        (several, None, _) => {
            let letters = several.iter().map(|at| sides[*at].letter.as_str());
            let of_each = letters.zip(several.iter().map(|at| amounts[*at]));
            differ(&of_each.collect::<Vec<_>>(), &row.unit)
        }
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

fn against_day(row: &Row, served: usize, day: Range) -> String {
    let cell = row.cells.get(served).and_then(Option::as_ref);
    let Some((cell, verdict)) = cell.and_then(|c| Some((c, c.verdict?))) else {
        let is_food = cell.is_some_and(|c| c.size.is_some());
        return if is_food { "" } else { "no day’s amount" }.to_owned();
    };
    of_a_day(
        verdict,
        cell.share.unwrap_or_default(),
        day.likely,
        &row.unit,
    )
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
    fn what_is_beyond_a_day_is_said_after_the_difference() {
        let two = |a, b| words(&[(Kind::Served, "A"), (Kind::Served, "B")], &[a, b]);
        assert_eq!(two(2.0, 5.0), "B 2.5 times as much");
        assert_eq!(two(24.0, 12.0), "A 2 times as much; A, B beyond a day");
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
