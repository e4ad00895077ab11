//! The 80 % range, as figures are shown and as people say them.

/// An 80 % range: one truth in ten lies below `low`, one in ten above `high`.
///
/// `likely` is the mean, not the median, so that sums of ranges are unbiased (portion
/// weights are skewed: a sum of medians runs 16 to 19 % low, own calculation on the
/// Nutrition5k metadata of Thames et al. 2021).
#[derive(Debug, Clone, Copy, PartialEq, Default, serde::Serialize, serde::Deserialize)]
pub struct Range {
    /// One truth in ten lies below.
    pub low: f64,
    /// The mean.
    pub likely: f64,
    /// One truth in ten lies above.
    pub high: f64,
}

impl Range {
    /// A figure known exactly.
    #[must_use]
    pub const fn exact(value: f64) -> Self {
        Self {
            low: value,
            likely: value,
            high: value,
        }
    }

    /// A range from its three figures.
    #[must_use]
    pub const fn new(low: f64, likely: f64, high: f64) -> Self {
        Self { low, likely, high }
    }

    /// All three figures times `factor` (not negative).
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self {
            low: self.low * factor,
            likely: self.likely * factor,
            high: self.high * factor,
        }
    }

    /// Whether there is no doubt at all.
    #[must_use]
    pub(crate) fn is_exact(self) -> bool {
        (self.high - self.low).abs() < 1e-9
    }
}
