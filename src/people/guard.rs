//! Guard rails: when no figure is given, and what is said with one.
//!
//! A refusal never carries a figure to aim for. Where a rail could be set two ways the
//! stricter one is taken.

use serde::Serialize;

use super::body::{AgeYears, Sex};
use super::condition::Condition;
use super::diner::Aim;
use super::equations::ADULT_FROM;
use super::whole;

// The cut-offs are the usual classes of adults (World Health Organization: severe thinness below
// 16, underweight below 18.5, obesity from 30, its class III from 40; from memory).
/// Body mass index below which no figure is given at all.
pub(crate) const BMI_VERY_LOW: f64 = 16.0;
/// Body mass index below which no figure lies under the need.
pub(crate) const BMI_LOW: f64 = 18.5;
/// Body mass index under which losing soon makes the weight low (own choice).
pub(crate) const BMI_LITTLE_TO_LOSE: f64 = 20.0;
/// Body mass index under which losing is outside the guideline's ground.
pub(crate) const BMI_LOSE_FROM: f64 = 25.0;
/// Body mass index from which gaining calls for a clinician.
pub(crate) const BMI_HIGH: f64 = 30.0;
/// Body mass index from which no figure is estimated.
pub(crate) const BMI_VERY_HIGH: f64 = 40.0;
/// A stated energy above this (kcal a day; own choice) is questioned.
pub(crate) const STATED_HIGH: f64 = 6000.0;
/// A need this far under the floor, as a part of the floor, is not raised but referred (own
/// choice): the raise would itself change the weight.
pub(crate) const RAISE_FROM: f64 = 0.9;
/// From this age losing calls for a clinician (common practice).
pub(crate) const OLDER_FROM: u8 = 65;

/// The lowest day's energy named here, kcal; the women's where the sex is not known: lower ends
/// of the energy ranges for losing weight of the 2013 AHA/ACC/TOS guideline for overweight and
/// obesity in adults, Circulation 2014;129(25 Suppl 2):S102-S138, recommendation 3a (1,200-1,500
/// kcal for women, 1,500-1,800 kcal for men; checked).
#[must_use]
pub(crate) const fn floor_kcal(sex: Option<Sex>) -> f64 {
    match sex {
        Some(Sex::Male) => 1500.0,
        Some(Sex::Female) | None => 1200.0,
    }
}

/// Why no figure is given. Its `Display` is a whole sentence for the diner, with whom to see.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, thiserror::Error)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Refusal {
    /// Under 19.
    #[error(
        "People under 19 are still growing, so no energy target is given here. A doctor, or a dietitian who works with young people, can say what is right."
    )]
    UnderNineteen,
    /// Pregnant or nursing.
    #[error(
        "In pregnancy and while nursing, energy needs change from month to month, so no energy target is given here. A doctor, midwife or dietitian can say what is right."
    )]
    PregnantOrNursing,
    /// Body mass index under 16.
    #[error(
        "At this weight for this height a figure from a formula could do harm, so none is given here. Please see a doctor soon; they can help, and bring in a dietitian."
    )]
    WeightVeryLow,
    /// Body mass index of 40 and over, and no energy stated.
    #[error(
        "At this weight for this height the formulas are too far off, so no energy target is given here. A doctor or dietitian can set one, and it can then be stated as the day's energy."
    )]
    WeightVeryHigh,
    /// The aim to lose at a body mass index under 18.5.
    #[error(
        "At this weight for this height no target for losing is given. If losing feels needed, please talk it over with a doctor or dietitian."
    )]
    LoseAtLowWeight,
    /// A stated energy not known to cover the need, at a body mass index under 18.5.
    #[error(
        "At this weight for this height a day's energy should cover the whole need, and the stated one is not known to. Please have a doctor or dietitian set it."
    )]
    StatedUnderNeedAtLowWeight,
    /// An eating disorder, and no energy stated.
    #[error(
        "With an eating disorder, now or in the past, a figure from a formula could do harm, so none is given here. A doctor or dietitian of the care team can set one, and it can then be stated as the day's energy."
    )]
    EatingDisorder,
    /// The aim to lose with an eating disorder.
    #[error(
        "With an eating disorder, now or in the past, no target for losing is given. Please talk it over with a doctor or dietitian of the care team."
    )]
    LoseWithEatingDisorder,
    /// Losing would leave too little above the floor.
    #[error(
        "There is too little room between this energy need and {floor} kcal, the usual lowest day without a clinician, to set a target for losing. A doctor or dietitian can look for another way.",
        floor = whole(*floor_kcal)
    )]
    LoseAtFloor {
        /// The floor that would be crossed.
        floor_kcal: f64,
    },
    /// The estimated need lies far under the floor.
    #[error(
        "The estimated need lies well below {floor} kcal, the usual lowest day without a clinician, so no energy target is given here. A doctor or dietitian can set one that fits.",
        floor = whole(*floor_kcal)
    )]
    NeedFarUnderFloor {
        /// The floor.
        floor_kcal: f64,
    },
    /// A stated energy under the floor.
    #[error(
        "{stated} kcal a day is below {floor} kcal, the usual lowest day without a clinician, so it is not used here. If a clinician set it, please follow it with them rather than with this program; otherwise a doctor or dietitian can help find a figure.",
        stated = whole(*stated_kcal), floor = whole(*floor_kcal)
    )]
    StatedUnderFloor {
        /// As stated.
        stated_kcal: f64,
        /// The floor.
        floor_kcal: f64,
    },
}

