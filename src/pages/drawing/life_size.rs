//! A plate at life size over several sheets of paper, to cut and join. One unit is a millimetre;
//! widths are true, what lies behind is seen from a little above as in every drawing.

use super::figure::{self, PAPER, apart, laid, marks, parts, second, sketched};
use super::geometry::Point;
use super::picture::Picture;
use super::sheet::{FONTS, INK, Line, text};
use super::sketch::{Put, Short, Sketch, pt};
use super::vessels::{FORK_CM, fork};
use crate::pages::escape;
use std::f64::consts::FRAC_PI_2;
use std::fmt::Write as _;

/// Millimetres in a cm: what the scene is drawn at.
const SCALE: f64 = 10.0;
/// White around what is drawn.
const EDGE: f64 = 6.0;
/// What the fork takes across its length, with the space around it.
const FORK_ROOM: f64 = 30.0;
/// Half the size of a number's ground.
const NUMBER: f64 = 4.5;
/// Strip that two sheets share, to glue.
pub(crate) const OVERLAP: f64 = 12.0;
/// Strip at the foot of a sheet for its number and the line to check the printer by.
const FOOT: f64 = 15.0;
/// Size of the words on a sheet: 9 pt.
const WORDS: f64 = 3.2;

/// A plate drawn at life size.
pub(crate) struct LifeSize {
    /// Width and height, mm.
    pub size: (f64, f64),
    /// Everything in words.
    pub description: String,
    /// Number, name and size of every food.
    pub key: Vec<(usize, String, String)>,
    title: String,
    inner: String,
}

/// Where the fork lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Fork {
    /// Across, below the plate.
    Below,
    /// Upright, beside the plate.
    Beside,
}

/// How a drawing is shared out among sheets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Sheets {
    /// Whether the paper lies across.
    pub across: bool,
    /// Part of the drawing on one sheet, mm, what it shares with its neighbours included.
    pub tile: (f64, f64),
    /// Sheets beside each other.
    pub columns: usize,
    /// Sheets below each other.
    pub rows: usize,
}

/// The line to check a printer by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Rule {
    /// Its length, mm.
    pub mm: f64,
    /// The same in words.
    pub words: &'static str,
}

/// Draws a picture at life size with the fork where it takes fewer sheets of `room`, mm.
#[must_use]
pub(crate) fn fewest_sheets(picture: &Picture, room: (f64, f64)) -> (LifeSize, Sheets) {
    let [below, beside] = [Fork::Below, Fork::Beside].map(|fork| {
        let life = life_size(picture, fork);
        let sheets = Sheets::of(life.size, room);
        (life, sheets)
    });
    if beside.1.count() < below.1.count() {
        beside
    } else {
        below
    }
}

