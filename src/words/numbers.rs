//! Numbers that are spelt out.

/// Words from one on, in their order.
const FROM_ONE: [&str; 20] = [
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
    "twenty",
];
const TENS: [(&str, f64); 3] = [("thirty", 30.0), ("forty", 40.0), ("fifty", 50.0)];

/// What a lower-case word from *one* to *twenty*, *thirty*, *forty* or *fifty* stands for.
#[must_use]
pub(crate) fn spelt_number(word: &str) -> Option<f64> {
    // Most words begin like none of them.
    if !matches!(
        word.as_bytes().first(),
        Some(b'o' | b't' | b'f' | b's' | b'e' | b'n')
    ) {
        return None;
    }
    let small = FROM_ONE.iter().position(|w| *w == word);
    let value = small.map(|at| (at + 1) as f64);
    value.or_else(|| TENS.iter().find(|(w, _)| *w == word).map(|(_, n)| *n))
}

#[cfg(test)]
mod tests {
    use super::spelt_number;

    #[test]
    fn number_words_have_their_values() {
        assert_eq!(spelt_number("one"), Some(1.0));
        assert_eq!(spelt_number("twelve"), Some(12.0));
        assert_eq!(spelt_number("twenty"), Some(20.0));
        assert_eq!(spelt_number("forty"), Some(40.0));
        assert_eq!(spelt_number("ton"), None);
        assert_eq!(spelt_number(""), None);
    }
}
