//! Whether an amount is enough or too much for a day: decided here and nowhere else.

use super::subject::Kind;

/// How far a share may lie from the whole day and still count as the whole day, in hundredths
/// of it. No estimate of a plate tells less apart (own choice).
const TOLERANCE_PERCENT: f64 = 5.0;

/// What a share of the day's allowance means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// A group of which the day asks for more.
    Short,
    /// A group of which this is what the day asks for.
    Met,
    /// A group of which there is more than the day asks for: information, no fault.
    More,
    /// A limit that leaves room.
    Within,
    /// A limit that is just used up.
    At,
    /// A limit that is passed.
    Beyond,
}

impl Verdict {
    /// The word for tables and files.
    #[must_use]
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Self::Short => "short",
            Self::Met => "met",
            Self::More => "more than the day",
            Self::Within => "within",
            Self::At => "at",
            Self::Beyond => "beyond",
        }
    }

    /// Whether a group is reached, be it just or by more.
    pub(crate) const fn is_reached(self) -> bool {
        matches!(self, Self::Met | Self::More)
    }
}

/// The verdict on a share of the day's allowance (1 is all of it, not negative).
///
/// The share is judged as it is shown, in whole percent: 95 to 105 % is the day itself.
#[must_use]
pub(crate) fn verdict(kind: Kind, share: f64) -> Verdict {
    let percent = (share * 100.0).round();
    let short = percent < 100.0 - TOLERANCE_PERCENT;
    let past = percent > 100.0 + TOLERANCE_PERCENT;
    match (kind, short, past) {
        (Kind::ToReach, true, _) => Verdict::Short,
        (Kind::ToReach, _, false) => Verdict::Met,
        (Kind::ToReach, _, true) => Verdict::More,
        (Kind::StayWithin, true, _) => Verdict::Within,
        (Kind::StayWithin, _, false) => Verdict::At,
        (Kind::StayWithin, _, true) => Verdict::Beyond,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn five_percent_either_way_is_the_day_itself() {
        let of = |kind| {
            [0.0, 0.944, 0.946, 1.0, 1.054, 1.056, 3.0].map(|share| verdict(kind, share).word())
        };
        assert_eq!(
            of(Kind::ToReach),
            [
                "short",
                "short",
                "met",
                "met",
                "met",
                "more than the day",
                "more than the day"
            ]
        );
        assert_eq!(
            of(Kind::StayWithin),
            ["within", "within", "at", "at", "at", "beyond", "beyond"]
        );
    }
}
