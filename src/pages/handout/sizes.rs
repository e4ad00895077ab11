//! Everyday things the size of a portion, for readers without a measuring cup at the table.
//!
//! Selected and reworded from the NHLBI Serving Size Card and a USDA-credited table of everyday
//! objects; things few people still own, and things known by a maker's name, are left out.

use crate::pages::drawing::Texture;

/// Source of the comparisons, for a page's list.
pub(crate) const SIZES_SOURCE: &str =
    "Everyday sizes: NHLBI, Serving Size Card; USDA-credited table of everyday objects (reworded)";

/// An amount and something of that size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct SizeLike {
    /// The food group it helps with.
    pub texture: Texture,
    /// The amount.
    pub amount: &'static str,
    /// What it is as large as.
    pub looks_like: &'static str,
}

const fn like(texture: Texture, amount: &'static str, looks_like: &'static str) -> SizeLike {
    SizeLike {
        texture,
        amount,
        looks_like,
    }
}

const SIZES: [SizeLike; 10] = [
    like(
        Texture::Grains,
        "½ cup of rice, pasta or potato",
        "half a baseball",
    ),
    like(Texture::Grains, "1 cup of cereal flakes", "a fist"),
    like(
        Texture::ProteinFoods,
        "3 oz of cooked meat, fish or poultry",
        "a deck of cards",
    ),
    like(
        Texture::Vegetables,
        "1 cup of salad leaves",
        "a baseball, or a grown-up’s fist",
    ),
    like(
        Texture::Vegetables,
        "½ cup of chopped vegetables",
        "half a baseball",
    ),
    like(Texture::Fruits, "one medium fruit", "a baseball"),
    like(Texture::Pulses, "½ cup of cooked beans", "half a baseball"),
    like(Texture::Dairy, "1½ oz of cheese", "four dice"),
    like(Texture::Oils, "1 teaspoon of butter or spread", "one die"),
    like(
        Texture::ProteinFoods,
        "2 tablespoons of nut butter",
        "a table-tennis ball",
    ),
];

/// Comparisons for the food groups on a plate, at most `most` of them, one for each group
/// before a second for any.
#[must_use]
pub(crate) fn everyday_sizes(textures: &[Texture], most: usize) -> Vec<SizeLike> {
    let fitting: Vec<SizeLike> = SIZES
        .into_iter()
        .filter(|size| textures.contains(&size.texture))
        .collect();
    let is_first = |at: usize| {
        fitting[..at]
            .iter()
            .all(|s| s.texture != fitting[at].texture)
    };
    let (first, second): (Vec<usize>, Vec<usize>) =
        (0..fitting.len()).partition(|at| is_first(*at));
    first
        .into_iter()
        .chain(second)
        .take(most)
        .map(|at| fitting[at])
        .collect()
}

#[cfg(test)]
mod tests {
    use super::everyday_sizes;
    use crate::pages::drawing::Texture;

    #[test]
    fn each_group_is_served_before_any_gets_a_second() {
        let sizes = everyday_sizes(&[Texture::Grains, Texture::Dairy], 3);
        let textures: Vec<_> = sizes.iter().map(|s| s.texture).collect();
        assert_eq!(textures, [Texture::Grains, Texture::Dairy, Texture::Grains]);
        assert!(everyday_sizes(&[Texture::Other], 3).is_empty());
    }
}
