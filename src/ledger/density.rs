//! NRF9.3: nutrients to encourage less nutrients to limit, for 100 kcal of a food.

use crate::foods::{Food, Nutrient};

/// Nutrients of 100 kcal of a food; `None` where nobody published a figure.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(crate) struct Per100Kcal {
    /// Protein, g.
    pub protein_g: Option<f64>,
    /// Fibre, g.
    pub fibre_g: Option<f64>,
    /// Vitamin A, micrograms RAE.
    pub vitamin_a_mcg: Option<f64>,
    /// Vitamin C, mg.
    pub vitamin_c_mg: Option<f64>,
    /// Vitamin E, mg alpha-tocopherol.
    pub vitamin_e_mg: Option<f64>,
    /// Calcium, mg.
    pub calcium_mg: Option<f64>,
    /// Iron, mg.
    pub iron_mg: Option<f64>,
    /// Potassium, mg.
    pub potassium_mg: Option<f64>,
    /// Magnesium, mg.
    pub magnesium_mg: Option<f64>,
    /// Saturated fat, g.
    pub saturated_fat_g: Option<f64>,
    /// Added sugars, g.
    pub added_sugars_g: Option<f64>,
    /// Sodium, mg.
    pub sodium_mg: Option<f64>,
}

impl Per100Kcal {
    /// Of a food; `None` without energy.
    #[must_use]
    pub(crate) fn of(food: &Food<'_>) -> Option<Self> {
        let energy = food.per_100g(Nutrient::EnergyKcal).filter(|e| *e > 0.5)?;
        let of = |n| Some(food.per_100g(n)? * 100.0 / energy);
        Some(Self {
            protein_g: of(Nutrient::ProteinG),
            fibre_g: of(Nutrient::FibreG),
            vitamin_a_mcg: of(Nutrient::VitaminAMcg),
            vitamin_c_mg: of(Nutrient::VitaminCMg),
            vitamin_e_mg: of(Nutrient::VitaminEMg),
            calcium_mg: of(Nutrient::CalciumMg),
            iron_mg: of(Nutrient::IronMg),
            potassium_mg: of(Nutrient::PotassiumMg),
            magnesium_mg: of(Nutrient::MagnesiumMg),
            saturated_fat_g: of(Nutrient::SaturatedFatG),
            added_sugars_g: of(Nutrient::AddedSugarsG),
            sodium_mg: of(Nutrient::SodiumMg),
        })
    }
}

/// Micrograms RAE that stand for the reference 5,000 IU of vitamin A, at 0.3 mcg retinol to
/// the IU (the IU of carotene in plants is 0.05 to 0.1 mcg RAE, so that by RAE leaves and roots
/// reach the reference later than they did by IU); milligrams alpha-tocopherol that stand for 30 IU of vitamin E, at 0.67 mg (d-alpha)
/// to the IU.
const VITAMIN_A_MCG: f64 = 1500.0;
const VITAMIN_E_MG: f64 = 20.1;

/// The index: the sum over nine nutrients of percent of the reference value, each at most
/// 100, less the sum over three of percent of the maximum, uncapped; unit: percent per 100
/// kcal. `None` when a figure is missing.
///
/// Source: Fulgoni, Keast and Drewnowski, J Nutr 2009;139:1549-54. Reference values are the
/// pre-2016 US Daily Values (50 g protein, 25 g fibre, 5,000 IU A, 60 mg C, 30 IU E,
/// 1,000 mg calcium, 18 mg iron, 3,500 mg potassium, 400 mg magnesium; 20 g saturated fat,
/// 50 g added sugars, 2,400 mg sodium); that the paper used exactly these is from memory.
#[must_use]
pub(crate) fn nrf9_3(food: &Per100Kcal) -> Option<f64> {
    let encourage = [
        (food.protein_g, 50.0),
        (food.fibre_g, 25.0),
        (food.vitamin_a_mcg, VITAMIN_A_MCG),
        (food.vitamin_c_mg, 60.0),
        (food.vitamin_e_mg, VITAMIN_E_MG),
        (food.calcium_mg, 1000.0),
        (food.iron_mg, 18.0),
        (food.potassium_mg, 3500.0),
        (food.magnesium_mg, 400.0),
    ];
    let limit = [
        (food.saturated_fat_g, 20.0),
        (food.added_sugars_g, 50.0),
        (food.sodium_mg, 2400.0),
    ];
    let plus: Option<f64> = encourage
        .iter()
        .map(|(v, reference)| Some((v.as_ref()? / reference * 100.0).min(100.0)))
        .sum();
    let minus: Option<f64> = limit
        .iter()
        .map(|(v, most)| Some(v.as_ref()? / most * 100.0))
        .sum();
    Some(plus? - minus?)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn broccoli() -> Per100Kcal {
        // SR Legacy 11090, raw broccoli, 34 kcal per 100 g, times 100 / 34.
        let of = |v: f64| Some(v * 100.0 / 34.0);
        Per100Kcal {
            protein_g: of(2.82),
            fibre_g: of(2.6),
            vitamin_a_mcg: of(31.0),
            vitamin_c_mg: of(89.2),
            vitamin_e_mg: of(0.78),
            calcium_mg: of(47.0),
            iron_mg: of(0.73),
            potassium_mg: of(316.0),
            magnesium_mg: of(21.0),
            saturated_fat_g: of(0.039),
            added_sugars_g: Some(0.0),
            sodium_mg: of(33.0),
        }
    }

    /// By hand: 16.59 + 30.59 + 6.08 + 100 (capped) + 11.41 + 13.82 + 11.93 + 26.55 + 15.44
    /// less 0.57 + 0 + 4.04.
    #[test]
    fn broccoli_by_hand() {
        let score = nrf9_3(&broccoli()).unwrap();
        assert!((score - 227.8).abs() < 0.2, "{score}");
    }

    #[test]
    fn a_missing_figure_gives_none() {
        assert_eq!(
            nrf9_3(&Per100Kcal {
                iron_mg: None,
                ..broccoli()
            }),
            None
        );
    }

    /// 100 kcal of white sugar: 25 g of added sugars and nothing else: minus 50.
    #[test]
    fn sugar_by_hand() {
        let zero = Some(0.0);
        let sugar = Per100Kcal {
            protein_g: zero,
            fibre_g: zero,
            vitamin_a_mcg: zero,
            vitamin_c_mg: zero,
            vitamin_e_mg: zero,
            calcium_mg: zero,
            iron_mg: zero,
            potassium_mg: zero,
            magnesium_mg: zero,
            saturated_fat_g: zero,
            added_sugars_g: Some(25.0),
            sodium_mg: zero,
        };
        assert!((nrf9_3(&sugar).unwrap() + 50.0).abs() < 1e-9);
    }
}