/// Draws a picture at life size.
#[must_use]
pub(crate) fn life_size(picture: &Picture, fork_lies: Fork) -> LifeSize {
    let laid = laid(&[picture]);
    let mut life = LifeSize {
        size: (0.0, 0.0),
        description: String::new(),
        key: Vec::new(),
        title: picture.title.clone(),
        inner: String::new(),
    };
    let Some(l) = laid.first() else {
        return life;
    };
    let (left, top, right, bottom) = l.scene.bounds;
    let (wide, high) = ((right - left) * SCALE, (bottom - top) * SCALE);
    let fork_long = FORK_CM * SCALE;
    life.size = match fork_lies {
        Fork::Below => (wide.max(fork_long) + 2.0 * EDGE, high + FORK_ROOM + EDGE),
        Fork::Beside => (wide + FORK_ROOM + EDGE, high.max(fork_long) + 2.0 * EDGE),
    };
    // The middle of the plate, and that of the fork.
    let (plate, fork_at) = match fork_lies {
        Fork::Below => {
            let x = life.size.0 / 2.0;
            let down = Put::at(x, life.size.1 - FORK_ROOM / 2.0);
            (pt(x, EDGE + high / 2.0), down)
        }
        Fork::Beside => {
            let y = life.size.1 / 2.0;
            let right = Put::at(life.size.0 - FORK_ROOM / 2.0, y);
            (pt(EDGE + wide / 2.0, y), right.turned(FRAC_PI_2))
        }
    };
    life.description = figure::description(l);
    let by = pt(
        plate.x - f64::midpoint(left, right) * SCALE,
        plate.y - f64::midpoint(top, bottom) * SCALE,
    );
    parts(&mut life.inner, &l.scene.parts, picture, SCALE, by);
    let mut lying = Sketch::default();
    lying.put(&fork(), Put::at(0.0, 0.0).turned(fork_at.turn));
    sketched(&mut life.inner, &lying, SCALE, fork_at.at);
    let marks = marks(&l.scene, picture.foods.len());
    let seen = marks
        .iter()
        .enumerate()
        .filter_map(|(i, at)| Some((i, (*at)?)));
    let (foods, mut at): (Vec<usize>, Vec<Point>) = seen
        .map(|(i, at)| (i, pt(at.x.mul_add(SCALE, by.x), at.y.mul_add(SCALE, by.y))))
        .unzip();
    apart(&mut at, 2.6 * NUMBER, 1.6 * NUMBER, life.size);
    for (food, at) in foods.into_iter().zip(at) {
        number(&mut life.inner, food + 1, at);
        let patch = &picture.foods[food];
        life.key
            .push((food + 1, patch.label.clone(), second(patch)));
    }
    life
}

fn number(svg: &mut String, number: usize, at: Point) {
    let _ = write!(
        svg,
        r##"<circle cx="{}" cy="{}" r="{NUMBER}" fill="#fff" stroke="{INK}" stroke-width=".4"/>"##,
        Short(at.x),
        Short(at.y)
    );
    let words = number.to_string();
    text(
        svg,
        &Line {
            x: at.x,
            y: at.y + 1.6,
            size: 4.6,
            bold: true,
            anchor: "middle",
            words: &words,
        },
    );
}

impl Sheets {
    /// As few sheets as will do; `room` is what a printer reaches of upright paper, mm.
    #[must_use]
    pub(crate) fn of(size: (f64, f64), room: (f64, f64)) -> Self {
        let shared = |across: bool, (wide, high): (f64, f64)| {
            let tile = (wide, high - FOOT);
            let many = |whole: f64, part: f64| {
                let more = (whole - part).max(0.0) / (part - OVERLAP);
                1 + more.ceil() as usize
            };
            Self {
                across,
                tile,
                columns: many(size.0, tile.0),
                rows: many(size.1, tile.1),
            }
        };
        let (upright, across) = (shared(false, room), shared(true, (room.1, room.0)));
        if across.count() <= upright.count() {
            across
        } else {
            upright
        }
    }

    /// How many there are.
    #[must_use]
    pub(crate) const fn count(&self) -> usize {
        self.columns * self.rows
    }

    /// Upper left corner of a sheet's part of the drawing, mm; the drawing stands in the middle.
    fn corner(&self, at: usize, size: (f64, f64)) -> (f64, f64) {
        let (column, row) = (at % self.columns, at / self.columns);
        let begin = |many: usize, part: f64, whole: f64, place: usize| {
            let covered = (part - OVERLAP).mul_add(many as f64, OVERLAP);
            (part - OVERLAP).mul_add(place as f64, (whole - covered) / 2.0)
        };
        (
            begin(self.columns, self.tile.0, size.0, column),
            begin(self.rows, self.tile.1, size.1, row),
        )
    }
}

impl LifeSize {
    /// The drawing itself, for `use` by [`sheet`](Self::sheet) and [`plan`](Self::plan).
    #[must_use]
    pub(crate) fn defined(&self) -> String {
        format!(
            r#"<svg width="0" height="0" aria-hidden="true" focusable="false" class="defined"><defs><g id="life">{}</g></defs></svg>"#,
            self.inner
        )
    }

