//! Families of foods and what is true of all foods of one: a table, so that no code names them.

use super::Food;
use crate::memo::Quick;
use crate::words::{prepared, prepared_rows};
use std::collections::HashMap;
use std::sync::LazyLock;

/// What can be true of every food of a family (common practice, but for what a catalogue row
/// says itself).
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub(crate) enum Trait {
    /// A dish by itself, of several foods.
    #[serde(rename = "whole dish")]
    WholeDish,
    /// It is drunk.
    Drink,
    /// It dresses other food and is hardly eaten by itself.
    Dresses,
    /// The fat of its making is in its figures, whatever a cooking word says.
    #[serde(rename = "fat in it")]
    FatInIt,
    /// It sticks to what it is cooked with.
    Sticks,
    /// It lies beside a sandwich, not in it.
    Side,
    /// Bread, or what is eaten as bread.
    Bread,
    /// It is cut by the ounce.
    #[serde(rename = "cut by weight")]
    CutByWeight,
    /// Other food is dipped into it.
    Dip,
    /// Rice and beans: the plain side of something that is folded.
    Starch,
    /// A drink that holds its milk.
    #[serde(rename = "holds milk")]
    HoldsMilk,
    /// It lies in what is folded, not beside it.
    #[serde(rename = "in it")]
    InIt,
    /// Other food is cooked in it: oil, ghee, lard.
    #[serde(rename = "cooked in")]
    CookedIn,
    /// A sauce is made of it: garlic, coconut milk, grated cheese.
    #[serde(rename = "sauce base")]
    SauceBase,
    /// The sauce of a curry is made of it.
    #[serde(rename = "curry base")]
    CurryBase,
}

/// What is known of a family.
#[derive(Debug)]
pub(crate) struct Family {
    traits: u32,
    /// Grams of a millilitre as it lies, with the source; for foods without a volume measure
    /// of their own.
    pub density: Option<(f64, String)>,
}

#[derive(serde::Deserialize)]
struct Row {
    family: String,
    /// Words in a food's name, with `|` between; the row then holds for such foods of the
    /// families only. `*` before the last word of the name.
    named: String,
    traits: String,
    g_per_ml: Option<f64>,
    density_source: String,
}

const TEXT: &str = prepared!("families.csv");

static FAMILIES: LazyLock<HashMap<String, Family, Quick>> = LazyLock::new(|| {
    let rows = prepared_rows::<Row>(TEXT)
        .into_iter()
        .filter(|row| row.named.is_empty());
    rows.map(|row| (row.family.clone(), row.into())).collect()
});

/// What is true of some foods of a family only, by their names.
struct Named {
    family: String,
    /// With `|` between.
    words: String,
    traits: u32,
}

static NAMED: LazyLock<Vec<Named>> = LazyLock::new(|| {
    let rows = prepared_rows::<Row>(TEXT)
        .into_iter()
        .filter(|row| !row.named.is_empty());
    let of = |row: Row| {
        let traits = bits_of(&row.traits);
        let families: Vec<String> = row.family.split('|').map(str::to_owned).collect();
        families.into_iter().map(move |family| Named {
            family,
            words: row.named.clone(),
            traits,
        })
    };
    rows.flat_map(of).collect()
});

fn bits_of(traits: &str) -> u32 {
    traits.split(';').filter_map(bit_of).fold(0, |a, b| a | b)
}

impl Named {
    /// Whether a food of this name is meant.
    fn is(&self, name: &str) -> bool {
        self.words
            .split('|')
            .any(|word| match word.strip_prefix('*') {
                Some(last) => name.ends_with(last) && !name.contains(','),
                None => name.contains(word),
            })
    }
}

impl From<Row> for Family {
    fn from(row: Row) -> Self {
        let source = row.density_source;
        Self {
            traits: bits_of(&row.traits),
            density: row.g_per_ml.map(|density| (density, source)),
        }
    }
}

fn bit_of(word: &str) -> Option<u32> {
    use serde::Deserialize;
    use serde::de::IntoDeserializer;
    use serde::de::value::{Error, StrDeserializer};
    let word: StrDeserializer<'_, Error> = word.into_deserializer();
    Some(1 << Trait::deserialize(word).ok()? as u32)
}

/// What is known of the family of this name; nothing of one that is not ours.
pub(crate) fn family_of(name: &str) -> Option<&'static Family> {
    FAMILIES.get(name)
}

/// Whether all foods of the family of this name are so.
pub(crate) fn family_has(name: &str, what: Trait) -> bool {
    family_of(name).is_some_and(|family| family.traits & (1 << what as u32) != 0)
}

impl Food<'_> {
    /// Whether all foods of its family are so.
    pub(crate) fn has(&self, what: Trait) -> bool {
        family_has(self.family(), what)
    }

    /// The same, or whether foods of its name are.
    pub(crate) fn is_named(&self, what: Trait) -> bool {
        let bit = 1 << what as u32;
        let own = |row: &&Named| row.traits & bit != 0 && row.family == self.family();
        self.has(what) || NAMED.iter().filter(own).any(|row| row.is(self.name()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_reads_and_every_family_has_one() {
        let mut reader = csv::Reader::from_reader(include_str!("tables/families.csv").as_bytes());
        let rows: Vec<Row> = reader
            .deserialize()
            .collect::<Result<_, _>>()
            .expect("reads");
        for row in &rows {
            let words = row.traits.split(';').filter(|w| !w.is_empty());
            for word in words {
                assert!(bit_of(word).is_some(), "{}: {word}", row.family);
            }
            assert_eq!(row.g_per_ml.is_some(), !row.density_source.is_empty());
        }
        let figures = include_str!("tables/figures.csv").as_bytes();
        for food in csv::Reader::from_reader(figures).records() {
            let family = food.expect("reads")[1].to_owned();
            assert!(family_of(&family).is_some(), "{family}");
        }
    }

    #[test]
    fn traits_are_those_of_the_table() {
        assert!(family_has("soup", Trait::WholeDish) && family_has("soup", Trait::Sticks));
        assert!(family_has("milk drink", Trait::Drink) && !family_has("cream", Trait::Drink));
        assert!(!family_has("no family", Trait::Drink));
        let named = |family: &str, name: &str, what: Trait| {
            let mut rows = NAMED.iter();
            rows.any(|r| r.family == family && r.traits & (1 << what as u32) != 0 && r.is(name))
        };
        assert!(named("dressing", "olive oil", Trait::CookedIn));
        assert!(!named(
            "dressing",
            "vinegar and oil dressing",
            Trait::CookedIn
        ));
        assert!(named("sauce", "guacamole with tomatoes", Trait::Dip));
        let mut named = NAMED.iter();
        assert!(named.all(|row| family_of(&row.family).is_some()));
    }
}
