//! Textures: food groups are told apart by drawn texture and by word, never by colour.

use std::fmt::Write as _;

/// The texture of a food group.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Texture {
    /// Vegetables: leaf veins.
    Vegetables,
    /// Fruits: rings.
    Fruits,
    /// Grains: weave.
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
    pub const ALL: [Self; 8] = [
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
    pub fn for_group(key: &str) -> Self {
        Self::ALL
            .into_iter()
            .find(|texture| texture.key() == key)
            .unwrap_or(Self::Other)
    }

    /// The food group's key.
    #[must_use]
    pub const fn key(self) -> &'static str {
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
    pub const fn name(self) -> &'static str {
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
    pub const fn appearance(self) -> &'static str {
        match self {
            Self::Vegetables => "leaf veins",
            Self::Fruits => "rings",
            Self::Grains => "weave",
            Self::Pulses => "ovals",
            Self::ProteinFoods => "hatching",
            Self::Dairy => "waves",
            Self::Oils => "fine dots",
            Self::Other => "crosses",
        }
    }

    /// Side lengths of the repeating tile and the marks on it, in user units at scale 1.
    const fn tile(self) -> (f64, f64, &'static str) {
        match self {
            Self::Vegetables => (
                4.0,
                3.0,
                r#"<path d="M2 0V3M2 1.6L.5 .5M2 1.6L3.5 .5M2 3.1L.5 2M2 3.1L3.5 2"/>"#,
            ),
            Self::Fruits => (4.0, 4.0, r#"<circle cx="2" cy="2" r="1.25"/>"#),
            Self::Grains => (
                4.0,
                4.0,
                r#"<path d="M.3 .6H1.7M.3 1.4H1.7M2.6 .3V1.7M3.4 .3V1.7M2.3 2.6H3.7M2.3 3.4H3.7M.6 2.3V3.7M1.4 2.3V3.7"/>"#,
            ),
            Self::Pulses => (
                4.4,
                3.4,
                r#"<g fill="currentColor" stroke="none"><ellipse cx="1.1" cy=".85" rx=".95" ry=".55"/><ellipse cx="3.3" cy="2.55" rx=".95" ry=".55"/></g>"#,
            ),
            Self::ProteinFoods => (
                2.0,
                2.0,
                r#"<path d="M-.5 .5L.5 -.5M0 2L2 0M1.5 2.5L2.5 1.5"/>"#,
            ),
            Self::Dairy => (4.0, 2.0, r#"<path d="M0 1C.7 .2 1.3 .2 2 1S3.3 1.8 4 1"/>"#),
            Self::Oils => (
                1.5,
                1.5,
                r#"<g fill="currentColor" stroke="none"><circle cx=".4" cy=".4" r=".24"/><circle cx="1.15" cy="1.15" r=".24"/></g>"#,
            ),
            Self::Other => (4.0, 4.0, r#"<path d="M2 1.2V2.8M1.2 2H2.8"/>"#),
        }
    }

    /// The id of this texture's pattern among ids that start with `prefix`.
    #[must_use]
    pub fn pattern_id(self, prefix: &str) -> String {
        format!("{prefix}-{}", self.key().replace('_', "-"))
    }

    /// The SVG `pattern` element; `scale` 1 suits a drawing whose unit is about a millimetre.
    #[must_use]
    pub fn pattern(self, prefix: &str, scale: f64) -> String {
        let (width, height, marks) = self.tile();
        let mut svg = String::new();
        // Writing into a string cannot fail.
        let _ = write!(
            svg,
            r#"<pattern id="{}" width="{width}" height="{height}" patternUnits="userSpaceOnUse" patternTransform="scale({scale})"><g fill="none" stroke="currentColor" stroke-width=".32">{marks}</g></pattern>"#,
            self.pattern_id(prefix),
        );
        svg
    }
}

#[cfg(test)]
mod tests {
    use super::Texture;
    use std::collections::HashSet;

    #[test]
    fn every_group_has_a_texture_of_its_own() {
        let marks: HashSet<_> = Texture::ALL.map(|t| t.tile().2).into();
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
