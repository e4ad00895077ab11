//! Sums of uncertain amounts.

use crate::quantity::Range;

/// Share of an unsized component's variance that all unsized components have in common:
/// a generous kitchen is generous with everything. Common practice; checked by the
/// coverage of ranges on weighed plates.
pub const COMMON_SHARE: f64 = 0.5;

/// Standard deviations between the mean and an end of an 80 % range, roughly, for one side.
const Z_10: f64 = 1.2816;

/// A term of a sum.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// The uncertain amount.
    pub amount: Range,
    /// What it is multiplied by; not negative.
    pub times: f64,
    /// Whether nobody sized it, so that it shares the common factor.
    pub unsized_amount: bool,
}

/// The 80 % range of a sum, taken as lognormal with the summed mean and variance.
#[must_use]
pub fn sum(parts: &[Part]) -> Range {
    let (mut mean, mut own, mut common) = (0.0, 0.0, 0.0);
    for part in parts {
        let range = part.amount.times(part.times);
        let sd = ((range.high - range.low) / (2.0 * Z_10)).max(0.0);
        mean += range.likely;
        if part.unsized_amount {
            common += sd * COMMON_SHARE.sqrt();
            own += sd * sd * (1.0 - COMMON_SHARE);
        } else {
            own += sd * sd;
        }
    }
    lognormal(mean, own + common * common)
}

/// The 80 % range of a lognormal with this mean and variance.
#[must_use]
pub fn lognormal(mean: f64, variance: f64) -> Range {
    if mean <= 0.0 || variance <= 0.0 {
        return Range::exact(mean.max(0.0));
    }
    let log_sd = (1.0 + variance / (mean * mean)).ln().sqrt();
    let median = mean * (-log_sd * log_sd / 2.0).exp();
    Range {
        low: median * (-Z_10 * log_sd).exp(),
        likely: mean,
        high: median * (Z_10 * log_sd).exp(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn part(unsized_amount: bool) -> Part {
        Part {
            amount: Range::new(50.0, 100.0, 150.0),
            times: 1.0,
            unsized_amount,
        }
    }

    #[test]
    fn independent_doubts_partly_cancel_and_shared_ones_do_not() {
        let width = |r: Range| (r.high - r.low) / r.likely;
        let sized = sum(&[part(false); 4]);
        let vague = sum(&[part(true); 4]);
        assert!((sized.likely - 400.0).abs() < 1e-9);
        assert!(width(sized) < 0.6, "{sized:?}");
        assert!(width(vague) > 1.3 * width(sized), "{vague:?}");
    }

    #[test]
    fn exact_parts_stay_exact() {
        let exact = Part {
            amount: Range::exact(80.0),
            times: 2.0,
            unsized_amount: true,
        };
        assert_eq!(sum(&[exact]), Range::exact(160.0));
        assert_eq!(sum(&[]), Range::exact(0.0));
    }
}
