//! What is doubtful about a dish's energy: which answer would narrow it most, and what a
//! printed figure does to it.

use super::component::{WeighedComponent, energy, kcal_per_g};
use super::weigh::Basis;
use crate::matching::Catalogue;
use crate::quantity::{Estimate, Shared};

/// Spread of the log of a dish's true energy around the printed one. Restaurant labels are
/// right on average, but about one item in five holds 100 kcal more than it says (Urban et
/// al. 2011, 269 foods, as summarised in reviews).
const PRINTED_LOG_SD: f64 = 0.15;
/// Answers that narrow the range by less than this are not worth a question, kcal.
const WORTH_ASKING_KCAL: f64 = 25.0;

/// The one answer that narrows the energy range most.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// The component to ask about, as written.
    pub component: String,
    /// Width of the 80 % range that the answer takes away, kcal.
    pub decides_kcal: f64,
    /// Width of the whole range, kcal.
    pub of_kcal: f64,
}

impl std::fmt::Display for Question {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "ask how much {}: it decides {} of the {} kcal of doubt",
            self.component,
            rounded(self.decides_kcal),
            rounded(self.of_kcal)
        )
    }
}

/// The question whose answer (a weight) would narrow the energy range most; `None` when
/// nothing is unsized or no answer is worth asking for.
#[must_use]
pub fn narrowest_question(list: &[WeighedComponent], catalogue: &Catalogue) -> Option<Question> {
    let unsized_part = |c: &WeighedComponent| {
        c.basis()
            .is_some_and(|basis| basis.is_unsaid() || basis == Basis::Vessel)
    };
    if !list.iter().any(unsized_part) {
        return None;
    }
    let width = |list: &[WeighedComponent]| {
        let range = energy(list, catalogue).range();
        range.high - range.low
    };
    let whole = width(list);
    let mut asked = list.to_vec();
    let best = (0..list.len())
        .filter(|at| unsized_part(&list[*at]) && kcal_per_g(&list[*at], catalogue).is_some())
        .map(|at| {
            asked[at].change(String::new(), weighed);
            let narrowed = whole - width(&asked);
            asked[at] = list[at].clone();
            (at, narrowed)
        })
        .max_by(|a, b| a.1.total_cmp(&b.1))?;
    (best.1 >= WORTH_ASKING_KCAL).then(|| Question {
        component: list[best.0].matched.line.food.clone(),
        decides_kcal: best.1,
        of_kcal: whole,
    })
}

/// The amount as sure as if somebody had put it on scales.
fn weighed(grams: Estimate) -> Estimate {
    let sure = Estimate::new(grams.mean, Basis::Weighed.log_sd());
    match grams.shared {
        Shared::Served { total_sd, .. } => sure.sharing(Shared::Served {
            own_sd: sure.sd(),
            total_sd,
        }),
        Shared::Nothing | Shared::Kitchen => sure,
    }
}

/// A component's weight that may move, and the energy of a gram.
struct Movable {
    at: usize,
    grams: Estimate,
    kcal_per_g: f64,
    /// Its part of the dish's energy.
    part: f64,
}

impl Movable {
    /// Its weight when the doubtful amounts give way by `slope`, within its range.
    fn moved(&self, slope: f64) -> f64 {
        let Estimate { mean, log_sd, .. } = self.grams;
        let range = self.grams.range();
        let grams = mean * (slope * log_sd * log_sd * self.part).clamp(-9.0, 9.0).exp();
        grams.clamp(range.low.min(mean), range.high.max(mean))
    }
}

/// The slope at which the energy comes nearest to `kcal`.
fn slope_for(all: &[Movable], kcal: f64) -> f64 {
    let (mut low, mut high) = (-STEEPEST, STEEPEST);
    for _ in 0..80 {
        let middle = f64::midpoint(low, high);
        if energy_at(all, middle) > kcal {
            high = middle;
        } else {
            low = middle;
        }
    }
    low
}

/// A slope at which every amount is at an end of its range.
const STEEPEST: f64 = 4_000.0;

fn energy_at(all: &[Movable], slope: f64) -> f64 {
    all.iter().map(|m| m.moved(slope) * m.kcal_per_g).sum()
}

/// Rescales what nobody sized so that the energy agrees with the printed `kcal`, each
/// amount within its range. Returns a remark on what was done, or that it cannot be.
pub(super) fn agree(
    list: &mut [WeighedComponent],
    kcal: f64,
    catalogue: &Catalogue,
) -> Option<String> {
    let before = energy(list, catalogue);
    if before.mean <= 0.0 {
        return None;
    }
    let all: Vec<Movable> = list
        .iter()
        .enumerate()
        .filter_map(|(at, c)| {
            let (grams, kcal_per_g) = c.grams().zip(kcal_per_g(c, catalogue))?;
            let part = grams.mean * kcal_per_g / before.mean;
            Some(Movable {
                at,
                grams,
                kcal_per_g,
                part,
            })
        })
        .collect();
    let slope = slope_for(&all, kcal);
    if (energy_at(&all, slope) / kcal).ln().abs() > FAR_FROM_PRINTED * PRINTED_LOG_SD {
        return Some(format!(
            "the printed {} kcal cannot be reached with this food: its amounts allow {} to {} kcal. Something is missing from the dish, is not on the plate, or the printed figure is for another size",
            commas(kcal),
            rounded(energy_at(&all, -STEEPEST)),
            rounded(energy_at(&all, STEEPEST)),
        ));
    }
    let narrower = (PRINTED_LOG_SD / before.log_sd).clamp(0.5, 1.0);
    for m in all.iter().filter(|m| !m.grams.is_exact()) {
        let told = format!("moved to agree with {} kcal printed", commas(kcal));
        list[m.at].change(told, |grams| narrowed(grams, m.moved(slope), narrower));
    }
    Some(format!(
        "amounts are set within their ranges to agree with the printed {} kcal",
        commas(kcal)
    ))
}

/// Standard deviations by which the energy reached may miss the printed one.
const FAR_FROM_PRINTED: f64 = 1.28;

/// An amount with another mean, its doubt less.
fn narrowed(grams: Estimate, mean: f64, narrower: f64) -> Estimate {
    let shared = match grams.shared {
        Shared::Served { own_sd, total_sd } => Shared::Served {
            own_sd: own_sd * narrower,
            total_sd,
        },
        other => other,
    };
    Estimate::new(mean, grams.log_sd * narrower).sharing(shared)
}

/// To tens of kcal.
fn rounded(kcal: f64) -> String {
    commas((kcal / 10.0).round() * 10.0)
}

/// Whole kcal, thousands parted by a comma.
fn commas(kcal: f64) -> String {
    let whole = kcal.round().max(0.0) as u64;
    if whole >= 1_000 {
        format!("{},{:03}", whole / 1_000, whole % 1_000)
    } else {
        whole.to_string()
    }
}
