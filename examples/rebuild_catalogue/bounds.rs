//! What 100 g of a food of some family can hold: bounds from FPED's own rows, which every row
//! that was solved or carried over must keep.
//!
//! A moist food (40 g of water and more) holds no more than any moist food of its kin in FPED;
//! a dry one no more, by its solids, than any of its kin. Beside that: no more added sugars
//! than sugars, no more oils and solid fats than fat. `tests/tables.rs` holds the committed
//! table against the same bounds.

use std::collections::BTreeMap;

/// Columns with a bound of their own.
pub const BOUNDED: [&str; 6] = [
    "fruits_cup",
    "vegetables_cup",
    "pulses_cup",
    "grains_oz",
    "protein_oz",
    "dairy_cup",
];
/// Water from which a food counts as moist, g of 100 g.
const MOIST_G: f64 = 40.0;
/// What rounding and the difference between two releases may add.
const ROUNDING: f64 = 1.03;
const DUST: f64 = 0.02;
/// Grams of sugars in one teaspoon-equivalent (FPED 2017-2020 methodology).
const GRAMS_PER_TSP_EQ: f64 = 4.2;

/// What FPED's rows of the kin of a family hold at most in one column.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Bound {
    /// Per 100 g of a moist food.
    pub moist: f64,
    /// FPED code that shows it.
    pub moist_code: String,
    /// Per gram of solids, of any food.
    pub per_solids_g: f64,
    /// FPED code that shows it.
    pub solids_code: String,
}

/// By family and column.
pub type Bounds = BTreeMap<(String, String), Bound>;

/// Families of the survey whose foods are kin to a family of reference foods; none for those
/// that may hold anything (restaurant dishes, sauces), which are held against all.
pub fn kin(family: &str) -> &'static [&'static str] {
    match family {
        "vegetable" => &["vegetable", "leafy", "salad", "potato", "pulses"],
        "fruit" => &["fruit", "dried fruit", "juice"],
        "red meat" => &["red meat"],
        "cured meat" => &["cured meat"],
        "poultry" => &["poultry"],
        "fish" => &["fish", "shellfish"],
        "nuts" => &["nuts"],
        "pulses" => &["pulses", "soy", "milk", "nuts"],
        "bread" => &["bread", "tortilla", "crackers", "pancakes", "dessert"],
        "cereal" => &["cereal"],
        "grain" => &["rice", "pasta", "cereal", "bread"],
        "dairy and eggs" => &[
            "cheese",
            "milk",
            "eggs",
            "cream",
            "yogurt",
            "ice cream",
            "milk drink",
        ],
        "fat" => &["fat", "dressing"],
        "sweet" => &["sweet", "dessert", "ice cream"],
        "snack" => &["snack", "crackers"],
        _ => &[],
    }
}

/// A row as it is held against the bounds.
pub struct Held<'r> {
    /// Family of reference foods.
    pub family: &'r str,
    /// A figure by its column; nothing when none is published.
    pub figure: &'r dyn Fn(&str) -> Option<f64>,
}

/// Whatever of a row cannot be, in words.
pub fn faults(row: &Held<'_>, bounds: &Bounds) -> Vec<String> {
    let of = |column: &str| (row.figure)(column).unwrap_or(0.0);
    let water = of("water_g");
    let mut faults = Vec::new();
    for column in BOUNDED {
        let key = (row.family.to_owned(), column.to_owned());
        let bound = bounds.get(&key).cloned().unwrap_or_default();
        let (most, code) = if water >= MOIST_G {
            (bound.moist, &bound.moist_code)
        } else {
            (bound.per_solids_g * (100.0 - water), &bound.solids_code)
        };
        // Flour: 16 g are one ounce-equivalent (FPED 2017-2020 methodology).
        let stated = if column == "grains_oz" && water < MOIST_G {
            100.0 / 16.0
        } else {
            0.0
        };
        let value = of(column);
        if value > most.max(stated) * ROUNDING + DUST {
            faults.push(format!(
                "{column} {value:.2}, at most {most:.2} (FPED {code})"
            ));
        }
    }
    let (fats, fat) = (of("oils_g") + of("solid_fats_g"), of("fat_g"));
    if fats > fat * ROUNDING + 0.5 {
        faults.push(format!("{fats:.1} g oils and solid fats of {fat:.1} g fat"));
    }
    let added = of("added_sugars_tsp") * GRAMS_PER_TSP_EQ;
    if let Some(sugars) = (row.figure)("sugars_g")
        && added > sugars * ROUNDING + 0.5
    {
        faults.push(format!("{added:.1} g added sugars of {sugars:.1} g sugars"));
    }
    faults
}

/// Takes one of FPED's own rows into the bounds of every family that it is kin to.
#[allow(dead_code)] // the test reads bounds and makes none
pub fn widen(
    bounds: &mut Bounds,
    families: &[&str],
    code: &str,
    survey_family: &str,
    figure: &dyn Fn(&str) -> Option<f64>,
) {
    let water = figure("water_g").unwrap_or(0.0);
    for family in families {
        if !kin(family).is_empty() && !kin(family).contains(&survey_family) {
            continue;
        }
        for column in BOUNDED {
            let value = figure(column).unwrap_or(0.0);
            let bound = bounds
                .entry(((*family).to_owned(), column.to_owned()))
                .or_default();
            if water >= MOIST_G && value > bound.moist {
                (bound.moist, bound.moist_code) = (value, code.to_owned());
            }
            // A drink or broth of hardly any solids says nothing of dry foods.
            let solids = 100.0 - water;
            if solids >= 5.0 && value / solids > bound.per_solids_g {
                (bound.per_solids_g, bound.solids_code) = (value / solids, code.to_owned());
            }
        }
    }
}
