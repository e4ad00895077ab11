//! A dish held against one person's day: what is left of it, and the meal it is for.

use super::choice_words::{ChoiceJson, choice_line};
use super::layout::{LINE_WIDTH, grid, visible, wrap};
use super::number::{self, kcal, share};
use crate::daylog::Left;
use crate::fit::{Measured, Room};
use crate::ledger::{Audit, Choice, Kind, Limit, Rest, Subgroup, Subject, Verdict, verdict};
use serde::Serialize;
use std::cmp::Ordering;
use tabled::builder::Builder;
use unicode_width::UnicodeWidthStr;

/// A dish against a person's day.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct Today {
    /// Whose day.
    pub diner: String,
    /// Their local date.
    pub date: String,
    /// How much has been logged on it.
    pub entries: usize,
    /// The meal the dish is held against, where one is planned.
    pub meal: Option<MealFit>,
    /// How the dish fits the rest of the day, where that is asked for; nothing where its energy
    /// is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub choice: Option<ChoiceJson>,
    /// Groups and limits in the order of the audit.
    pub left: Vec<OfLeft>,
    #[serde(skip)]
    chosen: Option<Choice>,
}

/// A dish against a planned meal, held as the right-sized plate holds it ([`Room`]).
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct MealFit {
    /// Name of the meal.
    pub name: String,
    /// Its planned share of the day.
    pub share: f64,
    /// kcal left of the planned ones, and of the day.
    pub energy_kcal: f64,
    /// How many entries were logged for it already.
    pub entries: usize,
    /// Whether it is held against what is left of the day for it.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub of_left: bool,
    /// Whether the energy and every firm limit are kept.
    pub fits: bool,
    /// The limits that go beyond their mark, most first.
    pub beyond: Vec<Beyond>,
    /// Groups of which the dish holds more than the meal's part: information, no fault.
    pub more: Vec<Beyond>,
    /// The dish's energy over `energy_kcal`; `None` when nothing is left or the energy is
    /// not known.
    pub energy_share: Option<f64>,
}

/// Something that goes beyond what a meal may hold.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct Beyond {
    /// Its name.
    pub name: String,
    /// Likely in the dish.
    pub dish: f64,
    /// The most the meal may hold.
    pub most: f64,
    /// Unit of both.
    pub unit: String,
    /// What the most is the share of.
    pub of: String,
    /// Whether a dish that goes beyond does not fit: sodium alone is no reason.
    pub firm: bool,
}

impl Beyond {
    /// How many times the most; nothing when that is 0.
    fn times(&self) -> f64 {
        if self.most > 0.0 {
            self.dish / self.most
        } else {
            f64::INFINITY
        }
    }

    fn words(&self) -> String {
        match self.times() {
            times if times.is_finite() && times < 20.0 => format!("{} {}", self.name, share(times)),
            _ => format!("{} used up", self.name),
        }
    }
}

/// One group or limit: what is left, and what the dish takes of it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct OfLeft {
    /// Key of the group or limit.
    pub key: &'static str,
    /// Whether it is a food group.
    pub is_group: bool,
    /// Unit of the amounts.
    pub unit: &'static str,
    /// Likely left; below 0 when passed.
    pub left: f64,
    /// Likely in the dish; `None` when not known.
    pub dish: Option<f64>,
    /// Dish over left; `None` when nothing is left or the dish's figure is not known.
    pub share: Option<f64>,
    #[serde(skip)]
    subject: Subject,
}

impl Today {
    /// Holds an audited dish against what is left of a day, and of a meal where one is given
    /// with its name, planned share and how much was logged for it.
    pub(crate) fn of(audit: &Audit, of: &Standing) -> Self {
        let chosen = of.rest.as_ref();
        let chosen = chosen.and_then(|rest| rest.choice(&audit.ledger));
        Self {
            diner: of.diner.clone(),
            date: of.date.to_string(),
            entries: of.entries,
            meal: of.meal.as_ref().map(|meal| meal_fit(audit, meal)),
            choice: chosen.as_ref().map(ChoiceJson::of),
            chosen,
            left: of.left.iter().map(|row| of_left(audit, row)).collect(),
        }
    }

    /// One line: whether the dish fits the meal, and what speaks against it.
    pub(super) fn meal_line(&self) -> Option<String> {
        let meal = self.meal.as_ref()?;
        let name = visible(&meal.name);
        if meal.energy_kcal <= 0.0 {
            return Some(format!(
                "Does not fit: nothing of what is planned for {name} is left"
            ));
        }
        let rest = match (meal.of_left, meal.entries) {
            (true, _) => "what is left for ",
            (false, 0) => "",
            (false, _) => "what is left of ",
        };
        let planned = format!("{rest}{name} ({} kcal)", kcal(meal.energy_kcal));
        let mut line = if meal.fits {
            let energy = meal.energy_share.map_or_else(
                || "energy not known".to_owned(),
                |s| format!("energy {} of it", share(s)),
            );
            format!("Fits {planned}: {energy}")
        } else {
            format!("Does not fit {planned}")
        };
        let first = if meal.fits { "; beyond: " } else { ": " };
        for (some, first) in [
            (&meal.beyond, first),
            (&meal.more, "; more than its part: "),
        ] {
            let mut join = first;
            for beyond in some {
                let words = format!("{join}{}", beyond.words());
                if line.width() + words.width() > LINE_WIDTH {
                    break;
                }
                line.push_str(&words);
                join = ", ";
            }
        }
        Some(line)
    }

