//! The published equations as tables: one row per sex, age and, in 2023, activity.
//!
//! Every row reads
//! `kcal = intercept + age x years + factor x (height x cm or m + weight x kg) + growth`,
//! with a factor of 1 where the publication has none.

use super::body::{Activity, Body, Sex};
use super::source::{Source, Standing};

/// Adults are 19 and over in both sets of equations.
pub(crate) const ADULT_FROM: u8 = 19;

/// The unit a row's height coefficient is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum HeightUnit {
    /// Centimetres.
    Cm,
    /// Metres.
    M,
}

/// One row, filled in for a person's sex, age and activity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Row {
    /// Name of the equation, for people.
    pub name: &'static str,
    /// kcal.
    pub intercept: f64,
    /// kcal per year of age.
    pub age: f64,
    /// kcal per unit of height.
    pub height: f64,
    /// The unit of height.
    pub height_unit: HeightUnit,
    /// kcal per kg.
    pub weight: f64,
    /// What the height and weight terms are multiplied by, where the equation does so.
    pub factor: Option<f64>,
    /// kcal laid down in growing tissue.
    pub growth: f64,
    /// Publication and standing of the weakest figure in the row.
    pub source: Source,
}

const REPORT_2023: &str = "National Academies, Dietary Reference Intakes for Energy, 2023 \
                           (doi 10.17226/26818), equations for estimated energy requirement";
const REPORT_2005: &str = "Institute of Medicine, Dietary Reference Intakes for Energy and \
                           macronutrients, 2002/2005 (doi 10.17226/10490), chapter 5";
const PAPER_1990: &str = "Mifflin, St Jeor and others, Am J Clin Nutr 1990;51:241-247, abstract";

/// Intercept, age, height (cm), weight; inactive to very active.
type Rows2023 = [[f64; 4]; 4];

// Checked: all eight rows agree in several independent public copies.
const MEN_2023: Rows2023 = [
    [753.07, -10.83, 6.50, 14.10],
    [581.47, -10.83, 8.30, 14.94],
    [1004.82, -10.83, 6.52, 15.91],
    [-517.88, -10.83, 15.61, 19.11],
];
const WOMEN_2023: Rows2023 = [
    [584.90, -7.01, 5.72, 11.71],
    [575.77, -7.01, 6.60, 12.14],
    [710.25, -7.01, 6.54, 12.34],
    [511.83, -7.01, 9.07, 12.56],
];

// Ages 3 to 18. Recalled, then seen in one clinical reprint of the table. Of the growth
// figures below that copy showed the girls'; the boys' are from memory.
const BOYS_2023: Rows2023 = [
    [-447.51, 3.68, 13.01, 13.15],
    [19.12, 3.68, 8.62, 20.28],
    [-388.19, 3.68, 12.66, 20.46],
    [-671.75, 3.68, 15.38, 23.25],
];
const GIRLS_2023: Rows2023 = [
    [55.59, -22.25, 8.43, 17.07],
    [-297.54, -22.25, 12.77, 14.73],
    [-189.55, -22.25, 11.74, 18.34],
    [-709.59, -22.25, 18.22, 14.25],
];

/// kcal a day for growth, 2023.
const fn growth_2023(sex: Sex, years: u8) -> f64 {
    match (sex, years) {
        (Sex::Male, 4..=8) | (Sex::Female, 0..=8) => 15.0,
        (Sex::Male, 9..=13) => 25.0,
        (Sex::Female, 9..=13) => 30.0,
        (Sex::Male, 0..=3) | (_, 14..=18) => 20.0,
        (_, ADULT_FROM..) => 0.0,
    }
}

