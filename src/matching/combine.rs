//! The catalogue with a person's own foods in it.

use super::catalogue::Catalogue;
use super::certainty::Certainty;
use super::index::Index;
use super::matcher::Context;
use super::naming;
use crate::foods::columns::{Equivalent, Nutrient};
use crate::foods::own::{OwnFault, OwnFood, OwnFoods, OwnFoodsError, key};
use crate::foods::rows::{FoodRow, MeasureRow};
use crate::foods::{CatalogueError, Food, Foods, store};
use std::collections::BTreeSet;

/// Why own foods cannot be put into the catalogue.
#[derive(Debug, thiserror::Error)]
pub(crate) enum WithOwnError {
    /// A food of the table is at fault.
    #[error(transparent)]
    Table(#[from] OwnFoodsError),
    /// The catalogue cannot be read.
    #[error(transparent)]
    Catalogue(#[from] CatalogueError),
}

impl Catalogue {
    /// This catalogue and a person's own foods: beside its own, and in the place of those
    /// whose name they have. What is known of words, and corrections, stay.
    ///
    /// The joined tables stay in memory until the program ends. Fails when a food is like
    /// none of this catalogue, or of a family that it does not know.
    pub(crate) fn with_own(self, own: &OwnFoods) -> Result<Self, WithOwnError> {
        let taken = own.keys();
        let mut rows = Vec::with_capacity(self.len() + own.len());
        for food in &own.list {
            rows.push(self.completed(own, food)?);
        }
        for food in self.foods() {
            if !taken.contains(&key(food.name())) {
                let mut row = as_row(food);
                row.aliases.retain(|alias| !taken.contains(&key(alias)));
                rows.push(row);
            }
        }
        let wrong = |e: Box<dyn std::error::Error>| CatalogueError::new(&e);
        let names = lasting(&naming::build_index(&rows, self.knowledge()));
        let foods = Foods::open(lasting(&store::build(&rows)))?;
        let index = Index::open(names).map_err(wrong)?;
        Ok(self.over(foods, index))
    }

    /// The food with what it takes from the one it is like.
    fn completed(&self, own: &OwnFoods, food: &OwnFood) -> Result<FoodRow, OwnFoodsError> {
        let mut row = food.row.clone();
        let like = match food.like.as_str() {
            "" => None,
            said => Some(self.like(own, food, said)?),
        };
        if let Some(like) = like {
            let blank = row.equivalents.iter().all(|e| e.is_nan());
            if blank {
                row.equivalents = equivalents(like);
                row.basis = format!("like `{}`", like.name());
            }
            if row.measures.is_empty() {
                row.measures = measures(like);
            }
            if row.family.is_empty() {
                like.family().clone_into(&mut row.family);
            }
        } else {
            let known: BTreeSet<&str> = self.foods().map(|food| food.family()).collect();
            if !known.contains(row.family.as_str()) {
                let known = known.into_iter().collect::<Vec<_>>().join(", ");
                let fault = OwnFault::Family(row.family.clone(), known);
                return Err(own.fault(food, "family", fault));
            }
        }
        // A group that nobody speaks of beside others is not in it.
        for equivalent in &mut row.equivalents {
            *equivalent = if equivalent.is_nan() {
                0.0
            } else {
                *equivalent
            };
        }
        Ok(row)
    }

    fn like(&self, own: &OwnFoods, food: &OwnFood, said: &str) -> Result<Food<'_>, OwnFoodsError> {
        if let Some(found) = self.by_code(said) {
            return Ok(found);
        }
        let found = self.find(said, &Context::default(), 2);
        match found.food {
            Some(id) if found.certainty == Certainty::Sure => Ok(self.food(id)),
            other => {
                let other = other.or_else(|| Some(found.alternatives.first()?.0));
                let nearest = other.map_or("none", |id| self.food(id).name()).to_owned();
                let given = said.to_owned();
                Err(own.fault(food, "like", OwnFault::Like { given, nearest }))
            }
        }
    }
}

fn equivalents(food: Food<'_>) -> Vec<f32> {
    let of = |e: &Equivalent| food.equivalent_per_100g(*e) as f32;
    Equivalent::ALL.iter().map(of).collect()
}

fn measures(food: Food<'_>) -> Vec<MeasureRow> {
    let list = food.measures().map(|m| MeasureRow {
        text: m.text.to_owned(),
        grams: m.grams as f32,
    });
    list.collect()
}

fn as_row(food: Food<'_>) -> FoodRow {
    let nutrient = |n: &Nutrient| food.per_100g(*n).map_or(f32::NAN, |value| value as f32);
    FoodRow {
        code: food.code().to_owned(),
        name: food.name().to_owned(),
        aliases: food.aliases().map(str::to_owned).collect(),
        family: food.family().to_owned(),
        source: food.source().to_owned(),
        basis: food.basis().to_owned(),
        refuse_pct: food
            .refuse_share()
            .map_or(f32::NAN, |share| (share * 100.0) as f32),
        nutrients: Nutrient::ALL.iter().map(nutrient).collect(),
        equivalents: equivalents(food),
        measures: measures(food),
    }
}

/// A block at a place where its numbers can be read, for the rest of the run.
fn lasting(bytes: &[u8]) -> &'static [u8] {
    let mut words = vec![0_u64; bytes.len().div_ceil(8)];
    let space: &mut [u8] = bytemuck::cast_slice_mut(&mut words);
    space[..bytes.len()].copy_from_slice(bytes);
    bytemuck::cast_slice(words.leak())
}
