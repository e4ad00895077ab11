//! Portions as boxes to tick, in all or spread over the meals of a day.

/// The finest part of a portion that has a box of its own.
const PART: f64 = 0.25;

/// A box: a whole portion, or part of one in quarters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Tick {
    /// Quarters of a portion, 1 to 4.
    pub quarters: u8,
}

impl Tick {
    const WHOLE: Self = Self { quarters: 4 };

    /// What is written in the box; nothing in a whole one.
    pub(crate) const fn part(self) -> &'static str {
        match self.quarters {
            1 => "1/4",
            2 => "1/2",
            3 => "3/4",
            _ => "",
        }
    }
}

/// Boxes for so many portions, to the nearest quarter: whole ones, then what is over.
pub(crate) fn boxes(portions: f64) -> Vec<Tick> {
    let quarters = (portions.max(0.0) / PART).round() as usize;
    let mut all = vec![Tick::WHOLE; quarters / 4];
    if let over @ 1.. = (quarters % 4) as u8 {
        all.push(Tick { quarters: over });
    }
    all
}

/// The same boxes spread over meals by their planned shares of the day: each box goes to the
/// meal that lacks most of its share, the earlier of equals; none is cut up.
pub(crate) fn spread(portions: f64, shares: &[f64]) -> Vec<Vec<Tick>> {
    let mut meals = vec![Vec::new(); shares.len()];
    let mut lacking: Vec<f64> = shares.iter().map(|share| share * portions).collect();
    for tick in boxes(portions) {
        let most = lacking.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        // Shares that differ by less than this are equal: the earlier meal comes first.
        let Some(at) = lacking.iter().position(|l| *l > most - 1e-9) else {
            break;
        };
        lacking[at] -= f64::from(tick.quarters) * PART;
        meals[at].push(tick);
    }
    meals
}

/// What boxes come to, in portions.
#[cfg(test)]
pub(super) fn total(ticks: &[Tick]) -> f64 {
    let quarters = ticks.iter().map(|tick| f64::from(tick.quarters));
    quarters.sum::<f64>() * PART
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn boxes_add_up_to_the_portions() {
        for portions in [0.0, 0.25, 1.0, 2.5, 3.32, 9.0, 13.0] {
            assert!(
                (total(&boxes(portions)) - portions).abs() <= 0.125,
                "{portions}"
            );
            for shares in [&[0.3, 0.3, 0.3, 0.1][..], &[1.0], &[0.2, 0.5, 0.3]] {
                let meals = spread(portions, shares);
                assert_eq!(meals.len(), shares.len());
                let sum: f64 = meals.iter().map(|meal| total(meal)).sum();
                assert!((sum - total(&boxes(portions))).abs() < 1e-9);
            }
        }
        let parts: Vec<&str> = boxes(2.5).iter().map(|tick| tick.part()).collect();
        assert_eq!(parts, ["", "", "1/2"]);
    }

    #[test]
    fn no_meal_is_far_from_its_share() {
        for tenths in 0_u8..130 {
            let portions = f64::from(tenths) / 10.0;
            let shares = [0.3, 0.3, 0.3, 0.1];
            for (meal, share) in spread(portions, &shares).iter().zip(shares) {
                assert!((total(meal) - share * portions).abs() < 1.01, "{portions}");
            }
        }
    }
}