/// EER 2023 for ages 3 and over.
#[must_use]
pub(crate) fn eer_2023(body: &Body) -> Row {
    let adult = body.age.get() >= ADULT_FROM;
    let (rows, standing) = match (body.sex, adult) {
        (Sex::Male, true) => (&MEN_2023, Standing::Checked),
        (Sex::Female, true) => (&WOMEN_2023, Standing::Checked),
        (Sex::Male, false) => (&BOYS_2023, Standing::FromMemory),
        (Sex::Female, false) => (&GIRLS_2023, Standing::Checked),
    };
    let [intercept, age, height, weight] = rows[place(body.activity)];
    Row {
        name: "EER 2023",
        intercept,
        age,
        height,
        height_unit: HeightUnit::Cm,
        weight,
        factor: None,
        growth: growth_2023(body.sex, body.age.get()),
        source: Source {
            citation: REPORT_2023,
            standing,
        },
    }
}

/// A 2005 equation: intercept, age, height (m), weight, and its four activity factors.
struct Row2005 {
    name: &'static str,
    terms: [f64; 4],
    factors: [f64; 4],
    standing: Standing,
}

const MEN_2005: Row2005 = Row2005 {
    name: "EER 2005",
    terms: [662.0, -9.53, 539.6, 15.91],
    factors: [1.0, 1.11, 1.25, 1.48],
    standing: Standing::Checked,
};
const WOMEN_2005: Row2005 = Row2005 {
    name: "EER 2005",
    terms: [354.0, -6.91, 726.0, 9.36],
    factors: [1.0, 1.12, 1.27, 1.45],
    standing: Standing::Checked,
};
const BOYS_2005: Row2005 = Row2005 {
    name: "EER 2005",
    terms: [88.5, -61.9, 903.0, 26.7],
    factors: [1.0, 1.13, 1.26, 1.42],
    standing: Standing::Checked,
};
const GIRLS_2005: Row2005 = Row2005 {
    name: "EER 2005",
    terms: [135.3, -30.8, 934.0, 10.0],
    factors: [1.0, 1.16, 1.31, 1.56],
    standing: Standing::Checked,
};
// Total expenditure of adults with a body mass index over 25, to keep their weight.
const HEAVIER_MEN_2005: Row2005 = Row2005 {
    name: "TEE 2005 for a body mass index over 25",
    terms: [1086.0, -10.1, 416.0, 13.7],
    factors: [1.0, 1.12, 1.29, 1.59],
    standing: Standing::FromMemory,
};
// The women's equation was seen in a public copy, its factors above 1.00 are from memory.
const HEAVIER_WOMEN_2005: Row2005 = Row2005 {
    name: "TEE 2005 for a body mass index over 25",
    terms: [448.0, -7.95, 619.0, 11.4],
    factors: [1.0, 1.16, 1.27, 1.44],
    standing: Standing::FromMemory,
};

/// The body mass index over which the 2005 report gives adults an equation of their own: 25,
/// and half a hundredth for rounded weights, since the report's table of EER still has
/// 81.0 kg at 1.80 m (it is worked for 24.99).
pub(crate) const HEAVIER_OVER_BMI: f64 = 25.005;

/// EER 2005 for ages 3 and over; for adults over [`HEAVIER_OVER_BMI`], TEE 2005.
#[must_use]
pub(crate) fn eer_2005(body: &Body) -> Row {
    let adult = body.age.get() >= ADULT_FROM;
    let heavier = adult && body.bmi() > HEAVIER_OVER_BMI;
    let row = match (body.sex, adult, heavier) {
        (Sex::Male, _, true) => HEAVIER_MEN_2005,
        (Sex::Female, _, true) => HEAVIER_WOMEN_2005,
        (Sex::Male, true, false) => MEN_2005,
        (Sex::Female, true, false) => WOMEN_2005,
        (Sex::Male, false, false) => BOYS_2005,
        (Sex::Female, false, false) => GIRLS_2005,
    };
    let [intercept, age, height, weight] = row.terms;
    Row {
        name: row.name,
        intercept,
        age,
        height,
        height_unit: HeightUnit::M,
        weight,
        factor: Some(row.factors[place(body.activity)]),
        growth: match body.age.get() {
            0..=8 => 20.0,
            9..=18 => 25.0,
            ADULT_FROM.. => 0.0,
        },
        source: Source {
            citation: REPORT_2005,
            standing: row.standing,
        },
    }
}

