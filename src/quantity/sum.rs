//! Sums of uncertain amounts.

use super::{Estimate, Shared};

/// Share of an unsized component's variance that all unsized components have in common:
/// a generous kitchen is generous with everything. Common practice; checked by the
/// coverage of ranges on weighed plates.
const COMMON_SHARE: f64 = 0.5;

/// An amount made ready for sums of many things that it holds, its standard deviation worked
/// out once.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Term {
    /// The mean amount.
    pub mean: f64,
    /// Standard deviation of the amount by itself.
    sd: f64,
    /// What that doubt has in common with others'.
    shared: Shared,
    /// Standard deviation of what a unit of it holds, as a share of that: how far the true
    /// food may be from the one in the catalogue.
    doubt: f64,
}

impl Term {
    /// An amount of something of which each unit holds as much as is known but for `doubt`, a
    /// standard deviation as a share of it.
    #[must_use]
    pub(crate) fn new(amount: Estimate, doubt: f64) -> Self {
        Self {
            mean: amount.mean,
            sd: match amount.shared {
                Shared::Served { own_sd, .. } => own_sd,
                Shared::Nothing | Shared::Kitchen => amount.sd(),
            },
            shared: amount.shared,
            doubt,
        }
    }

    /// The same amount without doubt about what it holds: for sums of the amounts themselves.
    #[must_use]
    pub(crate) fn plain(self) -> Self {
        Self { doubt: 0.0, ..self }
    }
}

/// The sum of terms, each multiplied by what a unit of it holds (not negative), taken as
/// lognormal with the summed mean and variance.
#[must_use]
pub(crate) fn sum(terms: impl IntoIterator<Item = (Term, f64)>) -> Estimate {
    let (mut mean, mut own, mut common) = (0.0, 0.0, 0.0);
    let (mut plain, mut once, mut twice, mut total) = (0.0, 0.0, 0.0, 0.0_f64);
    for (term, times) in terms {
        let sd = term.sd;
        let scaled = sd * times;
        mean += term.mean * times;
        own += (term.mean * times * term.doubt).powi(2);
        match term.shared {
            Shared::Nothing => own += scaled * scaled,
            Shared::Kitchen => {
                common += scaled * COMMON_SHARE.sqrt();
                own += scaled * scaled * (1.0 - COMMON_SHARE);
            }
            Shared::Served { total_sd, .. } => {
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
    Estimate::with_variance(mean, own + common * common)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn term(shared: Shared) -> Term {
        Term::new(Estimate::with_variance(100.0, 1600.0).sharing(shared), 0.0)
    }

    #[test]
    fn independent_doubts_partly_cancel_and_shared_ones_do_not() {
        let width = |e: Estimate| (e.range().high - e.range().low) / e.mean;
        let sized = sum([(term(Shared::Nothing), 1.0); 4]);
        let vague = sum([(term(Shared::Kitchen), 1.0); 4]);
        assert!((sized.mean - 400.0).abs() < 1e-9);
        assert!(width(sized) < 0.6, "{sized:?}");
        assert!(width(vague) > 1.3 * width(sized), "{vague:?}");
    }

    #[test]
    fn exact_parts_stay_exact() {
        let exact = Term::new(Estimate::exact(80.0).sharing(Shared::Kitchen), 0.0);
        assert_eq!(sum([(exact, 2.0)]), Estimate::exact(160.0));
        assert_eq!(sum([]), Estimate::exact(0.0));
    }

    /// Two parts of a known total: if both hold as much energy, the division does not
    /// matter; if only one holds any, all of its own doubt halves (two equal variances).
    #[test]
    fn parts_of_a_known_total_vary_against_one_another() {
        let served = term(Shared::Served {
            own_sd: 40.0,
            total_sd: 0.0,
        });
        assert_eq!(sum([(served, 1.0), (served, 1.0)]).sd(), 0.0);
        let sd = sum([(served, 1.0), (served, 0.0)]).sd();
        assert!((sd * sd - 800.0).abs() < 1e-6);
    }
}
