//! An uncertain amount, and what its doubt has in common with others'.

use super::Range;

/// Standard deviations between the median of a normal distribution and the end of its 80 %
/// range.
const Z_10: f64 = 1.281_6;

/// What the doubt about an amount has in common with the doubt about others.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Shared {
    /// Nothing: it was weighed, measured or counted by itself.
    #[default]
    Nothing,
    /// Nobody sized it; a generous kitchen is generous with everything.
    Kitchen,
    /// It is part of a served weight that is known: more of it is less of the others.
    Served {
        /// Standard deviation that it would have by itself, in the amount's unit.
        own_sd: f64,
        /// Standard deviation of what such parts come to together, in the amount's unit.
        total_sd: f64,
    },
}

/// An uncertain amount that is not negative, taken as lognormal. Everything is worked out with
/// estimates; a [`Range`] is made of one only where it is shown.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Estimate {
    /// The mean, not the median, so that sums are unbiased.
    pub mean: f64,
    /// Standard deviation of the logarithm; 0 for what is known exactly.
    pub log_sd: f64,
    /// What its doubt has in common with others'.
    pub shared: Shared,
}

impl Estimate {
    /// An amount known exactly.
    #[must_use]
    pub(crate) const fn exact(mean: f64) -> Self {
        Self::new(mean, 0.0)
    }

    /// An amount of its own with this mean and standard deviation of its logarithm.
    #[must_use]
    pub const fn new(mean: f64, log_sd: f64) -> Self {
        Self {
            mean,
            log_sd,
            shared: Shared::Nothing,
        }
    }

    /// An amount of its own with this mean and variance (in the amount's unit, squared).
    #[must_use]
    pub(crate) fn with_variance(mean: f64, variance: f64) -> Self {
        if mean <= 0.0 || variance <= 0.0 {
            return Self::exact(mean.max(0.0));
        }
        Self::new(mean, (variance / (mean * mean)).ln_1p().sqrt())
    }

    /// What somebody gave as a range: `6 to 8 oz`, or the low, likely and high of a file.
    #[must_use]
    pub(crate) fn from_range(range: Range) -> Self {
        let log_sd = if range.low > 0.0 && range.high > range.low {
            (range.high / range.low).ln() / (2.0 * Z_10)
        } else {
            0.0
        };
        Self::new(range.likely, log_sd)
    }

    /// Its 80 % range, as it is shown.
    #[must_use]
    pub fn range(self) -> Range {
        if self.mean <= 0.0 || self.log_sd <= 0.0 {
            return Range::exact(self.mean.max(0.0));
        }
        // A lognormal with mean m has its median at m * exp(-sd^2 / 2).
        let median = self.mean * (-self.log_sd * self.log_sd / 2.0).exp();
        let end = (Z_10 * self.log_sd).exp();
        // Of a spread so wide that nine in ten lie below the mean, the range ends at the mean.
        Range::new(median / end, self.mean, (median * end).max(self.mean))
    }

    /// Standard deviation, in the amount's unit.
    #[must_use]
    pub(crate) fn sd(self) -> f64 {
        self.mean * self.log_sd.powi(2).exp_m1().sqrt()
    }

    /// `factor` (not negative) times as much, as sure as before.
    #[must_use]
    pub(crate) fn times(self, factor: f64) -> Self {
        Self {
            mean: self.mean * factor,
            log_sd: self.log_sd,
            shared: match self.shared {
                Shared::Served { own_sd, total_sd } => Shared::Served {
                    own_sd: own_sd * factor,
                    total_sd: total_sd * factor,
                },
                other => other,
            },
        }
    }

    /// The same mean with a further doubt, independent of that which it has.
    #[must_use]
    pub(crate) fn doubted(self, log_sd: f64) -> Self {
        Self {
            log_sd: self.log_sd.hypot(log_sd),
            ..self
        }
    }

    /// The same amount, its doubt in common with others'.
    #[must_use]
    pub(crate) const fn sharing(self, shared: Shared) -> Self {
        Self { shared, ..self }
    }

    /// Whether there is no doubt at all.
    #[must_use]
    pub(crate) fn is_exact(self) -> bool {
        self.log_sd <= 0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Quantiles of the standard normal distribution: 10 % lie beyond 1.2816.
    #[test]
    fn the_range_is_that_of_a_lognormal() {
        let range = Estimate::new(100.0, 0.4).range();
        let median = 100.0 / (0.08_f64).exp();
        assert!((range.low - median * (-0.512_64_f64).exp()).abs() < 1e-9);
        assert!((range.high - median * (0.512_64_f64).exp()).abs() < 1e-9);
        assert_eq!(range.likely, 100.0);
        assert_eq!(Estimate::exact(80.0).range(), Range::exact(80.0));
    }

    /// `8-16666 g`: the middle of the two lies beyond nine tenths of such a lognormal.
    #[test]
    fn what_is_likely_lies_within_the_widest_range() {
        let range = Estimate::new(8_337.0, 3.0).range();
        assert!(
            range.low < range.likely && range.likely <= range.high,
            "{range:?}"
        );
    }

    #[test]
    fn a_range_gives_back_its_estimate() {
        let estimate = Estimate::with_variance(100.0, 1600.0);
        assert!((estimate.sd() - 40.0).abs() < 1e-9);
        let again = Estimate::from_range(estimate.range());
        assert!((again.log_sd - estimate.log_sd).abs() < 1e-9);
        assert!(Estimate::from_range(Range::exact(3.0)).is_exact());
    }

    #[test]
    fn independent_doubts_add_as_squares() {
        let doubted = Estimate::new(10.0, 0.3).doubted(0.4);
        assert!((doubted.log_sd - 0.5).abs() < 1e-12);
        assert_eq!(doubted.times(2.0).mean, 20.0);
    }
}
