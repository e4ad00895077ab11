//! Remarks on a plate, and their words.

use std::fmt;

/// A remark on a plate; its text is made by `Display`.
#[derive(Debug, Clone, PartialEq)]
pub enum Remark {
    /// The dish fits as served.
    Whole,
    /// One component as served is by itself over a cap.
    AloneOver {
        /// The component.
        item: String,
        /// What it is over: the cap that it is over the most.
        cap: String,
        /// Unit of the figures.
        unit: String,
        /// What the component holds as served.
        served: f64,
        /// The most.
        most: f64,
        /// What that is the share of.
        of: String,
    },
    /// Even the smallest amount a person can serve is over a cap.
    StepOver {
        /// The component.
        item: String,
        /// That amount in kitchen units.
        step: String,
        /// What it is over.
        cap: String,
        /// Unit of the figures.
        unit: String,
        /// What that amount holds.
        holds: f64,
        /// The most.
        most: f64,
        /// What that is the share of.
        of: String,
    },
    /// Some would fit by itself, but the rest of the dish keeps more without it.
    LeftOut {
        /// The component.
        item: String,
        /// What it competes for.
        caps: Vec<String>,
    },
    /// A soft cap is passed.
    SoftPassed {
        /// The cap.
        cap: String,
        /// Unit of the figures.
        unit: String,
        /// On the right-sized plate.
        eaten: f64,
        /// The most.
        most: f64,
        /// What that is the share of.
        of: String,
    },
}

impl fmt::Display for Remark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Remark::Whole => f.write_str("the dish fits as served"),
            Remark::AloneOver {
                item,
                cap,
                unit,
                served,
                most,
                of,
            } => write!(
                f,
                "the {item} alone {} more {cap} than {of} allows: {} {unit} served, {} {unit} \
                 allowed",
                if several(item) { "hold" } else { "holds" },
                figure(*served),
                figure(*most)
            ),
            Remark::StepOver {
                item,
                step,
                cap,
                unit,
                holds,
                most,
                of,
            } => write!(
                f,
                "no {item}: {step} already has {} {unit} of {cap}, {of} allows {} {unit}",
                figure(*holds),
                figure(*most)
            ),
            Remark::LeftOut { item, caps } => write!(
                f,
                "no {item}: without it more of the rest fits within {}",
                list(caps)
            ),
            Remark::SoftPassed {
                cap,
                unit,
                eaten,
                most,
                of,
            } => write!(
                f,
                "{cap} stays over that of {of}, {}: keeping to it would leave less than half of \
                 this plate",
                passed(*eaten, *most, unit)
            ),
        }
    }
}

/// `1,920 mg of 300 mg`; without a figure for what is used up.
fn passed(eaten: f64, most: f64, unit: &str) -> String {
    if most < NOTHING_LEFT * eaten {
        return format!("{} {unit} and nothing left", figure(eaten));
    }
    format!("{} {unit} of {} {unit}", figure(eaten), figure(most))
}

/// Less of a limit than this part of what a plate holds is no room worth a figure.
const NOTHING_LEFT: f64 = 0.01;

/// Hundreds without a decimal, the rest with one or two.
fn figure(value: f64) -> String {
    match value {
        v if v >= 100.0 => crate::people::whole(v),
        v if v >= 1.0 || v <= 0.0 => format!("{v:.1}"),
        v => format!("{v:.2}"),
    }
}

/// Whether a name is in the plural: `fries`, `beans`; not `swiss`.
#[must_use]
pub(crate) fn several(name: &str) -> bool {
    let head = crate::words::head(name).trim_end();
    let head = head.split(" with ").next().unwrap_or(head);
    head.ends_with('s') && !["ss", "us", "is"].iter().any(|end| head.ends_with(end))
}

fn list(names: &[String]) -> String {
    match names {
        [] => "the share".to_owned(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}
