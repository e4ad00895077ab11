//! What every page for a terminal of 80 columns is set with: tables, wrapped lines, cut names.

pub(crate) use crate::reading::visible;
use tabled::builder::Builder;
use tabled::settings::object::Columns;
use tabled::settings::{Alignment, Modify, Padding, Style, Width};

/// Columns of a line.
pub(super) const LINE_WIDTH: usize = 79;

/// Columns that words kept together may take.
const LONGEST_UNBROKEN: usize = 30;

/// A table with columns at most `widths` wide, those in `right` set to the right.
pub(crate) fn grid(table: Builder, widths: &[usize], right: &[usize]) -> String {
    let mut table = table.build();
    table.with(Style::blank()).with(Padding::new(0, 1, 0, 0));
    for (column, width) in widths.iter().enumerate() {
        table.with(Modify::new(Columns::one(column)).with(Width::wrap(*width).keep_words(true)));
    }
    for column in right {
        table.with(Modify::new(Columns::one(*column)).with(Alignment::right()));
    }
    let text = table.to_string();
    text.lines()
        .map(|line| line.trim_end().to_owned() + "\n")
        .collect()
}

/// Columns that a text takes.
pub(super) fn width(text: &str) -> usize {
    unicode_width::UnicodeWidthStr::width(text)
}

/// Text cut to `room` columns, the cut marked.
pub(super) fn shortened(text: &str, room: usize) -> String {
    if width(text) <= room {
        return text.to_owned();
    }
    let mut short = String::new();
    for c in text.chars() {
        let next = unicode_width::UnicodeWidthChar::width(c).unwrap_or(0);
        if width(&short) + next + 3 > room {
            break;
        }
        short.push(c);
    }
    format!("{}...", short.trim_end_matches([' ', ',', ';']))
}

/// Lines of at most 79 columns, continued lines indented; a number stays with what it counts.
pub(crate) fn wrap(text: &str) -> String {
    wrapped(text, LINE_WIDTH)
}

/// The same, every line set in by so many columns.
pub(super) fn set_in(text: &str, by: usize) -> String {
    let lines = wrapped(text, LINE_WIDTH - by);
    let set_in = |line: &str| format!("{}{line}\n", " ".repeat(by));
    lines.lines().map(set_in).collect()
}

fn wrapped(text: &str, most: usize) -> String {
    let mut out = String::new();
    let mut column = 0;
    for word in unbroken(text) {
        let width = width(&word);
        if column > 0 && column + 1 + width > most {
            out.push_str("\n  ");
            column = 2;
        } else if column > 0 {
            out.push(' ');
            column += 1;
        }
        out.push_str(&word);
        column += width;
    }
    out.push('\n');
    out
}

/// What a line may not be broken in: a word, or a number with its unit, or both ends of a
/// range (`1,240 kcal`, `62 %`, `590 to 1,280 g`).
fn unbroken(text: &str) -> Vec<String> {
    let begins = |word: &str| word.starts_with(|c: char| c.is_ascii_digit());
    let is_number = |word: &str| {
        let word = word.trim_start_matches(['(', '~', '<', '-']);
        begins(word)
            && word
                .chars()
                .all(|c| c.is_ascii_digit() || ".,/".contains(c))
            && !word.ends_with([',', '.'])
    };
    let mut words = text.split(' ').filter(|w| !w.is_empty()).peekable();
    let mut all = Vec::new();
    while let Some(word) = words.next() {
        let mut whole = word.to_owned();
        let mut last = word;
        while is_number(last) && width(&whole) < LONGEST_UNBROKEN {
            let Some(next) = words.next() else { break };
            whole = format!("{whole} {next}");
            last = match next {
                "to" | "of" => words.peek().filter(|w| begins(w)).map_or(next, |_| "0"),
                other => other,
            };
        }
        all.push(whole);
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_name_is_cut_to_its_room() {
        assert_eq!(shortened("short", 10), "short");
        assert_eq!(shortened("a very, long name", 10), "a very...");
        assert!(width(&shortened(&"\u{9910}".repeat(40), 20)) <= 20);
    }

    #[test]
    fn hidden_characters_show() {
        assert_eq!(visible("a\u{1b}[31m\u{202e}b"), "a\\u{1b}[31m\\u{202e}b");
    }

    #[test]
    fn a_number_stays_with_its_unit() {
        let parts = unbroken("about 1,240 kcal (80 % range 590 to 1,280), 2 of 3 cups");
        assert_eq!(
            parts,
            [
                "about",
                "1,240 kcal",
                "(80 %",
                "range",
                "590 to 1,280),",
                "2 of 3 cups"
            ]
        );
        for fill in 40..80 {
            let text = wrap(&format!("{} 1,240 kcal of 62 % more", "x".repeat(fill)));
            assert!(
                !text.contains("1,240\n") && !text.contains("62\n"),
                "{text}"
            );
        }
    }

    #[test]
    fn lines_wrap_below_eighty_columns() {
        let text = wrap(&"word ".repeat(60));
        assert!(text.lines().all(|l| l.len() < 80));
        assert!(text.lines().nth(1).is_some_and(|l| l.starts_with("  word")));
    }
}
