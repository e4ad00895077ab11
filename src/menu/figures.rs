//! Numbers into bytes: fixed decimals, no allocation.

/// Writes `value` with `decimals` (at most 3), trailing zeros left off. What is not finite or
/// beyond fifteen digits, which no dish reaches, is written as 0.
pub(crate) fn push(out: &mut Vec<u8>, value: f64, decimals: u32) {
    match decimals {
        _ if value == 0.0 => out.push(b'0'),
        0 => scaled::<1>(out, value),
        1 => scaled::<10>(out, value),
        2 => scaled::<100>(out, value),
        _ => scaled::<1000>(out, value),
    }
}

/// `SCALE` is a power of ten that the compiler knows, so that it need not divide.
fn scaled<const SCALE: u64>(out: &mut Vec<u8>, value: f64) {
    let scaled = (value * SCALE as f64).round();
    if !scaled.is_finite() || scaled.abs() >= 1e15 {
        out.push(b'0');
        return;
    }
    if scaled < 0.0 {
        out.push(b'-');
    }
    let scaled = scaled.abs() as u64;
    let mut digits = itoa::Buffer::new();
    out.extend_from_slice(digits.format(scaled / SCALE).as_bytes());
    let mut rest = scaled % SCALE;
    if rest == 0 {
        return;
    }
    out.push(b'.');
    let mut place = SCALE / 10;
    while rest > 0 {
        out.push(b'0' + (rest / place) as u8);
        rest %= place;
        place /= 10;
    }
}

#[cfg(test)]
mod tests {
    use super::push;

    #[test]
    fn figures_are_as_short_as_they_can_be() {
        let text = |value, decimals| {
            let mut out = Vec::new();
            push(&mut out, value, decimals);
            String::from_utf8(out).expect("ASCII")
        };
        assert_eq!(text(0.0, 2), "0");
        assert_eq!(text(12.3456, 2), "12.35");
        assert_eq!(text(1.05, 3), "1.05");
        assert_eq!(text(1.004, 2), "1");
        assert_eq!(text(-0.25, 1), "-0.3");
        assert_eq!(text(1234.0, 0), "1234");
        assert_eq!(text(f64::NAN, 1), "0");
    }
}
