//! The columns of the catalogue: which nutrients and which food-group equivalents every
//! food carries, with the names used in the committed tables.
//!
//! This file is also compiled into the build script and the rebuild command, so it must
//! stand alone.

/// Nutrients of 100 g of a food, in the order of the tables.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Nutrient {
    /// Metabolisable energy, kcal.
    EnergyKcal,
    /// Protein, g.
    ProteinG,
    /// Total fat, g.
    FatG,
    /// Saturated fatty acids, g.
    SaturatedFatG,
    /// Carbohydrate by difference, fibre included, g.
    CarbohydrateG,
    /// Dietary fibre, g.
    FibreG,
    /// Total sugars, g.
    SugarsG,
    /// Added sugars, g (4.2 g to the teaspoon-equivalent).
    AddedSugarsG,
    /// Sodium, mg.
    SodiumMg,
    /// Ethanol, g.
    AlcoholG,
    /// Water, g.
    WaterG,
    /// Potassium, mg.
    PotassiumMg,
    /// Calcium, mg.
    CalciumMg,
    /// Iron, mg.
    IronMg,
    /// Magnesium, mg.
    MagnesiumMg,
    /// Vitamin A, micrograms of retinol activity equivalents.
    VitaminAMcg,
    /// Vitamin C, mg.
    VitaminCMg,
    /// Vitamin E (alpha-tocopherol), mg.
    VitaminEMg,
}

impl Nutrient {
    /// All nutrients in table order.
    pub(crate) const ALL: [Nutrient; 18] = [
        Nutrient::EnergyKcal,
        Nutrient::ProteinG,
        Nutrient::FatG,
        Nutrient::SaturatedFatG,
        Nutrient::CarbohydrateG,
        Nutrient::FibreG,
        Nutrient::SugarsG,
        Nutrient::AddedSugarsG,
        Nutrient::SodiumMg,
        Nutrient::AlcoholG,
        Nutrient::WaterG,
        Nutrient::PotassiumMg,
        Nutrient::CalciumMg,
        Nutrient::IronMg,
        Nutrient::MagnesiumMg,
        Nutrient::VitaminAMcg,
        Nutrient::VitaminCMg,
        Nutrient::VitaminEMg,
    ];

    /// The column's name in the committed table; the unit is its last part.
    #[must_use]
    pub(crate) fn column(self) -> &'static str {
        match self {
            Nutrient::EnergyKcal => "energy_kcal",
            Nutrient::ProteinG => "protein_g",
            Nutrient::FatG => "fat_g",
            Nutrient::SaturatedFatG => "saturated_fat_g",
            Nutrient::CarbohydrateG => "carbohydrate_g",
            Nutrient::FibreG => "fibre_g",
            Nutrient::SugarsG => "sugars_g",
            Nutrient::AddedSugarsG => "added_sugars_g",
            Nutrient::SodiumMg => "sodium_mg",
            Nutrient::AlcoholG => "alcohol_g",
            Nutrient::WaterG => "water_g",
            Nutrient::PotassiumMg => "potassium_mg",
            Nutrient::CalciumMg => "calcium_mg",
            Nutrient::IronMg => "iron_mg",
            Nutrient::MagnesiumMg => "magnesium_mg",
            Nutrient::VitaminAMcg => "vitamin_a_mcg",
            Nutrient::VitaminCMg => "vitamin_c_mg",
            Nutrient::VitaminEMg => "vitamin_e_mg",
        }
    }
}

/// Food-group equivalents of 100 g of a food, in the order of the tables. Units follow
/// the USDA Food Patterns Equivalents Database (FPED): cup-equivalents for fruits,
/// vegetables, pulses and dairy; ounce-equivalents for grains and protein foods; grams
/// for oils and solid fats; teaspoon-equivalents for added sugars; drinks for alcohol.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs)] // each name is its own definition; units are given above
pub enum Equivalent {
    Fruits,
    FruitsCitrusMelonBerry,
    FruitsOther,
    FruitsJuice,
    Vegetables,
    DarkGreen,
    RedOrange,
    Tomato,
    RedOrangeOther,
    Starchy,
    Potato,
    StarchyOther,
    VegetablesOther,
    Pulses,
    Grains,
    WholeGrains,
    RefinedGrains,
    Protein,
    MeatPoultrySeafood,
    Meat,
    CuredMeat,
    OrganMeat,
    Poultry,
    SeafoodHighOmega3,
    SeafoodLowOmega3,
    Eggs,
    Soy,
    NutsSeeds,
    PulsesAsProtein,
    Dairy,
    Milk,
    Yogurt,
    Cheese,
    OilsG,
    SolidFatsG,
    AddedSugarsTsp,
    AlcoholDrinks,
}