    /// One sheet: its part of the drawing, where to cut and join, its number, the line to measure.
    #[must_use]
    pub(crate) fn sheet(&self, sheets: &Sheets, at: usize, rule: Rule) -> String {
        let (wide, high) = sheets.tile;
        let (x, y) = sheets.corner(at, self.size);
        let (column, row) = (at % sheets.columns, at / sheets.columns);
        let mut svg = format!(
            r##"<svg xmlns="http://www.w3.org/2000/svg" class="life" style="width: {wide}mm; --shape: {wide} / {whole}" viewBox="0 0 {wide} {whole}" role="img" aria-label="Sheet {} of {} of the plate at life size" font-family="{FONTS}" color="{INK}"><rect width="{wide}" height="{whole}" fill="{PAPER}"/><svg width="{wide}" height="{high}" viewBox="{} {} {wide} {high}"><use href="#life"/></svg>"##,
            at + 1,
            sheets.count(),
            Short(x),
            Short(y),
            whole = high + FOOT,
        );
        let mut line = |d: &str, dashes: &str| {
            let _ = write!(
                svg,
                r#"<path d="{d}" fill="none" stroke="currentColor" stroke-width=".25"{dashes}/>"#
            );
        };
        let dashed = r#" stroke-dasharray="3 2""#;
        let (right, below) = (column + 1 < sheets.columns, row + 1 < sheets.rows);
        if right {
            line(&format!("M{} 0V{high}", wide - OVERLAP), dashed);
        }
        if below {
            line(&format!("M0 {}H{wide}", high - OVERLAP), dashed);
        }
        if column > 0 {
            line(&format!("M0 0V{high}"), "");
        }
        if row > 0 {
            line(&format!("M0 0H{wide}"), "");
        }
        let mut said = |x: f64, y: f64, anchor: &'static str, words: &str| {
            let line = Line {
                x,
                y,
                size: WORDS,
                bold: false,
                anchor,
                words,
            };
            text(&mut svg, &line);
        };
        if right {
            let words = format!("sheet {} begins at this line", at + 2);
            said(wide - OVERLAP - 1.5, 4.0, "end", &words);
        }
        if below {
            let words = format!("sheet {} begins at this line", at + 1 + sheets.columns);
            said(1.5, high - OVERLAP - 1.5, "start", &words);
        }
        if column > 0 {
            said(1.5, 8.5, "start", "cut off along this edge");
        }
        if row > 0 {
            said(1.5, 4.0, "start", "cut off along the upper edge");
        }
        let place = format!(
            "Sheet {} of {}: row {}, column {}",
            at + 1,
            sheets.count(),
            row + 1,
            column + 1
        );
        said(wide, high + 6.0, "end", &place);
        svg.push_str(&measured((0.0, high + 6.0), rule));
        svg.push_str("</svg>");
        svg
    }

    /// How the sheets lie: the drawing made small, with a frame and a number for each.
    #[must_use]
    pub(crate) fn plan(&self, sheets: &Sheets) -> String {
        let (x, y) = sheets.corner(0, self.size);
        let last = sheets.corner(sheets.count() - 1, self.size);
        let (wide, high) = (last.0 - x + sheets.tile.0, last.1 - y + sheets.tile.1);
        // Read on a phone and in print, where the plan is 75 mm high at most.
        let size = (wide * 0.035).max(high * 0.04);
        let mut svg = format!(
            r##"<svg xmlns="http://www.w3.org/2000/svg" class="plan" viewBox="{} {} {} {}" role="img" aria-labelledby="plan-title" aria-describedby="plan-desc" color="{INK}" font-family="{FONTS}"><title id="plan-title">{}, and how its sheets lie</title><desc id="plan-desc">{}</desc><rect x="{0}" y="{1}" width="{2}" height="{3}" fill="{PAPER}"/><use href="#life"/>"##,
            Short(x - 2.0),
            Short(y - 2.0),
            Short(wide + 4.0),
            Short(high + 4.0),
            escape::svg(&self.title),
            escape::svg(&self.description),
        );
        for at in 0..sheets.count() {
            let (x, y) = sheets.corner(at, self.size);
            let _ = write!(
                svg,
                r#"<rect x="{}" y="{}" width="{}" height="{}" fill="none" stroke="currentColor" stroke-width="1" stroke-dasharray="6 4"/>"#,
                Short(x),
                Short(y),
                Short(sheets.tile.0),
                Short(sheets.tile.1)
            );
            let words = format!("sheet {}", at + 1);
            text(
                &mut svg,
                &Line {
                    x: x + OVERLAP + 4.0,
                    y: y + OVERLAP + size,
                    size,
                    bold: true,
                    anchor: "start",
                    words: &words,
                },
            );
        }
        svg.push_str("</svg>");
        svg
    }

    /// The whole on one sheet of any size, complete in itself: for a large printer.
    #[must_use]
    pub(crate) fn whole(&self, rule: Rule) -> String {
        let line = 6.0;
        let high = (self.key.len() as f64).mul_add(line, self.size.1 + 28.0);
        let wide = self.size.0;
        let mut svg = format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" class="trencher" width="{0}mm" height="{1}mm" viewBox="0 0 {0} {1}" role="img" aria-labelledby="life-title" aria-describedby="life-desc" color="{INK}" font-family="{FONTS}"><title id="life-title">{2}, at life size</title><desc id="life-desc">{3}</desc><rect class="paper" width="100%" height="100%" fill="{PAPER}"/>{4}"#,
            Short(wide),
            Short(high),
            escape::svg(&self.title),
            escape::svg(&self.description),
            self.inner
        );
        for (i, (number, name, size)) in self.key.iter().enumerate() {
            let words = format!("{number}  {name}: {size}");
            text(
                &mut svg,
                &Line {
                    x: EDGE,
                    y: (i as f64).mul_add(line, self.size.1 + 6.0),
                    size: 4.2,
                    bold: false,
                    anchor: "start",
                    words: &words,
                },
            );
        }
        svg.push_str(&measured((EDGE, high - 12.0), rule));
        svg.push_str("</svg>");
        svg
    }
}

