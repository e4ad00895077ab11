//! Sharing out a surface that foods cover whole, as in a bowl: straight cuts, each food's cell
//! with exactly its part of the surface.

use super::geometry::{Convex, Point};
use super::sketch::pt;
use std::f64::consts::PI;

/// Directions tried for a cut, evenly over half a turn.
const DIRECTIONS: usize = 8;

/// Cells of an ellipse about the origin for these parts, in their order.
#[must_use]
pub(crate) fn cells(parts: &[f64], (rx, ry): (f64, f64)) -> Vec<Vec<Point>> {
    let mut order: Vec<usize> = (0..parts.len()).filter(|i| parts[*i] > 0.0).collect();
    order.sort_by(|a, b| parts[*b].total_cmp(&parts[*a]));
    let mut cells = vec![Vec::new(); parts.len()];
    // Cut in a disc, then pressed flat: areas keep their proportions.
    cut(&order, parts, &Convex::disc(1.0, 72), &mut cells);
    for point in cells.iter_mut().flatten() {
        *point = pt(point.x * rx, point.y * ry);
    }
    cells
}

fn cut(order: &[usize], parts: &[f64], region: &Convex, cells: &mut [Vec<Point>]) {
    match order {
        [] => {}
        [one] => cells[*one].clone_from(&rounded(region).corners),
        _ => {
            let total: f64 = order.iter().map(|i| parts[*i]).sum();
            let (at, share) = halfway(order, parts, total);
            let (first, second) = best(region, share);
            cut(&order[..at], parts, &first, cells);
            cut(&order[at..], parts, &second, cells);
        }
    }
}

/// Where to part a list so that both halves are as equal as can be.
fn halfway(order: &[usize], parts: &[f64], total: f64) -> (usize, f64) {
    let mut sum = 0.0;
    let shares = order[..order.len() - 1]
        .iter()
        .enumerate()
        .map(|(i, index)| {
            sum += parts[*index];
            (i + 1, sum / total)
        });
    shares
        .min_by(|a, b| (a.1 - 0.5).abs().total_cmp(&(b.1 - 0.5).abs()))
        .unwrap_or((1, 0.5))
}

fn best(region: &Convex, share: f64) -> (Convex, Convex) {
    let tried = (0..DIRECTIONS).map(|i| {
        let (sin, cos) = (PI * i as f64 / DIRECTIONS as f64).sin_cos();
        region.halve(Point::new(cos, sin), share)
    });
    let mut found: Option<(f64, (Convex, Convex))> = None;
    for pair in tried {
        let worse = pair.0.roundness().min(pair.1.roundness());
        if found.as_ref().is_none_or(|(best, _)| worse > best + 1e-9) {
            found = Some((worse, pair));
        }
    }
    found.map_or_else(|| (region.clone(), Convex::default()), |(_, pair)| pair)
}

/// Corners rounded a little, area kept nearly.
fn rounded(cell: &Convex) -> Convex {
    let reach = (cell.area() / PI).sqrt() * 0.22;
    let inner = cell.inset(reach);
    let swollen = if inner.corners.len() < 3 {
        cell.clone()
    } else {
        inner.swell(reach)
    };
    if swollen.area() < cell.area() * 0.5 {
        cell.clone()
    } else {
        swollen
    }
}

#[cfg(test)]
mod tests {
    use super::cells;

    #[test]
    fn cells_have_their_parts_of_the_surface() {
        let parts = [3.0, 1.0, 0.0, 2.0];
        let cells = cells(&parts, (10.0, 6.0));
        let area = |points: &[super::Point]| {
            let ends = points.iter().cycle().skip(1);
            let sum: f64 = points
                .iter()
                .zip(ends)
                .map(|(a, b)| a.x * b.y - b.x * a.y)
                .sum();
            sum.abs() / 2.0
        };
        let whole = std::f64::consts::PI * 60.0;
        for (part, cell) in parts.iter().zip(&cells) {
            // Rounded corners cost a few hundredths.
            assert!((area(cell) / whole - part / 6.0).abs() < 0.02, "{part}");
        }
    }
}
