//! Framing scenes: one scale for all, labels beside them, and the SVG of what is drawn.

use super::Style;
use super::body::Part;
use super::geometry::Point;
use super::labels::{self, Side, Wish};
use super::lettering::{self, BOLD};
use super::picture::{Patch, Picture};
use super::scene::{Bodies, Scene, plate_for, scene};
use super::sketch::{INK, Mark, Path, Put, Rgb, Short, Sketch, Step, pt};
use super::vessels::{FORK_CM, fork};
use crate::pages::escape;
use std::fmt::Write as _;

/// Width of a frame in units; ten units are one em of a label at the narrowest width at which
/// labels stand beside the plate.
pub(super) const WIDTH: f64 = 318.0;
/// Width of a column of labels.
pub(super) const COLUMN: f64 = 78.0;
/// Space between a label and what is drawn.
const LEADER: f64 = 5.0;
/// Width of what is drawn.
pub(super) const SCENE: f64 = WIDTH - 2.0 * (COLUMN + LEADER);
/// An em of a label.
pub(super) const EM: f64 = 10.0;
/// Line pitch as a multiple of the letter size.
pub(super) const PITCH: f64 = 1.25;
/// Height of the fork with its words.
const FORK_ROOM: f64 = 18.0;
/// Width of a scene in cm at least: a lone glass does not fill the page.
const NARROWEST_CM: f64 = 24.0;
/// Colour of what stands alone.
pub(super) const PAPER: &str = "#ffffff";
pub(super) const ACCENT: &str = "#a8320f";

/// A label with its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// Its number, from 1, as in lists and marks.
    pub number: usize,
    /// Name of the food.
    pub name: String,
    /// The household size.
    pub size: String,
    /// Name of its food group.
    pub group: &'static str,
    /// Left or right of the plate.
    pub left: bool,
    /// Upper edge, percent of the frame's height.
    pub top: f64,
    /// Where its food is: percent of the width and height of the scene without columns; kept
    /// apart from the other marks.
    pub mark: (f64, f64),
    pub(super) top_units: f64,
    pub(super) at: Point,
}

/// A drawing with its labels.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// The SVG of the plate with the leaders, to be set in a frame of that shape.
    pub svg: String,
    /// The labels.
    pub labels: Vec<Label>,
    /// Width of the frame over its height.
    pub aspect: f64,
    /// The scene without columns and without what labels need above and below: width over
    /// height.
    pub narrow_aspect: f64,
    /// How far down that scene begins, percent of its width.
    pub narrow_top: f64,
    /// Everything in words, for readers who do not see the drawing.
    pub description: String,
    pub(super) inner: String,
    pub(super) height: f64,
}

/// A picture laid out, in units.
pub(super) struct Laid<'a> {
    pub picture: &'a Picture,
    pub scene: Scene,
}

pub(super) fn laid<'a>(pictures: &[&'a Picture]) -> Vec<Laid<'a>> {
    let bodies: Vec<Bodies> = pictures.iter().map(|p| Bodies::of(p)).collect();
    let each = pictures.iter().zip(&bodies);
    let plates: Vec<Option<f64>> = each.map(|(p, bodies)| plate_for(p, bodies)).collect();
    pictures
        .iter()
        .zip(bodies)
        .zip(&plates)
        .map(|((picture, bodies), own)| {
            // One dish served and right-sized lies on one plate.
            let same = pictures
                .iter()
                .zip(&plates)
                .filter(|(p, _)| p.plate == picture.plate && head(p) == head(picture));
            let plate = same
                .filter_map(|(_, d)| *d)
                .fold(None, |m: Option<f64>, d| Some(m.map_or(d, |m| m.max(d))));
            Laid {
                picture,
                scene: scene(bodies, plate.or(*own)),
            }
        })
        .collect()
}

/// The dish's name without what follows its last comma: as served, right-sized.
fn head(picture: &Picture) -> &str {
    picture
        .title
        .rsplit_once(',')
        .map_or(picture.title.as_str(), |(head, _)| head)
}