/// The line to check a printer by, with a stroke for every tenth of it.
fn measured((x, y): (f64, f64), rule: Rule) -> String {
    let mut d = format!("M{} {}h{}", Short(x), Short(y), Short(rule.mm));
    for i in 0..=10 {
        let high = if i % 5 == 0 { 3.0 } else { 1.8 };
        let at = f64::from(i).mul_add(rule.mm / 10.0, x);
        let _ = write!(d, "M{} {}v-{high}", Short(at), Short(y));
    }
    let mut svg = format!(r#"<path d="{d}" fill="none" stroke="currentColor" stroke-width=".3"/>"#);
    text(
        &mut svg,
        &Line {
            x,
            y: y + 5.0,
            size: WORDS,
            bold: false,
            anchor: "start",
            words: &format!(
                "This line is {} long. If it is not, print again at 100 % (no fitting to the page).",
                rule.words
            ),
        },
    );
    svg
}

#[cfg(test)]
mod tests {
    use super::{OVERLAP, Sheets};

    #[test]
    fn sheets_cover_the_drawing_and_share_a_strip() {
        for size in [
            (150.0, 120.0),
            (300.0, 220.0),
            (520.0, 300.0),
            (900.0, 700.0),
        ] {
            let sheets = Sheets::of(size, (186.0, 273.0));
            let (first, last) = (
                sheets.corner(0, size),
                sheets.corner(sheets.count() - 1, size),
            );
            assert!(first.0 <= 0.0 && first.1 <= 0.0, "{size:?}");
            assert!(last.0 + sheets.tile.0 >= size.0, "{size:?}");
            assert!(last.1 + sheets.tile.1 >= size.1, "{size:?}");
            if sheets.columns > 1 {
                let next = sheets.corner(1, size).0;
                assert!((first.0 + sheets.tile.0 - next - OVERLAP).abs() < 1e-9);
            }
        }
        assert_eq!(Sheets::of((150.0, 120.0), (186.0, 273.0)).count(), 1);
        assert_eq!(Sheets::of((300.0, 220.0), (186.0, 273.0)).count(), 2);
    }
}
