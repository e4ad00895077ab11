//! Textures: food groups are told apart by drawn texture and by word, never by colour.

use super::sketch::Short;
use std::fmt::Write as _;

/// The texture of a food group.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Texture {
    /// Vegetables: leaf veins.
    Vegetables,
    /// Fruits: rings.
    Fruits,
    /// Grains: short dashes.
    Grains,
    /// Beans, peas and lentils: solid ovals.
    Pulses,
    /// Protein foods: hatching.
    ProteinFoods,
    /// Dairy: waves.
    Dairy,
    /// Oils: fine dots.
    Oils,
    /// Anything else: small crosses.
    Other,
}

impl Texture {
    /// Every texture, in the order in which keys list them.
    pub(crate) const ALL: [Self; 8] = [
        Self::Vegetables,
        Self::Fruits,
        Self::Grains,
        Self::Pulses,
        Self::ProteinFoods,
        Self::Dairy,
        Self::Oils,
        Self::Other,
    ];

    /// The texture for a food group's key (`grains`, `protein_foods`, ...); unknown keys get
    /// [`Texture::Other`].
    #[must_use]
    pub(crate) fn for_group(key: &str) -> Self {
        Self::ALL
            .into_iter()
            .find(|texture| texture.key() == key)
            .unwrap_or(Self::Other)
    }