/// What is said along with a figure. Its `Display` is a whole sentence for the diner.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, thiserror::Error)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Caution {
    /// The target is the floor, a little above what was worked out.
    #[error(
        "The figure worked out, {worked_out} kcal, is below the usual lowest day without a clinician, so {floor} kcal is used. A dietitian can look closer.",
        worked_out = whole(*worked_out_kcal), floor = whole(*floor_kcal)
    )]
    RaisedToFloor {
        /// Before the raise.
        worked_out_kcal: f64,
        /// The floor.
        floor_kcal: f64,
    },
    /// The aim was cut short.
    #[error(
        "The target stops at {floor} kcal, the usual lowest day without a clinician.",
        floor = whole(*floor_kcal)
    )]
    StoppedAtFloor {
        /// The floor.
        floor_kcal: f64,
    },
    /// Losing at a body mass index under 20.
    #[error(
        "There is little to lose at this weight for this height, and losing soon makes it too low; please ask a doctor or dietitian first."
    )]
    LittleToLose,
    /// Losing at a body mass index from 20 to under 25.
    #[error(
        "The guideline for losing weight is written for a body mass index of 25 and over; below that, please ask a doctor or dietitian first."
    )]
    LoseOutsideGuideline,
    /// Losing at 65 and over.
    #[error(
        "From about 65, losing weight can take muscle and bone along; please ask a doctor or dietitian first."
    )]
    LoseWhenOlder,
    /// Losing on a medicine that lowers blood sugar.
    #[error(
        "Eating less on insulin or another medicine that lowers blood sugar can make it fall too low; please ask the clinician who set the dose first."
    )]
    LoseOnInsulin,
    /// Gaining at a body mass index of 30 and over.
    #[error(
        "At this weight for this height gaining can strain the heart and joints; please ask a doctor or dietitian first."
    )]
    GainAtHighWeight,
    /// A stated energy with an eating disorder.
    #[error(
        "With an eating disorder, now or in the past, the day's energy and all counting should be as agreed with the care team."
    )]
    CareTeamsEnergy,
    /// Body mass index under 18.5.
    #[error("The weight is low for the height; a doctor or dietitian can help.")]
    WeightLow,
    /// A stated energy at a body mass index of 40 and over.
    #[error(
        "At this weight for this height the day's energy should be one a doctor or dietitian set."
    )]
    StatedShouldBeClinicians,
    /// A stated energy above [`STATED_HIGH`].
    #[error(
        "{stated} kcal a day is more than almost anyone uses; please check the figure.",
        stated = whole(*stated_kcal)
    )]
    StatedHigh {
        /// As stated.
        stated_kcal: f64,
    },
    /// A stated energy more than the guideline's 750 kcal under the need.
    #[error(
        "The stated energy is {under} kcal under the estimated need, more than the 500 to 750 kcal of the guideline; please ask a doctor or dietitian first.",
        under = whole(*under_kcal)
    )]
    StatedFarUnderNeed {
        /// How far.
        under_kcal: f64,
    },
    /// A stated energy between the two floors, and no sex known.
    #[error("For men the usual lowest day without a clinician is 1,500 kcal.")]
    UnderMensFloor,
    /// A stated energy and no age known.
    #[error(
        "A stated energy is taken as an adult's. Under 19, in pregnancy or while nursing, ask a doctor or dietitian instead."
    )]
    AgeUnknown,
}

/// What the rails look at, as far as it is known.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Facts {
    /// Sex.
    pub sex: Option<Sex>,
    /// Completed years.
    pub age: Option<AgeYears>,
    /// Body mass index.
    pub bmi: Option<f64>,
    /// Pregnant or nursing.
    pub pregnant_or_nursing: bool,
    /// Conditions that set what a person eats.
    pub conditions: Vec<Condition>,
    /// What the weight should do.
    pub aim: Aim,
    /// kcal a day stated by the diner or a clinician.
    pub stated_kcal: Option<f64>,
}

