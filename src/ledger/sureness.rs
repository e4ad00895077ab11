//! How sure a whole answer is: foods, amounts and what is missing, in one word.

use crate::quantity::Range;

/// How sure an answer is, surest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Sureness {
    /// Half the 80 % range of energy is at most a fifth of what is likely.
    Close,
    /// At most half of it.
    Rough,
    /// More, or something on the plate is not counted.
    Wide,
    /// There is no total.
    None,
}

/// The most that half the 80 % range may be of what is likely.
const CLOSE: f64 = 0.2;
const ROUGH: f64 = 0.5;

/// Of less energy than this a share of it says nothing of how sure it is (21 CFR 101.9 prints
/// it as 0): a sparkling water may be a sweet one.
const NEXT_TO_NOTHING_KCAL: f64 = 5.0;

impl Sureness {
    /// Of an energy in kcal, `None` where it is not known; `whole` where everything that is
    /// written counts.
    #[must_use]
    pub(crate) fn of(energy: Option<Range>, whole: bool) -> Self {
        let Some(energy) = energy.filter(|e| e.likely > 0.0 || whole) else {
            return Self::None;
        };
        let half = (energy.high - energy.low) / 2.0;
        if whole && energy.likely < NEXT_TO_NOTHING_KCAL {
            Self::Rough
        } else if !whole || half > ROUGH * energy.likely {
            Self::Wide
        } else if half > CLOSE * energy.likely {
            Self::Rough
        } else {
            Self::Close
        }
    }

    /// The word for pages and files.
    #[must_use]
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Self::Close => "close",
            Self::Rough => "rough",
            Self::Wide => "wide",
            Self::None => "none",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_the_range_decides() {
        let of = |low, high| Sureness::of(Some(Range::new(low, 100.0, high)), true);
        assert_eq!(of(81.0, 120.0), Sureness::Close);
        assert_eq!(of(60.0, 150.0), Sureness::Rough);
        assert_eq!(of(40.0, 190.0), Sureness::Wide);
        let exact = Range::exact(0.0);
        assert_eq!(Sureness::of(Some(exact), true), Sureness::Rough);
        assert_eq!(Sureness::of(Some(exact), false), Sureness::None);
        assert_eq!(
            Sureness::of(Some(Range::new(95.0, 100.0, 105.0)), false),
            Sureness::Wide
        );
        assert_eq!(Sureness::of(None, true), Sureness::None);
    }
}
