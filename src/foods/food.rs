//! The foods that the program knows: names, figures, household measures.

use super::columns::{Equivalent, Nutrient};
use super::store::Store;

/// Bytes that start at a multiple of eight, so that numbers can be read in place.
#[repr(align(8))]
struct Aligned<T: ?Sized>(T);

static FOODS: &Aligned<[u8]> = &Aligned(*include_bytes!(concat!(env!("OUT_DIR"), "/foods.bin")));

/// Version of the catalogue's figures and names; day-log entries keep it.
pub(crate) const CATALOGUE_VERSION: &str = "2026-11 (FNDDS 2021-2023, FPED 2017-2020, SR Legacy)";

/// Why a catalogue cannot be opened.
#[derive(Debug, thiserror::Error)]
#[error("the catalogue cannot be read: {0}")]
pub struct CatalogueError(String);

impl CatalogueError {
    pub(crate) fn new(why: &(impl std::fmt::Display + ?Sized)) -> Self {
        Self(why.to_string())
    }
}

/// Row of a food in its catalogue.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct FoodId(pub u32);

/// A table of foods, read in place.
#[derive(Debug, Clone)]
pub(crate) struct Foods(Store<'static>);

/// A food of the catalogue.
#[derive(Debug, Clone, Copy)]
pub struct Food<'c> {
    store: &'c Store<'static>,
    id: FoodId,
}

/// A household measure: what people say and what it weighs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measure<'c> {
    /// Words, such as `1 cup, sliced`; `unstated` is USDA's weight for no amount at all.
    pub text: &'c str,
    /// Edible grams.
    pub grams: f64,
}

impl Foods {
    /// The foods that come with the program.
    pub(crate) fn embedded() -> Result<Self, CatalogueError> {
        Self::open(&FOODS.0)
    }

    /// Foods from a block that [`super::store::build`] wrote.
    pub(crate) fn open(block: &'static [u8]) -> Result<Self, CatalogueError> {
        let store = Store::open(block).map_err(|e| CatalogueError::new(&e))?;
        Ok(Self(store))
    }

    pub(crate) fn len(&self) -> usize {
        self.0.fixed.len()
    }

    /// A food by its row; a row that is not of this table shows the last food.
    pub(crate) fn food(&self, id: FoodId) -> Food<'_> {
        let last = self.len().saturating_sub(1) as u32;
        Food {
            store: &self.0,
            id: FoodId(id.0.min(last)),
        }
    }
}

impl<'c> Food<'c> {
    fn fixed(&self) -> &'c super::store::Fixed {
        &self.store.fixed[self.id.0 as usize]
    }

    /// Its row.
    #[must_use]
    pub fn id(&self) -> FoodId {
        self.id
    }

    /// Our plain name.
    #[must_use]
    pub fn name(&self) -> &'c str {
        self.fixed().name.of(self.store.text)
    }

    /// USDA food code.
    #[must_use]
    pub fn code(&self) -> &'c str {
        self.fixed().code.of(self.store.text)
    }

    /// Our family.
    #[must_use]
    pub fn family(&self) -> &'c str {
        self.fixed().family.of(self.store.text)
    }

    /// Publication and code behind the figures.
    #[must_use]
    pub fn source(&self) -> &'c str {
        self.fixed().source.of(self.store.text)
    }

    /// How the food-group equivalents were found: `fndds+fped` (published), `recipes`
    /// (solved from published recipes), `likeness` (carried over from a like food),
    /// `rule` (none by definition).
    #[must_use]
    pub(crate) fn basis(&self) -> &'c str {
        self.fixed().basis.of(self.store.text)
    }

    /// Share of the weight as bought that is not eaten, from 0 to 1; `None` when unstated.
    #[must_use]
    pub(crate) fn refuse_share(&self) -> Option<f64> {
        let percent = f64::from(self.fixed().refuse_pct);
        (!percent.is_nan()).then_some(percent / 100.0)
    }

    /// Our other names.
    pub fn aliases(&self) -> impl Iterator<Item = &'c str> {
        let [start, end] = self.fixed().aliases;
        let text = self.store.text;
        self.store.aliases[start as usize..end as usize]
            .iter()
            .map(move |place| place.of(text))
    }

    /// Household measures, as USDA lists them.
    pub fn measures(&self) -> impl Iterator<Item = Measure<'c>> {
        let [start, end] = self.fixed().measures;
        let text = self.store.text;
        self.store.measures[start as usize..end as usize]
            .iter()
            .map(move |m| Measure {
                text: m.text.of(text),
                grams: f64::from(m.grams),
            })
    }

    /// A nutrient of 100 g; `None` when nobody published it.
    #[must_use]
    pub fn per_100g(&self, nutrient: Nutrient) -> Option<f64> {
        let at = self.id.0 as usize * Nutrient::ALL.len() + nutrient as usize;
        let value = f64::from(self.store.nutrients[at]);
        (!value.is_nan()).then_some(value)
    }

    /// Whether energy and every food-group equivalent of 100 g lie within a tenth of another
    /// food's, or nearly nothing apart (10 kcal, a tenth of an equivalent): whoever counts
    /// portions could not tell the two. Foods whose energy nobody published are alike to none.
    #[must_use]
    pub fn is_alike(&self, other: &Food<'_>) -> bool {
        let near = |a: f64, b: f64, least: f64| (a - b).abs() <= (0.1 * a.max(b)).max(least);
        let energy = |food: &Food<'_>| food.per_100g(Nutrient::EnergyKcal);
        energy(self)
            .zip(energy(other))
            .is_some_and(|(a, b)| near(a, b, 10.0))
            && Equivalent::ALL.iter().all(|e| {
                near(
                    self.equivalent_per_100g(*e),
                    other.equivalent_per_100g(*e),
                    0.1,
                )
            })
    }

    /// A food-group equivalent of 100 g.
    #[must_use]
    pub fn equivalent_per_100g(&self, equivalent: Equivalent) -> f64 {
        let at = self.id.0 as usize * Equivalent::ALL.len() + equivalent as usize;
        f64::from(self.store.equivalents[at])
    }
}
