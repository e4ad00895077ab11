//! Food groups, their parts, and the limits beside them.

use crate::foods::Nutrient;
use serde::{Deserialize, Serialize};

/// The unit a group's amounts are in, as the USDA Food Patterns Equivalents Database
/// defines them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) enum EqUnit {
    /// Cup-equivalents.
    #[serde(rename = "cup-eq")]
    CupEq,
    /// Ounce-equivalents.
    #[serde(rename = "oz-eq")]
    OzEq,
    /// Grams.
    #[serde(rename = "g")]
    Grams,
}

impl EqUnit {
    /// The unit as written.
    #[must_use]
    pub(crate) fn word(self) -> &'static str {
        match self {
            EqUnit::CupEq => "cup-eq",
            EqUnit::OzEq => "oz-eq",
            EqUnit::Grams => "g",
        }
    }
}

/// Declares an enum whose values each have a stable key and a label for people.
macro_rules! keyed {
    ($(#[$doc:meta])* $name:ident { $($(#[$item:meta])* $value:ident = $key:literal, $label:literal;)+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
        pub enum $name {
            $($(#[$item])* #[serde(rename = $key)] $value,)+
        }

        impl $name {
            /// All values in the order they are shown.
            pub(crate) const ALL: &'static [$name] = &[$($name::$value,)+];

            /// The stable key used in files.
            #[must_use]
            pub(crate) fn key(self) -> &'static str {
                match self { $($name::$value => $key,)+ }
            }

            /// The words people read.
            #[must_use]
            pub fn label(self) -> &'static str {
                match self { $($name::$value => $label,)+ }
            }
        }
    };
}

/// What is asked for by name.
macro_rules! asked_by_name {
    ($($name:ident)+) => {$(
        impl $name {
            /// The value with this key or label, in any case, with spaces or underscores.
            pub(crate) fn from_words(words: &str) -> Option<Self> {
                let plain = |s: &str| s.trim().to_lowercase().replace(['_', '-'], " ");
                let asked = plain(words);
                Self::ALL.iter().copied().find(|v| plain(v.key()) == asked || plain(v.label()) == asked)
            }
        }
    )+};
}

asked_by_name! { Group Limit EnergyNutrient }

keyed! {
    /// A food group of the Dietary Guidelines for Americans. Beans, peas and lentils stand
    /// apart as pulses, so that they are counted once.
    Group {
        /// Whole fruit, juice and dried fruit.
        Fruits = "fruits", "fruits";
        /// Vegetables without beans, peas and lentils.
        Vegetables = "vegetables", "vegetables";
        /// Beans, peas and lentils.
        Pulses = "pulses", "beans, peas, lentils";
        /// Whole and refined grains.
        Grains = "grains", "grains";
        /// Meat, poultry, seafood, eggs, nuts, seeds and soy.
        ProteinFoods = "protein_foods", "protein foods";
        /// Milk, yogurt, cheese and fortified soy milk.
        Dairy = "dairy", "dairy";
        /// Oils that are liquid at room temperature, by weight.
        Oils = "oils", "oils";
    }
}

impl Group {
    /// The unit of the group's amounts.
    #[must_use]
    pub(crate) fn unit(self) -> EqUnit {
        match self {
            Group::Fruits | Group::Vegetables | Group::Pulses | Group::Dairy => EqUnit::CupEq,
            Group::Grains | Group::ProteinFoods => EqUnit::OzEq,
            Group::Oils => EqUnit::Grams,
        }
    }

    /// The group of these words as people say them: its key or label, or `fruit`, `veg`,
    /// `protein`, `beans` and the like.
    pub(crate) fn said(words: &str) -> Option<Self> {
        let plain = words.trim().to_lowercase();
        Self::from_words(&plain).or(match plain.as_str() {
            "fruit" => Some(Self::Fruits),
            "vegetable" | "veg" | "veggies" => Some(Self::Vegetables),
            "grain" | "starch" => Some(Self::Grains),
            "protein" | "proteins" | "protein food" => Some(Self::ProteinFoods),
            "beans" | "legumes" | "pulse" => Some(Self::Pulses),
            "milk" => Some(Self::Dairy),
            "oil" | "fats" => Some(Self::Oils),
            _ => None,
        })
    }
}

keyed! {
    /// A part of a food group.
    Subgroup {
        /// Broccoli, spinach, romaine and the like.
        DarkGreen = "dark_green", "dark green";
        /// Tomatoes, carrots, sweet potatoes, red peppers and the like.
        RedOrange = "red_orange", "red and orange";
        /// Potatoes, corn, green peas and the like.
        Starchy = "starchy", "starchy";
        /// All other vegetables.
        OtherVegetables = "other_vegetables", "other vegetables";
        /// Whole grains.
        WholeGrains = "whole_grains", "whole grains";
        /// Refined grains.
        RefinedGrains = "refined_grains", "refined grains";
        /// Meat, poultry and eggs, cured and organ meats included.
        MeatPoultryEggs = "meat_poultry_eggs", "meat, poultry, eggs";
        /// Fish and shellfish.
        Seafood = "seafood", "seafood";
        /// Nuts, seeds and soy products.
        NutsSeedsSoy = "nuts_seeds_soy", "nuts, seeds, soy";
    }
}

impl Subgroup {
    /// The parts of a group.
    #[must_use]
    pub(crate) fn of(group: Group) -> &'static [Subgroup] {
        match group {
            Group::Vegetables => &[
                Subgroup::DarkGreen,
                Subgroup::RedOrange,
                Subgroup::Starchy,
                Subgroup::OtherVegetables,
            ],
            Group::Grains => &[Subgroup::WholeGrains, Subgroup::RefinedGrains],
            Group::ProteinFoods => &[
                Subgroup::MeatPoultryEggs,
                Subgroup::Seafood,
                Subgroup::NutsSeedsSoy,
            ],
            Group::Fruits | Group::Pulses | Group::Dairy | Group::Oils => &[],
        }
    }
}

