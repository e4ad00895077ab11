//! Drawings complete in themselves, and the small textured pieces of pages.

use super::lettering;
use super::svg::{
    DARK, Line, Measures, NAME, PAPER, PITCH, SMALL, bodies, definitions, description, opening,
    safe_prefix, text, used,
};
use super::texture::Texture;
use super::{Bar, Laid, Style};
use crate::pages::escape;
use std::fmt::Write as _;

/// Space between drawings side by side, in units.
const BETWEEN: f64 = 6.0;

pub(super) fn sheet(laid: &[Laid<'_>], style: &Style) -> String {
    let m = Measures::new(laid, style);
    let prefix = safe_prefix(style);
    let prefixes = vec![prefix.clone(); laid.len()];
    let bodies = bodies(laid, m, &prefixes);
    let width = (m.width + BETWEEN).mul_add(laid.len() as f64, BETWEEN);
    let (titles, titles_height) = titles(laid, m);
    let top = bodies.iter().map(|b| b.top).fold(0.0, f64::min);
    let bottom = bodies.iter().map(|b| b.bottom).fold(0.0, f64::max);
    let middle = |i: usize| (m.width + BETWEEN).mul_add(i as f64, m.width / 2.0 + BETWEEN);
    let mut inner = String::new();
    for (i, (body, title)) in bodies.iter().zip(&titles).enumerate() {
        let _ = write!(
            inner,
            r#"<g transform="translate({:.2} 0)"><g transform="translate(0 {:.2})">{title}</g>{}</g>"#,
            middle(i),
            top - titles_height,
            body.svg
        );
    }
    let textures = used(laid);
    let key_end = key(&mut inner, &textures, &prefix, (width, bottom + 2.0), m);
    let start = top - titles_height - 2.0;
    let bounds = (0.0, start, width, key_end - start);
    let all_titles: Vec<&str> = laid.iter().map(|l| l.picture.title.as_str()).collect();
    let descriptions: Vec<String> = laid.iter().map(description).collect();
    format!(
        r#"{}<title id="{prefix}-title">{}</title><desc id="{prefix}-desc">{}</desc><style>{DARK}</style>{}<rect class="paper" y="{start:.2}" width="{width:.2}" height="{:.2}" fill="{PAPER}"/>{inner}</svg>"#,
        opening(&prefix, bounds, m),
        escape::svg(&all_titles.join("; ")),
        escape::svg(&descriptions.join(" ")),
        definitions(&textures, &prefix),
        key_end - start,
    )
}

/// Titles set at y = 0 downwards, and the height that the tallest needs.
fn titles(laid: &[Laid<'_>], m: Measures) -> (Vec<String>, f64) {
    let size = NAME * 1.25 * m.text;
    let mut tallest = 0;
    let titles = laid
        .iter()
        .map(|l| {
            let broken = lettering::lines(&l.picture.title, m.width / (size * lettering::BOLD), 3);
            tallest = tallest.max(broken.len());
            let mut svg = String::from(r#"<g class="label" text-anchor="middle">"#);
            for (i, words) in broken.iter().enumerate() {
                let y = (size * PITCH).mul_add(i as f64, size);
                text(&mut svg, words, (0.0, y), &plain(size, true));
            }
            svg.push_str("</g>");
            svg
        })
        .collect();
    (titles, size * PITCH * tallest as f64 + 3.0)
}

const fn plain(size: f64, bold: bool) -> Line {
    Line {
        words: String::new(),
        size,
        bold,
        accent: false,
    }
}

/// The key of textures, in rows as wide as the sheet; returns where it ends.
fn key(
    svg: &mut String,
    textures: &[Texture],
    prefix: &str,
    (width, top): (f64, f64),
    m: Measures,
) -> f64 {
    let size = SMALL * m.text;
    let (mut x, mut y) = (4.0, top);
    let dashed = ("dashed: high end of the estimate", None);
    let entries = textures
        .iter()
        .map(|t| (t.name(), Some(*t)))
        .chain(std::iter::once(dashed));
    for (words, texture) in entries {
        let wide = lettering::width_em(words).mul_add(size, size * 2.0 + 6.0);
        if x > 4.0 && x + wide > width - 2.0 {
            x = 4.0;
            y += size * 1.7;
        }
        let paint = texture.map_or_else(
            || r#"fill="none" stroke-dasharray="1.4 1""#.to_owned(),
            |t| format!(r#"fill="url(#{})""#, t.pattern_id(prefix)),
        );
        let _ = write!(
            svg,
            r#"<g class="label"><rect x="{x:.2}" y="{y:.2}" width="{:.2}" height="{size:.2}" {paint} stroke="currentColor" stroke-width=".35"/>"#,
            size * 1.7
        );
        let at = (size.mul_add(2.0, x), size.mul_add(0.85, y));
        text(svg, words, at, &plain(size, false));
        svg.push_str("</g>");
        x += wide;
    }
    y + size * 1.7
}

/// Height of a bar in CSS pixels.
const BAR_HEIGHT: u32 = 18;

pub(super) fn share_bar(bar: Bar, id_prefix: &str) -> String {
    let id = safe_prefix(&Style {
        id_prefix: id_prefix.to_owned(),
        ..Style::default()
    });
    let full = bar.full.max(1.0);
    let percent = |share: f64| (share.max(0.0) / full).min(1.0) * 100.0;
    let day = percent(1.0);
    let paint = bar.texture.map_or_else(
        || r#"fill="currentColor" fill-opacity=".22""#.to_owned(),
        |t| format!(r#"fill="url(#{})""#, t.pattern_id(&id)),
    );
    let mut svg = format!(
        r#"<svg class="bar" width="100%" height="{BAR_HEIGHT}" aria-hidden="true" focusable="false">"#
    );
    if let Some(texture) = bar.texture {
        let _ = write!(svg, "<defs>{}</defs>", texture.pattern(&id, 2.6));
    }
    let _ = write!(
        svg,
        r#"<rect width="{day:.2}%" height="100%" class="whole"/><rect width="{:.2}%" height="100%" {paint} class="within"/>"#,
        percent(if bar.beyond { 1.0 } else { bar.share }),
    );
    if bar.beyond {
        let _ = write!(
            svg,
            r#"<rect x="{day:.2}%" width="{:.2}%" height="100%" {paint} class="beyond"/>"#,
            percent(bar.share) - day,
        );
    }
    let _ = write!(
        svg,
        r#"<line x1="{day:.2}%" x2="{day:.2}%" y1="0" y2="100%" class="mark"/></svg>"#
    );
    svg
}

pub(super) fn swatch(texture: Texture, id_prefix: &str) -> String {
    let id = safe_prefix(&Style {
        id_prefix: id_prefix.to_owned(),
        ..Style::default()
    });
    format!(
        r#"<svg class="swatch" width="28" height="{BAR_HEIGHT}" aria-hidden="true" focusable="false"><defs>{}</defs><rect width="100%" height="100%" fill="url(#{})" class="within"/></svg>"#,
        texture.pattern(&id, 2.6),
        texture.pattern_id(&id),
    )
}