    /// The food group's key.
    #[must_use]
    pub(crate) const fn key(self) -> &'static str {
        match self {
            Self::Vegetables => "vegetables",
            Self::Fruits => "fruits",
            Self::Grains => "grains",
            Self::Pulses => "pulses",
            Self::ProteinFoods => "protein_foods",
            Self::Dairy => "dairy",
            Self::Oils => "oils",
            Self::Other => "other",
        }
    }

    /// The food group's name for a reader.
    #[must_use]
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::Vegetables => "vegetables",
            Self::Fruits => "fruits",
            Self::Grains => "grains",
            Self::Pulses => "beans, peas, lentils",
            Self::ProteinFoods => "protein foods",
            Self::Dairy => "dairy",
            Self::Oils => "oils",
            Self::Other => "other",
        }
    }

    /// What the texture looks like, in words: for keys read aloud.
    #[must_use]
    pub(crate) const fn appearance(self) -> &'static str {
        match self {
            Self::Vegetables => "leaf veins",
            Self::Fruits => "rings",
            Self::Grains => "short dashes",
            Self::Pulses => "ovals",
            Self::ProteinFoods => "hatching",
            Self::Dairy => "waves",
            Self::Oils => "fine dots",
            Self::Other => "crosses",
        }
    }

    /// The texture as strokes in a box (left, top, width, height), nothing outside it; `scale`
    /// 1 suits a unit of about a millimetre.
    ///
    /// Strokes, not a repeated tile: printers turn tiles into grey.
    #[must_use]
    pub(crate) fn strokes(
        self,
        (left, top, wide, high): (f64, f64, f64, f64),
        scale: f64,
    ) -> String {
        let mut d = String::new();
        let mut filled = String::new();
        let (px, py) = self.pitch();
        let (px, py) = (px * scale, py * scale);
        let (columns, rows) = ((wide / px).ceil() as usize, (high / py).ceil() as usize);
        for row in 0..=rows {
            for column in 0..=columns {
                let shift = if row % 2 == 1 { 0.5 } else { 0.0 };
                let x = (column as f64 + shift).mul_add(px, left);
                let y = (row as f64 + 0.5).mul_add(py, top);
                let solid = matches!(self, Self::Pulses | Self::Oils);
                self.mark(if solid { &mut filled } else { &mut d }, x, y, scale);
            }
        }
        let line = 0.32 * scale;
        let mut svg = String::new();
        if !d.is_empty() {
            let _ = write!(
                svg,
                r#"<path d="{d}" fill="none" stroke="currentColor" stroke-width="{}"/>"#,
                Short(line)
            );
        }
        if !filled.is_empty() {
            let _ = write!(svg, r#"<path d="{filled}" fill="currentColor"/>"#);
        }
        svg
    }

    /// The same cut off at the edges of the box, with an outline; `id` must be the drawing's own.
    #[must_use]
    pub(crate) fn clipped(
        self,
        (left, top, wide, high): (f64, f64, f64, f64),
        scale: f64,
        id: &str,
    ) -> String {
        let (x, y, w, h) = (Short(left), Short(top), Short(wide), Short(high));
        format!(
            r#"<clipPath id="{id}"><rect x="{x}" y="{y}" width="{w}" height="{h}"/></clipPath><g clip-path="url(#{id})">{}</g><rect x="{x}" y="{y}" width="{w}" height="{h}" fill="none" stroke="currentColor" stroke-width=".6"/>"#,
            self.strokes((left, top, wide, high), scale),
        )
    }

    /// How far apart marks stand, across and down.
    const fn pitch(self) -> (f64, f64) {
        match self {
            Self::Vegetables => (3.2, 2.6),
            Self::Fruits => (3.6, 2.4),
            Self::Grains => (3.0, 1.7),
            Self::Pulses => (3.0, 1.9),
            Self::ProteinFoods => (1.5, 3.2),
            Self::Dairy => (3.6, 1.8),
            Self::Oils => (1.7, 1.3),
            Self::Other => (3.4, 2.2),
        }
    }

    /// One mark about a point.
    fn mark(self, d: &mut String, x: f64, y: f64, scale: f64) {
        let mut go = |lead: &str, dx: f64, dy: f64| {
            let _ = write!(
                d,
                "{lead}{} {}",
                Short(dx.mul_add(scale, x)),
                Short(dy.mul_add(scale, y))
            );
        };
        match self {
            Self::Vegetables => {
                go("M", 0.0, -1.1);
                go("L", 0.0, 1.1);
                go("M", -0.9, -0.9);
                go("L", 0.0, 0.1);
                go("L", 0.9, -0.9);
            }
            Self::Fruits => ring(&mut go, 0.95, 0.95),
            Self::Grains => {
                go("M", -0.8, -0.5);
                go("L", 0.8, -0.5);
                go("M", -0.8, 0.3);
                go("L", 0.8, 0.3);
            }
            Self::Pulses => ring(&mut go, 0.85, 0.55),
            Self::ProteinFoods => {
                go("M", -1.3, 1.6);
                go("L", 1.3, -1.6);
            }
            Self::Dairy => {
                go("M", -1.8, 0.0);
                go("C", -1.2, -0.9);
                go(" ", -0.6, -0.9);
                go(" ", 0.0, 0.0);
                go("C", 0.6, 0.9);
                go(" ", 1.2, 0.9);
                go(" ", 1.8, 0.0);
            }
            Self::Oils => ring(&mut go, 0.28, 0.28),
            Self::Other => {
                go("M", -0.7, 0.0);
                go("L", 0.7, 0.0);
                go("M", 0.0, -0.7);
                go("L", 0.0, 0.7);
            }
        }
    }
}

/// A closed ellipse about a point.
fn ring(go: &mut dyn FnMut(&str, f64, f64), rx: f64, ry: f64) {
    let k = 0.55;
    go("M", rx, 0.0);
    for (x, y) in [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)] {
        // A quarter of a turn on.
        let (ax, ay) = (-y, x);
        go("C", (x + k * ax) * rx, (y + k * ay) * ry);
        go(" ", (ax + k * x) * rx, (ay + k * y) * ry);
        go(" ", ax * rx, ay * ry);
    }
}

#[cfg(test)]
mod tests {
    use super::Texture;
    use std::collections::HashSet;

    #[test]
    fn every_group_has_a_texture_of_its_own() {
        let marks: HashSet<_> = Texture::ALL
            .map(|t| t.strokes((0.0, 0.0, 9.0, 4.0), 1.0))
            .into();
        let words: HashSet<_> = Texture::ALL.map(Texture::appearance).into();
        assert_eq!((marks.len(), words.len()), (8, 8));
    }

    #[test]
    fn keys_lead_back_to_their_texture() {
        for texture in Texture::ALL {
            assert_eq!(Texture::for_group(texture.key()), texture);
        }
        assert_eq!(Texture::for_group("sweets"), Texture::Other);
    }
}
