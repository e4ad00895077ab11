//! Plate drawings: foods drawn as foods, to one scale, seen from a little above.
//!
//! ```text
//! Picture -> scene (bodies on a plate, cm) -> figure (one scale, labels) -> SVG text
//! ```
//!
//! Every food covers its volume over one depth, so that areas can be compared: in piles, in
//! layers, on a bed, in a bowl or a glass. How a food looks is a [`Form`], of which there are
//! about a hundred; what its group is stands in words beside it.

// Coordinates, radii and angles have the names they have in geometry.
#![allow(clippy::many_single_char_names)]

mod body;
mod card;
mod chance;
mod extent;
mod figure;
mod filled;
mod forms;
mod geometry;
mod glasses;
mod labels;
mod lettering;
mod life_size;
mod mosaic;
mod pack;
mod path;
mod picture;
mod pizza;
#[cfg(feature = "png")]
mod png;
mod scene;
mod sheet;
mod sketch;
mod stacked;
mod texture;
mod vessels;
mod view;

#[cfg(feature = "png")]
pub(crate) use card::CARD;
pub(crate) use card::{Card, CardShare, card};
pub(crate) use extent::{Extent, extents};
pub(crate) use figure::{Figure, fork_words};
pub(crate) use forms::{Form, Look};
pub(crate) use life_size::{Fork, OVERLAP, Rule, fewest_sheets, life_size};
pub(crate) use picture::{FilledSort, GlassSort, Mass, Patch, Portions, StackSort};
pub use picture::{Picture, Plate};
#[cfg(feature = "png")]
pub(crate) use png::{Fonts, PngError, png};
pub use scene::foods_of;
pub(crate) use sketch::Rgb;
pub(crate) use texture::Texture;

/// How a drawing is set.
#[derive(Debug, Clone, PartialEq)]
pub struct Style {
    /// Start of every id in the drawing: unique among drawings of one page. Characters other
    /// than ASCII letters, digits and `-` are dropped.
    pub id_prefix: String,
    /// Size of the lettering; 1 is usual, 1.4 suits large print.
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

/// A drawing for each picture, all at one scale, for setting inside a page: the page's own
/// style gives ink and paper, and sets the labels.
#[must_use]
pub fn figures(pictures: &[&Picture], style: &Style) -> Vec<Figure> {
    let laid = figure::laid(pictures);
    figure::figures(&laid, figure::units_per_cm(&laid), style)
}

/// One SVG file with the pictures side by side at one scale, complete in itself: titles,
/// labels, the food groups of each, on white.
#[must_use]
pub(crate) fn sheet(pictures: &[&Picture], style: &Style) -> String {
    sheet::sheet(pictures, style)
}

/// A bar of a share of the day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Bar {
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
pub(crate) fn share_bar(bar: Bar) -> String {
    sheet::share_bar(bar)
}
