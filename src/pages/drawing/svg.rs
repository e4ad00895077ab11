//! Writing the drawing down as SVG. One unit is about a millimetre on a printed page.

use super::geometry::{Convex, Point};
use super::labels::{self, Side, Wish};
use super::lettering::{self, BOLD};
use super::section::section;
use super::texture::Texture;
use super::vessel::short;
use super::{Laid, Style};
use crate::pages::escape;
use std::fmt::Write as _;

/// Diameter in units of the largest vessel of a set.
const LARGEST: f64 = 50.0;
/// Width of a label column at text scale 1.
const COLUMN: f64 = 31.0;
/// Space between a label and the vessel.
const LEADER: f64 = 3.0;
/// How far from the middle labels begin.
const EDGE: f64 = LARGEST / 2.0 + LEADER;
/// Letter sizes at text scale 1.
pub(super) const NAME: f64 = 4.0;
pub(super) const SMALL: f64 = 3.6;
/// Line pitch as a multiple of the letter size.
pub(super) const PITCH: f64 = 1.22;
/// Fonts asked for; any broad sans serif fits the widths reckoned with.
const FONTS: &str = "Liberation Sans, Arial, Helvetica, DejaVu Sans, sans-serif";
/// Colours of a drawing that stands alone: ink, paper, accent, for light and dark screens.
/// Contrast with the paper is 15:1 and 6:1 in light, 13:1 and 8:1 in dark.
const INK: &str = "#1d1d1b";
pub(super) const PAPER: &str = "#ffffff";
pub(super) const ACCENT: &str = "#a8320f";
pub(super) const DARK: &str = "@media (prefers-color-scheme:dark){.trencher{color:#e8e6e1;background:#191918}.trencher .paper{fill:#191918}.trencher .halo{stroke:#191918}.trencher .accent{fill:#ff9d7a}.trencher .accent-line{stroke:#ff9d7a}}";

/// Measures that follow from the style.
#[derive(Clone, Copy)]
pub(super) struct Measures {
    pub text: f64,
    pub column: f64,
    pub width: f64,
    /// Units a cm.
    pub scale: f64,
}

