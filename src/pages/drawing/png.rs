//! A drawing as PNG.
//!
//! The renderer brings no letters: it sets text in fonts found on the machine or handed over.
//! Without any, labels would silently be missing, so that is an error here.

use resvg::{tiny_skia, usvg};
use std::sync::Arc;

/// Largest width and height in pixels: a poster, and little enough memory to be safe.
const LARGEST_SIDE: u32 = 16_000;

/// Fonts for the letters of a PNG.
#[derive(Debug, Clone)]
pub(crate) struct Fonts(Arc<usvg::fontdb::Database>);

impl Fonts {
    /// The fonts installed on this machine. Reading font files is the only thing in the
    /// pages that looks at the machine; do it once and keep the result.
    #[must_use]
    pub(crate) fn installed() -> Self {
        let mut database = usvg::fontdb::Database::new();
        database.load_system_fonts();
        Self(Arc::new(database))
    }

    /// Only the given font files, as bytes.
    #[must_use]
    pub(crate) fn from_data(files: Vec<Vec<u8>>) -> Self {
        let mut database = usvg::fontdb::Database::new();
        for file in files {
            database.load_font_data(file);
        }
        Self(Arc::new(database))
    }

    /// Number of font faces.
    #[must_use]
    pub(crate) fn count(&self) -> usize {
        self.0.len()
    }
}

/// Why a PNG could not be made.
#[derive(Debug, thiserror::Error)]
pub(crate) enum PngError {
    /// No font at all: every word would be missing.
    #[error(
        "no fonts are installed, so a PNG would have no words; install a sans serif font (for example DejaVu Sans or Liberation Sans) or ask for `svg` instead"
    )]
    NoFonts,
    /// The width asked for, or the height that follows from it, is 0 or too large.
    #[error(
        "a PNG {width} pixels wide would be {height} high; both must lie within 1 and {LARGEST_SIDE}"
    )]
    Size {
        /// Width asked for in pixels.
        width: u32,
        /// Height that follows.
        height: f32,
    },
    /// The text is no drawing.
    #[error("the drawing cannot be read: {0}")]
    Drawing(#[from] usvg::Error),
    /// The pixels could not be written as PNG.
    #[error("the picture cannot be written as PNG: {0}")]
    Encode(String),
}

/// Renders an SVG (a [`sheet`](super::sheet)) as PNG, `width` pixels wide, on white paper.
pub(crate) fn png(svg: &str, width: u32, fonts: &Fonts) -> Result<Vec<u8>, PngError> {
    if fonts.count() == 0 {
        return Err(PngError::NoFonts);
    }
    let mut options = usvg::Options {
        fontdb: Arc::clone(&fonts.0),
        ..usvg::Options::default()
    };
    // Where none of the named families is installed, any face is better than none.
    if let Some(face) = fonts.0.faces().next()
        && let Some((family, _)) = face.families.first()
    {
        options.font_family.clone_from(family);
    }
    let tree = usvg::Tree::from_str(svg, &options)?;
    let scale = width as f32 / tree.size().width();
    let height = (tree.size().height() * scale).ceil();
    if width == 0 || width > LARGEST_SIDE || height < 1.0 || height > LARGEST_SIDE as f32 {
        return Err(PngError::Size { width, height });
    }
    let Some(mut pixels) = tiny_skia::Pixmap::new(width, height as u32) else {
        return Err(PngError::Size { width, height });
    };
    pixels.fill(tiny_skia::Color::WHITE);
    resvg::render(
        &tree,
        tiny_skia::Transform::from_scale(scale, scale),
        &mut pixels.as_mut(),
    );
    pixels
        .encode_png()
        .map_err(|e| PngError::Encode(e.to_string()))
}

#[cfg(test)]
mod tests {
    use super::{Fonts, PngError, png};

    const SQUARE: &str = r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 20"><rect width="10" height="20"/></svg>"#;

    #[test]
    fn without_fonts_it_says_so() {
        let none = Fonts::from_data(Vec::new());
        let error = png(SQUARE, 100, &none).unwrap_err();
        assert!(matches!(error, PngError::NoFonts));
        assert!(error.to_string().contains("no fonts are installed"));
    }

    #[test]
    fn the_picture_has_the_width_asked_for() {
        let fonts = Fonts::installed();
        if fonts.count() == 0 {
            // Nothing to test on a machine without fonts; the test above covers it.
            return;
        }
        let bytes = png(SQUARE, 100, &fonts).unwrap();
        assert_eq!(bytes[..4], [0x89, b'P', b'N', b'G']);
        assert_eq!(bytes[16..24], [0, 0, 0, 100, 0, 0, 0, 200]);
        assert!(png(SQUARE, 0, &fonts).is_err());
        assert!(png(SQUARE, 60_000, &fonts).is_err());
    }
}