/// Units a cm that suit all scenes.
pub(super) fn units_per_cm(laid: &[Laid<'_>]) -> f64 {
    let widest = laid.iter().map(|l| l.scene.bounds.2 - l.scene.bounds.0);
    SCENE / widest.fold(NARROWEST_CM, f64::max)
}

/// The figure of each scene at a scale.
pub(super) fn figures(laid: &[Laid<'_>], scale: f64, style: &Style) -> Vec<Figure> {
    let prefix = safe_prefix(style);
    laid.iter()
        .enumerate()
        .map(|(i, l)| figure(l, scale, style.text_scale, &format!("{prefix}-{i}")))
        .collect()
}

fn figure(l: &Laid<'_>, scale: f64, text: f64, id: &str) -> Figure {
    let (left, top, right, bottom) = l.scene.bounds;
    let by = pt(
        WIDTH / 2.0 - f64::midpoint(left, right) * scale,
        -top * scale,
    );
    let drawn = (bottom - top) * scale;
    let mut labels = place(l, scale, by, drawn, text);
    let upper = labels.iter().map(|l| l.top_units).fold(0.0, f64::min) - 2.0;
    let lower = labels
        .iter()
        .map(|label| label.top_units + height(&l.picture.foods[label.number - 1], text))
        .fold(drawn + FORK_ROOM, f64::max)
        + 2.0;
    let high = lower - upper;
    let by = pt(by.x, by.y - upper);
    for label in &mut labels {
        label.top_units -= upper;
        label.at = pt(label.at.x, label.at.y - upper);
        label.top = label.top_units / high * 100.0;
    }
    set_marks(&mut labels, -upper, drawn + FORK_ROOM);
    let mut inner = String::new();
    parts(&mut inner, &l.scene.parts, l.picture, scale, by);
    fork_below(&mut inner, scale, drawn - upper);
    leaders(&mut inner, &labels, l.picture, text);
    let description = description(l);
    let svg = format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" class="trencher" viewBox="0 0 {WIDTH} {}" role="img" aria-labelledby="{id}-title" aria-describedby="{id}-desc" data-units-per-cm="{scale:.6}"><title id="{id}-title">{}</title><desc id="{id}-desc">{}</desc>{inner}</svg>"#,
        Short(high),
        escape::svg(&l.picture.title),
        escape::svg(&description),
    );
    Figure {
        svg,
        labels,
        aspect: WIDTH / high,
        narrow_aspect: SCENE / (drawn + FORK_ROOM),
        narrow_top: -upper / SCENE * 100.0,
        description,
        inner,
        height: high,
    }
}

/// Least distance of two numbers in a scene without columns.
const MARKS_APART: f64 = 14.5;

/// Numbers near their foods, none on another; `top` and `high` are those of the scene.
fn set_marks(labels: &mut [Label], top: f64, high: f64) {
    let mut at: Vec<Point> = labels
        .iter()
        .map(|l| pt(l.at.x - COLUMN - LEADER, l.at.y - top))
        .collect();
    apart(&mut at, MARKS_APART, 7.0, (SCENE, high));
    for (label, p) in labels.iter_mut().zip(at) {
        label.mark = (p.x / SCENE * 100.0, p.y / high * 100.0);
    }
}

/// Moves points at least so far from each other, and from the edges of what holds them.
pub(super) fn apart(at: &mut [Point], least: f64, edge: f64, (wide, high): (f64, f64)) {
    for _ in 0..80 {
        for i in 0..at.len() {
            for j in i + 1..at.len() {
                let (dx, dy) = (at[j].x - at[i].x, at[j].y - at[i].y);
                let distance = dx.hypot(dy).max(0.01);
                if distance < least {
                    let by = (least - distance) / distance / 2.0;
                    // Straight above each other: part sideways a little too.
                    let dx = if dx.abs() < 0.5 { 0.5 } else { dx };
                    at[i] = pt(at[i].x - dx * by, at[i].y - dy * by);
                    at[j] = pt(at[j].x + dx * by, at[j].y + dy * by);
                }
            }
        }
        for p in &mut *at {
            *p = pt(p.x.clamp(edge, wide - edge), p.y.clamp(edge, high - edge));
        }
    }
}

/// The first place of every food that has one.
pub(super) fn marks(scene: &Scene, foods: usize) -> Vec<Option<Point>> {
    let mut marks = vec![None; foods];
    for part in &scene.parts {
        if let (Some(food), Some(at)) = (part.food, part.at)
            && marks[food].is_none()
        {
            marks[food] = Some(at);
        }
    }
    marks
}

fn place(l: &Laid<'_>, scale: f64, by: Point, drawn: f64, text: f64) -> Vec<Label> {
    let marks = marks(&l.scene, l.picture.foods.len());
    let seen: Vec<(usize, Point)> = marks
        .into_iter()
        .enumerate()
        .filter_map(|(i, at)| Some((i, at?)))
        .map(|(i, at)| (i, pt(at.x.mul_add(scale, by.x), at.y.mul_add(scale, by.y))))
        .collect();
    let wishes: Vec<Wish> = seen
        .iter()
        .map(|(i, at)| Wish {
            pile: pt(at.x - WIDTH / 2.0, at.y),
            height: height(&l.picture.foods[*i], text),
        })
        .collect();
    let places = labels::place(&wishes, SCENE / 2.0 + LEADER, drawn);
    seen.iter()
        .zip(places)
        .map(|((i, at), place)| {
            let food = &l.picture.foods[*i];
            Label {
                number: i + 1,
                name: food.label.clone(),
                size: food.size_words.clone(),
                group: food.texture.name(),
                left: place.side == Side::Left,
                top: 0.0,
                mark: (0.0, 0.0),
                top_units: place.top,
                at: *at,
            }
        })
        .collect()
}

/// The lines of a label: its name in bold, then size and group.
pub(super) fn lines(food: &Patch, text: f64) -> (Vec<String>, Vec<String>) {
    let width = COLUMN / (EM * text);
    let name = lettering::lines(&food.label, width / BOLD, 3);
    let rest = lettering::lines(&second(food), width, 3);
    (name, rest)
}

/// Size and group of a food in one line.
pub(super) fn second(food: &Patch) -> String {
    match (food.size_words.as_str(), food.texture.name()) {
        ("", group) => group.to_owned(),
        (size, group) => format!("{size}, {group}"),
    }
}

pub(super) fn height(food: &Patch, text: f64) -> f64 {
    let (name, rest) = lines(food, text);
    (name.len() + rest.len()) as f64 * EM * text * PITCH
}

/// A point as a path writes it: one decimal, no zero before the point.
struct Tenths(f64);

impl std::fmt::Display for Tenths {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let tenths = (self.0 * 10.0).round() as i64;
        if tenths < 0 {
            f.write_str("-")?;
        }
        let (whole, part) = (tenths.abs() / 10, tenths.abs() % 10);
        match (whole, part) {
            (whole, 0) => write!(f, "{whole}"),
            (0, part) => write!(f, ".{part}"),
            (whole, part) => write!(f, "{whole}.{part}"),
        }
    }
}

