//! Plate drawings: SVG to scale, seen from above.
//!
//! ```text
//! Picture -> settle (vessel, depth) -> Plan, lay_out (piles) -> place (labels) -> SVG text
//! ```
//!
//! A pile's area is its volume over its mean depth. Pictures drawn together share one scale,
//! one depth factor and one plan, so that a smaller pile looks smaller and stays in its place.

mod geometry;
mod labels;
mod layout;
mod lettering;
mod picture;
#[cfg(feature = "png")]
mod png;
mod section;
mod sheet;
mod svg;
mod texture;
mod vessel;

pub use picture::{Patch, Picture, Vessel, VesselBasis};
#[cfg(feature = "png")]
pub use png::{Fonts, PngError, png};
pub use texture::Texture;

use layout::{Pile, Plan, lay_out};
use vessel::{Setting, settle};

/// How a drawing is set.
#[derive(Debug, Clone, PartialEq)]
pub struct Style {
    /// Start of every id in the drawing: unique among drawings of one page. Characters other
    /// than ASCII letters, digits and `-` are dropped.
    pub id_prefix: String,
    /// Size of the lettering; 1 is usual, 1.4 suits large print. Kept within 0.5 and 3.
    pub text_scale: f64,
}

impl Default for Style {
    fn default() -> Self {
        Self {
            id_prefix: "plate".to_owned(),
            text_scale: 1.0,
        }
    }
}

/// A picture with everything settled that its drawing needs.
struct Laid<'a> {
    picture: &'a Picture,
    setting: Setting,
    piles: Vec<Pile>,
}

fn laid<'a>(pictures: &[&'a Picture]) -> Vec<Laid<'a>> {
    if pictures.is_empty() {
        return Vec::new();
    }
    let plan = Plan::for_pictures(pictures);
    settle(pictures)
        .into_iter()
        .zip(pictures)
        .map(|(setting, picture)| Laid {
            picture,
            piles: lay_out(picture, &setting, &plan),
            setting,
        })
        .collect()
}

/// One SVG for each picture, all at one scale, for setting inside a page: the page's own
/// style gives ink, paper and accent (`--paper`, `--accent`).
#[must_use]
pub fn figures(pictures: &[&Picture], style: &Style) -> Vec<String> {
    svg::figures(&laid(pictures), style)
}

/// One SVG file with the pictures side by side at one scale, complete in itself: titles,
/// a key of the textures, and colours for light and dark screens.
#[must_use]
pub fn sheet(pictures: &[&Picture], style: &Style) -> String {
    sheet::sheet(&laid(pictures), style)
}

/// A bar of a share of the day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bar {
    /// The food group's texture; plain grey for a limit, which is no group.
    pub texture: Option<Texture>,
    /// Share of the day, 1 for all of it.
    pub share: f64,
    /// The share that the whole width stands for (at least 1).
    pub full: f64,
    /// Whether what lies past the day's mark is edged with the accent.
    pub beyond: bool,
}

/// A textured bar for a page, with a line at one day's share. Decoration only (hidden from
/// screen readers): say the share in words beside it.
#[must_use]
pub fn share_bar(bar: Bar, id_prefix: &str) -> String {
    sheet::share_bar(bar, id_prefix)
}

/// A small square of a texture for a key, hidden from screen readers.
#[must_use]
pub fn swatch(texture: Texture, id_prefix: &str) -> String {
    sheet::swatch(texture, id_prefix)
}

#[cfg(test)]
mod tests;
