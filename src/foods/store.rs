//! The foods as one block: names, figures, measures.
//!
//! This file is also compiled into the build script.

use super::blob::{Arena, Place, Reader, Text, Writer};
use super::columns::{Equivalent, Nutrient};
use super::rows::FoodRow;

/// Fixed-size part of a food.
#[derive(Debug, Clone, Copy, Default, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub(crate) struct Fixed {
    pub(super) name: Place,
    pub(super) code: Place,
    pub(super) family: Place,
    pub(super) source: Place,
    pub(super) basis: Place,
    pub(super) aliases: [u32; 2],
    pub(super) measures: [u32; 2],
    pub(super) refuse_pct: f32,
    pub(super) spare: u32,
}

/// A household measure.
#[derive(Debug, Clone, Copy, Default, bytemuck::Pod, bytemuck::Zeroable)]
#[repr(C)]
pub(crate) struct StoredMeasure {
    pub(super) text: Place,
    pub(super) grams: f32,
}

mod section {
    pub(crate) const TEXT: usize = 0;
    pub(crate) const FOODS: usize = 1;
    pub(crate) const ALIASES: usize = 2;
    pub(crate) const MEASURES: usize = 3;
    pub(crate) const NUTRIENTS: usize = 4;
    pub(crate) const EQUIVALENTS: usize = 5;
}

/// Writes the foods' block.
#[must_use]
pub(crate) fn build(foods: &[FoodRow]) -> Vec<u8> {
    let mut arena = Arena::default();
    let (mut fixed, mut aliases, mut measures) = (Vec::new(), Vec::new(), Vec::new());
    let (mut nutrients, mut equivalents): (Vec<f32>, Vec<f32>) = (Vec::new(), Vec::new());
    for food in foods {
        let first_alias = aliases.len() as u32;
        aliases.extend(food.aliases.iter().map(|a| arena.keep(a)));
        let first_measure = measures.len() as u32;
        measures.extend(food.measures.iter().map(|m| StoredMeasure {
            text: arena.keep(&m.text),
            grams: m.grams,
        }));
        nutrients.extend(&food.nutrients);
        equivalents.extend(&food.equivalents);
        fixed.push(Fixed {
            name: arena.keep(&food.name),
            code: arena.keep(&food.code),
            family: arena.keep(&food.family),
            source: arena.keep(&food.source),
            basis: arena.keep(&food.basis),
            aliases: [first_alias, aliases.len() as u32],
            measures: [first_measure, measures.len() as u32],
            refuse_pct: food.refuse_pct,
            spare: 0,
        });
    }
    let mut writer = Writer::default();
    writer.add(&arena.into_bytes());
    writer.add(&fixed);
    writer.add(&aliases);
    writer.add(&measures);
    writer.add(&nutrients);
    writer.add(&equivalents);
    writer.finish()
}

/// The foods in place.
#[derive(Debug, Clone, Copy)]
pub struct Store<'b> {
    pub(super) text: Text<'b>,
    pub(super) fixed: &'b [Fixed],
    pub(super) aliases: &'b [Place],
    pub(super) measures: &'b [StoredMeasure],
    pub(super) nutrients: &'b [f32],
    pub(super) equivalents: &'b [f32],
}

impl<'b> Store<'b> {
    /// Opens a block written by [`build`].
    pub(crate) fn open(bytes: &'b [u8]) -> Result<Self, Box<dyn std::error::Error>> {
        let reader = Reader::new(bytes)?;
        let store = Self {
            text: reader.text(section::TEXT),
            fixed: reader.numbers(section::FOODS),
            aliases: reader.numbers(section::ALIASES),
            measures: reader.numbers(section::MEASURES),
            nutrients: reader.numbers(section::NUTRIENTS),
            equivalents: reader.numbers(section::EQUIVALENTS),
        };
        let foods = store.fixed.len();
        if store.nutrients.len() != foods * Nutrient::ALL.len()
            || store.equivalents.len() != foods * Equivalent::ALL.len()
        {
            return Err("the catalogue's tables do not fit each other".into());
        }
        Ok(store)
    }
}