impl Equivalent {
    /// All equivalents in table order.
    pub const ALL: [Equivalent; 37] = [
        Equivalent::Fruits,
        Equivalent::FruitsCitrusMelonBerry,
        Equivalent::FruitsOther,
        Equivalent::FruitsJuice,
        Equivalent::Vegetables,
        Equivalent::DarkGreen,
        Equivalent::RedOrange,
        Equivalent::Tomato,
        Equivalent::RedOrangeOther,
        Equivalent::Starchy,
        Equivalent::Potato,
        Equivalent::StarchyOther,
        Equivalent::VegetablesOther,
        Equivalent::Pulses,
        Equivalent::Grains,
        Equivalent::WholeGrains,
        Equivalent::RefinedGrains,
        Equivalent::Protein,
        Equivalent::MeatPoultrySeafood,
        Equivalent::Meat,
        Equivalent::CuredMeat,
        Equivalent::OrganMeat,
        Equivalent::Poultry,
        Equivalent::SeafoodHighOmega3,
        Equivalent::SeafoodLowOmega3,
        Equivalent::Eggs,
        Equivalent::Soy,
        Equivalent::NutsSeeds,
        Equivalent::PulsesAsProtein,
        Equivalent::Dairy,
        Equivalent::Milk,
        Equivalent::Yogurt,
        Equivalent::Cheese,
        Equivalent::OilsG,
        Equivalent::SolidFatsG,
        Equivalent::AddedSugarsTsp,
        Equivalent::AlcoholDrinks,
    ];

    /// The column's name in the committed table.
    #[must_use]
    pub(crate) fn column(self) -> &'static str {
        match self {
            Equivalent::Fruits => "fruits_cup",
            Equivalent::FruitsCitrusMelonBerry => "fruits_citrus_melon_berry_cup",
            Equivalent::FruitsOther => "fruits_other_cup",
            Equivalent::FruitsJuice => "fruits_juice_cup",
            Equivalent::Vegetables => "vegetables_cup",
            Equivalent::DarkGreen => "dark_green_cup",
            Equivalent::RedOrange => "red_orange_cup",
            Equivalent::Tomato => "tomato_cup",
            Equivalent::RedOrangeOther => "red_orange_other_cup",
            Equivalent::Starchy => "starchy_cup",
            Equivalent::Potato => "potato_cup",
            Equivalent::StarchyOther => "starchy_other_cup",
            Equivalent::VegetablesOther => "vegetables_other_cup",
            Equivalent::Pulses => "pulses_cup",
            Equivalent::Grains => "grains_oz",
            Equivalent::WholeGrains => "whole_grains_oz",
            Equivalent::RefinedGrains => "refined_grains_oz",
            Equivalent::Protein => "protein_oz",
            Equivalent::MeatPoultrySeafood => "meat_poultry_seafood_oz",
            Equivalent::Meat => "meat_oz",
            Equivalent::CuredMeat => "cured_meat_oz",
            Equivalent::OrganMeat => "organ_meat_oz",
            Equivalent::Poultry => "poultry_oz",
            Equivalent::SeafoodHighOmega3 => "seafood_high_omega3_oz",
            Equivalent::SeafoodLowOmega3 => "seafood_low_omega3_oz",
            Equivalent::Eggs => "eggs_oz",
            Equivalent::Soy => "soy_oz",
            Equivalent::NutsSeeds => "nuts_seeds_oz",
            Equivalent::PulsesAsProtein => "pulses_as_protein_oz",
            Equivalent::Dairy => "dairy_cup",
            Equivalent::Milk => "milk_cup",
            Equivalent::Yogurt => "yogurt_cup",
            Equivalent::Cheese => "cheese_cup",
            Equivalent::OilsG => "oils_g",
            Equivalent::SolidFatsG => "solid_fats_g",
            Equivalent::AddedSugarsTsp => "added_sugars_tsp",
            Equivalent::AlcoholDrinks => "alcohol_drinks",
        }
    }
}
