//! Drawings complete in themselves, and the small textured pieces of pages.

use super::figure::{self, ACCENT, COLUMN, EM, Figure, PAPER, PITCH, WIDTH, lines};
use super::lettering::{self, BOLD};
use super::picture::{Picture, Portions};
use super::sketch::Short;
use super::{Bar, Style};
use crate::pages::escape;
use std::fmt::Write as _;

/// Space between drawings side by side, in units.
const BETWEEN: f64 = 14.0;
/// Fonts asked for; any broad sans serif fits the widths reckoned with.
pub(super) const FONTS: &str =
    "Liberation Sans, Arial, Helvetica, Nimbus Sans, DejaVu Sans Condensed, sans-serif";
/// Ink of a drawing that stands alone, on white: contrast 17 to 1.
pub(super) const INK: &str = "#1d1d1b";
/// Height of a strip's bar.
const BAR: f64 = 8.0;

/// Words set in a drawing.
pub(super) struct Line<'w> {
    pub x: f64,
    pub y: f64,
    pub size: f64,
    pub bold: bool,
    pub anchor: &'static str,
    pub words: &'w str,
}

impl<'w> Line<'w> {
    const fn middle(x: f64, y: f64, size: f64, words: &'w str) -> Self {
        Self {
            x,
            y,
            size,
            bold: false,
            anchor: "middle",
            words,
        }
    }
}

pub(super) fn text(svg: &mut String, w: &Line<'_>) {
    let weight = if w.bold { r#" font-weight="700""# } else { "" };
    let accent = if w.words.starts_with('▲') {
        ACCENT
    } else {
        "currentColor"
    };
    let _ = write!(
        svg,
        r#"<text x="{}" y="{}" font-size="{}" text-anchor="{}"{weight} fill="{accent}">{}</text>"#,
        Short(w.x),
        Short(w.y),
        Short(w.size),
        w.anchor,
        escape::svg(w.words)
    );
}

/// The pictures side by side at one scale, on white.
pub(super) fn sheet(pictures: &[&Picture], style: &Style) -> String {
    let laid = figure::laid(pictures);
    let figures = figure::figures(&laid, figure::units_per_cm(&laid), style);
    let prefix = figure::safe_prefix(style);
    let width = (WIDTH + BETWEEN).mul_add(figures.len() as f64, BETWEEN);
    let scale = style.text_scale;
    let (titles, head) = titles(pictures, scale);
    // Plates stand level.
    let foot = head + figures.iter().map(|f| f.height).fold(0.0, f64::max);
    let mut inner = String::new();
    let mut bottom: f64 = 0.0;
    for (i, ((figure, picture), title)) in figures.iter().zip(pictures).zip(&titles).enumerate() {
        let x = Short((WIDTH + BETWEEN).mul_add(i as f64, BETWEEN));
        let down = Short(foot - figure.height);
        let _ = write!(
            inner,
            r#"<g transform="translate({x} 0)">{title}<g transform="translate(0 {down})">{}"#,
            figure.inner
        );
        labels(&mut inner, figure, picture, scale);
        inner.push_str("</g>");
        let id = format!("{prefix}-{i}");
        bottom = bottom.max(strip(&mut inner, picture, foot + 6.0, scale, &id));
        inner.push_str("</g>");
    }
    let mut bars = pictures.iter().flat_map(|p| &p.strip);
    let key = if bars.any(|row| row.share.is_some()) {
        " Bars: shares of a day, the line is the whole of it."
    } else {
        ""
    };
    let note = format!("All at one scale; {}.{key}", figure::fork_words());
    let size = EM * scale * 0.9;
    text(
        &mut inner,
        &Line::middle(width / 2.0, bottom + EM * scale, size, &note),
    );
    let height = Short(bottom + EM * scale * 2.0);
    let names: Vec<&str> = pictures.iter().map(|p| p.title.as_str()).collect();
    let described: Vec<&str> = figures.iter().map(|f| f.description.as_str()).collect();
    format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" class="trencher" viewBox="0 0 {} {height}" role="img" aria-labelledby="{prefix}-title" aria-describedby="{prefix}-desc" color="{INK}" font-family="{FONTS}"><title id="{prefix}-title">{}</title><desc id="{prefix}-desc">{}</desc><rect class="paper" width="100%" height="100%" fill="{PAPER}"/>{inner}</svg>"#,
        Short(width),
        escape::svg(&names.join("; ")),
        escape::svg(&described.join(" ")),
    )
}

/// Titles set from the top, and the height that the tallest needs.
fn titles(pictures: &[&Picture], scale: f64) -> (Vec<String>, f64) {
    let size = EM * 1.4 * scale;
    let mut most = 0;
    let titles = pictures
        .iter()
        .map(|picture| {
            let lines = lettering::lines(&picture.title, WIDTH / (size * BOLD), 3);
            most = most.max(lines.len());
            let mut svg = String::new();
            for (i, words) in lines.iter().enumerate() {
                let y = size.mul_add((i as f64).mul_add(PITCH, 1.0), 4.0);
                let line = Line {
                    bold: true,
                    ..Line::middle(WIDTH / 2.0, y, size, words)
                };
                text(&mut svg, &line);
            }
            svg
        })
        .collect();
    (titles, most as f64 * size * PITCH + 8.0)
}

