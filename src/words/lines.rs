//! Where in a text something stands, and how far its head goes.

/// The line of a record, from 1: its position stands before the empty lines above it.
pub(crate) fn line_of(text: &str, position: Option<&csv::Position>) -> u64 {
    let start = position.map_or(0, |p| p.byte() as usize);
    let before = text.get(..start).unwrap_or_default();
    let rest = &text[before.len()..];
    let empty = rest.len() - rest.trim_start_matches(['\r', '\n']).len();
    let above = &text[..before.len() + empty];
    above.matches('\n').count() as u64 + 1
}

/// The head of a name in the style of food tables: `fish` of `fish, pike, walleye`.
pub(crate) fn head(name: &str) -> &str {
    name.split_once(',').map_or(name, |(head, _)| head)
}
