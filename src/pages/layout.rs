//! What every page for a terminal of 80 columns is set with: tables, wrapped lines, cut names.

pub(crate) use crate::reading::visible;
use tabled::builder::Builder;
use tabled::settings::object::{Columns, Object, Rows};
use tabled::settings::{Alignment, Modify, Padding, Style, Width};

/// Columns of a line.
pub(super) const LINE_WIDTH: usize = 79;

/// A table with columns at most `widths` wide, those in `right` set to the right.
pub(super) fn grid(table: Builder, widths: &[usize], right: &[usize]) -> String {
    let mut table = table.build();
    table.with(Style::blank()).with(Padding::new(0, 1, 0, 0));
    for (column, width) in widths.iter().enumerate() {
        table.with(Modify::new(Columns::one(column)).with(Width::wrap(*width).keep_words(true)));
    }
    for column in right {
        table.with(
            Modify::new(Columns::one(*column).intersect(Rows::new(0..))).with(Alignment::right()),
        );
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

/// Lines of at most 79 columns, continued lines indented.
pub(crate) fn wrap(text: &str) -> String {
    let mut out = String::new();
    let mut column = 0;
    for word in text.split(' ').filter(|w| !w.is_empty()) {
        let width = width(word);
        if column > 0 && column + 1 + width > LINE_WIDTH {
            out.push_str("\n  ");
            column = 2;
        } else if column > 0 {
            out.push(' ');
            column += 1;
        }
        out.push_str(word);
        column += width;
    }
    out.push('\n');
    out
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
    fn lines_wrap_below_eighty_columns() {
        let text = wrap(&"word ".repeat(60));
        assert!(text.lines().all(|l| l.len() < 80));
        assert!(text.lines().nth(1).is_some_and(|l| l.starts_with("  word")));
    }
}