pub(super) fn labels(svg: &mut String, figure: &Figure, picture: &Picture, scale: f64) {
    for label in &figure.labels {
        let (name, rest) = lines(&picture.foods[label.number - 1], scale);
        let (x, anchor) = if label.left {
            (COLUMN - 2.0, "end")
        } else {
            (WIDTH - COLUMN + 2.0, "start")
        };
        svg.push_str(r#"<g class="label">"#);
        let all = name
            .iter()
            .map(|w| (w, true))
            .chain(rest.iter().map(|w| (w, false)));
        for (i, (words, bold)) in all.enumerate() {
            let y = EM * scale * (i as f64).mul_add(PITCH, 0.95) + label.top_units;
            text(
                svg,
                &Line {
                    x,
                    y,
                    size: EM * scale * 0.96,
                    bold,
                    anchor,
                    words,
                },
            );
        }
        svg.push_str("</g>");
    }
}

/// Portions by group: a textured bar of a day's share with words beside it; returns its end.
fn strip(svg: &mut String, picture: &Picture, top: f64, scale: f64, id: &str) -> f64 {
    let pitch = EM * scale * 1.5;
    let names = 84.0 * scale;
    let (bar, day) = (42.0, 28.0);
    for (i, row) in picture.strip.iter().enumerate() {
        let y = (i as f64).mul_add(pitch, top);
        let base = EM.mul_add(scale * 0.9, y);
        text(
            svg,
            &Line {
                x: names,
                y: base,
                size: EM * scale * 0.9,
                bold: true,
                anchor: "end",
                words: row.texture.name(),
            },
        );
        let x = names + 5.0;
        if let Some(share) = row.share {
            let long = (share * day).clamp(0.8, bar);
            let y = y + EM * scale * 0.9 - BAR;
            svg.push_str(
                &row.texture
                    .clipped((x, y, long, BAR), 1.0, &format!("{id}-b{i}")),
            );
            let _ = write!(
                svg,
                r#"<path d="M{} {}v{}" stroke="currentColor" stroke-width="1"/>"#,
                Short(x + day),
                Short(y - 2.0),
                Short(BAR + 4.0)
            );
        }
        let words = strip_words(row);
        text(
            svg,
            &Line {
                x: x + bar + 6.0,
                y: base,
                size: EM * scale * 0.9,
                bold: false,
                anchor: "start",
                words: &words,
            },
        );
    }
    (picture.strip.len() as f64).mul_add(pitch, top)
}

fn strip_words(row: &Portions) -> String {
    if row.share_words.is_empty() {
        row.amount.clone()
    } else {
        format!("{}, {}", row.amount, row.share_words)
    }
}

/// Height of a bar, and width of a textured one, in CSS pixels.
const BAR_HEIGHT: u32 = 18;
const BAR_WIDTH: u32 = 104;

pub(super) fn share_bar(bar: Bar) -> String {
    let full = bar.full.max(1.0);
    let part = |share: f64| (share.max(0.0) / full).min(1.0);
    let percent = |share: f64| part(share) * 100.0;
    let (day, wide) = (percent(1.0), percent(bar.share));
    // Strokes have a size of their own, so a bar of strokes has one as well.
    let width = bar
        .texture
        .map_or_else(|| "100%".to_owned(), |_| BAR_WIDTH.to_string());
    let mut svg = format!(
        r#"<svg class="bar" width="{width}" height="{BAR_HEIGHT}" aria-hidden="true" focusable="false"><rect width="{day:.2}%" height="100%" class="whole"/>"#
    );
    match bar.texture {
        Some(texture) => {
            let long = f64::from(BAR_WIDTH) * part(bar.share);
            let strokes = texture.strokes((0.0, 0.0, long, f64::from(BAR_HEIGHT)), 2.2);
            let _ = write!(
                svg,
                r#"<svg width="{wide:.2}%" height="100%">{strokes}</svg>"#
            );
        }
        None => {
            let _ = write!(
                svg,
                r#"<rect width="{wide:.2}%" height="100%" fill="currentColor" fill-opacity=".22"/>"#
            );
        }
    }
    let _ = write!(
        svg,
        r#"<rect width="{wide:.2}%" height="100%" fill="none" class="within"/>"#
    );
    if bar.beyond {
        let _ = write!(
            svg,
            r#"<rect x="{day:.2}%" width="{:.2}%" height="100%" fill="none" class="beyond"/>"#,
            wide - day
        );
    }
    let _ = write!(
        svg,
        r#"<line x1="{day:.2}%" x2="{day:.2}%" y1="0" y2="100%" class="mark"/></svg>"#
    );
    svg
}