keyed! {
    /// What a day should not hold much more of.
    Limit {
        /// Energy, kcal.
        Energy = "energy", "energy";
        /// Saturated fat, g.
        SaturatedFat = "saturated_fat", "saturated fat";
        /// Added sugars, teaspoon-equivalents of 4.2 g.
        AddedSugars = "added_sugars", "added sugars";
        /// Sodium, mg.
        Sodium = "sodium", "sodium";
        /// Solid fats, g.
        SolidFats = "solid_fats", "solid fats";
        /// Alcohol, drinks of 14 g ethanol.
        Alcohol = "alcohol", "alcohol";
    }
}

keyed! {
    /// What gives food its energy, and the fibre that comes with it: all in grams.
    EnergyNutrient {
        /// Protein, g.
        Protein = "protein", "protein";
        /// Carbohydrate, fibre included, g.
        Carbohydrate = "carbohydrate", "carbohydrate";
        /// Fat, g.
        Fat = "fat", "fat";
        /// Dietary fibre, g.
        Fibre = "fibre", "fibre";
    }
}

impl EnergyNutrient {
    /// The column of the food tables that holds it.
    #[must_use]
    pub(crate) const fn nutrient(self) -> Nutrient {
        match self {
            Self::Protein => Nutrient::ProteinG,
            Self::Carbohydrate => Nutrient::CarbohydrateG,
            Self::Fat => Nutrient::FatG,
            Self::Fibre => Nutrient::FibreG,
        }
    }
}

impl Limit {
    /// The unit of the limit's amounts.
    #[must_use]
    pub(crate) fn unit(self) -> &'static str {
        match self {
            Limit::Energy => "kcal",
            Limit::SaturatedFat | Limit::SolidFats => "g",
            Limit::AddedSugars => "tsp-eq",
            Limit::Sodium => "mg",
            Limit::Alcohol => "drinks",
        }
    }
}

/// Where beans, peas and lentils count, beside their own row; once, never twice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PulsesAs {
    /// With vegetables, by the cup.
    #[default]
    Vegetables,
    /// With protein foods, by the ounce.
    ProteinFoods,
}