/// Resting energy, Mifflin-St Jeor 1990 with the rounded coefficients; fitted on ages 19 to 78.
#[must_use]
pub(crate) fn mifflin_resting(body: &Body) -> Row {
    Row {
        name: "Mifflin-St Jeor 1990, resting energy",
        intercept: match body.sex {
            Sex::Male => 5.0,
            Sex::Female => -161.0,
        },
        age: -5.0,
        height: 6.25,
        height_unit: HeightUnit::Cm,
        weight: 10.0,
        factor: None,
        growth: 0.0,
        source: Source {
            citation: PAPER_1990,
            standing: Standing::Checked,
        },
    }
}

/// The oldest age in the group Mifflin-St Jeor was fitted on.
pub(crate) const MIFFLIN_TO: u8 = 78;

/// What resting energy is customarily multiplied by for a day. Not part of the 1990 paper:
/// textbook custom, so never more than common practice.
#[must_use]
pub(crate) const fn customary_factor(activity: Activity) -> f64 {
    match activity {
        Activity::Inactive => 1.2,
        Activity::LowActive => 1.375,
        Activity::Active => 1.55,
        Activity::VeryActive => 1.725,
    }
}

const fn place(activity: Activity) -> usize {
    match activity {
        Activity::Inactive => 0,
        Activity::LowActive => 1,
        Activity::Active => 2,
        Activity::VeryActive => 3,
    }
}

impl Row {
    /// kcal a day for this body.
    #[must_use]
    pub(crate) fn kcal(&self, body: &Body) -> f64 {
        self.terms(body).iter().sum()
    }

    /// The summands: intercept, age, height, weight, growth; the factor is multiplied in.
    fn terms(&self, body: &Body) -> [f64; 5] {
        let factor = self.factor.unwrap_or(1.0);
        [
            self.intercept,
            self.age * f64::from(body.age.get()),
            factor * self.height * self.tall(body),
            factor * self.weight * body.weight.get(),
            self.growth,
        ]
    }

    fn tall(&self, body: &Body) -> f64 {
        match self.height_unit {
            HeightUnit::Cm => body.height.get(),
            HeightUnit::M => body.height.get() / 100.0,
        }
    }

    /// The arithmetic with the numbers filled in: the sum as published, then its terms.
    #[must_use]
    pub(crate) fn working(&self, body: &Body) -> Vec<String> {
        let years = body.age.get();
        // Metres divide out of centimetres with a tail of binary noise.
        let tall = (self.tall(body) * 10_000.0).round() / 10_000.0;
        let tall = format!("{} x {tall}", self.height);
        let unit = match self.height_unit {
            HeightUnit::Cm => "cm",
            HeightUnit::M => "m",
        };
        let heavy = format!("{} x {} kg", self.weight, body.weight.get());
        let size = match self.factor {
            Some(factor) => format!("+ {factor} x ({tall} {unit} + {heavy})"),
            None => format!("+ {tall} {unit} + {heavy}"),
        };
        let sign = if self.age < 0.0 { '-' } else { '+' };
        let mut sum = format!(
            "{} {sign} {} x {years} years {size}",
            self.intercept,
            self.age.abs()
        );
        if self.growth > 0.0 {
            sum = format!("{sum} + {} for growth", self.growth);
        }
        vec![sum, self.terms_line(body)]
    }

    /// `= 753.07 - 324.90 + 1105.00 + 987.00`.
    fn terms_line(&self, body: &Body) -> String {
        let mut line = String::from("=");
        let terms = self.terms(body);
        let shown = if self.growth > 0.0 { 5 } else { 4 };
        for (at, term) in terms.iter().take(shown).enumerate() {
            let piece = match (at, *term < 0.0) {
                (0, _) => format!(" {term:.2}"),
                (_, true) => format!(" - {:.2}", term.abs()),
                (_, false) => format!(" + {term:.2}"),
            };
            line.push_str(&piece);
        }
        line
    }
}
