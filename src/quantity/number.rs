//! Numbers as people read them: no more digits than an estimate deserves.

use super::Range;

/// Grams: tenths below 10, whole to 100, steps of 5 above.
#[must_use]
pub fn grams(value: f64) -> String {
    match value {
        v if v <= 0.0 => "0".to_owned(),
        v if v < 9.95 => tidy(format!("{v:.1}")),
        v if v < 100.0 => format!("{v:.0}"),
        v => thousands((v / 5.0).round() * 5.0),
    }
}

/// Energy: whole below 20 kcal, steps of 5 to 500, steps of 10 above.
#[must_use]
pub(crate) fn kcal(value: f64) -> String {
    let step = match value {
        v if v < 20.0 => 1.0,
        v if v < 500.0 => 5.0,
        _ => 10.0,
    };
    thousands((value / step).round() * step)
}

/// Portions and other small amounts: tenths, `<0.1` for a trace.
#[must_use]
pub(crate) fn portions(value: f64) -> String {
    match value {
        v if v <= 0.0 => "0".to_owned(),
        v if v < 0.05 => "<0.1".to_owned(),
        v if v < 9.95 => format!("{v:.1}"),
        v => format!("{v:.0}"),
    }
}

/// A share as percent, up to 995 %; `times` above 150 %.
#[must_use]
pub(crate) fn share(value: f64) -> String {
    match value {
        v if v <= 0.0 => "0 %".to_owned(),
        v if v < 0.01 => "<1 %".to_owned(),
        v if v < 1.495 => format!("{:.0} %", v * 100.0),
        v => format!("{v:.1} times"),
    }
}

/// An amount in its unit (`kcal`, `mg`, `g`, or portions and equivalents): the one way in
/// which every page rounds.
#[must_use]
pub(crate) fn amount(unit: &str, value: f64) -> String {
    match unit {
        "kcal" => kcal(value),
        "mg" => thousands((value / 10.0).round() * 10.0),
        "g" => grams(value),
        _ => portions(value),
    }
}

/// An amount's range in its unit.
#[must_use]
pub(crate) fn amount_span(unit: &str, range: Range) -> String {
    span(range, |value| amount(unit, value))
}

/// `low to high` with one formatter, or a single figure when both read the same.
#[must_use]
pub(crate) fn span(range: Range, format: impl Fn(f64) -> String) -> String {
    let (low, high) = (format(range.low), format(range.high));
    if low == high {
        low
    } else {
        format!("{low} to {high}")
    }
}

/// A whole number with thousands separated by a comma.
#[must_use]
pub(crate) fn thousands(value: f64) -> String {
    let digits = format!("{:.0}", value.abs());
    let mut text = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at) % 3 == 0 {
            text.push(',');
        }
        text.push(digit);
    }
    if value < -0.5 {
        format!("-{text}")
    } else {
        text
    }
}

fn tidy(text: String) -> String {
    text.strip_suffix(".0").map(str::to_owned).unwrap_or(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn boundaries() {
        assert_eq!(
            [0.0, 0.04, 9.94, 9.96, 99.4, 99.6, 447.0, 1234.0]
                .map(grams)
                .join(" "),
            "0 0 9.9 10 99 100 445 1,235"
        );
        assert_eq!(
            [3.4, 19.6, 487.0, 504.0, 1240.0].map(kcal).join(" "),
            "3 20 485 500 1,240"
        );
        assert_eq!(
            [0.0, 0.02, 0.06, 2.34, 12.4].map(portions).join(" "),
            "0 <0.1 0.1 2.3 12"
        );
        assert_eq!(
            [0.0, 0.004, 0.62, 1.2, 1.8].map(share).join("; "),
            "0 %; <1 %; 62 %; 120 %; 1.8 times"
        );
        assert_eq!(thousands(-1_234_567.0), "-1,234,567");
        assert_eq!([999.6, -0.2].map(thousands), ["1,000", "0"]);
    }
}
