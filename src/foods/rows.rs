//! A food as the tables give it.
//!
//! This file is also compiled into the build script.

/// A household measure of a food: what people say, and what it weighs.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct MeasureRow {
    /// The measure's words, such as `1 cup, sliced`.
    pub text: String,
    /// Edible grams of that measure.
    pub grams: f32,
}

/// A food as the tables give it. `NaN` stands for a figure that nobody published.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct FoodRow {
    /// USDA food code: eight digits FNDDS, five digits SR.
    pub code: String,
    /// Our plain name.
    pub name: String,
    /// Our other names.
    pub aliases: Vec<String>,
    /// Our family.
    pub family: String,
    /// Publication and code behind the figures.
    pub source: String,
    /// How the food-group equivalents were found.
    pub basis: String,
    /// Percent of the weight as bought that is not eaten.
    pub refuse_pct: f32,
    /// Per 100 g, in the order of `Nutrient::ALL`.
    pub nutrients: Vec<f32>,
    /// Per 100 g, in the order of `Equivalent::ALL`.
    pub equivalents: Vec<f32>,
    /// Household measures.
    pub measures: Vec<MeasureRow>,
}
