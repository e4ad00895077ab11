//! Characters that nobody sees.

/// Characters that a reader cannot see: controls, marks that turn the writing direction,
/// joiners without width. They can hide words, so lines with them are refused.
#[must_use]
pub fn is_hidden(letter: char) -> bool {
    (letter.is_control() && letter != '\t')
        || matches!(letter,
            '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}' | '\u{200e}' | '\u{200f}'
            | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}'
            | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
}
