//! A day's protein: what a person or their coach asks for, or the recommended allowance.

use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::body::WeightKg;
use super::measure::{Bounds, MeasureError, PROTEIN, PROTEIN_PER_KG};
use super::source::{Source, Standing};
use super::whole;

/// The recommended dietary allowance of adults, g per kg of body weight a day.
const RDA_PER_KG: f64 = 0.8;
/// What most people who train do well with, g per kg of body weight a day.
const TRAINING_PER_KG: (f64, f64) = (1.4, 2.0);
/// Most of a day's energy that should come from protein.
const MOST_OF_ENERGY: f64 = 0.35;
/// Energy of protein, kcal a g (Atwater general factor).
const KCAL_PER_G: f64 = 4.0;
/// Body mass index from which g per kg of the whole weight runs high (common practice).
const PER_KG_RUNS_HIGH_BMI: f64 = 30.0;
/// People give g per kg to a tenth.
const NEAR: f64 = 0.05;

const RDA_SOURCE: Source = Source {
    citation: "National Academies, Dietary Reference Intakes for macronutrients, 2005: 0.8 g of \
               protein per kg a day is the recommended allowance of adults, 10 to 35 % of energy \
               the acceptable range",
    standing: Standing::Checked,
};
const TRAINING_SOURCE: Source = Source {
    citation: "International Society of Sports Nutrition, position stand on protein and \
               exercise, J Int Soc Sports Nutr 2017;14:20: 1.4 to 2.0 g per kg a day for most \
               people who train",
    standing: Standing::Checked,
};
const STATED_SOURCE: Source = Source {
    citation: "stated by the diner or their coach",
    standing: Standing::OwnChoice,
};

/// What is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ProteinAim {
    /// Grams a day, within [`PROTEIN`].
    GramsADay(f64),
    /// Grams per kg of body weight a day, within [`PROTEIN_PER_KG`].
    GramsPerKg(f64),
}

/// A day's protein to reach.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct ProteinTarget {
    /// Grams a day.
    pub grams: f64,
    /// How the figure comes about.
    pub working: String,
    /// Where it comes from.
    pub source: Source,
    /// Sentences to show with the figure.
    pub cautions: Vec<String>,
}

impl FromStr for ProteinAim {
    type Err = MeasureError;

    /// `120 g`, `120`, `1.6 g/kg`.
    fn from_str(text: &str) -> Result<Self, MeasureError> {
        let plain = text.trim().to_lowercase().replace(' ', "");
        let end = plain
            .find(|sign: char| !sign.is_ascii_digit() && sign != '.')
            .unwrap_or(plain.len());
        let example = "120 g` or `1.6 g/kg";
        let (digits, unit) = plain.split_at(end);
        let number: f64 = digits.parse().map_err(|_| MeasureError::NoNumber {
            what: PROTEIN.what,
            text: text.to_owned(),
            example,
        })?;
        let checked = |bounds: Bounds| bounds.check(number);
        match unit {
            "" | "g" | "g/day" | "gaday" => checked(PROTEIN).map(Self::GramsADay),
            "g/kg" | "gperkg" => checked(PROTEIN_PER_KG).map(Self::GramsPerKg),
            _ => Err(MeasureError::UnknownUnit {
                what: PROTEIN.what,
                unit: unit.to_owned(),
                example,
            }),
        }
    }
}

/// A day's protein for an adult: what is asked for, otherwise the recommended allowance;
/// nothing where that would need a weight that is not known. `bmi` and the weight are used
/// where they are known.
#[must_use]
pub(crate) fn protein_target(
    aim: Option<ProteinAim>,
    weight: Option<WeightKg>,
    bmi: Option<f64>,
    energy_kcal: f64,
) -> Option<ProteinTarget> {
    let weight_kg = weight.map(WeightKg::get);
    let (grams, working) = match aim {
        Some(ProteinAim::GramsADay(grams)) => (grams, format!("{grams:.0} g a day, as stated")),
        Some(ProteinAim::GramsPerKg(per_kg)) => per_weight(per_kg, weight_kg?),
        None => per_weight(RDA_PER_KG, weight_kg?),
    };
    let per_kg = weight_kg.map(|kg| grams / kg);
    let trains =
        |per_kg: f64| per_kg > TRAINING_PER_KG.0 - NEAR && per_kg < TRAINING_PER_KG.1 + NEAR;
    let source = match (aim, per_kg) {
        (None, _) => RDA_SOURCE,
        (Some(_), Some(per_kg)) if (per_kg - RDA_PER_KG).abs() < NEAR => RDA_SOURCE,
        (Some(_), Some(per_kg)) if trains(per_kg) => TRAINING_SOURCE,
        (Some(_), _) => STATED_SOURCE,
    };
    Some(ProteinTarget {
        grams,
        working,
        source,
        cautions: cautions(aim, grams, per_kg, bmi, energy_kcal),
    })
}