impl Measures {
    pub fn new(laid: &[Laid<'_>], style: &Style) -> Self {
        let text = style.text_scale.clamp(0.5, 3.0);
        let column = COLUMN * text;
        let widest = laid
            .iter()
            .map(|l| l.setting.vessel.extent_cm())
            .fold(1.0, f64::max);
        Self {
            text,
            column,
            width: 2.0f64.mul_add(column + LEADER, LARGEST),
            scale: LARGEST / widest,
        }
    }
}

/// A line of a label.
pub(super) struct Line {
    pub words: String,
    pub size: f64,
    pub bold: bool,
    pub accent: bool,
}

/// A label with its place.
struct Label {
    lines: Vec<Line>,
    side: Side,
    top: f64,
    height: f64,
    pile: Point,
}

fn label_lines(laid: &Laid<'_>, patch: usize, m: Measures) -> Vec<Line> {
    let patch = &laid.picture.patches[patch];
    let broken = |text: &str, size: f64, bold: bool, most: usize| {
        let weight = if bold { BOLD } else { 1.0 };
        lettering::lines(text, m.column / (size * m.text * weight), most)
    };
    let mut lines = Vec::new();
    let mut add = |text: &str, size: f64, bold: bool, most: usize, accent: bool| {
        for words in broken(text, size, bold, most) {
            lines.push(Line {
                words,
                size: size * m.text,
                bold,
                accent,
            });
        }
    };
    add(&patch.label, NAME, true, 3, false);
    add(&patch.size_words, SMALL, false, 2, false);
    if patch.beyond_day {
        add("▲ beyond", SMALL, true, 3, true);
    }
    lines
}

/// Where a leader meets its pile: part of the way from the middle to the near edge, so that
/// the line covers little of the texture.
fn pointed_at(outline: &Convex, toward: f64, m: Measures) -> Point {
    let centre = outline.centre();
    let reach = outline
        .corners
        .iter()
        .map(|p| (p.x - centre.x) * toward)
        .fold(0.0, f64::max);
    Point::new(
        (reach * 0.45).mul_add(toward, centre.x) * m.scale,
        -centre.y * m.scale,
    )
}

fn labels(laid: &Laid<'_>, m: Measures) -> Vec<Label> {
    let lines: Vec<Vec<Line>> = laid
        .piles
        .iter()
        .map(|pile| label_lines(laid, pile.patch, m))
        .collect();
    let heights: Vec<f64> = lines
        .iter()
        .map(|l| l.iter().map(|line| line.size * PITCH).sum())
        .collect();
    let wishes: Vec<Wish> = laid
        .piles
        .iter()
        .zip(&heights)
        .map(|(pile, height)| Wish {
            pile: pointed_at(&pile.outline, pile.outline.centre().x.signum(), m),
            height: *height,
        })
        .collect();
    labels::place(&wishes, EDGE, LARGEST)
        .into_iter()
        .zip(lines)
        .zip(&wishes)
        .map(|((place, lines), wish)| Label {
            lines,
            side: place.side,
            top: place.top,
            height: wish.height,
            pile: wish.pile,
        })
        .collect()
}

/// Upper and lower end of what is drawn around the vessel's middle.
fn extent(laid: &Laid<'_>, labels: &[Label], m: Measures) -> (f64, f64) {
    let radius = laid.setting.vessel.diameter_cm() / 2.0 * m.scale + 0.6;
    let high = laid.piles.iter().filter_map(|p| p.high.as_ref());
    let reach = high
        .flat_map(|outline| outline.corners.iter())
        .map(|p| p.y.abs() * m.scale)
        .fold(radius, f64::max);
    labels.iter().fold((-reach, reach), |(top, bottom), label| {
        (top.min(label.top), bottom.max(label.top + label.height))
    })
}

/// One drawing's elements around the vessel's middle, and where they end below.
pub(super) struct Body {
    pub svg: String,
    pub top: f64,
    pub bottom: f64,
}

pub(super) fn bodies(laid: &[Laid<'_>], m: Measures, prefixes: &[String]) -> Vec<Body> {
    let labels: Vec<Vec<Label>> = laid.iter().map(|l| self::labels(l, m)).collect();
    // Vessels shown together stand level, so the set shares its ends above and below.
    let (top, bottom) = laid
        .iter()
        .zip(&labels)
        .map(|(l, labels)| extent(l, labels, m))
        .fold((0.0, 0.0), |(t, b): (f64, f64), (top, bottom)| {
            (t.min(top), b.max(bottom))
        });
    laid.iter()
        .zip(labels)
        .zip(prefixes)
        .map(|((l, labels), prefix)| body(l, &labels, (top, bottom), m, prefix))
        .collect()
}

fn body(l: &Laid<'_>, labels: &[Label], ends: (f64, f64), m: Measures, prefix: &str) -> Body {
    let mut svg = String::new();
    vessel(&mut svg, l, m);
    piles(&mut svg, l, m, prefix);
    for label in labels {
        leader(&mut svg, label);
    }
    for label in labels {
        lettered(&mut svg, label);
    }
    let mut y = ends.1 + 3.0;
    if let Some(section) = section(l, m.scale) {
        y += section.above;
        let _ = write!(
            svg,
            r#"<g transform="translate(0 {y:.2})">{}</g>"#,
            section.svg
        );
        y += section.below;
        y = text_block(&mut svg, &section.words, y, m);
    }
    y = scale_bar(&mut svg, l, y, m);
    for note in &l.setting.notes {
        y = text_block(&mut svg, note, y, m);
    }
    Body {
        svg,
        top: ends.0 - 1.0,
        bottom: y + 1.0,
    }
}

fn vessel(svg: &mut String, l: &Laid<'_>, m: Measures) {
    let outer = l.setting.vessel.diameter_cm() / 2.0 * m.scale;
    let inner = match l.setting.fill {
        Some(fill) => fill.radius_cm * m.scale,
        None => l.setting.vessel.well_radius_cm() * m.scale,
    };
    let _ = write!(
        svg,
        r#"<g fill="none" stroke="currentColor"><circle r="{outer:.2}" stroke-width=".6"/><circle r="{inner:.2}" stroke-width=".25"/></g>"#
    );
}

// Four decimals: at two, a garnish of a few hundredths of a square centimetre was drawn up to
// 5 % off its area.
fn path(outline: &Convex, m: Measures) -> String {
    let mut d = String::new();
    for (i, p) in outline.corners.iter().enumerate() {
        let lead = if i == 0 { 'M' } else { 'L' };
        let _ = write!(d, "{lead}{:.4} {:.4}", p.x * m.scale, -p.y * m.scale);
    }
    d.push('Z');
    d
}

fn piles(svg: &mut String, l: &Laid<'_>, m: Measures, prefix: &str) {
    for pile in &l.piles {
        let patch = &l.picture.patches[pile.patch];
        let d = path(&pile.outline, m);
        let edge = if patch.beyond_day {
            format!(r#"class="accent-line" stroke="{ACCENT}" stroke-width="1""#)
        } else {
            r#"stroke="currentColor" stroke-width=".45""#.to_owned()
        };
        let _ = write!(
            svg,
            r#"<path class="paper" d="{d}" fill="{PAPER}"/><path d="{d}" fill="url(#{})" {edge} data-patch="{}" data-depth-cm="{:.4}"/>"#,
            patch.texture.pattern_id(prefix),
            pile.patch,
            pile.depth_cm,
        );
    }
    for high in l.piles.iter().filter_map(|pile| pile.high.as_ref()) {
        let _ = write!(
            svg,
            r#"<path class="high" d="{}" fill="none" stroke="currentColor" stroke-width=".35" stroke-dasharray="1.4 1"/>"#,
            path(high, m)
        );
    }
}

fn leader(svg: &mut String, label: &Label) {
    let x = match label.side {
        Side::Left => -EDGE + 0.8,
        Side::Right => EDGE - 0.8,
    };
    let y = label.top + label.height / 2.0;
    let Point { x: px, y: py } = label.pile;
    let _ = write!(
        svg,
        r#"<path class="halo" d="M{x:.2} {y:.2}L{px:.2} {py:.2}" stroke="{PAPER}" stroke-width="1.3"/><path d="M{x:.2} {y:.2}L{px:.2} {py:.2}" stroke="currentColor" stroke-width=".35"/><circle class="halo" cx="{px:.2}" cy="{py:.2}" r="1" fill="currentColor" stroke="{PAPER}" stroke-width=".5"/>"#
    );
}

fn lettered(svg: &mut String, label: &Label) {
    let (x, anchor) = match label.side {
        Side::Left => (-EDGE, "end"),
        Side::Right => (EDGE, "start"),
    };
    let _ = write!(svg, r#"<g class="label" text-anchor="{anchor}">"#);
    let mut y = label.top;
    for line in &label.lines {
        let baseline = line.size.mul_add(0.95, y);
        y += line.size * PITCH;
        text(svg, &line.words, (x, baseline), line);
    }
    svg.push_str("</g>");
}

pub(super) fn text(svg: &mut String, words: &str, (x, y): (f64, f64), line: &Line) {
    let weight = if line.bold {
        r#" font-weight="700""#
    } else {
        ""
    };
    let ink = if line.accent {
        format!(r#"class="accent" fill="{ACCENT}""#)
    } else {
        r#"fill="currentColor""#.to_owned()
    };
    let _ = write!(
        svg,
        r#"<text x="{x:.2}" y="{y:.2}" font-size="{:.2}"{weight} {ink}>{}</text>"#,
        line.size,
        escape::svg(words)
    );
}

/// A centred sentence below the vessel; returns where it ends.
fn text_block(svg: &mut String, words: &str, top: f64, m: Measures) -> f64 {
    let size = SMALL * m.text;
    let mut y = top + 1.0;
    svg.push_str(r#"<g class="label" text-anchor="middle">"#);
    for words in lettering::lines(words, (m.width - 4.0) / size, 4) {
        let line = Line {
            words: String::new(),
            size,
            bold: false,
            accent: false,
        };
        text(svg, &words, (0.0, size.mul_add(0.95, y)), &line);
        y += size * PITCH;
    }
    svg.push_str("</g>");
    y + 1.0
}

/// The 5 cm bar with the vessel's size; returns where it ends.
fn scale_bar(svg: &mut String, l: &Laid<'_>, top: f64, m: Measures) -> f64 {
    let half = 2.5 * m.scale;
    let y = top + 1.5;
    let _ = write!(
        svg,
        r#"<path class="scale" d="M{:.2} {y:.2}H{half:.2}M{:.2} {:.2}v2M{half:.2} {:.2}v2" fill="none" stroke="currentColor" stroke-width=".5"/>"#,
        -half,
        -half,
        y - 1.0,
        y - 1.0
    );
    let words = format!("bar: 5 cm; {}", l.setting.vessel.words());
    text_block(svg, &words, y + 0.8, m)
}

/// Everything in words, for readers who do not see the drawing.
pub(super) fn description(l: &Laid<'_>) -> String {
    let mut words = format!(
        "{}, seen from above, drawn to scale.",
        l.setting.vessel.words()
    );
    if let Some(fill) = l.setting.fill {
        let _ = write!(words, " Filled to about {} cm.", short(fill.height_cm));
    }
    for patch in &l.picture.patches {
        let beyond = if patch.beyond_day {
            ", beyond the day’s share"
        } else {
            ""
        };
        let _ = write!(
            words,
            " {}: {}, {} ({}){beyond}.",
            patch.label,
            patch.size_words,
            patch.texture.name(),
            patch.texture.appearance()
        );
    }
    for note in &l.setting.notes {
        let _ = write!(words, " {note}");
    }
    words
}

pub(super) fn used(laid: &[Laid<'_>]) -> Vec<Texture> {
    let mut textures: Vec<Texture> = laid
        .iter()
        .flat_map(|l| l.piles.iter().map(|p| l.picture.patches[p.patch].texture))
        .collect();
    textures.sort_unstable();
    textures.dedup();
    textures
}

pub(super) fn definitions(textures: &[Texture], prefix: &str) -> String {
    let patterns = textures.iter().map(|t| t.pattern(prefix, 0.85));
    format!("<defs>{}</defs>", patterns.collect::<String>())
}

pub(super) fn safe_prefix(style: &Style) -> String {
    let kept: String = style
        .id_prefix
        .chars()
        .filter(|c| c.is_ascii_alphanumeric() || *c == '-')
        .collect();
    // An id that starts with a digit is no XML name.
    format!("t-{kept}")
}

pub(super) fn opening(prefix: &str, bounds: (f64, f64, f64, f64), m: Measures) -> String {
    format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" class="trencher" viewBox="{:.2} {:.2} {:.2} {:.2}" role="img" aria-labelledby="{prefix}-title" aria-describedby="{prefix}-desc" color="{INK}" font-family="{FONTS}" data-units-per-cm="{:.6}">"#,
        bounds.0, bounds.1, bounds.2, bounds.3, m.scale
    )
}

pub(super) fn figures(laid: &[Laid<'_>], style: &Style) -> Vec<String> {
    let m = Measures::new(laid, style);
    let prefix = safe_prefix(style);
    let prefixes: Vec<String> = (0..laid.len()).map(|i| format!("{prefix}-{i}")).collect();
    // Each drawing defines its own so that it may be moved alone.
    let bodies = bodies(laid, m, &prefixes);
    // One frame for all: a page may then fit the drawings to any box and keep one scale.
    let bottom = bodies.iter().map(|b| b.bottom).fold(0.0, f64::max);
    laid.iter()
        .zip(bodies)
        .zip(&prefixes)
        .map(|((l, body), own)| {
            let bounds = (-m.width / 2.0, body.top, m.width, bottom - body.top);
            format!(
                r#"{}<title id="{own}-title">{}</title><desc id="{own}-desc">{}</desc>{}{}</svg>"#,
                opening(own, bounds, m),
                escape::svg(&l.picture.title),
                escape::svg(&description(l)),
                definitions(&used(std::slice::from_ref(l)), own),
                body.svg,
            )
        })
        .collect()
}
