//! Everyday foods with their figures: what one portion of each is in the measure a person
//! would use.

use super::free_food::counts_nowhere;
use super::{Amounts, Group, Per100Kcal, is_free, nrf9_3};
use crate::foods::everyday::{EverydayRow, FreeRow, everyday, free};
use crate::foods::{Food, Nutrient};
use crate::matching::Catalogue;
use std::collections::HashMap;

/// Grams of an ounce by weight (international yard and pound agreement, 1959).
const OUNCE_G: f64 = 28.349_523_125;
/// Tablespoons of a cup and teaspoons of a tablespoon (US customary).
const TABLESPOONS: f64 = 16.0;
const TEASPOONS: f64 = 3.0;

/// A food that people know, of the catalogue in use.
#[derive(Debug, Clone, Copy)]
pub(crate) struct KnownFood<'c> {
    /// The food.
    pub food: Food<'c>,
    /// The group it counts with.
    pub group: Group,
    /// What it is eaten as, its kind among those, what it is called and measured in.
    pub row: &'static EverydayRow,
    /// Edible grams of one unit.
    unit_g: f64,
}

/// A free food in one serving.
#[derive(Debug, Clone, Copy)]
pub(crate) struct FreeFood<'c> {
    /// The food.
    pub food: Food<'c>,
    /// Its kind, what it is called, what one serving is.
    pub row: &'static FreeRow,
    /// Edible grams of one serving.
    pub serving_g: f64,
}

/// All everyday foods that the catalogue holds, in the order of the table.
pub(crate) fn known_foods(catalogue: &Catalogue) -> Vec<KnownFood<'_>> {
    let named = named(catalogue);
    let known = |row: &'static EverydayRow| {
        let food = *named.get(row.food.as_str())?;
        Some(KnownFood {
            food,
            group: Group::from_words(&row.group)?,
            unit_g: grams_of(&food, &row.measure)? * row.times,
            row,
        })
    };
    everyday().iter().filter_map(known).collect()
}

/// All foods of the table whose serving is free by the published rule, and no tenth of a
/// portion of any group.
pub(crate) fn free_foods(catalogue: &Catalogue) -> Vec<FreeFood<'_>> {
    let named = named(catalogue);
    let known = |row: &'static FreeRow| {
        let food = *named.get(row.food.as_str())?;
        let serving_g = grams_of(&food, &row.measure)? * row.times;
        Some(FreeFood {
            food,
            row,
            serving_g,
        })
    };
    let all = free().iter().filter_map(known);
    all.filter(FreeFood::is_free).collect()
}

fn named(catalogue: &Catalogue) -> HashMap<&str, Food<'_>> {
    catalogue.foods().map(|food| (food.name(), food)).collect()
}

fn grams_of(food: &Food<'_>, measure: &str) -> Option<f64> {
    if measure == "oz" {
        return Some(OUNCE_G);
    }
    let mut measures = food.measures();
    measures.find(|m| m.text == measure).map(|m| m.grams)
}

impl FreeFood<'_> {
    fn is_free(&self) -> bool {
        let amounts = Amounts::per_gram(&self.food).times(self.serving_g);
        let energy = self.of(Nutrient::EnergyKcal);
        let carbohydrate = self.of(Nutrient::CarbohydrateG);
        let rule = energy.zip(carbohydrate);
        rule.is_some_and(|(energy, carbohydrate)| is_free(energy, carbohydrate))
            && counts_nowhere(&amounts)
    }

    /// A nutrient of one serving.
    pub(crate) fn of(&self, nutrient: Nutrient) -> Option<f64> {
        Some(self.food.per_100g(nutrient)? * self.serving_g / 100.0)
    }
}

impl KnownFood<'_> {
    /// Edible grams of so much of its group, in the group's unit; nothing of a food that has
    /// none of it.
    pub(crate) fn grams_for(&self, amount: f64) -> Option<f64> {
        let per_gram = self.group.per_gram(&self.food);
        (per_gram > 0.0).then(|| amount / per_gram)
    }

    /// How much of its group, in the group's unit, one unit of it is.
    pub(crate) fn of_unit(&self) -> f64 {
        self.group.per_gram(&self.food) * self.unit_g
    }

    /// Edible grams of one of it, where it is counted and not measured.
    pub(crate) fn piece_g(&self) -> Option<f64> {
        let measured = ["cup", "tablespoon", "teaspoon", "oz"];
        (!measured.contains(&self.row.unit.as_str())).then_some(self.unit_g)
    }

    /// Energy of so many grams, kcal.
    pub(crate) fn energy_kcal(&self, grams: f64) -> Option<f64> {
        Some(self.food.per_100g(Nutrient::EnergyKcal)? * grams / 100.0)
    }

    /// Nutrients to have more of less those to have less of, for its energy (NRF9.3).
    pub(crate) fn density(&self) -> Option<f64> {
        nrf9_3(&Per100Kcal::of(&self.food)?)
    }

    /// Whether so many grams come near to what one would measure: within a quarter.
    pub(crate) fn is_measurable(&self, grams: f64) -> bool {
        let units = grams / self.unit_g;
        let spoons = matches!(self.row.unit.as_str(), "cup" | "tablespoon" | "teaspoon");
        spoons || (rounded(units, &self.row.unit) - units).abs() <= 0.25 * units
    }

    /// Grams as one would measure them: `1 1/2 cups`, `2 slices`, `3 oz`.
    pub(crate) fn measured(&self, grams: f64) -> String {
        measured(grams / self.unit_g, &self.row.unit)
    }
}

