//! From a diner to the day's energy target, or to a kind refusal.

use jiff::civil::Date;
use serde::Serialize;

use super::body::{AgeYears, Sex};
use super::condition::Condition;
use super::diner::{Aim, Diner, DinerError};
use super::energy::{self, EnergyError, EnergyNeed};
use super::guard::{self, Caution, Facts, Refusal};
use super::measure::ENERGY;
use super::protein::{ProteinAim, ProteinTarget, protein_target};
use super::source::{Source, Standing};
use super::whole;

/// Losing: this much less than the need, kcal a day.
pub(crate) const CUT_KCAL: f64 = 500.0;
/// Losing: but no more than this part of the need (common practice).
pub(crate) const CUT_MOST: f64 = 0.2;
/// Losing: with less room than this above the floor no target is set, kcal a day (own choice).
pub(crate) const CUT_LEAST_KCAL: f64 = 100.0;
/// Gaining: this much more than the need, kcal a day.
pub(crate) const RISE_KCAL: f64 = 300.0;
/// Where the cut comes from.
pub(crate) const CUT_SOURCE: Source = Source {
    citation: "2013 AHA/ACC/TOS guideline for overweight and obesity in adults, Circulation \
               2014;129(25 Suppl 2):S102-S138, recommendation 3a: 500 to 750 kcal a day less",
    standing: Standing::Checked,
};
/// Where the rise comes from.
pub(crate) const RISE_SOURCE: Source = Source {
    citation: "a moderate 300 kcal a day more",
    standing: Standing::CommonPractice,
};
// Ends of the patterns: Dietary Guidelines for Americans 2015-2020, appendix 3, where those of
// 1,000 to 1,400 kcal are for ages 2 to 8 (checked).
/// The lowest Dietary Guidelines pattern drawn for ages 9 and over, kcal.
pub(crate) const ADULT_PATTERNS_FROM: f64 = 1600.0;
/// The highest pattern, kcal.
pub(crate) const PATTERNS_TO: f64 = 3200.0;
/// The day's energy for one diner.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct DayTarget {
    /// The estimated need with its arithmetic, where the diner's body is known.
    pub need: Option<EnergyNeed>,
    /// kcal to plan the day by, not rounded; never below [`guard::floor_kcal`].
    pub target_kcal: f64,
    /// How the target follows from the need, a line a step.
    pub working: Vec<String>,
    /// No pattern below this energy level should be used, however the target is rounded: the
    /// lowest level that is not under the floor, kcal.
    pub lowest_level_kcal: u32,
    /// What to know about the pattern at this level, where there is anything.
    pub level_note: Option<&'static str>,
    /// Sentences to show with the figure.
    pub cautions: Vec<Caution>,
}

impl DayTarget {
    /// The estimated need, kcal a day.
    #[must_use]
    pub(crate) fn need_kcal(&self) -> Option<f64> {
        self.need.as_ref().map(|need| need.kcal_per_day)
    }
}