impl Facts {
    /// Whether this condition was said.
    fn has(&self, condition: Condition) -> bool {
        self.conditions.contains(&condition)
    }

    /// Whether no figure may come from an equation, as the body stands.
    pub(super) fn is_beyond_equations(&self) -> bool {
        self.bmi.is_some_and(|bmi| bmi >= BMI_VERY_HIGH) || self.has(Condition::EatingDisorder)
    }
}

/// The rails that need no estimate of the need; they come before any arithmetic.
pub(crate) fn screen(facts: &Facts) -> Result<(), Refusal> {
    if facts.age.is_some_and(|age| age.get() < ADULT_FROM) {
        return Err(Refusal::UnderNineteen);
    }
    if facts.pregnant_or_nursing {
        return Err(Refusal::PregnantOrNursing);
    }
    if facts.has(Condition::EatingDisorder) {
        if facts.aim == Aim::Lose {
            return Err(Refusal::LoseWithEatingDisorder);
        }
        if facts.stated_kcal.is_none() {
            return Err(Refusal::EatingDisorder);
        }
    }
    if let Some(bmi) = facts.bmi {
        if bmi < BMI_VERY_LOW {
            return Err(Refusal::WeightVeryLow);
        }
        if bmi < BMI_LOW && facts.aim == Aim::Lose {
            return Err(Refusal::LoseAtLowWeight);
        }
        if bmi >= BMI_VERY_HIGH && facts.stated_kcal.is_none() {
            return Err(Refusal::WeightVeryHigh);
        }
    }
    Ok(())
}

/// What is said with an aim, whether the energy is estimated or stated.
#[must_use]
pub(crate) fn with_aim(facts: &Facts) -> Vec<Caution> {
    let older = |age: AgeYears| age.get() >= OLDER_FROM;
    let mut cautions = Vec::new();
    match (facts.aim, facts.bmi) {
        (Aim::Lose, Some(bmi)) if bmi < BMI_LITTLE_TO_LOSE => cautions.push(Caution::LittleToLose),
        (Aim::Lose, Some(bmi)) if bmi < BMI_LOSE_FROM => {
            cautions.push(Caution::LoseOutsideGuideline);
        }
        (Aim::Gain, Some(bmi)) if bmi >= BMI_HIGH => cautions.push(Caution::GainAtHighWeight),
        _ => {}
    }
    if facts.aim == Aim::Lose && facts.age.is_some_and(older) {
        cautions.push(Caution::LoseWhenOlder);
    }
    if facts.aim == Aim::Lose && facts.has(Condition::Insulin) {
        cautions.push(Caution::LoseOnInsulin);
    }
    cautions
}

/// A stated energy held against the floor, the need where it is known, and plain sense.
pub(crate) fn screen_stated(
    stated_kcal: f64,
    facts: &Facts,
    need_kcal: Option<f64>,
) -> Result<Vec<Caution>, Refusal> {
    let floor_kcal = floor_kcal(facts.sex);
    // Not-a-number is under every floor.
    if stated_kcal.is_nan() || stated_kcal < floor_kcal {
        return Err(Refusal::StatedUnderFloor {
            stated_kcal,
            floor_kcal,
        });
    }
    let light = facts.bmi.is_some_and(|bmi| bmi < BMI_LOW);
    let covers = need_kcal.is_some_and(|need| stated_kcal >= need - ROUNDING);
    if light && !covers {
        return Err(Refusal::StatedUnderNeedAtLowWeight);
    }
    let mut cautions = Vec::new();
    if facts.sex.is_none() && stated_kcal < self::floor_kcal(Some(Sex::Male)) {
        cautions.push(Caution::UnderMensFloor);
    }
    if facts.age.is_none() {
        cautions.push(Caution::AgeUnknown);
    }
    if facts.bmi.is_some_and(|bmi| bmi >= BMI_VERY_HIGH) {
        cautions.push(Caution::StatedShouldBeClinicians);
    }
    if facts.has(Condition::EatingDisorder) {
        cautions.push(Caution::CareTeamsEnergy);
    }
    if light {
        cautions.push(Caution::WeightLow);
    }
    if stated_kcal > STATED_HIGH {
        cautions.push(Caution::StatedHigh { stated_kcal });
    }
    let under_kcal = need_kcal.map_or(0.0, |need| need - stated_kcal);
    if under_kcal > GUIDELINE_CUT_MOST {
        cautions.push(Caution::StatedFarUnderNeed { under_kcal });
    }
    Ok(cautions)
}

/// People state energies to the nearest 50 or 100 kcal.
const ROUNDING: f64 = 50.0;
/// The guideline's largest usual cut, kcal a day (the publication of [`floor_kcal`]).
const GUIDELINE_CUT_MOST: f64 = 750.0;