    /// A short table of what the dish takes of what is left.
    pub(super) fn table(&self) -> String {
        let after = match self.entries {
            0 => "nothing logged yet".to_owned(),
            1 => "after 1 entry".to_owned(),
            many => format!("after {many} entries"),
        };
        let name = visible(&self.diner);
        let mut text = self.chosen.as_ref().map_or(String::new(), |choice| {
            wrap(&format!(
                "For the rest of {name}'s day: {}",
                choice_line(choice)
            )) + "
"
        });
        text.push_str(&wrap(&format!("Left of {name}'s day, {after}")));
        let mut table = Builder::default();
        table.push_record(["", "left today", "this dish", "of what is left", ""]);
        for row in self.left.iter().filter(|row| row.is_in_dish()) {
            table.push_record(row.cells());
        }
        text.push_str(&grid(table, &[22, 15, 14, 15, 7], &[1, 2, 3]));
        text
    }
}

impl OfLeft {
    fn cells(&self) -> [String; 5] {
        let amount = |value| format!("{} {}", number::amount(self.unit, value), self.unit);
        let left = match self.left {
            left if left > 0.0 => amount(left),
            _ => "none left".to_owned(),
        };
        [
            self.subject.label().to_owned(),
            left,
            self.dish.map_or("not known".to_owned(), amount),
            self.share.map_or("-".to_owned(), share),
            if self.beyond() { "beyond" } else { "" }.to_owned(),
        ]
    }

    /// Whether the dish holds enough of it to show, or nobody knows.
    fn is_in_dish(&self) -> bool {
        self.dish
            .is_none_or(|dish| number::amount(self.unit, dish) != "0")
    }

    /// Whether it is a limit of which the dish takes more than is left.
    fn beyond(&self) -> bool {
        let kind = self.subject.kind();
        match (self.share, self.dish) {
            (Some(share), _) => verdict(kind, share) == Verdict::Beyond,
            (None, Some(_)) => kind == Kind::StayWithin && self.left <= 0.0 && self.is_in_dish(),
            (None, None) => false,
        }
    }
}

/// Where a person stands in their day.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Standing {
    /// Whose day.
    pub diner: String,
    /// Their local date.
    pub date: jiff::civil::Date,
    /// Entries logged on it.
    pub entries: usize,
    /// What is left of the day.
    pub left: Vec<Left>,
    /// The meal at hand.
    pub meal: Option<MealStanding>,
    /// What the rest of the day asks of a dish, where that is to be said.
    pub rest: Option<Rest>,
}

/// Where a person stands in a meal.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct MealStanding {
    /// Its name.
    pub name: String,
    /// Planned share of the day.
    pub share: f64,
    /// Entries logged for it today.
    pub entries: usize,
    /// What it may still hold.
    pub room: Room,
    /// Whether that is what is left of the day for it, and not its own share.
    pub of_left: bool,
}

fn meal_fit(audit: &Audit, meal: &MealStanding) -> MealFit {
    let room = &meal.room;
    let energy = in_dish(audit, Measured::Limit(Limit::Energy));
    let passed_most = |is_group: bool| {
        let some = room.most.iter();
        let some = some.filter(move |m| matches!(m.what, Measured::Limit(_)) != is_group);
        some.filter_map(|most| {
            let dish = in_dish(audit, most.what)?;
            (dish > most.most).then(|| Beyond {
                name: most.what.label().to_owned(),
                dish,
                most: most.most,
                unit: most.what.unit().to_owned(),
                of: most.of.clone(),
                firm: most.firm && !is_group,
            })
        })
        .collect::<Vec<Beyond>>()
    };
    let (mut beyond, mut more) = (passed_most(false), passed_most(true));
    let passed = |dish: &f64| {
        let of_room = dish / room.energy_kcal.max(1.0);
        verdict(Kind::StayWithin, of_room) == Verdict::Beyond
    };
    if let Some(dish) = energy.filter(passed) {
        beyond.push(Beyond {
            name: Limit::Energy.label().to_owned(),
            dish,
            most: room.energy_kcal.max(0.0),
            unit: Limit::Energy.unit().to_owned(),
            of: room.of.clone(),
            firm: true,
        });
    }
    // What forbids the dish first; energy, then most of it first.
    let rank = |b: &Beyond| (b.firm, b.name == Limit::Energy.label(), b.times());
    for some in [&mut beyond, &mut more] {
        some.sort_by(|a, b| rank(b).partial_cmp(&rank(a)).unwrap_or(Ordering::Equal));
    }
    MealFit {
        name: meal.name.clone(),
        share: meal.share,
        energy_kcal: room.energy_kcal,
        entries: meal.entries,
        of_left: meal.of_left,
        fits: room.energy_kcal > 0.0 && !beyond.iter().any(|b| b.firm),
        beyond,
        more,
        energy_share: energy
            .filter(|_| room.energy_kcal > 0.0)
            .map(|dish| dish / room.energy_kcal),
    }
}

/// Likely amount in a dish; nothing where it is not known, or not told apart in an audit.
fn in_dish(audit: &Audit, what: Measured) -> Option<f64> {
    if let Some(subject) = what.subject() {
        return audit.ledger.line(subject).likely();
    }
    let mut starchy = audit
        .subgroups
        .iter()
        .filter(|(s, _)| *s == Subgroup::Starchy);
    match what {
        Measured::StarchyVegetables => starchy.next().map(|(_, amount)| *amount),
        _ => None,
    }
}

fn of_left(audit: &Audit, row: &Left) -> OfLeft {
    let subject = row.line.subject;
    let dish = audit.ledger.line(subject).likely();
    let left = row.left().likely;
    OfLeft {
        key: subject.key(),
        is_group: matches!(subject, Subject::Group(_)),
        unit: subject.unit(),
        left,
        dish,
        share: dish.filter(|_| left > 0.0).map(|dish| dish / left),
        subject,
    }
}