/// Writes a path in steps from point to point, rounded so that errors do not add up.
fn write_path(d: &mut String, path: &Path, scale: f64, by: Point) {
    let tenth = |p: Point| {
        pt(
            (p.x.mul_add(scale, by.x) * 10.0).round() / 10.0,
            (p.y.mul_add(scale, by.y) * 10.0).round() / 10.0,
        )
    };
    let mut from = tenth(path.start);
    let _ = write!(d, "M{} {}", Tenths(from.x), Tenths(from.y));
    for step in &path.steps {
        let mut go = |lead: &str, to: Point| {
            let _ = write!(
                d,
                "{lead}{} {}",
                Tenths(to.x - from.x),
                Tenths(to.y - from.y)
            );
        };
        match step {
            Step::Line(to) => {
                let to = tenth(*to);
                go("l", to);
                from = to;
            }
            Step::Curve(a, b, to) => {
                let to = tenth(*to);
                go("c", tenth(*a));
                go(" ", tenth(*b));
                go(" ", to);
                from = to;
            }
        }
    }
    if path.closed {
        d.push('Z');
    }
}

fn hex(colour: Rgb) -> String {
    format!("#{:02x}{:02x}{:02x}", colour.0, colour.1, colour.2)
}

pub(super) fn parts(svg: &mut String, parts: &[Part], picture: &Picture, scale: f64, by: Point) {
    for part in parts {
        match part.food {
            Some(food) => {
                let patch = &picture.foods[food];
                let _ = write!(
                    svg,
                    r#"<g class="food" data-food="{}" data-ml="{:.2}">"#,
                    food + 1,
                    patch.volume_ml.likely
                );
            }
            None => svg.push_str(r#"<g class="vessel">"#),
        }
        sketch(svg, &part.sketch, scale, by, part.food.is_some());
        svg.push_str("</g>");
    }
}

/// A sketch of no food.
pub(super) fn sketched(svg: &mut String, of: &Sketch, scale: f64, by: Point) {
    sketch(svg, of, scale, by, false);
}

/// The paths of a sketch. Lines without a fill that follow each other become one path.
fn sketch(svg: &mut String, sketch: &Sketch, scale: f64, by: Point, food: bool) {
    let ink = if food {
        hex(INK)
    } else {
        "currentColor".to_owned()
    };
    let mut at = 0;
    while at < sketch.marks.len() {
        let Mark { fill, line, .. } = &sketch.marks[at];
        let alike = sketch.marks[at..]
            .iter()
            .take_while(|m| fill.is_none() && m.fill.is_none() && m.line == *line)
            .count()
            .max(1);
        svg.push_str("<path d=\"");
        for mark in &sketch.marks[at..at + alike] {
            write_path(svg, &mark.path, scale, by);
        }
        let paint = fill.map_or_else(
            || r#" fill="none""#.to_owned(),
            |c| format!(r#" fill="{}""#, hex(c)),
        );
        let _ = write!(svg, "\"{paint}");
        if *line > 0.0 {
            let _ = write!(
                svg,
                r#" stroke="{ink}" stroke-width="{}""#,
                Short(line * 0.62)
            );
        }
        svg.push_str("/>");
        at += alike;
    }
}

/// A fork of known length under the plate, with words.
fn fork_below(svg: &mut String, scale: f64, top: f64) {
    let mut lying = Sketch::default();
    lying.put(&fork(), Put::at(0.0, 0.0));
    svg.push_str(r#"<g class="vessel fork">"#);
    sketch(
        svg,
        &lying,
        scale,
        pt(WIDTH / 2.0, top + FORK_ROOM * 0.6),
        false,
    );
    svg.push_str("</g>");
}

/// Words for the fork.
#[must_use]
pub(crate) fn fork_words() -> String {
    format!("the fork is {FORK_CM:.0} cm long")
}

fn leaders(svg: &mut String, labels: &[Label], picture: &Picture, text: f64) {
    svg.push_str(r#"<g class="leaders">"#);
    for label in labels {
        let x = if label.left {
            COLUMN + 1.0
        } else {
            WIDTH - COLUMN - 1.0
        };
        let y = label.top_units
            + height(&picture.foods[label.number - 1], text).min(EM * text * PITCH * 2.0) / 2.0;
        let d = format!(
            "M{} {}L{} {}",
            Short(x),
            Short(y),
            Short(label.at.x),
            Short(label.at.y)
        );
        let _ = write!(
            svg,
            r#"<path class="halo" d="{d}" fill="none" stroke="{PAPER}" stroke-width="1.7"/><path d="{d}" fill="none" stroke="currentColor" stroke-width=".55"/><circle class="halo" cx="{}" cy="{}" r="1.5" fill="currentColor" stroke="{PAPER}" stroke-width=".7"/>"#,
            Short(label.at.x),
            Short(label.at.y)
        );
    }
    svg.push_str("</g>");
}

/// Everything in words.
pub(super) fn description(l: &Laid<'_>) -> String {
    let mut words = match l.scene.plate_cm {
        Some(d) => format!("On a plate of {d:.0} cm, seen from a little above."),
        None => "Seen from a little above.".to_owned(),
    };
    for food in &l.picture.foods {
        let _ = write!(words, " {}: {}.", food.label, second(food));
    }
    words
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
