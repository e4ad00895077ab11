//! Making other people's text harmless: one function for each target.
//!
//! Names and notes come from menus, files and the network. Whatever they hold must show as
//! letters and do nothing. The two functions share one table because HTML and SVG give the
//! same five characters a meaning; they differ in which characters the target cannot carry.

pub(crate) use crate::reading::json_escaped;
use crate::reading::{is_formula, is_hidden, visible};
use std::borrow::Cow;

/// Text made safe for an HTML text node or a quoted HTML attribute.
///
/// ```
/// use trencher::pages::escape::html;
/// assert_eq!(html("<b>salt & \"pepper\"</b>"), "&lt;b&gt;salt &amp; &quot;pepper&quot;&lt;/b&gt;");
/// ```
#[must_use]
pub fn html(text: &str) -> String {
    escaped(text, |c| c.is_control() && !matches!(c, '\t' | '\n'))
}

/// Text made safe for an SVG (XML 1.0) text node or quoted attribute.
///
/// Line breaks and tabs become spaces: a drawing sets its own lines.
///
/// ```
/// use trencher::pages::escape::svg;
/// assert_eq!(svg("a\u{0}b\nc<d"), "a\u{fffd}b c&lt;d");
/// ```
#[must_use]
pub fn svg(text: &str) -> String {
    let one_line = text.replace(['\t', '\n', '\r'], " ");
    escaped(&one_line, char::is_control)
}

/// A page made safe for a terminal: whatever it holds that cannot be seen, but would act on
/// the screen or on the order of the letters, stands there as its code. Line breaks, tabs and
/// the one accent that our own pages use stay.
///
/// ```
/// use trencher::pages::escape::terminal;
/// assert_eq!(terminal("rice\u{1b}[31m\n"), "rice\\u{1b}[31m\n");
/// ```
#[must_use]
pub fn terminal(page: &str) -> Cow<'_, str> {
    let acts = |c: char| c != '\n' && is_hidden(c);
    if !page.contains(acts) {
        return Cow::Borrowed(page);
    }
    let mut safe = String::with_capacity(page.len() + 16);
    for (at, piece) in page.split(ACCENTED).enumerate() {
        if at > 0 {
            safe.push_str(ACCENTED);
        }
        for c in piece.chars() {
            if acts(c) {
                safe.extend(c.escape_unicode());
            } else {
                safe.push(c);
            }
        }
    }
    Cow::Owned(safe)
}

/// The only words of ours that reach a terminal in a colour.
pub(crate) const ACCENTED: &str = "\u{1b}[1;35mbeyond\u{1b}[0m";

/// Any value as indented JSON with a line break behind it. What cannot be seen stands there
/// as its escape, which means the same to whoever reads the JSON and does nothing to a
/// terminal.
pub(crate) fn json<T: serde::Serialize + ?Sized>(value: &T) -> Result<String, serde_json::Error> {
    let text = serde_json::to_string_pretty(value)?;
    Ok(json_escaped(text) + "\n")
}

/// Text as a cell of a table that a spreadsheet may open: what would be run as a formula gets
/// an apostrophe in front, what cannot be seen stands there as its code.
///
/// ```
/// use trencher::pages::escape::cell;
/// assert_eq!(cell("=1+1"), "'=1+1");
/// assert_eq!(cell("rice"), "rice");
/// ```
#[must_use]
pub fn cell(text: &str) -> String {
    let shown = visible(text);
    if is_formula(&shown) {
        format!("'{shown}")
    } else {
        shown
    }
}

/// Whether a character only steers the direction of its neighbours: an override or isolate
/// left open in a name would turn round the page's own words after it.
const fn steers_direction(c: char) -> bool {
    matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Code points that neither XML 1.0 nor HTML lets a document hold.
const fn is_noncharacter(c: char) -> bool {
    (c as u32) & 0xfffe == 0xfffe || matches!(c, '\u{fdd0}'..='\u{fdef}')
}

fn escaped(text: &str, unwanted: impl Fn(char) -> bool) -> String {
    let mut safe = String::with_capacity(text.len() + 16);
    for c in text.chars() {
        match c {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            c if steers_direction(c) => {}
            c if unwanted(c) || is_noncharacter(c) => safe.push('\u{fffd}'),
            c => safe.push(c),
        }
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::{cell, html, json, svg, terminal};
    use crate::reading::is_hidden;
    use proptest::prelude::*;

    #[test]
    fn markup_becomes_letters() {
        assert_eq!(
            html("<script>alert('x')</script>"),
            "&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;"
        );
        assert_eq!(svg("</text><script/>"), "&lt;/text&gt;&lt;script/&gt;");
    }

    #[test]
    fn direction_overrides_go_and_scripts_stay() {
        assert_eq!(html("a\u{202e}b\u{2066}c"), "abc");
        assert_eq!(svg("خبز 🍞 שלום"), "خبز 🍞 שלום");
        // The joiner holds one emoji together and stays.
        assert_eq!(svg("👩\u{200d}🍳"), "👩\u{200d}🍳");
    }

    #[test]
    fn characters_no_document_may_hold_are_replaced() {
        assert_eq!(html("a\u{0}\u{1b}\u{ffff}"), "a\u{fffd}\u{fffd}\u{fffd}");
        assert_eq!(html("a\tb\nc"), "a\tb\nc");
        assert_eq!(svg("a\tb\r\nc"), "a b  c");
    }

    #[test]
    fn formulas_become_text_and_numbers_stay() {
        for formula in [
            "=1+1", "+A1", "+1", "-A1", "@SUM(A1)", " =1", "＝1", "-1+cmd", "-2",
        ] {
            assert_eq!(cell(formula), format!("'{formula}"));
        }
        for plain in ["rice", "", "a=b", "'=1"] {
            assert_eq!(cell(plain), plain);
        }
        assert_eq!(cell("\u{1b}[31m"), "\\u{1b}[31m");
    }

    #[test]
    fn our_own_accent_reaches_the_terminal_and_no_other() {
        let page = format!("{} \u{1b}[1;35mx\u{9b}m\u{2028}\n", super::ACCENTED);
        let expected = format!(
            "{} \\u{{1b}}[1;35mx\\u{{9b}}m\\u{{2028}}\n",
            super::ACCENTED
        );
        assert_eq!(terminal(&page), expected);
    }

    proptest! {
        #[test]
        fn any_text_is_still_before_a_terminal(text in any::<String>()) {
            prop_assert!(!terminal(&text).contains(|c: char| c != '\n' && is_hidden(c)));
            let written = json(&text).unwrap();
            prop_assert!(!written.contains(|c: char| c != '\n' && is_hidden(c)));
            prop_assert_eq!(serde_json::from_str::<String>(&written).unwrap(), text.clone());
            prop_assert!(!cell(&text).trim_start().starts_with(['=', '@']));
        }

        #[test]
        fn any_text_makes_a_well_formed_svg(text in any::<String>()) {
            let xml = format!("<text a=\"{0}\">{0}</text>", svg(&text));
            prop_assert!(roxmltree::Document::parse(&xml).is_ok());
        }

        #[test]
        fn any_text_stays_text_in_html(text in any::<String>()) {
            let page = format!("<!DOCTYPE html><title>t</title><p title=\"{0}\">{0}</p>", html(&text));
            let parsed = scraper::Html::parse_document(&page);
            prop_assert!(parsed.errors.is_empty(), "{:?}", parsed.errors);
            let elements = parsed.tree.values().filter(|n| n.is_element()).count();
            prop_assert_eq!(elements, 5, "html, head, title, body, p");
        }
    }
}
