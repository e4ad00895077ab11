//! Shares as people write them.

/// A share of a whole: `1/3`, `30%`, `30 %`, `0.3`, `half`, `a third`, `a quarter`, `all`;
/// nothing for what is none, or is not above 0.
#[must_use]
pub(crate) fn parse_share(text: &str) -> Option<f64> {
    let plain = text.trim().to_lowercase();
    let plain = plain.strip_prefix("a ").unwrap_or(&plain);
    let number = |text: &str| text.trim().parse::<f64>().ok();
    let share = match (plain, plain.split_once('/'), plain.strip_suffix('%')) {
        ("all" | "whole", ..) => 1.0,
        ("half", ..) => 0.5,
        ("third", ..) => 1.0 / 3.0,
        ("quarter", ..) => 0.25,
        (_, Some((top, bottom)), _) => number(top)? / number(bottom)?,
        (_, _, Some(percent)) => number(percent)? / 100.0,
        (other, ..) => number(other)?,
    };
    (share.is_finite() && share > 0.0).then_some(share)
}

#[cfg(test)]
mod tests {
    use super::parse_share;

    #[test]
    fn shares_are_read_as_people_write_them() {
        for (text, share) in [
            ("30%", 0.3),
            (" 30 % ", 0.3),
            ("1/4", 0.25),
            ("3 / 4", 0.75),
            ("0.35", 0.35),
            ("Half", 0.5),
            ("a quarter", 0.25),
            ("all", 1.0),
            ("2", 2.0),
        ] {
            assert_eq!(parse_share(text), Some(share), "{text}");
        }
        for none in ["", "lunch", "0", "-1", "1/0", "NaN", "inf", "%", "1/2/3"] {
            assert_eq!(parse_share(none), None, "{none}");
        }
    }
}
