//! Sums of uncertain amounts.

use crate::quantity::Range;

/// Share of an unsized component's variance that all unsized components have in common:
/// a generous kitchen is generous with everything. Common practice; checked by the
/// coverage of ranges on weighed plates.
pub const COMMON_SHARE: f64 = 0.5;

/// Standard deviations between the median and an end of an 80 % range of a normal
/// distribution.
pub const Z_10: f64 = 1.281_6;

/// What ties the doubt about an amount to the doubt about others.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Tie {
    /// Nothing: it was weighed, measured or counted by itself.
    #[default]
    Own,
    /// Nobody sized it; generous kitchens are generous with everything.
    Common,
    /// It shares a served weight that is known: more of it is less of the others.
    Served {
        /// Standard deviation that it would have by itself, g.
        own_sd: f64,
        /// Standard deviation of what such components weigh together, g.
        total_sd: f64,
    },
}

/// A term of a sum; by default an exact nothing.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Part {
    /// The uncertain amount.
    pub amount: Range,
    /// What it is multiplied by; not negative.
    pub times: f64,
    /// What its doubt is tied to.
    pub tie: Tie,
    /// Standard deviation of `times` as a share of it: how far the true food may be from
    /// the one in the catalogue.
    pub doubt: f64,
}

/// A part without what it is multiplied by, its standard deviation worked out: for sums of
/// many things that the same amounts hold.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Term {
    /// The likely amount.
    pub likely: f64,
    /// Standard deviation of the amount by itself.
    pub sd: f64,
    /// What its doubt is tied to.
    pub tie: Tie,
    /// As [`Part::doubt`].
    pub doubt: f64,
}

impl Part {
    /// The part for sums of several things.
    #[must_use]
    pub fn term(&self) -> Term {
        Term {
            likely: self.amount.likely,
            sd: match self.tie {
                Tie::Served { own_sd, .. } => own_sd,
                _ => sd_of(self.amount),
            },
            tie: self.tie,
            doubt: self.doubt,
        }
    }
}

/// Standard deviation of a lognormal amount with this 80 % range.
#[must_use]
pub fn sd_of(range: Range) -> f64 {
    range.likely * (log_sd_of(range).powi(2).exp_m1()).sqrt()
}

/// Standard deviation of the log of an amount with this 80 % range.
#[must_use]
pub fn log_sd_of(range: Range) -> f64 {
    if range.low > 0.0 && range.high > range.low {
        (range.high / range.low).ln() / (2.0 * Z_10)
    } else {
        0.0
    }
}

/// The 80 % range of a sum, taken as lognormal with the summed mean and variance.
#[must_use]
pub fn sum(parts: &[Part]) -> Range {
    let mean = parts.iter().map(|p| p.amount.likely * p.times).sum();
    lognormal(mean, variance(parts))
}

/// As [`sum`], of terms and what each is multiplied by.
#[must_use]
pub fn sum_of(terms: impl Iterator<Item = (Term, f64)> + Clone) -> Range {
    let mean = terms.clone().map(|(term, times)| term.likely * times).sum();
    lognormal(mean, variance_of(terms))
}

/// The variance of a sum.
#[must_use]
pub fn variance(parts: &[Part]) -> f64 {
    variance_of(parts.iter().map(|part| (part.term(), part.times)))
}

fn variance_of(terms: impl Iterator<Item = (Term, f64)>) -> f64 {
    let (mut own, mut common) = (0.0, 0.0);
    let (mut plain, mut once, mut twice, mut total) = (0.0, 0.0, 0.0, 0.0_f64);
    for (term, times) in terms {
        let sd = term.sd;
        let scaled = sd * times;
        own += (term.likely * times * term.doubt).powi(2);
        match term.tie {
            Tie::Own => own += scaled * scaled,
            Tie::Common => {
                common += scaled * COMMON_SHARE.sqrt();
                own += scaled * scaled * (1.0 - COMMON_SHARE);
            }
            Tie::Served { total_sd, .. } => {
                plain += sd * sd;
                once += sd * sd * times;
                twice += sd * scaled * times;
                total = total.max(total_sd);
            }
        }
    }
    if plain > 0.0 {
        // Given their total, amounts vary only against one another: the variance left is
        // that around the mean of `times`, weighted by how free each amount is.
        let mean_times = once / plain;
        own += (twice - once * mean_times).max(0.0) + (mean_times * total).powi(2);
    }
    own + common * common
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

    fn part(tie: Tie) -> Part {
        Part {
            amount: lognormal(100.0, 1600.0),
            times: 1.0,
            tie,
            doubt: 0.0,
        }
    }

    #[test]
    fn independent_doubts_partly_cancel_and_shared_ones_do_not() {
        let width = |r: Range| (r.high - r.low) / r.likely;
        let sized = sum(&[part(Tie::Own); 4]);
        let vague = sum(&[part(Tie::Common); 4]);
        assert!((sized.likely - 400.0).abs() < 1e-9);
        assert!(width(sized) < 0.6, "{sized:?}");
        assert!(width(vague) > 1.3 * width(sized), "{vague:?}");
    }

    #[test]
    fn exact_parts_stay_exact() {
        let exact = Part {
            amount: Range::exact(80.0),
            times: 2.0,
            tie: Tie::Common,
            doubt: 0.0,
        };
        assert_eq!(sum(&[exact]), Range::exact(160.0));
        assert_eq!(sum(&[]), Range::exact(0.0));
    }

    /// Two parts of a known total: if both hold as much energy, the division does not
    /// matter; if only one holds any, all of its own doubt halves (two equal variances).
    #[test]
    fn parts_of_a_known_total_vary_against_one_another() {
        let tie = Tie::Served {
            own_sd: 40.0,
            total_sd: 0.0,
        };
        assert_eq!(variance(&[part(tie), part(tie)]), 0.0);
        let empty = Part {
            times: 0.0,
            ..part(tie)
        };
        assert!((variance(&[part(tie), empty]) - 800.0).abs() < 1e-9);
    }

    #[test]
    fn a_range_gives_back_its_standard_deviation() {
        assert!((sd_of(lognormal(100.0, 1600.0)) - 40.0).abs() < 1e-6);
    }
}
