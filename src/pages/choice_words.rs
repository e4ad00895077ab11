//! How a dish fits the rest of a day: in words, and as JSON.

use super::number::share;
use crate::ledger::{Choice, Subject};
use serde::Serialize;

/// Less of what is missing than this is no help to name.
const NAMED_FROM: f64 = 0.05;

/// `brings of what is short vegetables 80 %, grains all; beyond what is left: sodium 140 %`.
pub(crate) fn choice_line(choice: &Choice) -> String {
    format!("{}; {}", brings(choice), beyond(choice))
}

fn brings(choice: &Choice) -> String {
    let named = choice.brings.iter().filter(|(_, part)| *part >= NAMED_FROM);
    let words = named.map(|(subject, part)| match part {
        part if *part >= 0.95 => format!("{} all", subject.label()),
        part => format!("{} {}", subject.label(), share(*part)),
    });
    let words: Vec<String> = words.collect();
    if words.is_empty() {
        return "brings nothing of what is short".to_owned();
    }
    format!("brings of what is short {}", words.join(", "))
}

fn beyond(choice: &Choice) -> String {
    let words = choice.beyond.iter().map(|(subject, held, room)| {
        let times = held / room;
        if times.is_finite() && times < 20.0 {
            format!("{} {}", subject.label(), share(times))
        } else {
            format!("{} (nothing left)", subject.label())
        }
    });
    let words: Vec<String> = words.collect();
    if words.is_empty() {
        return "within every limit that is left".to_owned();
    }
    format!("beyond what is left: {}", words.join(", "))
}

/// How a dish fits the rest of a day: keys are stable.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct ChoiceJson {
    brings: Vec<BringsJson>,
    beyond: Vec<BeyondJson>,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct BringsJson {
    key: &'static str,
    /// Part of what is missing; above 1 where it is more than that.
    part: f64,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
struct BeyondJson {
    key: &'static str,
    unit: &'static str,
    amount: f64,
    left: f64,
}

impl ChoiceJson {
    pub(crate) fn of(choice: &Choice) -> Self {
        let brings = |(subject, part): &(Subject, f64)| BringsJson {
            key: subject.key(),
            part: *part,
        };
        let beyond = |(subject, amount, left): &(Subject, f64, f64)| BeyondJson {
            key: subject.key(),
            unit: subject.unit(),
            amount: *amount,
            left: *left,
        };
        Self {
            brings: choice.brings.iter().map(brings).collect(),
            beyond: choice.beyond.iter().map(beyond).collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ledger::{Group, Limit};

    #[test]
    fn both_what_counts_for_and_what_counts_against_is_said() {
        let choice = Choice {
            brings: vec![
                (Group::Grains.into(), 1.2),
                (Group::Vegetables.into(), 0.634),
                (Group::Fruits.into(), 0.01),
            ],
            beyond: vec![
                (Limit::Sodium.into(), 1400.0, 1000.0),
                (Limit::Alcohol.into(), 1.0, 0.0),
            ],
            rank: 0.0,
        };
        assert_eq!(
            choice_line(&choice),
            "brings of what is short grains all, vegetables 63 %; beyond what is left: sodium \
             140 %, alcohol (nothing left)"
        );
        let none = Choice {
            brings: Vec::new(),
            beyond: Vec::new(),
            rank: 0.0,
        };
        assert_eq!(
            choice_line(&none),
            "brings nothing of what is short; within every limit that is left"
        );
    }
}
