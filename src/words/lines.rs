//! Where in a text something stands.

/// The line of a record, from 1: its position stands before the empty lines above it.
pub(crate) fn line_of(text: &str, position: Option<&csv::Position>) -> u64 {
    let start = position.map_or(0, |p| p.byte() as usize);
    let before = text.get(..start).unwrap_or_default();
    let rest = &text[before.len()..];
    let empty = rest.len() - rest.trim_start_matches(['\r', '\n']).len();
    let above = &text[..before.len() + empty];
    above.matches('\n').count() as u64 + 1
}