/// Why there is no target.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub(crate) enum NoTarget {
    /// A figure could do harm; the sentence says whom to see.
    #[error(transparent)]
    Refused(#[from] Refusal),
    /// The diner's details are missing or wrong; all faults.
    #[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))]
    Faults(Vec<DinerError>),
    /// No equation applies.
    #[error(transparent)]
    Energy(#[from] EnergyError),
}

/// The day's energy target of a diner on a date.
///
/// A stated energy is the target as it is; the aim is not applied on top. Otherwise the need
/// by the diner's equation is changed by the aim: keep, nothing; lose, [`CUT_KCAL`] less but
/// at most [`CUT_MOST`] of the need and never under the floor; gain, [`RISE_KCAL`] more.
/// Where the body is beyond the equations' ground nothing is estimated, not even beside a
/// stated energy. Fails with a refusal where a figure could do harm, and on faulty details.
pub(crate) fn day_target(diner: &Diner, today: Date) -> Result<DayTarget, NoTarget> {
    let facts = Facts {
        sex: diner.sex,
        age: diner.age_on(today),
        bmi: diner.bmi(),
        pregnant_or_nursing: diner.pregnant_or_nursing,
        conditions: diner.conditions.clone(),
        aim: diner.aim,
        stated_kcal: diner.stated_energy_kcal,
    };
    // First the rails: whoever must not get a figure need not be asked for more details.
    guard::screen(&facts)?;
    let faults = diner.faults(today);
    if !faults.is_empty() {
        return Err(NoTarget::Faults(faults));
    }
    let body = diner
        .body_on(today)
        .filter(|_| !facts.is_beyond_equations());
    let need = body
        .map(|body| energy::need(&body, diner.equation))
        .transpose();
    match (diner.stated_energy_kcal, need) {
        (Some(stated), need) => Ok(by_statement(stated, &facts, need.ok().flatten())?),
        (None, Ok(Some(need))) => Ok(by_aim(&facts, need)?),
        (None, Ok(None)) => Err(NoTarget::Faults(vec![DinerError::Missing {
            missing: diner.missing().join(", "),
        }])),
        (None, Err(error)) => Err(error.into()),
    }
}

/// The day's protein of a diner; nothing with kidney disease unless it was stated in grams, for
/// then a clinic sets it.
#[must_use]
pub(crate) fn protein_of(diner: &Diner, energy_kcal: f64) -> Option<ProteinTarget> {
    let stated = matches!(diner.protein, Some(ProteinAim::GramsADay(_)));
    if diner.conditions.contains(&Condition::Kidney) && !stated {
        return None;
    }
    protein_target(diner.protein, diner.weight_kg, diner.bmi(), energy_kcal)
}

/// The target of someone of whom little but a stated energy (kcal a day) is known.
///
/// Fails outside [`ENERGY`], under the floor and under 19.
pub(crate) fn stated_target(
    kcal: f64,
    sex: Option<Sex>,
    age: Option<AgeYears>,
) -> Result<DayTarget, NoTarget> {
    let facts = Facts {
        sex,
        age,
        stated_kcal: Some(kcal),
        ..Facts::default()
    };
    guard::screen(&facts)?;
    ENERGY
        .check(kcal)
        .map_err(|fault| NoTarget::Faults(vec![fault.into()]))?;
    Ok(by_statement(kcal, &facts, None)?)
}

fn by_statement(
    stated: f64,
    facts: &Facts,
    need: Option<EnergyNeed>,
) -> Result<DayTarget, Refusal> {
    let need_kcal = need.as_ref().map(|need| need.kcal_per_day);
    let mut cautions = guard::screen_stated(stated, facts, need_kcal)?;
    cautions.extend(guard::with_aim(facts));
    let working = vec![format!(
        "stated: {} kcal a day; the aim is not applied on top",
        whole(stated)
    )];
    Ok(finish(need, stated, working, facts, cautions))
}

fn by_aim(facts: &Facts, need: EnergyNeed) -> Result<DayTarget, Refusal> {
    let floor_kcal = guard::floor_kcal(facts.sex);
    let light = facts.bmi.is_some_and(|bmi| bmi < guard::BMI_LOW);
    let mut cautions: Vec<Caution> = light.then_some(Caution::WeightLow).into_iter().collect();
    cautions.extend(guard::with_aim(facts));
    let (target, working) = match facts.aim {
        Aim::Keep => (
            need.kcal_per_day,
            vec![format!(
                "aim keep: the need, {} kcal",
                whole(need.kcal_per_day)
            )],
        ),
        Aim::Gain => rise(need.kcal_per_day),
        Aim::Lose => cut(need.kcal_per_day, floor_kcal)?,
    };
    let (target, working) = match facts.aim {
        Aim::Lose => {
            if target <= floor_kcal {
                cautions.push(Caution::StoppedAtFloor { floor_kcal });
            }
            (target, working)
        }
        Aim::Keep | Aim::Gain => raise(target, working, floor_kcal, &mut cautions)?,
    };
    Ok(finish(Some(need), target, working, facts, cautions))
}

fn rise(need: f64) -> (f64, Vec<String>) {
    let target = need + RISE_KCAL;
    let line = format!(
        "aim gain: {} + {RISE_KCAL} = {} kcal; {RISE_SOURCE}",
        whole(need),
        whole(target)
    );
    (target, vec![line])
}

fn cut(need: f64, floor_kcal: f64) -> Result<(f64, Vec<String>), Refusal> {
    if need - floor_kcal < CUT_LEAST_KCAL {
        return Err(Refusal::LoseAtFloor { floor_kcal });
    }
    let most = need * CUT_MOST;
    let cut = CUT_KCAL.min(most);
    let mut working = vec![
        format!("aim lose: {CUT_KCAL} kcal less; {CUT_SOURCE}"),
        format!(
            "but at most {:.0} % of the need: {CUT_MOST} x {} = {} kcal (common practice)",
            CUT_MOST * 100.0,
            whole(need),
            whole(most)
        ),
        format!(
            "{} - {} = {} kcal",
            whole(need),
            whole(cut),
            whole(need - cut)
        ),
    ];
    if need - cut < floor_kcal {
        working.push(format!("not below the floor of {} kcal", whole(floor_kcal)));
    }
    Ok(((need - cut).max(floor_kcal), working))
}

/// Lifts a target a little under the floor to it; refuses one far under.
fn raise(
    target: f64,
    mut working: Vec<String>,
    floor_kcal: f64,
    cautions: &mut Vec<Caution>,
) -> Result<(f64, Vec<String>), Refusal> {
    if target >= floor_kcal {
        return Ok((target, working));
    }
    if target < floor_kcal * guard::RAISE_FROM {
        return Err(Refusal::NeedFarUnderFloor { floor_kcal });
    }
    cautions.push(Caution::RaisedToFloor {
        worked_out_kcal: target,
        floor_kcal,
    });
    working.push(format!("raised to the floor of {} kcal", whole(floor_kcal)));
    Ok((floor_kcal, working))
}

fn finish(
    need: Option<EnergyNeed>,
    target_kcal: f64,
    working: Vec<String>,
    facts: &Facts,
    cautions: Vec<Caution>,
) -> DayTarget {
    DayTarget {
        need,
        target_kcal,
        working,
        lowest_level_kcal: lowest_level(guard::floor_kcal(facts.sex)),
        level_note: level_note(target_kcal),
        cautions,
    }
}

/// Levels go in steps of 200 kcal.
fn lowest_level(floor_kcal: f64) -> u32 {
    (floor_kcal / 200.0).ceil() as u32 * 200
}

fn level_note(target_kcal: f64) -> Option<&'static str> {
    if target_kcal < ADULT_PATTERNS_FROM {
        return Some(
            "A day under 1,600 kcal hardly holds all that an adult needs: the Dietary Guidelines \
             draw smaller patterns for ages 2 to 8 only. A dietitian can help to fit it.",
        );
    }
    if target_kcal > PATTERNS_TO {
        return Some(
            "The Dietary Guidelines patterns end at 3,200 kcal; what is needed beyond that is \
             not in the allowances.",
        );
    }
    None
}

#[cfg(test)]
mod tests;
