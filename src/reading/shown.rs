//! Text from outside on its way out again, where what cannot be seen could do harm.

use crate::words::is_hidden;
use std::fmt::Write as _;

/// JSON text with what cannot be seen as escapes: it can only stand within strings, where it
/// means the same to whoever reads the JSON, and does nothing to a terminal.
#[must_use]
pub(crate) fn json_escaped(text: String) -> String {
    let acts = |c: char| c != '\n' && is_hidden(c);
    if !text.contains(acts) {
        return text;
    }
    let mut safe = String::with_capacity(text.len() + 16);
    for c in text.chars() {
        if acts(c) {
            for unit in c.encode_utf16(&mut [0; 2]) {
                let _ = write!(safe, "\\u{unit:04x}");
            }
        } else {
            safe.push(c);
        }
    }
    safe
}

/// Whether a spreadsheet would run a cell: it begins with a sign that starts a formula, in
/// either width.
#[must_use]
pub(crate) fn is_formula(text: &str) -> bool {
    let starts = ['=', '+', '-', '@', '＝', '＋', '－', '＠'];
    text.trim_start().starts_with(starts)
}
