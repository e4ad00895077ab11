//! Small irregularities that are the same every time.

use super::geometry::Point;
use super::path::{Path, pt};
use std::f64::consts::{PI, TAU};

/// Small steady irregularities: the same seed gives the same drawing.
#[derive(Debug, Clone)]
pub(crate) struct Chance(u32);

impl Chance {
    /// From a word, such as a food's name.
    #[must_use]
    pub(crate) fn of(word: &str) -> Self {
        let hash = word.bytes().fold(2_166_136_261_u32, |hash, byte| {
            (hash ^ u32::from(byte)).wrapping_mul(16_777_619)
        });
        Self(hash | 1)
    }

    /// A number from 0 up to 1.
    pub(crate) fn part(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 17;
        self.0 ^= self.0 << 5;
        f64::from(self.0 >> 8) / f64::from(1_u32 << 24)
    }

    /// A number between two.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        (high - low).mul_add(self.part(), low)
    }

    /// An angle all round.
    pub(crate) fn turn(&mut self) -> f64 {
        self.between(-PI, PI)
    }
}

/// A closed round line whose radius wavers: `lumps` swellings of the given part.
#[must_use]
pub(crate) fn blob(
    centre: Point,
    rx: f64,
    ry: f64,
    lumps: (usize, f64),
    chance: &mut Chance,
) -> Path {
    let (count, part) = lumps;
    let sides = (count * 2).max(10);
    let points: Vec<Point> = (0..sides)
        .map(|i| {
            let (sin, cos) = (TAU * i as f64 / sides as f64).sin_cos();
            let lump = if i % 2 == 0 { part } else { -part };
            let swell = 1.0 + lump + chance.between(-part, part) * 0.6;
            pt(
                (rx * swell).mul_add(cos, centre.x),
                (ry * swell).mul_add(sin, centre.y),
            )
        })
        .collect();
    Path::smooth(&points, true)
}

#[cfg(test)]
mod tests {
    use super::Chance;

    #[test]
    fn chance_is_the_same_for_the_same_word() {
        let draw = |word: &str| {
            let mut chance = Chance::of(word);
            (0..4).map(|_| chance.part()).collect::<Vec<_>>()
        };
        assert_eq!(draw("rice"), draw("rice"));
        assert_ne!(draw("rice"), draw("beans"));
        assert!(draw("rice").iter().all(|p| (0.0..1.0).contains(p)));
    }
}