/// So many units as one would measure them: spoons for a little of a cup, no finer than a
/// quarter.
fn measured(units: f64, unit: &str) -> String {
    match unit {
        "cup" if units < 0.22 => measured(units * TABLESPOONS, "tablespoon"),
        "tablespoon" if units < 0.45 => measured(units * TEASPOONS, "teaspoon"),
        "teaspoon" if units > 2.75 => measured(units / TEASPOONS, "tablespoon"),
        _ => {
            let rounded = rounded(units, unit);
            format!("{} {}", fraction(rounded), plural(unit, rounded))
        }
    }
}

/// To the nearest that people measure: cups to quarters and thirds, all else to its step.
fn rounded(units: f64, unit: &str) -> f64 {
    if unit == "cup" && units < 4.0 {
        const MARKS: [f64; 7] = [0.0, 0.25, 1.0 / 3.0, 0.5, 2.0 / 3.0, 0.75, 1.0];
        let over = units.fract();
        let apart = |mark: &f64| (mark - over).abs();
        let nearest = MARKS
            .into_iter()
            .min_by(|a, b| apart(a).total_cmp(&apart(b)));
        return units.floor() + nearest.unwrap_or(over);
    }
    let step = step(units, unit);
    (units / step).round().max(1.0) * step
}

/// The finest part of a unit that people measure.
fn step(units: f64, unit: &str) -> f64 {
    match unit {
        "naan" => 0.25,
        "medium bagel" | "medium pita" | "oz" if units < 1.0 => 0.25,
        "cracker" | "small cake" | "piece" => 1.0,
        _ if units < 6.0 => 0.5,
        _ => 1.0,
    }
}

/// `1 1/2`, to the nearest of quarters and thirds.
pub(crate) fn fraction(value: f64) -> String {
    const PARTS: [&str; 12] = [
        "", "", "1/4", "1/4", "1/3", "1/2", "1/2", "1/2", "2/3", "3/4", "3/4", "",
    ];
    let twelfths = (value * 12.0).round() as u64;
    let part = PARTS[(twelfths % 12) as usize];
    // Eleven twelfths are nearer to the whole than to three quarters.
    match ((twelfths + 1) / 12, part) {
        (whole, "") => whole.to_string(),
        (0, part) => part.to_owned(),
        (whole, part) => format!("{whole} {part}"),
    }
}

fn plural(unit: &str, many: f64) -> String {
    if many <= 1.0 || matches!(unit, "oz" | "medium") {
        return unit.to_owned();
    }
    format!("{unit}s")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_are_those_that_one_would_measure() {
        for (units, unit, words) in [
            (1.52, "cup", "1 1/2 cups"),
            (0.13, "cup", "2 tablespoons"),
            (0.36, "cup", "1/3 cup"),
            (0.68, "oz", "3/4 oz"),
            (0.3, "tablespoon", "1 teaspoon"),
            (2.9, "teaspoon", "1 tablespoon"),
            (2.2, "egg", "2 eggs"),
            (0.55, "medium", "1/2 medium"),
            (3.1, "oz", "3 oz"),
            (6.2, "cracker", "6 crackers"),
            (0.23, "medium bagel", "1/4 medium bagel"),
        ] {
            assert_eq!(measured(units, unit), words);
        }
    }

    #[test]
    fn every_row_of_the_tables_is_a_food_with_its_measure() {
        let catalogue = Catalogue::embedded().expect("catalogue");
        let known = known_foods(&catalogue);
        let lost: Vec<&str> = everyday()
            .iter()
            .filter(|row| !known.iter().any(|k| k.row.food == row.food))
            .map(|row| row.food.as_str())
            .collect();
        assert!(lost.is_empty(), "{lost:?}");
        for food in &known {
            assert!(food.of_unit() > 0.0, "{}", food.row.said);
            assert!(food.density().is_some(), "{}", food.row.said);
        }
        let free_now = free_foods(&catalogue);
        let lost: Vec<&str> = free()
            .iter()
            .filter(|row| !free_now.iter().any(|f| f.row.food == row.food))
            .map(|row| row.food.as_str())
            .collect();
        assert!(lost.is_empty(), "not free, or not there: {lost:?}");
    }

    /// Dietary Guidelines for Americans 2020-2025, appendix 3, notes: what counts as a
    /// cup-equivalent or an ounce-equivalent.
    #[test]
    fn one_portion_is_what_the_guidelines_say() {
        let catalogue = Catalogue::embedded().expect("catalogue");
        let known = known_foods(&catalogue);
        for (said, words) in [
            ("strawberries", "1 cup"),
            ("white rice", "1/2 cup"),
            ("white bread", "1 slice"),
            ("boiled or poached egg", "1 egg"),
            ("peanut butter", "1 tablespoon"),
            ("almonds", "1/2 oz"),
            ("skim milk", "1 cup"),
            ("cheddar", "1 1/2 oz"),
            ("cooked broccoli", "1 cup"),
            ("black beans", "1 cup"),
            ("raisins", "1/2 cup"),
        ] {
            let food = known.iter().find(|k| k.row.said == said).expect(said);
            let grams = food.grams_for(1.0).expect(said);
            assert_eq!(food.measured(grams), words, "{said}");
        }
    }
}
