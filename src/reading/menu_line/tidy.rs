//! Texts made plain, and lines in plain words.

use super::line::{MenuLine, MenuPart, PartKind};
use super::serving::Feeds;

/// `a la mode` and `in a bread bowl` in plain words: the bowl is eaten as well.
pub(super) fn unfold(line: &mut MenuLine) {
    for (written, means) in [
        (" a la mode", "vanilla ice cream"),
        (" \u{e0} la mode", "vanilla ice cream"),
        (" in a bread bowl", "bread bowl"),
    ] {
        let lower = line.head.to_lowercase();
        if lower.len() == line.head.len() && lower.ends_with(written) {
            let bare = line.head.len() - written.len();
            let head = line.head[..bare].to_owned();
            line.main = line.main.replacen(&line.head, &head, 1);
            line.head = head;
            let part = MenuPart {
                text: means.to_owned(),
                what: PartKind::Named,
            };
            line.parts.insert(0, part);
        }
    }
}

/// Whom `serves 4-6`, `for two` or `for the table` feeds; a number says more than a table.
pub(super) fn feeds<'t>(phrases: impl Iterator<Item = &'t str>) -> Option<Feeds> {
    let said: Vec<&str> = phrases.collect();
    let people = said.iter().find_map(|text| people(text));
    let table = said.iter().any(|text| is_for_sharing(text));
    people
        .map(Feeds::People)
        .or_else(|| table.then_some(Feeds::Table))
}

/// People that a phrase names: the middle of several.
fn people(text: &str) -> Option<f64> {
    let spelt = |word: &str| {
        ["one", "two", "three", "four", "five", "six"]
            .iter()
            .position(|w| *w == word)
            .map(|at| at as f64 + 1.0)
    };
    let list: Vec<f64> = text
        .split(|c: char| !c.is_alphanumeric())
        .filter_map(|word| word.parse().ok().or_else(|| spelt(&word.to_lowercase())))
        .collect();
    (!list.is_empty()).then(|| list.iter().sum::<f64>() / list.len() as f64)
}

/// `for the table`, `to share`.
fn is_for_sharing(text: &str) -> bool {
    let lower = text.to_lowercase();
    ["table", "share", "sharing"]
        .iter()
        .any(|word| lower.ends_with(word))
}

/// One kind of space, one comma, none at the ends; `a la mode` and `in a bread bowl` in plain words.
pub(super) fn tidy(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut pending = ' ';
    for part in text.split_whitespace() {
        let bare = part.trim_matches(',');
        if bare.is_empty() {
            pending = ',';
            continue;
        }
        if part.starts_with(',') {
            pending = ',';
        }
        if !out.is_empty() {
            if pending == ',' && !out.ends_with(',') {
                out.push(',');
            }
            out.push(' ');
        }
        out.push_str(bare);
        pending = if part.ends_with(',') { ',' } else { ' ' };
    }
    let ends: &[char] = &[
        ',', ' ', '.', ':', ';', '-', '\u{2013}', '\u{2014}', '|', '/', '+',
    ];
    out.trim_matches(ends).to_owned()
}
