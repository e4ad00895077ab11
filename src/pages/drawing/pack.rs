//! Places for things on a plate or a bed: pushed apart until they lie clear, near the middle.

use super::geometry::Point;
use super::sketch::pt;

/// Rounds of pushing.
const ROUNDS: usize = 260;

/// Half the width and half the height of a thing, as an ellipse.
pub(crate) type Half = (f64, f64);

/// Middles for things in an ellipse, in their order, and how far the worst pair overlaps:
/// 0 none, 1 one on top of the other. Nothing is random.
#[must_use]
pub(crate) fn pack(things: &[Half], room: Half) -> (Vec<Point>, f64) {
    let mut at = seeds(things, room);
    for round in 0..ROUNDS {
        let pull = if round * 2 < ROUNDS { 0.02 } else { 0.004 };
        for p in &mut at {
            p.x *= 1.0 - pull;
            p.y *= 1.0 - pull;
        }
        for _ in 0..3 {
            push(&mut at, things);
            for (p, half) in at.iter_mut().zip(things) {
                *p = held(*p, *half, room);
            }
        }
    }
    let worst = pairs(things.len())
        .map(|(i, j)| 1.0 - apart(at[i], at[j], things[i], things[j]))
        .fold(0.0, f64::max);
    (at, worst)
}

fn pairs(count: usize) -> impl Iterator<Item = (usize, usize)> {
    (0..count).flat_map(move |i| (i + 1..count).map(move |j| (i, j)))
}

/// Round the middle in a spiral, in their order, so that two plates of one dish have each thing
/// in about the same place.
fn seeds(things: &[Half], room: Half) -> Vec<Point> {
    let count = things.len() as f64;
    (0..things.len())
        .map(|rank| {
            if things.len() == 1 {
                return pt(0.0, 0.0);
            }
            let part = ((rank as f64 + 0.7) / count).sqrt() * 0.7;
            let (sin, cos) = (2.4f64.mul_add(rank as f64, 3.6)).sin_cos();
            pt(room.0 * part * cos, room.1 * part * sin)
        })
        .collect()
}

/// Distance of two middles, 1 where the ellipses just touch.
fn apart(a: Point, b: Point, ha: Half, hb: Half) -> f64 {
    ((b.x - a.x) / (ha.0 + hb.0)).hypot((b.y - a.y) / (ha.1 + hb.1))
}

fn push(at: &mut [Point], things: &[Half]) {
    for (i, j) in pairs(at.len()) {
        let (wide, high) = (things[i].0 + things[j].0, things[i].1 + things[j].1);
        let (dx, dy) = ((at[j].x - at[i].x) / wide, (at[j].y - at[i].y) / high);
        let distance = dx.hypot(dy).max(1e-3);
        if distance >= 1.0 {
            continue;
        }
        let lack = (1.0 - distance) / distance * 0.5;
        // The lighter gives way more.
        let (mi, mj) = (things[i].0 * things[i].1, things[j].0 * things[j].1);
        let (pi, pj) = (mj / (mi + mj), mi / (mi + mj));
        at[i].x -= dx * lack * wide * pi;
        at[i].y -= dy * lack * high * pi;
        at[j].x += dx * lack * wide * pj;
        at[j].y += dy * lack * high * pj;
    }
}

/// The nearest place at which a thing lies in the room.
fn held(p: Point, half: Half, room: Half) -> Point {
    let (rx, ry) = ((room.0 - half.0).max(0.01), (room.1 - half.1).max(0.01));
    let out = (p.x / rx).hypot(p.y / ry);
    if out <= 1.0 {
        p
    } else {
        pt(p.x / out, p.y / out)
    }
}

#[cfg(test)]
mod tests {
    use super::pack;
    use proptest::prelude::*;

    #[test]
    fn one_thing_lies_in_the_middle() {
        let (at, worst) = pack(&[(2.0, 1.0)], (10.0, 6.0));
        assert!(at[0].x.abs() < 0.1 && at[0].y.abs() < 0.1 && worst == 0.0);
    }

    proptest! {
        #[test]
        fn things_that_fill_half_the_room_lie_clear(
            sizes in prop::collection::vec((0.5..2.0f64, 0.5..1.5f64), 2..9)
        ) {
            let covered: f64 = sizes.iter().map(|s| s.0 * s.1).sum();
            let side = (covered * 2.4).sqrt();
            let (at, worst) = pack(&sizes, (side * 1.6, side));
            prop_assert!(worst < 0.25, "{worst}");
            for (p, half) in at.iter().zip(&sizes) {
                prop_assert!(p.x.abs() + half.0 <= side * 1.6 + 1e-6);
                prop_assert!(p.y.abs() + half.1 <= side + 1e-6);
            }
        }
    }
}
