//! Labels: two columns beside the vessel, each label tied to its pile by a leader line.
//!
//! Columns lie outside the vessel, so labels cannot cover food; within a column labels take
//! the places nearest their piles that keep them apart, which has one best answer.

use super::geometry::Point;

/// Space between two labels, in drawing units.
const APART: f64 = 1.6;

/// Left or right of the vessel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Side {
    /// Left column.
    Left,
    /// Right column.
    Right,
}

/// A label to place: where its pile is and how tall the words are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Wish {
    /// The point pointed at, y down.
    pub pile: Point,
    /// Height of the label.
    pub height: f64,
}

/// Where a label goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Place {
    /// Its column.
    pub side: Side,
    /// Top edge, y down.
    pub top: f64,
}

/// Places labels; the result is in the order of the wishes. `edge` is how far from the middle
/// the leaders leave their labels, `room` the height a column has before labels move over to
/// the other side.
#[must_use]
pub(crate) fn place(wishes: &[Wish], edge: f64, room: f64) -> Vec<Place> {
    let (left, right) = columns(wishes, room);
    let mut places = vec![
        Place {
            side: Side::Left,
            top: 0.0
        };
        wishes.len()
    ];
    for (side, mut column) in [(Side::Left, left), (Side::Right, right)] {
        column.sort_by(|a, b| wishes[*a].pile.y.total_cmp(&wishes[*b].pile.y));
        let mut tops = spread(&column, wishes);
        let signed = if side == Side::Left { -edge } else { edge };
        // Leaders that cross are uncrossed by changing places; each change makes them
        // shorter together, so this ends; the bound is for rounding noise.
        for _ in 0..column.len() * column.len() {
            let Some(at) = crossing(&column, &tops, wishes, signed) else {
                break;
            };
            column.swap(at, at + 1);
            tops = spread(&column, wishes);
        }
        for (index, top) in column.iter().zip(tops) {
            places[*index] = Place { side, top };
        }
    }
    places
}

/// Shares labels between the columns: by the side their pile lies on, the most central moved
/// over while a column is taller than its room and moving makes the taller one shorter.
fn columns(wishes: &[Wish], room: f64) -> (Vec<usize>, Vec<usize>) {
    let mut order: Vec<usize> = (0..wishes.len()).collect();
    order.sort_by(|a, b| wishes[*a].pile.x.total_cmp(&wishes[*b].pile.x));
    let tall = |index: &usize| wishes[*index].height + APART;
    let mut split = order.iter().filter(|i| wishes[**i].pile.x < 0.0).count();
    loop {
        let left: f64 = order[..split].iter().map(tall).sum();
        let right: f64 = order[split..].iter().map(tall).sum();
        if split > 0 && left > room && left - tall(&order[split - 1]) >= right {
            split -= 1;
        } else if split < order.len() && right > room && right - tall(&order[split]) >= left + 1e-9
        {
            split += 1;
        } else {
            return (order[..split].to_vec(), order[split..].to_vec());
        }
    }
}

/// Tops of a column's labels in the given order: as near their piles as keeping apart allows
/// (pool adjacent violators on the centres, weights equal).
fn spread(column: &[usize], wishes: &[Wish]) -> Vec<f64> {
    // Blocks of touching labels: sum of wished tops of the first, count, labels.
    let mut blocks: Vec<(f64, f64, usize)> = Vec::new();
    let mut offset = 0.0;
    let mut offsets = Vec::with_capacity(column.len());
    for index in column {
        let wish = wishes[*index];
        offsets.push(offset);
        let shifted = wish.pile.y - wish.height / 2.0 - offset;
        offset += wish.height + APART;
        blocks.push((shifted, 1.0, 1));
        while let [.., before, last] = blocks[..] {
            if before.0 / before.1 <= last.0 / last.1 {
                break;
            }
            blocks.truncate(blocks.len() - 2);
            blocks.push((before.0 + last.0, before.1 + last.1, before.2 + last.2));
        }
    }
    let shifts = blocks
        .iter()
        .flat_map(|(sum, weight, count)| std::iter::repeat_n(sum / weight, *count));
    shifts
        .zip(offsets)
        .map(|(shift, offset)| shift + offset)
        .collect()
}

/// First pair of neighbours whose leaders cross.
fn crossing(column: &[usize], tops: &[f64], wishes: &[Wish], edge: f64) -> Option<usize> {
    let leader = |at: usize| {
        let wish = wishes[column[at]];
        (Point::new(edge, tops[at] + wish.height / 2.0), wish.pile)
    };
    (0..column.len().saturating_sub(1)).find(|at| crosses(leader(*at), leader(at + 1)))
}

fn crosses(one: (Point, Point), other: (Point, Point)) -> bool {
    let turn = |a: Point, b: Point, c: Point| (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
    let apart =
        |a: (Point, Point), b: (Point, Point)| turn(a.0, a.1, b.0) * turn(a.0, a.1, b.1) < 0.0;
    apart(one, other) && apart(other, one)
}

#[cfg(test)]
mod tests {
    use super::{APART, Side, Wish, place};
    use crate::pages::drawing::geometry::Point;
    use proptest::prelude::*;

    fn wish(x: f64, y: f64, height: f64) -> Wish {
        Wish {
            pile: Point::new(x, y),
            height,
        }
    }

    #[test]
    fn a_lone_label_is_level_with_its_pile() {
        let places = place(&[wish(5.0, 7.0, 4.0)], 40.0, 50.0);
        assert_eq!((places[0].side, places[0].top), (Side::Right, 5.0));
    }

    #[test]
    fn labels_all_on_one_side_are_shared_between_columns() {
        let wishes = [1.0, 2.0, 3.0, 4.0].map(|x| wish(x, x, 5.0));
        let sides: Vec<Side> = place(&wishes, 40.0, 10.0).iter().map(|p| p.side).collect();
        assert_eq!(sides, [Side::Left, Side::Left, Side::Right, Side::Right]);
    }

    proptest! {
        #[test]
        fn labels_of_a_column_keep_apart(
            wishes in prop::collection::vec((-30.0..30.0f64, -30.0..30.0f64, 3.0..20.0f64), 0..25)
        ) {
            let wishes: Vec<Wish> = wishes.into_iter().map(|(x, y, h)| wish(x, y, h)).collect();
            let places = place(&wishes, 40.0, 20.0);
            for (i, a) in places.iter().enumerate() {
                for (j, b) in places.iter().enumerate().skip(i + 1) {
                    if a.side == b.side {
                        let clear = a.top + wishes[i].height + APART <= b.top + 1e-6
                            || b.top + wishes[j].height + APART <= a.top + 1e-6;
                        prop_assert!(clear, "{i} and {j} touch");
                    }
                }
            }
        }
    }
}
