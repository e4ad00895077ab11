//! Sharing a sum out among amounts of which some are surer than others.

/// Changes means, each with the standard deviation of its log, so that they add up to `total`,
/// those that vary most giving most.
pub(super) fn adjusted(means: &[(f64, f64)], total: f64) -> Vec<f64> {
    let open: Vec<Open> = means
        .iter()
        .map(|(mean, log_sd)| Open {
            mean: *mean,
            log_sd: *log_sd,
            most: f64::INFINITY,
        })
        .collect();
    share_within(&open, total)
}

/// An amount that may move.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Open {
    /// Its mean by itself, g.
    pub mean: f64,
    /// Standard deviation of its log.
    pub log_sd: f64,
    /// The most that it may come to, g.
    pub most: f64,
}

/// Changes the means so that they add up to `total`, those that vary most giving most, none
/// beyond its most: the sum is less than `total` when all of them are at their most.
pub(super) fn share_within(open: &[Open], total: f64) -> Vec<f64> {
    let at = |slope: f64| -> Vec<f64> {
        open.iter()
            .map(|o| {
                let moved = o.mean * (slope * o.log_sd * o.log_sd).clamp(-30.0, 30.0).exp();
                moved.min(o.most.max(o.mean))
            })
            .collect()
    };
    let (mut low, mut high) = (-2_000.0, 2_000.0);
    for _ in 0..80 {
        let middle = f64::midpoint(low, high);
        if at(middle).iter().sum::<f64>() > total {
            high = middle;
        } else {
            low = middle;
        }
    }
    at(low)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn adjusted_means_add_up_and_the_surest_moves_least() {
        let moved = adjusted(&[(100.0, 0.1), (100.0, 0.5)], 260.0);
        assert!((moved.iter().sum::<f64>() - 260.0).abs() < 1e-6);
        assert!(moved[0] < 105.0 && moved[1] > 155.0, "{moved:?}");
        assert!((adjusted(&[(50.0, 0.4)], 10.0)[0] - 10.0).abs() < 1e-6);
    }
}
