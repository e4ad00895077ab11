//! Lettering: how wide words come out, and breaking them into lines.
//!
//! A drawing does not know which font a reader's machine will pick, so widths are estimated
//! on the wide side (about those of a broad sans serif): a label may end early, never late.

use unicode_normalization::char::is_combining_mark;
use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

/// Estimated width of a text set at size 1 (in em), regular weight.
#[must_use]
pub(crate) fn width_em(text: &str) -> f64 {
    text.graphemes(true).map(grapheme_em).sum()
}

/// Extra width of bold letters.
pub(crate) const BOLD: f64 = 1.1;

fn grapheme_em(grapheme: &str) -> f64 {
    let Some(first) = grapheme.chars().next() else {
        return 0.0;
    };
    let marks = grapheme.chars().skip(1);
    // Marks that a font cannot stack are set side by side; allow a little for each.
    let extra = marks.filter(|c| !is_combining_mark(*c)).count() as f64;
    match first {
        ' ' => 0.34,
        'i' | 'j' | 'l' | 'I' | '.' | ',' | ':' | ';' | '\'' | '|' | '!' => 0.36,
        'f' | 't' | 'r' | '(' | ')' | '-' | '/' | '[' | ']' => 0.44,
        'm' | 'w' | 'M' | 'W' | '@' | '%' | '…' | '—' => 1.0,
        'A'..='Z' => 0.77,
        _ if first.is_ascii() => 0.64,
        _ if grapheme.width() >= 2 => extra.min(4.0).mul_add(0.35, 1.3),
        _ => extra.mul_add(0.4, 0.8),
    }
}

/// Breaks a text into lines no wider than `width_em`, at spaces where it can, inside words
/// where it must; beyond `most` lines the text ends in an ellipsis.
#[must_use]
pub(crate) fn lines(text: &str, width: f64, most: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in text.split_whitespace() {
        for piece in pieces(word, width) {
            let joined = if line.is_empty() {
                piece.clone()
            } else {
                format!("{line} {piece}")
            };
            if line.is_empty() || width_em(&joined) <= width {
                line = joined;
            } else {
                lines.push(std::mem::replace(&mut line, piece));
            }
            if lines.len() > most {
                return ended(lines, width, most);
            }
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    if lines.len() > most {
        return ended(lines, width, most);
    }
    lines
}

/// A word cut at grapheme borders into pieces that fit a line.
fn pieces(word: &str, width: f64) -> Vec<String> {
    let mut pieces = vec![String::new()];
    let mut used = 0.0;
    for grapheme in word.graphemes(true) {
        let wide = grapheme_em(grapheme);
        if used + wide > width && used > 0.0 {
            pieces.push(String::new());
            used = 0.0;
        }
        // A pile of marks without end on one letter would run over the lines above.
        let shown: String = grapheme.chars().take(12).collect();
        if let Some(last) = pieces.last_mut() {
            last.push_str(&shown);
        }
        used += wide;
    }
    pieces
}

fn ended(mut lines: Vec<String>, width: f64, most: usize) -> Vec<String> {
    lines.truncate(most);
    if let Some(last) = lines.last_mut() {
        while width_em(last) + 1.0 > width {
            let Some((at, _)) = last.grapheme_indices(true).next_back() else {
                break;
            };
            last.truncate(at);
        }
        last.push('…');
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::{lines, width_em};
    use proptest::prelude::*;

    #[test]
    fn words_break_at_spaces_then_inside() {
        assert_eq!(lines("grilled chicken", 5.2, 3), ["grilled", "chicken"]);
        assert_eq!(lines("abcdefghij", 3.3, 9), ["abcde", "fghij"]);
        assert_eq!(lines("one two three four", 3.2, 2), ["one", "two…"]);
        assert!(lines("   ", 5.0, 2).is_empty());
    }

    proptest! {
        #[test]
        fn no_line_is_wider_than_asked(text in any::<String>(), width in 6.0..30.0f64) {
            let broken = lines(&text, width, 4);
            prop_assert!(broken.len() <= 4);
            for line in broken {
                prop_assert!(width_em(&line) <= width + 1e-9, "{line:?}");
            }
        }
    }
}