fn per_weight(per_kg: f64, kg: f64) -> (f64, String) {
    let grams = per_kg * kg;
    (
        grams,
        format!("{per_kg} g per kg x {kg:.1} kg = {grams:.0} g a day"),
    )
}

/// What is said along with a target; nothing with the recommended allowance.
fn cautions(
    aim: Option<ProteinAim>,
    grams: f64,
    per_kg: Option<f64>,
    bmi: Option<f64>,
    energy_kcal: f64,
) -> Vec<String> {
    let Some(aim) = aim else { return Vec::new() };
    let mut said = Vec::new();
    if per_kg.is_some_and(|per_kg| per_kg < RDA_PER_KG - NEAR) {
        said.push(format!(
            "{grams:.0} g of protein a day is less than 0.8 g per kg, the recommended allowance of adults: only where a clinician set it."
        ));
    }
    if per_kg.is_some_and(|per_kg| per_kg > TRAINING_PER_KG.1 + NEAR) {
        said.push(format!(
            "{grams:.0} g of protein a day is more than the 1.4 to 2.0 g per kg that suit most people who train; a dietitian can look closer."
        ));
    }
    if grams * KCAL_PER_G > MOST_OF_ENERGY * energy_kcal {
        said.push(format!(
            "{grams:.0} g of protein is more than 35 % of {} kcal, the top of the acceptable range; little room is left for other foods.",
            whole(energy_kcal)
        ));
    }
    let by_weight = matches!(aim, ProteinAim::GramsPerKg(_));
    if by_weight && bmi.is_some_and(|bmi| bmi >= PER_KG_RUNS_HIGH_BMI) {
        said.push(
            "At this weight for this height grams per kg run high; a dietitian can set grams a day."
                .to_owned(),
        );
    }
    said.push("With kidney disease the clinic sets how much protein is right.".to_owned());
    said
}

#[cfg(test)]
mod tests {
    use super::*;

    fn target(aim: Option<&str>, kg: f64, bmi: f64) -> ProteinTarget {
        let aim = aim.map(|text| text.parse().unwrap());
        let weight = WeightKg::new(kg).unwrap();
        protein_target(aim, Some(weight), Some(bmi), 2000.0).unwrap()
    }

    #[test]
    fn without_an_aim_it_is_the_recommended_allowance() {
        let usual = target(None, 70.0, 23.0);
        assert_eq!((usual.grams, usual.source), (56.0, RDA_SOURCE));
        assert!(usual.cautions.is_empty());
        assert_eq!(protein_target(None, None, None, 2000.0), None);
        let per_kg = Some(ProteinAim::GramsPerKg(1.6));
        assert_eq!(protein_target(per_kg, None, None, 2000.0), None);
    }

    #[test]
    fn the_source_follows_the_figure() {
        for (text, grams, source) in [
            ("1.4 g/kg", 98.0, TRAINING_SOURCE),
            ("2 g/kg", 140.0, TRAINING_SOURCE),
            ("56 g", 56.0, RDA_SOURCE),
            ("75", 75.0, STATED_SOURCE),
        ] {
            let target = target(Some(text), 70.0, 23.0);
            assert!((target.grams - grams).abs() < 1e-9, "{text}");
            assert_eq!(target.source, source, "{text}");
            assert!(target.cautions.iter().any(|c| c.contains("kidney")));
        }
    }

    #[test]
    fn too_little_and_too_much_are_told() {
        let says = |aim, kg, bmi, word: &str| {
            let target = target(Some(aim), kg, bmi);
            target.cautions.iter().any(|caution| caution.contains(word))
        };
        assert!(says("40 g", 70.0, 23.0, "less than 0.8 g"));
        assert!(says("2.5 g/kg", 70.0, 23.0, "more than the 1.4"));
        assert!(says("180 g", 70.0, 23.0, "35 %"));
        assert!(says("1.6 g/kg", 100.0, 34.0, "run high"));
        assert!(!says("1.6 g/kg", 70.0, 23.0, "run high"));
        for text in ["", "much", "5 g", "12 g/kg", "120 oz"] {
            assert!(text.parse::<ProteinAim>().is_err(), "{text}");
        }
    }
}
