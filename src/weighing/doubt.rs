//! What is doubtful about a dish's energy: which answer would narrow it most, and what a
//! printed figure does to it.

use super::combine::{Part, Tie, Z_10, log_sd_of, sum};
use super::component::{WeighedComponent, energy_part};
use super::weigh::Basis;
use crate::matching::Catalogue;
use crate::quantity::Range;

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

fn energy_parts(list: &[WeighedComponent], catalogue: &Catalogue) -> Vec<Option<Part>> {
    list.iter().map(|c| energy_part(c, catalogue)).collect()
}

fn width(parts: &[Option<Part>]) -> (f64, Range) {
    let known: Vec<Part> = parts.iter().flatten().copied().collect();
    let range = sum(&known);
    (range.high - range.low, range)
}

/// The question whose answer (a weight) would narrow the energy range most; `None` when
/// nothing is unsized or no answer is worth asking for.
#[must_use]
pub fn narrowest_question(list: &[WeighedComponent], catalogue: &Catalogue) -> Option<Question> {
    let unsized_part = |c: &WeighedComponent| {
        matches!(
            c.basis,
            Some(Basis::Typical | Basis::Hidden | Basis::Vessel)
        )
    };
    if !list.iter().any(unsized_part) {
        return None;
    }
    let parts = energy_parts(list, catalogue);
    let (whole, _) = width(&parts);
    let best = (0..list.len())
        .filter(|at| unsized_part(&list[*at]))
        .filter_map(|at| {
            let mut asked = parts.clone();
            let part = asked[at].as_mut()?;
            let sd = Basis::Weighed.log_sd();
            part.amount = super::typical::with_log_sd(part.amount.likely, sd);
            part.tie = match part.tie {
                Tie::Served { total_sd, .. } => Tie::Served {
                    own_sd: sd * part.amount.likely,
                    total_sd,
                },
                _ => Tie::Own,
            };
            Some((at, whole - width(&asked).0))
        })
        .max_by(|a, b| a.1.total_cmp(&b.1))?;
    (best.1 >= WORTH_ASKING_KCAL).then(|| Question {
        component: list[best.0].matched.line.food.clone(),
        decides_kcal: best.1,
        of_kcal: whole,
    })
}

/// Rescales what nobody sized so that the energy agrees with the printed `kcal`, each
/// amount within its range. Returns a remark on what was done, or that it cannot be.
pub(super) fn agree(
    list: &mut [WeighedComponent],
    kcal: f64,
    catalogue: &Catalogue,
) -> Option<String> {
    let parts = energy_parts(list, catalogue);
    let (_, before) = width(&parts);
    if before.likely <= 0.0 {
        return None;
    }
    let limits: Vec<(f64, f64)> = parts
        .iter()
        .map(|p| p.map_or((1.0, 1.0), |p| (p.amount.low, p.amount.high)))
        .collect();
    let moved = |slope: f64| -> Vec<Option<f64>> {
        parts
            .iter()
            .zip(&limits)
            .map(|(part, (low, high))| {
                let part = part.as_ref()?;
                let log_sd = log_sd_of(part.amount);
                let weight = part.amount.likely * part.times / before.likely;
                let grams =
                    part.amount.likely * (slope * log_sd * log_sd * weight).clamp(-9.0, 9.0).exp();
                Some(grams.clamp(
                    (*low).min(part.amount.likely),
                    (*high).max(part.amount.likely),
                ))
            })
            .collect()
    };
    let energy = |grams: &[Option<f64>]| -> f64 {
        parts
            .iter()
            .zip(grams)
            .filter_map(|(p, g)| Some(p.as_ref()?.times * (*g)?))
            .sum()
    };
    let (mut low, mut high) = (-4_000.0, 4_000.0);
    for _ in 0..80 {
        let middle = f64::midpoint(low, high);
        if energy(&moved(middle)) > kcal {
            high = middle;
        } else {
            low = middle;
        }
    }
    let grams = moved(low);
    let reached = energy(&grams);
    let narrower = {
        let now = log_sd_of(before);
        if now > PRINTED_LOG_SD {
            (PRINTED_LOG_SD / now).max(0.5)
        } else {
            1.0
        }
    };
    if (reached / kcal).ln().abs() > Z_10 * PRINTED_LOG_SD {
        return Some(format!(
            "the printed {} kcal cannot be reached with this food: its amounts allow {} to {} kcal. Something is missing from the dish, is not on the plate, or the printed figure is for another size",
            commas(kcal),
            rounded(energy(&moved(-4_000.0))),
            rounded(energy(&moved(4_000.0))),
        ));
    }
    for (c, grams) in list.iter_mut().zip(grams) {
        let (Some(range), Some(grams)) = (c.grams, grams) else {
            continue;
        };
        if range.is_exact() {
            continue;
        }
        c.grams = Some(super::typical::with_log_sd(
            grams,
            log_sd_of(range) * narrower,
        ));
        if let Tie::Served { own_sd, total_sd } = c.tie {
            c.tie = Tie::Served {
                own_sd: own_sd * narrower,
                total_sd,
            };
        }
    }
    Some(format!(
        "amounts are set within their ranges to agree with the printed {} kcal",
        commas(kcal)
    ))
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
